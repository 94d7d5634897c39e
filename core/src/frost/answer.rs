//! The question of a cold night, read, computed and answered.

use chrono::NaiveDate;
use serde_json::{Map, Value};
use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
    time::hour,
};

use super::{
    afternoon::grass_low,
    asked::{Asked, BedNightAsked, BedTonight, CropAsked, leaf_height},
    course::Course,
    cover::{ACT, Choice, THINK, WORTH_IT, assigned, covered},
    evening::{EveningRule, FEWEST},
    from_record,
    harm::{comes_through, lost_below},
    low::{AirLow, BedLow, BedNight, Usual, tonight},
    sky::{Night, Sky, Wind},
    telling,
};
use crate::{
    ask::Asking,
    catalogue::{self, Cover, Crop, Gain},
    given::{Faults, Given, Text},
    place::{
        site::{Site, SiteAsked},
        sun::day_length,
    },
    quantity::{Length, Temperature, Time},
    telling::Telling,
};

/// What a cold night does, and what to cover.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The likely low among the leaves of the bed, the coldest of several, °C.
    pub bed_low_c: f64,
    /// Standard deviation of its error, °C.
    pub bed_low_sd_c: f64,
    /// For each crop the chance that its leaves come down to what kills it, uncovered, 0 to 1; in the worst bed.
    #[cfg_attr(
        feature = "schema",
        schemars(with = "std::collections::BTreeMap<&'static str, f64>")
    )]
    pub harm: Map<String, Value>,
    /// The same under the cover it gets, or under one such cover where none is left for it.
    #[cfg_attr(
        feature = "schema",
        schemars(with = "std::collections::BTreeMap<&'static str, f64>")
    )]
    pub with_cover: Map<String, Value>,
    /// The crops to cover, in order of what a cover is expected to save.
    pub cover: Vec<&'static str>,
    /// The crops in danger for which no cover is left, or which no cover saves.
    pub left_bare: Vec<&'static str>,
    /// Each bed, in the order asked.
    pub beds: Vec<AtBed>,
}

/// One bed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AtBed {
    /// Its name; null for the one bed a question is about.
    pub bed: Option<String>,
    /// The likely low among its leaves, °C.
    pub low_c: f64,
    /// Standard deviation of its error, °C.
    pub low_sd_c: f64,
    /// Bed minus air, °C: as learned from its own nights, or else as usual.
    pub difference_c: f64,
    /// How many of its own nights that rests on.
    pub nights: u32,
    /// The place among the beds to cover, from 1; null where it gets no cover.
    pub cover_as: Option<u32>,
    /// The cover it gets.
    pub cover: Option<&'static str>,
}

/// A crop tonight.
pub(super) struct CropTonight {
    pub crop: &'static Crop,
    pub hardened: bool,
    pub count: Option<u32>,
    pub lost_below: Temperature,
    /// Chance of harm, uncovered.
    pub bare: f64,
    /// Chance of harm under a cover.
    pub covered: f64,
    /// Frosts like tonight's are left to it.
    pub comes_through: bool,
    /// The cover it gets.
    pub cover: Option<&'static Cover>,
}

impl CropTonight {
    /// Whether a cover is worth its while.
    pub(super) fn in_danger(&self) -> bool {
        !self.comes_through && self.bare >= ACT
    }

    /// Whether no cover there is would change much.
    pub(super) fn past_saving(&self) -> bool {
        self.bare - self.covered < WORTH_IT
    }

    /// Whether it is worth a thought.
    pub(super) fn in_doubt(&self) -> bool {
        !self.comes_through && (THINK..ACT).contains(&self.bare)
    }
}

/// A bed tonight, worked out.
pub(super) struct BedWorked {
    pub id: Option<String>,
    pub name: Option<String>,
    pub low: BedLow,
    pub residue_on_top: bool,
    pub under_glass: bool,
    pub crops: Vec<CropTonight>,
}

