//! A first visit that does not come whole: it says so, can be read, and is tried again.

use std::fs;

use crate::engine::Engine;
use crate::journeys;
use crate::phone::{Phone, walk};
use crate::screen::SMALL;

journeys! {
    a_host_in_trouble_is_told_of_and_tried_again in Chromium Firefox WebKit;
    without_its_style_the_app_opens_and_the_style_is_fetched_again in Chromium Firefox WebKit;
    a_file_cut_short_is_told_of_and_tried_again in Chromium Firefox WebKit;
    a_question_tapped_too_soon_is_opened_as_soon_as_there_is_an_app in Chromium Firefox WebKit;
    without_its_first_script_the_page_can_still_be_loaded_again in Chromium Firefox WebKit;
}

const BROKEN: &str = "Pegline has not come whole";

/// Tries again, unless the page has done so by itself.
async fn try_again(phone: &Phone) {
    let again = "const again = document.getElementById('again');
        if (again?.checkVisibility()) again.click();";
    phone.script(again, &[]).await;
}

async fn opens(phone: &Phone) {
    try_again(phone).await;
    phone.is_open().await;
    phone.sees("Nothing is set up yet").await;
    assert!(!phone.text().await.contains(BROKEN));
}

async fn says_so(phone: &Phone) {
    phone.sees(BROKEN).await;
    let text = phone.text().await;
    assert!(text.contains("How many fit here?"), "the questions can be read: {text}");
    assert!(!text.contains("set up"), "nothing is said of a record: {text}");
}

fn a_host_in_trouble_is_told_of_and_tried_again(engine: Engine) {
    for file in ["/boot.js", "/pegline.js", "/pegline_bg.wasm", "/vendor/idiomorph.js"] {
        walk(engine, SMALL, async |phone| {
            phone.forgive();
            phone.host().fail(&[file]);
            phone.look_at("").await;
            says_so(phone).await;
            // Trying in vain is no harm.
            try_again(phone).await;
            says_so(phone).await;
            phone.host().fail(&[]);
            opens(phone).await;
        });
    }
}

fn without_its_style_the_app_opens_and_the_style_is_fetched_again(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.forgive();
        phone.host().fail(&["/app.css"]);
        phone.open("").await;
        phone.sees(BROKEN).await;
        phone.sees("Nothing is set up yet").await;
        phone.host().fail(&[]);
        try_again(phone).await;
        let style = "const nav = document.querySelector('nav.places'); return nav && getComputedStyle(nav).position";
        let styled = async || (phone.script(style, &[]).await == "fixed").then_some(());
        assert!(phone.wait(styled).await.is_some(), "it stays bare");
    });
}

fn a_file_cut_short_is_told_of_and_tried_again(engine: Engine) {
    for name in ["pegline.js", "pegline_bg.wasm"] {
        walk(engine, SMALL, async |phone| {
            phone.forgive();
            let file = phone.host().folder().join(name);
            let whole = fs::read(&file).unwrap();
            for packed in ["br", "gz"] {
                fs::remove_file(phone.host().folder().join(format!("{name}.{packed}"))).unwrap();
            }
            fs::write(&file, &whole[..whole.len() / 2]).unwrap();
            phone.look_at("").await;
            says_so(phone).await;
            fs::write(&file, whole).unwrap();
            opens(phone).await;
        });
    }
}

fn a_question_tapped_too_soon_is_opened_as_soon_as_there_is_an_app(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.forgive();
        phone.host().fail(&["/pegline_bg.wasm"]);
        phone.look_at("").await;
        says_so(phone).await;
        phone.tap("How many fit here?").await;
        phone.host().fail(&[]);
        try_again(phone).await;
        phone.is_open().await;
        phone.sees("How many have you").await;
    });
}

fn without_its_first_script_the_page_can_still_be_loaded_again(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.forgive();
        phone.host().fail(&["/first.js", "/boot.js"]);
        phone.look_at("").await;
        // It is shown by time alone.
        let hurry =
            "const [slow] = document.getElementById('slow').getAnimations(); slow.finish();";
        phone.script(hurry, &[]).await;
        phone.sees("This takes longer than it should.").await;
        phone.host().fail(&["/first.js"]);
        phone.tap("Load the page again").await;
        phone.is_open().await;
        phone.sees("Nothing is set up yet").await;
        assert!(!phone.text().await.contains("This takes longer"));
    });
}
