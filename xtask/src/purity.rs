//! Core asks nothing of a clock, of chance or of a browser: its dependency tree on the phone says so.

use crate::command::{self, Outcome};
use crate::setup;

/// What must not be there.
const IMPURE: [&str; 8] = [
    "getrandom",
    "instant",
    "js-sys",
    "rand",
    "rand_core",
    "wasm-bindgen",
    "web-sys",
    "web-time",
];

/// Looks at the crates that core brings to the phone.
pub(crate) fn run() -> Outcome {
    let tree = command::cargo()
        .args(["tree", "--package", "pegline-core", "--target", setup::WASM])
        .args(["--edges", "normal", "--prefix", "none", "--format", "{p}"])
        .output()
        .map_err(|error| format!("Cargo could not list core's crates: {error}"))?;
    if !tree.status.success() {
        return Err(format!(
            "Cargo could not list core's crates: {}",
            String::from_utf8_lossy(&tree.stderr).trim()
        ));
    }
    match impure(&String::from_utf8_lossy(&tree.stdout)) {
        None => Ok(()),
        Some(name) => Err(format!(
            "Core must stay free of clocks, chance and browsers: find what brings `{name}` by \
             `cargo tree --package pegline-core --target {} --invert {name}`",
            setup::WASM
        )),
    }
}

/// The first crate in the list, one a line as "name version", that must not be there.
fn impure(tree: &str) -> Option<&str> {
    tree.lines()
        .filter_map(|line| line.split(' ').next())
        .find(|name| IMPURE.contains(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crate_that_asks_the_browser_is_named() {
        let tree = "pegline-core v0.1.0\nchrono v0.4.45\nweb-time v1.1.0\njs-sys v0.3.83\n";
        assert_eq!(impure(tree), Some("web-time"));
    }

    #[test]
    fn names_that_only_begin_alike_are_let_through() {
        assert_eq!(impure("pegline-core v0.1.0\nrandom-words v1.0.0\n"), None);
    }
}