/// Everything the words are made from.
pub(super) struct Found {
    pub sky: Sky,
    pub wind: Wind,
    pub night: Night,
    pub air: AirLow,
    pub forecast: Option<Temperature>,
    /// The texts that go into the record.
    pub forecast_text: Option<String>,
    pub beds: Vec<BedWorked>,
    /// Whether covers go to beds rather than to crops.
    pub by_bed: bool,
    /// Crops or beds in the order in which they get a cover: bed, crop.
    pub order: Vec<(usize, usize)>,
    pub covers_given: bool,
    /// The cover that is reckoned with where it is not said which.
    pub usual_cover: &'static Cover,
    /// How long after sunset the air reaches freezing, and for how long it stays there.
    pub freezing: Option<(Time, Time)>,
    pub grass: Option<Temperature>,
    /// The low this kind of sky would bring if it cleared.
    pub if_it_clears: Option<Temperature>,
}

/// A forecast older than this is none.
const OLDEST_FORECAST_DAYS: i64 = 10;

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let site = SiteAsked::read(asked.site.as_ref(), asking.garden, faults);
    let forecast = super::asked::air(&asked.forecast_low, faults);
    let age = forecast_age(&asked.forecast_made, asking.today, faults);
    let sky = asked.sky.need(faults);
    let wind = asked.wind.need(faults);
    let dusk = asked
        .dusk
        .as_ref()
        .map(|dusk| dusk.read(site.elevation, faults));
    let afternoon = asked
        .afternoon
        .as_ref()
        .and_then(|air| air.read(site.elevation, faults));
    let given: Vec<_> = asked.evenings.iter().map(|one| one.read(faults)).collect();
    let covers: Vec<_> = asked
        .covers
        .iter()
        .map(|cover| cover.read(faults))
        .collect();
    let beds = beds(asked, asking, faults);
    let (sky, wind) = (sky?, wind?);

    let evenings = if asked.evenings.is_empty() {
        from_record::evenings(asking.garden)
    } else {
        given.into_iter().collect::<Option<Vec<_>>>()?
    };
    let forecast_air = forecast.map(|low| AirLow::Forecast(low, age.unwrap_or(0)));
    let air = match (dusk, forecast_air) {
        (Some(dusk), forecast_air) => {
            let (air, dew_point) = dusk?;
            let holds = sky == Sky::Clear && wind == Wind::Still;
            let rule = EveningRule::fit(&evenings).filter(|_| holds);
            match (rule, forecast_air) {
                (Some(rule), _) => AirLow::Evening(rule.low_after(air, dew_point)),
                (None, Some(forecast_air)) => forecast_air,
                (None, None) => {
                    refuse_dusk(holds, evenings.len(), faults);
                    return None;
                }
            }
        }
        (None, Some(forecast_air)) => forecast_air,
        (None, None) if asked.forecast_low.is_given() => return None,
        (None, None) => {
            asked.forecast_low.refuse(
                faults,
                "tonight's forecast low, such as 34 F; or a reading at dusk with ten earlier evenings",
                "without one of them nothing is known of tonight",
            );
            return None;
        }
    };
    let covers: Vec<(&'static Cover, u32)> = covers.into_iter().collect::<Option<_>>()?;
    let beds = beds?;
    if !faults.is_empty() {
        return None;
    }

    let night = Night::of(sky, wind);
    let usual_cover = covers
        .iter()
        .map(|(cover, _)| *cover)
        .max_by(|a, b| mean(a).total_cmp(&mean(b)).then(b.id().cmp(a.id())))
        .or_else(|| catalogue::cover("fabric-light"))?;
    let mut worked: Vec<BedWorked> = beds
        .into_iter()
        .map(|bed| work_out(bed, &air, night, wind, usual_cover))
        .collect();
    let by_bed = worked.len() > 1 || worked.iter().any(|bed| bed.name.is_some());
    let order = give_covers(&mut worked, &covers, usual_cover, by_bed, wind);
    let coldest = worked
        .iter()
        .map(|bed| bed.low)
        .min_by(|a, b| a.expected.low.value.total_cmp(&b.expected.low.value))?;
    let if_it_clears = (sky == Sky::Part && wind != Wind::Windy)
        .then(|| {
            tonight(
                &air,
                Night::ClearAndCalm,
                &[],
                &Usual::of(Night::ClearAndCalm, None, false),
            )
        })
        .map(|low| low.expected.low);
    let found = Found {
        sky,
        wind,
        night,
        air,
        forecast,
        forecast_text: asked.forecast_low.text().map(str::to_owned),
        by_bed,
        order,
        covers_given: !covers.is_empty(),
        usual_cover,
        freezing: dusk
            .flatten()
            .and_then(|(at_dusk, _)| freezing(at_dusk, &air, &site, asking.today, night)),
        grass: afternoon.and_then(|(air, dew_point)| {
            let southern = site.is_south();
            let day = asking
                .today
                .filter(|_| southern && night == Night::ClearAndCalm)?;
            grass_low(air, dew_point?, day)
        }),
        if_it_clears,
        beds: worked,
    };
    let told = telling::told(&found, asking);
    Some((told, numbers(&found, &coldest)))
}

