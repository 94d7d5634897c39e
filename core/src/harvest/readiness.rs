//! Topic `harvest-readiness`: is it at its prime, and when do I look again?
//!
//! Models: [`verdict`](super::verdict) over the signs of the sheet, [`age`](super::age) in support,
//! [`again`](super::again) for the next look. From a bed in the record come the dates, the gardener's
//! own pace of picking and the heat earlier seasons took.

use chrono::{NaiveDate, TimeDelta};
use uom::si::{thermodynamic_temperature::degree_celsius, time::day};

use super::{
    again::{self, Look, Looking, Why, look_again},
    age::heat_between,
    chosen::{Chosen, choose},
    cues::Keep,
    grades,
    measures::{Measures, Percent},
    own,
    questions::refuse_sign,
    stage::Stage,
    telling::{self, Told},
    verdict::{Ages, Sample, Seen, judge, judge_bed},
};
use crate::{
    ask::Asking,
    catalogue::{Hardiness, Start},
    garden::{Bed, Garden, Planting},
    given::{Faults, Given, Text, asked},
    place::{
        site::{Site, SiteAsked},
        sun,
    },
    quantity::{Length, Temperature, Time},
    telling::Telling,
    time::Range,
};

asked! {
    /// Is it ready, at its prime or past?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<Text>,
        /// What it is grown for, where there is more than one use: snap, shell or dry beans.
        purpose: Given<Text>,
        /// The signs seen on one of them.
        cues: Vec<Given<Text>>,
        /// What was measured on one of them.
        measures: Option<MeasuresAsked>,
        /// Several looked at, in place of one.
        samples: Vec<SampleAsked>,
        /// When it was sown; from the record where a bed is named.
        sown: Given<NaiveDate>,
        /// When it was planted out; from the record where a bed is named.
        transplanted: Given<NaiveDate>,
        /// When the flower opened, the silk showed or the fruit set.
        flowered: Given<NaiveDate>,
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// When the gardener comes back.
        next_visit: Given<NaiveDate>,
        /// A frost that is forecast.
        frost: Given<NaiveDate>,
        /// The bed in the record, by its id or name; the one where the crop grows, if absent.
        bed: Given<Text>,
    }
}

asked! {
    /// One looked at, or several alike.
    pub struct SampleAsked {
        /// The signs seen on it.
        cues: Vec<Given<Text>>,
        /// How many were alike; one if absent.
        count: Given<u32>,
        /// What was measured on it.
        measures: Option<MeasuresAsked>,
    }
}

asked! {
    /// What was measured.
    pub struct MeasuresAsked {
        /// From end to end.
        length: Given<Length>,
        /// Across, at the widest.
        width: Given<Length>,
        /// From the soil up.
        height: Given<Length>,
        /// Share that is in its ripe colour.
        colour: Given<Percent>,
        /// Share of the tops that have fallen over.
        tops_down: Given<Percent>,
        /// Leaves that are still green.
        green_leaves: Given<u32>,
        /// Soluble solids of the juice, percent.
        brix: Given<Percent>,
    }
}

/// How far along it is.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The stage; null after a stop, where signs exclude each other, or where no sign was told.
    pub stage: Option<Stage>,
    /// The stages still possible, in order; empty after a stop.
    pub allowed: Vec<Stage>,
    /// How many of the samples are at each stage; null where no samples were given.
    pub tally: Option<TallyTold>,
    /// What decided: ids of signs, names of measures, `days-from-flower`, `days` or `heat`.
    pub decisive: Vec<&'static str>,
    /// Two signs that exclude each other.
    pub clash: Option<[&'static str; 2]>,
    /// When to look again; null where nothing is left to look at, or today is not given.
    pub look_again: Option<Range>,
    /// How long what is at its prime stays there; null unless the stage is prime, and while short days
    /// let leaves stand still.
    pub best_until: Option<Range>,
    /// Whether some will be past its prime on the day of the next visit; null where none was given.
    pub late_by_next_visit: Option<bool>,
    /// What it is good for at this stage.
    pub good_for: Vec<&'static str>,
    /// How it keeps after picking.
    pub keeps: Vec<Keeps>,
    /// What the trade would call it, by its measures; null where it has no name for them.
    pub trade_grade: Option<&'static str>,
    /// What to do about the signs that end the question.
    pub stops: Vec<&'static str>,
}

