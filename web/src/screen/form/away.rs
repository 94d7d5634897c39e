//! Back in a few days: what to pick before going.

use maud::{Markup, html};
use pegline_core::topics::harvest_before_away;

use super::{
    harvest::answer_button,
    parts::{crop, place_if_unknown, plain},
};
use crate::{app::App, screen::question::about_bed};

/// The numbers of days that are offered by a tap.
const DAYS: [&str; 6] = ["2", "3", "5", "7", "10", "14"];

/// What do I pick before I go?
pub(super) fn back(app: &App) -> Markup {
    let form = app.form();
    let days = form.text("back_in");
    let grows = app.beds().iter().any(|bed| !bed.plantings.is_empty());
    let rows = (0..).take_while(|at| *at == 0 || form.has(&format!("plants.{at}.crop"))).count();
    html! {
        h2 { "Back in how many days?" }
        div.choice.numbers role="group" aria-label="Back in how many days" {
            @for number in DAYS { (answer_button(&format!("back_in={number}"), number, number == days)) }
        }
        input type="hidden" name="back_in" value=(days);
        (plain(app, "back_on"))
        (plain(app, "frost"))
        @if !grows {
            h2 { "What grows" }
            @for at in 0..rows { (crop(app, &format!("plants.{at}.crop"))) }
            button.plain type="button" data-action="another-crop" { "And another crop" }
        }
        (place_if_unknown(app))
    }
}

/// What to see to before going, that which waits least first; each leads to its own question.
pub fn list(found: &harvest_before_away::Answer) -> Markup {
    html! {
        @if !found.take.is_empty() {
            ul.rows {
                @for take in &found.take {
                    @let [least, most] = take.holds_days;
                    @let row = html! {
                        (take.name)
                        small { (pegline_core::text::capital(&take.words)) ". At its prime " (least) " to " (most) " days." }
                    };
                    li {
                        @match &take.planting {
                            Some(planting) => a href=(about_bed("harvest-readiness", planting)) { (row) },
                            None => div.row { (row) },
                        }
                    }
                }
            }
        }
        @if !found.wait.is_empty() {
            details {
                summary { "These wait: " (found.wait.len()) }
                ul.rows {
                    @for waits in &found.wait {
                        li {
                            @match &waits.planting {
                                Some(planting) => a href=(about_bed("harvest-readiness", planting)) { (waits.name) },
                                None => div.row { (waits.name) },
                            }
                        }
                    }
                }
            }
        }
    }
}
