//! What the gardener writes into the record: read with all its faults, and told in sentences.
//!
//! The second door beside [`ask`](crate::ask): forms come in, drafts of entries go out.

mod ahead;
mod bed;
mod correct;
mod nights;
mod reading;
mod says;
mod settings;
mod start;
mod state;
mod year;

pub use ahead::{Ahead, ahead, aheads, done_ahead, is_ahead};
pub use bed::{bed, bed_meant, next_bed_name, shape, size};
pub use correct::{correctable, correction, correction_form};
pub use reading::reading;
pub use says::{done, offer, places, says};
pub use settings::{knows_climate, settings};
pub use start::{NewTray, last_look, new_tray, tray};
pub use state::{state, until_needed};
pub use year::{UsualDay, Year, year};
