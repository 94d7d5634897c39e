//! A layout made by hand: the proposed one, with plants put in and taken away at its sites, and what
//! follows from that.
//!
//! Sites are the holes of the drip lines, where a crop goes to holes, and every place that was
//! proposed. Too near is what the solver calls so: nearer than the mean of two spacings (J. Jeavons,
//! *How to Grow More Vegetables*) less the tolerance, or nearer to a side than the margin. What
//! still fits is what the solver would add beside the plants chosen.

use serde_json::Value;
use uom::si::length::meter;

use super::{
    Aim, MOST_WANTS, Request, SiteChoice, Standing, Want, crop_and_spacing, edge_margin,
    how_many::Plant,
    one::{Look, most},
    spot::Kept,
    wanted::in_the_record,
};
use crate::{
    bed::{Bed, Meant, TOLERANCE},
    catalogue::KnownCrop,
    garden::Garden,
    given::{Faults, FromGiven, Given},
    journal::{
        About, Draft, Sites, What, details,
        sites::{Hole, Place},
    },
    order,
    quantity::{Length, Micrometres, Quantity, System, show_spacing},
    text::{list, small},
    turns::{Pace, at_once},
};

/// A place where a plant may be put with one tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Site {
    /// From the left end.
    pub along: Micrometres,
    /// From the near side.
    pub across: Micrometres,
    /// The drip line, counted from the near side, where it lies on one.
    pub line: Option<u16>,
    /// The hole, counted along the line from the left end, where it is one.
    pub hole: Option<u16>,
    /// The crop set there, by its place among the crops.
    pub set: Option<usize>,
}

/// A crop that is set.
#[derive(Clone, Debug)]
struct Crop {
    id: String,
    name: String,
    want: Want,
}

/// A touch on the drawing, in metres, since that is what drawings are scaled by.
#[derive(Clone, Copy, Debug)]
pub struct Touch {
    /// From the left end.
    pub along_m: f64,
    /// From the near side.
    pub across_m: f64,
    /// A site farther than this is not meant.
    pub reach_m: f64,
}

/// A layout in the making.
#[derive(Clone, Debug)]
pub struct ByHand {
    bed: Bed,
    crops: Vec<Crop>,
    already: Vec<Standing>,
    sites: Vec<Site>,
}

/// What a plant is too near, by its place in the list of sites.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooNear {
    /// Another one that is set.
    Each(usize, usize),
    /// One that is in already, by its place among those.
    Already(usize, usize),
    /// The bed's side.
    Side(usize),
}

impl TooNear {
    /// The plant that is set.
    pub fn one(self) -> usize {
        let (Self::Each(one, _) | Self::Already(one, _) | Self::Side(one)) = self;
        one
    }
}

/// What follows from a layout made by hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// How many of each crop: "13 cabbage and 4 kale".
    pub set: String,
    /// Which plants are too near each other, a sentence each.
    pub conflicts: Vec<String>,
    /// The same as places, for a picture.
    pub too_near: Vec<TooNear>,
    /// What of each crop would still fit, and what is left over, a sentence each.
    pub more: Vec<String>,
}

/// A row of the sheet that is carried to the bed: a line, or a row without one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// "Line 1", or "6 in from the near side"; with the crop where there are several.
    pub row: String,
    /// The distances along the hose from the left end: "1 ft 3 in, 2 ft 9 in".
    pub distances: String,
}

/// So many conflicts are told in words; the picture shows all.
const TOLD: usize = 6;

