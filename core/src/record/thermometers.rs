//! Min-max thermometers read on one round: the spot in the open, the greenhouse, the frame, the beds.

use chrono::{NaiveDate, NaiveDateTime, Timelike};
use serde_json::Value;
use uom::si::temperature_interval::degree_fahrenheit;

use super::reading::believed;
use crate::{
    frost::{expected::above, reset::Reset},
    garden::{Dated, Garden},
    given::{Faults, FromGiven, Given, Refusal, Text, asked},
    journal::{
        About, Draft, What,
        details::{self, Reading},
    },
    quantity::{Quantity, Temperature},
    words::{
        harm::Harm,
        sky::{Sky, Wind},
        spot::Spot,
    },
};

/// A place where a thermometer hangs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thermometer {
    /// The bed's id, if it is at a bed.
    pub bed: Option<String>,
    /// The spot's word in the record otherwise.
    pub spot: Option<&'static str>,
    /// What it is called.
    pub name: String,
    /// Whether a low or a high was read there before.
    pub is_used: bool,
}

/// The spots beside the beds: the record's word, the name, how people say it.
pub(super) const PLACES: [(Spot, &str, &[&str]); 3] = [
    (
        Spot::Outdoors,
        "In the open",
        &["outdoors", "outside", "open", "reference spot", "reference"],
    ),
    (Spot::Greenhouse, "Greenhouse", &["glasshouse", "hoop house", "tunnel", "polytunnel"]),
    (Spot::ColdFrame, "Cold frame", &["frame"]),
];

asked! {
    /// What the page holds: the round, and beside it what the cold did.
    pub(super) struct Form {
        /// Each thermometer.
        at: Vec<At> = "",
        /// The sky of the night.
        sky: Given<Sky> = "The sky last night",
        /// Its wind.
        wind: Given<Wind> = "Wind last night",
        /// When they were last set back.
        reset: Given<Reset> = "When did you reset them",
        /// What the cold did.
        seen: Option<Seen> = "",
        /// A reading told in one line.
        #[allow(dead_code, reason = "read by itself, as one says it")]
        line: Given<Text> = "Say it in one line",
        /// When they were read.
        #[allow(dead_code, reason = "the moment of an entry is read by who writes it")]
        when: Given<Text> = "When",
    }
}

asked! {
    /// One thermometer.
    pub(super) struct At {
        /// The bed's id.
        bed: Given<Text>,
        /// The spot's word.
        spot: Given<Text>,
        /// The lowest air.
        low: Given<Temperature> = "Lowest air",
        /// The highest air.
        high: Given<Temperature> = "Highest air",
    }
}

asked! {
    /// What a morning after showed.
    pub(super) struct Seen {
        /// The bed's id.
        bed: Given<Text> = "Bed",
        /// The crop looked at.
        crop: Given<Text> = "What",
        /// What became of it.
        harm: Given<Harm> = "Wilted, burnt or gone",
    }
}

/// Every place where a thermometer may hang; the spot in the open first, beds read before ahead of
/// the others.
pub fn thermometers(garden: &Garden) -> Vec<Thermometer> {
    let used = |readings: &[Dated<Reading>], spot: Option<&str>| {
        readings.iter().any(|reading| {
            let what = &reading.what;
            (what.low.is_some() || what.high.is_some()) && what.spot.as_deref() == spot
        })
    };
    let spots = PLACES.map(|(spot, name, _)| Thermometer {
        bed: None,
        spot: Some(spot.word()),
        name: name.to_owned(),
        is_used: used(&garden.readings, Some(spot.word())),
    });
    let beds = garden.beds.iter().filter(|bed| bed.gone.is_none());
    let beds: Vec<Thermometer> = beds
        .map(|bed| Thermometer {
            bed: Some(bed.id.clone()),
            spot: None,
            name: bed.name.clone(),
            is_used: used(&bed.readings, None),
        })
        .collect();
    let (read, others): (Vec<_>, Vec<_>) = beds.into_iter().partition(|bed| bed.is_used);
    spots.into_iter().chain(read).chain(others).collect()
}

