//! What is told of a layout.

use super::{
    Aim, Fault, Form, MOST_PLANTS, MOST_STANDING, MOST_WANTS, SiteChoice,
    how_many::{Filler, Found, Laid},
    rest,
    wanted::{Wanted, range_words},
};
use crate::{
    ask::Asking,
    bed::Meant,
    catalogue::Facet,
    given::Faults,
    journal::{About, Draft, Sites, What, details, sites},
    quantity::{Micrometres, System, show_spacing},
    source::Source,
    telling::{Sure, Telling, list},
};

/// Notes what the solver can't take, beside the field it came from.
pub(super) fn refuse(wrong: &[Fault], system: System, faults: &mut Faults) {
    let spacing = |limit: Micrometres| show_spacing(limit.to_length(), system);
    for fault in wrong {
        let (field, allowed, why) = match *fault {
            // Told where the crops and their sites were read, with or without a bed.
            Fault::NothingWanted | Fault::NoDrip(_) => continue,
            Fault::TooManyWants => (
                "plants".into(),
                format!("at most {MOST_WANTS} crops"),
                "that is more than one bed is laid out for",
            ),
            Fault::Spacing(at) => (
                format!("plants.{at}.spacing"),
                format!("{} to {}", spacing(super::LEAST_SPACING), spacing(super::MOST_SPACING)),
                "plants are not set so",
            ),
            Fault::EdgeMargin(_) => (
                "bed.edge_margin".into(),
                "nothing or more".into(),
                "a margin can't be less than nothing",
            ),
            Fault::TooManyPlants(at) => (
                format!("plants.{at}.spacing"),
                format!("a spacing at which at most {MOST_PLANTS} fit"),
                "so many are sown in rows, not set one by one",
            ),
            Fault::TooManyStanding => (
                "standing".into(),
                format!("at most {MOST_STANDING} plants"),
                "that is more than one bed holds",
            ),
            Fault::StandingOutside(at) => (
                format!("standing.{at}.along"),
                "a place inside the bed".into(),
                "that lies outside the bed",
            ),
            Fault::StandingSpacing(at) => (
                format!("standing.{at}.spacing"),
                format!("at most {}", spacing(super::MOST_SPACING)),
                "no plant needs so much",
            ),
        };
        faults.add(&field, "", allowed, why);
    }
}

/// The verdict on how many fit, and all that is said beside it.
pub(super) fn how_many(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let system = asking.system;
    let laid = found.way_round.unwrap_or(found.asked);
    let mut telling = Telling::new(headline(laid, system), sure(found));
    telling.because.push(qualifier(found, system));
    telling.because.extend(where_they_go(laid, system));
    let mut beside: Vec<String> = off_the_holes(found, system).into_iter().collect();
    beside.extend(found.sense.iter().cloned());
    match found.already {
        0 => {}
        1 => beside.push("The plant already in keeps its room.".to_owned()),
        many => beside.push(format!("The {many} plants already in keep their room.")),
    }
    if !beside.is_empty() {
        telling.because.push(beside.join(" "));
    }
    telling.because.extend(in_between(found.fillers, system));
    telling
        .look_for
        .push("Measure from middle to middle, and from the inside of the boards.".to_owned());
    if laid.wanted.iter().any(|wanted| wanted.sites == SiteChoice::Emitters) {
        telling.look_for.push(
            "Count the holes with the water on: a blocked one gives nothing to the plant set there.".to_owned(),
        );
    }
    telling.next = drafts(found.meant, laid, asking);
    for wanted in &laid.wanted {
        if let Some(row) = wanted.row {
            telling.cautions.extend(row.cautions().iter().map(|&caution| caution.to_owned()));
            row.sources(Facet::Spacing).for_each(|source| telling.source(source));
        }
    }
    telling.cautions.extend(rest::warnings(found.resting, &laid.wanted));
    telling.cautions.push(
        "Spacings are for ordinary kinds at full size; dwarf and giant kinds differ up to twofold."
            .to_owned(),
    );
    if laid.wanted.iter().any(|wanted| wanted.sites == SiteChoice::Anywhere) {
        telling.source(Source::Oler1961);
    }
    telling
}

