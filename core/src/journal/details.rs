//! The fields of each kind of entry.
//!
//! Quantities stay the gardener's own text ("8 ft"), and words that a topic offers to choose
//! from (`on-top`, `prime`) stay text too: the topic that asks for them reads them with all its
//! faults, and the record never loses a digit. What the record itself acts on is typed.
//!
//! The table below is the only place where a field is named; `fields` beside it reads and
//! writes by it. (Two dozen derived readers would weigh ten times as much on the phone.)

use super::{
    fields::{Detail, Field, Fields},
    id::Ulid,
    sites::Sites,
};
use crate::quantity::System;
use chrono::{NaiveDate, NaiveDateTime};
use serde_json::{Map, Value};

/// A JSON object whose fields a topic reads, such as a bed's shape.
pub type Object = Map<String, Value>;

/// All fields there are, as for a place: they are the topics' own.
impl Detail for Object {
    fn take(from: &mut Fields) -> Self {
        from.take_all()
    }

    fn put(&self, into: &mut Object) {
        into.clone_from(self);
    }
}

/// A struct of fields, and how they are taken from an object and put into one.
macro_rules! details {
    ($(
        $(#[$doc:meta])*
        $name:ident { $($(#[$about:meta])* $field:ident: $type:ty,)* }
    )+) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct $name { $($(#[$about])* pub $field: $type,)* }

        impl Detail for $name {
            fn take(from: &mut Fields) -> Self {
                let _ = &from;
                Self { $($field: Field::take(from, stringify!($field)),)* }
            }

            fn put(&self, into: &mut Object) {
                let _ = &into;
                $(Field::put(&self.$field, into, stringify!($field));)*
            }
        }
    )+};
}

details! {
    /// What an entry is about; every part may be absent.
    About {
        /// The bed's id.
        bed: Option<String>,
        /// The start's id: that of the entry in which it was sown.
        start: Option<String>,
        /// The planting's id: that of the entry in which it was planted or seeded.
        planting: Option<String>,
    }

    /// A bed laid out or changed.
    Bed {
        /// What the gardener calls it.
        name: Option<String>,
        /// Its shape, in the field names of the door's `bed`; replaces the whole shape before it.
        bed: Option<Object>,
        /// The bed was taken away.
        gone: bool,
    }

    /// The gardener's own settings.
    Settings {
        /// The system of units answers are printed in.
        units: Option<System>,
        /// What one heaped wheelbarrow holds, a volume.
        wheelbarrow: Option<String>,
        /// The chance of harm the gardener is ready to take on a cold night, in percent.
        nerve: Option<u8>,
    }

    /// A tray sown.
    StartSown {
        /// The crop's catalogue id, or the gardener's own word for it.
        crop: String,
        /// The variety.
        variety: Option<String>,
        /// What the gardener calls the tray.
        name: Option<String>,
        /// How many cells or pots were sown.
        count: Option<u32>,
        /// What it was sown in, such as "72-cell tray".
        container: Option<String>,
        /// Where it stands: `sill`, `mat`, `lamps`, `heated-house`, `unheated-greenhouse`,
        /// `cold-frame`, `outdoors`.
        spot: Option<String>,
        /// The mean temperature it is kept at.
        warmth: Option<String>,
        /// The year the seed was grown or packed for.
        seed_year: Option<u16>,
    }

    /// Seedlings moved into larger room.
    StartPrickedOut {
        /// How many there are from now on.
        count: Option<u32>,
        /// What they stand in now.
        container: Option<String>,
    }

    /// A start carried to another spot.
    StartMoved {
        /// Where it stands now, in the words of [`StartSown::spot`].
        spot: String,
    }

    /// Plants of a start that are no more.
    StartLost {
        /// How many; all of them when absent.
        count: Option<u32>,
        /// What took them, such as "damping off".
        why: Option<String>,
    }

    /// Plants set into a bed.
    Planted {
        /// The crop's catalogue id, or the gardener's own word for it.
        crop: String,
        /// The variety; that of the start when absent.
        variety: Option<String>,
        /// How many plants.
        count: Option<u32>,
        /// The space between them, a length.
        spacing: Option<String>,
        /// Where they stand.
        at: Option<Sites>,
    }

    /// Seed sown where it will grow.
    Seeded {
        /// The crop's catalogue id, or the gardener's own word for it.
        crop: String,
        /// The variety.
        variety: Option<String>,
        /// How many plants are wanted there.
        count: Option<u32>,
        /// How many seeds were sown.
        seeds: Option<u32>,
        /// The space between plants, a length.
        spacing: Option<String>,
        /// How deep, a length.
        depth: Option<String>,
        /// The year the seed was grown or packed for.
        seed_year: Option<u16>,
        /// Where it was sown.
        at: Option<Sites>,
    }

    /// One material among the residue, in the field names of the door's `residue-wait`.
    Material {
        /// The residue's catalogue id.
        residue: String,
        /// How much, a mass or a volume.
        amount: Option<String>,
        /// `fresh` or `dry`.
        state: Option<String>,
        /// `soft`, `mixed` or `woody`.
        stage: Option<String>,
    }

    /// Residue laid, in the field names of the door's `residue-wait`.
    ResidueLaid {
        /// What was laid.
        materials: Vec<Material>,
        /// `on-top` or `worked-in`.
        placement: Option<String>,
        /// `dry`, `part`, `moist` or `soggy`.
        moisture: Option<String>,
        /// `whole`, `hand` or `fine`.
        chop: Option<String>,
        /// What lies over it.
        cover: Option<String>,
        /// How deep compost was spread over it, a length.
        compost: Option<String>,
        /// `diseased`, `in-seed`, `running`, `herbicide`.
        flags: Vec<String>,
        /// The part of the bed it lies on, such as "left half"; the whole bed when absent.
        part: Option<String>,
    }

    /// A look, to compare with the forecast.
    CheckIn {
        /// Share of the residue that can still be seen, 0 to 1.
        left: Option<f64>,
        /// Share of the seedlings that are up, 0 to 1.
        up: Option<f64>,
        /// True leaves on most plants.
        leaves: Option<u32>,
        /// `loose`, `holding`, `circling` or `matted`.
        roots: Option<String>,
        /// What else is seen on young plants: `leggy`, `doubled`, `budding`, `yellow`, `large`.
        signs: Vec<String>,
        /// Slugs in a baited trap overnight.
        slugs: Option<f64>,
        /// How the residue smells when lifted, in the words of the door's `residue-wait`.
        smell: Option<String>,
        /// Worms under it: `none`, `few` or `many`.
        worms: Option<String>,
        /// Of 20 seeds in a jar of the bed's soil, how many came up.
        jar: Option<u32>,
        /// Of 20 seeds in a jar of plain mix, how many came up.
        jar_plain: Option<u32>,
        /// The part of the bed looked at, in the words of [`ResidueLaid::part`].
        part: Option<String>,
        /// How ripe the crop is, in the words of [`Harvest::stage`].
        stage: Option<String>,
    }

    /// Something measured.
    Reading {
        /// Where, when not at a bed: the words of [`StartSown::spot`], `outdoors` being the spot
        /// that every bed is compared with.
        spot: Option<String>,
        /// The lowest air temperature of the night.
        low: Option<String>,
        /// The highest air temperature of the day.
        high: Option<String>,
        /// The air temperature at that moment, such as at dusk.
        air: Option<String>,
        /// The dew point at that moment.
        dew_point: Option<String>,
        /// Relative humidity at that moment, in percent.
        humidity: Option<f64>,
        /// The low that was forecast for the night.
        forecast_low: Option<String>,
        /// `clear`, `part` or `cloudy`.
        sky: Option<String>,
        /// `still`, `light` or `windy`.
        wind: Option<String>,
        /// The soil temperature.
        soil: Option<String>,
        /// The depth of the soil temperature, a length.
        depth: Option<String>,
        /// Rain since the day before, a length.
        rain: Option<String>,
        /// When the thermometer was last set back: `morning` of the day before, or `unknown`; nothing
        /// where that was after noon, so that the low is this night's.
        reset: Option<String>,
    }

    /// A bed covered.
    Covered {
        /// The cover's catalogue id.
        cover: Option<String>,
        /// How many of them it took.
        count: Option<u32>,
    }

    /// A bed uncovered.
    Uncovered {}

    /// Frost seen.
    FrostSeen {
        /// Where, when not at a bed, in the words of [`StartSown::spot`].
        spot: Option<String>,
        /// The low, if it was read.
        low: Option<String>,
        /// The crop looked at; every crop of the bed when absent.
        crop: Option<String>,
        /// `none`, `some`, `most` or `all`.
        harm: Option<String>,
    }

    /// A day outdoors, in the field names of the door's `hardening-plan`.
    HardeningDone {
        /// Hours outdoors, 0 to 24.
        hours: Option<f64>,
        /// The night after it: `in`, `covered` or `out`.
        night: Option<String>,
        /// Whether the plants were harmed.
        damage: bool,
    }

    /// Something picked.
    Harvest {
        /// The crop, when the planting is not named.
        crop: Option<String>,
        /// The variety.
        variety: Option<String>,
        /// How much, such as "3 lb" or "a bucket".
        amount: Option<String>,
        /// `not-yet`, `prime`, `going` or `past`.
        stage: Option<String>,
        /// How many plants were taken whole, as cabbage and garlic are.
        plants: Option<u32>,
        /// Whether nothing is left to pick. The plants stay until they are cleared.
        all: bool,
    }

    /// Plants taken out.
    Cleared {
        /// The crop, when only that one came out and the planting is not named.
        crop: Option<String>,
        /// How many plants; all of them when absent.
        plants: Option<u32>,
        /// How or why, such as "pulled" or "winter-killed".
        how: Option<String>,
    }

    /// A watering.
    Watered {
        /// How long the drip ran, in minutes.
        minutes: Option<f64>,
        /// How much, a volume.
        amount: Option<String>,
    }

    /// A feeding.
    Fed {
        /// With what, such as "blood meal".
        product: Option<String>,
        /// How much, a mass or a volume.
        amount: Option<String>,
    }

    /// A bed kept free.
    Reserved {
        /// The crop it is kept for. Planting or sowing that crop there ends the reservation.
        crop: Option<String>,
        /// The first day it must be free.
        from: Option<NaiveDate>,
        /// The last day it is kept.
        until: Option<NaiveDate>,
    }

    /// Anything else worth knowing.
    Note {
        /// The gardener's own words.
        text: String,
    }

    /// An entry that no longer counts.
    StruckOut {
        /// The entry struck. When that is a strike-out itself, what it struck counts again.
        target: Ulid,
    }

    /// An entry that reads otherwise. Of two corrections that set one field, one that the other saw has
    /// lost; where neither saw the other, the one with the greater id holds.
    Corrected {
        /// The entry corrected. It keeps its id and its kind.
        target: Ulid,
        /// The corrections that it saw and that no other of them had seen.
        over: Vec<Ulid>,
        /// When it happened.
        when: Option<NaiveDateTime>,
        /// What it is about.
        about: Option<About>,
        /// The fields of its `what` that change; null takes one out.
        set: Option<Object>,
        /// The whole of its `what`, each field being set by it. Read where an older version wrote it.
        what: Option<Object>,
    }
}