fn mean(cover: &Cover) -> f64 {
    cover.gain().map_or(0.0, |gain| gain.mean.value)
}

/// How many days ago the forecast was made.
fn forecast_age(
    made: &Given<NaiveDate>,
    today: Option<NaiveDate>,
    faults: &mut Faults,
) -> Option<u32> {
    let date = made.read(faults)?;
    let Some(today) = today else {
        made.refuse(
            faults,
            "today's date beside it",
            "how old it is can't be told without",
        );
        return None;
    };
    let days = (today - date).num_days();
    if (0..=OLDEST_FORECAST_DAYS).contains(&days) {
        // The forecast of this morning or of last night is for one night ahead.
        return u32::try_from(days).ok().map(|days| days + 1);
    }
    let why = if days < 0 {
        "that day has not come yet"
    } else {
        "a forecast so old tells nothing of tonight"
    };
    made.refuse(faults, "today or one of the ten days before", why);
    None
}

fn refuse_dusk(holds: bool, evenings: usize, faults: &mut Faults) {
    let instead = "; or forecast_low";
    if !holds {
        faults.add(
            "dusk",
            "",
            format!("a reading on a clear and still night{instead}"),
            "under cloud or in wind an evening's reading does not tell the low",
        );
    } else if evenings < FEWEST {
        faults.add(
            "evenings",
            &format!("{evenings} evenings"),
            format!("at least {FEWEST} clear, still evenings with the low that followed{instead}"),
            "with fewer the rule of this spot is not known yet: log them, and use the forecast till then",
        );
    } else {
        faults.add(
            "evenings",
            &format!("{evenings} evenings"),
            format!("evenings that differ from one another{instead}"),
            "they are all alike, so that no rule follows from them",
        );
    }
}

/// The beds as given, or as the record tells.
fn beds(asked: &Asked, asking: &Asking<'_>, faults: &mut Faults) -> Option<Vec<BedTonight>> {
    let mut read = vec![];
    let one_bed = asked.bed.is_given()
        || !asked.crops.is_empty()
        || !asked.bed_nights.is_empty()
        || asked.residue_on_top.is_given();
    if one_bed {
        read.push(bed(
            &asked.bed,
            &asked.bed_nights,
            &asked.residue_on_top,
            &asked.leaf_height,
            None,
            &asked.crops,
            "crops",
            asking,
            faults,
        ));
    } else {
        leaf_height(&asked.leaf_height, faults);
    }
    for (index, one) in asked.beds.iter().enumerate() {
        read.push(bed(
            &one.bed,
            &one.bed_nights,
            &one.residue_on_top,
            &one.leaf_height,
            Some(&one.under_glass),
            &one.crops,
            &format!("beds.{index}.crops"),
            asking,
            faults,
        ));
    }
    if !read.is_empty() {
        return read.into_iter().collect();
    }
    let recorded = from_record::beds(asking.garden, asking.today);
    if recorded.is_empty() {
        faults.add(
            "crops",
            "",
            "at least one crop that stands out tonight",
            "what grows there is needed for an answer",
        );
        return None;
    }
    Some(recorded)
}

