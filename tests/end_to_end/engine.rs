//! The three browser engines that phones run, each with its WebDriver.

use std::fs::{self, File};
use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process_group};
use serde_json::{Value, json};
use thirtyfour::Capabilities;

use crate::screen::{Scheme, Size};

/// A browser engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Engine {
    Chromium,
    Firefox,
    /// The engine of every browser on an iPhone, as far as Linux has it.
    WebKit,
}

/// What to run when a browser or driver is missing.
const INSTALL: &str = "run `cargo xtask test end-to-end`, which installs what is missing";

impl Engine {
    pub(crate) fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "chromium",
            Engine::Firefox => "firefox",
            Engine::WebKit => "webkit",
        }
    }

    /// Whether a new session can go on with what an older one left on the disk.
    pub(crate) fn keeps_a_profile(self) -> bool {
        // WebKit's driver always uses a private session.
        self != Engine::WebKit
    }

    fn driver(self) -> PathBuf {
        let (variable, program) = match self {
            Engine::Chromium => ("CHROMEDRIVER", "chromedriver"),
            Engine::Firefox => ("GECKODRIVER", "geckodriver"),
            Engine::WebKit => ("WEBKITWEBDRIVER", "WebKitWebDriver"),
        };
        std::env::var_os(variable)
            .map(PathBuf::from)
            .or_else(|| on_path(program))
            .unwrap_or_else(|| panic!("{program} is missing: {INSTALL}"))
    }

    /// What to ask the driver for: a browser with its memory in `profile`.
    pub(crate) fn capabilities(self, profile: &Path, size: Size, scheme: Scheme) -> Capabilities {
        let wanted = match self {
            Engine::Chromium => json!({
                "browserName": "chrome",
                "goog:loggingPrefs": { "browser": "ALL", "performance": "ALL" },
                "goog:chromeOptions": {
                    "args": [
                        "--headless=new",
                        "--no-sandbox",
                        "--disable-gpu",
                        "--disable-quic",
                        "--no-first-run",
                        "--disable-background-networking",
                        "--disable-component-update",
                        "--disable-sync",
                        "--disable-dev-shm-usage",
                        format!("--user-data-dir={}", profile.display()),
                    ],
                    "mobileEmulation": {
                        "deviceMetrics": {
                            "width": size.width,
                            "height": size.height,
                            "pixelRatio": 2,
                            "touch": true,
                            "mobile": true,
                        }
                    },
                },
            }),
            Engine::Firefox => {
                prepare_firefox(profile);
                json!({
                    "browserName": "firefox",
                    "moz:firefoxOptions": {
                        "args": ["-headless", "-profile", profile],
                        "prefs": {
                            "app.normandy.enabled": false,
                            "browser.aboutwelcome.enabled": false,
                            "devtools.console.stdout.content": true,
                            "layout.css.prefers-color-scheme.content-override":
                                i32::from(scheme != Scheme::Dark),
                            "messaging-system.rsexperimentloader.enabled": false,
                            "toolkit.legacyUserProfileCustomizations.stylesheets": true,
                        },
                    },
                })
            }
            Engine::WebKit => json!({
                "browserName": "MiniBrowser",
                "webkitgtk:browserOptions": {
                    "binary": mini_browser(),
                    "args": ["--automation"],
                },
            }),
        };
        match wanted {
            Value::Object(members) => Capabilities::from(members),
            _ => unreachable!("capabilities are written as an object above"),
        }
    }
}

/// Firefox's own window cannot be made as narrow as a phone unless its bars may shrink.
fn prepare_firefox(profile: &Path) {
    let chrome = profile.join("chrome");
    fs::create_dir_all(&chrome).unwrap();
    fs::write(
        chrome.join("userChrome.css"),
        ":root, body { min-width: 0 !important } #navigator-toolbox { display: none !important }",
    )
    .unwrap();
}

fn on_path(program: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path).map(|folder| folder.join(program)).find(|file| file.is_file())
}

