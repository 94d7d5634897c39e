//! What every topic may know beside its own fields, and which topics there are.

use chrono::NaiveDate;

use crate::{
    garden::Garden,
    given::{Faults, Readable, words},
    quantity::System,
};

/// What every topic may know beside its own fields.
#[derive(Clone, Copy, Debug)]
pub struct Asking<'a> {
    /// The garden as its record tells it; empty if none is set up.
    pub garden: &'a Garden,
    /// Today's date where it was given.
    pub today: Option<NaiveDate>,
    /// The system that words are printed in.
    pub system: System,
}

impl Asking<'_> {
    /// Today's date, for a topic that has no answer without it; its absence is a fault.
    pub(crate) fn need_today(&self, faults: &mut Faults) -> Option<NaiveDate> {
        if self.today.is_none() && !faults.has("today") {
            faults.missed("today", <NaiveDate as Readable>::allowed());
        }
        self.today
    }
}

/// One line a topic: its name, its word, its room, and whether it may take long. `$with` makes of
/// them what it needs.
macro_rules! topics {
    ($with:ident) => {
        $with! {
            /// How many plants fit in a bed, and where.
            PlantsPerBed = "plants-per-bed" in topics::plants_per_bed, in_turns;
            /// The widest spacing at which a number of plants fits.
            SpacingForCount = "spacing-for-count" in topics::spacing_for_count, in_turns;
            /// How much compost, mulch, soil, seed garlic, sets or seed a bed takes.
            BedQuantities = "bed-quantities" in topics::bed_quantities;
            /// How long to run the drip of a bed.
            DripRunTime = "drip-run-time" in topics::drip_run_time;
            /// When a bed covered with plant waste can be planted.
            ResidueWait = "residue-wait" in topics::residue_wait;
            /// How long a day is, and when days are short.
            DayLength = "day-length" in topics::day_length;
            /// How warm the soil is.
            SoilTemperature = "soil-temperature" in topics::soil_temperature;
            /// When to plant garlic, where, and how much of it.
            GarlicWindow = "garlic-window" in topics::garlic_window;
            /// Whether to sow now, and how many seeds.
            SowNow = "sow-now" in topics::sow_now;
            /// Whether seed is still to come up.
            Emergence = "emergence" in topics::emergence;
            /// Whether a crop is ready, at its prime or past, and when to look again.
            HarvestReadiness = "harvest-readiness" in topics::harvest_readiness;
            /// What to look for to know whether it is ready.
            HarvestCues = "harvest-cues" in topics::harvest_cues;
            /// What must be picked before the gardener goes, and what can wait.
            HarvestBeforeAway = "harvest-before-away" in topics::harvest_before_away;
            /// How much salt a ferment takes.
            SaltForFermenting = "salt-for-fermenting" in topics::salt_for_fermenting;
            /// How a tray gets used to outdoors, and when it can be planted.
            HardeningPlan = "hardening-plan" in topics::hardening_plan;
            /// How old a tray really is.
            StartAge = "start-age" in topics::start_age;
            /// What to cover tonight.
            FrostTonight = "frost-tonight" in topics::frost_tonight;
            /// What to do with a crop that was frosted.
            AfterFrost = "after-frost" in topics::after_frost;
            /// Whether to open the greenhouse or the frame today.
            OpenGreenhouse = "open-greenhouse" in topics::open_greenhouse;
            /// What must be decided today.
            Today = "today" in today, in_turns;
            /// The rows of a catalogue table.
            Catalogue = "catalogue" in topics::catalogue;
        }
    };
}

pub(crate) use topics;

/// The names of the topics.
macro_rules! names {
    ($($(#[$doc:meta])* $name:ident = $word:literal in $($room:ident)::+ $(, $turns:ident)?;)*) => {
        words! {
            /// What can be asked.
            pub enum Topic { $($(#[$doc])* $name = $word),* }
        }
    };
}

topics!(names);
