//! What is told of the widest spacing.

use super::Question;
use crate::{
    asking::Asking,
    catalogue::Facet,
    layout::WidestSpacing,
    plan::{Laid, arrangement, drafts, no_place, range_words, sentence},
    quantity::show_spacing,
    telling::{Sure, Telling},
    text::small,
};

/// That they do not fit at any spacing.
pub(super) fn none_fits(question: &Question) -> Telling {
    let mut told = Telling::new("They do not all fit, however close", Sure::High);
    let name = question.row.map_or_else(|| question.called.clone(), |row| small(row.name()));
    told.because.push(format!(
        "Not even an inch from each other do {} {name} fit in this bed.",
        question.count
    ));
    told.because.extend(no_place(question.outside));
    told
}

/// The spacing, and where they go.
pub(super) fn tell(
    question: &Question,
    found: &WidestSpacing,
    laid: &Laid,
    too_tight: bool,
    asking: &Asking<'_>,
) -> Telling {
    let system = asking.system;
    let spacing = show_spacing(found.spacing.to_length(), system);
    let mut told = Telling::new(
        match too_tight {
            true => format!("{spacing}: too close"),
            false => format!("All {} fit at {spacing}", question.count),
        },
        if found.proved { Sure::High } else { Sure::Fair },
    );
    let most = match found.proved {
        true => "At no wider space do they all go in.".to_owned(),
        false => {
            let bound = show_spacing(found.bound.to_length(), system);
            format!("They all go in at no more than {bound}.")
        }
    };
    let takes = question
        .row
        .and_then(|row| Some(format!("{} takes {}. ", row.name(), range_words(row, system)?)));
    told.because.push(format!("{}{most}", takes.unwrap_or_default()));
    told.because.push(sentence(&arrangement(laid, system)));
    told.because.extend(no_place(question.outside));
    if too_tight {
        told.look_for.push(
            "Crowded plants stay small and dry slowly after rain; leave some out, or pick every \
             second one young."
                .to_owned(),
        );
    }
    told.next = drafts(&question.meant, laid, asking);
    if let Some(row) = question.row {
        told.cautions.extend(row.cautions().iter().map(|&caution| caution.to_owned()));
        row.sources(Facet::Spacing).for_each(|source| told.source(source));
    }
    told
}