/// How many are at each stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub struct TallyTold {
    /// Not ready.
    pub not_yet: u32,
    /// At its best.
    pub prime: u32,
    /// Getting worse.
    pub going: u32,
    /// Past it.
    pub past: u32,
}

/// How long it keeps after picking, and in what air.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Keeps {
    /// Which kind or state; null where there is one.
    pub kind: Option<&'static str>,
    /// The coolest air for it, °C.
    pub from_c: f64,
    /// The warmest air for it, °C.
    pub to_c: f64,
    /// The driest and the moistest air for it, percent relative humidity.
    pub humidity_percent: [u8; 2],
    /// The fewest and the most days it keeps.
    pub days: [u16; 2],
}

/// The dates of a question, read.
#[derive(Clone, Copy, Default)]
struct Dates {
    sown: Option<NaiveDate>,
    transplanted: Option<NaiveDate>,
    flowered: Option<NaiveDate>,
    next_visit: Option<NaiveDate>,
    frost: Option<NaiveDate>,
}

/// What the record holds of the bed that was named.
#[derive(Clone, Copy, Default)]
pub(super) struct Recorded<'a> {
    pub(super) bed: Option<&'a Bed>,
    pub(super) planting: Option<&'a Planting>,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let site = SiteAsked::read(asked.site.as_ref(), asking.garden, faults);
    let dates = asked.dates(asking.today, faults);
    let chosen = choose(&asked.crop, &asked.purpose, faults);
    let recorded = asked.recorded(asking, chosen, faults);
    if !asked.samples.is_empty() && (!asked.cues.is_empty() || asked.measures.is_some()) {
        faults.add(
            "cues",
            "",
            "either these or samples",
            "signs of one and samples of several were both given",
        );
    }
    let one = chosen.and_then(|chosen| seen(chosen, &asked.cues, asked.measures.as_ref(), faults));
    let several: Vec<_> = asked
        .samples
        .iter()
        .map(|sample| sample.read(chosen, faults))
        .collect();
    let several = several.into_iter().collect::<Option<Vec<_>>>();
    let (chosen, one, several) = (chosen?, one?, several?);
    let Chosen { crop, sheet } = chosen;

    let dates = dates.filled(asking, recorded);
    let ages = ages(chosen, &site, dates, asking);
    let (verdict, tally) = if several.is_empty() {
        (judge(sheet, &one, &ages), None)
    } else {
        let judged = several.iter().map(|(seen, count)| Sample {
            count: *count,
            verdict: judge(sheet, seen, &ages),
        });
        let samples: Vec<Sample> = judged.collect();
        let (verdict, tally) = judge_bed(sheet, &samples);
        (verdict, Some(tally))
    };
    let all_seen = || core::iter::once(&one).chain(several.iter().map(|(seen, _)| seen));
    let mut stops = Vec::new();
    for stop in all_seen().flat_map(|seen| &seen.stops) {
        if !stops
            .iter()
            .any(|known: &&super::cues::Stop| known.id() == stop.id())
        {
            stops.push(*stop);
        }
    }
    let mean = asking
        .today
        .zip(site.air.as_ref())
        .map(|(today, air)| own::usual_mean(air, today));
    let tender = matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender);
    let look = asking.today.filter(|_| stops.is_empty()).and_then(|today| {
        look_again(&Looking {
            sheet,
            today,
            stage: verdict.stage,
            any_going: tally.is_some_and(|tally| tally.at(Stage::Going) > 0),
            mean,
            flowered: dates.flowered,
            short_days: site
                .latitude
                .and_then(|latitude| sun::short_days(latitude, today)),
            frost: dates.frost.filter(|_| tender),
            own: recorded
                .bed
                .zip(recorded.planting)
                .zip(site.air.as_ref())
                .and_then(|((bed, planting), air)| own::pace(bed, planting, crop, sheet, air)),
        })
    });
    let still = look.is_some_and(|look| look.why == Why::ShortDays);
    let until = best_until(chosen, verdict.stage.filter(|_| !still), mean, asking.today);
    let late = dates
        .next_visit
        .zip(asking.today)
        .zip(verdict.stage)
        .map(|((visit, today), stage)| again::too_late_by(sheet, stage, today, visit, mean));
    let grade = if several.is_empty() {
        grades::grade(sheet, &one.measures)
    } else {
        None
    };

    let told = Told {
        chosen,
        verdict: &verdict,
        tally,
        signs: all_seen()
            .flat_map(|seen| seen.signs.iter().copied())
            .collect(),
        measures: one.measures,
        stops: &stops,
        look,
        until,
        next_visit: dates.next_visit.filter(|_| late == Some(true)),
        frost: dates.frost.filter(|_| tender),
        heat_is_own: ages.heat.is_some() && own_sums(chosen, &site, asking).is_some(),
        grade,
        recorded,
        asking,
    };
    let telling = telling::tell(&told);
    let keeps = matches!(verdict.stage, Some(Stage::Prime | Stage::Going));
    let answer = Answer {
        stage: verdict.stage,
        allowed: verdict.allowed.clone(),
        tally: tally.map(|tally| TallyTold {
            not_yet: tally.at(Stage::NotYet),
            prime: tally.at(Stage::Prime),
            going: tally.at(Stage::Going),
            past: tally.at(Stage::Past),
        }),
        decisive: verdict.decisive.clone(),
        clash: verdict.clash,
        look_again: look.map(
            |Look {
                 early,
                 likely,
                 late,
                 ..
             }| Range {
                early: Some(early),
                likely,
                late,
            },
        ),
        best_until: until,
        late_by_next_visit: late,
        good_for: telling::good_for(sheet, verdict.stage).to_vec(),
        keeps: sheet
            .keep()
            .iter()
            .filter(|_| keeps)
            .map(Keeps::of)
            .collect(),
        trade_grade: grade.map(|grade| grade.name),
        stops: stops.iter().map(|stop| stop.tell()).collect(),
    };
    Some((telling, answer))
}

