//! One phone in one hand: a fresh browser, the app's host, and what fingers and eyes do with it.

use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use pegline_server::Server;
use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::{By, Key, WebDriver, WebElement};

use crate::complaints;
use crate::engine::{Driver, Engine, log};
use crate::screen::{self, SMALL, Scheme, Size};

/// How long something may take to show up on the page.
const PATIENCE: Duration = Duration::from_secs(15);

/// A browser with a memory of its own, and the host that the app comes from.
pub(crate) struct Phone {
    pub(crate) engine: Engine,
    pub(crate) browser: WebDriver,
    size: Size,
    scheme: Scheme,
    host: Host,
    driver: Driver,
    /// The browser's memory, and the driver's log beside it.
    memory: TempDir,
    /// What the browser complained of on pages that are gone.
    complaints: Vec<String>,
    forgives: bool,
}

/// Walks through a journey on a fresh phone, and fails if the browser complained on the way.
pub(crate) fn walk(engine: Engine, size: Size, journey: impl AsyncFnOnce(&mut Phone)) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    make_sure_it_starts(engine);
    let mut phone = runtime.block_on(Phone::new(engine, size));
    let outcome = catch_unwind(AssertUnwindSafe(|| runtime.block_on(journey(&mut phone))));
    if let Err(panic) = outcome {
        runtime.block_on(phone.show_failure());
        resume_unwind(panic);
    }
    let complaints = runtime.block_on(phone.put_away());
    assert!(complaints.is_empty(), "{} complained:\n{}", engine.name(), complaints.join("\n"));
}

impl Phone {
    async fn new(engine: Engine, size: Size) -> Self {
        let memory = TempDir::with_prefix("phone-").unwrap();
        let host = Host::new(&built_app());
        let scheme = Scheme::Light;
        let (driver, browser) = begin(engine, memory.path(), size, scheme).await;
        let complaints = Vec::new();
        Self { engine, browser, size, scheme, host, driver, memory, complaints, forgives: false }
    }

