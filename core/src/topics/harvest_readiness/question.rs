//! What the question of readiness asks, read: the signs, the measures, the dates, the bed.

use chrono::NaiveDate;
use uom::si::length::meter;

use super::recorded::Recorded;
use crate::{
    asking::Asking,
    catalogue::{Hardiness, KnownCrop},
    garden::{Bed, Garden, Planting},
    given::{Control, Faults, Given, Text, asked},
    harvest::{
        again::{Look, Looking, look_again},
        chosen::{Chosen, choose, refuse_sign},
        combine::Tally,
        cues::Stop,
        measures::{Measure, Measures, Percent},
        own,
        stage::Stage,
        verdict::{Ages, Sample, Seen, Verdict, judge, judge_bed},
    },
    journal::id::read_id,
    place::{
        site::{Site, SiteAsked},
        sun,
    },
    quantity::{Length, Temperature},
};

asked! {
    /// Is it ready, at its prime or past?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// What it is grown for, where there is more than one use: snap, shell or dry beans.
        purpose: Given<Text>,
        /// The signs seen on one of them.
        cues: Vec<Given<Text>>,
        /// What was measured on one of them.
        measures: Option<MeasuresAsked> = "",
        /// Several looked at, in place of one.
        samples: Vec<SampleAsked>,
        /// How many showed one sign each; what is told in `cues` and `measures` is one more.
        counted: Vec<CountedAsked>,
        /// When it was sown; from the record where a bed is named.
        sown: Given<NaiveDate> = "Sown",
        /// When it was planted out; from the record where a bed is named.
        transplanted: Given<NaiveDate> = "Planted out",
        /// When the flower opened, the silk showed or the fruit set.
        flowered: Given<NaiveDate> = "When it flowered",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// When the gardener comes back.
        next_visit: Given<NaiveDate> = "Next visit",
        /// A frost that is forecast.
        frost: Given<NaiveDate> = "Frost forecast for",
        /// The bed in the record, by its id or name; the one where the crop grows, if absent.
        bed: Given<Text> = "Bed",
        /// The planting in the record, by its id; it tells the crop and the bed too.
        planting: Given<Text>,
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
    /// A sign, and how many showed it.
    pub struct CountedAsked {
        /// The sign.
        cue: Given<Text>,
        /// How many showed it; none if absent.
        count: Given<u32>,
    }
}

asked! {
    /// What was measured.
    pub struct MeasuresAsked {
        /// From end to end.
        length: Given<Length> = "Length",
        /// Across, at the widest.
        width: Given<Length> = "Width",
        /// From the soil up.
        height: Given<Length> = "Height",
        /// Share that is in its ripe colour.
        colour: Given<Percent> = "Ripe colour",
        /// Share of the tops that have fallen over.
        tops_down: Given<Percent> = "Tops down",
        /// Leaves that are still green.
        green_leaves: Given<u32> = "Green leaves" as Control::Text,
        /// Soluble solids of the juice, percent.
        brix: Given<Percent> = "Brix",
    }
}

/// The dates of a question, read.
#[derive(Clone, Copy, Default)]
pub(super) struct Dates {
    pub(super) sown: Option<NaiveDate>,
    pub(super) transplanted: Option<NaiveDate>,
    pub(super) flowered: Option<NaiveDate>,
    pub(super) next_visit: Option<NaiveDate>,
    pub(super) frost: Option<NaiveDate>,
}

/// The question read, fit to be worked out.
pub(super) struct Question<'a> {
    pub(super) chosen: Chosen,
    /// Those not given as the record has them.
    pub(super) dates: Dates,
    pub(super) recorded: Recorded<'a>,
    pub(super) site: Site,
    /// What was seen on the one that was looked at closely.
    pub(super) one: Seen,
    /// What was seen on how many; empty where one speaks for all.
    pub(super) several: Vec<(Seen, u32)>,
}

