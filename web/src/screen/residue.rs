//! What is shown of a covered bed: the row of days, the ways round, the curve; and the look at the bed.

use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of, ask},
    garden, record,
    topics::residue_wait::{self, check_in::Left},
};

use super::form::parts::{declared, one_of, plain, when};
use crate::{
    draw::{Curve, Row, balance, days},
    part::fault_summary,
    state::App,
};

/// The row of days, below the verdict.
pub fn pegs(app: &App, found: &residue_wait::Answer) -> Markup {
    let row = |label, range: pegline_core::time::Range| Row {
        label,
        early: range.early,
        likely: range.likely,
        late: range.late,
    };
    let mut rows = Vec::new();
    if let Some(way) = &found.way_round {
        rows.push(row(way.does.as_str(), way.plant_from));
    }
    rows.push(row("Just wait", found.plant_from));
    // Where both rows say the same, one is enough.
    if found.way_round.as_ref().is_some_and(|way| way.plant_from == found.plant_from) {
        rows.truncate(1);
    }
    days(app.now().today(), &rows, &found.days_told)
}

/// Everything below the told part.
pub fn more(app: &App, answer: &Answer) -> Markup {
    let Of::ResidueWait(found) = &answer.of else {
        return html! {};
    };
    let points: Vec<_> =
        found.curve.iter().map(|point| (point.date, point.mineral_n_g_per_m2)).collect();
    html! {
        @if !found.parts.is_empty() {
            h2 { "Side by side" }
            ul { @for part in &found.parts { li { (part.told) } } }
        }
        // One way alone is the verdict, told above.
        @if found.ways.len() > usize::from(found.way_round.is_some()) {
            h2 { "Ways round the wait" }
            ul.rows {
                @for way in &found.ways {
                    li { div.row { (way.does) @if let Some(when) = way.when(app.now().today()) { ": " (when) } small { (way.changes) } } }
                }
            }
        }
        @if !found.nitrogen.products.is_empty() {
            details {
                summary { "Nitrogen to give, by weight" }
                p { small { "Any one of these, on the whole of it:" } }
                table.figures {
                    tbody { @for product in &found.nitrogen.products { tr { th scope="row" { (product.name) } td { (product.told) } } } }
                }
            }
        }
        @if !found.fits_now.is_empty() {
            h2 { "What can go in now" }
            ul { @for fits in &found.fits_now { li { (fits.how) } } }
        }
        @if !found.curve.is_empty() {
            details id="curve" {
                summary { "Why: the nitrogen, and each wait" }
                (balance(&Curve {
                    points: &points, safe_above: found.nitrogen.safe_above_g_per_m2,
                    safe_from: found.plant_from.likely, today: app.now().today(), words: &found.curve_told,
                }))
                p { small { (found.curve_told) } }
                ul { @for limit in &found.limits { li { (limit.told) } } }
            }
        }
    }
}

// ---- At the bed ----

/// On the bed's own page: how the halves compare, and the look at what lies on it.
pub fn at_bed(app: &App, bed: &garden::Bed) -> Markup {
    let Some(answer) = asked(app, &bed.id) else {
        return html! {};
    };
    let Of::ResidueWait(found) = &answer.of else {
        return html! {};
    };
    let parts = record::lying_parts(bed);
    html! {
        h2 { "What lies on it" }
        p { a.plain href=(crate::route::about_bed("residue-wait", &bed.id)) { (answer.telling.headline) } }
        @for part in &found.parts { p { (part.told) } }
        @if let Some(ahead) = &found.ahead_told { p { (ahead) } }
        (look(app, &bed.id, &parts))
    }
}

/// The question as the record alone answers it.
fn asked(app: &App, bed: &str) -> Option<Answer> {
    let question = record::about_lying(bed, app.garden(), app.now().today())?;
    ask(&question, app.garden()).ok()
}

/// A look, in a few taps.
fn look(app: &App, bed: &str, parts: &[&str]) -> Markup {
    let action = format!("look:{bed}");
    let steps: Vec<(&str, String)> =
        Left::STEPS.iter().map(|(word, seen, _)| (*word, format!("{word}: {seen}"))).collect();
    let left: Vec<(&str, &str)> = steps.iter().map(|(word, told)| (*word, told.as_str())).collect();
    let of_parts: Vec<(&str, &str)> = parts.iter().map(|part| (*part, *part)).collect();
    let faulty = app.faults().iter().any(|fault| fault.field.starts_with("look."));
    html! {
        details id="look" open[app.form().is_submitted() && faulty] {
            summary { "I looked: how much is left?" }
            @if faulty { (fault_summary(app.form(), app.faults())) }
            form data-action=(action) novalidate {
                @if !of_parts.is_empty() { (one_of(app, "look.part", &of_parts, "")) }
                (one_of(app, "look.left", &left, "not looked at"))
                div.pair {
                    (declared(app, "look.smell", "can't tell", ""))
                    (declared(app, "look.worms", "didn't look", ""))
                    (plain(app, "look.jar"))
                    (plain(app, "look.jar_plain"))
                    (plain(app, "look.slugs"))
                }
                p { small { "The jars: 20 seeds of cress, lettuce or radish in each. After 5 to 7 days they settle the question of rots and what seeps from it." } }
                (when(app, "when.look", "Left empty, it was now."))
                button.act.quiet type="submit" data-action=(action) { "Write the look down" }
            }
        }
    }
}
