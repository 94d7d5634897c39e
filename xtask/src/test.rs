//! Every check, in the order in which a mistake is found soonest.

use std::thread;
use std::time::{Duration, Instant};

use clap::ValueEnum;

use crate::command::{self, Outcome};
use crate::{dist, purity, setup, size};

/// What to check.
#[derive(clap::Args)]
pub(crate) struct Options {
    /// Layers to run [default: all of them, in this order].
    layers: Vec<Layer>,
    /// Run only the native tests and journeys with these words in their names.
    #[arg(long, value_name = "WORDS", default_value = "")]
    only: String,
}

/// One kind of check.
#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum Layer {
    /// The source is formatted.
    Format,
    /// No compiler or clippy warning, natively and for browsers.
    Lint,
    /// Unit tests and checks against outside sources, natively.
    Native,
    /// The same kind of tests inside a headless browser.
    BrowserUnit,
    /// The app builds and stays within its size budget.
    Size,
    /// Whole journeys in Chromium, Firefox and WebKit.
    EndToEnd,
}

impl Layer {
    fn name(self) -> String {
        self.to_possible_value().map_or_else(String::new, |value| value.get_name().to_owned())
    }

    fn run(self, only: &str) -> Outcome {
        match self {
            Layer::Format => command::run(
                command::cargo().args(["fmt", "--all", "--check"]),
                "Run `cargo fmt --all`",
            ),
            Layer::Lint => lint(),
            Layer::Native => native(only),
            Layer::BrowserUnit => browser_unit(),
            Layer::Size => size::run(&size::Options::default()),
            Layer::EndToEnd => end_to_end(only),
        }
    }
}

/// Runs the layers, stops at the first that fails, and says what took how long.
pub(crate) fn run(options: &Options) -> Outcome {
    let layers = if options.layers.is_empty() { Layer::value_variants() } else { &options.layers };
    let mut times: Vec<(String, Duration)> = Vec::new();
    let mut outcome = Ok(());
    for layer in layers {
        println!("== {}", layer.name());
        let start = Instant::now();
        let ahead = matches!(layer, Layer::Native) && layers.contains(&Layer::EndToEnd);
        outcome = thread::scope(|scope| {
            let browsers = ahead.then(|| scope.spawn(prepare));
            layer.run(&options.only)?;
            browsers.map_or(Ok(()), |browsers| {
                let broken = |_| Err("The browsers could not be prepared".to_owned());
                browsers.join().unwrap_or_else(broken)
            })
        });
        times.push((layer.name(), start.elapsed()));
        if outcome.is_err() {
            break;
        }
    }
    println!("== time");
    for (name, time) in times {
        println!("{name:<14}{:>5} s", time.as_secs());
    }
    outcome
}

/// Makes what the journeys need while the native tests leave a processor idle: core's own tests are
/// compiled by one thread.
fn prepare() -> Outcome {
    setup::browsers()?;
    setup::geckodriver()?;
    dist::compile()
}

/// What is tested in browsers; named together for the same reason as the tools.
const IN_BROWSERS: [&str; 2] = ["--package=pegline-tests", "--package=pegline-web"];

fn lint() -> Outcome {
    purity::run()?;
    // Checked in the very groups in which they are built, so that macros and build scripts serve both.
    let mut garden = command::cargo();
    garden.arg("clippy");
    let mut tools = command::cargo();
    let mut phone = setup::compiler()?.cargo("clippy");
    phone.args(IN_BROWSERS);
    tools.arg("clippy").args(dist::TOOLS);
    for mut clippy in [garden, tools, phone] {
        command::run(
            clippy.args(["--all-targets", "--", "-D", "warnings"]),
            "Clippy has something to say",
        )?;
    }
    Ok(())
}

fn native(only: &str) -> Outcome {
    let mut garden = command::cargo();
    garden.arg("test");
    let mut tools = command::cargo();
    // The journeys among them are a layer of their own.
    tools.args(["test", "--lib", "--bins"]).args(dist::TOOLS);
    for mut tests in [garden, tools] {
        command::run(tests.args(["--", only]), "A native test failed")?;
    }
    Ok(())
}

/// What browsers compute must be what this machine computes: the app's own tests that need a
/// browser, and every check against an outside source once more.
fn browser_unit() -> Outcome {
    let compiler = setup::compiler()?;
    let driver = setup::chromedriver()?;
    let runner = dist::bindgen()?;
    let browser = command::project().join("xtask").join("webdriver.json");
    command::run(
        compiler
            .cargo("test")
            .args(IN_BROWSERS)
            .arg("--tests")
            .env(
                "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER",
                format!("{} test-runner", runner.get_program().display()),
            )
            .env("CHROMEDRIVER", &driver)
            // The runner would take Firefox's driver before Chromium's.
            .env_remove("GECKODRIVER")
            .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", &browser)
            .env("WASM_BINDGEN_USE_BROWSER", "1")
            // Seconds until the driver listens: the first time, it comes off the disk.
            .env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "60")
            // Seconds for all tests of one file, on a machine with other things to do.
            .env("WASM_BINDGEN_TEST_TIMEOUT", "300"),
        "A test failed inside the browser",
    )
}

fn end_to_end(only: &str) -> Outcome {
    setup::browsers()?;
    journeys(only, &[], &[])
}

/// Builds the app and runs the journeys with these words in their names, or all of them.
pub(crate) fn journeys(only: &str, arguments: &[&str], given: &[(&str, String)]) -> Outcome {
    let chromedriver = setup::chromedriver()?;
    let geckodriver = setup::geckodriver()?;
    dist::run()?;
    dist::door()?;
    command::run(
        command::cargo()
            .args(["test", "--test", "end_to_end"])
            .args(dist::TOOLS)
            .args(["--", only])
            .args(arguments)
            .env("CHROMEDRIVER", chromedriver)
            .env("GECKODRIVER", geckodriver)
            // More browsers at once than this only get in each other's way.
            .env("RUST_TEST_THREADS", "2")
            .envs(given.iter().map(|(name, text)| (name, text))),
        "A journey failed; target/screenshots/ shows how far it came",
    )
}
