//! How old a tray is, how it gets used to outdoors, and what is seen on it.

use maud::{Markup, html};
use pegline_core::record::{self, trays};

use super::parts::{bed_choice, crop, one, place_if_unknown, text};
use crate::{
    app::App,
    part::{Field, Kind, control_id},
};

/// Signs in a list, as the question has them; each stands at its own place.
const SIGNS: [(&str, &str); 5] = [
    ("leggy", "Long and thin"),
    ("doubled", "Two or more in a cell"),
    ("budding", "Buds or flowers"),
    ("yellow", "Lower leaves yellow"),
    ("large", "Leaves a hand wide, or stems like a pencil"),
];

/// A box to tick; unticked it says `off`.
pub fn tick(app: &App, name: &str, [off, on]: [&str; 2], label: &str) -> Markup {
    let id = control_id(name);
    html! {
        input type="hidden" name=(name) value=(off);
        label.tick for=(id) {
            input id=(id) type="checkbox" name=(name) value=(on) checked[app.form().text(name) == on];
            (label)
        }
    }
}

/// Leaves and signs of a tray of the record.
pub fn looks(app: &App) -> Markup {
    html! {
        (one(app, &Field { name: "look.leaves", label: "True leaves", kind: Kind::Count, hint: "Without the first pair", ..Field::default() }))
        @for (sign, label) in SIGNS { (tick(app, &format!("look.{sign}"), ["no", "yes"], label)) }
    }
}

/// Which tray, where the record has any.
fn tray_choice(app: &App) -> Markup {
    let growing: Vec<(String, String)> = app
        .garden()
        .starts
        .iter()
        .filter(|start| start.is_growing())
        .map(|start| (start.id.to_string(), trays::name(start)))
        .collect();
    let mut choices: Vec<(&str, &str)> = vec![("", "Another: tell about it")];
    choices.extend(growing.iter().map(|(id, name)| (id.as_str(), name.as_str())));
    html! {
        @if !growing.is_empty() {
            (one(app, &Field { name: "tray", label: "Tray", kind: Kind::Choice(&choices), ..Field::default() }))
        }
    }
}

fn told(app: &App) -> bool {
    app.form().text("tray").is_empty()
}

/// Are these starts getting too old?
pub(super) fn age(app: &App) -> Markup {
    html! {
        (tray_choice(app))
        @if told(app) {
            (crop(app, "crop"))
            (one(app, &Field { name: "sown", label: "Sown", kind: Kind::Day, ..Field::default() }))
            (one(app, &Field { name: "warmth", label: "How warm it stands", hint: "Mean of day and night", ..Field::default() }))
        }
        (one(app, &Field { name: "leaves", label: "True leaves", kind: Kind::Count, example: "not counted", ..Field::default() }))
        (one(app, &Field {
            name: "roots", label: "Roots, plug slid out",
            kind: Kind::Choice(&[("", "not looked at"), ("loose", "plug falls apart"), ("holding", "white, it holds"), ("circling", "circling"), ("matted", "a mat")]),
            ..Field::default()
        }))
        details {
            summary { "What else do you see?" }
            @for (at, (sign, label)) in SIGNS.iter().enumerate() {
                (tick(app, &format!("signs.{at}"), ["", sign], label))
            }
        }
    }
}

/// How do they get used to outdoors?
pub(super) fn hardening(app: &App) -> Markup {
    let glass = app.form().text("raised") == "unheated-greenhouse";
    html! {
        (tray_choice(app))
        @if told(app) {
            (crop(app, "crop"))
            (one(app, &Field {
                name: "raised", label: "Raised",
                kind: Kind::Choice(&[("heated-house", "in the warm"), ("unheated-greenhouse", "in a greenhouse without heat"), ("outdoors", "outdoors")]),
                ..Field::default()
            }))
            div.pair {
                (one(app, &Field { name: "days_done", label: "Days out so far", kind: Kind::Count, example: "none", ..Field::default() }))
                @if glass {
                    (one(app, &Field { name: "cold_nights_before", label: "Cold nights of the last 14", kind: Kind::Count, example: "none", hint: "Under 45 F (7 C) in there" }))
                }
            }
        }
        (one(app, &Field {
            name: "way", label: "Way",
            kind: Kind::Choice(&[("", "a little longer every day"), ("one-move", "one move, a week in shelter")]),
            ..Field::default()
        }))
        div.pair {
            (one(app, &Field { name: "nights.0.low", label: "Tonight’s low", example: "as usual", ..Field::default() }))
            (one(app, &Field { name: "nights.0.high", label: "Today’s high", example: "as usual", ..Field::default() }))
        }
        (one(app, &Field {
            name: "nights.0.wind", label: "Wind today",
            kind: Kind::Choice(&[("", "not known"), ("still", "still"), ("light", "leaves stir"), ("windy", "it shakes the plants")]),
            ..Field::default()
        }))
        details {
            summary { "More choices" }
            (one(app, &Field {
                name: "nights.0.sky", label: "Sky today",
                kind: Kind::Choice(&[("", "not known"), ("clear", "clear"), ("part", "some cloud"), ("cloudy", "cloudy")]),
                ..Field::default()
            }))
            (one(app, &Field {
                name: "nights.0.hard_rain", label: "Rain today",
                kind: Kind::Choice(&[("", "none, or soft"), ("yes", "hail or hard rain")]),
                ..Field::default()
            }))
            (one(app, &Field {
                name: "nerve", label: "Risk of a later frost",
                kind: Kind::Choice(&[("", "as in Settings"), ("10", "1 year in 10"), ("25", "1 year in 4"), ("50", "every other year")]),
                ..Field::default()
            }))
            (one(app, &Field { name: "start", label: "First day", kind: Kind::Day, hint: "Today if left empty", ..Field::default() }))
            @if told(app) {
                (one(app, &Field { name: "sown", label: "Sown", kind: Kind::Day, hint: "Tells when it is too old", ..Field::default() }))
            }
            (bed_choice(app, "Any bed"))
            (text(app, "soil_temperature", "Soil there, if measured", ""))
            @if told(app) { (tick(app, "under_lamps", ["", "yes"], "Raised under lamps")) }
        }
        @if !record::knows_climate(app.garden()) {
            details {
                summary { "The place, for usual nights and frost" }
                (one(app, &Field { name: "site.last_frost", label: "Usual last frost", example: "04-15", hint: "Month and day", ..Field::default() }))
                (place_if_unknown(app))
            }
        }
    }
}
