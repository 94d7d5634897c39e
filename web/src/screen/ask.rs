//! Ask: what needs deciding, then the questions in the gardener's own words.

use maud::{Markup, html};

use crate::{app::App, part::page, route::Route};

/// The questions, as (topic, words, what it takes).
pub const QUESTIONS: [(&str, &str, &str); 17] = [
    (
        "plants-per-bed",
        "How many fit here?",
        "and where they go along the hose",
    ),
    (
        "spacing-for-count",
        "They all must go in: how close?",
        "the widest space that still takes them",
    ),
    (
        "bed-quantities",
        "How much do I haul or buy?",
        "compost, mulch, soil, cloves, sets, seed",
    ),
    (
        "drip-run-time",
        "How long do I run the drip?",
        "by the hose, the crop and the season",
    ),
    (
        "residue-wait",
        "Can I plant into this yet?",
        "chopped plants on it or dug in: when, or which way round",
    ),
    (
        "frost-tonight",
        "What do I cover tonight?",
        "each bed's low, and which beds get a sheet",
    ),
    (
        "harvest-readiness",
        "Is it ready?",
        "at its prime or past, and when to look again",
    ),
    (
        "garlic-window",
        "Is it garlic time?",
        "when, which bed, and how much of it",
    ),
    (
        "open-greenhouse",
        "Do I open the greenhouse?",
        "or the frame: by the sun, and what it adds to the air",
    ),
    (
        "sow-now",
        "Do I sow now?",
        "and how many seeds give enough plants",
    ),
    (
        "emergence",
        "Is it still coming up?",
        "or is it time to sow again",
    ),
    (
        "start-age",
        "Are these starts getting too old?",
        "their true age, by warmth, leaves and roots",
    ),
    (
        "hardening-plan",
        "How do they get used to outdoors?",
        "day by day or in one move, and when to plant",
    ),
    (
        "soil-temperature",
        "How warm is the soil?",
        "by the season and your own readings",
    ),
    (
        "harvest-before-away",
        "What do I pick before I go?",
        "back in a few days: what overripens, what waits",
    ),
    (
        "salt-for-fermenting",
        "How much salt for the ferment?",
        "by weight, shredded or whole",
    ),
    (
        "day-length",
        "Is the day long enough to grow?",
        "and when the short days begin and end",
    ),
];

/// The questions that a bed's own page asks.
pub const OF_A_BED: usize = 6;

/// The words of a question.
pub fn words(topic: &str) -> Option<&'static str> {
    QUESTIONS
        .iter()
        .find(|(name, ..)| *name == topic)
        .map(|(_, words, _)| *words)
}

/// The screen.
pub fn screen(app: &App) -> Markup {
    page(
        "Pegline",
        &app.day_words(),
        &Route::Ask,
        &html! {
            h1 { "Ask at the bed" }
            (app.notices())
            ul.rows {
                @for (topic, words, more) in QUESTIONS {
                    li {
                        a href=(Route::Question { topic: topic.to_owned(), bed: None }.address()) {
                            (words) small { (more) }
                        }
                    }
                }
                li { (super::cold::link()) }
            }
            @if app.is_empty() {
                h2 { "Nothing is set up yet" }
                p { "Every question works without. Lay out a bed once and its shape is filled in for you." }
                a.act.quiet href=(Route::NewBed.address()) { "Lay out a bed" }
                button.plain type="button" data-action="demo" { "Look round an invented garden first" }
            }
            p { a.plain href=(Route::Settings.address()) { "Settings: units and place" } }
        },
    )
}
