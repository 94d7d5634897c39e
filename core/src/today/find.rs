//! What is due, kind by kind.

use chrono::{NaiveDate, TimeDelta};

use super::Due;
use crate::{
    ask::{Asking, Topic},
    bed::BedAsked,
    catalogue::{self, Crop, Pick},
    chance::normal::chance_below,
    emergence,
    frost::above,
    garden::{Bed, Came, Garden, Planting},
    garlic,
    given::{Faults, Given},
    harvest::at_bed::ripening,
    journal::{
        What,
        when::{read_ahead, show_date},
    },
    place::site::SiteAsked,
    quantity::Quantity,
    residue,
    starts::trays,
    telling::{capital, day, list, small},
    time::{DayOfYear, Range},
    turns::Pace,
};
use uom::si::temperature_interval::kelvin;

/// What is due within so many days is told ahead.
const AHEAD_DAYS: i64 = 3;
/// A frost this likely wants a look at the forecast: one night in ten.
const LIKELY_ENOUGH: f64 = 0.1;
/// Days between two looks where the crop has no rhythm of its own.
const A_WEEK: i64 = 7;
/// Seed that was sown longer ago than this is no longer waited for.
const LONGEST_WAIT_DAYS: i64 = 60;

/// What it takes to look at one kind, or at one bed, in steps of a search: a millisecond or two.
const A_KIND: u64 = 100_000;

/// A kind: what goes first among what is due by today.
#[derive(Clone, Copy)]
enum Rank {
    Cold,
    Tray,
    Noted,
    Garlic,
    Pick,
    Seed,
    Cover,
    Bed,
}

/// What is being gathered.
struct Finding<'a> {
    asking: &'a Asking<'a>,
    garden: &'a Garden,
    today: NaiveDate,
    found: Vec<(i64, Due)>,
}

/// All that is due by today or in the next days.
pub(super) async fn all(asking: &Asking<'_>, today: NaiveDate, pace: &Pace) -> Vec<(i64, Due)> {
    let mut finding = Finding {
        asking,
        garden: asking.garden,
        today,
        found: Vec::new(),
    };
    finding.cold();
    finding.noted();
    finding.covers();
    finding.garlic();
    pace.did(A_KIND).await;
    finding.trays();
    pace.did(A_KIND).await;
    finding.ripe();
    for bed in finding.beds() {
        pace.did(A_KIND).await;
        finding.seed(bed);
        finding.settled(bed);
    }
    finding.found
}

/// A question about this bed of the record.
fn named(bed: &Bed) -> BedAsked {
    BedAsked::Named(Given::default().or(Some(&bed.id)))
}

impl<'a> Finding<'a> {
    /// The beds that are there.
    fn beds(&self) -> impl Iterator<Item = &'a Bed> + use<'a> {
        self.garden.beds.iter().filter(|bed| bed.gone.is_none())
    }

    /// Adds something; nothing that is due later than the next days.
    fn add(
        &mut self,
        rank: Rank,
        topic: Topic,
        by: NaiveDate,
        what: String,
        why: String,
    ) -> Option<&mut Due> {
        if by > self.today + TimeDelta::days(AHEAD_DAYS) {
            return None;
        }
        let by_words = match (by - self.today).num_days() {
            0 => "Today".to_owned(),
            1 => "Tomorrow".to_owned(),
            2.. => format!("By {}", day(by, Some(self.today))),
            _ => format!("Since {}", day(by, Some(self.today))),
        };
        let due = Due {
            what,
            bed: None,
            start: None,
            by,
            by_words,
            why,
            topic,
        };
        self.found.push((rank as i64, due));
        self.found.last_mut().map(|(_, due)| due)
    }

    fn day(&self, date: NaiveDate) -> String {
        day(date, Some(self.today))
    }

    /// What stands outdoors and may not bear the usual nights of this time of year.
    fn cold(&mut self) {
        let site = SiteAsked::read(None, self.garden, &mut Faults::default());
        let Some(air) = &site.air else { return };
        let at = DayOfYear::of(self.today);
        let (low, sd) = (air.low(at), air.low_sd(at));
        let chance = |crop: &Crop| {
            let room = above(crop.cover_below(), low).get::<kelvin>();
            chance_below(room / sd.get::<kelvin>().max(0.1))
        };
        let mut crops: Vec<(&Crop, f64)> = Vec::new();
        for planting in self.beds().flat_map(|bed| &bed.plantings) {
            let Ok(crop) = catalogue::crop(&planting.crop) else {
                continue;
            };
            let chance = chance(crop);
            let told = crops.iter().any(|(other, _)| other.id() == crop.id());
            if chance >= LIKELY_ENOUGH && !told {
                crops.push((crop, chance));
            }
        }
        let worst = crops.iter().map(|(_, chance)| *chance).fold(0.0, f64::max);
        if crops.is_empty() {
            return;
        }
        let names: Vec<String> = crops.iter().map(|(crop, _)| small(crop.name())).collect();
        let why = format!(
            "{} may want a cover about {} nights in ten now; the usual low is {}.",
            capital(&list(&names)),
            (worst * 10.0).round().max(1.0) as u32,
            low.show(self.asking.system)
        );
        self.add(
            Rank::Cold,
            Topic::FrostTonight,
            self.today,
            "See how cold tonight gets".to_owned(),
            why,
        );
    }