impl ByHand {
    /// The layout proposed for a question, ready to be changed: `placed` as in the answer, whose
    /// first crop stands at `spacing_m` where the answer found its own.
    pub fn of(
        question: &Value,
        meant: &Meant,
        placed: &[Plant],
        spacing_m: Option<f64>,
        garden: &Garden,
        system: System,
    ) -> Option<Self> {
        let bed = &meant.bed;
        let asked = match question.get("plants").and_then(Value::as_array) {
            Some(plants) => plants.iter().take(MOST_WANTS).collect(),
            None => vec![question],
        };
        let mut crops = Vec::new();
        for (at, plant) in asked.into_iter().enumerate() {
            crops.push(read_crop(plant, bed, spacing_m.filter(|_| at == 0), system)?);
        }
        let at_holes = crops.iter().any(|crop| crop.want.sites == SiteChoice::Emitters);
        let mut sites = Vec::new();
        if let Some(drip) = bed.drip().filter(|_| at_holes) {
            for (number, line) in (1_u16..).zip(drip.lines()) {
                let holes = (1_u16..).zip(drip.emitters(line));
                sites.extend(holes.map(|(hole, along)| Site {
                    along,
                    across: line.across,
                    line: Some(number),
                    hole: Some(hole),
                    set: None,
                }));
            }
        }
        let mut by_hand = Self {
            bed: bed.clone(),
            crops,
            already: meant.id.as_deref().map_or_else(Vec::new, |id| in_the_record(garden, id, bed)),
            sites,
        };
        for plant in placed {
            by_hand.put(plant)?;
        }
        by_hand.in_order();
        Some(by_hand)
    }

    fn in_order(&mut self) {
        order::sort(&mut self.sites, &|site| [site.across.get(), site.along.get(), 0]);
    }

    /// Puts a proposed plant at its site, or makes it one.
    fn put(&mut self, plant: &Plant) -> Option<()> {
        let (along, across) = (metres(plant.along_m)?, metres(plant.across_m)?);
        let crop = self.crops.iter().position(|crop| crop.id == plant.crop)?;
        let at_hole = |site: &&mut Site| {
            plant.hole.is_some() && (site.line, site.hole) == (plant.line, plant.hole)
        };
        match self.sites.iter_mut().find(at_hole) {
            Some(site) => site.set = Some(crop),
            None => self.sites.push(Site {
                along,
                across,
                line: plant.line,
                hole: plant.hole,
                set: Some(crop),
            }),
        }
        Some(())
    }

    /// The sites, from the near side, then from the left end.
    pub fn sites(&self) -> &[Site] {
        &self.sites
    }

    /// The crops' names.
    pub fn crops(&self) -> Vec<&str> {
        self.crops.iter().map(|crop| crop.name.as_str()).collect()
    }

    /// Puts a plant of this crop at a site, or takes away the one that is there.
    pub fn tap(&mut self, site: usize, crop: usize) {
        let known = crop < self.crops.len();
        if let Some(site) = self.sites.get_mut(site).filter(|_| known) {
            site.set = match site.set {
                Some(_) => None,
                None => Some(crop),
            };
        }
    }

    /// Takes a touch: the nearest site gets a plant of this crop or loses its own. A crop on open
    /// ground goes where the finger is, to the inch or centimetre, unless a plant is meant. Whether
    /// anything was meant at all.
    pub fn touch(&mut self, touch: Touch, crop: usize, system: System) -> bool {
        let at = (metres(touch.along_m), metres(touch.across_m));
        let ((Some(along), Some(across)), Some(reach)) = (at, metres(touch.reach_m)) else {
            return false;
        };
        let Some(want) = self.crops.get(crop).map(|crop| crop.want) else {
            return false;
        };
        let open = want.sites == SiteChoice::Anywhere;
        let reach = match open {
            true => reach.min(Micrometres::new(want.spacing.get() / 3)),
            false => reach,
        };
        let off = |site: &Site| square((site.along, site.across), (along, across));
        let nearest = (0..self.sites.len()).filter_map(|at| Some((off(self.sites.get(at)?), at)));
        if let Some((off, site)) = nearest.min()
            && off <= reach.get() * reach.get()
        {
            self.tap(site, crop);
            return true;
        }
        let step = system.whole_step().get();
        let whole =
            |at: Micrometres| Micrometres::new((at.get() + step / 2).div_euclid(step) * step);
        let (along, across) = (whole(along), whole(across));
        let inside = |at: Micrometres, side: Micrometres| Micrometres::ZERO <= at && at <= side;
        let inside = inside(along, self.bed.length()) && inside(across, self.bed.width());
        if !open || !inside {
            return false;
        }
        self.sites.push(Site { along, across, line: None, hole: None, set: Some(crop) });
        self.in_order();
        true
    }

    /// Whether some crop goes anywhere, so that places can be made by touching.
    pub fn is_open(&self) -> bool {
        let open = |crop: &Crop| crop.want.sites == SiteChoice::Anywhere;
        self.crops.iter().any(open)
    }

