//! What a fresh machine lacks: the compiler's wasm target, browsers and their drivers.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::command::{self, Outcome};

/// The target that browsers run.
pub(crate) const WASM: &str = "wasm32-unknown-unknown";

/// How this machine compiles for [`WASM`].
pub(crate) enum Compiler {
    /// The toolchain that runs this program has the target.
    Own,
    /// Debian's compiler builds the standard library from its source.
    Debian,
}

/// Debian's packages with a compiler for wasm, its sources and its linker.
const DEBIAN_COMPILER: &[&str] = &["rustc-web", "rust-web-src", "cargo-web", "lld-19"];
const DEBIAN_RUSTC: &str = "/usr/bin/rustc";
const DEBIAN_LINKER: &str = "wasm-ld-19";

/// Finds a compiler for wasm, or installs one: by rustup, else Debian's own.
pub(crate) fn compiler() -> Outcome<Compiler> {
    if has_target() {
        return Ok(Compiler::Own);
    }
    if command::on_path("rustup").is_some() {
        eprintln!("Adding the compiler's {WASM} target");
        let added = Command::new("rustup").args(["target", "add", WASM]).status();
        if added.is_ok_and(|status| status.success()) && has_target() {
            return Ok(Compiler::Own);
        }
    }
    if !has_debian_compiler() {
        eprintln!("No {WASM} target to be had by rustup; trying Debian's compiler");
        // What counts is whether the compiler is there afterwards.
        let _ = apt_install(DEBIAN_COMPILER);
    }
    if has_debian_compiler() {
        return Ok(Compiler::Debian);
    }
    Err(format!(
        "The compiler cannot build for browsers yet: run `rustup target add {WASM}`, \
         or on Debian `sudo apt-get install {}`",
        DEBIAN_COMPILER.join(" ")
    ))
}

fn has_target() -> bool {
    let mut rustc = Command::new("rustc");
    rustc.args(["--print", "target-libdir", "--target", WASM]);
    command::first_line(&mut rustc).is_some_and(|folder| Path::new(&folder).is_dir())
}

fn has_debian_compiler() -> bool {
    command::on_path(DEBIAN_LINKER).is_some()
        && command::first_line(Command::new(DEBIAN_RUSTC).args(["--print", "sysroot"]))
            .is_some_and(|root| Path::new(&root).join("lib/rustlib/src/rust/library").is_dir())
}

impl Compiler {
    /// `cargo <verb> --target wasm32-unknown-unknown`, for this machine.
    ///
    /// Only `verb`s that stay within compiled code work in both ways: `build`, `rustc`, `clippy`,
    /// and `test --tests` (documentation tests would need the other toolchain's rustdoc).
    pub(crate) fn cargo(&self, verb: &str) -> Command {
        let mut cargo = command::cargo();
        cargo.args([verb, "--target", WASM]);
        if let Compiler::Debian = self {
            let parts =
                if verb == "test" { "std,panic_abort,panic_unwind" } else { "std,panic_abort" };
            cargo
                .arg(format!("-Zbuild-std={parts}"))
                .env("RUSTC_BOOTSTRAP", "1")
                .env("RUSTC", DEBIAN_RUSTC)
                .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", DEBIAN_LINKER);
        }
        cargo
    }
}

/// A program that tests need, and where it comes from.
struct Need {
    /// Names under which it is known; any one will do.
    programs: &'static [&'static str],
    /// Where it lies when it is not on the search path.
    elsewhere: &'static [&'static str],
    /// Debian's package.
    package: &'static str,
}

const CHROMIUM: &[Need] = &[
    Need {
        programs: &["chromium", "chromium-browser", "google-chrome"],
        elsewhere: &[],
        package: "chromium",
    },
    Need {
        programs: &["chromedriver"],
        elsewhere: &["/usr/lib/chromium-browser/chromedriver"],
        package: "chromium-driver",
    },
];

const FIREFOX: &[Need] =
    &[Need { programs: &["firefox-esr", "firefox"], elsewhere: &[], package: "firefox-esr" }];

