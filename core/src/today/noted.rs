//! What the gardener, or a topic for the gardener, noted for a day: due from that day on until it is
//! ticked off or left out, whatever became of the bed.

use super::{day::Day, due::Tick, found::Found};
use crate::{
    asking::Topic,
    record,
    topics::{garlic_window, residue_wait},
};

pub(super) fn find(day: &Day<'_>, found: &mut Vec<Found>) {
    let garden = day.asking.garden;
    for it in &garden.happened {
        let Some(ahead) = record::ahead(it) else {
            continue;
        };
        let bed = it.bed.as_deref().and_then(|bed| garden.bed(bed));
        let start = it.start.filter(|start| garden.start(*start).is_some());
        let topic = match bed {
            Some(bed) if garlic_window::has_garlic(bed, day.today) => Topic::GarlicWindow,
            Some(bed) if residue_wait::lying(bed, Some(day.today)).is_some() => Topic::ResidueWait,
            None if start.is_some() => Topic::StartAge,
            _ => Topic::Today,
        };
        let noted = it.entry.when.date();
        let why = format!("Noted on {}.", day.said(noted));
        let mut note = Found::new(
            topic,
            ahead.what.trim_end_matches('.').to_owned(),
            [ahead.on, ahead.on],
            why,
        );
        note.due.bed = bed.map(|bed| bed.id.clone());
        note.due.start = start.map(|start| start.to_string());
        note.due.note = Some(ahead.id.to_string());
        found.push(note.ticked(Some(Tick::AheadDone)));
    }
}
