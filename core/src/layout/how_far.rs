//! Topic `spacing-for-count`: the widest spacing at which a number of plants fits.
//!
//! Model: [`loosest`](super::loosest). Whether that is too tight is judged by the crop's published
//! range.

use super::{
    MOST_PLANTS, Request, SiteChoice, Want,
    how_many::{Laid, Plant, plants},
    loosest::loosest_for,
    telling,
    wanted::{self, Wanted},
};
use crate::{
    asking::Asking,
    bed::{self, BedAsked},
    catalogue::{self, Facet},
    given::{Control, Faults, Given, Text, asked},
    quantity::{Micrometres, show_spacing},
    telling::{Sure, Telling},
    text::small,
    turns::Pace,
};

asked! {
    /// So many plants must all go in: how far from each other can they stand?
    pub struct Asked {
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// The crop, by its catalogue id or one of its names.
        crop: Given<Text> = "Crop" as Control::Crop,
        /// How many must go in.
        count: Given<u32> = "How many have you",
        /// Where its plants may go.
        sites: Given<SiteChoice>,
    }
}

/// The widest spacing.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The widest spacing found at which all fit, metres; null if they do not fit at all.
    pub spacing_m: Option<f64>,
    /// Whether no wider one takes them all.
    pub proved: bool,
    /// They fit at no wider spacing than this, metres; null if they do not fit at all.
    pub bound_m: Option<f64>,
    /// Each plant, by its distance from the near side, then from the left end.
    pub placed: Vec<Plant>,
    /// The layout in words.
    pub arrangement: String,
    /// Whether the spacing lies below the crop's published range; null where none is published.
    pub too_tight: Option<bool>,
}

/// Answers the question.
pub(crate) async fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let system = asking.system;
    let meant = bed::needed(asked.bed.as_ref(), asking.garden, system, faults);
    let row = asked.crop.need(faults).map(|Text(name)| catalogue::crop(&name).ok());
    if !asked.count.is_given() {
        asked.count.need(faults);
    }
    let limits = format!("1 to {MOST_PLANTS}");
    let count = asked.count.within(1, MOST_PLANTS, &limits, faults);
    let bed = meant.as_ref().map(|meant| &meant.bed);
    let sites = wanted::sites_for(&asked.sites, bed, faults);
    let (meant, row, count) = (meant?, row?, count?);
    let bed = &meant.bed;
    let standing = meant
        .id
        .as_deref()
        .map_or_else(Vec::new, |id| wanted::in_the_record(asking.garden, id, bed));

    // Where plants go depends on the spacing sought: at holes if that takes all, else anywhere.
    let edge_margin = wanted::edge_margin(bed, row);
    let usual = match bed.drip() {
        Some(drip) => SiteChoice::usual(bed, drip.emitter_spacing()),
        None => SiteChoice::Anywhere,
    };
    let find = async |sites: SiteChoice| {
        let want = Want { spacing: super::LEAST_SPACING, on_hand: Some(count), sites, edge_margin };
        let request = Request::new(bed, &[want], &standing, super::Aim::InOrder)?;
        let found = loosest_for(&request, count, pace).await;
        Ok::<_, Vec<super::Fault>>(found.map(|found| (found, sites)))
    };
    let tried = match sites {
        Some(sites) => find(sites).await,
        None => match find(usual).await {
            Ok(Some(found)) => Ok(Some(found)),
            _ => find(SiteChoice::Anywhere).await,
        },
    };
    let found = match tried {
        Ok(found) => found,
        Err(wrong) => {
            telling::refuse(&wrong, system, faults);
            return None;
        }
    };
    let name = row
        .map_or_else(|| asked.crop.text().unwrap_or_default().to_owned(), |row| small(row.name()));
    let Some((found, sites)) = found else {
        let mut told = Telling::new("They do not all fit, however close", Sure::High);
        told.because
            .push(format!("Not even an inch from each other do {count} {name} fit in this bed."));
        let answer = Answer {
            spacing_m: None,
            proved: true,
            bound_m: None,
            placed: Vec::new(),
            arrangement: String::new(),
            too_tight: row.and_then(catalogue::Crop::spacing).map(|_| true),
        };
        return Some((told, answer));
    };
    let least = row
        .and_then(catalogue::Crop::spacing)
        .and_then(|range| Micrometres::from_length(range.least));
    let too_tight = least.map(|least| found.spacing + crate::bed::TOLERANCE < least);
    let wanted = Wanted {
        row,
        given: asked.crop.text().unwrap_or_default(),
        spacing: found.spacing,
        on_hand: Some(count),
        sites,
        sites_given: true,
        edge_margin,
    };
    let laid = Laid { wanted: vec![wanted], layout: found.layout.clone() };
    let spacing = show_spacing(found.spacing.to_length(), system);
    let mut told = Telling::new(
        if too_tight == Some(true) {
            format!("{spacing}: too close")
        } else {
            format!("All {count} fit at {spacing}")
        },
        if found.proved { Sure::High } else { Sure::Fair },
    );
    let most = if found.proved {
        "At no wider space do they all go in.".to_owned()
    } else {
        format!("They all go in at no more than {}.", show_spacing(found.bound.to_length(), system))
    };
    let takes = row.and_then(|row| {
        Some(format!("{} takes {}. ", row.name(), wanted::range_words(row, system)?))
    });
    told.because.push(format!("{}{most}", takes.unwrap_or_default()));
    told.because.push(telling::sentence(&telling::arrangement(&laid, system)));
    if too_tight == Some(true) {
        told.look_for.push("Crowded plants stay small and dry slowly after rain; leave some out, or pick every second one young.".to_owned());
    }
    told.next = telling::drafts(&meant, &laid, asking);
    if let Some(row) = row {
        told.cautions.extend(row.cautions().iter().map(|&caution| caution.to_owned()));
        row.sources(Facet::Spacing).for_each(|source| told.source(source));
    }
    let answer = Answer {
        spacing_m: Some(found.spacing.metres()),
        proved: found.proved,
        bound_m: Some(found.bound.metres()),
        placed: plants(&laid),
        arrangement: telling::arrangement(&laid, system),
        too_tight,
    };
    Some((told, answer))
}
