//! Ready, at its prime or past: the few questions that tell most, one tap each, and what was picked.
//!
//! Answers are buttons, not radio buttons: an arrow key on a radio button chooses at once, and the
//! question would close under the finger.

use chrono::NaiveDate;
use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, Of},
    garden::Garden,
    harvest::{
        at_bed::{AtBed, Ripening, ToAsk, at_bed, measure_words, ripening},
        picked::counted_in,
        stage::Stage,
    },
    journal::id::read_id,
    record,
    telling::Sure,
    text::capital,
    topics::harvest_readiness,
};

use super::parts::{bed_choice, crop, declared, one, place_if_unknown, plain, when};
use crate::{
    app::App,
    forms::Form,
    part::{Field, Kind, control_id},
};

/// How many plantings are offered by a tap before the rest is folded away.
const ROWS: usize = 8;

/// The form of a question asked at a bed or of one planting, as the garden fills it in.
pub fn fresh(form: &mut Form, garden: &Garden, about: Option<&str>, today: NaiveDate) {
    let planting = about
        .and_then(read_id)
        .and_then(|id| garden.planting(id))
        .map(|(bed, planting)| (bed.id.as_str(), planting.id));
    let grows = ripening(garden, about, today);
    let only = match grows.as_slice() {
        [only] => Some((only.bed.id.as_str(), only.planting.id)),
        _ => None,
    };
    match planting.or(only) {
        Some((bed, planting)) => {
            form.set("bed", bed);
            form.set("planting", &planting.to_string());
        }
        None => form.set("bed", about.unwrap_or_default()),
    }
}

/// The fields that mean something else once this one has changed.
pub fn forgets(name: &str) -> &'static [&'static str] {
    const SEEN: [&str; 6] = ["cues", "counted", "measures", "flowered", "purpose", "entry"];
    const ANOTHER: [&str; 8] =
        ["bed", "crop", "cues", "counted", "measures", "flowered", "purpose", "entry"];
    match name {
        "planting" => &ANOTHER,
        "crop" => &SEEN,
        "back_in" => &["back_on"],
        "purpose" => &["cues", "counted", "measures", "flowered"],
        _ => &[],
    }
}

/// Is it ready?
pub(super) fn ready(app: &App) -> Markup {
    let form = app.form();
    let grown = read_id(form.text("planting")).and_then(|id| app.garden().planting(id));
    let name = grown.map_or_else(|| form.text("crop"), |(_, planting)| planting.crop.as_str());
    let sure = app.answer().is_some_and(|answer| answer.telling.sure == Sure::High);
    let chosen = |place: usize| {
        let name = format!("cues.{place}");
        form.has(&name).then(|| form.text(&name).to_owned())
    };
    let asked = at_bed(name, form.text("purpose"), &chosen, sure);
    html! {
        (which(app, name))
        @if let Some(asked) = &asked {
            @if asked.purposes.len() > 1 { (purposes(asked)) }
            (stops(app, asked))
            @for question in &asked.questions { (ask(question)) }
            (more(app, asked))
            (several(app, asked))
        }
        (visits(app))
    }
}

/// Which planting, or which crop.
fn which(app: &App, name: &str) -> Markup {
    let form = app.form();
    let planting = form.text("planting");
    let bed = Some(form.text("bed")).filter(|bed| !bed.is_empty());
    let all = ripening(app.garden(), None, app.now().today());
    let is_it = |it: &&Ripening<'_>| it.planting.id.to_string() == planting;
    let known = all.iter().find(is_it).map(|it| it.bed.id.as_str());
    // The bed's name stands on top of the page already.
    let alone = ripening(app.garden(), known.or(Some("")), app.now().today());
    let here: Vec<_> = all.iter().filter(|it| bed.is_none_or(|bed| it.bed.id == bed)).collect();
    let (first, rest) = here.split_at(here.len().min(ROWS));
    let rows = |some: &[&Ripening<'_>]| {
        html! {
            @for it in some {
                (answer_button(&format!("planting={}", it.planting.id), &capital(&it.words), false))
            }
        }
    };
    html! {
        input type="hidden" name="planting" value=(planting);
        @if let Some(it) = alone.iter().find(is_it) {
            input type="hidden" name="bed" value=(it.bed.id);
            p.which { (capital(&it.words)) " " button.plain type="button" data-action="choose:planting=" { "Another" } }
        } @else {
            @if name.is_empty() && !first.is_empty() {
                h2 { "Which?" }
                div.answers { (rows(first)) }
                @if !rest.is_empty() { details { summary { "More of them" } div.answers { (rows(rest)) } } }
            }
            div.pair {
                (crop(app, "crop"))
                (bed_choice(app, "None of these"))
            }
        }
    }
}

