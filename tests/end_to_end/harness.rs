//! The tests' own eyes: what they are to notice, they do notice.

use std::panic::{AssertUnwindSafe, catch_unwind};

use crate::axe;
use crate::engine::Engine;
use crate::journeys;
use crate::phone::{Phone, walk};
use crate::screen::SMALL;

journeys! {
    the_page_is_as_wide_as_a_phone in Chromium Firefox WebKit;
    an_uncaught_error_fails_a_journey in Chromium Firefox WebKit;
    a_forbidden_script_fails_a_journey in Chromium Firefox WebKit;
    a_request_to_someone_else_fails_a_journey in Chromium;
    axe_finds_an_unnamed_field in Chromium;
}

fn the_page_is_as_wide_as_a_phone(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        let size = phone.script("return [innerWidth, innerHeight]", &[]).await;
        assert_eq!(size, serde_json::json!([SMALL.width, SMALL.height]));
    });
}

/// A journey on which this happens must not pass.
fn must_fail(engine: Engine, because: &str, deed: impl AsyncFnOnce(&mut Phone)) {
    let outcome = catch_unwind(AssertUnwindSafe(|| {
        walk(engine, SMALL, async |phone| {
            phone.open("").await;
            deed(phone).await;
            // Browsers write what they have to say a little later.
            tokio::time::sleep(std::time::Duration::from_millis(300)).await;
        });
    }));
    let Err(panic) = outcome else { panic!("{} let it pass", engine.name()) };
    let words = panic.downcast_ref::<String>().cloned().unwrap_or_default();
    assert!(words.contains("complained") && words.contains(because), "{words}");
}

fn an_uncaught_error_fails_a_journey(engine: Engine) {
    must_fail(engine, "nobody catches this", async |phone| {
        phone.script("setTimeout(() => { throw new Error('nobody catches this') })", &[]).await;
    });
}

fn a_forbidden_script_fails_a_journey(engine: Engine) {
    must_fail(engine, "Content", async |phone| {
        let inline = "const script = document.createElement('script');
            script.textContent = 'window.ran = true';
            document.head.append(script);";
        phone.script(inline, &[]).await;
        assert!(phone.script("return window.ran ?? null", &[]).await.is_null(), "it ran");
    });
}

fn a_request_to_someone_else_fails_a_journey(engine: Engine) {
    must_fail(engine, "a request to http://127.0.0.1:9/", async |phone| {
        phone.script("location = 'http://127.0.0.1:9/'", &[]).await;
    });
}

fn axe_finds_an_unnamed_field(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        phone.script("document.body.append(document.createElement('input'))", &[]).await;
        let findings = axe::findings(phone).await;
        assert!(findings.iter().any(|finding| finding.starts_with("label:")), "{findings:?}");
    });
}