    /// "Line 1, hole 3", or where it lies.
    pub fn name(&self, site: &Site, system: System) -> String {
        let along = site.along.to_length().show(system);
        match (site.line, site.hole) {
            (Some(line), Some(hole)) => format!("Line {line}, hole {hole}"),
            (Some(line), None) => format!("Line {line}, {along} from the left end"),
            _ => format!(
                "{along} from the left end, {} from the near side",
                site.across.to_length().show(system)
            ),
        }
    }

    /// What is set at a site: the crop's name.
    pub fn set_at(&self, site: &Site) -> Option<&str> {
        let crop = self.crops.get(site.set?)?;
        Some(&crop.name)
    }

    /// What follows from the layout as it is now. `on_hand` is how many there are of each crop,
    /// where that was said.
    pub fn judge(&self, on_hand: &[Option<u32>], system: System) -> Judged {
        let too_near = self.too_near();
        let told = too_near.iter().take(TOLD);
        let mut conflicts: Vec<String> = told.filter_map(|pair| self.told(pair, system)).collect();
        let untold = too_near.len().saturating_sub(TOLD);
        if untold > 0 {
            let untold = u32::try_from(untold).unwrap_or(u32::MAX);
            conflicts.push(format!("And {} more.", untold));
        }
        Judged { set: self.set_told(), conflicts, too_near, more: self.more(on_hand, system) }
    }

    /// The sites that are set, each with its place in the list and its crop.
    fn chosen(&self) -> Vec<(usize, &Site, &Crop)> {
        let sites = self.sites.iter().enumerate();
        sites.filter_map(|(at, site)| Some((at, site, self.crops.get(site.set?)?))).collect()
    }

    fn too_near(&self) -> Vec<TooNear> {
        let chosen = self.chosen();
        let mut found = Vec::new();
        for (place, (at, site, crop)) in chosen.iter().enumerate() {
            let here = (site.along, site.across);
            for (other_at, other, other_crop) in chosen.iter().skip(place + 1) {
                let needs = crop.want.spacing + other_crop.want.spacing;
                if square(here, (other.along, other.across)) * 4 < below(needs) {
                    found.push(TooNear::Each(*at, *other_at));
                }
            }
            for (other_at, plant) in self.already.iter().enumerate() {
                let needs = crop.want.spacing + plant.spacing;
                if square(here, (plant.along, plant.across)) * 4 < below(needs) {
                    found.push(TooNear::Already(*at, other_at));
                }
            }
            let margin = crop.want.edge_margin.at(crop.want.spacing);
            if self.to_the_side(site) < margin - TOLERANCE {
                found.push(TooNear::Side(*at));
            }
        }
        found
    }

    /// How far a site is from the nearest side.
    fn to_the_side(&self, site: &Site) -> Micrometres {
        let along = site.along.min(self.bed.length() - site.along);
        along.min(site.across).min(self.bed.width() - site.across)
    }

    /// A pair in a sentence: "Line 1, hole 3 and hole 4: 9 in between, 15 in wanted."
    fn told(&self, pair: &TooNear, system: System) -> Option<String> {
        let show = |um: i64| show_spacing(Micrometres::new(um).to_length(), system);
        let site = self.sites.get(pair.one())?;
        let crop = self.crops.get(site.set?)?;
        let name = self.name(site, system);
        let (other, there, needs) = match *pair {
            TooNear::Side(_) => {
                let margin = crop.want.edge_margin.at(crop.want.spacing);
                let side = self.to_the_side(site);
                return Some(format!(
                    "{name}: {} from the side, {} wanted.",
                    show(side.get()),
                    show(margin.get())
                ));
            }
            TooNear::Each(_, other) => {
                let other = self.sites.get(other)?;
                let spacing = self.crops.get(other.set?)?.want.spacing;
                let named = match (other.hole, other.line == site.line) {
                    (Some(hole), true) => format!("hole {hole}"),
                    _ => small(&self.name(other, system)),
                };
                (named, (other.along, other.across), spacing)
            }
            TooNear::Already(_, other) => {
                let plant = self.already.get(other)?;
                let named = "a plant already in".to_owned();
                (named, (plant.along, plant.across), plant.spacing)
            }
        };
        let between = square((site.along, site.across), there).isqrt();
        let wanted = (crop.want.spacing + needs).get().div_euclid(2);
        Some(format!("{name} and {other}: {} between, {} wanted.", show(between), show(wanted)))
    }

