//! What the record tells of beds on a cold night: what grows there, and what past nights were.

use chrono::{Days, NaiveDate, NaiveDateTime, Timelike};
use uom::si::temperature_interval::degree_fahrenheit;

use super::question::{BedTonight, Standing};
use crate::{
    catalogue::{self, Crop, Hardiness},
    frost::{
        dew_point::{Humidity, from_humidity},
        evening::Evening,
        expected::above,
        low::{Against, BedNight},
        midday::Midday,
        night::Night,
        reset::Reset,
    },
    garden::{Bed, Came, Dated, Garden, Planting},
    given::Readable,
    journal::{What, details::Reading},
    place::site::Site,
    quantity::{Quantity, Temperature},
    season::{Growing, How, Year},
    text::small,
    words::{
        sky::{Sky, Wind},
        spot::Spot,
    },
};

/// Residue laid on top counts for so many days, unless a look found most of it gone (considered).
const RESIDUE_LASTS_DAYS: i64 = 90;
/// A share of the residue left below which it counts no more (considered).
const RESIDUE_GONE: f64 = 0.3;

/// Plants set out for so many days count as used to the cold (derived from hardening in 7 to 14 days).
const SETTLED_DAYS: i64 = 14;
/// Days outdoors in the tray that make them so earlier.
const HARDENED_DAYS: usize = 7;

/// The hours of midday, when the sun stands high.
const MIDDAY_H: core::ops::Range<u32> = 11..16;
/// Readings so many hours from each other are of the same midday.
const SAME_MIDDAY_H: i64 = 2;

/// By this hour no night's cover is off yet.
const DAWN_H: u32 = 5;

/// Before this hour a reading is not that of an evening: the method wants two hours after sunset.
const DUSK_FROM_H: u32 = 17;

/// Where trays stand in the cold, as the record says it, what that is called, and whether it is under glass.
const TRAY_SPOTS: [(Spot, &str, bool); 3] = [
    (Spot::Greenhouse, "Greenhouse", true),
    (Spot::ColdFrame, "Cold frame", true),
    (Spot::Outdoors, "Trays outdoors", false),
];

/// What stands out at night and does not come through hard frosts by itself, each with its place:
/// "pak choi in Gate bed".
pub(crate) fn tender_out(garden: &Garden, today: NaiveDate) -> Vec<String> {
    let stages = Stages { year: None, today: Some(today) };
    let beds = garden.beds.iter().filter(|bed| bed.gone.is_none());
    let mut out: Vec<(Standing, String)> = Vec::new();
    for bed in beds {
        let here = bed.plantings.iter();
        let here = here.filter_map(|planting| standing(planting, garden, &stages));
        out.extend(here.map(|it| (it, format!("in {}", bed.name))));
    }
    let trays = standing_at(Spot::Outdoors, garden).map(|it| (it, "in a tray outdoors".to_owned()));
    out.extend(trays);
    out.retain(|(it, _)| !(it.hardened && it.crop.hardiness() >= Hardiness::Hardy));
    let words = |(it, place): (Standing, String)| format!("{} {place}", small(it.crop.name()));
    out.into_iter().map(words).collect()
}

/// Every bed in which something grows that the catalogue knows, and every cold spot where trays stand.
pub(super) fn beds(garden: &Garden, stages: &Stages) -> Vec<BedTonight> {
    let nights = Nights::of(garden);
    garden
        .beds
        .iter()
        .filter(|bed| bed.gone.is_none() && !bed.plantings.is_empty())
        .map(|bed| of(bed, garden, &nights, stages))
        .chain(TRAY_SPOTS.map(|spot| trays(spot, garden, &nights)))
        .filter(|bed| !bed.crops.is_empty())
        .collect()
}

/// The trays at a spot. They are taken as used to the cold they live in.
fn trays(
    (spot, name, under_glass): (Spot, &str, bool),
    garden: &Garden,
    nights: &Nights,
) -> BedTonight {
    let readings = garden.readings.iter();
    let own: Vec<_> = readings
        .filter(|reading| under_glass && reading.what.spot.as_deref() == Some(spot.word()))
        .collect();
    BedTonight {
        name: Some(name.to_owned()),
        nights: nights.at(&own),
        under_glass,
        crops: standing_at(spot, garden).collect(),
        ..BedTonight::default()
    }
}

