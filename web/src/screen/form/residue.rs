//! When can a covered bed be planted?

use maud::{Markup, html};
use pegline_core::{
    catalogue::{self, RESIDUE_GROUPS},
    record,
};

use super::parts::{bed_choice, crop, declared, one, one_of, place_if_unknown, plain, ticks};
use crate::{
    part::{Field, Kind, control_id},
    state::App,
};

/// The form.
pub(super) fn wait(app: &App) -> Markup {
    let known = record::lies_told(app.form().text("bed"), app.garden(), app.now().today());
    html! {
        @if let Some(known) = &known {
            p id="known" { "From the record: " (known) ". Fill in only what differs." }
        }
        (flags(app))
        (materials(app, known.is_some()))
        (how(app, known.is_some()))
        (next(app))
        (rest(app))
    }
}

/// Anything that must not stay decides before all else.
fn flags(app: &App) -> Markup {
    html! {
        (ticks(app, "flags"))
        @if !app.form().text("flags.0").is_empty() { (declared(app, "illness", "not known", "")) }
    }
}

/// What was chopped: one more row than is filled, so that another can always be picked.
fn materials(app: &App, known: bool) -> Markup {
    let form = app.form();
    let name = |at: usize, part: &str| format!("materials.{at}.{part}");
    let rows = (0..20)
        .take_while(|at| *at == 0 || !form.text(&name(at - 1, "residue")).is_empty())
        .count();
    html! {
        fieldset id=(control_id("materials")) tabindex="-1" {
            @for at in 0..rows {
                @let picked = form.text(&name(at, "residue"));
                @let row = catalogue::residue(picked).ok();
                (pick(app, &name(at, "residue"), picked, match (at, known) { (0, true) => "as recorded", (0, false) => "pick one", _ => "nothing more" }, at == 0))
                @if let Some(row) = row {
                    div.pair {
                        (one(app, &Field {
                            kind: Kind::Suggest("amounts"), example: "as usual", ..Field::of(app.form(), &name(at, "amount"))
                        }))
                        @if row.stage_matters() {
                            (declared(app, &name(at, "stage"), "mixed", ""))
                        } @else if !row.lies_dry() {
                            (declared(app, &name(at, "state"), "fresh", ""))
                        }
                    }
                }
            }
            p { small { "How much, such as 2 buckets, an armful, 1 wheelbarrow, 3 lb, 2 in over the bed." } }
            datalist id="amounts" {
                @for amount in ["1 bucket", "2 buckets", "1 armful", "1 wheelbarrow", "2 wheelbarrows", "1 in over the bed", "2 in over the bed"] { option value=(amount) {} }
            }
        }
    }
}

/// A list to pick a material from, by groups.
fn pick(app: &App, name: &str, picked: &str, none: &str, first: bool) -> Markup {
    let id = control_id(name);
    html! {
        div.field id=(format!("{id}-field")) {
            label for=(id) { @if first { (Field::of(app.form(), name).label) } @else { "And" } }
            select id=(id) name=(name) {
                option value="" selected[picked.is_empty()] { (none) }
                @for (group, words) in RESIDUE_GROUPS {
                    optgroup label=(words) {
                        @for row in catalogue::residues().iter().filter(|row| row.group() == group) {
                            option value=(row.id()) selected[row.id() == picked] { (row.name()) }
                        }
                    }
                }
            }
        }
    }
}

/// How it lies.
fn how(app: &App, known: bool) -> Markup {
    let as_it = |words| if known { "as recorded" } else { words };
    let halves = record::HALVES.map(|half| (half, half));
    html! {
        div.pair {
            (declared(app, "placement", if known { "as recorded" } else { "" }, ""))
            (one_of(app, "part", &halves, as_it("the whole bed")))
        }
        // Its words are too long for half a phone.
        (declared(app, "moisture", as_it("not felt"), ""))
        (declared(app, "laid", "", if known { "As in the record if left empty" } else { "Today if left empty" }))
        details id="more-about-it" {
            summary { "Cover, compost, chopping" }
            div.pair {
                (declared(app, "cover", as_it("nothing"), ""))
                (declared(app, "compost", "", "How deep, such as 1 in"))
                (declared(app, "chop", as_it("not told"), ""))
            }
        }
    }
}

/// What comes next.
fn next(app: &App) -> Markup {
    let sowing = app.form().text("plan") == "direct-sow";
    html! {
        (plain(app, "plan"))
        div.pair {
            (crop(app, "crop"))
            (bed_choice(app, "None of these"))
            @if sowing { (declared(app, "damping_off", "no", "")) }
        }
    }
}

/// What narrows the dates.
fn rest(app: &App) -> Markup {
    html! {
        details id="more-choices" {
            summary { "Soil, slugs, place: for surer dates" }
            div.pair {
                (plain(app, "soil_temperature"))
                (plain(app, "slugs"))
                @if app.form().text("bed").is_empty() { (declared(app, "area", "", "Such as 32 sq ft; 4 x 8 ft if left empty")) }
            }
            (place_if_unknown(app))
        }
    }
}