    /// How many of each crop are set.
    fn counts(&self) -> Vec<u32> {
        let of = |crop: usize| self.sites.iter().filter(|site| site.set == Some(crop)).count();
        (0..self.crops.len()).map(|crop| u32::try_from(of(crop)).unwrap_or(u32::MAX)).collect()
    }

    fn set_told(&self) -> String {
        let each = self.crops.iter().zip(self.counts());
        let each: Vec<String> = each.map(|(crop, set)| format!("{set} {}", crop.name)).collect();
        list(&each)
    }

    /// What of each crop is left over and what of it would still fit, a sentence each.
    fn more(&self, on_hand: &[Option<u32>], system: System) -> Vec<String> {
        let standing: Vec<Standing> = self
            .chosen()
            .iter()
            .map(|(_, site, crop)| Standing {
                along: site.along,
                across: site.across,
                spacing: crop.want.spacing,
            })
            .chain(self.already.iter().copied())
            .collect();
        let fit = |crop: &Crop| {
            let request = Request::new(&self.bed, &[crop.want], &standing, Aim::InOrder).ok()?;
            let kept = Kept::new(request.standing());
            Some(at_once(async |pace: &Pace| {
                most(&self.bed, &crop.want, &kept, Look::Rough, pace).await
            }))
        };
        let mut lines = Vec::new();
        for (at, (crop, set)) in self.crops.iter().zip(self.counts()).enumerate() {
            let over = on_hand.get(at).copied().flatten().and_then(|all| all.checked_sub(set));
            if let Some(over) = over.filter(|over| *over > 0) {
                lines.push(format!("{over} {} left over.", crop.name));
            }
            let spacing = show_spacing(crop.want.spacing.to_length(), system);
            lines.extend(fit(crop).map(|fit| match (fit.count, fit.bound) {
                (0, _) => format!("No more {} would fit at {spacing}.", crop.name),
                (more, bound) if bound > more && crop.want.sites == SiteChoice::Emitters => {
                    format!("At least {more} more {} would fit at {spacing}.", crop.name)
                }
                (more, _) => format!("{more} more {} would fit at {spacing}.", crop.name),
            }));
        }
        lines
    }

    /// What the answer offers to write, with this layout in place of the proposed one.
    pub fn drafts(&self, next: &[Draft], system: System) -> Vec<Draft> {
        let about = next.iter().find_map(|draft| draft.about.bed.as_deref());
        let Some(bed) = about else {
            return next.to_vec();
        };
        let stays = |draft: &&Draft| !matches!(draft.what, What::Planted(_));
        let mut drafts: Vec<Draft> = next.iter().filter(stays).cloned().collect();
        for (at, (crop, set)) in self.crops.iter().zip(self.counts()).enumerate() {
            if set == 0 {
                continue;
            }
            drafts.push(Draft {
                about: About::bed(bed),
                what: What::Planted(details::Planted {
                    crop: crop.id.clone(),
                    count: Some(set),
                    spacing: Some(show_spacing(crop.want.spacing.to_length(), system)),
                    at: self.places(at),
                    ..details::Planted::default()
                }),
            });
        }
        drafts
    }

    /// Where a crop is set, as holes where all are.
    fn places(&self, crop: usize) -> Option<Sites> {
        let own = || self.sites.iter().filter(|site| site.set == Some(crop));
        let holes: Option<Vec<Hole>> =
            own().map(|site| Some(Hole { line: site.line?, hole: site.hole? })).collect();
        if let Some(holes) = holes {
            return Sites::of_holes(&holes).ok();
        }
        let places: Vec<Place> = own()
            .map(|site| Place { across_um: site.across.get(), along_um: site.along.get() })
            .collect();
        Sites::of_places(&places).ok()
    }

