//! A newer version of the app: offered, never forced, and never half.

use std::fs::{self, File};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, SystemTime};

use crate::engine::Engine;
use crate::faults::lay_out;
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
    what_is_half_filled_stays_while_a_newer_version_is_taken in Chromium Firefox WebKit;
    a_third_version_comes_before_the_second_was_taken in Chromium Firefox WebKit;
    a_record_is_opened_by_the_next_version_and_again_by_the_last in Chromium Firefox WebKit;
    a_version_that_is_no_longer_whole_gives_way_to_the_one_that_is_there in Chromium Firefox WebKit;
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
    // A host sends what is packed beside a file in its place.
    for packed in ["app.css.br", "app.css.gz", "sw.js.br", "sw.js.gz"] {
        let _ = fs::remove_file(host.folder().join(packed));
    }
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

/// Waits until the page is that of the version with this mark.
async fn becomes(phone: &Phone, mark: &str) {
    let taken = async || (version(phone).await == mark).then_some(());
    assert!(phone.wait(taken).await.is_some(), "version {mark:?} does not come");
    phone.is_open().await;
}

fn what_is_half_filled_stays_while_a_newer_version_is_taken(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        phone.tap("How many fit here?").await;
        phone.fill("Crop", "cabbage").await;
        phone.fill("Length", "8 ft").await;
        publish(phone.host(), "second");
        assert_eq!(look_for_newer(phone).await, "installed");
        phone.sees(READY).await;
        // It is offered beside the form and takes nothing from it.
        assert_eq!(phone.value("Length").await, "8 ft");
        phone.fill("Width", "4 ft").await;
        phone.tap(TAKE).await;
        becomes(phone, "second").await;
        for (field, text) in [("Crop", "cabbage"), ("Length", "8 ft"), ("Width", "4 ft")] {
            assert_eq!(phone.value(field).await, text, "{field}");
        }
    });
}

fn a_third_version_comes_before_the_second_was_taken(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        for mark in ["second", "third"] {
            publish(phone.host(), mark);
            assert_eq!(look_for_newer(phone).await, "installed");
            phone.sees(READY).await;
            assert_eq!(version(phone).await, NONE);
        }
        phone.tap(TAKE).await;
        becomes(phone, "third").await;
        kept(phone).await;
        let one_left = async || (versions(phone).await == 1).then_some(());
        assert!(phone.wait(one_left).await.is_some(), "older versions are not forgotten");
        phone.lose_signal();
        phone.reload().await;
        assert_eq!(version(phone).await, "third");
    });
}

/// An entry as a version to come may write it: of a kind, and with a field, that this one does not know.
const TO_COME: &str = r#"{"v":2,"id":"01M8MPZ1KS0000000000000000","when":"2026-11-29T22:31","kind":"pruned","about":{"bed":"bed-1"},"what":{"tool":"saw"},"weather":"dry"}"#;
/// Keeps it as that version would, and ends with the line.
const KEEP: &str = "const [text, done] = arguments;
    let sum = -1;
    for (const byte of new TextEncoder().encode(text)) {
        sum ^= byte;
        for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (0xedb88320 & -(sum & 1));
    }
    const line = `${(~sum >>> 0).toString(16).padStart(8, '0')} ${text}`;
    const asked = indexedDB.open('pegline', 1);
    asked.onsuccess = () => {
        const lines = asked.result.transaction('lines', 'readwrite').objectStore('lines');
        lines.put(line, 'pegline/e/' + JSON.parse(text).id).onsuccess = () => {
            asked.result.close();
            done(line);
        };
    };";

fn a_record_is_opened_by_the_next_version_and_again_by_the_last(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        let bed = lay_out(phone).await;
        let note = async |text: &str| {
            phone.fill("Anything worth knowing", text).await;
            phone.tap("Write it down").await;
            phone.sees(&format!("Written: {text}")).await;
        };
        note("by the first").await;
        publish(phone.host(), "second");
        assert_eq!(look_for_newer(phone).await, "installed");
        phone.tap(TAKE).await;
        becomes(phone, "second").await;
        phone.sees("by the first").await;
        note("by the second").await;
        let line = phone.slow_script(KEEP.into(), &[TO_COME.into()]).await;
        // The host goes back to the first.
        publish(phone.host(), "first again");
        assert_eq!(look_for_newer(phone).await, "installed");
        phone.tap(TAKE).await;
        becomes(phone, "first again").await;
        assert_eq!(phone.script("return location.hash", &[]).await, bed);
        phone.sees("by the first").await;
        phone.sees("by the second").await;
        phone.tap("Book").await;
        phone.tap("Set aside: 1").await;
        phone.sees("pruned").await;
        // Byte for byte, in both places.
        let quick = "return localStorage.getItem('pegline/e/01M8MPZ1KS0000000000000000')";
        let same = async || (phone.script(quick, &[]).await == line).then_some(());
        assert!(phone.wait(same).await.is_some(), "it is another: {line}");
    });
}

fn a_version_that_is_no_longer_whole_gives_way_to_the_one_that_is_there(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.forgive();
        install(phone).await;
        // A script of the first is thrown away, and the host has only that of another.
        let script = phone.host().folder().join("keep.js");
        let text = fs::read_to_string(&script).unwrap();
        fs::write(&script, format!("{text}// Another.\n")).unwrap();
        for packed in ["keep.js.br", "keep.js.gz"] {
            fs::remove_file(phone.host().folder().join(packed)).unwrap();
        }
        publish(phone.host(), "second");
        let forget = "const done = arguments[arguments.length - 1];
            caches.keys()
                .then((names) => Promise.all(names.map(async (name) =>
                    (await caches.open(name)).delete('keep.js'))))
                .then((gone) => done(gone.length));";
        assert_eq!(phone.slow_script(forget.into(), &[]).await, 1);
        phone.script("location.reload()", &[]).await;
        let mark = async || (version(phone).await == "second").then_some(());
        assert!(phone.wait(mark).await.is_some(), "it stays broken: {}", phone.text().await);
        phone.is_open().await;
        kept(phone).await;
        phone.lose_signal();
        phone.reload().await;
        assert_eq!(version(phone).await, "second");
    });
}
