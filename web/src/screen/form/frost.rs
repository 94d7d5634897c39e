//! A cold night: sky and wind first, then the forecast and the covers there are.

use maud::{Markup, html};
use pegline_core::{catalogue, topics::frost_tonight};

use super::parts::{bed_choice, crops, one, tap, text};
use crate::{
    app::App,
    part::{Field, Kind, control_id},
};

/// The sky, one tap each.
pub(in crate::screen) const SKY: [(&str, &str); 3] =
    [("clear", "Clear"), ("part", "Some cloud"), ("cloudy", "Cloudy")];

/// The wind, one tap each.
pub(in crate::screen) const WIND: [(&str, &str); 3] =
    [("still", "Still"), ("light", "Light"), ("windy", "Windy")];

/// What do I cover tonight?
pub(super) fn tonight(app: &App) -> Markup {
    let bed = app.garden().bed(app.form().text("bed"));
    let from_record = match bed {
        Some(bed) => !bed.plantings.is_empty(),
        None => frost_tonight::holds_anything(app.garden()),
    };
    html! {
        (tap(app, "sky", "The sky tonight", &SKY))
        (tap(app, "wind", "The wind", &WIND))
        div.pair {
            (one(app, &Field { name: "forecast_low", label: "Forecast low", ..Field::default() }))
            (bed_choice(app, "All of them"))
        }
        (covers(app))
        @if !from_record { (standing(app)) }
        details {
            summary { "More choices" }
            (one(app, &Field {
                name: "forecast_made", label: "The forecast is of", kind: Kind::Day,
                hint: "Today if left empty. An older one is less sure.", ..Field::default()
            }))
            div.pair {
                (text(app, "leaf_height", "Leaves above the ground", "A hand high if left empty"))
                @if !from_record {
                    (one(app, &Field {
                        name: "residue_on_top", label: "Chopped plants on the bed",
                        kind: Kind::Choice(&[("", "no"), ("yes", "yes")]), ..Field::default()
                    }))
                }
            }
            h2 id=(control_id("dusk")) tabindex="-1" { "Your own thermometer, two hours after sunset" }
            p { small id=(control_id("evenings")) tabindex="-1" {
                "Instead of a forecast, once ten such clear, still evenings and their lows are in the record."
            } }
            div.pair {
                (text(app, "dusk.temperature", "Air", ""))
                (text(app, "dusk.humidity", "Humidity, %", ""))
            }
        }
    }
}

/// Do I open the greenhouse?
pub(super) fn opening(app: &App) -> Markup {
    html! {
        (tap(app, "sky", "The sun today", &[("clear", "Full sun"), ("part", "Some cloud"), ("cloudy", "Cloudy")]))
        div.pair {
            (one(app, &Field { name: "forecast_high", label: "Forecast high", ..Field::default() }))
            (one(app, &Field {
                name: "place", label: "What", kind: Kind::Choice(&[("greenhouse", "greenhouse"), ("cold-frame", "frame")]), ..Field::default()
            }))
            (one(app, &Field { name: "inside", label: "Inside now", ..Field::default() }))
            (one(app, &Field { name: "outside", label: "Outdoors now", ..Field::default() }))
        }
        p { small { "Both read at noon, with it shut, teach what the sun adds there." } }
    }
}

/// How many covers of which kind; a further kind is asked for once one is chosen.
fn covers(app: &App) -> Markup {
    let kinds = catalogue::covers().iter();
    let laid: Vec<_> = kinds.filter(|it| it.is_laid() && it.gain().is_some()).collect();
    let chosen = |at: usize| !app.form().text(&format!("covers.{at}.cover")).is_empty();
    let rows = (0..laid.len()).take_while(|at| *at == 0 || chosen(at - 1));
    html! {
        @for at in rows {
            @let names: Vec<(&str, &str)> = core::iter::once(if at == 0 { ("", "as many as it takes") } else { ("", "no others") })
                .chain(laid.iter().map(|cover| (cover.id(), cover.name()))).collect();
            (one(app, &Field {
                name: &format!("covers.{at}.cover"), label: if at == 0 { "Covers you have" } else { "And others" },
                kind: Kind::Choice(&names), ..Field::default()
            }))
            @if chosen(at) {
                (one(app, &Field {
                    name: &format!("covers.{at}.count"), label: "For how many", kind: Kind::Count, example: "1", ..Field::default()
                }))
            }
        }
    }
}

/// What stands out there, where the record does not tell.
fn standing(app: &App) -> Markup {
    let named = |at: usize| !app.form().text(&format!("crops.{at}.crop")).is_empty();
    html! {
        fieldset id=(control_id("crops")) tabindex="-1" {
            h2 { "What stands out tonight" }
            @for at in (0..12).take_while(|at| *at == 0 || named(at - 1)) {
                div.pair {
                    (one(app, &Field {
                        name: &format!("crops.{at}.crop"), label: if at == 0 { "Crop" } else { "And another" },
                        kind: Kind::Suggest("crops"), ..Field::default()
                    }))
                    @if named(at) {
                        (one(app, &Field {
                            name: &format!("crops.{at}.hardened"), label: "Used to outdoors",
                            kind: Kind::Choice(&[("", "yes"), ("no", "not yet")]), ..Field::default()
                        }))
                    }
                }
            }
        }
        (crops())
    }
}
