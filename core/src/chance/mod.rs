//! Chances: the distributions that answers with odds rest on.

pub mod binomial;
pub mod normal;
pub mod shrinkage;
pub mod t;
