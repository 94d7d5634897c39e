//! Starts: the trays, most urgent first; one tray; a tray that was sown.

use maud::{Markup, html};
use pegline_core::{
    record::trays::{self, TrayNow},
    text,
    topics::hardening_plan::PlanDay,
};

use super::{
    book,
    form::{
        self,
        parts::{declared, one as field, plain},
    },
    question,
};
use crate::{
    part::{Field, Kind, fault_summary, page},
    route::Route,
    state::App,
};

/// The list.
pub fn screen(app: &App) -> Markup {
    let trays = trays::trays(&app.trays_today());
    let used_up: Vec<_> = app.garden().starts.iter().filter(|start| !start.is_growing()).collect();
    page(
        "Starts",
        &app.day_words(),
        &Route::Starts,
        &html! {
            h1 { "Starts" }
            (app.notices())
            @if trays.is_empty() { p { "No tray is growing. Write one down, and its true age and its limit are kept for you." } }
            @else { p { "Most urgent first." } }
            ul.rows { @for tray in &trays { li { (row(tray)) } } }
            a.act href=(Route::NewStart.address()) { "I sowed a tray" }
            @if !used_up.is_empty() {
                details {
                    summary { "Planted, lost or given away: " (used_up.len()) }
                    ul.rows { @for start in used_up { li { a href=(to(&start.id.to_string())) { (trays::name(start)) } } } }
                }
            }
            @if app.is_new() {
                button.plain type="button" data-action="demo" { "See a sample garden" }
            }
        },
    )
}

fn to(id: &str) -> String {
    Route::Start(id.to_owned()).address()
}

/// One tray in the list: what it is, its age against its limit, what waiting costs, its day outdoors.
fn row(tray: &TrayNow<'_>) -> Markup {
    let id = tray.start.id.to_string();
    html! {
        a class=[tray.urgent.then_some("due")] href=(to(&id)) {
            (tray.name)
            small { (tray.holds) }
            small { b { (tray.line) } }
            @if !tray.waiting.is_empty() { small { (tray.waiting) } }
            @if let Some(outdoors) = &tray.outdoors { small { (outdoors.words) } }
        }
        @if tray.outdoors.as_ref().is_some_and(|outdoors| outdoors.done_today.is_some()) { (done_today(&id)) }
    }
}

fn done_today(id: &str) -> Markup {
    html! {
        button.act.quiet type="button" data-action=(format!("outdoors:{id}")) { "Today’s hours outdoors: done" }
    }
}

/// One tray.
pub fn one(app: &App, id: &str) -> Markup {
    let asking = app.trays_today();
    let Some(tray) = app.start(id).and_then(|start| trays::tray(start.id, &asking)) else {
        return screen(app);
    };
    let start = tray.start;
    let answer = app.asked("start-age", &[("tray", id)]).filter(|_| start.is_growing());
    page(
        &tray.name,
        "",
        app.route(),
        &html! {
            (app.notices())
            @match &answer {
                Some(answer) => (question::verdict(answer)),
                None => h1 { (tray.name) },
            }
            p { (text::capital(&tray.holds)) }
            @if answer.is_none() && start.is_growing() { p { (tray.line) } }
            @if start.is_growing() {
                (outdoors(app, &tray, id))
                (planted(id))
                (roots(id))
            }
            @if let Some(answer) = &answer { (question::told(answer)) }
            @if start.is_growing() {
                @let advice = trays::advice(start, &asking);
                @if !advice.is_empty() {
                    h2 { "What to decide" }
                    dl.told { @for (title, words) in &advice { dt { (title) } dd { (words) } } }
                }
                (forms(app, id))
            }
            @if let Some(answer) = &answer { (question::sources(answer)) }
            h2 { "Its record" }
            (book::list(app, &app.garden().happened_to(start.id).collect::<Vec<_>>()))
            p { button.plain type="button" data-action="print" { "Print this page" } }
        },
    )
}

/// How far it is used to outdoors, and today's tap.
fn outdoors(app: &App, tray: &TrayNow<'_>, id: &str) -> Markup {
    let plan = Route::OfStart { topic: "hardening-plan".to_owned(), start: id.to_owned() };
    html! {
        h2 { "Getting used to outdoors" }
        @match &tray.outdoors {
            None => a.act.quiet href=(plan.address()) { "Plan its days outdoors" },
            Some(outdoors) => {
                p { (outdoors.words) "." }
                @if outdoors.done_today.is_some() { (done_today(id)) }
                p { a.plain href=(plan.address()) { "The days to come" } }
            }
        }
        @if tray.outdoors.is_some() {
            (written(app, id, "day", "Something else was done", "Write it down", &html! {
                div.pair {
                    (plain(app, "day.hours"))
                    (plain(app, "day.night"))
                }
                (form::tick(app, "day.damage", ["no", "yes"], Field::of(app.form(), "day.damage").label))
                (when(app, "day"))
            }))
        }
    }
}