/// What it is grown for.
fn purposes(asked: &AtBed) -> Markup {
    html! {
        div.choice role="group" aria-label="Grown for" {
            @for purpose in &asked.purposes {
                (answer_button(&format!("purpose={purpose}"), purpose, asked.purpose == Some(*purpose)))
            }
        }
        input type="hidden" name="purpose" value=[asked.purpose];
    }
}

/// Signs that end the question, first and by themselves.
fn stops(app: &App, asked: &AtBed) -> Markup {
    let form = app.form();
    let seen = |place: usize| !form.text(&format!("cues.{place}")).is_empty();
    let any = asked.stops.iter().any(|(place, _)| seen(*place));
    let words: Vec<&str> = asked.stops.iter().map(|(_, stop)| stop.say()).collect();
    let rows = html! {
        div.answers {
            @for (place, stop) in &asked.stops {
                @let is = seen(*place);
                input type="hidden" name=(format!("cues.{place}")) value=(if is { stop.id() } else { "" });
                (answer_button(&format!("cues.{place}={}", if is { "" } else { stop.id() }), &capital(stop.say()), is))
            }
        }
    };
    html! {
        @if any {
            section.warn { h2 { "Stop" } (rows) }
        } @else if !asked.stops.is_empty() {
            details.stops id="stops" {
                summary { "Stop if: " span { (words.join("; ")) } }
                (rows)
            }
        }
    }
}

/// One question: its answers as rows, or, once it is answered, one line that opens them again.
fn ask(asked: &ToAsk) -> Markup {
    let (place, question) = (asked.place, asked.question);
    let said = asked.sign.map_or("", |sign| sign.id());
    let rows = html! {
        div.answers {
            @for sign in question.signs() {
                (answer_button(&format!("cues.{place}={}", sign.id()), &capital(sign.say()), sign.id() == said))
            }
            (answer_button(&format!("cues.{place}="), "Can't tell", asked.is_answered && asked.sign.is_none()))
        }
    };
    html! {
        @if asked.is_answered {
            input type="hidden" name=(format!("cues.{place}")) value=(said);
            details.answered id=(format!("told-{place}")) {
                summary { (question.say()) (if question.say().ends_with('?') { " " } else { ": " }) b { (asked.sign.map_or("can't tell", |sign| sign.say())) } }
                (rows)
            }
        } @else {
            section.ask id=(format!("ask-{place}")) role="group" aria-labelledby=(format!("ask-{place}-words")) {
                h2 id=(format!("ask-{place}-words")) { (question.say()) }
                (rows)
            }
        }
    }
}

/// What tells less: further signs, sizes, ages.
fn more(app: &App, asked: &AtBed) -> Markup {
    html! {
        @if !asked.more.is_empty() {
            details id="more-signs" {
                summary { "More signs" }
                @for question in &asked.more { (ask(question)) }
            }
        }
        @if !asked.sizes.is_empty() || asked.flower.is_some() {
            details id="sizes" {
                summary { @if asked.sizes.is_empty() { "Its age" } @else { "Size and age" } }
                div.pair {
                    @for size in asked.sizes {
                        @let name = format!("measures.{}", size.what().word());
                        (one(app, &Field { label: &measure_words(size), ..Field::of(app.form(), &name) }))
                    }
                }
                @if let Some(flower) = asked.flower { (one(app, &Field { label: flower, ..Field::of(app.form(), "flowered") })) }
                @if app.form().text("planting").is_empty() {
                    (plain(app, "sown"))
                    (plain(app, "transplanted"))
                }
                p { small { "Sizes depend on the variety: what the packet says comes first." } }
            }
        }
    }
}

/// Several looked at: how many of each, one tap each.
fn several(app: &App, asked: &AtBed) -> Markup {
    let mut at = 0_usize;
    let mut row = |sign: &str, words: &str| {
        let name = format!("counted.{at}.count");
        let cue = format!("counted.{at}.cue");
        at += 1;
        html! {
            div.count {
                label for=(control_id(&name)) { (capital(words)) }
                input type="hidden" name=(cue) value=(sign);
                button type="button" data-action=(format!("less:{name}")) aria-label=(format!("One less: {words}")) { "−" }
                input id=(control_id(&name)) name=(name) type="text" inputmode="numeric" autocomplete="off" value=(app.form().text(&name)) placeholder="0";
                button type="button" data-action=(format!("more:{name}")) aria-label=(format!("One more: {words}")) { "+" }
            }
        }
    };
    // In the order of the table, since a count stays with its place.
    let all = || asked.questions.iter().chain(&asked.more);
    let in_table = (0..all().count()).filter_map(|place| all().find(|asked| asked.place == place));
    html! {
        details id="several" {
            summary { "Several " (asked.many) ": count them" }
            p { small { "One tap for each you look at. One sign each is enough." } }
            @for question in in_table {
                h2 { (question.question.say()) }
                @for sign in question.question.signs() { (row(sign.id(), sign.say())) }
            }
        }
    }
}

