//! Topic `residue-wait`: when a bed covered with plant waste can be planted.

pub mod balance;
pub mod check_in;
pub mod clock;
pub mod course;
pub mod feeding;
pub mod halves;
pub mod limits;
pub mod materials;
pub mod way_round;

#[cfg(test)]
mod course_tests;
