//! Ask: what needs deciding, then the questions in the gardener's own words.

use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of},
    asking::Topic,
    text,
    today::{self, Due, Tick},
};

use crate::{draw::board, part::page, route::Route, state::App};

/// One question, in the gardener's own words.
pub struct Question {
    /// The topic's word.
    pub topic: &'static str,
    /// Its sign, in the sheet of `index.html`.
    pub sign: &'static str,
    /// What is asked.
    pub words: &'static str,
    /// What it takes, or what comes of it.
    pub more: &'static str,
    /// What it is asked of.
    pub of: About,
}

/// What a question is asked of.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// One bed.
    OneBed,
    /// One bed, or none in particular.
    MaybeBed,
    /// One bed or planting, or none in particular: the planting there that ripens.
    Ripening,
    /// One bed or sowing: the last sowing there.
    Sowing,
    /// No bed, or all of them.
    NoBed,
}

impl About {
    /// Whether a bed's page asks it too.
    pub fn is_at_a_bed(self) -> bool {
        matches!(self, Self::OneBed | Self::Sowing)
    }
}

/// The questions: those asked at the bed, of cold and warmth, of seed and starts, of picking.
pub const QUESTIONS: &[Question] = &[
    Question {
        topic: "plants-per-bed",
        sign: "#s-bed",
        words: "How many fit here?",
        more: "and where they go along the hose",
        of: About::OneBed,
    },
    Question {
        topic: "spacing-for-count",
        sign: "#s-span",
        words: "Squeeze them all in",
        more: "how close they must stand, at the widest",
        of: About::OneBed,
    },
    Question {
        topic: "residue-wait",
        sign: "#s-heap",
        words: "Plant here yet?",
        more: "chopped plants on it or dug in: when, or which way round",
        of: About::OneBed,
    },
    Question {
        topic: "harvest-readiness",
        sign: "#s-eye",
        words: "Is it ready?",
        more: "at its prime or past, and when to look again",
        of: About::Ripening,
    },
    Question {
        topic: "bed-quantities",
        sign: "#s-barrow",
        words: "How much to haul?",
        more: "compost, mulch, soil, cloves, sets, seed",
        of: About::OneBed,
    },
    Question {
        topic: "drip-run-time",
        sign: "#s-drip",
        words: "How long to water?",
        more: "by the hose, the crop and the season",
        of: About::OneBed,
    },
    Question {
        topic: "frost-tonight",
        sign: "#s-cover",
        words: "Cold tonight?",
        more: "each bed's low, and which beds get a sheet",
        of: About::NoBed,
    },
    Question {
        topic: "after-frost",
        sign: "#s-frost",
        words: "It froze: what now?",
        more: "leave it, pick it, cut it back or clear it away",
        of: About::NoBed,
    },
    Question {
        topic: "open-greenhouse",
        sign: "#s-frame",
        words: "Open the greenhouse?",
        more: "or the frame: by the sun, and what it adds to the air",
        of: About::NoBed,
    },
    Question {
        topic: "soil-temperature",
        sign: "#s-thermo",
        words: "How warm is the soil?",
        more: "by the season and your own readings",
        of: About::MaybeBed,
    },
    Question {
        topic: "day-length",
        sign: "#s-arc",
        words: "Long enough days?",
        more: "and when the short days begin and end",
        of: About::NoBed,
    },
    Question {
        topic: "sow-now",
        sign: "#s-seed",
        words: "Sow now?",
        more: "and how many seeds give enough plants",
        of: About::MaybeBed,
    },
    Question {
        topic: "emergence",
        sign: "#s-sprout",
        words: "Is it still coming up?",
        more: "or is it time to sow again",
        of: About::Sowing,
    },
    Question {
        topic: "start-age",
        sign: "#s-plug",
        words: "Trays too old?",
        more: "their true age, by warmth, leaves and roots",
        of: About::NoBed,
    },
    Question {
        topic: "hardening-plan",
        sign: "#s-out",
        words: "Used to outdoors?",
        more: "day by day or in one move, and when to plant",
        of: About::MaybeBed,
    },
    Question {
        topic: "garlic-window",
        sign: "#s-clove",
        words: "Garlic time?",
        more: "when, which bed, and how much of it",
        of: About::MaybeBed,
    },
    Question {
        topic: "harvest-before-away",
        sign: "#s-away",
        words: "Pick before I go?",
        more: "back in a few days: what overripens, what waits",
        of: About::NoBed,
    },
    Question {
        topic: "salt-for-fermenting",
        sign: "#s-jar",
        words: "Salt for the ferment?",
        more: "by weight, shredded or whole",
        of: About::NoBed,
    },
];

/// The question of a topic.
pub fn question(topic: &str) -> Option<&'static Question> {
    QUESTIONS.iter().find(|question| question.topic == topic)
}

/// So many things to decide are shown unfolded: the questions stay within reach.
const SHOWN: usize = 3;

