//! Words that several rooms say, each spelled once, with what a form says of it.

pub mod harm;
pub mod sky;
pub mod spot;
