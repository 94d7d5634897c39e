//! A cold night bed by bed; the thermometers' round, and what the cold did.

use maud::{Markup, html};
use pegline_core::{
    catalogue,
    record::{self, Thermometer},
    text,
    topics::frost_tonight::{Answer, AtBed, Verdict},
};

use super::form::parts::{declared, one, one_of, tap, when};
use crate::{
    draw::{self, Column},
    forms::Form,
    part::{Field, fault_list, page},
    route::Route,
    state::App,
};

/// The beds, those to see to first.
fn ranked(found: &Answer) -> Vec<&AtBed> {
    let mut rows: Vec<&AtBed> = Vec::new();
    for rank in 1..=found.beds.len() {
        rows.extend(
            found.beds.iter().filter(|bed| bed.cover_as.is_some_and(|at| at as usize == rank)),
        );
    }
    let others = |safe: bool| {
        let left = found.beds.iter().filter(|bed| bed.cover_as.is_none());
        left.filter(move |bed| safe == bed.crops.iter().all(|crop| crop.verdict == Verdict::Safe))
    };
    rows.extend(others(false));
    rows.extend(others(true));
    rows
}

/// Each bed's night, drawn beside the others.
pub(super) fn columns(app: &App, found: &Answer) -> Markup {
    let rows = ranked(found);
    let told: Vec<_> = rows.iter().map(|bed| bed.told(app.system())).collect();
    let beds: Vec<Column<'_>> = (rows.iter().zip(&told))
        .map(|(bed, told)| Column {
            name: bed.bed.as_deref().unwrap_or_default(),
            low: bed.low_c,
            between: (bed.low_from_c, bed.low_to_c),
            figure: &told.figure,
            cover: bed.cover.is_some(),
            words: &told.low,
        })
        .collect();
    draw::columns(&beds)
}

/// Each bed in words: its low, what is in danger there, and its cover.
pub(super) fn beds(app: &App, found: &Answer) -> Markup {
    let rows = ranked(found);
    html! {
        ul.rows id="beds-tonight" {
            @for bed in &rows {
                @let told = bed.told(app.system());
                li { div.row {
                    @if let Some(name) = &bed.bed { (name) }
                    small { (told.low) }
                    @for line in &told.harm { small { (line) } }
                    @if told.is_urgent { strong.urgent { (told.act) } } @else { small { (told.act) } }
                } }
            }
        }
        p { small { "In the drawing: the point of a peg is the likely low, its tongue nine such nights in ten, the line freezing." } }
        ul.rows { li { (link()) } }
    }
}

/// The way to the thermometers.
pub(super) fn link() -> Markup {
    html! {
        a href=(Route::Thermometers.address()) {
            "Write down the thermometers" small { "last night's lows, and what the cold did" }
        }
    }
}

/// The screen: one line as one says it, the round, the morning after.
pub fn thermometers(app: &App) -> Markup {
    page(
        "Thermometers",
        &app.day_words(),
        app.route(),
        &html! {
            h1 { "Read the thermometers" }
            (app.notices())
            (fault_list(app.form(), app.faults(), &|name| named(app, name)))
            (spoken(app))
            (round(app))
            @if !app.beds().is_empty() { (morning_after(app)) }
        },
    )
}

/// A low or a high with the place where its thermometer hangs: "Greenhouse: low".
fn called(it: &Thermometer, part: &str) -> String {
    format!("{}: {part}", it.name)
}

/// The same of a field's name.
fn named(app: &App, name: &str) -> Option<String> {
    let (at, part) = name.strip_prefix("at.")?.split_once('.')?;
    Some(called(record::thermometers(app.garden()).get(at.parse::<usize>().ok()?)?, part))
}

/// One line, read back before it is written.
fn spoken(app: &App) -> Markup {
    let line = app.form().text("line");
    let read = record::spoken(line, app.garden(), app.system(), app.now().local);
    html! {
        form id="spoken" data-action="spoken" data-live="yes" novalidate {
            (declared(app, "line", "36 in the greenhouse at dawn", ""))
            @match read {
                _ if line.trim().is_empty() => {}
                Err(why) => p { small { (why) "." } }
                Ok(spoken) => {
                    p.notice.said id="said-back" { (spoken.told) }
                    @for doubt in record::twice(&[spoken.draft], spoken.when, app.garden()) { p.warn { (doubt) } }
                    button.act type="submit" data-action="spoken" { "Yes, write it down" }
                }
            }
        }
    }
}

