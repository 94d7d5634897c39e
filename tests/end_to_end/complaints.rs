//! What a browser has to say when something is wrong, and whom it asks for files.

use std::fs;
use std::path::Path;

use serde_json::Value;
use thirtyfour::WebDriver;

use crate::engine::Engine;

/// Notes down errors inside the page, for engines whose driver hands none of them out.
const LISTEN: &str = "
    if (!window.complaints) {
        window.complaints = [];
        const note = (text) => window.complaints.push(String(text));
        addEventListener('error', (event) => note(event.message ?? event.target.outerHTML), true);
        addEventListener('unhandledrejection', (event) => note(event.reason));
        addEventListener('securitypolicyviolation', (event) =>
            note(`Content policy: ${event.violatedDirective} forbids ${event.blockedURI}`));
    }";

/// Begins to listen on a page that was just opened.
pub(crate) async fn listen(engine: Engine, browser: &WebDriver) {
    if engine != Engine::Chromium {
        browser.execute(LISTEN, []).await.unwrap();
    }
}

/// Complaints of the page that is open, and of the whole session as far as the driver tells.
pub(crate) async fn of(
    engine: Engine,
    browser: &WebDriver,
    origin: &str,
    log: &Path,
) -> Vec<String> {
    let mut complaints = Vec::new();
    if engine == Engine::Chromium {
        for entry in browser.get_log("browser").await.unwrap() {
            if entry.level == "SEVERE" {
                complaints.push(entry.message);
            }
        }
        for entry in browser.get_log("performance").await.unwrap() {
            complaints.extend(foreign(&entry.message, origin));
        }
        return complaints;
    }
    let noted = browser.execute("return window.complaints ?? []", []).await.unwrap();
    complaints.extend(noted.convert::<Vec<String>>().unwrap());
    if engine == Engine::Firefox {
        // Its own scripts may fail without a network; what counts is the app's.
        let of_the_app = format!("JavaScript error: {origin}/");
        let text = fs::read_to_string(log).unwrap();
        complaints
            .extend(text.lines().filter(|line| line.starts_with(&of_the_app)).map(str::to_owned));
    }
    complaints
}

/// The address, if this event of Chromium's network log is a request to someone else.
fn foreign(event: &str, origin: &str) -> Option<String> {
    let event: Value = serde_json::from_str(event).unwrap();
    let message = &event["message"];
    if message["method"] != "Network.requestWillBeSent" {
        return None;
    }
    let address = message["params"]["request"]["url"].as_str().unwrap_or_default();
    // What the page makes itself, or the browser shows before any page, asks nobody.
    let own =
        ["about:", "blob:", "chrome:", "data:"].iter().any(|scheme| address.starts_with(scheme))
            || address.strip_prefix(origin).is_some_and(|rest| rest.starts_with('/'));
    (!own).then(|| format!("a request to {address}"))
}
