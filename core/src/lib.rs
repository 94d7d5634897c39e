//! The garden computation of Pegline.
//!
//! Pure: no input or output, no clock, no randomness, no browser. Dates come in, answers go out.
#![cfg_attr(
    test,
    allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)
)]

pub mod ask;
pub mod asking;
pub mod bed;
pub mod catalogue;
pub mod chance;
pub mod frost;
pub mod garden;
pub mod given;
pub mod harvest;
pub mod journal;
pub mod layout;
mod order;
pub mod place;
pub mod plan;
pub mod quantity;
pub mod record;
pub mod season;
pub mod source;
pub mod starts;
pub mod telling;
pub mod text;
pub mod time;
pub mod today;
pub mod topics;
pub mod turns;
pub mod words;
