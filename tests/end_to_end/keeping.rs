//! Where the record is kept: without storage, with full or emptied storage, and by two tabs at once.

use crate::engine::Engine;
use crate::faults::lay_out;
use crate::journeys;
use crate::phone::{Phone, walk};
use crate::screen::SMALL;

journeys! {
    where_storage_is_refused_the_record_lives_in_memory_and_the_page_says_so in Chromium;
    two_tabs_that_write_at_once_lose_nothing in Chromium;
    a_full_phone_says_so_and_writes_once_there_is_room in Chromium;
    full_local_storage_refuses_nothing in Chromium Firefox WebKit;
    cleared_local_storage_comes_back in Chromium Firefox WebKit;
    a_store_that_was_emptied_is_no_first_visit in Chromium Firefox WebKit;
    storage_is_believed_only_when_it_is_read_back in Chromium Firefox WebKit;
    an_open_tab_gives_back_what_storage_lost in Chromium Firefox WebKit;
}

const REFUSED: &str = "This browser refuses storage, so the record is gone when the page closes";

async fn ask_for_cabbages(phone: &Phone, bed: &str) {
    phone.tap("How many fit here?").await;
    phone.fill("Crop", "cabbage").await;
    phone.fill("How many have you", "10").await;
    phone.fill("Length", "8 ft").await;
    phone.fill("Width", "4 ft").await;
    phone.tap("More about the bed").await;
    phone.fill("Its name", bed).await;
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

/// How many lines lie in `localStorage`.
async fn quick(phone: &Phone) -> serde_json::Value {
    let count =
        "return Object.keys(localStorage).filter((key) => key.startsWith('pegline/e/')).length";
    phone.script(count, &[]).await
}

/// Opens IndexedDB in a page, and ends with how many lines lie in it after `work`.
async fn sure(phone: &Phone, work: &str) -> serde_json::Value {
    let script = format!(
        "const done = arguments[arguments.length - 1];
        const asked = indexedDB.open('pegline', 1);
        asked.onsuccess = () => {{
            const lines = asked.result.transaction('lines', 'readwrite').objectStore('lines');
            {work}
            const count = lines.count();
            count.onsuccess = () => {{ asked.result.close(); done(count.result); }};
        }};"
    );
    phone.slow_script(script, &[]).await
}

/// Fills what the browser grants, to the last letter.
const FILL: &str = "let size = 1 << 22;
    for (let at = 0; size > 0; at += 1) {
        try { localStorage.setItem('fill/' + at, 'x'.repeat(size)); } catch { size >>= 1; }
    }
    try { localStorage.setItem('one', 'more'); return 'it is not full'; } catch (error) { return error.name; }";

fn full_local_storage_refuses_nothing(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        phone.sees("Nothing is set up yet").await;
        assert_eq!(phone.script(FILL, &[]).await, "QuotaExceededError");
        let bed = lay_out(phone).await;
        assert_eq!(quick(phone).await, 0);
        assert_eq!(sure(phone, "").await, 1);
        phone.reload().await;
        phone.sees("Anything worth knowing").await;
        assert_eq!(phone.script("return location.hash", &[]).await, bed);
        phone.open("").await;
        phone.sees("Ask at the bed").await;
        assert!(!phone.text().await.contains("writes the record late"));
    });
}

/// Lets the browser grant the app no more than so many bytes, or as many as it would.
async fn grant(phone: &Phone, bytes: Option<u64>) {
    let mut wanted = serde_json::json!({ "origin": phone.origin() });
    if let Some(bytes) = bytes {
        wanted["quotaSize"] = bytes.into();
    }
    phone.browser.cdp().send_raw("Storage.overrideQuotaForOrigin", wanted).await.unwrap();
}

fn a_full_phone_says_so_and_writes_once_there_is_room(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("#/beds/new").await;
        assert_eq!(phone.script(FILL, &[]).await, "QuotaExceededError");
        grant(phone, Some(1)).await;
        phone.fill("Length", "8 ft").await;
        phone.fill("Width", "4 ft").await;
        phone.tap("Save this bed").await;
        phone.sees("Not written: the phone is full").await;
        assert_eq!(phone.value("Length").await, "8 ft");
        // The way out that it names.
        grant(phone, None).await;
        phone.tap("Save this bed").await;
        phone.sees("Written: Bed 1 laid out").await;
        assert_eq!(sure(phone, "").await, 1);
        phone.reload().await;
        phone.sees("Anything worth knowing").await;
    });
}

