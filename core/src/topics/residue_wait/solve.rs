//! The models run for one question.

use chrono::{Days, NaiveDate};
use uom::si::{
    area::square_meter,
    areal_mass_density::{gram_per_square_meter, kilogram_per_square_meter},
    mass::gram,
};

use super::{
    answer::{Ahead, Answer, FitsIn, LimitRange, Nitrogen, Part, Point, Ratio, WayRound},
    balance::{Balance, Placement, RotAge},
    check_in::Look,
    clock::{Clock, Soil, Speed, Spread},
    course::{Course, Run, followed},
    feeding, fits_now,
    found::{amount, rounded},
    halves,
    limits::{Flight, Limit, Load, Next, Plan, all_past, binding},
    materials::Mixture,
    question::{Asked, Chop, Half, Question},
    way_round::{self, Way},
};
use crate::{
    asking::Asking,
    bed::BedAsked,
    catalogue::{Crop, Family, Start, nitrogen_products},
    garden::Garden,
    given::{Faults, Given},
    place::sun,
    time::Range,
};

/// Seed of 8000 to the ounce and more is fine: carrot, lettuce, onion, the cabbage family. Common practice.
const FINE_SEED_G: f64 = 28.35 / 7900.0;

/// Less than this matters to nothing, kg of dry matter a square metre (considered): a bucket of dry
/// leaves on a bed of 4 x 8 ft is three times as much.
const LITTLE: f64 = 0.05;

/// The limits of what rots.
const ROTTING: [Limit; 6] = [
    Limit::Nitrogen,
    Limit::SeedlingRot,
    Limit::Toxins,
    Limit::SeedMaggot,
    Limit::CoarseTrash,
    Limit::Slugs,
];

/// Whether it is too little to matter, and nobody has seen otherwise.
pub(super) fn is_little(mixture: &Mixture, question: &Question) -> bool {
    let seen = &question.seen;
    let unseen = seen.looks.is_empty() && seen.signs.is_empty() && seen.slugs.is_none();
    unseen
        && question.halves.is_empty()
        && !mixture.guessed
        && mixture.dry.get::<kilogram_per_square_meter>() < LITTLE
}

/// The curve is drawn at least this far, and never further than a year.
const CURVE_DAYS: (i64, i64) = (84, 365);

/// How far a covered bed of the record has come.
pub(crate) struct Progress {
    /// Where it lies.
    pub(crate) placement: Placement,
    /// Days since it was laid.
    pub(crate) day: i64,
    /// When young plants can go in by waiting alone.
    pub(crate) plant_from: Range,
    /// When only stems and midribs can still be recognised.
    pub(crate) settles: Range,
}

/// How far the residue on a bed of the record has come; `None` where none that rots lies there.
pub(crate) fn progress(bed: &str, garden: &Garden, today: NaiveDate) -> Option<Progress> {
    let asked =
        Asked { bed: Some(BedAsked::Named(Given::default().or(Some(bed)))), ..Asked::default() };
    let asking = Asking { garden, today: Some(today), system: garden.units() };
    let question = asked.read(&asking, &mut Faults::default())?;
    let mixture = Mixture::new(&question.materials, question.area)?;
    let soil = |date| question.soil.on(date);
    let course = course(&question, &mixture, next_crop(&question), &soil, None);
    let run = course.run();
    Some(Progress {
        placement: question.placement,
        day: (today - question.laid).num_days(),
        plant_from: all_past(&course.limits(&run), course.laid),
        settles: settles(&run),
    })
}

/// The bed as its question has it.
pub(super) fn course<'a>(
    question: &'a Question,
    mixture: &Mixture,
    next: Next,
    soil: &'a Soil<'a>,
    flight: Option<&'a Flight<'a>>,
) -> Course<'a> {
    Course {
        laid: question.laid,
        load: Load { fine: mixture.load.fine || question.chop == Some(Chop::Fine), ..mixture.load },
        dry: mixture.dry,
        placement: question.placement,
        moisture: question.moisture,
        wetted_on: None,
        next,
        looks: &question.seen.looks,
        signs: &question.seen.signs,
        slugs: question.seen.slugs,
        soil,
        flight,
        also: &[],
    }
}

/// When only stems and midribs can still be recognised: a third and less. Common practice.
fn settles(run: &Run) -> Range {
    let age = run.visible.unseen_age_at(0.3);
    run.rotting.range(age, age, age)
}

