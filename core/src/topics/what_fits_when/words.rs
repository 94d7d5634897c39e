//! What is told.

use chrono::NaiveDate;

use super::{
    answer::{Answer, Can, How, Verdict},
    kept_out::KeptOut,
    question::Question,
};
use crate::{
    asking::Asking,
    catalogue::{self, Crop},
    journal::{About, Draft, What, details},
    quantity::number::show_number,
    source::Source,
    telling::{Sure, Telling},
    text::{count, day, list, small},
};

/// So likely spared, frost is not spoken of.
const SURE: f64 = 0.95;
/// So many crops are named in a line.
const MOST_NAMED: usize = 5;
/// Within so many days a last day presses.
const SOON_DAYS: i64 = 14;

/// "Sow by 12 Aug; first picked about 30 Sep (22 Sep to 12 Oct)".
pub(super) fn row(can: &Can, asking: &Asking<'_>) -> String {
    let on = |date| day(date, asking.today);
    let how = match can.how {
        How::Sow => "sow",
        How::SetOut => "set out",
    };
    let mut told = match can.last_day {
        Some(last) if can.verdict == Verdict::Gamble => format!("a gamble: {how} by {}", on(last)),
        Some(last) => format!("{how} by {}", on(last)),
        None if can.verdict == Verdict::Gamble => format!("a gamble: {how} on any day"),
        None => format!("{how} on any day of the year"),
    };
    if let Some(likely) = can.picked.likely {
        told.push_str(&format!("; first picked about {}", on(likely)));
        told.push_str(&match (can.picked.early, can.picked.late) {
            (Some(early), Some(late)) => format!(" ({} to {})", on(early), on(late)),
            (Some(early), None) => format!(" ({} at best, slow kinds not in time)", on(early)),
            _ => String::new(),
        });
    }
    if can.alive < SURE {
        let years = show_number(can.alive * 10.0, 0);
        told.push_str(&format!("; frost spares it {years} years in 10"));
    }
    if can.stands_through_winter {
        told.push_str("; stands through the winter");
    }
    if let Some(year) = can.rests_until {
        told.push_str(&format!("; its kin stood here: another bed until {year}"));
    }
    told
}

pub(super) fn tell(
    answer: &Answer,
    question: &Question,
    out: &[(&Crop, KeptOut)],
    asking: &Asking<'_>,
) -> Telling {
    let sure = if question.soil.extremes_only { Sure::Low } else { Sure::Fair };
    let mut telling = Telling::new(headline(answer, question, asking), sure);
    let lines = [
        kept_out(out),
        named(answer, "A gamble", &|can| can.verdict == Verdict::Gamble),
        named(answer, "To stand through the winter", &|can| can.stands_through_winter),
        named(answer, "Its kin stood here lately, so better elsewhere", &|can| {
            can.rests_until.is_some()
        }),
        still_there(question, asking),
        before_what_it_is_kept_for(answer, question, asking),
    ];
    telling.because = lines.into_iter().flatten().take(4).collect();
    telling.look_for.push(
        "Each last day is one by which the quickest kinds still crop; a cold frame or a fleece adds a week or two."
            .to_owned(),
    );
    telling.look_for.push(
        "Not in it: water, feeding, pests, walls and snow. Where summers are hot, pests and rot end more than heat does."
            .to_owned(),
    );
    if answer.not_known > 0 {
        telling.look_for.push(format!(
            "{} not told of, as the warmth they need is not known here; garlic has a question of its own.",
            count(answer.not_known, "crop is", "crops are")
        ));
    }
    telling.next = kept(answer, question, asking);
    telling.source(Source::GrowthSums);
    telling.source(Source::SeasonNights);
    telling.source(Source::HarringtonMinges1954);
    telling.source(Source::CommonPractice);
    telling
}

fn headline(answer: &Answer, question: &Question, asking: &Asking<'_>) -> String {
    let on = |date| day(date, asking.today);
    let mut crops: Vec<&str> = answer.can.iter().map(|can| can.crop).collect();
    let mut different: Vec<&str> = Vec::new();
    for crop in crops.drain(..) {
        if !different.contains(&crop) {
            different.push(crop);
        }
    }
    let number = u32::try_from(different.len()).unwrap_or(u32::MAX);
    let told = match number {
        0 => return format!("Nothing known here can go in on {} and be picked", on(question.from)),
        number => count(number, "crop can go in", "crops can go in"),
    };
    if let Some((kept, from)) =
        kept_from(question, asking).and_then(|kept| Some((kept, kept.from?)))
        && !answer.can.iter().any(|can| is_before(can, from))
    {
        return format!(
            "Kept {}: nothing sown or set now is picked before",
            kept_told(kept, from, asking)
        );
    }
    let first = answer.can.iter().find(|can| can.verdict == Verdict::Yes);
    match first.and_then(|can| Some((can, can.last_day?))) {
        Some((can, last)) if (last - question.from).num_days() <= SOON_DAYS => {
            format!("{told}; most pressing: {}, by {}", small(can.name), on(last))
        }
        Some((can, last)) => {
            format!("{told}; first to close: {}, on {}", small(can.name), on(last))
        }
        None => told,
    }
}