impl Asked {
    fn dates(&self, today: Option<NaiveDate>, faults: &mut Faults) -> Dates {
        let mut past = |given: &Given<NaiveDate>| {
            let date = given.read(faults)?;
            match today {
                None => {
                    faults.add(
                        "today",
                        "",
                        "a date such as 2026-11-25",
                        "this is needed to tell how old it is",
                    );
                    None
                }
                Some(today) if date > today => {
                    given.refuse(faults, "today or a day before", "that is still to come");
                    None
                }
                Some(_) => Some(date),
            }
        };
        let (sown, transplanted, flowered) = (
            past(&self.sown),
            past(&self.transplanted),
            past(&self.flowered),
        );
        let mut future = |given: &Given<NaiveDate>| {
            let date = given.read(faults)?;
            if today.is_some_and(|today| date < today) {
                given.refuse(faults, "today or a day to come", "that is over");
                return None;
            }
            Some(date)
        };
        let (next_visit, frost) = (future(&self.next_visit), future(&self.frost));
        for (given, date) in [
            (&self.transplanted, transplanted),
            (&self.flowered, flowered),
        ] {
            if sown.zip(date).is_some_and(|(sown, date)| date < sown) {
                given.refuse(faults, "a day after sowing", "that is before it was sown");
            }
        }
        Dates {
            sown,
            transplanted,
            flowered,
            next_visit,
            frost,
        }
    }

