//! Starting other programs, and where this project's folders are.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What a chore comes to: done, or one sentence saying what to do about it.
pub(crate) type Outcome<T = ()> = Result<T, String>;

/// The project's folder.
pub(crate) fn project() -> &'static Path {
    let xtask = Path::new(env!("CARGO_MANIFEST_DIR"));
    xtask.parent().unwrap_or(xtask)
}

/// The folder in which cargo builds, wherever the reader's settings put it.
pub(crate) fn target() -> Outcome<PathBuf> {
    let this = std::env::current_exe().map_err(|error| {
        format!("Run this as `cargo xtask`, because its own place is unknown: {error}")
    })?;
    // Cargo puts this program into <target>/<profile>/.
    this.ancestors()
        .nth(2)
        .map(Path::to_path_buf)
        .ok_or_else(|| "Run this as `cargo xtask`, so that it finds the build folder".to_owned())
}

/// Cargo, in the project's folder, as it was called for this program.
pub(crate) fn cargo() -> Command {
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.current_dir(project());
    cargo
}

/// Runs a program with its output shown; `otherwise` is said if it cannot start or fails.
pub(crate) fn run(command: &mut Command, otherwise: &str) -> Outcome {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(otherwise.to_owned()),
        Err(error) => {
            Err(format!("{otherwise} ({} did not start: {error})", command.get_program().display()))
        }
    }
}

/// Whether a program starts and succeeds, with its output kept quiet.
pub(crate) fn succeeds(command: &mut Command) -> bool {
    command
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .stdin(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// The first line that a program prints, if it succeeds.
pub(crate) fn first_line(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    let line = text.lines().next()?.to_owned();
    output.status.success().then_some(line)
}

/// Where a program of this name lies on the search path.
pub(crate) fn on_path(program: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path).map(|folder| folder.join(program)).find(|file| file.is_file())
}
