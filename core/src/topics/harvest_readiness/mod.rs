//! Topic `harvest-readiness`: is it at its prime, and when do I look again?
//!
//! Models: [`verdict`](crate::harvest::verdict) over the signs of the sheet, [`age`](crate::harvest::age) in support,
//! [`again`](crate::harvest::again) for the next look. From a bed in the record come the dates, the gardener's
//! own pace of picking and the heat earlier seasons took.

mod headline;
mod next_look;
mod question;
mod recorded;
mod rests_on;
mod support;
#[cfg(test)]
mod tests;
mod words;

pub(crate) use next_look::{NextLook, next_look};

use chrono::{NaiveDate, TimeDelta};
use uom::si::{thermodynamic_temperature::degree_celsius, time::day};

use self::{
    question::{Dates, seen},
    words::Told,
};
use crate::{
    asking::Asking,
    catalogue::{Hardiness, Start},
    given::Faults,
    harvest::{
        again::{self, Look, Looking, Why, look_again},
        age::heat_between,
        chosen::{Chosen, choose},
        cues::Keep,
        grades,
        heat::DegreeDays,
        own,
        stage::Stage,
        verdict::{Ages, Sample, judge, judge_bed},
    },
    place::{
        site::{Site, SiteAsked},
        sun,
    },
    quantity::{System, Temperature, Time},
    telling::Telling,
    time::Range,
};

pub use self::{
    question::{Asked, CountedAsked, MeasuresAsked, SampleAsked},
    support::HeatTold,
};

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
    /// The heat it had since sowing; null where no sum is published, or day or place is not known.
    pub heat: Option<HeatTold>,
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
    /// All of it in a sentence.
    pub words: String,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let dates = asked.dates(asking.today, faults);
    let named = asked.named(asking, faults);
    let crop = asked.crop.clone();
    let crop = crop.or(named.map(|(_, planting)| planting.crop.as_str()));
    let chosen = choose(&crop, &asked.purpose, faults);
    let recorded = asked.recorded(asking, chosen, named, faults);
    if !asked.samples.is_empty() && (!asked.cues.is_empty() || asked.measures.is_some()) {
        faults.add(
            "cues",
            "",
            "either these or samples",
            "signs of one and samples of several were both given",
        );
    }
    let one = chosen.and_then(|chosen| seen(chosen, &asked.cues, asked.measures.as_ref(), faults));
    let several: Vec<_> = asked.samples.iter().map(|sample| sample.read(chosen, faults)).collect();
    let several = several.into_iter().collect::<Option<Vec<_>>>();
    let counted: Vec<_> =
        asked.counted.iter().filter_map(|counted| counted.read(chosen, faults)).collect();
    let (chosen, one, mut several) = (chosen?, one?, several?);
    if !counted.is_empty() {
        // The one that was looked at closely is one of them.
        several.extend((!one.is_empty()).then(|| (one.clone(), 1)));
        several.extend(counted);
    }
    let Chosen { crop, sheet } = chosen;

    let dates = dates.filled(asking, recorded);
    let own_sums = own_sums(chosen, &site, asking);
    let ages = ages(chosen, &site, dates, asking.today, own_sums);
    let (verdict, tally) = if several.is_empty() {
        (judge(sheet, &one, &ages), None)
    } else {
        let judged = several
            .iter()
            .map(|(seen, count)| Sample { count: *count, verdict: judge(sheet, seen, &ages) });
        let samples: Vec<Sample> = judged.collect();
        let (verdict, tally) = judge_bed(sheet, &samples);
        (verdict, Some(tally))
    };
    let all_seen = || core::iter::once(&one).chain(several.iter().map(|(seen, _)| seen));
    let mut stops = Vec::new();
    for stop in all_seen().flat_map(|seen| &seen.stops) {
        if !stops.iter().any(|known: &&crate::harvest::cues::Stop| known.id() == stop.id()) {
            stops.push(*stop);
        }
    }
    let mean = asking.today.zip(site.air.as_ref()).map(|(today, air)| own::usual_mean(air, today));
    let tender = matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender);
    let look = asking.today.filter(|_| stops.is_empty()).and_then(|today| {
        look_again(&Looking {
            sheet,
            today,
            stage: verdict.stage,
            any_going: tally.is_some_and(|tally| tally.at(Stage::Going) > 0),
            mean,
            flowered: dates.flowered,
            short_days: site.latitude.and_then(|latitude| sun::short_days(latitude, today)),
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
    let grade = if several.is_empty() { grades::grade(sheet, &one.measures) } else { None };

    let heat_is_own = ages.heat.is_some() && own_sums.is_some();
    let told = Told {
        chosen,
        verdict: &verdict,
        tally,
        signs: all_seen().flat_map(|seen| seen.signs.iter().copied()).collect(),
        measures: one.measures,
        stops: &stops,
        look,
        until,
        next_visit: dates.next_visit.filter(|_| late == Some(true)),
        frost: dates.frost.filter(|_| tender),
        heat_is_own,
        grade,
        recorded,
        asking,
    };
    let telling = words::tell(&told);
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
        look_again: look.map(|Look { early, likely, late, .. }| Range {
            early: Some(early),
            likely,
            late,
        }),
        best_until: until,
        late_by_next_visit: late,
        good_for: words::good_for(sheet, verdict.stage).to_vec(),
        keeps: sheet
            .keep()
            .iter()
            .filter(|_| keeps)
            .map(|keep| Keeps::of(keep, asking.system))
            .collect(),
        heat: asking.today.zip(site.air.as_ref()).and_then(|(today, air)| {
            HeatTold::of(chosen, today, air, &ages, heat_is_own).map(|heat| heat.told(asking))
        }),
        trade_grade: grade.map(|grade| grade.name),
        stops: stops.iter().map(|stop| stop.tell()).collect(),
    };
    Some((telling, answer))
}

/// What is known of the crop's age, its heat against the gardener's own sums where there are any.
fn ages(
    chosen: Chosen,
    site: &Site,
    dates: Dates,
    today: Option<NaiveDate>,
    own_sums: Option<[DegreeDays; 2]>,
) -> Ages {
    let Chosen { crop, sheet } = chosen;
    let since = |date: Option<NaiveDate>| Some(today? - date?);
    let from_sowing = crop.starts().first() == Some(&Start::Sow);
    let began = if from_sowing { dates.sown } else { dates.transplanted };
    let heat = sheet.heat().zip(site.air.as_ref()).and_then(|(sum, air)| {
        let (sown, today) = (dates.sown?, today?);
        let heat = heat_between(sum, sown, today, |date| own::usual_air(air, date));
        let sums = own_sums.unwrap_or(sum.sums());
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

/// The heat that earlier seasons took.
fn own_sums(chosen: Chosen, site: &Site, asking: &Asking<'_>) -> Option<[DegreeDays; 2]> {
    own::sums(asking.garden, chosen.crop, chosen.sheet.heat()?, site.air.as_ref()?)
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
    fn of(keep: &Keep, system: System) -> Self {
        let [from, to] = keep.air().map(|air| (air.get::<degree_celsius>() * 10.0).round() / 10.0);
        // Turning 32 F into degrees Celsius may leave a minus on nothing.
        let plain = |degrees: f64| if degrees == 0.0 { 0.0 } else { degrees };
        Self {
            kind: keep.kind(),
            from_c: plain(from),
            to_c: plain(to),
            humidity_percent: keep.humidity_percent(),
            days: keep.days(),
            words: words::keep_words(keep, system),
        }
    }
}
