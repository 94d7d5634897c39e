//! The app without a network.

use crate::engine::Engine;
use crate::journeys;
use crate::phone::{Phone, copy, project, walk};
use crate::screen::SMALL;

journeys! {
    a_reload_asks_for_nothing_but_the_worker in Chromium Firefox WebKit;
    it_works_below_an_address_that_is_not_its_own in Chromium Firefox WebKit;
    files_that_the_browser_threw_away_come_back in Chromium Firefox WebKit;
}

/// Opens the app and waits until all of it is on the phone.
pub(crate) async fn install(phone: &mut Phone) {
    phone.open("").await;
    kept(phone).await;
}

/// Waits until a worker answers for this page, which it does once it has all files.
pub(crate) async fn kept(phone: &Phone) {
    let controlled = "return navigator.serviceWorker.controller !== null";
    let answers = async || (phone.script(controlled, &[]).await == true).then_some(());
    assert!(phone.wait(answers).await.is_some(), "the app is not kept on the phone");
}

/// How many versions of the app are kept on the phone.
pub(crate) async fn versions(phone: &Phone) -> usize {
    let count = "const done = arguments[arguments.length - 1];
        caches.keys().then((names) => done(names.length));";
    let count = phone.slow_script(count.into(), &[]).await.as_u64().unwrap();
    usize::try_from(count).unwrap()
}

fn a_reload_asks_for_nothing_but_the_worker(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        let mut asked = Vec::new();
        // WebKit loads the page itself when the worker's process is slow to start, seldom and never
        // twice in a row.
        for _ in 0..if engine == Engine::WebKit { 2 } else { 1 } {
            phone.lose_signal();
            phone.find_signal();
            phone.reload().await;
            kept(phone).await;
            // Browsers look for a newer version at their own time; nothing else may be asked for.
            asked = phone.host().asked();
            asked.retain(|path| path != "/sw.js");
            if asked.is_empty() {
                break;
            }
        }
        assert!(asked.is_empty(), "{asked:?}");
    });
}

fn files_that_the_browser_threw_away_come_back(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        let forget = "const done = arguments[arguments.length - 1];
            caches.keys()
                .then((names) => Promise.all(names.map((name) => caches.delete(name))))
                .then((gone) => done(gone.length));";
        assert_eq!(phone.slow_script(forget.into(), &[]).await, 1);
        phone.reload().await;
        kept(phone).await;
        phone.lose_signal();
        phone.reload().await;
        kept(phone).await;
    });
}

fn it_works_below_an_address_that_is_not_its_own(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        copy(&project().join("dist"), &phone.host().folder().join("somebody"));
        phone.open("somebody/").await;
        kept(phone).await;
        phone.lose_signal();
        phone.reload().await;
        kept(phone).await;
    });
}