fn standing_at(spot: Spot, garden: &Garden) -> impl Iterator<Item = Standing> {
    let growing = garden.starts.iter().filter(|start| start.is_growing());
    let here = growing.filter(move |start| start.spot() == Some(spot.word()));
    here.filter_map(|start| {
        let crop = catalogue::crop(&start.crop).ok()?;
        Some(Standing::of(crop, true, start.left.or(start.count)))
    })
}

/// The bed of that id or name.
pub(super) fn bed(garden: &Garden, name: &str, stages: &Stages) -> Option<BedTonight> {
    let wanted = small(name);
    let bed = garden.beds.iter().find(|bed| bed.id == name || small(&bed.name) == wanted)?;
    Some(of(bed, garden, &Nights::of(garden), stages))
}

/// Clear, still evenings at the reference spot with the low that followed.
pub(super) fn evenings(garden: &Garden) -> Vec<Evening> {
    Nights::of(garden)
        .0
        .into_iter()
        .filter_map(|(_, night)| {
            let calm = night.sky == Some(Sky::Clear) && night.wind == Some(Wind::Still);
            let (air, dew_point) = night.dusk.filter(|_| calm)?;
            let low = night.reference?;
            Some(Evening { air, dew_point, low })
        })
        .collect()
}

/// The past nights of a bed.
pub(super) fn nights(bed: &Bed, garden: &Garden) -> Vec<BedNight> {
    bare_nights(bed, garden, &Nights::of(garden))
}

/// Those on which no cover lay on it: what was read under one tells nothing of the bare bed.
fn bare_nights(bed: &Bed, garden: &Garden, nights: &Nights) -> Vec<BedNight> {
    // Gathered once, since ten years of nights look for the last of them.
    let covered = garden.happened_in(&bed.id).filter_map(|it| match it.entry.what {
        What::Covered(_) => Some((it.entry.when, true)),
        What::Uncovered(_) => Some((it.entry.when, false)),
        _ => None,
    });
    let covered: Vec<(NaiveDateTime, bool)> = covered.collect();
    let bare = bed.readings.iter().filter(|reading| {
        let dawn = reading.when.date().and_hms_opt(DAWN_H, 0, 0);
        let last = covered.iter().find(|(when, _)| dawn.is_some_and(|dawn| *when <= dawn));
        last.is_none_or(|(_, covered)| !covered)
    });
    nights.at(&bare.collect::<Vec<_>>())
}

/// The sky and the wind of the night that ended on this morning, as the record tells.
pub(crate) fn told_of_night(garden: &Garden, morning: NaiveDate) -> Option<(Sky, Option<Wind>)> {
    let nights = Nights::of(garden).0;
    let (_, known) = nights.into_iter().find(|(date, _)| *date == morning)?;
    Some((known.sky?, known.wind))
}

/// Whether it was read at the reference spot, where none is named.
fn is_in_the_open(reading: &Reading) -> bool {
    reading.spot.as_deref().is_none_or(|spot| spot == Spot::Outdoors.word())
}

/// Middays under glass with the air in the open read within [`SAME_MIDDAY_H`] of it; the sky from either.
pub(crate) fn middays(garden: &Garden, spot: Spot) -> Vec<Midday> {
    let inside = garden.readings.iter().filter(|reading| {
        MIDDAY_H.contains(&reading.when.hour()) && reading.what.spot.as_deref() == Some(spot.word())
    });
    let mut middays = Vec::new();
    for one in inside {
        let mut beside = garden.readings.iter();
        let other = beside.find(|other| {
            is_in_the_open(&other.what)
                && (other.when - one.when).num_minutes().abs() <= SAME_MIDDAY_H * 60
                && other.what.air.is_some()
        });
        let Some(other) = other else { continue };
        let sky = word(&one.what.sky).or_else(|| word(&other.what.sky));
        if let (Some(inside), Some(outside), Some(sky)) =
            (temperature(&one.what.air), temperature(&other.what.air), sky)
        {
            middays.push(Midday { inside, outside, sky });
        }
    }
    middays
}

/// What the trays at a spot are called.
pub(crate) fn trays_at(garden: &Garden, spot: Spot) -> Vec<String> {
    let here = garden
        .starts
        .iter()
        .filter(|start| start.is_growing() && start.spot() == Some(spot.word()));
    here.map(|start| start.name.clone().unwrap_or_else(|| start.crop.clone())).collect()
}

