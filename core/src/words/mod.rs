//! Words that several rooms say, each spelled once, with what a form says of it.

pub mod sky;
pub mod spot;
