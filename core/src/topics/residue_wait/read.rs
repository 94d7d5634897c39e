//! Reads the question, filled in from the record where it is silent.

use chrono::{Datelike, Days, NaiveDate};
use serde_json::Value;
use uom::si::{area::square_meter, length::inch};

use super::{
    balance::Placement,
    clock::Moisture,
    from_record::{LONGEST_AGO, told_by},
    illness::IllnessSaid,
    limits::{Plan, Sign, SignOf, Slugs},
    materials::{Material, Measure, Stage},
    question::{Asked, CheckInAsked, Chop, Half, HalfAsked, MaterialAsked, Question, Seen, Smell},
    soil::{Season, SoilKnown},
    stops::Flag,
};
use crate::{
    asking::Asking,
    bed::BedAsked,
    catalogue::{self, KnownCrop, ResidueKind},
    garden::{Bed, Garden},
    given::{Faults, FromGiven, Given, Text},
    order,
    place::{
        known_soil::{BedSoil, SoilAsked, soil_temperature},
        site::{Site, SiteAsked},
        soil::{Mulch, Texture},
    },
    quantity::{Area, Length, Micrometres},
    text::small,
};

/// A bed as large as most: 4 x 8 ft. Common practice, where no area is given.
const USUAL_AREA_M2: f64 = 2.97;

/// Seeds of a jar that may fail beside plain mix and still count as well. Common practice.
const JAR_MAY_MISS: u32 = 3;

impl Asked {
    /// The question with its faults noted; `None` if it can't be answered.
    #[expect(clippy::too_many_lines, reason = "one field after the other, so that all faults show")]
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let today = asking.today;
        let record = self.in_the_record(asking.garden, today, faults);
        let known = record.as_ref();
        let laid = self.laid.clone().or(known.and_then(|known| known.laid.text()));
        let laid = if laid.is_given() || today.is_none() { laid.need(faults) } else { today };
        let today = today.or(laid);
        self.long_ago(laid, today, faults);

        let bed = self.bed.as_ref().map(|bed| bed.read(asking.garden, asking.system, faults));
        let area = within(&self.area, 0.05, 5000.0, "0.5 sq ft to 50,000 sq ft", faults);
        let area_guessed = area.is_none() && bed.is_none();
        let materials = match known {
            Some(known) if self.materials.is_empty() => known.materials.as_slice(),
            _ => self.materials.as_slice(),
        };
        if materials.is_empty() {
            faults.add(
                "materials",
                "",
                "at least one material",
                "what was laid is needed for an answer",
            );
        }
        let read: Vec<_> = materials.iter().map(|material| material.read(faults)).collect();
        let flags = match known {
            Some(known) if self.flags.is_empty() => known.flags.as_slice(),
            _ => self.flags.as_slice(),
        };
        let mut flags: Vec<Flag> = flags.iter().filter_map(|flag| flag.read(faults)).collect();
        let illness = self.illness.clone().or(known.and_then(|known| known.illness.text()));
        let illness = illness.read(faults).map(|IllnessSaid(illness)| illness);
        // A sickness named is sickness seen.
        if illness.is_some() && !flags.contains(&Flag::Diseased) {
            flags.push(Flag::Diseased);
        }

        let text = |of: fn(&Self) -> Option<&str>| known.and_then(of);
        let placement =
            self.placement.clone().or(text(|known| known.placement.text())).read(faults);
        let placement = placement.unwrap_or(Placement::OnTop);
        let cover = self.cover.clone().or(text(|known| known.cover.text())).read(faults);
        let compost = self.compost.clone().or(text(|known| known.compost.text())).read(faults);
        let compost = compost.filter(|depth| 0.5 <= depth.get::<inch>());
        let cover = named_cover(cover);
        let part = self
            .part
            .clone()
            .or(text(|known| known.part.text()))
            .read(faults)
            .map(|Text(part)| part);
        let moisture = self.moisture.clone().or(text(|known| known.moisture.text())).read(faults);
        // Under a cover or an inch of compost the residue keeps damp.
        let usual =
            if cover.is_some() || compost.is_some() { Moisture::Moist } else { Moisture::Part };
        let moisture = moisture.unwrap_or(usual);
        let chop = self.chop.clone().or(text(|known| known.chop.text())).read(faults);

        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let known_bed =
            bed.as_ref().and_then(|bed| asking.garden.bed(bed.as_ref()?.id.as_deref()?));
        let season = season(&site, known_bed, placement, today);
        let soil = soil_known(&self.soil_temperature, season, faults);
        let counted = self.slugs.read(faults);
        let plan = self.plan.read(faults).unwrap_or(Plan::Transplant);
        let crop = self.crop.read(faults).map(|KnownCrop(crop)| crop);
        let damping_off = self.damping_off.read(faults).unwrap_or(false);

