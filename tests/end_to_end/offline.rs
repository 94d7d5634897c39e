//! The app without a network.

use crate::engine::Engine;
use crate::journeys;
use crate::phone::{Phone, copy, project, walk};
use crate::screen::SMALL;

journeys! {
    a_reload_asks_for_nothing_but_the_worker in Chromium Firefox WebKit;
    it_works_below_an_address_that_is_not_its_own in Chromium Firefox WebKit;
    files_that_the_browser_threw_away_come_back in Chromium Firefox WebKit;
    one_file_that_the_browser_threw_away_is_fetched in Chromium Firefox WebKit;
    settings_tell_whether_it_opens_without_signal in Chromium Firefox;
    the_licences_are_there_without_signal in Chromium Firefox WebKit;
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

/// Throws one file of the app away, and ends with how many are left.
async fn throw_away(phone: &Phone, file: &str) -> u64 {
    let forget = "const [file, done] = arguments;
        caches.keys()
            .then(([name]) => caches.open(name))
            .then(async (cache) => {
                await cache.delete(file);
                done((await cache.keys()).length);
            });";
    phone.slow_script(forget.into(), &[file.into()]).await.as_u64().unwrap()
}

/// How many of the app's files are on the phone.
async fn files(phone: &Phone) -> u64 {
    throw_away(phone, "no-such-file").await
}

fn one_file_that_the_browser_threw_away_is_fetched(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        let all = files(phone).await;
        // One that it opens with, and one that it opens without.
        for file in ["pegline_bg.wasm", "icon-512.png"] {
            assert_eq!(throw_away(phone, file).await, all - 1);
            phone.reload().await;
            let whole = async || (files(phone).await == all).then_some(());
            assert!(phone.wait(whole).await.is_some(), "{file} is not fetched");
        }
        phone.lose_signal();
        phone.reload().await;
        kept(phone).await;
    });
}

fn settings_tell_whether_it_opens_without_signal(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.forgive();
        phone.host().fail(&["/icon-512.png"]);
        phone.open("#/settings").await;
        phone.sees("Not yet: not all of the app has come.").await;
        phone.host().fail(&[]);
        phone.script("dispatchEvent(new Event('online'))", &[]).await;
        phone.sees("Yes: all of the app is on this phone.").await;
        kept(phone).await;
        phone.lose_signal();
        phone.reload().await;
        phone.sees("Yes: all of the app is on this phone.").await;
        // A file that is gone can't be fetched now, and is as soon as there is signal.
        throw_away(phone, "icon-512.png").await;
        phone.reload().await;
        phone.sees("Not yet: not all of the app has come.").await;
        phone.find_signal();
        phone.script("dispatchEvent(new Event('online'))", &[]).await;
        phone.sees("Yes: all of the app is on this phone.").await;
    });
}

fn the_licences_are_there_without_signal(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        // A text has no icon of its own, which browsers ask for.
        phone.forgive();
        install(phone).await;
        phone.lose_signal();
        phone.look_at("licences.txt").await;
        phone.sees("It is made of these works of others").await;
        phone.sees("Permission is hereby granted").await;
    });
}