/// The drafts that write a round down: one for each thermometer with a number.
///
/// # Errors
/// Every field that can't be read, named as on the form.
pub fn readings(form: &Value) -> Result<Vec<Draft>, Refusal> {
    let mut faults = Faults::default();
    let form = Form::from_given(Some(form), "", &mut faults);
    let sky = form.sky.read(&mut faults);
    let wind = form.wind.read(&mut faults);
    let reset = form.reset.read(&mut faults);
    let mut drafts = Vec::new();
    for at in &form.at {
        let low = believed(&at.low, &mut faults);
        let high = believed(&at.high, &mut faults);
        if let (Some(low), Some(high)) = (low, high)
            && low > high
        {
            at.low.refuse(&mut faults, "a low not above the high", "it is above the high");
        }
        if !at.low.is_given() && !at.high.is_given() {
            continue;
        }
        let text = |given: &Given<Temperature>| given.text().map(str::to_owned);
        // What the night was like says nothing of a high.
        let of_night = at.low.is_given();
        drafts.push(Draft {
            about: at.bed.text().map_or_else(About::default, About::bed),
            what: What::Reading(details::Reading {
                spot: at.spot.text().map(str::to_owned),
                low: text(&at.low),
                high: text(&at.high),
                sky: sky.filter(|_| of_night).map(|it| it.word().to_owned()),
                wind: wind.filter(|_| of_night).map(|it| it.word().to_owned()),
                reset: reset
                    .filter(|it| of_night && *it != Reset::Afternoon)
                    .map(|it| it.word().to_owned()),
                ..details::Reading::default()
            }),
        });
    }
    if drafts.is_empty() {
        faults.add("at.0.low", "", "at least one temperature", "nothing was read");
    }
    faults.or_refuse(Some(drafts))
}

/// A thermometer read before this hour was set back while the dawn's cold may still have lain there.
const MORNING_UNTIL_H: u32 = 11;

/// Lows that may be yesterday's dawn once more, each with what to do: a thermometer set back at dawn
/// keeps that dawn's cold, and the next morning shows the colder of the two (common practice: set it back
/// after noon).
pub fn twice(drafts: &[Draft], when: NaiveDateTime, garden: &Garden) -> Vec<String> {
    let mut said = Vec::new();
    for draft in drafts {
        let What::Reading(what) = &draft.what else {
            continue;
        };
        let Some(low) = read(&what.low).filter(|_| what.reset.is_none()) else {
            continue;
        };
        let bed = draft.about.bed.as_deref().and_then(|id| garden.bed(id));
        let readings = bed.map_or(&garden.readings, |bed| &bed.readings);
        let yesterday = when.date().pred_opt();
        let last = readings.iter().rev().find(|it| {
            (bed.is_some() || it.what.spot == what.spot)
                && Some(it.when.date()) == yesterday
                && it.what.low.is_some()
        });
        let Some(last) = last.filter(|it| it.when.hour() < MORNING_UNTIL_H) else {
            continue;
        };
        if read(&last.what.low).is_some_and(|before| is_same_dawn(low, before)) {
            let name = bed.map_or_else(
                || {
                    let place =
                        PLACES.iter().find(|place| what.spot.as_deref() == Some(place.0.word()));
                    place.map_or("It", |place| place.1)
                },
                |bed| bed.name.as_str(),
            );
            said.push(format!(
                "{name} read {} yesterday morning. If it was set back then, this may be the same cold dawn: say so above, \
                 and it is not counted twice. Set it back after noon.",
                last.what.low.as_deref().unwrap_or_default()
            ));
        }
    }
    said
}

/// Whether a low may be the cold of the dawn before, still lying there when it was set back: it is no more
/// than a degree Fahrenheit away from it.
fn is_same_dawn(low: Temperature, before: Temperature) -> bool {
    above(low, before).get::<degree_fahrenheit>().abs() <= 1.0
}

fn read(text: &Option<String>) -> Option<Temperature> {
    <Temperature as Quantity>::read(text.as_deref()?).ok()
}