fn planted(id: &str) -> Markup {
    let fits = Route::OfStart { topic: "plants-per-bed".to_owned(), start: id.to_owned() };
    html! {
        h2 { "Into a bed" }
        a.act.quiet href=(fits.address()) { "Where do they fit?" }
    }
}

/// What the roots look like, one tap each.
fn roots(id: &str) -> Markup {
    html! {
        h2 { "Slide a plug out. Its roots:" }
        div.pair {
            @for (word, words) in [("loose", "Crumbles"), ("holding", "Holds together"), ("circling", "Circling"), ("matted", "Root-bound")] {
                button.act.quiet type="button" data-action=(format!("rooted:{word}:{id}")) { (words) }
            }
        }
    }
}

/// Everything else that is written about a tray.
fn forms(app: &App, id: &str) -> Markup {
    html! {
        h2 { "Write down" }
        (written(app, id, "look", "Leaves, and what else you see", "Write it down", &form::looks(app)))
        (written(app, id, "pricked", "Moved into larger room", "Write it down", &html! {
            div.pair {
                (field(app, &Field { label: "How many now", example: "as before", ..Field::of(app.form(), "pricked.count") }))
                (declared(app, "pricked.container", "3 in pots", ""))
            }
            (when(app, "pricked"))
        }))
        (written(app, id, "moved", "Carried elsewhere", "Write it down", &html! {
            (plain(app, "moved.spot"))
            (when(app, "moved"))
        }))
        (written(app, id, "lost", "Lost, given away or composted", "Write it down", &html! {
            div.pair {
                (declared(app, "lost.count", "all", ""))
                (declared(app, "lost.why", "given away", ""))
            }
            (when(app, "lost"))
        }))
    }
}

/// A folded form of a tray's page.
fn written(app: &App, id: &str, done: &str, title: &str, button: &str, fields: &Markup) -> Markup {
    let action = format!("tray:{done}:{id}");
    let faulty = app.faults().iter().any(|fault| match fault.field.split_once('.') {
        Some(("when", form)) => form == done,
        Some((form, _)) => form == done,
        None => false,
    });
    html! {
        details open[faulty] {
            summary { (title) }
            @if faulty { (fault_summary(app.form(), app.faults())) }
            form data-action=(action) novalidate {
                (fields)
                button.act.quiet type="submit" data-action=(action) { (button) }
            }
        }
    }
}

/// Each form asks for its own moment.
fn when(app: &App, done: &str) -> Markup {
    let name = format!("when.{done}");
    let asked = Field::of(app.form(), &name);
    field(app, &Field { label: "When, if not now", kind: Kind::Moment, ..asked })
}

/// The form of a tray that was sown.
pub fn new(app: &App) -> Markup {
    page(
        "Starts",
        "",
        app.route(),
        &html! {
            h1 { "I sowed a tray" }
            (app.notices())
            (fault_summary(app.form(), app.faults()))
            form data-action="sow" novalidate {
                (form::crop_field(app, "sown.crop"))
                (plain(app, "sown.on"))
                (plain(app, "sown.spot"))
                div.pair {
                    (plain(app, "sown.count"))
                    (declared(app, "sown.container", "2 in cells", ""))
                    (plain(app, "sown.variety"))
                    (plain(app, "sown.name"))
                }
                details {
                    summary { "How they look" }
                    (declared(app, "look.roots", "not looked at", ""))
                    (form::looks(app))
                }
                details {
                    summary { "How warm it is kept" }
                    (plain(app, "sown.warmth"))
                    p { small { "Else a thermometer’s readings there count, or the usual air of the place." } }
                }
                button.act type="submit" data-action="sow" { "Save this tray" }
            }
        },
    )
}

/// So many days of a plan are shown unfolded.
const SHOWN_DAYS: usize = 4;

/// The days of a plan, today first.
pub fn days(app: &App, days: &[PlanDay]) -> Markup {
    let (first, rest) = days.split_at(days.len().min(SHOWN_DAYS));
    html! {
        @if !first.is_empty() { (list_of_days(app, first)) }
        @if !rest.is_empty() {
            details {
                summary { "The days after: " (rest.len()) }
                (list_of_days(app, rest))
            }
        }
    }
}

fn list_of_days(app: &App, days: &[PlanDay]) -> Markup {
    let today = app.now().today();
    html! {
        ol.rows {
            @for day in days {
                li { div.row {
                    (trays::day_title(day.date, today))
                    small { (day.told) }
                    small { "Water: " (day.water) }
                } }
            }
        }
    }
}
