//! Beds and wants for tests.

use super::request::{EdgeMargin, SiteChoice, Want};
use crate::bed::{Bed, DripMeasures, LinesMeasured, Measures, Reach};
use crate::quantity::Micrometres;

pub(crate) const fn inch(inches: i64) -> Micrometres {
    Micrometres::from_inches(inches)
}

pub(crate) fn open_bed(length: i64, width: i64) -> Bed {
    bed(inch(length), inch(width), None)
}

/// A bed with lines in equal strips and emitters centred.
pub(crate) fn drip_bed(length: i64, width: i64, lines: u32, pitch: i64) -> Bed {
    let drip = DripMeasures {
        lines: LinesMeasured::Count(lines),
        line_spacing: None,
        first_line: None,
        emitter_spacing: inch(pitch),
        first_emitter: None,
        flow: None,
    };
    bed(inch(length), inch(width), Some(drip))
}

pub(crate) fn bed(length: Micrometres, width: Micrometres, drip: Option<DripMeasures>) -> Bed {
    let reach = Reach::default();
    Bed::new(&Measures { length, width, drip, edge_margin: None, reach, faces: None }).unwrap()
}

/// 8 by 4 ft, lines 12 in from each other from 6 in, emitters every 9 in from 3 in.
pub(crate) fn known_bed() -> Bed {
    drip_bed(96, 48, 4, 9)
}

pub(crate) fn want(spacing: i64, sites: SiteChoice, margin: i64) -> Want {
    Want { spacing: inch(spacing), on_hand: None, sites, edge_margin: EdgeMargin::Of(inch(margin)) }
}
