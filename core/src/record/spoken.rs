//! A reading told in one line, as one says it: "36 in the greenhouse at dawn".

use chrono::{Days, NaiveDateTime, NaiveTime, Timelike};

use super::thermometers::{PLACES, Thermometer, thermometers};
use crate::{
    garden::Garden,
    journal::{About, Draft, What, details},
    place::known_soil::soil_limits,
    quantity::{Quantity, System, Temperature},
    text::{capital, day, list, small},
};

/// A line understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Spoken {
    /// The reading.
    pub draft: Draft,
    /// When it was.
    pub when: NaiveDateTime,
    /// The same said back: "Greenhouse, low 36 °F, 25 Nov at dawn".
    pub told: String,
}

/// What a number tells.
#[derive(Clone, Copy, PartialEq)]
enum Tells {
    Low,
    High,
    Soil,
    Air,
}

/// A word that says what a number tells.
const TELLS: [(&str, Tells); 11] = [
    ("low", Tells::Low),
    ("lowest", Tells::Low),
    ("min", Tells::Low),
    ("minimum", Tells::Low),
    ("high", Tells::High),
    ("highest", Tells::High),
    ("max", Tells::High),
    ("maximum", Tells::High),
    ("soil", Tells::Soil),
    ("ground", Tells::Soil),
    ("air", Tells::Air),
];

/// A word for a time of day, the hour it stands for, and whether a bare number then is the night's low.
const TIMES: [(&str, u32, bool); 12] = [
    ("dawn", 7, true),
    ("sunrise", 7, true),
    ("daybreak", 7, true),
    ("overnight", 7, true),
    ("night", 7, true),
    ("morning", 7, true),
    ("noon", 12, false),
    ("midday", 12, false),
    ("afternoon", 15, false),
    ("sunset", 18, false),
    ("evening", 20, false),
    ("dusk", 20, false),
];

/// A word for the sky, and the record's own.
const SKIES: [(&str, &str); 5] = [
    ("sunny", "clear"),
    ("clear", "clear"),
    ("cloudy", "cloudy"),
    ("overcast", "cloudy"),
    ("hazy", "part"),
];

/// The words of numbers, for phones that write them out.
const NUMBERS: [(&str, i32); 28] = [
    ("zero", 0),
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("ten", 10),
    ("eleven", 11),
    ("twelve", 12),
    ("thirteen", 13),
    ("fourteen", 14),
    ("fifteen", 15),
    ("sixteen", 16),
    ("seventeen", 17),
    ("eighteen", 18),
    ("nineteen", 19),
    ("twenty", 20),
    ("thirty", 30),
    ("forty", 40),
    ("fifty", 50),
    ("sixty", 60),
    ("seventy", 70),
    ("eighty", 80),
    ("ninety", 90),
];

