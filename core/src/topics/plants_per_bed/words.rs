//! What is told of how many plants fit.

use super::{answer::Filler, question::Question, rotation};
use crate::{
    asking::Asking,
    catalogue::Facet,
    layout::{Aim, SiteChoice},
    plan::{Laid, Stood, Wanted, arrangement, drafts, no_place, range_words, sentence},
    quantity::{Micrometres, System, show_spacing},
    source::Source,
    telling::{Sure, Telling},
    text::{capital, list},
};

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) question: &'a Question,
    pub(super) asked: &'a Laid,
    pub(super) way_round: Option<&'a Laid>,
    /// Where each crop stands best, as far as the layout told follows it.
    pub(super) siting: Vec<String>,
    pub(super) fillers: &'a [Filler],
    pub(super) resting: &'a [Stood],
    /// How many fit on the holes, and along the lines, where the spacing is no multiple of the holes'.
    pub(super) beside: Option<(u32, u32)>,
}

/// The verdict on how many fit, and all that is said beside it.
pub(super) fn tell(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let system = asking.system;
    let laid = found.way_round.unwrap_or(found.asked);
    let mut telling = Telling::new(headline(laid, system), sure(found));
    telling.because.push(qualifier(found, system));
    telling.because.extend(where_they_go(laid, system));
    let mut beside: Vec<String> = off_the_holes(found, system).into_iter().collect();
    beside.extend(found.siting.iter().cloned());
    match found.question.standing.len() {
        0 => {}
        1 => beside.push("The plant already in keeps its room.".to_owned()),
        many => beside.push(format!("The {many} plants already in keep their room.")),
    }
    beside.extend(no_place(found.question.outside));
    if !beside.is_empty() {
        telling.because.push(beside.join(" "));
    }
    telling.because.extend(in_between(found.fillers, system));
    telling
        .look_for
        .push("Measure from middle to middle, and from the inside of the boards.".to_owned());
    if laid.wanted.iter().any(|wanted| wanted.want.sites == SiteChoice::Emitters) {
        telling.look_for.push(
            "Count the holes with the water on: a blocked one gives nothing to the plant set there.".to_owned(),
        );
    }
    telling.next = drafts(&found.question.meant, laid, asking);
    for wanted in &laid.wanted {
        if let Some(row) = wanted.row {
            telling.cautions.extend(row.cautions().iter().map(|&caution| caution.to_owned()));
            row.sources(Facet::Spacing).for_each(|source| telling.source(source));
        }
    }
    telling.cautions.extend(rotation::warnings(found.resting, &laid.wanted));
    telling.cautions.push(
        "Spacings are for ordinary kinds at full size; dwarf and giant kinds differ up to twofold."
            .to_owned(),
    );
    if laid.wanted.iter().any(|wanted| wanted.want.sites == SiteChoice::Anywhere) {
        telling.source(Source::Oler1961);
    }
    telling
}

fn headline(laid: &Laid, system: System) -> String {
    let [one] = laid.wanted.as_slice() else {
        let each: Vec<String> = laid
            .wanted
            .iter()
            .zip(&laid.layout.counts)
            .filter(|(_, count)| **count > 0)
            .map(|(wanted, count)| format!("{count} {}", wanted.name()))
            .collect();
        let none = laid.wanted.iter().zip(&laid.layout.counts);
        let none = none.filter(|(_, count)| **count == 0);
        let none: Vec<String> = none.map(|(wanted, _)| wanted.name()).collect();
        return match (each.is_empty(), none.is_empty()) {
            (true, _) => "None fits here".to_owned(),
            (_, true) => format!("{} fit", list(&each)),
            _ => format!("{} fit, no {}", list(&each), one_of(&none)),
        };
    };
    let fits = laid.layout.counts.first().copied().unwrap_or(0);
    let spacing = one.spacing_told(system);
    match one.want.on_hand {
        _ if fits == 0 => "None fits here".to_owned(),
        Some(1) if fits == 1 => format!("It fits at {spacing}"),
        None if fits == 1 => format!("1 fits at {spacing}"),
        Some(in_hand) if in_hand == fits => format!("All {fits} fit at {spacing}"),
        Some(in_hand) => format!("{fits} fit at {spacing}, {} left over", in_hand - fits),
        None => format!("{fits} fit at {spacing}"),
    }
}