/// What stands out that the catalogue does not know: "our own bean in Low bed".
pub(super) fn unknown(garden: &Garden) -> Vec<String> {
    let beds = garden.beds.iter().filter(|bed| bed.gone.is_none());
    let mut unknown = Vec::new();
    for bed in beds {
        for planting in &bed.plantings {
            if catalogue::crop(&planting.crop).is_err() {
                unknown.push(format!("{} in {}", planting.crop, bed.name));
            }
        }
    }
    unknown
}

/// Whether anything stands out in the cold that the catalogue knows.
pub fn holds_anything(garden: &Garden) -> bool {
    !beds(garden, &Stages { year: None, today: None }).is_empty()
}

fn is_recent(moment: NaiveDateTime, days: i64, today: Option<NaiveDate>) -> bool {
    today.is_some_and(|today| (today - moment.date()).num_days() < days)
}

/// One planting, where the catalogue knows its crop.
fn standing(planting: &Planting, garden: &Garden, stages: &Stages) -> Option<Standing> {
    let today = stages.today;
    let hardened = match planting.came {
        Came::Planted(start) if is_recent(planting.since, SETTLED_DAYS, today) => start
            .and_then(|start| garden.start(start))
            .is_some_and(|start| start.hardening.len() >= HARDENED_DAYS),
        Came::Planted(_) | Came::Seeded => true,
    };
    let crop = catalogue::crop(&planting.crop).ok()?;
    let plain = Standing::of(crop, hardened, planting.left.or(planting.count));
    Some(stages.of(crop, planting, plain))
}

/// The day, and the place's usual year where it is known.
pub(super) struct Stages {
    year: Option<Year>,
    today: Option<NaiveDate>,
}

impl Stages {
    pub(super) fn new(site: &Site, today: Option<NaiveDate>) -> Self {
        Self { year: Year::of(site), today }
    }

    /// With what kills a planting at the stage it has come to: by its growth, or by the part that it bears
    /// in that season.
    fn of(&self, crop: &'static Crop, planting: &Planting, plain: Standing) -> Standing {
        let Some((year, today)) = self.year.as_ref().zip(self.today) else { return plain };
        let part = crop.part();
        if let Some(part) = part
            && let Some(heat) = part.heat
        {
            let so_far = year.spring_heat(today);
            let within = heat.least.celsius_days()..heat.most.celsius_days();
            let is_there = within.contains(&so_far);
            let at_its_stage = is_there.then_some(part.killed_at);
            return Standing { at_its_stage, part_is_there: is_there, ..plain };
        }
        let how = match planting.came {
            Came::Seeded => How::Sown,
            Came::Planted(_) => How::SetOut,
        };
        let Ok(growing) = Growing::new(year, crop, how) else { return plain };
        let since = planting.since.date();
        let at_its_stage = Some(growing.killed_below(since, today));
        Standing { at_its_stage, part_is_there: growing.bears_its_part(since, today), ..plain }
    }
}

fn of(bed: &Bed, garden: &Garden, nights: &Nights, stages: &Stages) -> BedTonight {
    let today = stages.today;
    let residue_on_top = bed.residue.last().is_some_and(|laid| {
        let on_top = laid.what.placement.as_deref().is_none_or(|place| place == "on-top");
        let seen = bed.check_ins.iter().rev().find(|look| look.when > laid.when);
        let gone = seen.and_then(|look| look.what.left).is_some_and(|left| left < RESIDUE_GONE);
        on_top && !gone && is_recent(laid.when, RESIDUE_LASTS_DAYS, today)
    });
    let crops = bed.plantings.iter();
    let crops = crops.filter_map(|planting| standing(planting, garden, stages));
    BedTonight {
        id: Some(bed.id.clone()),
        name: Some(bed.name.clone()),
        nights: bare_nights(bed, garden, nights),
        residue_on_top,
        crops: crops.collect(),
        ..BedTonight::default()
    }
}

/// What is known of one night, by the morning on which it ended.
#[derive(Clone, Copy, Default)]
struct Known {
    forecast: Option<Temperature>,
    reference: Option<Temperature>,
    /// At the spot itself.
    own: Option<Temperature>,
    sky: Option<Sky>,
    wind: Option<Wind>,
    dusk: Option<(Temperature, Option<Temperature>)>,
}

/// In order of the mornings.
struct Nights(Vec<(NaiveDate, Known)>);

impl Nights {
    /// From the readings of the reference spot.
    fn of(garden: &Garden) -> Self {
        let in_the_open = garden.readings.iter().filter(|reading| is_in_the_open(&reading.what));
        let mut nights = Self(Vec::new());
        nights.add(&in_the_open.collect::<Vec<_>>(), true);
        nights
    }