/// Reads the line.
///
/// # Errors
/// What is missing or can't be told from it, in words.
pub fn spoken(
    line: &str,
    garden: &Garden,
    system: System,
    now: NaiveDateTime,
) -> Result<Spoken, String> {
    let plain: String = small(line)
        .chars()
        .map(|letter| if matches!(letter, ',' | ';' | '!' | '?' | '°') { ' ' } else { letter })
        .collect();
    let mut words: Vec<&str> =
        plain.split_whitespace().map(|word| word.trim_end_matches('.')).collect();
    let known = thermometers(garden);
    let place = take_place(&mut words, &known)?;
    let clock = take_clock(&mut words);
    let time = words.iter().find_map(|word| TIMES.iter().find(|(name, ..)| name == word));
    let numbers = take_numbers(&words, system)?;
    let in_order = numbers.iter().map(|(_, temperature, _)| temperature.value);
    let (least, most) =
        (in_order.clone().fold(f64::MAX, f64::min), in_order.fold(f64::MIN, f64::max));
    if numbers.is_empty() {
        return Err(
            "No temperature is in it. Say it such as: 36 in the greenhouse at dawn".to_owned()
        );
    }
    if !(273.15 - 60.0..273.15 + 60.0).contains(&least) || most > 273.15 + 60.0 {
        return Err("No garden gets that cold or that hot".to_owned());
    }
    let mut what = details::Reading::default();
    let pair = numbers.len() == 2;
    let mut parts = Vec::new();
    for (tells, temperature, text) in &numbers {
        let meant = tells.unwrap_or(match time {
            _ if pair && temperature.value == most && most > least => Tells::High,
            _ if pair => Tells::Low,
            Some((.., true)) => Tells::Low,
            _ => Tells::Air,
        });
        let (slot, name) = match meant {
            Tells::Low => (&mut what.low, "low"),
            Tells::High => (&mut what.high, "high"),
            Tells::Soil => (&mut what.soil, "soil"),
            Tells::Air => (&mut what.air, "air"),
        };
        if slot.is_some() {
            return Err(
                "Two numbers tell the same. Say which is the low and which the high".to_owned()
            );
        }
        let [coldest, hottest] = soil_limits();
        if meant == Tells::Soil && (*temperature < coldest || *temperature > hottest) {
            return Err("No soil gets that cold or that hot".to_owned());
        }
        parts.push(format!("{name} {}", temperature.show(system)));
        *slot = Some(text.clone());
        if meant == Tells::Soil {
            what.depth = Some(super::reading::USUAL_DEPTH.to_owned());
        }
    }
    let sky = words.iter().find_map(|word| SKIES.iter().find(|(name, _)| name == word));
    what.sky = sky.map(|(_, sky)| (*sky).to_owned());
    let when = moment(now, clock, time.map(|(_, hour, _)| *hour), words.contains(&"yesterday"));
    let said_sky = sky.map_or_else(String::new, |(name, _)| format!(", {name}"));
    let told_time = match (clock, time) {
        (Some(_), _) => format!("{}:{}{}", when.hour(), when.minute() / 10, when.minute() % 10),
        (None, Some((_, 7, _))) => "at dawn".to_owned(),
        (None, Some((name, ..))) => format!("at {name}"),
        (None, None) => "now".to_owned(),
    };
    let about = place.bed.as_deref().map_or_else(About::default, About::bed);
    what.spot = place.spot.map(str::to_owned);
    Ok(Spoken {
        draft: Draft { about, what: What::Reading(what) },
        when,
        told: capital(&format!(
            "{}: {}, {} {told_time}{said_sky}",
            place.name,
            list(&parts),
            day(when.date(), Some(now.date()))
        )),
    })
}

/// Takes out the words that name a place.
fn take_place<'a>(
    words: &mut Vec<&str>,
    known: &'a [Thermometer],
) -> Result<&'a Thermometer, String> {
    let Some(thermometer) = longest_named(words, known) else {
        return Err(
            "Which thermometer? Name a bed, the greenhouse, the cold frame, or say outdoors"
                .to_owned(),
        );
    };
    if longest_named(words, known).is_some() {
        return Err("Two places are named. Say one line for each".to_owned());
    }
    Ok(thermometer)
}

/// The place with the longest name among the words, since beds may be called anything; its words are taken out.
fn longest_named<'a>(words: &mut Vec<&str>, known: &'a [Thermometer]) -> Option<&'a Thermometer> {
    let mut best: Option<(usize, usize, &Thermometer)> = None;
    for thermometer in known {
        let own = PLACES.iter().filter(|place| thermometer.spot == Some(place.0.word()));
        let names = own.flat_map(|place| place.2.iter().map(|name| (*name).to_owned()));
        for name in names.chain([small(&thermometer.name)]) {
            let name: Vec<&str> = name.split_whitespace().collect();
            let at = words.windows(name.len().max(1)).position(|some| some == name.as_slice());
            if let Some(at) = at
                && best.is_none_or(|(_, length, _)| length < name.len())
            {
                best = Some((at, name.len(), thermometer));
            }
        }
    }
    let (at, length, thermometer) = best?;
    words.drain(at..at + length);
    Some(thermometer)
}

/// Takes a time such as "7:30", "7 am", "6:45pm" out: hours and minutes.
fn take_clock(words: &mut Vec<&str>) -> Option<(u32, u32)> {
    for at in 0..words.len() {
        let word = *words.get(at)?;
        let half = ["am", "pm"].into_iter().find(|half| word.ends_with(half));
        let digits = half.map_or(word, |half| word.strip_suffix(half).unwrap_or(word));
        let (hour, minute) = digits.split_once(':').unwrap_or((digits, "0"));
        let (Ok(hour), Ok(minute)) = (hour.parse::<u32>(), minute.parse::<u32>()) else {
            continue;
        };
        let next =
            words.get(at + 1).copied().filter(|next| matches!(*next, "am" | "pm" | "o'clock"));
        if (half.is_none() && next.is_none() && digits.bytes().all(|byte| byte != b':'))
            || hour > 23
            || minute > 59
        {
            continue;
        }
        let afternoon = half == Some("pm") || next == Some("pm");
        let morning = half == Some("am") || next == Some("am");
        words.drain(at..=at + usize::from(next.is_some()));
        return Some(match hour {
            12 if morning => (0, minute),
            1..=11 if afternoon => (hour + 12, minute),
            _ => (hour, minute),
        });
    }
    None
}