pub(super) fn run(
    question: &Question,
    course: &Course<'_>,
    from: NaiveDate,
) -> (Option<Way>, Answer) {
    let run = course.run();
    let limits = course.limits(&run);
    let plant_from = all_past(&limits, course.laid);
    let ways = way_round::ways(course, plant_from, from);
    let way = way_round::best(&ways, plant_from, from);
    let nitrogen = nitrogen(question, course, &run);
    // Far enough past the lowest day that the curve is seen to turn.
    let turned = nitrogen.low_point_on.and_then(|low| low.checked_add_days(Days::new(28)));
    let curve_to = [nitrogen.back_on, turned, plant_from.likely, Some(question.today)];
    let latitude = question.site.latitude;
    let short_days = latitude.and_then(|latitude| sun::short_days(latitude, from));
    let fits = fits_now::fits_now(&fits_now::Today {
        today: from,
        laid: course.laid,
        placement: course.placement,
        soil: course.soil,
        short_days,
        plant_from,
    });
    let load = course.load;
    let answer = Answer {
        way_round: way.map(|way| told(way, from)),
        ways: ways.iter().map(|way| told(*way, from)).collect(),
        stop: None,
        plant_from: Some(plant_from),
        limit: binding(&limits, course.laid),
        limits: limits
            .iter()
            .map(|(limit, range)| LimitRange { limit: *limit, range: *range, told: String::new() })
            .collect(),
        settles: settles(&run),
        days_told: String::new(),
        curve_told: String::new(),
        curve: curve(course, &run, curve_to.into_iter().flatten().max()),
        nitrogen,
        day: (question.today - course.laid).num_days(),
        of_about: plant_from.likely.map(|likely| (likely - course.laid).num_days()),
        area_m2: rounded(question.area.get::<square_meter>(), 1e3),
        dry_matter_kg_per_m2: rounded(course.dry.get::<kilogram_per_square_meter>(), 1e4),
        carbon_to_nitrogen: Some(Ratio {
            low: rounded(load.ratio.low.get(), 10.0),
            likely: rounded(load.ratio.likely.get(), 10.0),
            high: rounded(load.ratio.high.get(), 10.0),
        }),
        faster_by: rounded(run.visible.against_unseen(), 1e3),
        rate_spread: rounded(run.visible.log_sd().exp(), 1e3),
        fits_now: fits.into_iter().map(|(what, how)| FitsIn { what, how }).collect(),
        stops: stops(question),
        parts: question.halves.iter().map(|half| part(half, question, course)).collect(),
        ahead: ahead(question, course),
        ahead_told: None,
    };
    (way, answer)
}

/// Compost and manure alone: nothing is held and nothing waits.
pub(super) fn nothing_rots(question: &Question, also: &[(Limit, Range)]) -> Answer {
    let laid = Some(question.laid);
    let range = Range { early: laid, likely: laid, late: laid };
    let limits: Vec<(Limit, Option<Range>)> = ROTTING
        .iter()
        .map(|limit| (*limit, Some(range)))
        .chain(also.iter().map(|(limit, range)| (*limit, Some(*range))))
        .collect();
    let plant_from = all_past(&limits, question.laid);
    Answer {
        way_round: None,
        ways: Vec::new(),
        stop: None,
        plant_from: Some(plant_from),
        limit: binding(&limits, question.laid),
        limits: limits
            .iter()
            .map(|(limit, range)| LimitRange { limit: *limit, range: *range, told: String::new() })
            .collect(),
        nitrogen: Nitrogen {
            low_point_g_per_m2: 0.0,
            low_point_on: None,
            back_on: None,
            to_add_now_g_per_m2: 0.0,
            safe_above_g_per_m2: 0.0,
            products: Vec::new(),
        },
        curve: Vec::new(),
        settles: range,
        days_told: String::new(),
        curve_told: String::new(),
        day: (question.today - question.laid).num_days(),
        of_about: plant_from.likely.map(|likely| (likely - question.laid).num_days()),
        area_m2: rounded(question.area.get::<square_meter>(), 1e3),
        dry_matter_kg_per_m2: 0.0,
        carbon_to_nitrogen: None,
        faster_by: 1.0,
        rate_spread: 1.0,
        fits_now: Vec::new(),
        stops: stops(question),
        parts: Vec::new(),
        ahead: None,
        ahead_told: None,
    }
}

fn stops(question: &Question) -> Vec<String> {
    super::stops::stops(&question.flags, question.illness).into_iter().map(str::to_owned).collect()
}