    /// What is known of the night that ended on this morning.
    fn night(&mut self, morning: NaiveDate) -> Option<&mut Known> {
        let at = self.0.partition_point(|(date, _)| *date < morning);
        if self.0.get(at).is_none_or(|(date, _)| *date != morning) {
            self.0.insert(at, (morning, Known::default()));
        }
        self.0.get_mut(at).map(|(_, known)| known)
    }

    /// Adds the readings of one thermometer, oldest first.
    fn add(&mut self, readings: &[&Dated<Reading>], at_reference: bool) {
        for reading in readings {
            self.add_one(reading, readings, at_reference);
        }
    }

    fn add_one(&mut self, reading: &Dated<Reading>, all: &[&Dated<Reading>], at_reference: bool) {
        let what = &reading.what;
        // A low is dated by the morning it belongs to, whenever it was read that day.
        if let Some(low) = temperature(&what.low)
            && is_of_one_night(reading, low, all)
            && let Some(known) = self.night(reading.when.date())
        {
            let which = if at_reference { &mut known.reference } else { &mut known.own };
            *which = Some(low);
        }
        // The sky of a noon is not the night's.
        let of_day = what.air.is_some() && reading.when.hour() < DUSK_FROM_H;
        if of_day && what.low.is_none() && what.forecast_low.is_none() {
            return;
        }
        // What is said of the sky beside a low is said of the night the low is of.
        let of_low = what.low.is_some() && what.forecast_low.is_none();
        let morning = if of_low { Some(reading.when.date()) } else { next_morning(reading.when) };
        let Some(known) = morning.and_then(|morning| self.night(morning)) else {
            return;
        };
        known.forecast = temperature(&what.forecast_low).or(known.forecast);
        known.sky = word(&what.sky).or(known.sky);
        known.wind = word(&what.wind).or(known.wind);
        if at_reference
            && reading.when.hour() >= DUSK_FROM_H
            && let Some(air) = temperature(&what.air)
        {
            let humid = |percent: f64| Humidity::from_fraction(percent / 100.0);
            let by_humidity = what.humidity.and_then(humid).map(|it| from_humidity(air, it));
            known.dusk = Some((air, temperature(&what.dew_point).or(by_humidity)));
        }
    }

    /// The nights of a spot with these readings: each low read there beside what else is known of that night.
    ///
    /// One low a night counts, the last one written, so that a cold dawn read twice is one.
    fn at(&self, readings: &[&Dated<Reading>]) -> Vec<BedNight> {
        let mut own = Self(self.0.clone());
        own.add(readings, false);
        let mut nights = Vec::new();
        for (_, known) in own.0 {
            let (Some(bed_low), Some(sky)) = (known.own, known.sky) else {
                continue;
            };
            let night = Night::of(sky, known.wind.unwrap_or(Wind::Light));
            for (against, other_low) in
                [(Against::Forecast, known.forecast), (Against::Reference, known.reference)]
            {
                nights.extend(other_low.map(|other_low| BedNight {
                    against,
                    other_low,
                    bed_low,
                    night,
                }));
            }
        }
        nights
    }
}

fn temperature(text: &Option<String>) -> Option<Temperature> {
    <Temperature as Quantity>::read(text.as_deref()?).ok()
}

/// Whether a low belongs to the night before it was read. A thermometer set back the morning before
/// may still show that dawn, unless it is now clearly lower; one set back nobody knows when may show any.
fn is_of_one_night(reading: &Dated<Reading>, low: Temperature, all: &[&Dated<Reading>]) -> bool {
    let reset = match reading.what.reset.as_deref().map(Reset::read) {
        None | Some(Ok(Reset::Afternoon)) => return true,
        Some(reset) => reset,
    };
    let yesterday = all
        .iter()
        .rev()
        .filter(|before| before.when.date().succ_opt() == Some(reading.when.date()));
    let before = yesterday.filter_map(|before| temperature(&before.what.low)).next();
    reset == Ok(Reset::Morning)
        && before.is_some_and(|before| above(low, before).get::<degree_fahrenheit>() < -1.0)
}

/// The morning that ends the night a note is about: that of the next day for one made after noon.
fn next_morning(when: NaiveDateTime) -> Option<NaiveDate> {
    let days = if when.hour() >= 12 { 1 } else { 0 };
    when.date().checked_add_days(Days::new(days))
}

fn word<T: Readable>(text: &Option<String>) -> Option<T> {
    T::read(text.as_deref()?).ok()
}
