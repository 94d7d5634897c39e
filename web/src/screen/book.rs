//! Book: everything in order, what can't be read, copies out and in, one entry's correction.

use chrono::NaiveDate;
use maud::{Markup, html};
use pegline_core::{
    garden::Happened,
    journal::{Journal, line},
    record::{self, Meeting},
    text,
};

use crate::{
    part::{Field, Kind, fault_summary, field, page},
    route::Route,
    state::{App, TakingIn},
};

/// So many entries are shown at once, the newest first: some weeks of them.
pub const AT_ONCE: usize = 100;

/// The screen.
pub fn screen(app: &App) -> Markup {
    let wanted = text::small(app.form().text("search").trim());
    let all = app.garden().happened.iter();
    let happened: Vec<&Happened> = if wanted.is_empty() {
        all.rev().collect()
    } else {
        let words = app.words();
        let found = all.zip(words.iter()).rev();
        let found = found.filter(|(_, words)| text::parted(words, &wanted).is_some());
        found.map(|(it, _)| it).collect()
    };
    page(
        "Book",
        &app.day_words(),
        &Route::Book,
        &html! {
            h1 { "The record" }
            (app.notices())
            (taking_in(app))
            form data-action="search" data-live="paused" novalidate {
                (field(app.form(), app.faults(), app.system(), &Field { label: "Look for", example: "garlic", ..Field::of(app.form(), "search") }))
            }
            @if happened.is_empty() { p { @if !wanted.is_empty() { "Nothing of that is in the record." } @else if !app.is_empty() || app.is_new() { "Nothing is written yet." } } }
            (list(app, &happened))
            (undone(app))
            (set_aside(app))
            h2 { "Copies" }
            (copied(app))
            p { "The record lives on this phone only. A copy is a text file: keep one, or give it to the other phone of the household." }
            button.act type="button" data-action="hand-over" { "Share a copy" }
            @if let Some(copy) = app.copy() { div.field { label for="f-text" { "The copy as text" } textarea id="f-text" readonly rows="6" { (copy) } } }
            @if app.is_demo() { p { "Copies are taken in with your own garden; go back to it first." } }
            @else {
                div.field {
                    label for="f-copy" { "Open a copy" }
                    input id="f-copy" type="file" accept=".json,application/json,text/plain" data-action="copy";
                }
            }
            p { button.plain type="button" data-action="print" { "Print" } }
            p { (app.kept_words()) }
        },
    )
}

/// When a copy was last handed over.
fn copied(app: &App) -> Markup {
    html! {
        @match app.last_copy() {
            None => {}
            Some((None, _)) => p { "No copy was handed over from this phone yet." },
            Some((Some(day), since)) => p {
                "Last copy: " (text::day(day, Some(app.now().today()))) ", "
                @if since == 0 { "nothing written since that day." } @else { (text::count(since, "entry", "entries")) " since that day." }
            },
        }
    }
}

/// So many entries without a copy are worth a word, where the last copy is so many days old.
const WORTH_A_COPY: (u32, i64) = (30, 30);

/// A word that a copy would be good, on the first screen.
pub fn reminder(app: &App) -> Markup {
    let (entries, days) = WORTH_A_COPY;
    let today = app.now().today();
    let is_old = |day: NaiveDate| (today - day).num_days() >= days;
    let due = app.last_copy().filter(|(day, since)| *since >= entries && day.is_none_or(is_old));
    html! {
        @if let Some((day, since)) = due {
            p { small {
                @match day {
                    Some(day) => { "Last copy: " (text::day(day, Some(today))) ", " (since) " entries since. " },
                    None => { (since) " entries are on this phone only. " }
                }
                a href=(Route::Book.address()) { "Share a copy" }
            } }
        }
    }
}

/// What a copy would add, before it does.
fn taking_in(app: &App) -> Markup {
    html! {
        @match app.taking_in() {
            None => {}
            Some(Err(why)) => div.notice role="alert" { (why) button.plain type="button" data-action="not-in" { "Cancel" } },
            Some(Ok(TakingIn { journal: other, meeting, .. })) => {
                @let adds = app.journal().adds(other);
                @let count = |number: usize| text::count(u32::try_from(number).unwrap_or(u32::MAX), "entry", "entries");
                div.notice role="alert" {
                    p { "This copy adds " (count(adds.new.len())) "; " (count(adds.known)) " are here already." }
                    @if !adds.twins.is_empty() { p { (count(adds.twins.len())) " differ from what is here; both are kept and shown." } }
                    @if adds.strays > 0 { p { (count(adds.strays)) " can't be read; they are kept aside." } }
                    (met(meeting))
                    button.act type="button" data-action="take-in" { "Take it in" }
                    button.plain type="button" data-action="not-in" { "Cancel" }
                }
            }
        }
    }
}

/// What both records tell of, and whether it is one.
fn met(meeting: &Meeting) -> Markup {
    html! {
        @for (at, beds) in meeting.beds.iter().enumerate() {
            div.row id=(format!("beds-{at}")) {
                p {
                    (beds.told) " "
                    @if beds.is_one { "They become one bed." }
                    @else { "They stay two beds; the one laid out later is then called “" (beds.renamed) "”." }
                }
                button.plain type="button" data-action=(format!("join-beds:{at}")) { @if beds.is_one { "They are two beds" } @else { "It is one bed" } }
            }
        }
        @for (at, plantings) in meeting.offered() {
            div.row id=(format!("plantings-{at}")) {
                p { "Noted by both: " (plantings.told) ". " @if plantings.is_one { "It counts once." } @else { "It counts twice." } }
                button.plain type="button" data-action=(format!("join-plantings:{at}")) { @if plantings.is_one { "They are two plantings" } @else { "It is one planting" } }
            }
        }
    }
}