    fn trays(&mut self) {
        for tray in trays::trays(self.asking) {
            let outdoors = tray.outdoors.as_ref();
            let found = match outdoors {
                Some(outdoors) if outdoors.done_today.is_some() && !tray.urgent => self.add(
                    Rank::Tray,
                    Topic::HardeningPlan,
                    self.today,
                    format!("{}: its day outdoors", tray.name),
                    outdoors.words.clone(),
                ),
                _ => {
                    let what = match tray.urgent {
                        true => format!("{}: plant it out or part with it", tray.name),
                        false => format!("{}: begin to use it to outdoors", tray.name),
                    };
                    let begin = tray.begin_by.filter(|_| outdoors.is_none());
                    let by = match (tray.urgent, tray.limit) {
                        (true, limit) => Some(limit.unwrap_or(self.today).min(self.today)),
                        (false, _) => begin,
                    };
                    let why = tray.line.clone();
                    let topic = match tray.urgent {
                        true => Topic::StartAge,
                        false => Topic::HardeningPlan,
                    };
                    by.and_then(|by| self.add(Rank::Tray, topic, by, what, why))
                }
            };
            if let Some(due) = found {
                due.start = Some(tray.start.id.to_string());
            }
        }
    }

    /// What was noted for a day to come.
    fn noted(&mut self) {
        for it in &self.garden.happened {
            let What::Note(note) = &it.entry.what else {
                continue;
            };
            let Some((on, what)) = read_ahead(&note.text) else {
                continue;
            };
            let why = format!("Noted on {}.", self.day(it.entry.when.date()));
            if let Some(due) = self.add(Rank::Noted, Topic::Today, on, what.to_owned(), why) {
                due.bed.clone_from(&it.bed);
                due.start = it.start.map(|start| start.to_string());
            }
        }
    }

    /// Garlic's weeks, where a bed is kept for it or it grew before.
    fn garlic(&mut self) {
        let is_garlic = |name: &str| {
            catalogue::crop(name)
                .is_ok_and(|crop| Some(crop.id()) == garlic::garlic().map(Crop::id))
        };
        let beds = || self.beds();
        let kept = beds().find(|bed| {
            bed.kept(self.today)
                .any(|kept| kept.crop.as_deref().is_some_and(is_garlic))
        });
        let grew = beds().any(|bed| bed.past.iter().any(|past| is_garlic(&past.crop)));
        let stands = beds().any(|bed| bed.plantings.iter().any(|it| is_garlic(&it.crop)));
        if stands || !(grew || kept.is_some()) {
            return;
        }
        let asked = garlic::Asked::default();
        let told = garlic::answer(&asked, self.asking, &mut Faults::default());
        let Some((telling, answer)) = told else {
            return;
        };
        let Some(window) = answer.window else { return };
        let (Some(best), Some(closes)) = (window.best.likely, window.closes.likely) else {
            return;
        };
        if closes < self.today {
            return;
        }
        let what = match kept {
            Some(bed) => format!("Plant the garlic in {}", bed.name),
            None => "Plant the garlic".to_owned(),
        };
        let bed = kept.map(|bed| bed.id.clone());
        let why = telling.because.into_iter().next();
        let why = why.unwrap_or(telling.headline);
        if let Some(due) = self.add(Rank::Garlic, Topic::GarlicWindow, best, what, why) {
            due.bed = bed;
        }
    }

    /// What has stood as long as its kind takes, and was not looked at lately.
    fn ripe(&mut self) {
        for it in ripening(self.garden, None, self.today) {
            let Some((by, why)) = self.next_look(it.bed, it.planting) else {
                continue;
            };
            let Ok(crop) = catalogue::crop(&it.planting.crop) else {
                continue;
            };
            let what = format!("Look at the {} in {}", small(crop.name()), it.bed.name);
            if let Some(due) = self.add(Rank::Pick, Topic::HarvestReadiness, by, what, why) {
                due.bed = Some(it.bed.id.clone());
            }
        }
    }

