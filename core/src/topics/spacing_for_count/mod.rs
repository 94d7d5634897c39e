//! Topic `spacing-for-count`: the widest spacing at which a number of plants fits.
//!
//! Model: [`widest_spacing`](crate::layout::widest_spacing). Whether that is too tight is judged by
//! the crop's published range.

mod answer;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::Answer;
pub use question::Asked;

use self::question::Question;
use crate::{
    asking::Asking,
    bed::TOLERANCE,
    catalogue::Crop,
    given::Faults,
    layout::{SiteChoice, Want, WidestSpacing, search_widest},
    plan::{Laid, Wanted, arrangement},
    quantity::Micrometres,
    telling::Telling,
    turns::Pace,
};

/// Answers the question.
pub(crate) async fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults)?;
    let range = question.row.and_then(Crop::spacing);
    let Some((found, sites)) = search(&question, pace).await else {
        let answer = Answer {
            spacing_m: None,
            proved: true,
            bound_m: None,
            placed: Vec::new(),
            arrangement: String::new(),
            too_tight: range.map(|_| true),
            laid: None,
        };
        return Some((words::none_fits(&question), answer));
    };
    let least = range.and_then(|range| Micrometres::from_length(range.least));
    let too_tight = least.map(|least| found.spacing + TOLERANCE < least);
    let want = Want {
        spacing: found.spacing,
        on_hand: Some(question.count),
        sites,
        edge_margin: question.edge_margin,
    };
    let called = question.called.clone();
    let laid = Laid {
        bed: question.meant.bed.clone(),
        bed_id: question.meant.id.clone(),
        standing: question.standing.clone(),
        wanted: vec![Wanted { row: question.row, called, want, sites_given: true }],
        layout: found.layout.clone(),
    };
    let told = words::tell(&question, &found, &laid, too_tight == Some(true), asking);
    let answer = Answer {
        spacing_m: Some(found.spacing.metres()),
        proved: found.proved,
        bound_m: Some(found.bound.metres()),
        placed: laid.placed(),
        arrangement: arrangement(&laid, asking.system),
        too_tight,
        laid: Some(laid),
    };
    Some((told, answer))
}

/// The widest spacing, and where the plants go then: that depends on the spacing sought, so where it
/// was not said, at holes if that takes all, else anywhere.
async fn search(question: &Question, pace: &Pace) -> Option<(WidestSpacing, SiteChoice)> {
    let find = async |sites: SiteChoice| {
        let request = question.request(sites).ok()?;
        Some((search_widest(&request, question.count, pace).await?, sites))
    };
    if let Some(sites) = question.sites {
        return find(sites).await;
    }
    let bed = &question.meant.bed;
    let usual = match bed.drip() {
        Some(drip) => SiteChoice::usual(bed, drip.emitter_spacing()),
        None => SiteChoice::Anywhere,
    };
    match find(usual).await {
        Some(found) => Some(found),
        None => find(SiteChoice::Anywhere).await,
    }
}
