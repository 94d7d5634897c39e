//! Pages as they look, on both sizes of phone, in every set of colours, and with large text.

use crate::axe::{self, axe};
use crate::engine::Engine;
use crate::every_screen::visit;
use crate::journeys;
use crate::large_text;
use crate::offline::install;
use crate::phone::walk;
use crate::screen::{LARGE, SMALL, Scheme};

journeys! {
    the_first_page_is_for_everyone in Chromium;
    every_screen_is_for_everyone_by_day in Chromium;
    every_screen_is_for_everyone_at_night in Chromium;
    every_screen_takes_text_twice_as_large in Chromium;
}

fn the_first_page_is_for_everyone(engine: Engine) {
    for size in [SMALL, LARGE] {
        walk(engine, size, async |phone| {
            install(phone).await;
            for scheme in Scheme::ALL {
                phone.ask_for(scheme).await;
                phone.screenshot("first").await;
                axe(phone).await;
            }
        });
    }
}

fn every_screen_is_for_everyone_by_day(engine: Engine) {
    every_screen_is_for_everyone(engine, Scheme::Light);
}

fn every_screen_is_for_everyone_at_night(engine: Engine) {
    every_screen_is_for_everyone(engine, Scheme::Dark);
}

fn every_screen_is_for_everyone(engine: Engine, scheme: Scheme) {
    walk(engine, SMALL, async |phone| {
        phone.ask_for(scheme).await;
        let found = std::cell::RefCell::new(Vec::new());
        visit(phone, async |phone, screen| {
            for finding in axe::findings(phone).await {
                found.borrow_mut().push(format!("{screen}: {finding}"));
            }
        })
        .await;
        let found = found.into_inner();
        assert!(found.is_empty(), "axe found:\n{}", found.join("\n"));
    });
}

/// Text at 200 % (WCAG 2.2, SC 1.4.4) by the reader's own setting, on a phone's width.
fn every_screen_takes_text_twice_as_large(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        large_text::twice_as_large(phone).await;
        let found = std::cell::RefCell::new(Vec::new());
        visit(phone, async |phone, screen| {
            for finding in large_text::findings(phone).await {
                found.borrow_mut().push(format!("{screen}: {finding}"));
            }
        })
        .await;
        phone.screenshot("large-text").await;
        let found = found.into_inner();
        assert!(found.is_empty(), "at 200 %:\n{}", found.join("\n"));
    });
}