impl Question<'_> {
    /// The verdict on all, and how many are at each stage where several were looked at.
    pub(super) fn judged(&self, ages: &Ages) -> (Verdict, Option<Tally>) {
        let sheet = self.chosen.sheet;
        if self.several.is_empty() {
            return (judge(sheet, &self.one, ages), None);
        }
        let samples = self.several.iter();
        let samples: Vec<Sample> = samples
            .map(|(seen, count)| Sample { count: *count, verdict: judge(sheet, seen, ages) })
            .collect();
        let (verdict, tally) = judge_bed(sheet, &samples);
        (verdict, Some(tally))
    }

    /// A frost that this crop does not bear.
    pub(super) fn harmful_frost(&self) -> Option<NaiveDate> {
        let hardiness = self.chosen.crop.hardiness();
        let tender = matches!(hardiness, Hardiness::Chilling | Hardiness::Tender);
        self.dates.frost.filter(|_| tender)
    }

    /// When to look again, today's verdict being known.
    pub(super) fn look_again(
        &self,
        today: NaiveDate,
        stage: Option<Stage>,
        tally: Option<Tally>,
        mean: Option<Temperature>,
    ) -> Option<Look> {
        let Chosen { crop, sheet } = self.chosen;
        let Recorded { bed, planting } = self.recorded;
        let air = self.site.air.as_ref();
        look_again(&Looking {
            sheet,
            today,
            stage,
            any_going: tally.is_some_and(|tally| tally.at(Stage::Going) > 0),
            mean,
            flowered: self.dates.flowered,
            short_days: self.site.latitude.and_then(|latitude| sun::short_days(latitude, today)),
            frost: self.harmful_frost(),
            own: bed
                .zip(planting)
                .zip(air)
                .and_then(|((bed, planting), air)| own::pace(bed, planting, crop, sheet, air)),
        })
    }

    /// All that was looked at.
    pub(super) fn all_seen(&self) -> impl Iterator<Item = &Seen> {
        core::iter::once(&self.one).chain(self.several.iter().map(|(seen, _)| seen))
    }

    /// The signs that end the question, each once.
    pub(super) fn stops(&self) -> Vec<&'static Stop> {
        let mut stops: Vec<&'static Stop> = Vec::new();
        for stop in self.all_seen().flat_map(|seen| &seen.stops) {
            if !stops.iter().any(|known| known.id() == stop.id()) {
                stops.push(*stop);
            }
        }
        stops
    }
}

impl Asked {
    /// Reads the question.
    pub(super) fn read<'a>(
        &'a self,
        asking: &Asking<'a>,
        faults: &mut Faults,
    ) -> Option<Question<'a>> {
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let dates = self.dates(asking.today, faults);
        let named = self.named(asking, faults);
        let crop = self.crop.clone();
        let crop = crop.or(named.map(|(_, planting)| planting.crop.as_str()));
        let chosen = choose(&crop, &self.purpose, faults);
        let recorded = self.recorded(asking, chosen, named, faults);
        if !self.samples.is_empty() && (!self.cues.is_empty() || self.measures.is_some()) {
            faults.add(
                "cues",
                "",
                "either these or samples",
                "signs of one and samples of several were both given",
            );
        }
        let one =
            chosen.and_then(|chosen| seen(chosen, &self.cues, self.measures.as_ref(), faults));
        let several: Vec<_> =
            self.samples.iter().map(|sample| sample.read(chosen, faults)).collect();
        let several = several.into_iter().collect::<Option<Vec<_>>>();
        let counted: Vec<_> =
            self.counted.iter().filter_map(|counted| counted.read(chosen, faults)).collect();
        let (chosen, one, mut several) = (chosen?, one?, several?);
        if !counted.is_empty() {
            // The one that was looked at closely is one of them.
            several.extend((!one.is_empty()).then(|| (one.clone(), 1)));
            several.extend(counted);
        }
        let dates = dates.filled(asking, recorded);
        Some(Question { chosen, dates, recorded, site, one, several })
    }

    pub(super) fn dates(&self, today: Option<NaiveDate>, faults: &mut Faults) -> Dates {
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
        let (sown, transplanted, flowered) =
            (past(&self.sown), past(&self.transplanted), past(&self.flowered));
        let mut future = |given: &Given<NaiveDate>| {
            let date = given.read(faults)?;
            if today.is_some_and(|today| date < today) {
                given.refuse(faults, "today or a day to come", "that is over");
                return None;
            }
            Some(date)
        };
        let (next_visit, frost) = (future(&self.next_visit), future(&self.frost));
        for (given, date) in [(&self.transplanted, transplanted), (&self.flowered, flowered)] {
            if sown.zip(date).is_some_and(|(sown, date)| date < sown) {
                given.refuse(faults, "a day after sowing", "that is before it was sown");
            }
        }
        Dates { sown, transplanted, flowered, next_visit, frost }
    }

    /// The planting that is named, and its bed.
    pub(super) fn named<'a>(
        &self,
        asking: &Asking<'a>,
        faults: &mut Faults,
    ) -> Option<(&'a Bed, &'a Planting)> {
        let Text(named) = self.planting.read(faults)?;
        let found = read_id(&named).and_then(|id| asking.garden.planting(id));
        if found.is_none() {
            self.planting.refuse(
                faults,
                "a planting of the record, by its id",
                "there is no such planting in the record",
            );
        }
        found
    }

    pub(super) fn recorded<'a>(
        &self,
        asking: &Asking<'a>,
        chosen: Option<Chosen>,
        named: Option<(&'a Bed, &'a Planting)>,
        faults: &mut Faults,
    ) -> Recorded<'a> {
        if let Some((bed, planting)) = named {
            if chosen.is_some_and(|chosen| !own::is_crop(&planting.crop, chosen.crop)) {
                self.planting.refuse(faults, "a planting of that crop", "another crop grows there");
            }
            return Recorded { bed: Some(bed), planting: Some(planting) };
        }
        let Some(Text(called)) = self.bed.read(faults) else {
            return chosen.map(|chosen| only_one(asking.garden, chosen)).unwrap_or_default();
        };
        let by_name =
            || asking.garden.beds.iter().find(|bed| bed.name.eq_ignore_ascii_case(&called));
        let bed = asking.garden.bed(&called).or_else(by_name);
        if bed.is_none() {
            self.bed.refuse(
                faults,
                "a bed of the record, by its name",
                "there is no bed of that name in the record",
            );
        }
        let planting = bed.zip(chosen).and_then(|(bed, chosen)| own::planting(bed, chosen.crop));
        Recorded { bed, planting }
    }
}