/// What was undone, each to be brought back.
fn undone(app: &App) -> Markup {
    let undone = record::undone(app.journal(), app.garden());
    let today = app.now().today();
    html! {
        @if !undone.is_empty() {
            details id="undone" {
                summary { "Undone (" (undone.len()) ")" }
                p { "They stay in every copy, and don’t count." }
                ul.rows {
                    @for entry in &undone {
                        li id=(format!("e-{}", entry.id)) { div.row {
                            (record::says(&entry.about, &entry.what, app.garden()))
                            small {
                                (text::day(entry.when.date(), Some(today)))
                                @if app.garden().corrected_later.contains(&entry.id) { ". It was corrected after it was undone: bring it back if it should count" }
                            }
                            button.plain type="button" data-action=(format!("bring-back:{}", entry.id)) { "Bring it back" }
                        } }
                    }
                }
            }
        }
    }
}

/// What the record keeps though it can't be read.
fn set_aside(app: &App) -> Markup {
    let journal = app.journal();
    let unread: Vec<(String, String)> = journal
        .unread()
        .map(|(_, text, why)| (why.to_string(), text.to_owned()))
        .chain(journal.strays().map(|stray| (stray.why().to_string(), stray.text.clone())))
        .chain(journal.twins().filter(|twin| !twin.same_meaning).map(|twin| {
            ("another text of the same entry counts".to_owned(), twin.set_aside.to_owned())
        }))
        .collect();
    html! {
        @if !unread.is_empty() {
            details {
                summary { "Set aside: " (unread.len()) }
                p { "Kept as they are and handed over with every copy." }
                ul.rows { @for (why, text) in &unread { li { div.row { (text::capital(why)) small { (text) } } } } }
            }
        }
    }
}

/// Entries, newest first; older ones are asked for.
pub fn list(app: &App, happened: &[&Happened]) -> Markup {
    let today = app.now().today();
    let shown = happened.len().min(AT_ONCE + app.older());
    html! {
        ul.rows id="entries" {
            @for it in happened.iter().take(shown) {
                @let id = it.entry.id.to_string();
                li id=(format!("e-{id}")) { a href=(Route::Entry(id).address()) {
                    (words(app, it))
                    small {
                        (text::day(it.entry.when.date(), Some(today)))
                        @if app.garden().corrections(it.entry.id).is_some() { ", corrected" }
                    }
                } }
            }
        }
        @if happened.len() > shown {
            button.plain id="older" type="button" data-action="older" { "Older: " (happened.len() - shown) " more" }
        }
    }
}

fn words(app: &App, it: &Happened) -> String {
    record::says(&it.entry.about, &it.entry.what, app.garden())
}

/// One entry: what it says, its correction, its undoing.
pub fn entry(app: &App, id: &str) -> Markup {
    let Some(entry) = app.entry(id) else {
        return screen(app);
    };
    let (form, faults, system) = (app.form(), app.faults(), app.system());
    let action = format!("correct:{id}");
    page(
        "Book",
        "",
        app.route(),
        &html! {
            h1 { (record::says(&entry.about, &entry.what, app.garden())) }
            (app.notices())
            @for said in record::gave_way(entry, app.garden()) { p { (said) } }
            (fault_summary(form, faults))
            form data-action=(action) novalidate {
                (field(form, faults, system, &Field { label: "When it happened", kind: Kind::Moment, ..Field::of(form, "when") }))
                @for name in record::correctable(&entry.what) {
                    (field(form, faults, system, &Field::of(form, &format!("what.{name}"))))
                }
                button.act type="submit" data-action=(action) { "Correct it" }
            }
            p { "The entry as it was stays in the record; the correction is written beside it." }
            @for goes in record::goes_with(entry, app.journal(), app.garden()) { p { small { "If it is undone: " (goes) } } }
            button.plain type="button" data-action=(format!("strike:{id}")) { "Undo this entry" }
        },
    )
}

/// The lines a copy adds to the phone's storage.
pub fn lines_to_add(own: &Journal, other: &Journal) -> Vec<(String, String)> {
    let adds = own.adds(other);
    let held = adds.new.iter().chain(&adds.twins).filter_map(|id| Some((*id, other.get(*id)?)));
    let entries = held.flat_map(|(id, held)| {
        held.texts().enumerate().filter_map(move |(at, text)| {
            if own.get(id).is_some_and(|own| own.texts().any(|known| known == text)) {
                return None;
            }
            let [first, second] = line::keys(id, text);
            // A damaged line stays where it lies.
            let lies_there = own.strays().any(|stray| stray.key == first);
            let taken = own.get(id).is_some() || at > 0 || lies_there;
            Some((if taken { second } else { first }, line::encode(text)))
        })
    });
    let known: Vec<_> = own.strays().collect();
    let strays = other.strays().filter(|stray| !known.contains(stray)).map(line::stray_line);
    entries.chain(strays).collect()
}
