//! The three browser engines that phones run, each with its WebDriver.

use std::fs::{self, File};
use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener};
use std::os::fd::OwnedFd;
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process, kill_process_group};
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
    group: Group,
    /// The screen of an engine that cannot do without one.
    _display: Option<Group>,
    port: u16,
}

/// How long a driver may take to listen: on a machine that has never run it, it comes off the disk.
const LISTENS_WITHIN: Duration = Duration::from_secs(60);

impl Driver {
    /// Starts an engine's driver on a port of its own choice, with its log in the phone's memory.
    ///
    /// A port chosen for it could be another's by the time it starts.
    pub(crate) fn start(engine: Engine, memory: &Path) -> Result<Self, String> {
        let output = File::create(log(memory)).unwrap();
        let mut command = Command::new(engine.driver());
        command.arg("--port=0");
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
        command.stdout(output.try_clone().unwrap()).stderr(output);
        let mut group = Group::start(&mut command);
        let start = Instant::now();
        let port = loop {
            let said = fs::read_to_string(log(memory)).unwrap_or_default();
            let port = match engine {
                Engine::Chromium => port_in(&said, "started successfully on port "),
                Engine::Firefox => port_in(&said, "Listening on 127.0.0.1:"),
                Engine::WebKit => port_of(group.child.id()),
            };
            if let Some(port) = port {
                break port;
            }
            if group.child.try_wait().unwrap().is_some() {
                return Err(format!("its driver ended by itself\n{said}"));
            }
            if start.elapsed() > LISTENS_WITHIN {
                let seconds = LISTENS_WITHIN.as_secs();
                return Err(format!("its driver does not listen within {seconds} s\n{said}"));
            }
            std::thread::sleep(Duration::from_millis(20));
        };
        Ok(Self { group, _display: display, port })
    }

    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// Ends the driver and every process of its browser with the signal that none of them can answer.
    pub(crate) fn kill(&mut self) {
        for process in descendants(self.group.child.id()) {
            // It may have ended with another.
            let _ = Pid::from_raw(process).map(|process| kill_process(process, Signal::KILL));
        }
        self.group.end(Signal::KILL);
    }
}

/// The port that a driver says it took, after these words.
fn port_in(said: &str, words: &str) -> Option<u16> {
    let (_, after) = said.split_once(words)?;
    let (digits, _) = after.split_once(|sign: char| !sign.is_ascii_digit())?;
    digits.parse().ok()
}

/// The port on which a program listens that does not say so: WebKit's driver runs on Linux alone, where
/// the system tells.
fn port_of(program: u32) -> Option<u16> {
    let folder = PathBuf::from(format!("/proc/{program}"));
    let open: Vec<PathBuf> = fs::read_dir(folder.join("fd"))
        .ok()?
        .filter_map(|file| fs::read_link(file.ok()?.path()).ok())
        .collect();
    fs::read_to_string(folder.join("net/tcp")).ok()?.lines().find_map(|line| {
        let columns: Vec<&str> = line.split_whitespace().collect();
        let (address, state, inode) = (columns.get(1)?, columns.get(3)?, columns.get(9)?);
        let own = || open.contains(&PathBuf::from(format!("socket:[{inode}]")));
        // 0A: it listens.
        (*state == "0A" && own())
            .then(|| u16::from_str_radix(address.split_once(':')?.1, 16).ok())
            .flatten()
    })
}

/// The processes that a program started, and those that they started, as Linux tells; nearest first.
fn descendants(program: u32) -> Vec<i32> {
    let processes = fs::read_dir("/proc").unwrap().filter_map(|process| {
        let id: i32 = process.ok()?.file_name().to_str()?.parse().ok()?;
        let state = fs::read_to_string(format!("/proc/{id}/stat")).ok()?;
        // After the name, which may hold anything, its state and its parent.
        let parent = state.rsplit_once(')')?.1.split_whitespace().nth(1)?.parse().ok()?;
        Some((id, parent))
    });
    let processes: Vec<(i32, i32)> = processes.collect();
    let mut found = vec![i32::try_from(program).unwrap()];
    let mut at = 0;
    while let Some(&parent) = found.get(at) {
        found.extend(
            processes.iter().filter(|process| process.1 == parent).map(|process| process.0),
        );
        at += 1;
    }
    found.split_off(1)
}

#[test]
fn a_driver_tells_its_port() {
    let chromium =
        "Starting ChromeDriver on port 0\nChromeDriver was started successfully on port 45511.\n";
    assert_eq!(port_in(chromium, "started successfully on port "), Some(45511));
    let firefox = "1764500000000\tgeckodriver\tINFO\tListening on 127.0.0.1:40123\n";
    assert_eq!(port_in(firefox, "Listening on 127.0.0.1:"), Some(40123));
    // A line that is still being written.
    assert_eq!(port_in("Listening on 127.0.0.1:401", "Listening on 127.0.0.1:"), None);
}

#[test]
fn the_system_tells_a_port_that_its_driver_does_not() {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
    let port = listener.local_addr().unwrap().port();
    let sleeper = |input: Stdio| {
        let mut command = Command::new("sleep");
        command.arg("60").stdin(input).process_group(0).spawn().unwrap()
    };
    let with = Group { child: sleeper(OwnedFd::from(listener).into()) };
    let without = Group { child: sleeper(Stdio::null()) };
    assert_eq!(port_of(with.child.id()), Some(port));
    assert_eq!(port_of(without.child.id()), None);
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