/// What is to come: the next visit, a frost; and the place where it is not known.
fn visits(app: &App) -> Markup {
    html! {
        details id="to-come" {
            summary { "When are you back? Is frost ahead?" }
            (plain(app, "next_visit"))
            (plain(app, "frost"))
            (place_if_unknown(app))
        }
    }
}

/// A row that answers with one tap.
pub(super) fn answer_button(choice: &str, words: &str, is_chosen: bool) -> Markup {
    html! {
        button.answer type="button" data-action=(format!("choose:{choice}")) aria-pressed=(if is_chosen { "true" } else { "false" }) {
            (words)
        }
    }
}

// ---- The answer ----

/// The four stages in a row, those still possible standing out, and how many are at each.
pub fn stages(found: &harvest_readiness::Answer) -> Markup {
    let tally = found.tally.as_ref();
    let counts = tally.map(|tally| [tally.not_yet, tally.prime, tally.going, tally.past]);
    html! {
        @if !found.allowed.is_empty() && (found.stage.is_some() || found.clash.is_some()) {
            ol.stages aria-label="Stages" {
                @for (at, stage) in Stage::ALL.iter().enumerate() {
                    li.may[found.allowed.contains(stage)] aria-current=[(found.stage == Some(*stage)).then_some("true")] {
                        @if let Some(number) = counts.and_then(|counts| counts.get(at).copied()) { b { (number) " " } }
                        (stage.said())
                    }
                }
            }
        }
    }
}

/// What can hurt whoever eats it, before the questions: the first in full, the rest a tap away.
pub fn before_eating(answer: &Answer) -> Markup {
    let Some((first, rest)) = answer.telling.cautions.split_first() else {
        return html! {};
    };
    html! {
        section.warn id="before-eating" aria-label="Before you eat it" {
            p { (first) }
            @if !rest.is_empty() {
                details id="more-before-eating" {
                    summary { "Before you eat it: " (rest.len()) " more" }
                    @for caution in rest { p { (caution) } }
                }
            }
        }
    }
}

/// What it is good for, how it keeps, its heat.
pub fn uses(answer: &Answer) -> Markup {
    let Of::HarvestReadiness(found) = &answer.of else {
        return html! {};
    };
    let told = |words: &str| answer.telling.because.iter().any(|line| line.starts_with(words));
    let keeps: Vec<&str> =
        found.keeps.iter().map(|keeps| keeps.words.as_str()).filter(|words| !told(words)).collect();
    html! {
        dl.told {
            @if !found.good_for.is_empty() && !told("Good for") {
                dt { "Good for" }
                dd { (capital(&found.good_for.join("; "))) }
            }
            @if !keeps.is_empty() {
                dt { "Once picked" }
                @for words in keeps { dd { (words) } }
            }
            @if let Some(heat) = &found.heat {
                dt { "Its age in heat" }
                dd { (heat.words) }
            }
        }
    }
}

/// Writing down what was picked.
pub fn picked(app: &App, answer: &Answer) -> Markup {
    let next = &answer.telling.next;
    let Some(draft) = next.first() else {
        return html! {};
    };
    let many = asked_many(app);
    let of = counted_in(many, app.system());
    let variety = match &draft.what {
        pegline_core::journal::What::Harvest(harvest) => harvest.variety.as_deref(),
        _ => None,
    };
    html! {
        form id="picked" data-action="picked" novalidate {
            h2 { "Picked some?" }
            div.pair {
                (declared(app, "entry.number", "1", ""))
                (one(app, &Field { kind: Kind::Choice(&of), ..Field::of(app.form(), "entry.of") }))
            }
            details {
                summary { "Variety, and when" }
                (declared(app, "entry.variety", variety.unwrap_or(""), ""))
                (when(app, "when", "Left empty, it is written as picked now."))
            }
            button.act type="submit" data-action="picked" { (record::offer(std::slice::from_ref(draft), app.garden())) }
            button.act.quiet type="submit" data-action="picked:all" { "Picked everything" }
            @if next.len() > 1 { button.act.quiet type="submit" data-action="picked:look" { "Only looked" } }
        }
    }
}

/// What is looked at: many ("pods").
fn asked_many(app: &App) -> &'static str {
    let form = app.form();
    let grown = read_id(form.text("planting")).and_then(|id| app.garden().planting(id));
    let name = grown.map_or_else(|| form.text("crop"), |(_, planting)| planting.crop.as_str());
    at_bed(name, form.text("purpose"), &|_| None, true).map_or("pieces", |asked| asked.many)
}
