//! Whole journeys through the built app in Chromium, Firefox and WebKit.
//!
//! `cargo xtask test end-to-end` installs what is missing, builds the app and runs them.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod axe;
mod bed_record;
mod broken;
mod complaints;
mod engine;
mod every_screen;
mod faults;
mod harness;
mod keeping;
mod large_text;
mod looks;
mod offline;
mod phone;
mod screen;
mod speed;
mod typing;
mod update;

/// Makes one test of a journey for each engine named.
macro_rules! journeys {
    ($($journey:ident in $($engine:ident)+;)+) => {$(
        mod $journey {
            $(
                #[test]
                #[allow(non_snake_case)]
                fn $engine() {
                    super::$journey(crate::engine::Engine::$engine);
                }
            )+
        }
    )+};
}
use journeys;
