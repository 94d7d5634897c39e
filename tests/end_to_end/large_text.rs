//! Text at twice its size: nothing beside the screen, nothing cut off, nothing under the bar.

use serde_json::json;

use crate::phone::Phone;

/// Sets the reader's own size of text, in Chromium, to twice the usual.
pub(crate) async fn twice_as_large(phone: &mut Phone) {
    phone.open("").await;
    phone.sees("Ask at the bed").await;
    let before = root_size(phone).await;
    let sizes = json!({ "fontSizes": { "standard": 32, "fixed": 26 } });
    let cdp = phone.browser.cdp();
    cdp.send_raw("Page.setFontSizes", sizes).await.unwrap();
    phone.open("").await;
    phone.sees("Ask at the bed").await;
    assert!((root_size(phone).await / before - 2.0).abs() < 0.01);
}

async fn root_size(phone: &Phone) -> f64 {
    let size = "return parseFloat(getComputedStyle(document.querySelector('main')).fontSize);";
    phone.script(size, &[]).await.as_f64().unwrap()
}

/// What can't be read on the page as it stands.
pub(crate) async fn findings(phone: &Phone) -> Vec<String> {
    serde_json::from_value(phone.script(FIND, &[]).await).unwrap()
}

const FIND: &str = r#"
    const found = [];
    const width = document.documentElement.clientWidth;
    const named = (element) => `<${element.tagName.toLowerCase()} class="${element.className?.baseVal ?? element.className}"> ${(element.textContent ?? "").trim().slice(0, 60)}`;
    if (document.scrollingElement.scrollWidth > width) {
        found.push(`the page scrolls sideways: ${document.scrollingElement.scrollWidth} of ${width}`);
    }
    // Wide drawings and tables may scroll by themselves.
    const scrolls = (element) => element?.closest("svg, .plan-scroll") !== null;
    for (const element of document.body.querySelectorAll("*")) {
        if (!element.checkVisibility() || scrolls(element) || element.closest(".unseen")) continue;
        const box = element.getBoundingClientRect();
        if (box.width > 0 && (box.right > width + 1 || box.left < -1)) {
            found.push(`beyond the screen's edge: ${named(element)}`);
        }
        // What is typed can be moved through, and a list shows its words whole when it is opened.
        if (["INPUT", "SELECT", "TEXTAREA"].includes(element.tagName)) continue;
        const style = getComputedStyle(element);
        const cut = (overflow) => overflow === "hidden" || overflow === "clip";
        const wide = element.scrollWidth > element.clientWidth + 1 && cut(style.overflowX);
        const high = element.scrollHeight > element.clientHeight + 1 && cut(style.overflowY);
        if (element.clientWidth > 0 && style.display !== "inline" && (wide || high)) {
            found.push(`cut off: ${named(element)}`);
        }
        if (["BUTTON", "A", "LABEL", "SUMMARY"].includes(element.tagName) && element.scrollWidth > element.clientWidth + 1 && style.display !== "inline") {
            found.push(`wider than its box: ${named(element)}`);
        }
    }
    // At the very end nothing lies under the bar of places.
    scrollTo({ top: document.documentElement.scrollHeight, behavior: "instant" });
    const bar = document.querySelector(".places");
    const last = document.querySelector("main").lastElementChild;
    if (bar && last && last.getBoundingClientRect().bottom > bar.getBoundingClientRect().top + 1) {
        found.push(`under the bar at the bottom: ${named(last)}`);
    }
    scrollTo({ top: 0, behavior: "instant" });
    return found;
"#;
