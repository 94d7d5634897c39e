//! One question: its form, and its answer as soon as there is one.

use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of},
    bed::{Bed, Meant},
    catalogue,
    layout::how_many,
    quantity::{System, show_spacing},
    record,
};

use super::ask;
use crate::{
    app::App,
    draw::{Plan, Stake, plan},
    part::{Field, Kind, control_id, fault_summary, field, page},
    route::Route,
};

/// The screen of a topic.
pub fn screen(app: &App, topic: &str) -> Markup {
    let Some(title) = ask::words(topic) else {
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
            div role="status" aria-live="polite" aria-atomic="true" {
                @match answer {
                    Some(answer) => (verdict(answer)),
                    None => h1 { (title) },
                }
            }
            (fault_summary(app.form(), app.faults()))
            @if let Some(answer) = answer { (picture(app, answer)) }
            form data-action="answer" data-live="yes" novalidate {
                @match topic {
                    "plants-per-bed" => (how_many_form(app)),
                    "spacing-for-count" => (how_far_form(app)),
                    "bed-quantities" => (amounts_form(app)),
                    _ => (day_length_form(app)),
                }
                @if answer.is_none() { button.act type="submit" data-action="answer" { "Work it out" } }
            }
            @if let Some(answer) = answer {
                (told(answer))
                (figures(app, answer))
                (write(app, answer))
                (sources(answer))
            }
        },
    )
}

fn bed_name(app: &App) -> String {
    let id = app.form().text("bed");
    app.garden()
        .bed(id)
        .map(|bed| bed.name.clone())
        .unwrap_or_default()
}

// ---- The answer ----

/// The verdict, large, with the line that qualifies it.
fn verdict(answer: &Answer) -> Markup {
    html! {
        section.verdict {
            h1 { (answer.telling.headline) }
            @if let Some(under) = answer.telling.because.first() { p { (under) } }
        }
    }
}