    fn recorded<'a>(
        &self,
        asking: &Asking<'a>,
        chosen: Option<Chosen>,
        faults: &mut Faults,
    ) -> Recorded<'a> {
        let Some(Text(called)) = self.bed.read(faults) else {
            return chosen
                .map(|chosen| only_one(asking.garden, chosen))
                .unwrap_or_default();
        };
        let by_name = || {
            asking
                .garden
                .beds
                .iter()
                .find(|bed| bed.name.eq_ignore_ascii_case(&called))
        };
        let bed = asking.garden.bed(&called).or_else(by_name);
        if bed.is_none() {
            self.bed.refuse(
                faults,
                "a bed of the record, by its name",
                "there is no bed of that name in the record",
            );
        }
        let planting = bed
            .zip(chosen)
            .and_then(|(bed, chosen)| own::planting(bed, chosen.crop));
        Recorded { bed, planting }
    }
}

/// The one bed in which this crop grows, if there is but one.
fn only_one(garden: &Garden, chosen: Chosen) -> Recorded<'_> {
    let mut growing = garden
        .beds
        .iter()
        .filter_map(|bed| Some((bed, own::planting(bed, chosen.crop)?)));
    match (growing.next(), growing.next()) {
        (Some((bed, planting)), None) => Recorded {
            bed: Some(bed),
            planting: Some(planting),
        },
        _ => Recorded::default(),
    }
}

impl Dates {
    /// With what the record tells filled in where nothing was given.
    fn filled(self, asking: &Asking<'_>, recorded: Recorded<'_>) -> Self {
        let Some(planting) = recorded.planting else {
            return self;
        };
        let known = |date: &NaiveDate| asking.today.is_some_and(|today| *date <= today);
        let (sown, transplanted) = own::began(asking.garden, planting);
        Self {
            sown: self.sown.or(sown.filter(known)),
            transplanted: self.transplanted.or(transplanted.filter(known)),
            ..self
        }
    }
}

impl SampleAsked {
    fn read(&self, chosen: Option<Chosen>, faults: &mut Faults) -> Option<(Seen, u32)> {
        let count = if self.count.is_given() {
            self.count.within(1, 10_000, "1 to 10000", faults)
        } else {
            Some(1)
        };
        let seen = seen(chosen?, &self.cues, self.measures.as_ref(), faults);
        seen.zip(count)
    }
}

fn seen(
    chosen: Chosen,
    cues: &[Given<Text>],
    measures: Option<&MeasuresAsked>,
    faults: &mut Faults,
) -> Option<Seen> {
    let mut seen = Seen {
        measures: measures
            .map(|measures| measures.read(chosen, faults))
            .unwrap_or_default(),
        ..Seen::default()
    };
    for given in cues {
        let Some(Text(name)) = given.read(faults) else {
            continue;
        };
        if let Some((_, sign)) = chosen.sheet.sign(&name) {
            if !seen.signs.iter().any(|known| known.id() == sign.id()) {
                seen.signs.push(sign);
            }
        } else if let Some(stop) = chosen.sheet.stop(&name) {
            seen.stops.push(stop);
        } else {
            refuse_sign(chosen.sheet, given, faults);
        }
    }
    Some(seen)
}

