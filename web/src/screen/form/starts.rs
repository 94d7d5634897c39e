//! How old a tray is, how it gets used to outdoors, and what is seen on it.

use maud::{Markup, html};
use pegline_core::{
    given::Readable,
    record::{self, trays},
    starts::tray_asked::Sign,
};

use super::parts::{bed_choice, crop, declared, one_of, place_if_unknown, plain};
use crate::{
    app::App,
    part::{Field, control_id},
};

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
        (declared(app, "look.leaves", "", "Without the first pair"))
        @for (sign, label) in Sign::CONTROL.choices() { (tick(app, &format!("look.{sign}"), ["no", "yes"], label)) }
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
    let growing: Vec<(&str, &str)> =
        growing.iter().map(|(id, name)| (id.as_str(), name.as_str())).collect();
    html! {
        @if !growing.is_empty() {
            (one_of(app, "tray", &growing, "Another: tell about it"))
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
            (plain(app, "sown"))
            (declared(app, "warmth", "", "Mean of day and night"))
        }
        (declared(app, "leaves", "not counted", ""))
        (declared(app, "roots", "not looked at", ""))
        details {
            summary { "What else do you see?" }
            @for (at, (sign, label)) in Sign::CONTROL.choices().iter().enumerate() {
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
            (plain(app, "raised"))
            div.pair {
                (declared(app, "days_done", "none", ""))
                @if glass { (declared(app, "cold_nights_before", "none", "Under 45 F (7 C) in there")) }
            }
        }
        (declared(app, "way", "a little longer every day", ""))
        div.pair {
            (declared(app, "nights.0.low", "as usual", ""))
            (declared(app, "nights.0.high", "as usual", ""))
        }
        (declared(app, "nights.0.wind", "not known", ""))
        details {
            summary { "More choices" }
            (declared(app, "nights.0.sky", "not known", ""))
            (declared(app, "nights.0.hard_rain", "none, or soft", ""))
            (declared(app, "nerve", "as in Settings", ""))
            (declared(app, "start", "", "Today if left empty"))
            @if told(app) { (declared(app, "sown", "", "Tells when it is too old")) }
            (bed_choice(app, "Any bed"))
            (plain(app, "soil_temperature"))
            @if told(app) { (tick(app, "under_lamps", ["", "yes"], Field::of(app.form(), "under_lamps").label)) }
        }
        @if !record::knows_climate(app.garden()) {
            details {
                summary { "The place, for usual nights and frost" }
                (declared(app, "site.last_frost", "04-15", "Month and day"))
                (place_if_unknown(app))
            }
        }
    }
}