fn told(answer: &Answer) -> Markup {
    let telling = &answer.telling;
    html! {
        @for caution in &telling.cautions { p.warn { (caution) } }
        dl.told {
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

fn sources(answer: &Answer) -> Markup {
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
fn write(app: &App, answer: &Answer) -> Markup {
    html! {
        @if !answer.telling.next.is_empty() {
            form data-action="write" novalidate {
                details {
                    summary { "It was done earlier" }
                    (field(app.form(), app.faults(), app.system(), &Field {
                        name: "when", label: "When", kind: Kind::Moment,
                        hint: "Left empty, it is written as done now.", ..Field::default()
                    }))
                }
                button.act type="submit" data-action="write" { (record::offer(&answer.telling.next, app.garden())) }
            }
        }
    }
}

/// The bed with what is proposed, for the questions that place plants.
fn picture(app: &App, answer: &Answer) -> Markup {
    let (placed, words): (&[how_many::Plant], &str) = match &answer.of {
        Of::PlantsPerBed(found) => match &found.way_round {
            Some(closer) => (&closer.placed, &closer.arrangement),
            None => (&found.placed, &found.arrangement),
        },
        Of::SpacingForCount(found) => (&found.placed, &found.arrangement),
        _ => return html! {},
    };
    let Some(Meant { bed, id, .. }) =
        record::bed_meant(&app.question(), app.garden(), app.system())
    else {
        return html! {};
    };
    let stakes: Vec<Stake> = placed
        .iter()
        .map(|plant| Stake {
            along: plant.along_m,
            across: plant.across_m,
        })
        .collect();
    let already = id
        .map(|id| super::bed::already(app, &id, &bed))
        .unwrap_or_default();
    html! {
        (plan(&Plan { bed: &bed, proposed: &stakes, already: &already, system: app.system(), words }))
        (plan_words(&bed))
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
    }
}

// ---- The forms ----

fn crops() -> Markup {
    html! {
        datalist id="crops" {
            @for crop in catalogue::crops() { option value=(crop.name()) {} }
        }
    }
}

/// The usual spacing of a crop, pale in the field until one is typed.
fn usual_spacing(crop: &str, system: System) -> String {
    let row = catalogue::crop(crop).ok();
    row.and_then(catalogue::Crop::spacing).map_or_else(
        || "as usual".to_owned(),
        |range| show_spacing(range.usual, system),
    )
}

fn how_many_form(app: &App) -> Markup {
    let (form, faults, system) = (app.form(), app.faults(), app.system());
    let rows = (0..)
        .take_while(|at| *at == 0 || form.has(&format!("plants.{at}.crop")))
        .count();
    html! {
        @for at in 0..rows {
            @let name = |part: &str| format!("plants.{at}.{part}");
            div.pair {
                (field(form, faults, system, &Field {
                    name: &name("crop"), label: if at == 0 { "Crop" } else { "And another" }, kind: Kind::Suggest("crops"), ..Field::default()
                }))
                (field(form, faults, system, &Field {
                    name: &name("on_hand"), label: "How many have you", kind: Kind::Count, example: "as fit", ..Field::default()
                }))
                (field(form, faults, system, &Field {
                    name: &name("spacing"), label: "Space between", example: &usual_spacing(form.text(&name("crop")), system), ..Field::default()
                }))
                @if at == 0 { (bed_choice(app)) }
            }
        }
        (crops())
        (bed_size(app))
        details {
            summary { "More choices" }
            (field(form, faults, system, &Field {
                name: "plants.0.sites", label: "Where the plants may go",
                kind: Kind::Choice(&[("", "as usual for the crop"), ("emitters", "at the holes"), ("along-line", "along the lines"), ("anywhere", "anywhere")]),
                ..Field::default()
            }))
            @if rows > 1 {
                (field(form, faults, system, &Field {
                    name: "aim", label: "When not all fit",
                    kind: Kind::Choice(&[("in-order", "the first crop goes first"), ("most", "as many as possible in all")]),
                    ..Field::default()
                }))
            }
            button.plain type="button" data-action="another-crop" { "And another crop" }
        }
    }
}

fn how_far_form(app: &App) -> Markup {
    let (form, faults, system) = (app.form(), app.faults(), app.system());
    html! {
        div.pair {
            (field(form, faults, system, &Field { name: "crop", label: "Crop", kind: Kind::Suggest("crops"), ..Field::default() }))
            (field(form, faults, system, &Field { name: "count", label: "How many have you", kind: Kind::Count, ..Field::default() }))
            (bed_choice(app))
        }
        (crops())
        (bed_size(app))
    }
}

fn amounts_form(app: &App) -> Markup {
    let (form, faults, system) = (app.form(), app.faults(), app.system());
    let item = form.text("item");
    html! {
        div.pair {
            (field(form, faults, system, &Field {
                name: "item", label: "What",
                kind: Kind::Choice(&[
                    ("compost", "Compost"), ("mulch", "Mulch"), ("soil", "Soil to fill it"),
                    ("seed-garlic", "Garlic to plant"), ("sets", "Onion sets"), ("seed", "Seed"),
                ]),
                ..Field::default()
            }))
            (bed_choice(app))
            @if matches!(item, "" | "compost" | "mulch" | "soil") {
                (field(form, faults, system, &Field { name: "depth", label: "How deep", example: "as usual", ..Field::default() }))
            } @else {
                (field(form, faults, system, &Field { name: "spacing", label: "Space between", example: "as usual", ..Field::default() }))
            }
            @if item == "seed" {
                (field(form, faults, system, &Field { name: "crop", label: "Crop", kind: Kind::Suggest("crops"), ..Field::default() }))
            }
        }
        @if item == "seed" { (crops()) }
        (bed_size(app))
    }
}

fn day_length_form(app: &App) -> Markup {
    let (form, faults, system) = (app.form(), app.faults(), app.system());
    html! {
        div.pair {
            (field(form, faults, system, &Field { name: "latitude", label: "Latitude", example: app.garden().place.get("latitude").and_then(|known| known.as_str()).unwrap_or_default(), ..Field::default() }))
            (field(form, faults, system, &Field { name: "date", label: "Day", kind: Kind::Day, hint: "Today if left empty", ..Field::default() }))
        }
    }
}

/// Which bed, where the record has any.
fn bed_choice(app: &App) -> Markup {
    let beds = app.beds();
    let mut choices: Vec<(&str, &str)> = beds
        .iter()
        .map(|bed| (bed.id.as_str(), bed.name.as_str()))
        .collect();
    choices.push(("", "Another: give its size"));
    html! {
        @if !beds.is_empty() {
            (field(app.form(), app.faults(), app.system(), &Field {
                name: "bed", label: "Bed", kind: Kind::Choice(&choices), ..Field::default()
            }))
        }
    }
}

/// The size of a bed that is not in the record.
fn bed_size(app: &App) -> Markup {
    html! {
        @if app.form().text("bed").is_empty() {
            fieldset id=[app.beds().is_empty().then(|| control_id("bed"))] tabindex="-1" {
                h2 { "The bed" }
                (bed_fields(app))
            }
        }
    }
}

/// The fields that describe a bed.
pub fn bed_fields(app: &App) -> Markup {
    let (form, faults, system) = (app.form(), app.faults(), app.system());
    let one = |name: &str, label: &str, hint: &str| {
        field(
            form,
            faults,
            system,
            &Field {
                name,
                label,
                hint,
                ..Field::default()
            },
        )
    };
    html! {
        div.pair {
            (one("bed.length", "Length", ""))
            (one("bed.width", "Width", ""))
            (field(form, faults, system, &Field {
                name: "bed.drip.lines", label: "Drip lines", kind: Kind::Count, example: "none", ..Field::default()
            }))
            (one("bed.drip.emitter_spacing", "From hole to hole", ""))
        }
        details {
            summary { "More about the bed" }
            (one("bed.name", "What you call it", ""))
            div.pair {
                (one("bed.drip.line_spacing", "From line to line", "Equal strips if left empty"))
                (one("bed.drip.first_line", "Near side to first line", ""))
                (one("bed.drip.first_emitter", "Left end to first hole", "Centred if left empty"))
                (one("bed.edge_margin", "Side to nearest plant", "By the crop if left empty"))
            }
            (one("bed.drip.flow", "What one hole gives", "Printed on the hose, such as 0.5 gal/h"))
            (one("bed.faces", "You look towards", "Standing at the near side: N, south-east, 120"))
        }
    }
}

/// Where a question about this bed is asked.
pub fn about_bed(topic: &str, bed: &str) -> String {
    Route::Question {
        topic: topic.to_owned(),
        bed: Some(bed.to_owned()),
    }
    .address()
}