    /// The sheet that is carried to the bed: line by line, the distances from the left end.
    pub fn sheet(&self, system: System) -> Vec<Row> {
        let mut rows: Vec<Row> = Vec::new();
        for (at, crop) in self.crops.iter().enumerate() {
            let mut last = None;
            for site in self.sites.iter().filter(|site| site.set == Some(at)) {
                if last != Some(site.across) {
                    last = Some(site.across);
                    let across = site.across.to_length().show(system);
                    let mut row = match site.line {
                        Some(line) => format!("Line {line}"),
                        None => format!("{across} from the near side"),
                    };
                    if self.crops.len() > 1 {
                        row.push_str(&format!(", {}", crop.name));
                    }
                    rows.push(Row { row, distances: String::new() });
                }
                if let Some(row) = rows.last_mut() {
                    let comma = if row.distances.is_empty() { "" } else { ", " };
                    let along = along_hose(site.along, system);
                    row.distances.push_str(&format!("{comma}{along}"));
                }
            }
        }
        rows
    }
}

/// One crop of the question, as the solver takes it.
fn read_crop(plant: &Value, bed: &Bed, spacing_m: Option<f64>, system: System) -> Option<Crop> {
    // The question was answered, so that nothing here is at fault.
    let mut faults = Faults::default();
    let named: Given<KnownCrop> = FromGiven::from_given(plant.get("crop"), "crop", &mut faults);
    let given = FromGiven::from_given(plant.get("spacing"), "spacing", &mut faults);
    let sites: Given<SiteChoice> = FromGiven::from_given(plant.get("sites"), "sites", &mut faults);
    let found = spacing_m.and_then(|m| Micrometres::from_length(Length::new::<meter>(m)));
    let read = crop_and_spacing(&named, &given, system, &mut faults);
    let (row, spacing) = match (read, found) {
        (Some((row, spacing)), found) => (row, found.unwrap_or(spacing)),
        (None, Some(found)) => (None, found),
        (None, None) => return None,
    };
    let called = named.text().unwrap_or_default();
    Some(Crop {
        id: row.map_or(called, |row| row.id()).to_owned(),
        name: row.map_or_else(|| called.to_owned(), |row| small(row.name())),
        want: Want {
            spacing,
            on_hand: None,
            sites: sites.read(&mut faults).unwrap_or(SiteChoice::usual(bed, spacing)),
            edge_margin: edge_margin(bed, row),
        },
    })
}

fn metres(metres: f64) -> Option<Micrometres> {
    Micrometres::from_length(Length::new::<meter>(metres))
}

/// The square of a distance, in square micrometres.
fn square(one: (Micrometres, Micrometres), other: (Micrometres, Micrometres)) -> i64 {
    // OK because no bed is longer than 31 m: squares stay below 2e15.
    let (along, across) = ((one.0 - other.0).get(), (one.1 - other.1).get());
    along * along + across * across
}

/// The square of twice the mean of two spacings, given as their sum, less the tolerance.
fn below(needs: Micrometres) -> i64 {
    let twice = (needs - TOLERANCE * 2).get().max(0);
    twice * twice
}

