//! When can a covered bed be planted?

use maud::{Markup, html};
use pegline_core::{
    catalogue::{self, RESIDUE_GROUPS},
    record,
};

use super::parts::{bed_choice, crop, one, place_if_unknown, text};
use crate::{
    app::App,
    part::{Field, Kind, control_id},
};

const FLAGS: [(&str, &str); 5] = [
    ("diseased", "Sick: spots, rot, wilt, knotted roots"),
    ("in-seed", "In seed"),
    ("running", "Running: bindweed, couch, mint, stumps that sprout"),
    ("herbicide", "Straw, hay or manure that may carry weedkiller"),
    ("walnut", "Black walnut"),
];

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
    let ticked = |at: usize| !app.form().text(&format!("flags.{at}")).is_empty();
    html! {
        fieldset {
            legend { "Anything sick, in seed, or running?" }
            @for (at, (flag, words)) in FLAGS.iter().enumerate() {
                @let name = format!("flags.{at}");
                label.tick {
                    // An empty text under the same name, so that taking the tick off counts.
                    input type="hidden" name=(name) value="";
                    input type="checkbox" id=(control_id(&name)) name=(name) value=(flag) checked[ticked(at)];
                    (words)
                }
            }
        }
        @if ticked(0) {
            (one(app, &Field {
                name: "illness", label: "Which sickness",
                kind: Kind::Choice(&[
                    ("", "not known"), ("clubroot", "clubroot: knotted cabbage roots"), ("white-rot", "white rot of onion or garlic"),
                    ("blight", "late blight of tomato or potato"), ("wilt", "wilt or root rot"), ("leaf-spot", "spots or mildew on leaves alone"),
                ]),
                ..Field::default()
            }))
        }
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
                (pick(&name(at, "residue"), picked, match (at, known) { (0, true) => "as recorded", (0, false) => "pick one", _ => "nothing more" }, at == 0))
                @if let Some(row) = row {
                    div.pair {
                        (one(app, &Field {
                            name: &name(at, "amount"), label: "How much", kind: Kind::Suggest("amounts"), example: "as usual",
                            ..Field::default()
                        }))
                        @if row.stage_matters() {
                            (one(app, &Field {
                                name: &name(at, "stage"), label: "It was",
                                kind: Kind::Choice(&[("", "mixed"), ("soft", "green and soft"), ("woody", "woody")]), ..Field::default()
                            }))
                        } @else if !row.lies_dry() {
                            (one(app, &Field {
                                name: &name(at, "state"), label: "It was",
                                kind: Kind::Choice(&[("", "fresh"), ("dry", "dried crisp")]), ..Field::default()
                            }))
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
fn pick(name: &str, picked: &str, none: &str, first: bool) -> Markup {
    let id = control_id(name);
    html! {
        div.field id=(format!("{id}-field")) {
            label for=(id) { @if first { "What was chopped" } @else { "And" } }
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
    let choice = |name: &str, label: &str, choices: &[(&str, &str)]| {
        one(app, &Field { name, label, kind: Kind::Choice(choices), ..Field::default() })
    };
    let [left, right] = record::HALVES;
    html! {
        div.pair {
            @if known {
                (choice("placement", "It lies", &[("", "as recorded"), ("on-top", "on top"), ("worked-in", "dug in")]))
            } @else {
                (choice("placement", "It lies", &[("on-top", "on top"), ("worked-in", "dug in")]))
            }
            (choice("part", "Where", &[("", if known { "as recorded" } else { "the whole bed" }), (left, left), (right, right)]))
        }
        // Its words are too long for half a phone.
        (choice("moisture", "It is", &[("", as_it("not felt")), ("dry", "crackling dry"), ("part", "dry on top, damp under"), ("moist", "damp like a wrung sponge"), ("soggy", "soggy or sour")]))
        (one(app, &Field {
            name: "laid", label: "Laid or dug in on", kind: Kind::Day,
            hint: if known { "As in the record if left empty" } else { "Today if left empty" }, ..Field::default()
        }))
        details id="more-about-it" {
            summary { "Cover, compost, chopping" }
            div.pair {
                (choice("cover", "What lies over it", &[("", as_it("nothing")), ("burlap", "burlap"), ("cardboard", "cardboard"), ("tarp", "a tarp"), ("cloth", "a cloth or fleece")]))
                (text(app, "compost", "Compost over it", "How deep, such as 1 in"))
                (choice("chop", "The pieces", &[("", as_it("not told")), ("whole", "whole plants"), ("hand", "cut by hand"), ("fine", "shredded or mown")]))
            }
        }
    }
}

/// What comes next.
fn next(app: &App) -> Markup {
    let sowing = app.form().text("plan") == "direct-sow";
    html! {
        (one(app, &Field {
            name: "plan", label: "Then come",
            kind: Kind::Choice(&[("transplant", "young plants"), ("direct-sow", "seeds, sown in the bed")]), ..Field::default()
        }))
        div.pair {
            (crop(app, "crop"))
            (bed_choice(app, "None of these"))
            @if sowing {
                (one(app, &Field {
                    name: "damping_off", label: "Seedlings rotted off here before",
                    kind: Kind::Choice(&[("", "no"), ("yes", "yes")]), ..Field::default()
                }))
            }
        }
    }
}

/// What narrows the dates.
fn rest(app: &App) -> Markup {
    html! {
        details id="more-choices" {
            summary { "Soil, slugs, place: for surer dates" }
            div.pair {
                (one(app, &Field { name: "soil_temperature", label: "Soil, if measured", ..Field::default() }))
                (one(app, &Field { name: "slugs", label: "Slugs in a trap overnight", kind: Kind::Count, ..Field::default() }))
                @if app.form().text("bed").is_empty() { (text(app, "area", "Area it lies on", "Such as 32 sq ft; 4 x 8 ft if left empty")) }
            }
            (place_if_unknown(app))
        }
    }
}