/// "To stand through the winter: spinach, kale and 3 more."
fn named(answer: &Answer, what: &str, which: &dyn Fn(&Can) -> bool) -> Option<String> {
    let mut names: Vec<String> = Vec::new();
    for name in answer.can.iter().filter(|can| which(can)).map(|can| small(can.name)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    some_of(names, what)
}

/// "Kept out by clubroot until 2033: cabbage, kale and 12 more."
fn kept_out(out: &[(&Crop, KeptOut)]) -> Option<String> {
    let (_, first) = out.first()?;
    let same = out.iter().filter(|(_, kept)| kept == first);
    let names = same.map(|(crop, _)| small(crop.name())).collect();
    some_of(names, &format!("Kept out by {} until {}", first.by, first.until))
}

fn some_of(mut names: Vec<String>, what: &str) -> Option<String> {
    if names.len() > MOST_NAMED + 1 {
        let more = names.len() - MOST_NAMED;
        names.truncate(MOST_NAMED);
        names.push(format!("{more} more"));
    }
    (!names.is_empty()).then(|| format!("{what}: {}.", list(&names)))
}

/// A crop of the record as it is called.
fn called(crop: &str) -> String {
    catalogue::crop(crop).map_or_else(|_| crop.to_owned(), |crop| small(crop.name()))
}

/// What still grows in the bed.
fn still_there(question: &Question, asking: &Asking<'_>) -> Option<String> {
    let bed = asking.garden.bed(question.bed.as_ref()?.id.as_deref()?)?;
    let names: Vec<String> = bed.plantings.iter().map(|planting| called(&planting.crop)).collect();
    (!names.is_empty())
        .then(|| format!("Growing there now: {}; ask from the day that it is out.", list(&names)))
}

/// What is out in time for what the bed is kept for.
fn before_what_it_is_kept_for(
    answer: &Answer,
    question: &Question,
    asking: &Asking<'_>,
) -> Option<String> {
    let kept = kept_from(question, asking)?;
    let from = kept.from?;
    // Where none is, the verdict says so.
    let named = named(answer, "in time for that", &|can| is_before(can, from))?;
    Some(format!("It is kept {}; {named}", kept_told(kept, from, asking)))
}

/// What the bed is kept for from a later day on.
fn kept_from<'a>(question: &Question, asking: &Asking<'a>) -> Option<&'a details::Reserved> {
    let bed = asking.garden.bed(question.bed.as_ref()?.id.as_deref()?)?;
    bed.kept(question.from).find(|kept| kept.from > Some(question.from))
}

/// "for garlic from 3 Dec".
fn kept_told(kept: &details::Reserved, from: NaiveDate, asking: &Asking<'_>) -> String {
    let what = match &kept.crop {
        Some(crop) => format!("for {} ", called(crop)),
        None => String::new(),
    };
    format!("{what}from {}", day(from, asking.today))
}

/// Whether its slowest kinds are picked before that day.
fn is_before(can: &Can, from: NaiveDate) -> bool {
    can.picked.late.is_some_and(|late| late < from)
}

/// The most pressing one, to keep the bed for: what comes before that which it is kept for already.
fn kept(answer: &Answer, question: &Question, asking: &Asking<'_>) -> Vec<Draft> {
    let Some(bed) = question.bed.as_ref().and_then(|bed| bed.id.as_deref()) else {
        return Vec::new();
    };
    let wanted = kept_from(question, asking).and_then(|kept| kept.from);
    let good = |can: &&Can| {
        let in_time = wanted.is_none_or(|from| is_before(can, from));
        can.verdict == Verdict::Yes && can.rests_until.is_none() && in_time
    };
    let keep = |can: &Can| Draft {
        about: About::bed(bed),
        what: What::Reserved(details::Reserved {
            crop: Some(can.crop.to_owned()),
            from: Some(question.from),
            until: can.last_day,
        }),
    };
    answer.can.iter().find(good).map(keep).into_iter().collect()
}
