//! What is carried to the bed, and what is written of it.

use super::ByHand;
use crate::{
    bed::{Site, Spot},
    journal::{Draft, What},
    plan::words::planted,
    quantity::{Micrometres, Quantity, System, show_spacing},
};

/// A row of the sheet that is carried to the bed: a line, or a row without one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// "Line 1", or "6 in from the near side"; with the crop where there are several.
    pub row: String,
    /// The distances along the hose from the left end: "1 ft 3 in, 2 ft 9 in".
    pub distances: String,
}

impl ByHand {
    /// What the answer offers to write, with this layout in place of the proposed one.
    pub fn drafts(&self, next: &[Draft], system: System) -> Vec<Draft> {
        let about = next.iter().find_map(|draft| draft.about.bed.as_deref());
        let Some(bed) = about else {
            return next.to_vec();
        };
        let stays = |draft: &&Draft| !matches!(draft.what, What::Planted(_));
        let mut drafts: Vec<Draft> = next.iter().filter(stays).cloned().collect();
        for (at, crop) in self.crops.iter().enumerate() {
            let own = self.places.iter().filter(|place| place.set == Some(at));
            let sites: Vec<Site> = own.map(|place| place.site).collect();
            drafts.extend(planted(bed, crop, &sites, system));
        }
        drafts
    }

    /// The sheet that is carried to the bed: line by line, the distances from the left end.
    pub fn sheet(&self, system: System) -> Vec<Row> {
        let mut rows: Vec<Row> = Vec::new();
        for (at, crop) in self.crops.iter().enumerate() {
            let mut last = None;
            for place in self.places.iter().filter(|place| place.set == Some(at)) {
                let Spot { along, across } = place.site.spot;
                if last != Some(across) {
                    last = Some(across);
                    let across = across.to_length().show(system);
                    let mut row = match place.site.line {
                        Some(line) => format!("Line {line}"),
                        None => format!("{across} from the near side"),
                    };
                    if self.crops.len() > 1 {
                        row.push_str(&format!(", {}", crop.name()));
                    }
                    rows.push(Row { row, distances: String::new() });
                }
                if let Some(row) = rows.last_mut() {
                    let comma = if row.distances.is_empty() { "" } else { ", " };
                    let along = along_hose(along, system);
                    row.distances.push_str(&format!("{comma}{along}"));
                }
            }
        }
        rows
    }
}

/// A distance along a hose as a tape measure has it: "2 ft 9 in" to the quarter inch, or "84 cm".
pub(super) fn along_hose(along: Micrometres, system: System) -> String {
    const FOOT: i64 = Micrometres::from_inches(12).get();
    const QUARTER: i64 = Micrometres::from_inches(1).get() / 4;
    if system == System::Metric {
        return show_spacing(along.to_length(), system);
    }
    let along = (along.get() + QUARTER / 2).div_euclid(QUARTER) * QUARTER;
    let (feet, rest) = (along.div_euclid(FOOT), along.rem_euclid(FOOT));
    let inches = show_spacing(Micrometres::new(rest).to_length(), system);
    match (feet, rest) {
        (0, _) => inches,
        (feet, 0) => format!("{feet} ft"),
        (feet, _) => format!("{feet} ft {inches}"),
    }
}
