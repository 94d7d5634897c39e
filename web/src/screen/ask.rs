//! Ask: what needs deciding, then the questions in the gardener's own words.

use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of},
    asking::Topic,
    text,
    today::{self, Due, Tick},
};

use crate::{part::page, route::Route, state::App};

/// One question, in the gardener's own words.
pub struct Question {
    /// The topic's word.
    pub topic: &'static str,
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
    /// One bed: its own page asks it too.
    OneBed,
    /// One bed, or none in particular.
    MaybeBed,
    /// No bed, or all of them.
    NoBed,
}

/// The questions, under the words that hold them together.
pub const GROUPS: &[(&str, &[Question])] = &[
    (
        "At the bed",
        &[
            Question {
                topic: "plants-per-bed",
                words: "How many fit here?",
                more: "and where they go along the hose",
                of: About::OneBed,
            },
            Question {
                topic: "spacing-for-count",
                words: "They all must go in: how close?",
                more: "the widest space that still takes them",
                of: About::OneBed,
            },
            Question {
                topic: "residue-wait",
                words: "Can I plant into this yet?",
                more: "chopped plants on it or dug in: when, or which way round",
                of: About::OneBed,
            },
            Question {
                topic: "harvest-readiness",
                words: "Is it ready?",
                more: "at its prime or past, and when to look again",
                of: About::MaybeBed,
            },
            Question {
                topic: "bed-quantities",
                words: "How much do I haul or buy?",
                more: "compost, mulch, soil, cloves, sets, seed",
                of: About::OneBed,
            },
            Question {
                topic: "drip-run-time",
                words: "How long do I run the drip?",
                more: "by the hose, the crop and the season",
                of: About::OneBed,
            },
        ],
    ),
    (
        "Cold and warmth",
        &[
            Question {
                topic: "frost-tonight",
                words: "What do I cover tonight?",
                more: "each bed's low, and which beds get a sheet",
                of: About::NoBed,
            },
            Question {
                topic: "open-greenhouse",
                words: "Do I open the greenhouse?",
                more: "or the frame: by the sun, and what it adds to the air",
                of: About::NoBed,
            },
            Question {
                topic: "soil-temperature",
                words: "How warm is the soil?",
                more: "by the season and your own readings",
                of: About::MaybeBed,
            },
            Question {
                topic: "day-length",
                words: "Is the day long enough to grow?",
                more: "and when the short days begin and end",
                of: About::NoBed,
            },
        ],
    ),
    (
        "Seed and starts",
        &[
            Question {
                topic: "sow-now",
                words: "Do I sow now?",
                more: "and how many seeds give enough plants",
                of: About::MaybeBed,
            },
            Question {
                topic: "what-fits-when",
                words: "What can still go in?",
                more: "and be picked: by its last day, and what stands the winter",
                of: About::MaybeBed,
            },
            Question {
                topic: "emergence",
                words: "Is it still coming up?",
                more: "or is it time to sow again",
                of: About::OneBed,
            },
            Question {
                topic: "start-age",
                words: "Are these starts getting too old?",
                more: "their true age, by warmth, leaves and roots",
                of: About::NoBed,
            },
            Question {
                topic: "hardening-plan",
                words: "How do they get used to outdoors?",
                more: "day by day or in one move, and when to plant",
                of: About::MaybeBed,
            },
            Question {
                topic: "garlic-window",
                words: "Is it garlic time?",
                more: "when, which bed, and how much of it",
                of: About::MaybeBed,
            },
        ],
    ),
    (
        "Picking",
        &[
            Question {
                topic: "harvest-before-away",
                words: "What do I pick before I go?",
                more: "back in a few days: what overripens, what waits",
                of: About::NoBed,
            },
            Question {
                topic: "salt-for-fermenting",
                words: "How much salt for the ferment?",
                more: "by weight, shredded or whole",
                of: About::NoBed,
            },
        ],
    ),
];

/// All questions.
pub fn questions() -> impl Iterator<Item = &'static Question> {
    GROUPS.iter().flat_map(|(_, questions)| *questions)
}

/// The question of a topic.
pub fn question(topic: &str) -> Option<&'static Question> {
    questions().find(|question| question.topic == topic)
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

/// The screen.
pub fn screen(app: &App) -> Markup {
    page(
        "Pegline",
        &app.day_words(),
        &Route::Ask,
        &html! {
            h1 { "Ask at the bed" }
            (app.notices())
            (lost(app))
            (due(app))
            @for (group, questions) in GROUPS {
                h2 { (group) }
                ul.rows {
                    @for question in *questions {
                        li { a href=(Route::Question { topic: question.topic.to_owned(), bed: None }.address()) { (question.words) small { (question.more) } } }
                    }
                }
            }
            h2 { "Write down" }
            ul.rows { li { (super::cold::link()) } }
            @if app.is_new() {
                h2 { "Nothing is set up yet" }
                p { "Every question works without. Lay out a bed once and its shape is filled in for you." }
                a.act.quiet href=(Route::NewBed.address()) { "Lay out a bed" }
                button.plain type="button" data-action="demo" { "Look round an invented garden first" }
            }
            p { a.plain href=(Route::Settings.address()) { "Settings: units and place" } }
        },
    )
}
