//! The proposed layout: drawn, changed by touching it or by its list, and as a sheet to carry along.

use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of},
    bed::Spot,
    plan::{
        by_hand::{ByHand, Judged, Place, TooNear},
        drawn,
    },
    record,
};

use super::{form, question::plan_words};
use crate::{
    draw::{Plan, touched},
    state::App,
};

/// The bed with what is proposed, for the questions that place plants.
pub(super) fn of(app: &App, answer: &Answer) -> Markup {
    let words = match &answer.of {
        Of::PlantsPerBed(found) => match &found.way_round {
            Some(closer) => &closer.arrangement,
            None => &found.arrangement,
        },
        Of::SpacingForCount(found) => &found.arrangement,
        Of::HarvestReadiness(found) => return form::harvest::stages(found),
        _ => return html! {},
    };
    let Some(layout) = app.layout() else {
        return html! {};
    };
    let bed = layout.bed();
    let proposed = layout.drawn();
    let known = layout.bed_id().and_then(|id| app.garden().bed(id));
    let standing = known.map(|known| drawn(known, bed)).unwrap_or_default();
    let lies = known.map(|known| record::lies_on(known, app.now().today())).unwrap_or_default();
    let judged = app.judged();
    let too_near = judged.as_ref().map(|judged| joined(&layout, judged));
    let words = judged.as_ref().map_or(words, |judged| &judged.set);
    let show = Plan {
        bed,
        proposed: &proposed,
        standing: &standing,
        lies: &lies,
        covered: false,
        system: app.system(),
        words,
    };
    html! {
        (touched(&show, Some("hand-touch"), &too_near.unwrap_or_default()))
        (plan_words(bed))
        (follows(judged.as_ref()))
    }
}

/// How the layout is changed by hand.
pub(super) fn by_hand(app: &App, answer: &Answer) -> Markup {
    if !matches!(answer.of, Of::PlantsPerBed(_) | Of::SpacingForCount(_)) {
        return html! {};
    }
    let Some(layout) = app.layout() else {
        return html! {};
    };
    html! {
        h2.unprinted { "Move plants" }
        p.unprinted {
            @if layout.is_open() { "Touch a plant in the drawing to take it away, or the ground to put one there." }
            @else { "Touch a place in the drawing to put a plant there or to take it away." }
        }
        (by_list(app, &layout))
    }
}

fn spot(place: &Place) -> Spot {
    place.site.spot
}

/// The pairs that the drawing joins; what is too near to something else stands alone.
fn joined(layout: &ByHand, judged: &Judged) -> Vec<(Spot, Spot)> {
    let at = |place: usize| layout.places().get(place).map(spot);
    let pair = |near: &TooNear| {
        let other = match near {
            TooNear::Each(_, other) => *other,
            alone => alone.one(),
        };
        Some((at(near.one())?, at(other)?))
    };
    judged.too_near.iter().filter_map(pair).collect()
}

/// What follows from the layout as it was changed by hand.
fn follows(judged: Option<&Judged>) -> Markup {
    html! {
        div id="by-hand" role="status" aria-live="polite" {
            @if let Some(judged) = judged {
                p { b { "By hand: " (judged.set) } }
                @for conflict in &judged.conflicts { p.due { (conflict) } }
                @for more in &judged.more { p { (more) } }
                button.plain type="button" data-action="hand-back" { "Back to what was proposed" }
            }
        }
    }
}

/// The same sites as a list, a line at a time: for a keyboard, or a finger too thick for the drawing.
/// No line before one is chosen: a hundred rows that nobody looks at make a phone stand still.
fn by_list(app: &App, layout: &ByHand) -> Markup {
    let (crop, line) = app.hand_at();
    let crops = layout.crops();
    let mut lines: Vec<&Place> = layout.places().iter().collect();
    lines.dedup_by_key(|place| place.site.spot.across);
    let across = line.and_then(|line| lines.get(line)).map(|place| place.site.spot.across);
    let of_line = layout.places().iter().enumerate();
    let of_line = of_line.filter(|(_, place)| Some(place.site.spot.across) == across);
    html! {
        @if crops.len() > 1 {
            p { small { "A touch puts in" } }
            div.tabs {
                @for (at, name) in crops.iter().enumerate() {
                    button type="button" data-action=(format!("hand-crop:{at}")) aria-pressed=(at == crop) { (name) }
                }
            }
        }
        details id="by-list" {
            summary { "Move plants by line and hole" }
            div.tabs {
                @for (at, first) in lines.iter().enumerate() {
                    button type="button" data-action=(format!("hand-line:{at}")) aria-pressed=(Some(at) == line) {
                        @match first.site.line { Some(line) => { "Line " (line) }, None => { "Row " (at + 1) } }
                    }
                }
            }
            ul.rows {
                @for (at, place) in of_line {
                    li {
                        button.row.set[place.set.is_some()] type="button" id=(format!("site-{at}")) data-action=(format!("hand-set:{at}")) aria-pressed=(place.set.is_some()) {
                            (layout.name(place, app.system()))
                            small { (layout.set_at(place).as_deref().unwrap_or("free")) }
                        }
                    }
                }
            }
        }
    }
}

/// The distances along the hose, line by line, to carry to the bed.
pub(super) fn sheet(app: &App) -> Markup {
    let layout = app.layout();
    let rows = layout.map_or_else(Vec::new, |layout| layout.sheet(app.system()));
    html! {
        @if !rows.is_empty() {
            h2 { "From the left end" }
            table.figures id="sheet" {
                tbody {
                    @for row in &rows { tr { th scope="row" { (row.row) } td { (row.distances) } } }
                }
            }
            p { button.plain type="button" data-action="print" { "Print this sheet" } }
        }
    }
}
