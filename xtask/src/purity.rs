//! Core asks nothing of a clock, of chance or of a browser: its dependency tree on the phone says so.

use crate::command::{self, Outcome};
use crate::setup;

/// What must not be there.
const IMPURE: [&str; 8] =
    ["getrandom", "instant", "js-sys", "rand", "rand_core", "wasm-bindgen", "web-sys", "web-time"];

/// Features of the calendar that ask for the time. They need no further crate on the phone, so that no
/// name tells of them.
const CLOCKS: [&str; 3] = ["clock", "now", "wasmbind"];

/// Looks at the crates that core brings to the phone.
pub(crate) fn run() -> Outcome {
    let tree = command::cargo()
        .args(["tree", "--package", "pegline-core", "--target", setup::WASM])
        .args(["--edges", "normal", "--prefix", "none", "--format", "{p} {f}"])
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
        Some((name, found)) => Err(format!(
            "Core must stay free of clocks, chance and browsers: find what brings `{found}` by \
             `cargo tree --package pegline-core --target {} --edges normal,features --invert {name}`",
            setup::WASM
        )),
    }
}

/// The first crate in the list, one a line as "name version features", that must not be there, and what
/// of it must not: its name, or its name and a feature.
fn impure(tree: &str) -> Option<(&str, String)> {
    tree.lines().find_map(|line| {
        let (name, rest) = line.split_once(' ')?;
        if IMPURE.contains(&name) {
            return Some((name, name.to_owned()));
        }
        let mut features = rest.split([' ', ',']).filter(|_| name == "chrono");
        let clock = features.find(|feature| CLOCKS.contains(feature))?;
        Some((name, format!("{name}/{clock}")))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crate_that_asks_the_browser_is_named() {
        let tree =
            "pegline-core v0.1.0 \nchrono v0.4.45 alloc,serde\nweb-time v1.1.0 \njs-sys v0.3.83 \n";
        assert_eq!(impure(tree), Some(("web-time", "web-time".to_owned())));
    }

    #[test]
    fn a_calendar_that_asks_for_the_time_is_named_with_its_feature() {
        let tree = "pegline-core v0.1.0 \nchrono v0.4.45 alloc,clock,now\n";
        assert_eq!(impure(tree), Some(("chrono", "chrono/clock".to_owned())));
    }

    #[test]
    fn names_that_only_begin_alike_are_let_through() {
        assert_eq!(impure("pegline-core v0.1.0 \nrandom-words v1.0.0 now\n"), None);
    }
}
