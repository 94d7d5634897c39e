//! Checks against what others have published, each with its source beside it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod amounts;
mod catalogue;
mod sun;
