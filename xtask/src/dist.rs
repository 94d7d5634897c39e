//! `dist/`: the app as plain files, ready for any host.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::command::{self, Outcome};
use crate::{licences, setup};

/// Folders whose files go to the phone as they are.
const AS_THEY_ARE: [&str; 2] = ["static", "pwa-manifest"];

/// Where the app is built.
pub(crate) fn folder() -> PathBuf {
    command::project().join("dist")
}

/// The packages that know nothing of the garden. They are named together whenever one of them is built:
/// cargo gives a library the features that all packages named need, and builds it anew for others.
pub(crate) const TOOLS: [&str; 4] = [
    "--package=pegline-bindgen",
    "--package=pegline-journeys",
    "--package=pegline-server",
    "--features=pegline-journeys/browsers",
];

/// One of the project's tools, built when first asked for.
pub(crate) fn tool(name: &str) -> Outcome<Command> {
    command::run(
        command::cargo().args(["build", "--quiet", "--bin", name]).args(TOOLS),
        &format!("The tool {name} did not build"),
    )?;
    Ok(Command::new(command::target()?.join("debug").join(name)))
}

/// The tool that turns compiled wasm into what browsers load.
pub(crate) fn bindgen() -> Outcome<Command> {
    tool("pegline-bindgen")
}

/// Compiles the app for browsers.
pub(crate) fn compile() -> Outcome {
    command::run(
        setup::compiler()?
            .cargo("rustc")
            .args(["--release", "--package", "pegline-web", "--crate-type", "cdylib", "--"])
            // What the whole-program pass puts in place of calls weighs 5 kB more than the calls.
            .arg("-Cllvm-args=-inline-threshold=5")
            // Loops rewritten for speed, with more to keep in mind on each turn, weigh 6 kB more.
            .arg("-Cllvm-args=-disable-lsr")
            // Whatever is longer than a register is copied by the one instruction for it. Copies field
            // by field weigh 12 kB more; longer layouts take up to 12 % longer so, answers of 1 to 2 ms more.
            .arg("-Cllvm-args=-max-store-memcpy=1"),
        "The app did not compile",
    )
}

/// The door for other programs, as the tests of it ask: the app with [`ask`] exported, in `target/door`.
/// Built as the app is but for what only makes that smaller: as tests are built it takes more memory than
/// a browser gives.
///
/// [`ask`]: ../pegline_web/fn.ask.html
pub(crate) fn door() -> Outcome {
    command::run(
        setup::compiler()?.cargo("build").args([
            "--release",
            "--package",
            "pegline-web",
            "--features",
            "door",
        ]),
        "The door did not compile",
    )?;
    let target = command::target()?;
    command::run(
        bindgen()?
            .arg("bindgen")
            .arg(target.join(setup::WASM).join("release").join("pegline_web.wasm"))
            .args(["--target", "web", "--no-typescript", "--out-name", "pegline", "--out-dir"])
            .arg(target.join("door")),
        "The door could not be prepared for browsers",
    )
}

/// Builds the app. The last good `dist/` stays until the new one is whole.
pub(crate) fn run() -> Outcome {
    compile()?;
    let target = command::target()?;
    let fresh = target.join("dist");
    assemble(&fresh)
        .map_err(|error| format!("{} could not be filled: {error}", fresh.display()))?;
    let compiled = target.join(setup::WASM).join("release").join("pegline_web.wasm");
    command::run(
        bindgen()?
            .arg("bindgen")
            .arg(compiled)
            .args(["--target", "web", "--no-typescript"])
            // Names of functions are a quarter of the file, and a phone shows them to nobody.
            .args(["--remove-name-section", "--remove-producers-section"])
            .args(["--out-name", "pegline", "--out-dir"])
            .arg(&fresh),
        "The compiled app could not be prepared for browsers",
    )?;
    licences::write(&fresh)?;
    command::run(
        bindgen()?.arg("seal").arg(&fresh),
        "The service worker could not be told what to keep",
    )?;
    command::run(bindgen()?.arg("pack").arg(&fresh), "The app's files could not be packed")?;
    replace(&folder(), &fresh).map_err(|error| format!("dist/ could not be replaced: {error}"))
}

fn assemble(fresh: &Path) -> io::Result<()> {
    remove(fresh)?;
    AS_THEY_ARE.iter().try_for_each(|from| copy(&command::project().join(from), fresh))
}

fn copy(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}

fn replace(old: &Path, fresh: &Path) -> io::Result<()> {
    remove(old)?;
    fs::rename(fresh, old)
}

fn remove(folder: &Path) -> io::Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
