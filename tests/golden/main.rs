//! Every example's answer and every screen of the invented garden as text, held against what is
//! kept: whatever changes shows as a difference to be read. `cargo xtask golden` keeps them anew.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod door;
#[path = "../examples.rs"]
mod examples;
mod first;
mod kept;
mod screens;
