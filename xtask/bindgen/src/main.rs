//! Turns compiled wasm into what browsers load, keep and test.
//!
//! `bindgen …` and `test-runner …` are wasm-bindgen's own tools with their own arguments, built
//! from the same lock file as the app, so that tool and crate never differ.
#![cfg_attr(test, allow(clippy::indexing_slicing))]

mod pack;
mod seal;
mod weigh;

use std::ffi::OsString;
use std::path::Path;

use anyhow::bail;

fn main() -> anyhow::Result<()> {
    let mut arguments = std::env::args_os().skip(1);
    let mode = arguments.next().and_then(|mode| mode.into_string().ok()).unwrap_or_default();
    let rest: Vec<OsString> = arguments.collect();
    let own_tool = || std::iter::once(OsString::from(&mode)).chain(rest.iter().cloned());
    match (mode.as_str(), rest.as_slice()) {
        ("bindgen", _) => wasm_bindgen_cli::wasm_bindgen::run_cli_with_args(own_tool()),
        ("test-runner", _) => {
            wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(own_tool())
        }
        ("seal", [app]) => seal::seal(Path::new(app)),
        ("pack", [app]) => pack::pack(Path::new(app)),
        ("weigh", [app, budget]) => weigh::weigh(Path::new(app), Path::new(budget), false),
        ("weigh", [app, budget, record]) if record == "--record" => {
            weigh::weigh(Path::new(app), Path::new(budget), true)
        }
        _ => bail!(
            "Use: pegline-bindgen bindgen … | test-runner … | seal <app> | \
             pack <app> | weigh <app> <budget> [--record]"
        ),
    }
}

/// The files of an app's folder by their address relative to it, in order; those packed beside them are
/// none of its own.
fn files(app: &Path) -> anyhow::Result<Vec<(String, Vec<u8>)>> {
    let mut found = Vec::new();
    let mut folders = vec![app.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder)? {
            let entry = entry?;
            if entry.file_type()?.is_dir() {
                folders.push(entry.path());
                continue;
            }
            let path = entry.path();
            if pack::is_packed(&path) {
                continue;
            }
            let address = path.strip_prefix(app)?.to_string_lossy().replace('\\', "/");
            found.push((address, std::fs::read(&path)?));
        }
    }
    found.sort();
    Ok(found)
}
