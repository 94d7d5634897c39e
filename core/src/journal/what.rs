//! The kinds of entry.
//!
//! Fields that this version does not know are passed over and stay in the entry's own bytes; a
//! kind it does not know leaves the whole entry unread, and kept.

use super::{
    details::{
        Bed, CheckIn, Cleared, Corrected, Covered, Fed, FrostSeen, HardeningDone, Harvest, Note,
        Object, Planted, Reading, Reserved, ResidueLaid, Seeded, Settings, StartLost, StartMoved,
        StartPrickedOut, StartSown, StruckOut, Uncovered, Watered,
    },
    entry::Fault,
    fields::{Detail, Misfit},
};
use serde::{Serialize, Serializer};

/// One table for everything that is done once for each kind.
macro_rules! kinds {
    ($($(#[$doc:meta])* $name:literal $kind:ident($body:ty),)+) => {
        /// What was done or seen: one variant for each kind of entry.
        #[derive(Debug, PartialEq)]
        pub enum What { $($(#[$doc])* $kind($body),)+ }

        // By hand, since derived it is compiled in every package that clones an entry.
        impl Clone for What {
            fn clone(&self) -> Self {
                match self { $(Self::$kind(body) => Self::$kind(body.clone()),)+ }
            }
        }

        impl What {
            /// The names of all kinds, as they stand in an entry's `kind`.
            pub const KINDS: &[&str] = &[$($name),+];

            /// The name of this kind.
            #[must_use]
            pub fn kind(&self) -> &'static str {
                match self { $(Self::$kind(_) => $name,)+ }
            }

            /// Reads the `what` of an entry of this kind; nothing for a kind not known here.
            pub(super) fn read(kind: &str, fields: Object) -> Option<Result<Self, Misfit>> {
                Some(match kind {
                    $($name => <$body>::read(fields).map(Self::$kind),)+
                    _ => return None,
                })
            }

            /// The fields of this kind that are given.
            pub(crate) fn object(&self) -> Object {
                match self { $(Self::$kind(body) => body.object(),)+ }
            }
        }
    };
}

impl Serialize for What {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.object().serialize(serializer)
    }
}

kinds! {
    /// A bed was laid out, changed, or taken away; `about.bed` is its id.
    "bed" Bed(Bed),
    /// Something about the place is known: the fields of the door's `site`. Each field given
    /// replaces the one before, null takes it out.
    "place" Place(Object),
    /// The gardener's own settings; each field given replaces the one before.
    "settings" Settings(Settings),
    /// A tray was sown. The entry's id is the start's id from then on.
    "start-sown" StartSown(StartSown),
    /// The seedlings of `about.start` were moved into larger room.
    "start-pricked-out" StartPrickedOut(StartPrickedOut),
    /// `about.start` was carried to another spot.
    "start-moved" StartMoved(StartMoved),
    /// Plants of `about.start` died or were given away.
    "start-lost" StartLost(StartLost),
    /// Plants went into `about.bed`, from `about.start` if it is named. The entry's id is the
    /// planting's id from then on.
    "planted" Planted(Planted),
    /// Seed went into `about.bed`. The entry's id is the planting's id from then on.
    "seeded" Seeded(Seeded),
    /// Residue was laid on `about.bed` or dug into it.
    "residue-laid" ResidueLaid(ResidueLaid),
    /// A look at `about.bed`, `about.start` or `about.planting`, to compare with the forecast.
    "check-in" CheckIn(CheckIn),
    /// Something was measured, at `about.bed` or at a `spot`.
    "reading" Reading(Reading),
    /// `about.bed` was covered against cold.
    "covered" Covered(Covered),
    /// The cover came off `about.bed`.
    "uncovered" Uncovered(Uncovered),
    /// Frost, or the harm it did, was seen at `about.bed` or a `spot`.
    "frost-seen" FrostSeen(FrostSeen),
    /// `about.start` had a day outdoors.
    "hardening-done" HardeningDone(HardeningDone),
    /// Something was picked from `about.planting` or `about.bed`.
    "harvest" Harvest(Harvest),
    /// Plants came out of `about.bed`, or only those of `about.planting`.
    "cleared" Cleared(Cleared),
    /// `about.bed` or `about.start` was watered.
    "watered" Watered(Watered),
    /// `about.bed` or `about.start` was fed.
    "fed" Fed(Fed),
    /// `about.bed` is kept free for something.
    "reserved" Reserved(Reserved),
    /// Anything else worth knowing.
    "note" Note(Note),
    /// Another entry no longer counts.
    "struck-out" StruckOut(StruckOut),
    /// Another entry reads otherwise.
    "corrected" Corrected(Corrected),
}

impl What {
    /// Values that no such entry can have, whoever wrote it.
    pub(super) fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        match self {
            Self::Bed(Bed { name: None, bed: None, gone: false }) => {
                faults.push(Fault::new("what", "a bed needs a name or a shape"));
            }
            Self::Place(fields) if fields.is_empty() => {
                faults.push(Fault::new("what", "nothing about the place is given"));
            }
            Self::Settings(settings) => {
                within(&mut faults, "what.nerve", settings.nerve.map(f64::from), 100);
            }
            Self::StartSown(StartSown { crop, .. })
            | Self::Planted(Planted { crop, .. })
            | Self::Seeded(Seeded { crop, .. }) => given(&mut faults, "what.crop", crop),
            Self::StartMoved(moved) => given(&mut faults, "what.spot", &moved.spot),
            Self::ResidueLaid(laid) if laid.materials.is_empty() => {
                faults.push(Fault::new("what.materials", "no material is named"));
            }
            Self::CheckIn(look) => {
                if *look == (CheckIn { part: look.part.clone(), ..CheckIn::default() }) {
                    faults.push(Fault::new("what", "nothing was looked at"));
                }
                within(&mut faults, "what.left", look.left, 1);
                within(&mut faults, "what.up", look.up, 1);
                within(&mut faults, "what.slugs", look.slugs, 1_000);
            }
            Self::Reading(reading) => within(&mut faults, "what.humidity", reading.humidity, 100),
            Self::HardeningDone(day) => within(&mut faults, "what.hours", day.hours, 24),
            Self::Watered(watered) => {
                within(&mut faults, "what.minutes", watered.minutes, 7 * 24 * 60);
            }
            Self::Note(note) => given(&mut faults, "what.text", &note.text),
            Self::Corrected(Corrected { when: None, about: None, set, what: None, .. })
                if set.as_ref().is_none_or(Object::is_empty) =>
            {
                faults.push(Fault::new("what", "nothing is corrected"));
            }
            _ => {}
        }
        faults
    }
}

fn given(faults: &mut Vec<Fault>, field: &'static str, text: &str) {
    if text.trim().is_empty() {
        faults.push(Fault::new(field, "must not be empty"));
    }
}

/// Takes in 0 to `most`; a number that is none is outside.
fn within(faults: &mut Vec<Fault>, field: &'static str, value: Option<f64>, most: u32) {
    if value.is_some_and(|value| !(0.0 <= value && value <= f64::from(most))) {
        faults.push(Fault::new(field, &format!("must be 0 to {most}")));
    }
}