/// Debian keeps WebKit's own little browser in a folder named after machine and version.
fn mini_browser() -> PathBuf {
    let folders = |folder: &Path| -> Vec<PathBuf> {
        let Ok(entries) = fs::read_dir(folder) else {
            return Vec::new();
        };
        entries.filter_map(|entry| Some(entry.ok()?.path())).collect()
    };
    folders(Path::new("/usr/lib"))
        .iter()
        .flat_map(|machine| folders(machine))
        .filter(|folder| folder.to_string_lossy().contains("/webkit"))
        .map(|folder| folder.join("MiniBrowser"))
        .find(|browser| browser.is_file())
        .unwrap_or_else(|| panic!("MiniBrowser is missing: {INSTALL}"))
}

/// A running driver and all that it started; ended as a whole when dropped.
#[derive(Debug)]
pub(crate) struct Driver {
    /// Held to be ended with this.
    _group: Group,
    /// The screen of an engine that cannot do without one.
    _display: Option<Group>,
    port: u16,
}

impl Driver {
    /// Starts an engine's driver on a free port, with its log in the phone's memory.
    pub(crate) fn start(engine: Engine, memory: &Path) -> Self {
        let port =
            TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap().local_addr().unwrap().port();
        let log = File::create(log(memory)).unwrap();
        let mut command = Command::new(engine.driver());
        command.arg(format!("--port={port}"));
        let mut display = None;
        if engine == Engine::WebKit {
            let (screen, number) = screen();
            display = Some(screen);
            command
                .env("DISPLAY", format!(":{number}"))
                .env("XDG_CONFIG_HOME", bare_widgets(memory))
                // Its sandbox does not start for the user who runs everything in a container.
                .env("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", "1");
        }
        command.stdout(log.try_clone().unwrap()).stderr(log);
        let driver = Self { _group: Group::start(&mut command), _display: display, port };
        driver.wait_until_it_listens();
        driver
    }

    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    fn wait_until_it_listens(&self) {
        let start = Instant::now();
        while TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_err() {
            assert!(start.elapsed() < Duration::from_secs(20), "the driver does not listen");
            std::thread::sleep(Duration::from_millis(20));
        }
    }
}

/// Where driver and browser write what they have to say.
pub(crate) fn log(memory: &Path) -> PathBuf {
    memory.join("driver.log")
}

/// Settings under which the buttons of WebKit's little browser take no room, since they would
/// keep its window wider than a phone; gives the settings' folder.
fn bare_widgets(memory: &Path) -> PathBuf {
    let settings = memory.join("settings");
    fs::create_dir_all(settings.join("gtk-3.0")).unwrap();
    fs::write(
        settings.join("gtk-3.0").join("gtk.css"),
        "* { margin: 0; padding: 0; border-width: 0; min-width: 0; min-height: 0; \
         font-size: 1px; -gtk-icon-source: none }",
    )
    .unwrap();
    settings
}

/// A virtual screen, and its number.
fn screen() -> (Group, String) {
    let mut command = Command::new("Xvfb");
    command
        .args(["-displayfd", "1", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"])
        .stdout(Stdio::piped())
        .stderr(Stdio::null());
    let mut group = Group::start(&mut command);
    let mut number = String::new();
    let said = group.child.stdout.take().unwrap();
    BufReader::new(said).read_line(&mut number).unwrap();
    (group, number.trim().to_owned())
}

/// A program and all that it started.
#[derive(Debug)]
struct Group {
    child: Child,
}

impl Group {
    fn start(command: &mut Command) -> Self {
        let program = command.get_program().to_owned();
        let child = command.process_group(0).stdin(Stdio::null()).spawn().unwrap_or_else(|error| {
            panic!("{} does not start ({error}): {INSTALL}", program.display())
        });
        Self { child }
    }

    fn end(&mut self, signal: Signal) {
        let group = Pid::from_child(&self.child);
        // It may have ended by itself.
        let _ = kill_process_group(group, signal);
        let _ = self.child.wait();
    }
}

impl Drop for Group {
    fn drop(&mut self) {
        self.end(Signal::TERM);
    }
}