/// The line under the verdict.
fn qualifier(found: &Found<'_>, system: System) -> String {
    let Some(first) = found.asked.wanted.first() else {
        return String::new();
    };
    let fits = found.asked.layout.counts.first().copied().unwrap_or(0);
    let spacing = first.spacing_told(system);
    let takes = first
        .row
        .and_then(|row| Some(format!("{} takes {}. ", row.name(), range_words(row, system)?)))
        .unwrap_or_default();
    let several = found.asked.wanted.len() > 1;
    let most = match (found.asked.layout.proved, several) {
        (true, true) if found.question.aim == Aim::InOrder => {
            "with the first crop first, no layout holds more".to_owned()
        }
        (true, true) => "no layout holds more in all".to_owned(),
        (true, false) => "no layout holds more".to_owned(),
        (false, false) => format!("no layout holds more than {}", found.asked.layout.bound),
        (false, true) => format!("no layout holds more than {} in all", found.asked.layout.bound),
    };
    if several {
        let left = left_over(found);
        return match (found.way_round, left.as_slice()) {
            (Some(_), _) => format!("{takes}At {spacing} {fits} fit and {}; {most}.", list(&left)),
            (None, []) if found.asked.wanted.iter().all(|wanted| wanted.want.on_hand.is_some()) => {
                "There is room for all of them.".to_owned()
            }
            (None, []) => format!("{}.", capital(&most)),
            (None, left) => format!("{}; {most}.", capital(&list(left))),
        };
    }
    if fits == 0 {
        return format!("{takes}{}", none_fits(found, first, system));
    }
    let left = left_over(found);
    match found.way_round {
        Some(_) => format!("{takes}At {spacing} {fits} fit and {}; {most}.", list(&left)),
        None if left.is_empty() && first.want.on_hand.is_some() => {
            format!("{takes}There is room for all of them.")
        }
        None if left.is_empty() => format!("{takes}At {spacing}, {most}."),
        None => format!("{takes}{}; {most}.", capital(&list(&left))),
    }
}

/// What is left over of each crop, in words.
fn left_over(found: &Found<'_>) -> Vec<String> {
    found
        .asked
        .wanted
        .iter()
        .zip(&found.asked.layout.counts)
        .filter_map(|(wanted, count)| {
            let left = wanted.want.on_hand?.checked_sub(*count).filter(|left| *left > 0)?;
            Some(if found.asked.wanted.len() == 1 {
                format!("{left} {} left over", if left == 1 { "is" } else { "are" })
            } else {
                format!("{left} {} left over", wanted.name())
            })
        })
        .collect()
}

/// "a", "a or b", "a, b or c".
fn one_of(names: &[String]) -> String {
    match names.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} or {last}", before.join(", ")),
        _ => names.concat(),
    }
}

/// What fits in between, in words; gaps for the same crops together.
fn in_between(fillers: &[Filler], system: System) -> Option<String> {
    let alike = fillers.chunk_by(|one, other| one.crops == other.crops);
    let each: Vec<String> = alike
        .filter_map(|rows| {
            let named = rows.first()?.names();
            let rooms = rows.iter().map(|row| format!("{} at {}", row.count, row.told(system)));
            let rooms: Vec<String> = rooms.collect();
            Some(format!("{}, such as {}", list(&rooms), one_of(&named)))
        })
        .collect();
    (!each.is_empty()).then(|| format!("In between there is room for {}.", each.join("; ")))
}

/// Why no plant has a place.
fn none_fits(found: &Found<'_>, first: &Wanted, system: System) -> String {
    let bed = &found.question.meant.bed;
    let margin = first.want.edge_margin.at(first.want.spacing);
    let shown = show_spacing(margin.to_length(), system);
    if margin * 2 > bed.width() || margin * 2 > bed.length() {
        format!("With {shown} kept at the sides this bed is too narrow for one.")
    } else if !found.question.standing.is_empty() {
        "What is already in leaves no place for one.".to_owned()
    } else {
        format!("Every hole lies closer than {shown} to a side.")
    }
}

/// Where to put them, as a sentence.
fn where_they_go(laid: &Laid, system: System) -> Option<String> {
    let planted = laid.layout.counts.iter().any(|count| *count > 0);
    planted.then(|| sentence(&arrangement(laid, system)))
}

/// What it costs to keep to the holes when the spacing is no multiple of theirs.
fn off_the_holes(found: &Found<'_>, system: System) -> Option<String> {
    let laid = found.way_round.unwrap_or(found.asked);
    let [one] = laid.wanted.as_slice() else {
        return None;
    };
    let drip = found.question.meant.bed.drip()?;
    let (pitch, spacing) = (drip.emitter_spacing(), one.want.spacing);
    let (on, beside) = found.beside?;
    let hops = spacing.get().div_euclid(pitch.get()) + 1;
    let show = |length: Micrometres| show_spacing(length.to_length(), system);
    let cost = match beside.checked_sub(on).filter(|more| *more > 0) {
        Some(_) => format!("At the holes {on} fit; beside them, along the lines, {beside} would."),
        None => "Here that costs no plant.".to_owned(),
    };
    Some(format!(
        "{} is no multiple of the {} from hole to hole: along one line plants stand {}. {cost}",
        show(spacing),
        show(pitch),
        show(pitch * hops),
    ))
}

fn sure(found: &Found<'_>) -> Sure {
    // The count is exact; what it rests on is the spacing.
    match found.asked.wanted.iter().all(|wanted| wanted.row.is_some()) {
        true if found.asked.layout.proved => Sure::High,
        _ => Sure::Fair,
    }
}