const WEBKIT: &[Need] = &[
    Need { programs: &["WebKitWebDriver"], elsewhere: &[], package: "webkit2gtk-driver" },
    Need { programs: &["Xvfb"], elsewhere: &[], package: "xvfb" },
];

const SOLVER: &[Need] = &[
    Need { programs: &["cmake"], elsewhere: &[], package: "cmake" },
    // Its library reads the solver's headers.
    Need { programs: &["clang"], elsewhere: &[], package: "clang" },
];

/// A font with which screenshots look the same on every machine.
const FONT: (&str, &str) = ("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf", "fonts-dejavu-core");

impl Need {
    fn found(&self) -> Option<PathBuf> {
        self.programs
            .iter()
            .find_map(|program| command::on_path(program))
            .or_else(|| self.elsewhere.iter().map(PathBuf::from).find(|file| file.is_file()))
    }
}

/// The driver of Chromium, installed together with the browser if need be.
pub(crate) fn chromedriver() -> Outcome<PathBuf> {
    install(CHROMIUM)?;
    CHROMIUM
        .iter()
        .rfind(|need| need.programs.contains(&"chromedriver"))
        .and_then(Need::found)
        .ok_or_else(|| missing("chromium-driver"))
}

/// Every browser that the end-to-end tests drive.
pub(crate) fn browsers() -> Outcome {
    for needs in [CHROMIUM, FIREFOX, WEBKIT] {
        install(needs)?;
    }
    if !Path::new(FONT.0).is_file() {
        apt_install(&[FONT.1])?;
    }
    Ok(())
}

/// What the general solver of `cargo xtask bench` is built with.
pub(crate) fn for_the_solver() -> Outcome {
    install(SOLVER)
}

fn install(needs: &[Need]) -> Outcome {
    let lacking = |needs: &[Need]| -> Vec<&'static str> {
        needs.iter().filter(|need| need.found().is_none()).map(|need| need.package).collect()
    };
    let packages = lacking(needs);
    if packages.is_empty() {
        return Ok(());
    }
    apt_install(&packages)?;
    let still = lacking(needs);
    if still.is_empty() { Ok(()) } else { Err(missing(&still.join(" "))) }
}

fn missing(packages: &str) -> String {
    format!("More programs are needed: run `sudo apt-get install {packages}`")
}

fn apt_install(packages: &[&str]) -> Outcome {
    let sentence = missing(&packages.join(" "));
    let root = command::first_line(Command::new("id").arg("-u")).as_deref() == Some("0");
    let apt = |arguments: &[&str]| {
        let mut apt = if root {
            Command::new("apt-get")
        } else {
            let mut sudo = Command::new("sudo");
            sudo.args(["-n", "apt-get"]);
            sudo
        };
        apt.args(arguments).env("DEBIAN_FRONTEND", "noninteractive");
        apt
    };
    if command::on_path("apt-get").is_none()
        || !root && !command::succeeds(Command::new("sudo").args(["-n", "true"]))
    {
        return Err(sentence);
    }
    eprintln!("Installing {}", packages.join(", "));
    command::run(&mut apt(&["update", "--quiet=2"]), &sentence)?;
    let mut arguments = vec!["install", "--yes", "--no-install-recommends", "--quiet=2"];
    arguments.extend(packages);
    command::run(&mut apt(&arguments), &sentence)
}

/// The driver of Firefox, built if need be: Debian has no package of it, but its makers publish its
/// source.
pub(crate) fn geckodriver() -> Outcome<PathBuf> {
    if let Some(found) = command::on_path("geckodriver") {
        return Ok(found);
    }
    let tools = command::target()?.join("tools");
    let built = tools.join("bin").join("geckodriver");
    if !built.is_file() {
        eprintln!("Building geckodriver, once");
        command::run(
            command::cargo()
                .args([
                    "install",
                    "geckodriver",
                    "--version",
                    "0.37.1",
                    "--locked",
                    "--debug",
                    "--quiet",
                    "--root",
                ])
                .arg(&tools)
                .env("CARGO_TARGET_DIR", tools.join("build")),
            "Firefox's driver could not be built: put `geckodriver` on the search path",
        )?;
    }
    Ok(built)
}
