//! Where the record is kept: without storage, and by two tabs at once.

use crate::engine::Engine;
use crate::journeys;
use crate::phone::{Phone, walk};
use crate::screen::SMALL;

journeys! {
    where_storage_is_refused_the_record_lives_in_memory_and_the_page_says_so in Chromium;
    two_tabs_that_write_at_once_lose_nothing in Chromium;
}

const REFUSED: &str = "This browser refuses storage, so the record is gone when the page closes";

async fn ask_for_cabbages(phone: &Phone, bed: &str) {
    phone.tap("How many fit here?").await;
    phone.fill("Crop", "cabbage").await;
    phone.fill("How many have you", "10").await;
    phone.fill("Length", "8 ft").await;
    phone.fill("Width", "4 ft").await;
    phone.tap("More about the bed").await;
    phone.fill("What you call it", bed).await;
    phone.sees("All 10 fit at 18 in").await;
}

fn where_storage_is_refused_the_record_lives_in_memory_and_the_page_says_so(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        phone.sees("Ask at the bed").await;
        assert!(!phone.text().await.contains(REFUSED));

        phone.refuse_storage().await;
        phone.open("").await;
        phone.sees(REFUSED).await;
        let refused = "try { return localStorage === null } catch (error) { return error.name }";
        assert_eq!(phone.script(refused, &[]).await, "SecurityError");
        ask_for_cabbages(phone, "Fence bed").await;
        phone.tap("Write 10 cabbage plants into Fence bed").await;
        phone.tap("Book").await;
        phone.sees("10 cabbage planted in Fence bed").await;
        phone.sees(REFUSED).await;
        phone.reload().await;
        phone.sees("Nothing is written yet").await;
        phone.sees(REFUSED).await;
    });
}

fn two_tabs_that_write_at_once_lose_nothing(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        let first = phone.browser.window().await.unwrap();
        ask_for_cabbages(phone, "Fence bed").await;
        phone.script(WHEN_TOLD, &[]).await;

        let second = phone.browser.new_tab().await.unwrap();
        phone.browser.switch_to_window(second.clone()).await.unwrap();
        phone.open("").await;
        ask_for_cabbages(phone, "Gate bed").await;
        phone.script(WHEN_TOLD, &[]).await;
        phone.script(TELL, &[]).await;

        for tab in [&first, &second] {
            phone.browser.switch_to_window(tab.clone()).await.unwrap();
            phone.tap("Book").await;
            both_are_written(phone).await;
        }
        phone.reload().await;
        both_are_written(phone).await;
        // Two beds and two plantings, each once.
        let kept = "return Object.keys(localStorage).filter((key) => key.startsWith('pegline/e/')).length;";
        assert_eq!(phone.script(kept, &[]).await, 4);
    });
}

/// Writes as soon as some tab says so.
const WHEN_TOLD: &str = "
    window.heard = new BroadcastChannel('now');
    window.writeNow = () => document.querySelector('#write button[type=submit]').click();
    window.heard.onmessage = () => writeNow();";

/// Says so, and writes here without waiting for the other tab.
const TELL: &str = "window.heard.postMessage('now'); writeNow();";

async fn both_are_written(phone: &Phone) {
    for bed in ["Fence bed", "Gate bed"] {
        phone.sees(&format!("10 cabbage planted in {bed}")).await;
    }
}
