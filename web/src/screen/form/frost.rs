//! A cold night: sky and wind first, then the forecast and the covers there are.

use maud::{Markup, html};
use pegline_core::{catalogue, topics::frost_tonight};

use super::parts::{bed_choice, crop, crops, declared, one, plain, tap, ticks};
use crate::{
    part::{Field, Kind, control_id},
    state::App,
};

/// Cold tonight?
pub(super) fn tonight(app: &App) -> Markup {
    let bed = app.garden().bed(app.form().text("bed"));
    let from_record = match bed {
        Some(bed) => !bed.plantings.is_empty(),
        None => frost_tonight::holds_anything(app.garden()),
    };
    html! {
        (tap(app, "sky"))
        (tap(app, "wind"))
        div.pair {
            (plain(app, "forecast_low"))
            (bed_choice(app, "All of them"))
        }
        (covers(app))
        @if !from_record { (standing(app)) }
        details {
            summary { "More choices" }
            (declared(app, "forecast_made", "", "Today if left empty. An older one is less sure."))
            div.pair {
                (declared(app, "leaf_height", "", "A hand high if left empty"))
                @if !from_record { (declared(app, "residue_on_top", "no", "")) }
            }
            h2 id=(control_id("dusk")) tabindex="-1" { "Your own thermometer, two hours after sunset" }
            p { small id=(control_id("evenings")) tabindex="-1" {
                "Instead of a forecast, once ten such clear, still evenings and their lows are in the record."
            } }
            div.pair {
                (plain(app, "dusk.temperature"))
                (plain(app, "dusk.humidity"))
            }
        }
    }
}

/// What did the frost do?
pub(super) fn after(app: &App) -> Markup {
    html! {
        (crop(app, "crop"))
        (ticks(app, "signs"))
        div.pair {
            (plain(app, "low"))
            (bed_choice(app, "None in particular"))
        }
    }
}

/// Open the greenhouse?
pub(super) fn opening(app: &App) -> Markup {
    html! {
        (tap(app, "sky"))
        div.pair {
            (plain(app, "forecast_high"))
            (plain(app, "place"))
            (plain(app, "inside"))
            (plain(app, "outside"))
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
            @let (name, count) = (format!("covers.{at}.cover"), format!("covers.{at}.count"));
            @let asked = Field::of(app.form(), &name);
            @let kinds: Vec<(&str, &str)> = laid.iter().map(|cover| (cover.id(), cover.name())).collect();
            (one(app, &Field {
                label: if at == 0 { asked.label } else { "And others" },
                example: if at == 0 { "as many as it takes" } else { "no others" },
                kind: Kind::Choice(&kinds), ..asked
            }))
            @if chosen(at) { (declared(app, &count, "1", "")) }
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
                    @let (name, hardened) = (format!("crops.{at}.crop"), format!("crops.{at}.hardened"));
                    @let asked = Field::of(app.form(), &name);
                    (one(app, &Field { label: if at == 0 { asked.label } else { "And another" }, ..asked }))
                    @if named(at) { (declared(app, &hardened, "yes", "")) }
                }
            }
        }
        (crops())
    }
}
