//! The app without a network, and a newer version of it.

use crate::engine::Engine;
use crate::journeys;
use crate::phone::walk;
use crate::screen::SMALL;

journeys! {
    opens_without_a_signal in Chromium Firefox WebKit;
}

fn opens_without_a_signal(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("").await;
        phone.sees("works without signal").await;
        phone.fill("Note", "dug the fence bed").await;
        phone.tap("Keep the note").await;
        phone.sees("dug the fence bed").await;
        phone.lose_signal();
        phone.reload().await;
        phone.sees("dug the fence bed").await;
        if engine.keeps_a_profile() {
            phone.restart().await;
            phone.open("").await;
            phone.sees("dug the fence bed").await;
        }
    });
}
