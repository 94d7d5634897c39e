//! A newer version of the app: offered, never forced, and never half.

use std::fs::{self, File};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, SystemTime};

use crate::engine::Engine;
use crate::journeys;
use crate::offline::{install, kept, versions};
use crate::phone::{Host, Phone, program, project, walk};
use crate::screen::SMALL;

journeys! {
    a_newer_version_is_offered_and_taken in Chromium Firefox WebKit;
    a_newer_version_waits_until_it_is_taken in Chromium Firefox WebKit;
    another_tab_is_told_and_left_alone in Chromium Firefox WebKit;
    a_newer_version_with_a_missing_file_is_refused in Chromium Firefox WebKit;
    a_newer_version_with_a_file_of_another_one_is_refused in Chromium Firefox WebKit;
}

const READY: &str = "A newer version is ready";
const TAKE: &str = "Take it now";
/// What the page says once its scripts run.
const STARTED: &str = "Ask at the bed";
const ELSEWHERE: &str = "A newer version runs in another tab";

/// The style sheet that marks a version, and the mark of the one first installed.
const STYLE: &str = "app.css";
const NONE: &str = "";

/// Puts a version on the host whose style sheet says `mark`.
fn publish(host: &Host, mark: &str) {
    let (style, worker) = (host.folder().join(STYLE), host.folder().join("sw.js"));
    let plain = fs::read_to_string(project().join("dist").join(STYLE)).unwrap();
    fs::write(&style, format!("{plain}\n:root {{ --version: {mark} }}\n")).unwrap();
    fs::copy(project().join("static").join("sw.js"), &worker).unwrap();
    let sealed = Command::new(program("pegline-bindgen")).arg("seal").arg(host.folder()).status();
    assert!(sealed.unwrap().success(), "the version could not be sealed");
    touch(&style);
    touch(&worker);
}

/// Makes a file look newer than it is: hosts tell time in whole seconds, and tests are quicker.
fn touch(path: &Path) {
    let file = File::options().write(true).open(path).unwrap();
    file.set_modified(SystemTime::now() + Duration::from_secs(2)).unwrap();
}

/// The mark of the version that the page shows.
async fn version(phone: &Phone) -> String {
    let style = "return getComputedStyle(document.documentElement).getPropertyValue('--version')";
    phone.script(style, &[]).await.as_str().unwrap_or_default().trim().to_owned()
}

/// Makes the browser look for a newer version now; gives what came of it.
async fn look_for_newer(phone: &Phone) -> String {
    let look = "const done = arguments[arguments.length - 1];
        navigator.serviceWorker.getRegistration()
            .then((registration) => registration.update())
            .then((registration) => {
                const worker = registration.installing;
                if (!worker) return done(registration.waiting ? 'installed' : 'none');
                worker.addEventListener('statechange', () => done(worker.state));
            })
            .catch((error) => done(String(error)));";
    phone.slow_script(look.into(), &[]).await.as_str().unwrap_or_default().to_owned()
}

fn a_newer_version_is_offered_and_taken(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        publish(phone.host(), "second");
        assert_eq!(look_for_newer(phone).await, "installed");
        phone.sees(READY).await;
        assert_eq!(version(phone).await, NONE);
        phone.tap(TAKE).await;
        let taken = async || (version(phone).await == "second").then_some(());
        assert!(phone.wait(taken).await.is_some(), "the newer version does not come");
        kept(phone).await;
        assert!(!phone.text().await.contains(READY));
        let one_left = async || (versions(phone).await == 1).then_some(());
        assert!(phone.wait(one_left).await.is_some(), "the older version is not forgotten");
        phone.lose_signal();
        phone.reload().await;
        assert_eq!(version(phone).await, "second");
    });
}

fn a_newer_version_waits_until_it_is_taken(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        publish(phone.host(), "second");
        assert_eq!(look_for_newer(phone).await, "installed");
        phone.reload().await;
        assert_eq!(version(phone).await, NONE);
        // It is offered again to a page that was not there when it came.
        phone.sees(READY).await;
    });
}

fn another_tab_is_told_and_left_alone(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        let first = phone.browser.window().await.unwrap();
        let second = phone.browser.new_tab().await.unwrap();
        phone.browser.switch_to_window(second.clone()).await.unwrap();
        phone.open("").await;
        kept(phone).await;
        phone.sees(STARTED).await;
        phone.script("window.untouched = true", &[]).await;
        phone.browser.switch_to_window(first).await.unwrap();

        publish(phone.host(), "second");
        assert_eq!(look_for_newer(phone).await, "installed");
        phone.sees(READY).await;
        phone.tap(TAKE).await;
        let taken = async || (version(phone).await == "second").then_some(());
        assert!(phone.wait(taken).await.is_some(), "the newer version does not come");

        phone.browser.switch_to_window(second).await.unwrap();
        phone.sees(ELSEWHERE).await;
        assert_eq!(phone.script("return window.untouched", &[]).await, true);
        assert_eq!(version(phone).await, NONE);
    });
}

/// After a failed install the old version must still open, without a network too.
async fn the_old_version_stays(phone: &mut Phone) {
    assert_eq!(look_for_newer(phone).await, "redundant");
    phone.lose_signal();
    phone.reload().await;
    assert_eq!(version(phone).await, NONE);
    kept(phone).await;
    assert!(!phone.text().await.contains(READY));
}

fn a_newer_version_with_a_missing_file_is_refused(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        publish(phone.host(), "second");
        fs::remove_file(phone.host().folder().join(STYLE)).unwrap();
        the_old_version_stays(phone).await;
    });
}

fn a_newer_version_with_a_file_of_another_one_is_refused(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        publish(phone.host(), "second");
        let style = phone.host().folder().join(STYLE);
        fs::write(&style, ":root { --version: third }").unwrap();
        touch(&style);
        the_old_version_stays(phone).await;
    });
}