    /// The app's address, without the slash at its end.
    pub(crate) fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.host.port)
    }

    /// Opens the app, at a part of it such as `#ask` or at none, and waits until it is there.
    pub(crate) async fn open(&mut self, part: &str) {
        self.look_at(part).await;
        self.is_open().await;
    }

    /// Waits until the app has taken the place of what the page shows first.
    pub(crate) async fn is_open(&self) {
        let open = "return !document.getElementById('app') || !document.getElementById('slow')";
        // While one page gives way to the next there is none to ask.
        let is_open = async || {
            let answer = self.browser.execute(open, []).await.ok()?;
            (answer.json() == true).then_some(())
        };
        assert!(self.wait(is_open).await.is_some(), "it does not open: {}", self.text().await);
    }

    /// Goes to a part of the app without waiting for it.
    pub(crate) async fn look_at(&mut self, part: &str) {
        self.complaints.extend(self.hear().await);
        self.browser.goto(format!("{}/{part}", self.origin())).await.unwrap();
        complaints::listen(self.engine, &self.browser).await;
    }

    pub(crate) async fn reload(&mut self) {
        self.complaints.extend(self.hear().await);
        // Not WebDriver's own reload, with which Firefox passes by the service worker.
        self.script("window.old = true; location.reload()", &[]).await;
        let loaded = "return !window.old && document.readyState === 'complete'";
        // While one page gives way to the next there is none to ask.
        let is_new = async || {
            let answer = self.browser.execute(loaded, []).await.ok()?;
            (answer.json() == true).then_some(())
        };
        assert!(self.wait(is_new).await.is_some(), "the page does not load anew");
        complaints::listen(self.engine, &self.browser).await;
        self.is_open().await;
    }

    /// What the browser complains of on this journey is what the test has brought about.
    pub(crate) fn forgive(&mut self) {
        self.forgives = true;
    }

    /// Takes the network away: the host's port is closed, and every connection to it.
    pub(crate) fn lose_signal(&mut self) {
        self.host.stop();
    }

    /// Brings the network back.
    pub(crate) fn find_signal(&mut self) {
        self.host.start();
    }

    /// The host's files, which a test may replace by those of a newer version.
    pub(crate) fn host(&self) -> &Host {
        &self.host
    }

    /// Closes the browser in good order and opens it again with the same memory.
    pub(crate) async fn restart(&mut self) {
        assert!(self.engine.keeps_a_profile(), "a restart would forget everything by design");
        self.complaints.extend(self.hear().await);
        self.browser.clone().quit().await.unwrap();
        self.begin_again().await;
    }

    /// Kills the browser in the midst of whatever it does, as a phone that goes off would, and opens it
    /// again with the same memory.
    pub(crate) async fn kill_and_start(&mut self) {
        assert!(self.engine.keeps_a_profile(), "a restart would forget everything by design");
        self.driver.kill();
        // There is no session left to be ended in good order.
        let _ = self.browser.clone().leak();
        self.begin_again().await;
    }

    /// Closes Chromium and opens it again as one that lets no page keep anything.
    pub(crate) async fn refuse_storage(&mut self) {
        assert_eq!(self.engine, Engine::Chromium);
        self.complaints.extend(self.hear().await);
        self.browser.clone().quit().await.unwrap();
        let file = self.memory.path().join("profile/Default/Preferences");
        let mut settings: Value = serde_json::from_slice(&fs::read(&file).unwrap()).unwrap();
        // What the browser's own settings call "block all cookies" covers every kind of storage.
        settings["profile"]["default_content_setting_values"]["cookies"] = json!(2);
        fs::write(&file, settings.to_string()).unwrap();
        self.begin_again().await;
    }

    async fn begin_again(&mut self) {
        let (driver, browser) =
            begin(self.engine, self.memory.path(), self.size, self.scheme).await;
        self.driver = driver;
        self.browser = browser;
    }

    /// What the browser complains of by now.
    async fn hear(&self) -> Vec<String> {
        complaints::of(self.engine, &self.browser, &self.origin(), &log(self.memory.path())).await
    }

    async fn put_away(mut self) -> Vec<String> {
        let last = self.hear().await;
        self.complaints.extend(last);
        self.browser.quit().await.unwrap();
        if self.forgives { Vec::new() } else { self.complaints }
    }

    /// Leaves what there is to see for the reader of a failed test.
    async fn show_failure(self) {
        for complaint in self.complaints.iter().chain(&self.hear().await) {
            eprintln!("{}: {complaint}", self.engine.name());
        }
        let test = std::thread::current().name().unwrap_or("journey").replace("::", "-");
        let path = screenshots().join(format!("failed-{test}.png"));
        if self.browser.screenshot(&path).await.is_ok() {
            eprintln!("The screen was then: {}", path.display());
        }
        let _ = self.browser.quit().await;
    }

    /// Waits until the page shows these words.
    pub(crate) async fn sees(&self, words: &str) {
        let found = self.wait(async || self.text().await.contains(words).then_some(())).await;
        if found.is_none() {
            panic!("{words:?} is not on the page, which says:\n{}", self.text().await);
        }
    }

    /// All that the page shows, with single spaces.
    pub(crate) async fn text(&self) -> String {
        let text = self.script("return document.body?.innerText ?? ''", &[]).await;
        text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Taps the button, link or heading that bears these words, once it is there.
    pub(crate) async fn tap(&self, words: &str) {
        // The page may be redrawn between finding and tapping; a finger taps what is there then.
        let tapped = self.wait(async || self.find(TAPPABLE, words).await.click().await.ok()).await;
        assert!(tapped.is_some(), "{words:?} cannot be tapped");
    }

    /// Fills in the field that a label, or its name, calls so; chooses it in a list.
    pub(crate) async fn fill(&self, field: &str, text: &str) {
        let control = self.find(FIELD, field).await;
        if control.tag_name().await.unwrap() == "select" {
            let wanted = format!(".//option[normalize-space()={text:?}]");
            control.find(By::XPath(wanted)).await.unwrap().click().await.unwrap();
            return;
        }
        control.click().await.unwrap();
        control.send_keys(Key::Control + "a").await.unwrap();
        control.send_keys(text).await.unwrap();
    }

    /// What a field holds.
    pub(crate) async fn value(&self, field: &str) -> String {
        self.find(FIELD, field).await.prop("value").await.unwrap().unwrap_or_default()
    }

    async fn find(&self, script: &'static str, words: &str) -> WebElement {
        let found = self
            .wait(async || {
                let found = self.browser.execute(script, vec![json!(words)]).await.unwrap();
                if found.json().is_null() { None } else { Some(found.element().unwrap()) }
            })
            .await;
        match found {
            Some(element) => element,
            None => {
                panic!("nothing on the page is called {words:?}; it says:\n{}", self.text().await)
            }
        }
    }

    /// Runs a script in the page and gives what it returns.
    pub(crate) async fn script(&self, script: &'static str, arguments: &[Value]) -> Value {
        self.browser.execute(script, arguments.to_vec()).await.unwrap().json().clone()
    }

    /// Runs a script that calls `arguments[arguments.length - 1]` when it is done.
    pub(crate) async fn slow_script(&self, script: String, arguments: &[Value]) -> Value {
        self.browser.execute_async(script, arguments.to_vec()).await.unwrap().json().clone()
    }

    /// Tries again until it comes to something, with a phone owner's patience.
    pub(crate) async fn wait<T>(&self, attempt: impl AsyncFn() -> Option<T>) -> Option<T> {
        let start = Instant::now();
        loop {
            if let Some(found) = attempt().await {
                return Some(found);
            }
            if start.elapsed() > PATIENCE {
                return None;
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// The colours asked for.
    pub(crate) fn scheme(&self) -> Scheme {
        self.scheme
    }

    /// Changes the colours asked for; only Chromium can be told while it runs.
    pub(crate) async fn ask_for(&mut self, scheme: Scheme) {
        assert_eq!(self.engine, Engine::Chromium);
        self.scheme = scheme;
        scheme.emulate(&self.browser).await;
    }

    /// Keeps a picture of the page's top in `target/screenshots`.
    pub(crate) async fn screenshot(&self, name: &str) {
        self.script("scrollTo(0, 0)", &[]).await;
        let Size { width, height } = self.size;
        let file = format!("{name}-{width}x{height}-{}.png", self.scheme.name());
        self.browser.screenshot(&screenshots().join(file)).await.unwrap();
    }
}

async fn start(
    engine: Engine,
    memory: &Path,
    size: Size,
    scheme: Scheme,
) -> Result<(Driver, WebDriver), String> {
    let profile = memory.join("profile");
    fs::create_dir_all(&profile).unwrap();
    let driver = Driver::start(engine, memory)?;
    let wanted = engine.capabilities(&profile, size, scheme);
    let browser = WebDriver::new(driver.address(), wanted).await.map_err(|error| {
        let said = fs::read_to_string(log(memory)).unwrap_or_default();
        format!("{error}\n{said}")
    })?;
    match engine {
        Engine::Chromium => scheme.emulate(&browser).await,
        Engine::Firefox | Engine::WebKit => screen::fit_window(&browser, size).await,
    }
    Ok((driver, browser))
}

async fn begin(engine: Engine, memory: &Path, size: Size, scheme: Scheme) -> (Driver, WebDriver) {
    start(engine, memory, size, scheme)
        .await
        .unwrap_or_else(|why| panic!("{} does not start: {why}", engine.name()))
}

/// Starts and ends a browser once before its first journey, since on a machine that has never run it
/// this can take longer than anything waits.
fn make_sure_it_starts(engine: Engine) {
    static TRIED: [OnceLock<Result<(), String>>; 3] = [const { OnceLock::new() }; 3];
    let once = || {
        let memory = TempDir::with_prefix("first-").unwrap();
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        runtime.block_on(async {
            let (_driver, browser) = start(engine, memory.path(), SMALL, Scheme::Light).await?;
            browser.quit().await.map_err(|error| error.to_string())
        })
    };
    let tried = TRIED[engine as usize].get_or_init(|| once().or_else(|_| once()));
    if let Err(why) = tried {
        panic!(
            "{} cannot be started on this machine, so no journey in it was begun: {why}",
            engine.name()
        );
    }
}

/// The project's folder.
pub(crate) fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().nth(2).unwrap()
}

fn built_app() -> PathBuf {
    let app = project().join("dist");
    assert!(app.join("sw.js").is_file(), "dist/ is missing: run `cargo xtask dist`");
    app
}

/// Opens the door for other programs, put beside the app on its host: `./pegline.js` is its own there.
pub(crate) async fn open_door(phone: &mut Phone) {
    let door = program("xtask").ancestors().nth(2).unwrap().join("door");
    assert!(
        door.join("pegline.js").is_file(),
        "target/door is missing: run `cargo xtask test end-to-end`"
    );
    let folder = phone.host().folder().join("door");
    copy(&door, &folder);
    // A page of its own: where the app was opened its worker answers, and it knows of no door.
    let page = "<!doctype html><title>Door</title><link rel=icon href=../icon-192.png>";
    fs::write(folder.join("index.html"), page).unwrap();
    phone.open("door/").await;
}

/// A program of this project, as `cargo xtask` built it before it started the journeys.
pub(crate) fn program(name: &str) -> PathBuf {
    // Cargo runs this from <target>/<profile>/deps.
    let this = std::env::current_exe().unwrap();
    let program = this.ancestors().nth(2).unwrap().join(name);
    assert!(program.is_file(), "{} is missing: run `cargo xtask dist`", program.display());
    program
}

fn screenshots() -> PathBuf {
    // Cargo runs this from <target>/<profile>/deps.
    let program = std::env::current_exe().unwrap();
    let folder = program.ancestors().nth(3).unwrap().join("screenshots");
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// Finds what can be tapped by its words: an exact match before a longer one, visible ones only.
const TAPPABLE: &str = r#"
    const squeezed = (text) => (text ?? "").replace(/\s+/g, " ").trim();
    const wanted = squeezed(arguments[0]);
    const name = (element) => squeezed(element.getAttribute("aria-label") ?? element.innerText);
    const all = [...document.querySelectorAll("a[href], button, summary, label, [role=button]")]
        .filter((element) => element.checkVisibility());
    const found = all.find((element) => name(element) === wanted)
        ?? all.find((element) => name(element).includes(wanted));
    // Bars that stay at the edges of the screen must not lie over it.
    found?.scrollIntoView({ block: "center", behavior: "instant" });
    return found ?? null;
"#;

/// Finds a form's field by its label's words, or by its name.
const FIELD: &str = r#"
    const squeezed = (text) => (text ?? "").replace(/\s+/g, " ").trim();
    const wanted = squeezed(arguments[0]);
    const labels = [...document.querySelectorAll("label")]
        .filter((label) => label.control?.checkVisibility());
    const found = labels.find((label) => squeezed(label.innerText) === wanted)?.control
        ?? document.querySelector(`[name="${CSS.escape(wanted)}"]`)
        ?? labels.find((label) => squeezed(label.innerText).startsWith(wanted))?.control;
    found?.scrollIntoView({ block: "center", behavior: "instant" });
    return found ?? null;
"#;

/// The app's host: a copy of the built app that a test may change, and its server.
pub(crate) struct Host {
    folder: TempDir,
    server: Option<Server>,
    port: u16,
}

impl Host {
    fn new(app: &Path) -> Self {
        let folder = TempDir::with_prefix("host-").unwrap();
        copy(app, folder.path());
        let server = Server::start(folder.path(), 0).unwrap();
        let port = server.address().port();
        Self { folder, server: Some(server), port }
    }

    /// Where its files lie.
    pub(crate) fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// Paths asked for since it was last started.
    pub(crate) fn asked(&self) -> Vec<String> {
        self.server.as_ref().map(Server::asked).unwrap_or_default()
    }

    /// Answers these paths by 500 from now on, and all others as always.
    pub(crate) fn fail(&self, paths: &[&str]) {
        self.server.as_ref().unwrap().fail(paths);
    }

    fn stop(&mut self) {
        self.server = None;
    }

    fn start(&mut self) {
        self.server = Some(Server::start(self.folder.path(), self.port).unwrap());
    }
}

/// Copies a folder with all that is in it.
pub(crate) fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}