/// What the record tells of the sky and the wind of the night before this day: "clear, still".
pub fn night_before(garden: &Garden, day: NaiveDate) -> Option<String> {
    let (sky, wind) = crate::topics::frost_tonight::told_of_night(garden, day)?;
    Some(match wind {
        Some(wind) => format!("{}, {}", sky.word(), wind.word()),
        None => sky.word().to_owned(),
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]
mod tests {
    use super::*;
    use crate::journal::{Journal, samples::entry_text};
    use serde_json::json;

    /// A dawn of 28 °F in a bed, written at seven on the second day of the samples' month.
    fn garden() -> Garden {
        let mut journal = Journal::default();
        for (id, (minute, rest)) in [
            (0, r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed"}"#),
            (0, r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Fence bed"}"#),
            (1440 + 7 * 60, r#""kind":"reading","about":{"bed":"low"},"what":{"low":"28 F"}"#),
        ]
        .iter()
        .enumerate()
        {
            journal.add(&entry_text(id as u128 + 1, *minute, rest));
        }
        Garden::fold(&journal)
    }

    fn round(low: &str, reset: &str) -> Vec<Draft> {
        readings(&json!({"at": [{"bed": "low", "low": low}], "sky": "clear", "reset": reset}))
            .unwrap()
    }

    #[test]
    fn the_bed_that_was_read_before_comes_first() {
        let names: Vec<String> = thermometers(&garden()).into_iter().map(|it| it.name).collect();
        assert_eq!(names, ["In the open", "Greenhouse", "Cold frame", "Low bed", "Fence bed"]);
    }

    #[test]
    fn a_round_is_one_reading_for_each_thermometer_with_a_number() {
        let drafts = readings(&json!({"at": [
            {"spot": "outdoors", "low": "30 F", "high": "51 F"}, {"spot": "unheated-greenhouse"}, {"bed": "low", "high": "55 F"},
        ], "sky": "clear", "wind": "still", "reset": "morning"}))
        .unwrap();
        assert_eq!(drafts.len(), 2);
        for draft in &drafts {
            assert_eq!(draft.check(), []);
        }
        let What::Reading(first) = &drafts[0].what else { panic!("no reading") };
        assert_eq!(
            (first.sky.as_deref(), first.reset.as_deref()),
            (Some("clear"), Some("morning"))
        );
        let What::Reading(second) = &drafts[1].what else { panic!("no reading") };
        assert_eq!((second.sky.as_deref(), second.reset.as_deref()), (None, None));
    }

    #[test]
    fn what_else_stands_on_the_page_hinders_no_round() {
        let page = json!({
            "at": [{"bed": "low", "low": "30 F"}], "when": "2026-11-25T07:00", "line": "36 in the",
            "seen": {"bed": "low", "harm": "some"},
        });
        assert_eq!(readings(&page).unwrap().len(), 1);
        assert_eq!(super::super::seen(&page).unwrap().len(), 1);
    }

    #[test]
    fn senseless_rounds_are_refused_field_by_field() {
        let fields = |form: Value| -> Vec<String> {
            let refused = readings(&form).unwrap_err().refused;
            refused.into_iter().map(|fault| fault.field).collect()
        };
        assert_eq!(fields(json!({})), ["at.0.low"]);
        assert_eq!(
            fields(
                json!({"at": [{"spot": "outdoors", "low": "60 F", "high": "40 F"}, {"bed": "low", "low": "cold"}], "sky": "blue"})
            ),
            ["sky", "at.0.low", "at.1.low"]
        );
    }

    #[test]
    fn the_same_cold_two_mornings_running_is_asked_about() {
        let garden = garden();
        let last = garden.beds[0].readings[0].when;
        let next_day = last + chrono::TimeDelta::days(1);
        assert_eq!(twice(&round("29 F", "afternoon"), next_day, &garden).len(), 1);
        assert_eq!(twice(&round("24 F", "afternoon"), next_day, &garden).len(), 0);
        // Who says that it was set back at dawn has said it.
        assert_eq!(twice(&round("29 F", "morning"), next_day, &garden).len(), 0);
        assert_eq!(
            twice(&round("29 F", "afternoon"), next_day + chrono::TimeDelta::days(1), &garden)
                .len(),
            0
        );
    }
}