fn headline(laid: &Laid<'_>, system: System) -> String {
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
    let spacing = show_spacing(one.spacing.to_length(), system);
    match one.on_hand {
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
    let spacing = show_spacing(first.spacing.to_length(), system);
    let takes = first
        .row
        .and_then(|row| Some(format!("{} takes {}. ", row.name(), range_words(row, system)?)))
        .unwrap_or_default();
    let several = found.asked.wanted.len() > 1;
    let most = match (found.asked.layout.proved, several) {
        (true, true) if found.aim == Aim::InOrder => {
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
            (None, []) if found.asked.wanted.iter().all(|wanted| wanted.on_hand.is_some()) => {
                "There is room for all of them.".to_owned()
            }
            (None, []) => format!("{}.", crate::telling::capital(&most)),
            (None, left) => format!("{}; {most}.", crate::telling::capital(&list(left))),
        };
    }
    if fits == 0 {
        return format!("{takes}{}", none_fits(found, first, system));
    }
    let left = left_over(found);
    match found.way_round {
        Some(_) => format!("{takes}At {spacing} {fits} fit and {}; {most}.", list(&left)),
        None if left.is_empty() && first.on_hand.is_some() => {
            format!("{takes}There is room for all of them.")
        }
        None if left.is_empty() => format!("{takes}At {spacing}, {most}."),
        None => format!("{takes}{}; {most}.", crate::telling::capital(&list(&left))),
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
            let left = wanted.on_hand?.checked_sub(*count).filter(|left| *left > 0)?;
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
fn none_fits(found: &Found<'_>, first: &Wanted<'_>, system: System) -> String {
    let bed = &found.meant.bed;
    let margin = first.edge_margin.at(first.spacing);
    let shown = show_spacing(margin.to_length(), system);
    if margin * 2 > bed.width() || margin * 2 > bed.length() {
        format!("With {shown} kept at the sides this bed is too narrow for one.")
    } else if found.already > 0 {
        "What is already in leaves no place for one.".to_owned()
    } else {
        format!("Every hole lies closer than {shown} to a side.")
    }
}

/// Where everything goes, along the hose; crop by crop where there are several.
pub(super) fn arrangement(laid: &Laid<'_>, system: System) -> String {
    let show = |length: Micrometres| show_spacing(length.to_length(), system);
    let forms = laid.wanted.iter().zip(&laid.layout.arrangements);
    let each: Vec<String> = forms
        .filter(|(_, form)| laid.wanted.len() == 1 || form.form != Form::Empty)
        .map(|(wanted, form)| {
            let words = form.words(&show);
            match laid.wanted.len() {
                1 => words,
                _ => sentence(&format!("{}: {words}", wanted.name())),
            }
        })
        .collect();
    each.join(" ")
}

/// Where to put them, as a sentence.
fn where_they_go(laid: &Laid<'_>, system: System) -> Option<String> {
    let planted = laid.layout.counts.iter().any(|count| *count > 0);
    planted.then(|| sentence(&arrangement(laid, system)))
}

/// With a capital first and a stop at the end.
pub(super) fn sentence(words: &str) -> String {
    let stop = if words.ends_with('.') { "" } else { "." };
    format!("{}{stop}", crate::telling::capital(words))
}

/// What it costs to keep to the holes when the spacing is no multiple of theirs.
fn off_the_holes(found: &Found<'_>, system: System) -> Option<String> {
    let laid = found.way_round.unwrap_or(found.asked);
    let [one] = laid.wanted.as_slice() else {
        return None;
    };
    let drip = found.meant.bed.drip()?;
    let (pitch, spacing) = (drip.emitter_spacing(), one.spacing);
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

/// The bed, if the record does not have it yet, and what would be planted.
pub(super) fn drafts(meant: &Meant, laid: &Laid<'_>, asking: &Asking<'_>) -> Vec<Draft> {
    let mut drafts = Vec::new();
    let bed_id = match &meant.id {
        Some(id) => id.clone(),
        None => {
            let name = meant.name.clone().unwrap_or_else(|| asking.garden.next_bed_name());
            let id = asking.garden.free_bed_id(&name);
            let bed = details::Bed { name: Some(name), bed: meant.shape.clone(), gone: false };
            drafts.push(Draft { about: About::bed(&id), what: What::Bed(bed) });
            id
        }
    };
    for (at, (wanted, fits)) in laid.wanted.iter().zip(&laid.layout.counts).enumerate() {
        if *fits == 0 {
            continue;
        }
        let planted = details::Planted {
            crop: wanted.id().to_owned(),
            variety: None,
            count: Some(*fits),
            spacing: Some(show_spacing(wanted.spacing.to_length(), asking.system)),
            at: places(laid, at),
        };
        drafts.push(Draft { about: About::bed(&bed_id), what: What::Planted(planted) });
    }
    drafts
}

/// The places of one crop, as holes where all stand at holes.
fn places(laid: &Laid<'_>, want: usize) -> Option<Sites> {
    let own = || laid.layout.placed.iter().filter(move |placed| placed.want == want);
    let holes: Option<Vec<sites::Hole>> =
        own().map(|placed| Some(sites::Hole { line: placed.line?, hole: placed.hole? })).collect();
    match holes {
        Some(holes) => Sites::of_holes(&holes).ok(),
        None => {
            let places: Vec<sites::Place> = own()
                .map(|placed| sites::Place {
                    across_um: placed.across.get(),
                    along_um: placed.along.get(),
                })
                .collect();
            Sites::of_places(&places).ok()
        }
    }
}
