//! One bed: its plan, what is in it and since when, the questions about it, its record.

use maud::{Markup, html};
use pegline_core::{catalogue, garden, harvest::at_bed::ripening, plan::drawn, record, text};

use super::{
    ask::QUESTIONS,
    book,
    form::parts::{declared, plain, when},
    question,
};
use crate::{
    draw::{Plan, plan},
    part::{fault_summary, page},
    route::Route,
    state::App,
};

/// The screen.
pub fn screen(app: &App, id: &str) -> Markup {
    let Some(bed) = app.garden().bed(id) else {
        return super::beds::screen(app);
    };
    let shape = record::shape(bed);
    let today = app.now().today();
    let ripe = ripening(app.garden(), Some(id), today);
    page(
        &bed.name,
        &record::size(bed, app.system()),
        app.route(),
        &html! {
            h1 { (bed.name) }
            p { (record::state_today(app.garden(), bed, today)) }
            (app.notices())
            @if let Some(shape) = &shape {
                (plan(&Plan {
                    bed: shape, proposed: &[], standing: &drawn(bed, shape), lies: &record::lies_on(bed, today),
                    covered: bed.covered.is_some(), system: app.system(), words: &record::state(bed, today),
                }))
                (question::plan_words(shape))
            }
            @if let Some(quick) = record::until_needed(bed, today) { p { (quick) } }
            (aheads(app, id))
            @if !bed.plantings.is_empty() {
                h2 { "In it now" }
                ul.rows {
                    @for planting in &bed.plantings {
                        li { div.row {
                            (planting_words(planting))
                            small { "since " (text::day(planting.since.date(), Some(today))) (places(planting)) }
                            @if ripe.iter().any(|it| it.planting.id == planting.id) {
                                a.plain.inline href=(crate::route::about_bed("harvest-readiness", &planting.id.to_string())) { "Ready?" }
                            }
                            button.plain type="button" data-action=(format!("cleared:{}", planting.id)) { "Cleared" }
                        } }
                    }
                }
            }
            (super::residue::at_bed(app, bed))
            h2 { "Ask about this bed" }
            ul.rows {
                @for asked in QUESTIONS.iter().filter(|asked| asked.of.is_at_a_bed()) {
                    li { a href=(crate::route::about_bed(asked.topic, id)) { (asked.words) small { (asked.more) } } }
                }
            }
            h2 { "Its record" }
            @for line in pegline_core::topics::frost_tonight::runs(bed, app.garden(), app.system()) { p { (line) } }
            (reading(app, id))
            form data-action=(format!("note:{id}")) novalidate {
                (plain(app, "note"))
                button.act.quiet type="submit" data-action=(format!("note:{id}")) { "Write it down" }
            }
            (book::list(app, &app.garden().happened_in(id).collect::<Vec<_>>()))
            p { a.plain href=(Route::ChangeBed(id.to_owned()).address()) { "Change this bed" } }
            p { button.plain type="button" data-action="print" { "Print this page" } }
        },
    )
}

/// What is noted for days to come, and what of it is overdue.
fn aheads(app: &App, id: &str) -> Markup {
    let today = app.now().today();
    let aheads = record::aheads(app.garden(), id);
    html! {
        @if !aheads.is_empty() {
            h2 { "Ahead" }
            ul.rows {
                @for it in &aheads {
                    li { div.row {
                        (it.what)
                        small { @if it.on < today { "overdue since " } (text::day(it.on, Some(today))) }
                        div.pair {
                            button.plain type="button" data-action=(format!("ahead-done:{}", it.id)) { "Done" }
                            button.plain type="button" data-action=(format!("strike:{}", it.id)) { "Leave it out" }
                        }
                    } }
                }
            }
        }
    }
}

/// A thermometer's reading, in two taps and a number.
fn reading(app: &App, id: &str) -> Markup {
    let action = format!("reading:{id}");
    html! {
        details open[app.form().is_submitted() && !app.faults().is_empty()] {
            summary { "Write down a thermometer" }
            (fault_summary(app.form(), app.faults()))
            form data-action=(action) novalidate {
                div.pair {
                    (plain(app, "reading.soil"))
                    (declared(app, "reading.depth", "4", ""))
                    (plain(app, "reading.low"))
                    (plain(app, "reading.high"))
                }
                (when(app, "when.reading", "Left empty, it was now. The time of day counts: soil lags behind the air."))
                button.act.quiet type="submit" data-action=(action) { "Write it down" }
            }
        }
    }
}

/// "14 cabbage, 15 in between".
fn planting_words(planting: &garden::Planting) -> String {
    let crop = catalogue::crop(&planting.crop).map_or(planting.crop.as_str(), |crop| crop.name());
    let count =
        planting.left.or(planting.count).map(|count| format!("{count} ")).unwrap_or_default();
    let variety = planting.variety.as_deref().map(|name| format!(" ({name})")).unwrap_or_default();
    let spacing =
        planting.spacing.as_deref().map(|space| format!(", {space} between")).unwrap_or_default();
    format!("{count}{}{variety}{spacing}", text::small(crop))
}

/// Where they stand, for those who can't see the plan.
fn places(planting: &garden::Planting) -> String {
    planting
        .at
        .as_ref()
        .map(record::places)
        .filter(|words| !words.is_empty())
        .map(|words| format!(". {words}"))
        .unwrap_or_default()
}