/// Every thermometer on one round.
fn round(app: &App) -> Markup {
    let all = record::thermometers(app.garden());
    let at_bed = |it: &Thermometer| it.bed.is_some() && !it.is_used;
    let places = rows_of(app.form(), &all);
    let row = |at: usize, it: &Thermometer| {
        let name = |part: &str| format!("at.{at}.{part}");
        html! {
            @if let Some(bed) = &it.bed { input type="hidden" name=(name("bed")) value=(bed); }
            @if let Some(spot) = it.spot { input type="hidden" name=(name("spot")) value=(spot); }
            div.pair {
                @for part in ["low", "high"] {
                    (one(app, &Field { label: &called(it, part), ..Field::of(app.form(), &name(part)) }))
                }
            }
        }
    };
    let typed = app.form().completed(&app.form().nested(), app.system());
    let drafts = record::readings(&typed).unwrap_or_default();
    let any_other = all.iter().any(at_bed);
    html! {
        h2 { "Or go round" }
        form id="round" data-action="round" data-live="yes" novalidate {
            @for (at, it) in places.iter().zip(&all).filter(|(_, it)| !at_bed(it)) { (row(*at, it)) }
            @if any_other {
                details {
                    summary { "Beds without a thermometer so far" }
                    @for (at, it) in places.iter().zip(&all).filter(|(_, it)| at_bed(it)) { (row(*at, it)) }
                }
            }
            (tap(app, "sky"))
            (tap(app, "wind"))
            @match record::night_before(app.garden(), app.now().today()) {
                Some(known) => p { small { "Written last evening: " (known) "." } }
                None => p { small { "Without them a low teaches nothing of its bed: clear, calm nights and others are kept apart." } }
            }
            (declared(
                app, "reset", "",
                "Set back at dawn, a thermometer keeps that dawn's cold and shows it again the next day. Set it back after noon.",
            ))
            @for doubt in record::twice(&drafts, app.now().local, app.garden()) { p.warn { (doubt) } }
            details {
                summary { "It was read earlier" }
                (when(app, "when", "A low counts for the night that ended on that day."))
            }
            button.act type="submit" data-action="round" { "Write the round down" }
        }
    }
}

/// The row of each thermometer in the form. One that is typed in keeps its row, since a reading written
/// meanwhile gives the list another order.
fn rows_of(form: &Form, all: &[Thermometer]) -> Vec<usize> {
    let is = |at: usize, it: &Thermometer| {
        let holds = |part: &str| form.text(&format!("at.{at}.{part}"));
        let named = it.bed.as_deref().or(it.spot).unwrap_or_default();
        named == holds(if it.bed.is_some() { "bed" } else { "spot" })
    };
    let row = |it: &Thermometer| (0..all.len()).find(|at| is(*at, it));
    let own: Vec<Option<usize>> = all.iter().map(row).collect();
    let mut free = (0..).filter(|at| !own.contains(&Some(*at)));
    own.iter().map(|own| own.or_else(|| free.next()).unwrap_or_default()).collect()
}

/// Covers off, and what the cold did.
fn morning_after(app: &App) -> Markup {
    let covers = record::uncovered(app.garden());
    let beds = app.beds();
    let names: Vec<(&str, &str)> =
        beds.iter().map(|bed| (bed.id.as_str(), bed.name.as_str())).collect();
    let bed = app.garden().bed(app.form().text("seen.bed"));
    let plantings = bed.map(|bed| bed.plantings.as_slice()).unwrap_or_default();
    let crops: Vec<(&str, String)> = plantings
        .iter()
        .map(|it| {
            let name = catalogue::crop(&it.crop).map_or(it.crop.as_str(), |crop| crop.name());
            (it.crop.as_str(), text::small(name))
        })
        .collect();
    let crops: Vec<(&str, &str)> = crops.iter().map(|(id, name)| (*id, name.as_str())).collect();
    html! {
        h2 { "After a cold night" }
        @if !covers.is_empty() {
            p { "Take covers off by mid-morning: in the sun plants cook under them." }
            form id="covers" data-action="covers-off" novalidate {
                button.act type="submit" data-action="covers-off" { (record::offer(&covers, app.garden())) }
            }
        }
        p { "Harm shows a day or two later: look at the plants then. Leave frozen ones alone until they have thawed." }
        form id="seen" data-action="seen" data-live="yes" novalidate {
            div.pair {
                (one_of(app, "seen.bed", &names, "which?"))
                @if crops.len() > 1 {
                    (one_of(app, "seen.crop", &crops, "all of it"))
                }
            }
            (tap(app, "seen.harm"))
            button.act.quiet type="submit" data-action="seen" { "Write down what it did" }
        }
    }
}
