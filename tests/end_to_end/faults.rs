//! A phone that goes off right after something was written.

use std::time::Duration;

use fastrand::Rng;

use crate::engine::Engine;
use crate::journeys;
use crate::phone::{Phone, walk};
use crate::screen::SMALL;

journeys! {
    what_was_written_outlives_a_browser_that_is_killed in Chromium Firefox;
}

/// Lays out a bed and gives the part of the app's address where it is.
pub(crate) async fn lay_out(phone: &mut Phone) -> String {
    phone.open("#/beds/new").await;
    phone.fill("Length", "8 ft").await;
    phone.fill("Width", "4 ft").await;
    phone.tap("Save this bed").await;
    phone.sees("Written: ").await;
    phone.script("return location.hash", &[]).await.as_str().unwrap_or_default().to_owned()
}

/// Writes a note about the bed whose page is open, and comes back at the very moment at which the page
/// says that it is written; or at once, if that is not waited for.
async fn note(phone: &Phone, text: &str, wait: bool) {
    let write = "const [text, wait, done] = arguments;
        const said = () => document.querySelector('#notices .saved p')?.innerText ?? '';
        const seen = new MutationObserver(() => {
            if (wait && said().includes(text) && !said().includes('Writing')) done(said());
        });
        seen.observe(document.body, { subtree: true, childList: true, characterData: true });
        const field = document.querySelector('[name=note]');
        field.value = text;
        field.form.querySelector('[type=submit]').click();
        if (!wait) done('');";
    let said = phone.slow_script(write.into(), &[text.into(), wait.into()]).await;
    let said = said.as_str().unwrap_or_default();
    let words = format!("Written: {text}");
    assert!(!wait || said.split_whitespace().collect::<Vec<_>>().join(" ") == words, "{said:?}");
}

/// Waits until a bed's page is there, with all that storage has.
async fn at_bed(phone: &mut Phone, bed: &str) {
    phone.open(bed).await;
    let field = "return document.querySelector('[name=note]') !== null";
    let shown = async || (phone.script(field, &[]).await == true).then_some(());
    assert!(phone.wait(shown).await.is_some(), "the bed is gone: {}", phone.text().await);
}

/// How many lines `localStorage` alone has after a start, before the app has united both places.
async fn quick_alone(phone: &mut Phone) -> usize {
    let address = format!("{}/manifest.webmanifest", phone.origin());
    phone.browser.goto(address).await.unwrap();
    let count =
        "return Object.keys(localStorage).filter((key) => key.startsWith('pegline/e/')).length";
    usize::try_from(phone.script(count, &[]).await.as_u64().unwrap()).unwrap()
}

fn what_was_written_outlives_a_browser_that_is_killed(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        let bed = lay_out(phone).await;
        for kill in 1..=3 {
            at_bed(phone, &bed).await;
            let text = format!("before kill {kill}");
            note(phone, &text, true).await;
            phone.kill_and_start().await;
            phone.open("#/book").await;
            phone.sees(&text).await;
            phone.open("").await;
            phone.sees("Ask at the bed").await;
            assert!(!phone.text().await.contains("can be found now"), "the store lost something");
        }
    });
}

/// A number that the chore gives.
fn given(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(otherwise)
}

#[test]
#[ignore = "a measurement of minutes: `cargo xtask faults`"]
fn random_kills_lose_nothing_that_was_said_to_be_written() {
    let (kills, seed) = (given("PEGLINE_KILLS", 40), given("PEGLINE_SEED", 1));
    walk(Engine::Chromium, SMALL, async |phone| {
        let mut rng = Rng::with_seed(seed);
        let bed = lay_out(phone).await;
        let mut written: Vec<String> = Vec::new();
        let (mut lost, mut bad_kills, mut untold, mut found, mut late) = (0, 0, 0, 0, 0);
        for kill in 1..=kills {
            at_bed(phone, &bed).await;
            let before = written.len();
            for at in 1..=rng.usize(1..=3) {
                let text = format!("kill {kill} note {at}.");
                note(phone, &text, true).await;
                written.push(text);
            }
            // At once, within three seconds, or in the middle of one more that nothing was said of.
            let how = rng.u8(0..3);
            let more = format!("kill {kill} untold.");
            match how {
                0 => {}
                1 => tokio::time::sleep(Duration::from_millis(rng.u64(0..3000))).await,
                _ => {
                    note(phone, &more, false).await;
                    untold += 1;
                    tokio::time::sleep(Duration::from_millis(rng.u64(0..40))).await;
                }
            }
            phone.kill_and_start().await;
            let all = 1 + written.len() + found;
            late += u64::from(quick_alone(phone).await < all);
            phone.open("#/book").await;
            phone.sees("The record").await;
            // The first line that was ever written shows that both places have been read.
            phone.sees("laid out").await;
            let text = phone.text().await;
            let gone = written.iter().skip(before).filter(|note| !text.contains(*note)).count();
            let old = written.iter().take(before).filter(|note| !text.contains(*note)).count();
            assert_eq!(old, 0, "what had outlived one kill did not outlive another");
            lost += gone;
            bad_kills += usize::from(gone > 0);
            found += usize::from(text.contains(&more));
            written.retain(|note| text.contains(note));
        }
        let told = written.len() + lost;
        println!("seed {seed}: {kills} kills, {bad_kills} of them lost something;");
        println!("of {told} notes said to be written {lost} were lost;");
        println!("of {untold} begun but not yet said to be, {found} are there;");
        println!("after {late} of the kills localStorage alone lacked something.");
        assert_eq!(lost, 0);
        assert!(late > 0, "nothing was ever at risk, so that this tells nothing");
    });
}
