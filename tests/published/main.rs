//! Checks against what others have published, each with its source beside it.
//! Checks against values published elsewhere, and against independent libraries.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod catalogue;
mod amounts;
mod sun;