fn nitrogen(question: &Question, course: &Course<'_>, run: &Run) -> Nitrogen {
    let load = course.load;
    let balance = followed(load.ratio.likely, course.placement, course.touch());
    let (low, lowest) = balance.low_point();
    let held = lowest < 0.0;
    let reached = |age: RotAge| run.rotting.reaches(age, Speed::Likely);
    let need = course.to_add(run, question.today);
    let products = nitrogen_products().iter().filter_map(|product| amount(product, question, need));
    let feeds = 0.0 < need.get::<gram_per_square_meter>() && feeding::can_be_fed(need);
    Nitrogen {
        low_point_g_per_m2: rounded(
            (load.carbon.likely * lowest).get::<gram_per_square_meter>(),
            1e4,
        ),
        low_point_on: if held { reached(low) } else { None },
        back_on: if held { balance.back_at().and_then(reached) } else { None },
        to_add_now_g_per_m2: rounded(need.get::<gram_per_square_meter>(), 1e4),
        safe_above_g_per_m2: -course.next.plan.bears_g_per_m2(),
        products: if feeds { products.collect() } else { Vec::new() },
    }
}

fn curve(course: &Course<'_>, run: &Run, to: Option<NaiveDate>) -> Vec<Point> {
    let balance = Balance::new(course.load.ratio.likely, course.placement);
    let carbon = course.load.carbon.likely.get::<gram_per_square_meter>();
    let wished = to.map_or(0, |to| (to - course.laid).num_days() + 14);
    let days = wished.clamp(CURVE_DAYS.0, CURVE_DAYS.1);
    course
        .laid
        .iter_days()
        .take(usize::try_from(days).unwrap_or(0) + 1)
        .map(|date| {
            let fate = balance.at(run.rotting.age_on(date, Speed::Likely));
            Point {
                date,
                carbon_left: rounded(fate.residue, 1e4),
                mineral_n_g_per_m2: rounded(carbon * fate.nitrogen, 1e4),
            }
        })
        .collect()
}

fn part(half: &Half, question: &Question, whole: &Course<'_>) -> Part {
    let own = Mixture::new(&half.materials, question.area);
    let course = Course {
        load: own.map_or(whole.load, |own| own.load),
        dry: own.map_or(whole.dry, |own| own.dry),
        placement: half.placement,
        moisture: half.moisture,
        looks: &half.seen.looks,
        signs: &half.seen.signs,
        slugs: half.seen.slugs,
        ..*whole
    };
    let limits = course.limits(&course.run());
    Part {
        name: half.name.clone(),
        plant_from: all_past(&limits, course.laid),
        limit: binding(&limits, course.laid),
        told: String::new(),
    }
}

/// Both parts on one clock, that of the bed's warmth, so that their treatment shows in the rate.
fn ahead(question: &Question, course: &Course<'_>) -> Option<Ahead> {
    let [first, second] = question.halves.as_slice() else {
        return None;
    };
    let days = u32::try_from((question.today - course.laid).num_days()).ok()?.max(1);
    let warmth = Clock::run(course.laid, days, course.soil, &|_| 1.0, Spread::NONE);
    let looks = |half: &Half| -> Vec<Look> {
        half.seen
            .looks
            .iter()
            .map(|(date, left)| Look { age: warmth.age_on(*date, Speed::Likely), left: *left })
            .collect()
    };
    let lead = halves::lead(&looks(first), &looks(second), warmth.pace_on(question.today))?;
    let leads = if lead.days < 0.0 { second } else { first };
    Some(Ahead {
        part: leads.name.clone(),
        days: rounded(lead.days.abs(), 10.0),
        sd_days: rounded(lead.sd_days, 10.0),
        could_be_chance: lead.could_be_chance,
    })
}

pub(super) fn told(way: Way, from: NaiveDate) -> WayRound {
    WayRound {
        what: way.what,
        from: way.from(from),
        plant_from: way.plant_from,
        does: String::new(),
        changes: String::new(),
    }
}

/// The next crop as the limits know it. Seed of an unknown crop is taken as fine and as one that
/// maggots eat, so that the wait errs on the long side.
pub(super) fn next_crop(question: &Question) -> Next {
    let sowing = question.plan == Plan::DirectSow;
    let Some(crop) = question.crop else {
        return Next {
            plan: question.plan,
            can_be_set: true,
            fine_seed: sowing,
            brassica: false,
            maggots_eat: sowing,
            rots_here: question.damping_off,
        };
    };
    let brassica = [Some(crop.family()), crop.mixed_with()].contains(&Some(Family::Cabbage));
    Next {
        plan: question.plan,
        can_be_set: crop.starts().contains(&Start::Transplant),
        fine_seed: is_fine(crop),
        brassica,
        maggots_eat: crop.maggots_eat(),
        rots_here: question.damping_off && crop.damps_off(),
    }
}

fn is_fine(crop: &Crop) -> bool {
    crop.seed_mass().is_some_and(|seed| seed.most.get::<gram>() < FINE_SEED_G)
}