/// What a number tells where a word beside it says so, the temperature, and its text.
type Number = (Option<Tells>, Temperature, String);

/// The temperatures in the line, each with what it tells where a word beside it says so.
fn take_numbers(words: &[&str], system: System) -> Result<Vec<Number>, String> {
    let unit = if system == System::Us { "F" } else { "C" };
    let mut numbers: Vec<Number> = Vec::new();
    let mut before: Option<Tells> = None;
    let mut just_read = false;
    let mut at = 0;
    while let Some(word) = words.get(at) {
        at += 1;
        if let Some((_, tells)) = TELLS.iter().find(|(name, _)| name == word) {
            // "31 low": the word behind a number is its own where none stood before it.
            match numbers.last_mut() {
                Some((told @ None, ..)) if just_read => *told = Some(*tells),
                _ => before = Some(*tells),
            }
            continue;
        }
        let minus = matches!(*word, "minus" | "-");
        let first = if minus { words.get(at).copied().unwrap_or_default() } else { word };
        let Some(mut number) = number_in(first) else {
            just_read = false;
            continue;
        };
        at += usize::from(minus);
        // "thirty six"
        if number.0.fract() == 0.0
            && number.0 >= 20.0
            && first.starts_with(|letter: char| letter.is_ascii_alphabetic())
            && let Some(ones) =
                words.get(at).and_then(|next| NUMBERS.iter().find(|(name, _)| name == next))
            && (1..10).contains(&ones.1)
        {
            number.0 += f64::from(ones.1);
            at += 1;
        }
        while words.get(at).is_some_and(|next| matches!(*next, "degrees" | "degree" | "deg")) {
            at += 1;
        }
        let said = number.1.or_else(|| {
            let next = words.get(at)?;
            let unit = match *next {
                "f" | "fahrenheit" => "F",
                "c" | "celsius" | "centigrade" => "C",
                _ => return None,
            };
            at += 1;
            Some(unit)
        });
        let degrees = if minus { -number.0 } else { number.0 };
        let text = format!(
            "{} {}",
            crate::quantity::number::show_number(degrees, 2),
            said.unwrap_or(unit)
        );
        let temperature = <Temperature as Quantity>::read(&text).map_err(|refused| refused.why)?;
        numbers.push((before.take(), temperature, text));
        just_read = true;
    }
    if numbers.len() > 3 {
        return Err("More numbers than one reading has. Say one line for each place".to_owned());
    }
    Ok(numbers)
}

/// A number in digits, with its unit written to it, or in words ("thirty-six").
fn number_in(word: &str) -> Option<(f64, Option<&'static str>)> {
    let named =
        |word: &str| NUMBERS.iter().find(|(name, _)| *name == word).map(|it| f64::from(it.1));
    if let Some((tens, ones)) = word.split_once('-')
        && let (Some(tens), Some(ones)) = (named(tens), named(ones))
    {
        return Some((tens + ones, None));
    }
    if let Some(number) = named(word) {
        return Some((number, None));
    }
    let unit = ["f", "c"].into_iter().find(|unit| word.ends_with(unit));
    let digits = unit.map_or(word, |unit| word.strip_suffix(unit).unwrap_or(word));
    if !digits.starts_with(|sign: char| sign.is_ascii_digit() || sign == '-') {
        return None;
    }
    let number = crate::quantity::number::read_number(digits).ok()?;
    Some((number, unit.map(|unit| if unit == "f" { "F" } else { "C" })))
}

/// When it was: the last such hour before now.
fn moment(
    now: NaiveDateTime,
    clock: Option<(u32, u32)>,
    hour: Option<u32>,
    yesterday: bool,
) -> NaiveDateTime {
    let Some((hours, minutes)) = clock.or(hour.map(|hour| (hour, 0))) else {
        return if yesterday { before(now) } else { now };
    };
    let time = NaiveTime::from_hms_opt(hours, minutes, 0).unwrap_or_default();
    let today = now.date().and_time(time);
    if yesterday {
        before(today)
    } else if today <= now {
        today
    } else if clock.is_none() && hours <= 7 {
        // Said before the hour that dawn stands for.
        now
    } else {
        before(today)
    }
}

