//! The screens on which the app is looked at.

use serde_json::json;
use thirtyfour::WebDriver;

/// A screen's size in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Size {
    pub(crate) width: u32,
    pub(crate) height: u32,
}

/// A small phone of today.
pub(crate) const SMALL: Size = Size { width: 360, height: 740 };
/// A large phone of today.
pub(crate) const LARGE: Size = Size { width: 412, height: 915 };

/// The colours that the phone's owner asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Scheme {
    Light,
    Dark,
    /// Few colours, of the owner's choice; backgrounds and shadows go.
    Forced,
}

impl Scheme {
    pub(crate) const ALL: [Scheme; 3] = [Scheme::Light, Scheme::Dark, Scheme::Forced];

    pub(crate) fn name(self) -> &'static str {
        match self {
            Scheme::Light => "light",
            Scheme::Dark => "dark",
            Scheme::Forced => "forced",
        }
    }

    /// Makes Chromium ask for these colours.
    pub(crate) async fn emulate(self, browser: &WebDriver) {
        let features = json!({ "features": [
            {
                "name": "prefers-color-scheme",
                "value": if self == Scheme::Dark { "dark" } else { "light" },
            },
            {
                "name": "forced-colors",
                "value": if self == Scheme::Forced { "active" } else { "none" },
            },
        ]});
        browser.cdp().send_raw("Emulation.setEmulatedMedia", features).await.unwrap();
    }
}

/// Gives a desktop browser's page the size of a phone's, as far as its window allows.
pub(crate) async fn fit_window(browser: &WebDriver, size: Size) {
    // The page is smaller than the window by bars whose size is only known afterwards.
    let mut outer = size;
    for _ in 0..2 {
        browser.set_window_rect(0, 0, outer.width, outer.height).await.unwrap();
        let inner: [u32; 2] = browser
            .execute("return [innerWidth, innerHeight]", [])
            .await
            .unwrap()
            .convert()
            .unwrap();
        if inner == [size.width, size.height] {
            return;
        }
        outer.width = (outer.width + size.width).saturating_sub(inner[0]);
        outer.height = (outer.height + size.height).saturating_sub(inner[1]);
    }
}