        let mut seen = Seen::default();
        for look in known.into_iter().flat_map(|known| &known.check_ins).chain(&self.check_ins) {
            look.read(laid, &mut seen, faults);
        }
        let halves = match known {
            Some(known) if self.halves.is_empty() => known.halves.as_slice(),
            _ => self.halves.as_slice(),
        };
        if !halves.is_empty() && halves.len() != 2 {
            faults.add("halves", "", "two", "two parts are compared, no more and no fewer");
        }
        let halves: Vec<Half> =
            halves.iter().map(|part| part.read((placement, moisture), laid, faults)).collect();

        let bed = match bed {
            Some(bed) => Some(bed?),
            None => None,
        };
        let of_bed = bed.as_ref().map(|meant| {
            let metres = |length: Micrometres| length.metres();
            metres(meant.bed.length()) * metres(meant.bed.width())
        });
        let halved = part.is_some() || halves.iter().any(|half| !half.materials.is_empty());
        let square_metres = of_bed.unwrap_or(USUAL_AREA_M2) / if halved { 2.0 } else { 1.0 };
        let (laid, today) = (laid?, today?);
        let materials: Vec<Material> = read.into_iter().collect::<Option<_>>()?;
        // What the record has was chopped when it was laid.
        let chops = match self.chop.text().and(chop) {
            Some(chop) => chop != Chop::Whole,
            None => {
                let greens = |it: &Material| {
                    it.residue.kind() == ResidueKind::Plant && !it.residue.lies_dry()
                };
                known.is_none() && today <= laid && materials.iter().any(greens)
            }
        };
        if let Some(counted) = counted {
            seen.slugs = Some(Slugs { on: today, per_trap: counted.get() });
        }
        Some(Question {
            laid,
            today,
            bed,
            area: area.unwrap_or(Area::new::<square_meter>(square_metres)),
            area_guessed,
            materials,
            flags,
            illness,
            placement,
            moisture,
            cover,
            compost,
            part,
            chop,
            chops,
            soil: soil?,
            site,
            plan,
            crop,
            damping_off,
            seen,
            halves,
        })
    }

    fn long_ago(&self, laid: Option<NaiveDate>, today: Option<NaiveDate>, faults: &mut Faults) {
        let (Some(laid), Some(today)) = (laid, today) else {
            return;
        };
        if laid.checked_add_days(Days::new(LONGEST_AGO)).is_none_or(|end| end < today) {
            self.laid.refuse(
                faults,
                "a day within the last two years",
                "what was laid so long ago has settled",
            );
        }
    }

    /// What the record tells of the residue asked about, in this question's own fields: nothing where
    /// the question speaks of other residue, laid on another day.
    fn in_the_record(
        &self,
        garden: &Garden,
        today: Option<NaiveDate>,
        faults: &mut Faults,
    ) -> Option<Self> {
        let Some(BedAsked::Named(name)) = &self.bed else {
            return None;
        };
        let bed = garden.bed(name.text()?)?;
        let fields = told_by(bed, today, self.part.text())?;
        let known = Self::from_given(Some(&Value::Object(fields)), "", faults);
        let laid = self.laid.text();
        let same_day = laid.is_none() || laid == known.laid.text();
        let same = same_day && (laid.is_some() || self.materials.is_empty());
        same.then_some(known)
    }
}

/// What lies over it, unless that is nothing.
fn named_cover(cover: Option<Text>) -> Option<String> {
    let Text(cover) = cover?;
    (!["none", "no", "nothing"].contains(&small(&cover).as_str())).then_some(cover)
}

fn within(
    area: &Given<Area>,
    least: f64,
    most: f64,
    limits: &str,
    faults: &mut Faults,
) -> Option<Area> {
    area.within(Area::new::<square_meter>(least), Area::new::<square_meter>(most), limits, faults)
}