fn before(moment: NaiveDateTime) -> NaiveDateTime {
    moment.checked_sub_days(Days::new(1)).unwrap_or(moment)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests {
    use super::*;
    use crate::journal::{Journal, samples::entry_text};
    use chrono::NaiveDate;
    use proptest::prelude::*;

    fn garden() -> Garden {
        let mut journal = Journal::default();
        for (id, (bed, name)) in [("fence", "Fence bed"), ("low", "Low bed")].iter().enumerate() {
            journal.add(&entry_text(
                id as u128 + 1,
                0,
                &format!(r#""kind":"bed","about":{{"bed":"{bed}"}},"what":{{"name":"{name}"}}"#),
            ));
        }
        Garden::fold(&journal)
    }

    fn now() -> NaiveDateTime {
        let day = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
        day.and_hms_opt(8, 30, 0).unwrap()
    }

    fn told(line: &str) -> Result<String, String> {
        spoken(line, &garden(), System::Us, now()).map(|spoken| spoken.told)
    }

    #[test]
    fn a_line_is_read_into_spot_number_and_time_of_day() {
        for (line, back) in [
            ("36 in the greenhouse at dawn", "Greenhouse: low 36 °F, 25 Nov at dawn"),
            ("Thirty-six in the greenhouse at dawn.", "Greenhouse: low 36 °F, 25 Nov at dawn"),
            (
                "thirty six degrees, greenhouse, this morning",
                "Greenhouse: low 36 °F, 25 Nov at dawn",
            ),
            ("fence bed 29 last night", "Fence bed: low 29 °F, 25 Nov at dawn"),
            ("low 31 high 52 low bed", "Low bed: low 31 °F and high 52 °F, 25 Nov now"),
            ("low bed 52 to 31", "Low bed: high 52 °F and low 31 °F, 25 Nov now"),
            ("78 in the cold frame at noon", "Cold frame: air 78 °F, 24 Nov at noon"),
            ("41F outside at 8:15 pm yesterday", "In the open: air 41 °F, 24 Nov 20:15"),
            ("minus 2 C outdoors at 7 am", "In the open: air 28 °F, 25 Nov 7:00"),
            ("soil 47 in the Fence bed", "Fence bed: soil 47 °F, 25 Nov now"),
            ("31 low in the open yesterday morning", "In the open: low 31 °F, 24 Nov at dawn"),
            ("28f, reference spot, dawn", "In the open: low 28 °F, 25 Nov at dawn"),
        ] {
            assert_eq!(told(line).as_deref(), Ok(back), "{line}");
        }
    }

    #[test]
    fn what_is_missing_is_asked_for() {
        for (line, why) in [
            ("36 at dawn", "Which thermometer"),
            ("greenhouse at dawn", "No temperature"),
            ("", "Which thermometer"),
            ("36 in the greenhouse and the low bed", "Two places"),
            ("900 in the greenhouse", "No garden"),
            ("soil minus 31 C in the low bed", "No soil"),
            ("low 31 low 29 greenhouse", "Two numbers"),
            ("1 2 3 4 5 greenhouse", "More numbers"),
        ] {
            let refused = told(line).unwrap_err();
            assert!(refused.starts_with(why), "{line}: {refused}");
        }
    }

    #[test]
    fn the_record_keeps_the_degrees_as_they_were_said() {
        let spoken =
            spoken("-2.5 C in the fence bed at dawn", &garden(), System::Us, now()).unwrap();
        let What::Reading(what) = spoken.draft.what else { panic!("no reading") };
        assert_eq!(what.low.as_deref(), Some("-2.5 C"));
        assert_eq!(spoken.draft.about.bed.as_deref(), Some("fence"));
    }

    proptest! {
        #[test]
        fn no_line_is_worse_than_a_refusal(line in ".{0,60}") {
            let _ = told(&line);
        }

        /// Whatever the whole number, it comes back as it was said.
        #[test]
        fn a_number_comes_back(degrees in 0..120i32) {
            let back = told(&format!("greenhouse {degrees} at dawn")).unwrap();
            prop_assert_eq!(back, format!("Greenhouse: low {degrees} °F, 25 Nov at dawn"));
        }
    }
}