#[expect(
    clippy::too_many_arguments,
    reason = "the fields of a bed, which stand in the question itself or in its list"
)]
fn bed(
    name: &Given<Text>,
    nights: &[BedNightAsked],
    residue: &Given<bool>,
    height: &Given<Length>,
    under_glass: Option<&Given<bool>>,
    crops: &[CropAsked],
    crops_field: &str,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<BedTonight> {
    let called = name.read(faults).map(|Text(name)| name);
    let own: Vec<BedNight> = nights.iter().flat_map(|night| night.read(faults)).collect();
    let residue = residue.read(faults);
    let height = leaf_height(height, faults);
    let under_glass = under_glass.and_then(|given| given.read(faults));
    let given: Vec<_> = crops.iter().map(|crop| crop.read(faults)).collect();
    let given = given.into_iter().collect::<Option<Vec<_>>>()?;
    let recorded = called
        .as_deref()
        .and_then(|name| from_record::bed(asking.garden, name, asking.today));
    let known = recorded.unwrap_or_else(|| BedTonight {
        name: called,
        ..BedTonight::default()
    });
    let crops = if given.is_empty() { known.crops } else { given };
    if crops.is_empty() {
        faults.add(
            crops_field,
            "",
            "at least one crop that stands out tonight",
            "what grows there is needed for an answer",
        );
        return None;
    }
    Some(BedTonight {
        nights: if own.is_empty() { known.nights } else { own },
        residue_on_top: residue.unwrap_or(known.residue_on_top),
        height,
        under_glass: under_glass.unwrap_or(known.under_glass),
        crops,
        ..known
    })
}

fn work_out(
    bed: BedTonight,
    air: &AirLow,
    night: Night,
    wind: Wind,
    usual_cover: &'static Cover,
) -> BedWorked {
    let usual = if bed.under_glass {
        Usual::under_glass()
    } else {
        Usual::of(night, bed.height, bed.residue_on_top)
    };
    let low = tonight(air, night, &bed.nights, &usual);
    let crops = bed.crops.iter().map(|standing| {
        let lost_below = lost_below(standing.crop, standing.hardened);
        CropTonight {
            crop: standing.crop,
            hardened: standing.hardened,
            count: standing.count,
            lost_below,
            bare: low.expected.chance_below(lost_below),
            covered: under(&low, usual_cover.gain(), wind, lost_below),
            comes_through: comes_through(
                standing.crop,
                standing.hardened,
                &low.expected,
                usual.difference,
            ),
            cover: None,
        }
    });
    BedWorked {
        crops: crops.collect(),
        id: bed.id,
        name: bed.name,
        low,
        residue_on_top: bed.residue_on_top,
        under_glass: bed.under_glass,
    }
}

/// Chance of harm under a cover; none is put on to do harm.
fn under(low: &BedLow, gain: Option<Gain>, wind: Wind, lost_below: Temperature) -> f64 {
    let bare = low.expected.chance_below(lost_below);
    let Some(gain) = gain else { return bare };
    covered(&low.expected, &gain, wind)
        .chance_below(lost_below)
        .min(bare)
}

/// Gives covers to beds, or to the crops of the one bed; the order in which they go.
fn give_covers(
    beds: &mut [BedWorked],
    covers: &[(&'static Cover, u32)],
    usual_cover: &'static Cover,
    by_bed: bool,
    wind: Wind,
) -> Vec<(usize, usize)> {
    // Plants count one by one where every count is known, else crop by crop.
    let counted = beds
        .iter()
        .flat_map(|bed| &bed.crops)
        .all(|crop| crop.count.is_some());
    let worth = |crop: &CropTonight| match crop.count {
        Some(count) if counted => f64::from(count),
        _ => 1.0,
    };
    let mut targets: Vec<(usize, Vec<usize>)> = Vec::new();
    for (at, bed) in beds.iter().enumerate() {
        let in_danger = bed.crops.iter().enumerate();
        let in_danger: Vec<usize> = in_danger
            .filter(|(_, crop)| crop.in_danger())
            .map(|(index, _)| index)
            .collect();
        if by_bed && !in_danger.is_empty() {
            targets.push((at, in_danger));
        } else {
            targets.extend(in_danger.into_iter().map(|index| (at, vec![index])));
        }
    }
    let choices: Vec<Choice> = targets
        .iter()
        .filter_map(|(at, crops)| {
            let bed = beds.get(*at)?;
            let plants = crops.iter().filter_map(|index| bed.crops.get(*index));
            Some(Choice {
                bare: bed.low.expected,
                plants: plants.map(|crop| (crop.lost_below, worth(crop))).collect(),
            })
        })
        .collect();
    let mut single: Vec<&'static Cover> = Vec::new();
    if covers.is_empty() {
        single = vec![usual_cover; choices.len()];
    }
    for (cover, count) in covers {
        let count = (*count as usize).min(choices.len());
        single.extend(std::iter::repeat_n(*cover, count));
    }
    let gains: Vec<Gain> = single.iter().filter_map(|cover| cover.gain()).collect();
    let mut order = Vec::new();
    for (choice, cover) in assigned(&choices, &gains, wind) {
        let (Some((at, crops)), Some(cover)) = (targets.get(choice), single.get(cover)) else {
            continue;
        };
        let Some(bed) = beds.get_mut(*at) else {
            continue;
        };
        let low = bed.low;
        for (index, crop) in bed.crops.iter_mut().enumerate() {
            let same_sheet = by_bed || crops.contains(&index);
            if same_sheet {
                crop.cover = Some(cover);
                crop.covered = under(&low, cover.gain(), wind, crop.lost_below);
            }
        }
        order.extend(crops.iter().map(|index| (*at, *index)));
    }
    order
}

/// When the air comes down to freezing, and for how long, where the evening, the latitude and the day are known.
fn freezing(
    at_dusk: Temperature,
    air: &AirLow,
    site: &Site,
    today: Option<NaiveDate>,
    night: Night,
) -> Option<(Time, Time)> {
    if night != Night::ClearAndCalm {
        return None;
    }
    let day = Time::new::<hour>(24.0);
    let length = day - day_length(site.latitude?, today?);
    let course = Course::new(at_dusk, air.expected().low, length)?;
    let freezing = Temperature::new::<degree_celsius>(0.0);
    Some((course.reaches(freezing)?, course.below(freezing)))
}

fn numbers(found: &Found, coldest: &BedLow) -> Answer {
    let mut answer = Answer {
        bed_low_c: hundredths(coldest.expected.low.get::<degree_celsius>()),
        bed_low_sd_c: hundredths(coldest.expected.sd.get::<kelvin>()),
        harm: Map::new(),
        with_cover: Map::new(),
        cover: Vec::new(),
        left_bare: Vec::new(),
        beds: Vec::new(),
    };
    for crop in found.beds.iter().flat_map(|bed| &bed.crops) {
        let id = crop.crop.id();
        let (harm, covered) = (thousandths(crop.bare), thousandths(crop.covered));
        let so_far = answer.harm.get(id).and_then(Value::as_f64);
        if so_far.is_none_or(|so_far| so_far < harm) {
            answer.harm.insert(id.to_owned(), harm.into());
            answer.with_cover.insert(id.to_owned(), covered.into());
        }
    }
    let ordered = found.order.iter();
    let ids = ordered.filter_map(|(at, index)| found.beds.get(*at)?.crops.get(*index));
    for id in ids.map(|crop| crop.crop.id()) {
        if !answer.cover.contains(&id) {
            answer.cover.push(id);
        }
    }
    for crop in found.beds.iter().flat_map(|bed| &bed.crops) {
        let id = crop.crop.id();
        if crop.in_danger() && crop.cover.is_none() && !answer.left_bare.contains(&id) {
            answer.left_bare.push(id);
        }
    }
    let mut order: Vec<usize> = Vec::new();
    for (at, _) in &found.order {
        if !order.contains(at) {
            order.push(*at);
        }
    }
    for (at, bed) in found.beds.iter().enumerate() {
        let place = order.iter().position(|one| *one == at);
        answer.beds.push(AtBed {
            bed: bed.name.clone(),
            low_c: hundredths(bed.low.expected.low.get::<degree_celsius>()),
            low_sd_c: hundredths(bed.low.expected.sd.get::<kelvin>()),
            difference_c: hundredths(bed.low.difference.likely.get::<kelvin>()),
            nights: bed.low.difference.nights,
            cover_as: place.and_then(|place| u32::try_from(place + 1).ok()),
            cover: bed.crops.iter().find_map(|crop| crop.cover).map(Cover::id),
        });
    }
    answer
}

fn hundredths(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

fn thousandths(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}