/// The one bed in which this crop grows, if there is but one.
fn only_one(garden: &Garden, chosen: Chosen) -> Recorded<'_> {
    let mut growing =
        garden.beds.iter().filter_map(|bed| Some((bed, own::planting(bed, chosen.crop)?)));
    match (growing.next(), growing.next()) {
        (Some((bed, planting)), None) => Recorded { bed: Some(bed), planting: Some(planting) },
        _ => Recorded::default(),
    }
}

impl Dates {
    /// With what the record tells filled in where nothing was given.
    pub(super) fn filled(self, asking: &Asking<'_>, recorded: Recorded<'_>) -> Self {
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
    pub(super) fn read(&self, chosen: Option<Chosen>, faults: &mut Faults) -> Option<(Seen, u32)> {
        let count = if self.count.is_given() {
            self.count.within(1, 10_000, "1 to 10000", faults)
        } else {
            Some(1)
        };
        let seen = seen(chosen?, &self.cues, self.measures.as_ref(), faults);
        seen.zip(count)
    }
}

impl CountedAsked {
    /// The sign and how many showed it; a sign nobody counted is none.
    pub(super) fn read(&self, chosen: Option<Chosen>, faults: &mut Faults) -> Option<(Seen, u32)> {
        let count = self.count.within(0, 10_000, "0 to 10000", faults);
        self.cue.need(faults)?;
        let seen = seen(chosen?, core::slice::from_ref(&self.cue), None, faults)?;
        count.filter(|count| *count > 0).map(|count| (seen, count))
    }
}

pub(super) fn seen(
    chosen: Chosen,
    cues: &[Given<Text>],
    measures: Option<&MeasuresAsked>,
    faults: &mut Faults,
) -> Option<Seen> {
    let mut seen = Seen {
        measures: measures.map(|measures| measures.read(chosen, faults)).unwrap_or_default(),
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
            given.within(Length::new::<meter>(0.0), Length::new::<meter>(5.0), "0 to 5 m", faults)
        };
        let (long, wide, tall) = (length(&self.length), length(&self.width), length(&self.height));
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
            (Measure::Height, self.height.field(), self.height.text()),
            (Measure::Colour, self.colour.field(), self.colour.text()),
            (Measure::TopsDown, self.tops_down.field(), self.tops_down.text()),
            (Measure::GreenLeaves, self.green_leaves.field(), self.green_leaves.text()),
            (Measure::Brix, self.brix.field(), self.brix.text()),
        ];
        for (measure, field, text) in names {
            if text.is_some() && !sizes.iter().any(|size| size.what() == measure) {
                let known: Vec<&str> = sizes.iter().map(|size| size.what().word()).collect();
                faults.add(
                    field,
                    text.unwrap_or_default(),
                    if known.is_empty() { "no measure".to_owned() } else { known.join(", ") },
                    "that tells nothing about this crop",
                );
            }
        }
        measures
    }
}
