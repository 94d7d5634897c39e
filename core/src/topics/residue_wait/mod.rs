//! Topic `residue-wait`: when a bed covered with plant waste can be planted.
//!
//! What was laid is weighed and mixed ([`materials`]); its carbon and nitrogen run their course
//! ([`balance`]) on clocks of warmth, damp and touch ([`clock`]), moved by what was seen at the bed
//! ([`check_in`]); six limits each give a range of days ([`limits`]), and what can be done instead of
//! waiting is tried out on the same models ([`way_round`]). Each file names its sources; the
//! published figures that they are held against stand in the crate of tests.

mod advice;
mod answer;
pub mod balance;
pub mod check_in;
pub mod clock;
pub mod course;
pub mod feeding;
mod fits_now;
mod flight;
mod found;
mod from_record;
pub mod halves;
pub mod limits;
pub mod materials;
mod question;
mod read;
pub mod soil;
mod solve;
mod stops;
mod telling;
pub mod way_round;
mod words;

#[cfg(test)]
mod course_tests;
#[cfg(test)]
mod tests;

pub use answer::{
    Ahead, Answer, FitsIn, LimitRange, Nitrogen, Part, Point, ProductAmount, Ratio, WayRound,
};
pub use fits_now::FitsNow;
pub(crate) use from_record::{lying, parts};
pub use question::{Asked, Chop, PerTrap, Smell, Worms};
pub(crate) use solve::{answer, progress};
pub use stops::{Flag, Illness};
