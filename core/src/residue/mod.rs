//! Topic `residue-wait`: when a bed covered with plant waste can be planted.

pub mod balance;
pub mod check_in;
pub mod clock;
pub mod feeding;
pub mod halves;
pub mod limits;