/// A distance along a hose as a tape measure has it: "2 ft 9 in" to the quarter inch, or "84 cm".
fn along_hose(along: Micrometres, system: System) -> String {
    const FOOT: i64 = Micrometres::from_inches(12).get();
    const QUARTER: i64 = Micrometres::from_inches(1).get() / 4;
    if system == System::Metric {
        return show_spacing(along.to_length(), system);
    }
    let along = (along.get() + QUARTER / 2).div_euclid(QUARTER) * QUARTER;
    let (feet, rest) = (along.div_euclid(FOOT), along.rem_euclid(FOOT));
    let inches = show_spacing(Micrometres::new(rest).to_length(), system);
    match (feet, rest) {
        (0, _) => inches,
        (feet, 0) => format!("{feet} ft"),
        (feet, _) => format!("{feet} ft {inches}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::fixture::inch;
    use crate::{
        ask::{Of, ask},
        record,
    };
    use serde_json::json;

    fn question() -> Value {
        json!({
            "topic": "plants-per-bed", "today": "2026-05-01",
            "bed": {"length": "8 ft", "width": "4 ft",
                    "drip": {"lines": 4, "line_spacing": "12 in", "emitter_spacing": "9 in"}},
            "plants": [{"crop": "cabbage", "spacing": "18 in"}],
        })
    }

    fn proposed(question: &Value) -> (ByHand, Vec<Draft>) {
        let garden = Garden::default();
        let answer = ask(question, &garden).unwrap();
        let Of::PlantsPerBed(found) = &answer.of else { panic!("another topic") };
        let meant = record::bed_meant(question, &garden, System::Us).unwrap();
        let spacing = found.way_round.as_ref().map(|it| it.spacing_m);
        let placed = found.way_round.as_ref().map_or(&found.placed, |it| &it.placed);
        let by_hand = ByHand::of(question, &meant, placed, spacing, &garden, System::Us);
        (by_hand.unwrap(), answer.telling.next)
    }

    fn hole(by_hand: &ByHand, line: u16, hole: u16) -> usize {
        let at = |site: &Site| (site.line, site.hole) == (Some(line), Some(hole));
        by_hand.sites().iter().position(at).unwrap()
    }

    #[test]
    fn what_was_proposed_has_no_conflict_and_no_room_left() {
        let (by_hand, next) = proposed(&question());
        let judged = by_hand.judge(&[Some(14)], System::Us);
        assert_eq!(judged.set, "12 cabbage");
        assert!(judged.conflicts.is_empty(), "{judged:?}");
        assert_eq!(judged.more, ["2 cabbage left over.", "No more cabbage would fit at 18 in."]);
        assert_eq!(by_hand.sites().len(), 44);
        assert_eq!(by_hand.drafts(&next, System::Us), next);
    }

    #[test]
    fn a_plant_put_too_near_is_named_with_its_neighbours() {
        let (mut by_hand, _) = proposed(&question());
        let set: Vec<(u16, u16)> = by_hand
            .sites()
            .iter()
            .filter(|site| site.set.is_some())
            .map(|site| (site.line.unwrap(), site.hole.unwrap()))
            .collect();
        let (line, first) = set[0];
        by_hand.tap(hole(&by_hand, line, first + 1), 0);
        let judged = by_hand.judge(&[], System::Us);
        assert_eq!(judged.set, "13 cabbage");
        let wanted = format!(
            "Line {line}, hole {first} and hole {}: 9 in between, 18 in wanted.",
            first + 1
        );
        assert!(judged.conflicts.contains(&wanted), "{judged:?}");
        assert_eq!(judged.too_near.len(), judged.conflicts.len());
    }

    #[test]
    fn a_plant_taken_away_leaves_room_for_one() {
        let (mut by_hand, next) = proposed(&question());
        let one = by_hand.sites().iter().position(|site| site.set.is_some());
        by_hand.tap(one.unwrap(), 0);
        let judged = by_hand.judge(&[], System::Us);
        assert_eq!(judged.set, "11 cabbage");
        assert_eq!(judged.more, ["1 more cabbage would fit at 18 in."]);
        let drafts = by_hand.drafts(&next, System::Us);
        let What::Planted(planted) = &drafts.last().unwrap().what else {
            panic!("nothing is planted")
        };
        assert_eq!(planted.count, Some(11));
        assert_eq!(planted.at.as_ref().unwrap().count(), 11);
        assert!(matches!(drafts[0].what, What::Bed(_)), "the bed is written too");
    }

    #[test]
    fn the_sides_and_what_is_in_already_keep_their_room() {
        let mut question = question();
        question["bed"]["edge_margin"] = "4 in".into();
        let (mut by_hand, _) = proposed(&question);
        for site in 0..by_hand.sites().len() {
            if by_hand.sites()[site].set.is_some() {
                by_hand.tap(site, 0);
            }
        }
        // Emitters begin 3 in from the end.
        by_hand.tap(hole(&by_hand, 2, 1), 0);
        let judged = by_hand.judge(&[], System::Us);
        assert_eq!(judged.conflicts, ["Line 2, hole 1: 3 in from the side, 4 in wanted."]);
        let near = by_hand.sites()[hole(&by_hand, 2, 3)];
        by_hand.already.push(Standing {
            along: near.along,
            across: near.across,
            spacing: Micrometres::from_inches(24),
        });
        by_hand.tap(hole(&by_hand, 2, 1), 0);
        by_hand.tap(hole(&by_hand, 2, 2), 0);
        let judged = by_hand.judge(&[], System::Us);
        assert_eq!(
            judged.conflicts,
            ["Line 2, hole 2 and a plant already in: 9 in between, 21 in wanted."]
        );
    }

    #[test]
    fn two_crops_keep_the_mean_of_their_spacings() {
        let mut two = question();
        two["plants"] = json!([{"crop": "cabbage", "spacing": "18 in", "on_hand": 1}, {"crop": "kale", "spacing": "12 in", "on_hand": 0}]);
        let (mut by_hand, _) = proposed(&two);
        let cabbage = by_hand.sites().iter().position(|site| site.set == Some(0)).unwrap();
        let site = by_hand.sites()[cabbage];
        let (line, at) = (site.line.unwrap(), site.hole.unwrap());
        by_hand.tap(hole(&by_hand, line, at + 1), 1);
        let judged = by_hand.judge(&[Some(1), Some(3)], System::Us);
        assert_eq!(judged.set, "1 cabbage and 1 kale");
        assert!(judged.conflicts[0].ends_with("9 in between, 15 in wanted."), "{judged:?}");
        assert!(judged.more.contains(&"2 kale left over.".to_owned()));
        let sheet = by_hand.sheet(System::Us);
        assert_eq!(sheet[0].row, format!("Line {line}, cabbage"));
    }

    #[test]
    fn the_sheet_gives_each_line_its_distances() {
        let mut near = question();
        near["plants"] = json!([{"crop": "cabbage", "spacing": "18 in", "on_hand": 3}]);
        let (by_hand, _) = proposed(&near);
        let sheet = by_hand.sheet(System::Us);
        let all: Vec<&str> = sheet.iter().flat_map(|row| row.distances.split(", ")).collect();
        assert_eq!(all.len(), 3);
        assert!(sheet[0].row.starts_with("Line "));
        let told = |inches: i64| along_hose(Micrometres::from_inches(inches), System::Us);
        assert_eq!([3, 12, 21, 33].map(told), ["3 in", "1 ft", "1 ft 9 in", "2 ft 9 in"]);
        // An emitter every 30 cm.
        assert_eq!(along_hose(Micrometres::new(900_000), System::Us), "2 ft 11 1/2 in");
        assert_eq!(along_hose(Micrometres::new(900_000), System::Metric), "90 cm");
        assert!(all.iter().all(|it| it.ends_with(" in") || it.ends_with(" ft")), "{all:?}");
    }

    #[test]
    fn on_open_ground_a_touch_between_plants_makes_a_place() {
        let mut open = question();
        open["bed"] = json!({"length": "8 ft", "width": "4 ft"});
        open["plants"][0]["on_hand"] = 2.into();
        let (mut by_hand, _) = proposed(&open);
        let touch = |along: f64, across: f64| Touch {
            along_m: along * 0.0254,
            across_m: across * 0.0254,
            reach_m: 0.3,
        };
        assert_eq!(by_hand.sites().len(), 2);
        assert!(by_hand.touch(touch(70.2, 24.4), 0, System::Us));
        let added = by_hand.sites().iter().find(|site| site.along == inch(70));
        assert_eq!(added.unwrap().across, inch(24));
        assert_eq!(by_hand.judge(&[], System::Us).set, "3 cabbage");
        // Near to it, it is meant; outside the bed nothing is.
        assert!(by_hand.touch(touch(73.0, 24.0), 0, System::Us));
        assert_eq!(by_hand.judge(&[], System::Us).set, "2 cabbage");
        assert!(!by_hand.touch(touch(120.0, 24.0), 0, System::Us));
        assert!(!by_hand.touch(touch(f64::NAN, 24.0), 0, System::Us));
        assert!(!by_hand.touch(touch(10.0, 10.0), 7, System::Us));
    }

    #[test]
    fn on_open_ground_the_proposed_places_are_the_sites() {
        let mut open = question();
        open["bed"] = json!({"length": "8 ft", "width": "4 ft"});
        let (mut by_hand, next) = proposed(&open);
        let all = by_hand.sites().len();
        assert!(by_hand.judge(&[], System::Us).conflicts.is_empty());
        by_hand.tap(0, 0);
        assert_eq!(by_hand.sites().len(), all);
        let judged = by_hand.judge(&[], System::Us);
        assert_eq!(judged.set, format!("{} cabbage", all - 1));
        assert!(judged.more[0].starts_with("1 more"), "{judged:?}");
        assert_eq!(by_hand.drafts(&next, System::Us).len(), next.len());
        assert!(by_hand.sheet(System::Us)[0].row.ends_with("from the near side"));
    }
}
