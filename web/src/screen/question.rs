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
    draw::sureness,
    part::{fault_summary, page},
    route::Route,
    state::App,
};

/// The screen of a topic: the form while it is filled in, with the verdict in a bar under it; then the
/// answer, and what was asked in one line.
pub fn screen(app: &App, topic: &str) -> Markup {
    let Some(title) = ask::question(topic).map(|question| question.words) else {
        return ask::screen(app);
    };
    let answer = app.answer();
    let bed = bed_name(app);
    // Where one taps what one sees, questions and verdict stay together.
    let tapped = form::is_tapped(topic);
    let shut = !tapped && !app.is_asking();
    page(
        if answer.is_some() { title } else { "Pegline" },
        &bed,
        app.route(),
        &html! {
            (app.notices())
            @match answer {
                Some(answer) if shut => {
                    (found(app, answer))
                    (asked(app))
                    (rest(app, answer))
                }
                Some(answer) if tapped => {
                    (headline(app, true))
                    (form::harvest::before_eating(answer))
                    (fault_summary(app.form(), app.faults()))
                    (picture(app, answer))
                    (question(app, topic))
                    (rest(app, answer))
                    (form::harvest::picked(app, answer))
                    (sources(answer))
                }
                _ => {
                    @if answer.is_none() { h1 { (title) } }
                    (fault_summary(app.form(), app.faults()))
                    (question(app, topic))
                    @match answer {
                        Some(answer) => { (found(app, answer)) (rest(app, answer)) }
                        None => (headline(app, false)),
                    }
                    (glance(app))
                }
            }
        },
    )
}

/// The form.
fn question(app: &App, topic: &str) -> Markup {
    html! {
        form id="question" data-action="answer" data-live="yes" novalidate {
            (form::of(app, topic))
            @if app.answer().is_none() && !app.works() { button.act type="submit" data-action="answer" { "Work it out" } }
        }
    }
}

/// The verdict, where it is spoken as it changes; before there is one, that it is worked at.
fn headline(app: &App, stays: bool) -> Markup {
    html! {
        div.stays[stays] id="verdict" role="status" aria-live="polite" aria-atomic="true" tabindex="-1" data-focus="verdict" {
            @match app.answer() {
                Some(answer) => (verdict(answer)),
                None => @if app.works() { p { "Working it out. So many plants can stand in many ways; this takes a moment." } },
            }
        }
    }
}

/// What one came for, in one view: the verdict, its drawing, and the button that writes it.
fn found(app: &App, answer: &Answer) -> Markup {
    html! {
        (headline(app, false))
        @if is_eaten(answer) { (form::harvest::before_eating(answer)) }
        (picture(app, answer))
        (write(app))
        @if !is_eaten(answer) { @for caution in &answer.telling.cautions { p.warn { (caution) } } }
    }
}

/// All else that is known of it.
fn rest(app: &App, answer: &Answer) -> Markup {
    html! {
        (told(answer))
        (list(app, answer))
        (notes(app))
        (picture::by_hand(app, answer))
        (picture::sheet(app))
        (form::harvest::uses(answer))
        (figures(app, answer))
        (super::residue::more(app, answer))
        @if !matches!(answer.of, Of::HarvestReadiness(_)) { (sources(answer)) }
    }
}

/// What was asked, in one line.
fn asked(app: &App) -> Markup {
    html! {
        p.asked id="asked" {
            span { (app.asked_told()) }
            button.plain type="button" data-action="change-question" { "Change" }
        }
    }
}

/// While one types: the verdict in a bar that stays above the keyboard.
fn glance(app: &App) -> Markup {
    html! {
        @if let Some(answer) = app.answer() {
            div.glance {
                b { (answer.telling.headline) }
                button type="submit" form="question" data-action="answer" { "See it" }
            }
        }
    }
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
    // The first line stands in the verdict.
    let because = telling.because.get(1..).unwrap_or_default();
    let (first, more) = because.split_at(because.len().min(WHY_SHOWN));
    html! {
        dl.told id="told" {
            @if !first.is_empty() {
                dt { "Why" }
                @for why in first { dd { (why) } }
            }
            @if !telling.look_for.is_empty() {
                dt { "Look for" }
                @for cue in &telling.look_for { dd { (cue) } }
            }
            dt { "How sure" }
            dd { (sureness(telling.sure)) (telling.sure.told()) }
        }
        @if !more.is_empty() {
            details id="more-why" {
                summary { "More of why" }
                ul { @for why in more { li { (why) } } }
            }
        }
    }
}

/// So many reasons are shown unfolded, beside the one in the verdict.
const WHY_SHOWN: usize = 2;

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

/// The one action: it says what it writes.
fn write(app: &App) -> Markup {
    let next = app.next();
    let now: Vec<Draft> = next.iter().filter(|draft| !record::is_ahead(draft)).cloned().collect();
    html! {
        @if !next.is_empty() {
            form id="write" data-action="write" novalidate {
                @if !now.is_empty() {
                    button.act type="submit" data-action="write" { (record::offer(&now, app.garden())) }
                    details {
                        summary { "It was done earlier" }
                        (form::parts::when(app, "when", "Left empty, it is written as done now."))
                    }
                }
            }
        }
    }
}

/// What may be noted for later, one by one or all; sent with the form above, which says when it was.
fn notes(app: &App) -> Markup {
    let next = app.next();
    let ahead = |(_, draft): &(usize, &Draft)| record::is_ahead(draft);
    let later: Vec<(usize, &Draft)> = next.iter().enumerate().filter(ahead).collect();
    html! {
        @if !later.is_empty() {
            section id="later" {
                h2 { "Note for later" }
                ul.rows {
                    @for (place, draft) in &later {
                        li { button.row type="submit" form="write" data-action=(format!("write:{place}")) { (record::says(&draft.about, &draft.what, app.garden())) } }
                    }
                }
                button.act.quiet type="submit" form="write" data-action="write:all" {
                    @if later.len() == next.len() { "Note all of them" } @else { "Write it, and note all of them" }
                }
            }
        }
    }
}

/// What is listed of an answer, below all that is done at once.
fn list(app: &App, answer: &Answer) -> Markup {
    match &answer.of {
        Of::HardeningPlan(found) => super::starts::days(app, &found.days),
        Of::HarvestBeforeAway(found) => form::away::list(found),
        Of::FrostTonight(found) => super::cold::beds(app, found),
        _ => html! {},
    }
}

/// What is drawn of an answer.
fn picture(app: &App, answer: &Answer) -> Markup {
    match &answer.of {
        Of::FrostTonight(found) => super::cold::columns(app, found),
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
