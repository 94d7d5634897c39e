//! What the gardener writes into the record: read with all its faults, and told in sentences.
//!
//! The second door beside [`ask`](crate::ask): forms come in, drafts of entries go out.

mod ahead;
mod bed;
mod correct;
mod forms;
mod look;
mod meeting;
mod names;
mod nights;
mod reading;
mod says;
mod settings;
mod spoken;
mod start;
mod state;
mod thermometers;
pub mod trays;
mod undone;
mod year;

pub(crate) use ahead::ahead;
pub use ahead::{Ahead, aheads, done_ahead, is_ahead};
pub use bed::{bed, name_beds, shape, size};
pub use correct::{correctable, correction, correction_form, gave_way};
pub use forms::{
    AT_A_BED, OF_A_BED, OF_AN_ENTRY, OF_ANY_PAGE, OF_SETTINGS, OF_THERMOMETERS, OF_TRAYS,
};
pub use look::{HALVES, Lies, lies_on, look, lying_parts};
pub use meeting::{Beds, Meeting, Plantings, Side};
pub(crate) use names::{crop_name, kept_for};
pub use nights::{seen, uncovered};
pub use reading::reading;
pub use says::{done, offer, places, says};
pub use settings::{knows_climate, settings};
pub use spoken::{Spoken, spoken};
pub use start::{NewTray, last_look, new_tray, tray};
pub use state::{about_lying, lies_told, state, state_today, until_needed};
pub use thermometers::{Thermometer, night_before, readings, thermometers, twice};
pub use undone::{bring_back, goes_with, undo, undone};
pub use year::{UsualDay, Year, year};