impl MaterialAsked {
    fn read(&self, faults: &mut Faults) -> Option<Material> {
        let amount = self.amount.read(faults);
        let measure = self.amount.text().and_then(Measure::of);
        let state = self.state.read(faults);
        let stage = self.stage.read(faults).unwrap_or(Stage::Mixed);
        let Text(name) = self.residue.need(faults)?;
        match catalogue::residue(&name) {
            Ok(residue) => Some(Material { residue, amount, measure, state, stage }),
            Err(nearest) => {
                let names: Vec<String> = nearest
                    .iter()
                    .map(|row| format!("{} ({})", small(row.name()), row.id()))
                    .collect();
                let allowed = format!("a material such as {}", names.join("; "));
                self.residue.refuse(faults, allowed, "no material of that name is known");
                None
            }
        }
    }
}

impl CheckInAsked {
    fn read(&self, laid: Option<NaiveDate>, seen: &mut Seen, faults: &mut Faults) {
        let date = self.date.need(faults);
        let left = self.left.read(faults);
        let smell = self.smell.read(faults);
        let worms = self.worms.read(faults);
        let slugs = self.slugs.read(faults);
        let jar = self.jar.read(faults);
        let plain = self.jar_plain.read(faults);
        let Some(date) = date else { return };
        if laid.is_some_and(|laid| date < laid) {
            self.date.refuse(faults, "a day after it was laid", "nothing lay there yet");
            return;
        }
        if let Some(left) = left {
            seen.looks.push((date, left));
        }
        if let Some(worms) = worms {
            seen.worms = Some((date, worms));
        }
        if let Some(slugs) = slugs {
            seen.slugs = Some(Slugs { on: date, per_trap: slugs.get() });
        }
        if smell.is_some_and(Smell::is_foul) {
            seen.signs.push(Sign { on: date, what: SignOf::Foul });
        }
        if let Some(jar) = jar {
            let thrive = plain.unwrap_or(20) <= jar.saturating_add(JAR_MAY_MISS);
            let what = if thrive { SignOf::SeedsThrive } else { SignOf::SeedsFail };
            seen.signs.push(Sign { on: date, what });
        }
    }
}

impl HalfAsked {
    fn read(
        &self,
        (placement, moisture): (Placement, Moisture),
        laid: Option<NaiveDate>,
        faults: &mut Faults,
    ) -> Half {
        let name = self.name.need(faults).map(|Text(name)| name).unwrap_or_default();
        let placement = self.placement.read(faults).unwrap_or(placement);
        let materials = self.materials.iter().filter_map(|each| each.read(faults)).collect();
        let usual =
            if named_cover(self.cover.read(faults)).is_some() { Moisture::Moist } else { moisture };
        let moisture = self.moisture.read(faults).unwrap_or(usual);
        let mut seen = Seen::default();
        for look in &self.check_ins {
            look.read(laid, &mut seen, faults);
        }
        Half { name, materials, placement, moisture, seen }
    }
}

/// The soil as given, on the course of the place's year; guessed where nothing is known of it.
///
/// Unlike a thermometer's readings the days given may lie ahead.
fn soil_known(given: &SoilAsked, season: Season, faults: &mut Faults) -> Option<SoilKnown> {
    let readings = match given {
        SoilAsked::One(one) if one.is_given() => {
            return soil_temperature(one, faults).map(SoilKnown::Steady);
        }
        SoilAsked::One(_) => return Some(SoilKnown::Season(season)),
        SoilAsked::Days(readings) => readings,
    };
    let mut days = Vec::new();
    for reading in readings {
        let date = reading.date.need(faults);
        if !reading.temperature.is_given() {
            reading.temperature.need(faults);
        }
        let temperature = soil_temperature(&reading.temperature, faults);
        days.push(date.zip(temperature));
    }
    let mut days: Vec<_> = days.into_iter().collect::<Option<_>>()?;
    order::sort(&mut days, &|(date, _)| [date.num_days_from_ce().into(), 0, 0]);
    Some(if days.is_empty() { SoilKnown::Season(season) } else { SoilKnown::Days(days, season) })
}

/// The year's course where the residue lies: at the surface, or 3 in down.
fn season(
    site: &Site,
    bed: Option<&Bed>,
    placement: Placement,
    today: Option<NaiveDate>,
) -> Season {
    let (Some(air), Some(today)) = (&site.air, today) else {
        return Season::Guessed { south: site.is_south() };
    };
    let (depth, mulch) = match placement {
        Placement::OnTop => (0.0, Mulch::Residue),
        Placement::WorkedIn => (3.0, Mulch::Bare),
    };
    let readings = bed.map(crate::garden::Bed::soil_readings).unwrap_or_default();
    let texture = site.soil.unwrap_or(Texture::Loam);
    Season::Place(BedSoil::new(air, texture, mulch, &readings, today), Length::new::<inch>(depth))
}