/// What must be decided today; nothing where nothing is known yet.
fn due(app: &App) -> Markup {
    let Some(Answer { of: Of::Today(found), telling, .. }) = app.answer() else {
        return html! {};
    };
    if app.is_empty() {
        return html! {};
    }
    let today = app.now().today();
    let (first, rest) = found.due.split_at(found.due.len().min(SHOWN));
    let rows = |due: &[Due]| {
        html! {
            ul.rows {
                @for due in due {
                    li.due[due.by <= today] {
                        a href=(leads_to(due).address()) {
                            (due.what)
                            small { @if due.by != today { (due.by_told) ". " } (due.why) }
                        }
                        @if let Some(tick) = due.tick {
                            button.plain type="button" data-action=(action_of(tick, due)) aria-label=(format!("{}: {}", tick.told(), due.what)) { (tick.told()) }
                        }
                    }
                }
            }
        }
    };
    let more = rest.len() + found.more;
    html! {
        section id="today" {
            h2 { (telling.headline) }
            @if let Some(unread) = today::unread(app.garden()) {
                p { (unread) " " a href=(Route::Book.address()) { "See what is kept aside" } }
            }
            (rows(first))
            @if more > 0 {
                details {
                    summary { "And " (more) " more" }
                    (rows(rest))
                    @if found.more > 0 { p { small { (found.more) " are not listed." } } }
                }
            }
        }
    }
}

/// What was written here and can't be found any more, and what to do then.
fn lost(app: &App) -> Markup {
    let Some(was) = app.lost() else {
        return html! {};
    };
    let number = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    let were = number(was.entries);
    let left = number(app.entries());
    html! {
        div.notice id="lost" role="alert" {
            p {
                (if were == 1 { "There was " } else { "There were " }) (text::count(were, "entry", "entries")) " here; "
                @if left == 0 { "none" } @else { "only " (left) }
                " can be found now. The browser has cleared its storage, or can't read it any more."
            }
            p {
                @match was.copied {
                    Some(day) => { "A copy was last handed over on " (text::day(day, Some(app.now().today()))) ". " }
                    None => "If another phone has a copy: "
                }
                a href=(Route::Book.address()) { "Take the copy in" }
            }
            button.plain type="button" data-action="forget-lost" { "Go on without" }
        }
    }
}

/// What a tick writes.
fn action_of(tick: Tick, due: &Due) -> String {
    let about = match tick {
        Tick::AheadDone => &due.note,
        Tick::Outdoors => &due.start,
        Tick::CoversOff => &due.bed,
    };
    format!("{}:{}", tick.word(), about.as_deref().unwrap_or_default())
}

/// The question that tells more, filled in; else where it stands in the record.
fn leads_to(due: &Due) -> Route {
    let topic = due.topic.word().to_owned();
    let asks_no_bed = question(&topic).is_some_and(|question| question.of == About::NoBed);
    match (due.topic, &due.start, &due.bed) {
        (Topic::Today, Some(start), _) => Route::Start(start.clone()),
        (Topic::Today, None, Some(bed)) => Route::Bed(bed.clone()),
        (Topic::Today, None, None) => Route::Entry(due.note.clone().unwrap_or_default()),
        (_, Some(start), _) => Route::OfStart { topic, start: start.clone() },
        (_, None, bed) => Route::Question {
            topic,
            bed: due.planting.as_ref().or(bed.as_ref()).filter(|_| !asks_no_bed).cloned(),
        },
    }
}

/// The beds in small; each leads to its own page.
fn yard(app: &App) -> Markup {
    let today = app.now().today();
    html! {
        @let beds = app.beds();
        @if !beds.is_empty() {
            ul.yard {
                @for bed in beds {
                    li { a href=(Route::Bed(bed.id.clone()).address()) { (board(bed, today)) (bed.name) } }
                }
            }
        }
    }
}

/// The screen.
pub fn screen(app: &App) -> Markup {
    page(
        "Pegline",
        &app.day_words(),
        &Route::Ask,
        &html! {
            h1 { (TITLE) }
            (app.notices())
            (lost(app))
            (yard(app))
            (due(app))
            (all())
            @if app.is_new() {
                h2 { "Nothing is set up yet" }
                p { "Every question works without. Lay out a bed once and its shape is filled in for you." }
                a.act.quiet href=(Route::NewBed.address()) { "Lay out a bed" }
                button.plain type="button" data-action="demo" { "See a sample garden" }
            }
            (super::book::reminder(app))
            (settings())
        },
    )
}

/// What is true for all, whatever their record: shown while the app is on its way.
pub fn first() -> Markup {
    let body = html! { h1 { (TITLE) } (all()) (settings()) };
    page("Pegline", "Opening", &Route::Ask, &body)
}

const TITLE: &str = "Ask at the bed";

/// All questions, and what can be written down.
fn all() -> Markup {
    html! {
        ul.tiles {
            @for question in QUESTIONS {
                li { a href=(Route::Question { topic: question.topic.to_owned(), bed: None }.address()) {
                    svg.sign viewBox="0 0 24 24" aria-hidden="true" { use href=(question.sign) {} }
                    (question.words)
                } }
            }
        }
        h2 { "Write down" }
        ul.rows { li { (super::cold::link()) } }
    }
}

fn settings() -> Markup {
    html! { p { a.plain href=(Route::Settings.address()) { "Settings: units and place" } } }
}