    fn next_look(&self, bed: &Bed, planting: &Planting) -> Option<(NaiveDate, String)> {
        if planting.picked_clean.is_some() {
            return None;
        }
        let crop = catalogue::crop(&planting.crop).ok()?;
        let ready = crop.days_to_harvest()?;
        let since = planting.since.date();
        let first = since + ready.least;
        let every = match crop.pick_interval() {
            Some(every) if crop.pick() == Some(Pick::Repeat) => every.most.num_days(),
            _ => A_WEEK,
        };
        let picked = bed.harvests.iter().map(|it| (&it.what.crop, it.when));
        let picked = picked
            .filter(|(of, _)| of.as_deref().is_none_or(|of| of == planting.crop))
            .map(|(_, when)| when);
        let looked = planting.check_ins.iter().map(|it| it.when);
        let last = looked
            .chain(picked)
            .filter(|when| *when >= planting.since)
            .max();
        // A look noted for a day to come takes the place of one by the calendar.
        let noted = self
            .garden
            .happened_in(&bed.id)
            .any(|it| match &it.entry.what {
                What::Note(note) => read_ahead(&note.text)
                    .is_some_and(|(_, what)| what.contains(&small(crop.name()))),
                _ => false,
            });
        if noted {
            return None;
        }
        let days = |span: TimeDelta| span.num_days();
        Some(match last.map(|when| when.date()) {
            Some(last) if last >= first => (
                last + TimeDelta::days(every),
                format!("Last looked at {}.", self.day(last)),
            ),
            _ => {
                let stood = (self.today - since).num_days();
                let why = format!(
                    "{stood} days in the bed; its kind takes {} to {}.",
                    days(ready.least),
                    days(ready.most)
                );
                (first, why)
            }
        })
    }

    /// Seed that should be up.
    fn seed(&mut self, bed: &Bed) {
        for planting in bed.plantings.iter().filter(|it| it.came == Came::Seeded) {
            let since = planting.since.date();
            let seen = planting.check_ins.iter().any(|look| {
                look.what.up.is_some() || look.what.leaves.is_some() || look.what.stage.is_some()
            });
            let waits = (self.today - since).num_days() <= LONGEST_WAIT_DAYS;
            if seen || !waits {
                continue;
            }
            let asked = emergence::Asked {
                crop: Given::default().or(Some(&planting.crop)),
                sown: Given::default().or(Some(&show_date(since))),
                bed: Some(named(bed)),
                ..emergence::Asked::default()
            };
            let told = emergence::answer(&asked, self.asking, &mut Faults::default());
            let Some((_, answer)) = told else { continue };
            let Some(Range { likely, late, .. }) = answer.expected else {
                continue;
            };
            let Some(by) = answer.resow_after.or(late).or(likely) else {
                continue;
            };
            let Ok(crop) = catalogue::crop(&planting.crop) else {
                continue;
            };
            let what = format!(
                "See whether the {} in {} is up",
                small(crop.name()),
                bed.name
            );
            let expected = likely.map(|likely| format!(", expected about {}", self.day(likely)));
            let why = format!("Sown {}{}.", self.day(since), expected.unwrap_or_default());
            if let Some(due) = self.add(Rank::Seed, Topic::Emergence, by, what, why) {
                due.bed = Some(bed.id.clone());
            }
        }
    }

    /// A bed that lay under residue and can be planted, or wants a look.
    fn settled(&mut self, bed: &Bed) {
        if !bed.plantings.is_empty() || residue::lying(bed, Some(self.today)).is_none() {
            return;
        }
        let asked = residue::Asked {
            bed: Some(named(bed)),
            ..residue::Asked::default()
        };
        let told = residue::answer(&asked, self.asking, &mut Faults::default());
        let Some((telling, answer)) = told else {
            return;
        };
        let Range { early, likely, .. } = answer.plant_from;
        let looked = bed.check_ins.iter().map(|look| look.when.date()).max();
        let lately = looked.is_some_and(|last| (self.today - last).num_days() < A_WEEK);
        let ready = likely.is_some_and(|likely| likely <= self.today);
        let (what, by, why) = match (ready, early, likely) {
            (true, ..) => (
                format!("{} can be planted", bed.name),
                self.today,
                telling.headline,
            ),
            (false, Some(early), Some(likely)) if !lately => (
                format!("Look at what lies on {}", bed.name),
                early,
                format!(
                    "Plants can go in about {}; a look makes that surer.",
                    self.day(likely)
                ),
            ),
            _ => return,
        };
        if let Some(due) = self.add(Rank::Bed, Topic::ResidueWait, by, what, why) {
            due.bed = Some(bed.id.clone());
        }
    }

    /// Covers that were laid for a night that is past.
    fn covers(&mut self) {
        let covered: Vec<(&Bed, NaiveDate)> = self
            .beds()
            .filter_map(|bed| Some((bed, bed.covered.as_ref()?.when.date())))
            .filter(|(_, since)| *since < self.today)
            .collect();
        let Some(first) = covered.iter().map(|(_, since)| *since).min() else {
            return;
        };
        let names: Vec<String> = covered.iter().map(|(bed, _)| bed.name.clone()).collect();
        let only = match covered.as_slice() {
            [(bed, _)] => Some(bed.id.clone()),
            _ => None,
        };
        let what = format!("Lift the covers on {}", list(&names));
        let why = format!(
            "On since {}; in the sun it gets hot beneath.",
            self.day(first)
        );
        if let Some(due) = self.add(Rank::Cover, Topic::FrostTonight, self.today, what, why) {
            due.bed = only;
        }
    }
}
