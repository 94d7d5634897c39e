//! One function for each screen: plain data in, markup out; testable without a browser.

pub mod ask;
pub mod bed;
pub mod beds;
pub mod book;
pub mod cold;
pub mod form;
mod picture;
pub mod question;
pub mod residue;
pub mod settings;
pub mod starts;
