//! One question: its form, and its answer as soon as there is one.

use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of},
    bed::Bed,
    journal::Draft,
    record::{self, trays},
};

use super::{ask, form, picture};
use crate::{
    app::App,
    part::{fault_summary, page},
    route::Route,
};

/// The screen of a topic.
pub fn screen(app: &App, topic: &str) -> Markup {
    let Some(title) = ask::question(topic).map(|question| question.words) else {
        return ask::screen(app);
    };
    let answer = app.answer();
    let bed = bed_name(app);
    page(
        if answer.is_some() { title } else { "Pegline" },
        &bed,
        app.route(),
        &html! {
            (app.notices())
            div.stays[form::is_tapped(topic)] id="verdict" role="status" aria-live="polite" aria-atomic="true" {
                @match answer {
                    Some(answer) => (verdict(answer)),
                    None => {
                        h1 { (title) }
                        @if app.works() { p { "Working it out. So many plants can stand in many ways; this takes a moment." } }
                    }
                }
            }
            @if let Some(answer) = answer.filter(|answer| is_eaten(answer)) { (form::harvest::before_eating(answer)) }
            (fault_summary(app.form(), app.faults()))
            @if let Some(answer) = answer { (picture(app, answer)) }
            form id="question" data-action="answer" data-live="yes" novalidate {
                (form::of(app, topic))
                @if answer.is_none() && !app.works() { button.act type="submit" data-action="answer" { "Work it out" } }
            }
            @if let Some(answer) = answer {
                (told(answer))
                (picture::sheet(app))
                (form::harvest::uses(answer))
                (figures(app, answer))
                (super::residue::more(app, answer))
                @match answer.of {
                    Of::HarvestReadiness(_) => (form::harvest::picked(app, answer)),
                    _ => (write(app)),
                }
                (sources(answer))
            }
        },
    )
}

fn bed_name(app: &App) -> String {
    if let Route::OfStart { start, .. } = app.route() {
        return app.start(start).map(trays::name).unwrap_or_default();
    }
    let id = app.form().text("bed");
    app.garden().bed(id).map(|bed| bed.name.clone()).unwrap_or_default()
}

// ---- The answer ----

/// The verdict, large, with the line that qualifies it.
pub(super) fn verdict(answer: &Answer) -> Markup {
    html! {
        section.verdict {
            h1 { (answer.telling.headline) }
            @if let Some(under) = answer.telling.because.first() { p { (under) } }
            @for meant in &answer.meant { p { (meant.told()) } }
        }
    }
}

/// Whether it is about food: its cautions stand before the questions then.
fn is_eaten(answer: &Answer) -> bool {
    matches!(
        answer.of,
        Of::HarvestReadiness(_) | Of::HarvestBeforeAway(_) | Of::SaltForFermenting(_)
    )
}

pub(super) fn told(answer: &Answer) -> Markup {
    let telling = &answer.telling;
    html! {
        @if !is_eaten(answer) { @for caution in &telling.cautions { p.warn { (caution) } } }
        dl.told id="told" {
            @if telling.because.len() > 1 {
                dt { "Why" }
                @for why in telling.because.iter().skip(1) { dd { (why) } }
            }
            @if !telling.look_for.is_empty() {
                dt { "Look for" }
                @for cue in &telling.look_for { dd { (cue) } }
            }
            dt { "How sure" }
            dd { (telling.sure.told()) }
        }
    }
}

pub(super) fn sources(answer: &Answer) -> Markup {
    html! {
        @if !answer.telling.sources.is_empty() {
            details {
                summary { "Where the numbers come from" }
                ul { @for source in &answer.telling.sources { li { small { (source) } } } }
            }
        }
    }
}

/// The one action: it says what it writes. What may be noted for later is below it, one by one or all.
fn write(app: &App) -> Markup {
    let next = &app.next();
    let now: Vec<Draft> = next.iter().filter(|draft| !record::is_ahead(draft)).cloned().collect();
    let later: Vec<(usize, &Draft)> =
        next.iter().enumerate().filter(|(_, draft)| record::is_ahead(draft)).collect();
    html! {
        @if !next.is_empty() {
            form id="write" data-action="write" novalidate {
                @if !now.is_empty() {
                    details {
                        summary { "It was done earlier" }
                        (form::parts::when(app, "when", "Left empty, it is written as done now."))
                    }
                    button.act type="submit" data-action="write" { (record::offer(&now, app.garden())) }
                }
                @if !later.is_empty() {
                    h2 { "Note for later" }
                    ul.rows {
                        @for (place, draft) in &later {
                            li { button.row type="submit" data-action=(format!("write:{place}")) { (record::says(&draft.about, &draft.what, app.garden())) } }
                        }
                    }
                    button.act.quiet type="submit" data-action="write:all" {
                        @if now.is_empty() { "Note all of them" } @else { "Write it, and note all of them" }
                    }
                }
            }
        }
    }
}

/// What is drawn of an answer.
fn picture(app: &App, answer: &Answer) -> Markup {
    match &answer.of {
        Of::HardeningPlan(found) => super::starts::days(app, &found.days),
        Of::FrostTonight(found) => super::cold::beds(app, found),
        Of::ResidueWait(found) => super::residue::pegs(app, found),
        _ => picture::of(app, answer),
    }
}

/// How lines and holes are counted.
pub fn plan_words(bed: &Bed) -> Markup {
    html! {
        @match bed.drip().map(|drip| drip.lines().len()) {
            None => small { "The near side is below, the left end at the left." },
            Some(1) => small { "Holes counted from the left end" },
            Some(lines) => small { "Lines 1 to " (lines) " from the path, holes counted from the left end" },
        }
    }
}

/// Count against spacing over the crop's range.
fn figures(app: &App, answer: &Answer) -> Markup {
    let Of::PlantsPerBed(found) = &answer.of else {
        return html! {};
    };
    html! {
        @if found.at_spacing.len() > 1 {
            details {
                summary { "How many at each space" }
                table.figures {
                    thead { tr { th scope="col" { "Space between" } th scope="col" { "Fit" } } }
                    tbody {
                        @for row in &found.at_spacing {
                            tr { td { (row.told(app.system())) } td { (row.count) } }
                        }
                    }
                }
            }
        }
        @if !found.fillers.is_empty() && found.way_round.is_none() {
            details {
                summary { "What fits in between" }
                table.figures {
                    thead { tr { th scope="col" { "Space between" } th scope="col" { "Fit" } th scope="col" { "Such as" } } }
                    tbody {
                        @for row in &found.fillers {
                            tr { td { (row.told(app.system())) } td { (row.count) } td { (row.names().join(", ")) } }
                        }
                    }
                }
            }
        }
    }
}

/// Where a question about this bed is asked.
pub fn about_bed(topic: &str, bed: &str) -> String {
    Route::Question { topic: topic.to_owned(), bed: Some(bed.to_owned()) }.address()
}
