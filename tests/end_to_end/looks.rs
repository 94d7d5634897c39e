//! Pages as they look, on both sizes of phone and in every set of colours.

use crate::axe::axe;
use crate::engine::Engine;
use crate::journeys;
use crate::offline::install;
use crate::phone::walk;
use crate::screen::{LARGE, SMALL, Scheme};

journeys! {
    the_first_page_is_for_everyone in Chromium;
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