fn cleared_local_storage_comes_back(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        lay_out(phone).await;
        assert_eq!(quick(phone).await, 1);
        phone.script("localStorage.clear()", &[]).await;
        phone.reload().await;
        phone.sees("Anything worth knowing").await;
        assert_eq!(quick(phone).await, 1);
        phone.open("").await;
        phone.sees("Ask at the bed").await;
        let text = phone.text().await;
        assert!(!text.contains("can be found now") && !text.contains("Nothing is set up yet"));
    });
}

fn a_store_that_was_emptied_is_no_first_visit(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        phone.sees("Nothing is set up yet").await;
        lay_out(phone).await;
        phone.script("localStorage.clear()", &[]).await;
        assert_eq!(sure(phone, "lines.clear();").await, 0);
        phone.open("").await;
        phone.reload().await;
        phone.sees("There was 1 entry here; none can be found now.").await;
        assert!(!phone.text().await.contains("Nothing is set up yet"));
        phone.tap("Take the copy in").await;
        phone.sees("Open a copy").await;
        phone.tap("Ask").await;
        phone.tap("Go on without").await;
        phone.sees("Nothing is set up yet").await;
        phone.reload().await;
        phone.sees("Nothing is set up yet").await;
        assert!(!phone.text().await.contains("can be found now"));
    });
}

fn an_open_tab_gives_back_what_storage_lost(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        lay_out(phone).await;
        let forget = "const done = arguments[arguments.length - 1];
            localStorage.clear();
            const asked = indexedDB.deleteDatabase('pegline');
            asked.onsuccess = () => done('gone');
            asked.onblocked = () => done('the open page blocks it');";
        assert_eq!(phone.slow_script(forget.into(), &[]).await, "gone");
        // As when the tab comes back to sight.
        phone.script("document.dispatchEvent(new Event('visibilitychange'))", &[]).await;
        let back = async || (quick(phone).await == 1).then_some(());
        assert!(phone.wait(back).await.is_some(), "localStorage stays empty");
        phone.reload().await;
        phone.script("localStorage.clear()", &[]).await;
        phone.reload().await;
        phone.sees("Anything worth knowing").await;
    });
}

/// `localStorage` that keeps a text and then complains.
const COMPLAINS: &str = "const set = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, text) { set.call(this, key, text); throw new Error('no'); };";
/// IndexedDB that takes a line and does nothing with it.
const IDLE: &str = "IDBObjectStore.prototype.add = function (line, key) { return this.get(key); };";
/// `localStorage` that does nothing either.
const BOTH_IDLE: &str = "Storage.prototype.setItem = () => {};";

fn storage_is_believed_only_when_it_is_read_back(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        lay_out(phone).await;
        let note = async |text: &str| {
            phone.fill("Anything worth knowing", text).await;
            phone.tap("Write it down").await;
        };
        phone.script(COMPLAINS, &[]).await;
        note("first frost").await;
        phone.sees("Written: first frost").await;
        assert_eq!(quick(phone).await, 2);

        phone.script(IDLE, &[]).await;
        note("slugs").await;
        phone.sees("Written: slugs (for now)").await;
        phone.sees("This browser writes the record late").await;
        assert_eq!(sure(phone, "").await, 2);

        phone.script(BOTH_IDLE, &[]).await;
        note("gate left open").await;
        phone.sees("Not written").await;
        assert_eq!(phone.value("note").await, "gate left open");
        let text = phone.text().await;
        assert!(text.contains("slugs") && !text.contains("Writing"), "{text}");

        // With the browser's own storage again, what was written for now goes to both.
        phone.reload().await;
        phone.sees("slugs").await;
        let both = async || (sure(phone, "").await == 3).then_some(());
        assert!(phone.wait(both).await.is_some(), "it is not in both");
        assert!(!phone.text().await.contains("gate left open"));
    });
}