impl MeasuresAsked {
    fn read(&self, chosen: Chosen, faults: &mut Faults) -> Measures {
        let sizes = chosen.sheet.sizes();
        let mut length = |given: &Given<Length>| {
            use uom::si::length::meter;
            given.within(
                Length::new::<meter>(0.0),
                Length::new::<meter>(5.0),
                "0 to 5 m",
                faults,
            )
        };
        let (long, wide, tall) = (
            length(&self.length),
            length(&self.width),
            length(&self.height),
        );
        let measures = Measures {
            length: long,
            width: wide,
            height: tall,
            colour: self.colour.read(faults),
            tops_down: self.tops_down.read(faults),
            green_leaves: self.green_leaves.read(faults),
            brix: self.brix.read(faults),
        };
        // A length tells a carrot's grade though it is no sign; the other measures are signs or nothing.
        let names = [
            (
                super::measures::Measure::Height,
                self.height.field(),
                self.height.text(),
            ),
            (
                super::measures::Measure::Colour,
                self.colour.field(),
                self.colour.text(),
            ),
            (
                super::measures::Measure::TopsDown,
                self.tops_down.field(),
                self.tops_down.text(),
            ),
            (
                super::measures::Measure::GreenLeaves,
                self.green_leaves.field(),
                self.green_leaves.text(),
            ),
            (
                super::measures::Measure::Brix,
                self.brix.field(),
                self.brix.text(),
            ),
        ];
        for (measure, field, text) in names {
            if text.is_some() && !sizes.iter().any(|size| size.what() == measure) {
                let known: Vec<&str> = sizes.iter().map(|size| size.what().word()).collect();
                faults.add(
                    field,
                    text.unwrap_or_default(),
                    if known.is_empty() {
                        "no measure".to_owned()
                    } else {
                        known.join(", ")
                    },
                    "that tells nothing about this crop",
                );
            }
        }
        measures
    }
}

/// What is known of the crop's age.
fn ages(chosen: Chosen, site: &Site, dates: Dates, asking: &Asking<'_>) -> Ages {
    let Chosen { crop, sheet } = chosen;
    let since = |date: Option<NaiveDate>| Some(asking.today? - date?);
    let from_sowing = crop.starts().first() == Some(&Start::Sow);
    let began = if from_sowing {
        dates.sown
    } else {
        dates.transplanted
    };
    let heat = sheet.heat().zip(site.air.as_ref()).and_then(|(sum, air)| {
        let (sown, today) = (dates.sown?, asking.today?);
        let heat = heat_between(sum, sown, today, |date| own::usual_air(air, date));
        let sums = own_sums(chosen, site, asking).unwrap_or(sum.sums());
        // Two years of days are no season; the usual air says nothing beyond one.
        (today - sown < TimeDelta::days(366)).then_some((heat, sums))
    });
    Ages {
        flower: since(dates.flowered),
        planting: since(began)
            .zip(crop.days_to_harvest())
            .map(|(age, span)| (age, [span.least, span.most])),
        heat,
    }
}

fn own_sums(
    chosen: Chosen,
    site: &Site,
    asking: &Asking<'_>,
) -> Option<[super::heat::DegreeDays; 2]> {
    own::sums(
        asking.garden,
        chosen.crop,
        chosen.sheet.heat()?,
        site.air.as_ref()?,
    )
}

fn best_until(
    chosen: Chosen,
    stage: Option<Stage>,
    mean: Option<Temperature>,
    today: Option<NaiveDate>,
) -> Option<Range> {
    if stage != Some(Stage::Prime) {
        return None;
    }
    let today = today?;
    let [least, most] = again::holds(chosen.sheet, mean).map(|time: Time| time.get::<day>());
    #[expect(clippy::cast_possible_truncation, reason = "at most 120 days")]
    let after = |days: f64| today.checked_add_signed(TimeDelta::days(days.round() as i64));
    Some(Range {
        early: after(least),
        likely: after(f64::midpoint(least, most)),
        late: after(most),
    })
}

impl Keeps {
    fn of(keep: &Keep) -> Self {
        let [from, to] = keep
            .air()
            .map(|air| (air.get::<degree_celsius>() * 10.0).round() / 10.0);
        // Turning 32 F into degrees Celsius may leave a minus on nothing.
        let plain = |degrees: f64| if degrees == 0.0 { 0.0 } else { degrees };
        Self {
            kind: keep.kind(),
            from_c: plain(from),
            to_c: plain(to),
            humidity_percent: keep.humidity_percent(),
            days: keep.days(),
        }
    }
}
