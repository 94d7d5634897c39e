//! What can be asked, a folder each.
//!
//! | file | what it has |
//! |---|---|
//! | `mod` | what is answered and on which model, and `answer` |
//! | `question` | the fields, and how they are read |
//! | `answer` | the typed numbers |
//! | `words` | what is told |
//! | the others | the topic's own models |

pub mod after_frost;
pub mod bed_quantities;
pub mod catalogue;
pub mod day_length;
pub mod drip_run_time;
pub mod emergence;
pub mod frost_tonight;
pub mod garlic_window;
pub mod hardening_plan;
pub mod harvest_before_away;
pub mod harvest_cues;
pub mod harvest_readiness;
pub mod open_greenhouse;
pub mod plants_per_bed;
pub mod residue_wait;
pub mod salt_for_fermenting;
pub mod soil_temperature;
pub mod sow_now;
pub mod spacing_for_count;
pub mod start_age;
