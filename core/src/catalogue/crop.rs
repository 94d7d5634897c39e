//! One crop, and the figures it is known by.

use chrono::TimeDelta;
use uom::si::area::square_foot;
use uom::si::mass::{ounce, pound};

use super::class::{fahrenheit, inches};
use super::family::Tray;
use super::growth::{Growth, GrowthRow, HeatSum};
use super::words::{
    Bolts, ColdHarm, Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Seen,
    Spread, Start,
};
use crate::quantity::{Area, Length, Mass, Temperature};
use crate::source::Source;

/// The least and the most that are published or usual; they may be equal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Span<T> {
    /// The least.
    pub least: T,
    /// The most; not below the least.
    pub most: T,
}

/// A published range and the figure in it to go by when nothing more is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Range<T> {
    /// The least.
    pub least: T,
    /// The one to go by.
    pub usual: T,
    /// The most; not below the usual.
    pub most: T,
}

/// A group of figures that share their sources.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Facet {
    /// Space between plants.
    Spacing,
    /// How much it feeds.
    Feed,
    /// How and how often it is picked.
    Pick,
    /// Days to the first harvest.
    Ready,
    /// Frost class and killing temperatures.
    Frost,
    /// Weeks from sowing to planting out.
    Raise,
    /// Getting used to outdoors.
    Harden,
    /// Soil warmth and depth at planting out.
    PlantOut,
    /// Seed by weight.
    Seed,
    /// Cautions.
    Caution,
    /// Water in mid-season.
    Water,
    /// Years its seed keeps.
    Keep,
    /// Warmth to its first picking.
    Growth,
    /// Weeks of cold.
    Cold,
    /// What waiting in its tray costs.
    Wait,
    /// That cold does not harden it.
    NotByCold,
}

/// A part of the plant that frost takes sooner or later than the leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// "curd", "flower".
    pub name: &'static str,
    /// At which it is killed.
    pub killed_at: Temperature,
    /// When it is there, in heat over 0 °C since days passed 11 hours after midwinter; `None` where it is
    /// there all year, or goes by the crop's growth.
    pub heat: Option<Span<HeatSum>>,
}

/// Weeks of cold that make a kind bolt or head up tiny.
#[derive(Clone, Copy)]
pub(crate) struct ColdWeeks {
    pub(crate) counts: ColdCounts,
    /// Only older plants feel it, weeks in a warm house.
    pub(crate) after_weeks: u8,
    pub(crate) does: ColdHarm,
}

/// What counts as cold, and how much of it.
#[derive(Clone, Copy)]
pub(crate) enum ColdCounts {
    /// Nights: days from where it was seen, to where most do it.
    NightsBelow { below_f: u8, days: [u16; 2] },
    /// By the published sum for carrots.
    Carrot,
    /// After how much was not found.
    NotFound,
}

/// One crop of the catalogue. What is not known is `None`, never a guess.
pub struct Crop {
    id: &'static str,
    name: &'static str,
    also: &'static [&'static str],
    family: Family,
    mixed_with: Option<Family>,
    kind: Kind,
    starts: &'static [Start],
    habit: Habit,
    height: Height,
    spread: Spread,
    seen: Seen,
    spacing_in: Option<[u8; 3]>,
    feeder: Option<Feeder>,
    feeder_disputed: bool,
    pick: Option<Pick>,
    pick_days: Option<[u16; 2]>,
    ready_days: Option<[u16; 2]>,
    hardiness: Hardiness,
    /// Hardiest kinds, tenderest kinds.
    kill_f: Option<[i8; 2]>,
    cover_f: Option<i8>,
    part: Option<(&'static str, i8, Option<[u16; 2]>)>,
    hardening: Option<Hardening>,
    hardening_air_f: Option<i8>,
    weeks: Option<[u8; 2]>,
    soil_f: Option<i8>,
    soil_stop_f: Option<i8>,
    deeper: Option<Deeper>,
    seeds_per_ounce: Option<[u16; 2]>,
    pieces_per_pound: Option<[u16; 3]>,
    /// Hundredths of a pound on 1000 square feet.
    seed_rate: Option<[u16; 2]>,
    eaten: bool,
    cautions: &'static [&'static str],
    /// Hundredths.
    water: Option<u8>,
    keep_years: Option<u8>,
    growth: Option<GrowthRow>,
    cold: Option<ColdWeeks>,
    maggots: bool,
    damps_off: bool,
    snip: bool,
    wait: Option<&'static str>,
    not_by_cold_f: Option<i8>,
    frost_say: Option<&'static str>,
    own_brine: bool,
    sources: &'static [(Facet, Source)],
}

include!(concat!(env!("OUT_DIR"), "/crops.rs"));

/// Every crop, in order of its id.
pub fn crops() -> &'static [Crop] {
    &CROPS
}

impl Crop {
    /// Kebab-case and lasting: `bean-snap-bush`. Other programs rely on it.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The plain name: "Bush bean".
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// Other common names.
    pub fn also(&self) -> &'static [&'static str] {
        self.also
    }

    /// What it is grown for.
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Its family; the chief one of a mixture.
    pub fn family(&self) -> Family {
        self.family
    }

    /// The other family of a mixture. Rotation counts both.
    pub fn mixed_with(&self) -> Option<Family> {
        self.mixed_with
    }

    /// What goes into the ground, the usual way first.
    pub fn starts(&self) -> &'static [Start] {
        self.starts
    }

    /// How it stands beside the bed's side.
    pub fn habit(&self) -> Habit {
        self.habit
    }

    /// Height when grown (common practice).
    pub fn height(&self) -> Height {
        self.height
    }

    /// Spread when grown (common practice).
    pub fn spread(&self) -> Spread {
        self.spread
    }

    /// How it looks from above.
    pub fn seen(&self) -> Seen {
        self.seen
    }

    /// Space between plants in a bed, centre to centre, the same in every direction. The usual is
    /// the wide end unless the row of the table says otherwise. `None` for cover crops, which are
    /// strewn.
    pub fn spacing(&self) -> Option<Range<Length>> {
        self.spacing_in.map(|range| range_of(range, inches))
    }

    /// How much it feeds.
    pub fn feeder(&self) -> Option<Feeder> {
        self.feeder
    }

    /// Whether publications disagree on how much it feeds, so that it is a default, not a fact.
    pub fn feeder_disputed(&self) -> bool {
        self.feeder_disputed
    }

    /// How it is taken. `None` where nothing is.
    pub fn pick(&self) -> Option<Pick> {
        self.pick
    }

    /// Days between pickings in warm weather.
    pub fn pick_interval(&self) -> Option<Span<TimeDelta>> {
        self.pick_days.map(days)
    }

    /// Days to the first harvest: from sowing, or from planting out where [`Self::starts`] begins
    /// with something else. For a crop taken at once it is also when the ground is free again.
    pub fn days_to_harvest(&self) -> Option<Span<TimeDelta>> {
        self.ready_days.map(days)
    }

    /// What frost does to its leaves.
    pub fn hardiness(&self) -> Hardiness {
        self.hardiness
    }

    /// Cover when the leaves may come down to this: the row's own figure, or else the class's.
    pub fn cover_below(&self) -> Temperature {
        self.cover_f.map_or_else(|| self.hardiness.cover_below(), fahrenheit)
    }

    /// At which plants used to the cold are killed, leaf temperature: the middle of
    /// [`Self::kill_range`]. Where unknown, [`Hardiness::serious_loss`] is what there is.
    pub fn kill_temperature(&self) -> Option<Temperature> {
        let [hardiest, tenderest] = self.kill_f?;
        Some(fahrenheit((f64::from(hardiest) + f64::from(tenderest)) / 2.0))
    }

    /// Killing temperatures from the hardiest (the least) to the tenderest kinds.
    pub fn kill_range(&self) -> Option<Span<Temperature>> {
        let [hardiest, tenderest] = self.kill_f?;
        Some(Span { least: fahrenheit(hardiest), most: fahrenheit(tenderest) })
    }

    /// A part that dies at another temperature than the leaves.
    pub fn part(&self) -> Option<Part> {
        self.part.map(|(name, f, heat)| Part {
            name,
            killed_at: fahrenheit(f),
            heat: heat
                .map(|[least, most]| Span { least: HeatSum::of(least), most: HeatSum::of(most) }),
        })
    }

    /// How a young plant is got used to outdoors. `None` for what is sown in place.
    pub fn hardening(&self) -> Option<Hardening> {
        self.hardening
    }

    /// Lowest air while it is got used to outdoors: the row's looser figure, drawn from extension
    /// advice, or else the class's as published.
    pub fn lowest_air(&self) -> Option<Temperature> {
        Some(self.hardening_air_f.map_or(self.hardening?.lowest_air(), fahrenheit))
    }

    /// Weeks from sowing to planting out, in a heated house.
    pub fn weeks_to_plant(&self) -> Option<Span<TimeDelta>> {
        self.weeks.map(|[least, most]| days([u16::from(least) * 7, u16::from(most) * 7]))
    }

    /// Soil warm enough for planting out, at root depth on three mornings running. Advice.
    pub fn soil_to_plant(&self) -> Option<Temperature> {
        self.soil_f.map(fahrenheit)
    }

    /// Soil too cold for planting out below this: plants stand still. Where `None`, there is only
    /// the advice of [`Self::soil_to_plant`].
    pub fn soil_stop(&self) -> Option<Temperature> {
        self.soil_stop_f.map(fahrenheit)
    }

    /// Whether the stem may go deeper than it grew.
    pub fn deeper(&self) -> Option<Deeper> {
        self.deeper
    }

    /// What one seed weighs.
    pub fn seed_mass(&self) -> Option<Span<Mass>> {
        let [fewest, most] = self.seeds_per_ounce?;
        let each = |count: u16| Mass::new::<ounce>(1.0) / f64::from(count);
        Some(Span { least: each(most), most: each(fewest) })
    }

    /// What one clove, set or cut piece weighs. The usual is on the heavy side where only the ends
    /// are published, so that what is bought by weight is enough.
    pub fn piece_mass(&self) -> Option<Range<Mass>> {
        let [fewest, usual, most] = self.pieces_per_pound?;
        let each = |count: u16| Mass::new::<pound>(1.0) / f64::from(count);
        Some(Range { least: each(most), usual: each(usual), most: each(fewest) })
    }

    /// Seed to strew over an area, for a cover crop.
    pub fn seed_for(&self, area: Area) -> Option<Span<Mass>> {
        let [least, most] = self.seed_rate?;
        let thousands = (area / Area::new::<square_foot>(1000.0)).value;
        let strewn =
            |hundredths: u16| Mass::new::<pound>(f64::from(hundredths) / 100.0) * thousands;
        Some(Span { least: strewn(least), most: strewn(most) })
    }

    /// Whether people commonly eat it. Of flowers, only those that are: say "not for eating" of the
    /// rest.
    pub fn eaten(&self) -> bool {
        self.eaten
    }

    /// What can hurt, as sentences to show.
    pub fn cautions(&self) -> &'static [&'static str] {
        self.cautions
    }

    /// How much more or less than grass it uses when its leaves cover the ground (Kc mid).
    pub(crate) fn water_in_mid_season(&self) -> Option<f64> {
        self.water.map(|hundredths| f64::from(hundredths) / 100.0)
    }

    /// Years that its seed keeps in good dry storage.
    pub fn seed_keeps_years(&self) -> Option<u8> {
        self.keep_years
    }

    /// How warmth carries it to its first picking; `None` where that is not known.
    pub fn growth(&self) -> Option<Growth> {
        self.growth.map(Growth::of)
    }

    /// Weeks of cold that make it bolt or head up tiny; `None` where no trouble from them is known.
    pub(crate) fn cold(&self) -> Option<ColdWeeks> {
        self.cold
    }

    /// Whether seed maggots eat its seed.
    pub fn maggots_eat(&self) -> bool {
        self.maggots
    }

    /// Whether its seedlings rot off easily.
    pub fn damps_off(&self) -> bool {
        self.damps_off
    }

    /// Whether, of two in a cell, the weaker is cut off; else they are teased apart.
    pub fn is_snipped(&self) -> bool {
        self.snip
    }

    /// How its family does in a tray.
    pub(crate) fn tray(&self) -> Tray {
        self.family.tray()
    }

    /// What waiting in its tray costs.
    pub fn waiting(&self) -> &'static str {
        self.wait.unwrap_or(self.tray().wait)
    }

    /// What that rests on.
    pub fn waiting_sources(&self) -> Vec<Source> {
        match self.wait {
            Some(_) => self.sources(Facet::Wait).collect(),
            None => self.tray().sources.to_vec(),
        }
    }

    /// For a crop that cold does not harden: the air it is kept above meanwhile.
    pub fn not_by_cold(&self) -> Option<Temperature> {
        self.not_by_cold_f.map(fahrenheit)
    }

    /// What to do on the evening before a frost that takes it.
    pub fn before_frost(&self) -> Option<&'static str> {
        self.frost_say
    }

    /// Whether it is commonly cut so fine that it ferments in its own brine.
    pub fn makes_own_brine(&self) -> bool {
        self.own_brine
    }

    /// Years until its family, or the slower of two, should come back to the same soil.
    pub fn rotation_years(&self) -> u8 {
        let other = self.mixed_with.map_or(0, Family::gap_years);
        self.family.gap_years().max(other)
    }

    /// What one group of its figures rests on; the first is the one the figure was taken from.
    pub fn sources(&self, facet: Facet) -> impl Iterator<Item = Source> {
        self.sources.iter().filter(move |(of, _)| *of == facet).map(|(_, source)| *source)
    }

    /// What the figures of its row of the catalogue rest on, each once.
    pub fn all_sources(&self) -> Vec<Source> {
        use Facet::{Cold, Growth, Keep, NotByCold, Wait, Water};
        let mut sources = Vec::new();
        for (facet, source) in self.sources {
            let is_shown = !matches!(facet, Water | Keep | Growth | Cold | Wait | NotByCold);
            if is_shown && !sources.contains(source) {
                sources.push(*source);
            }
        }
        sources
    }
}

fn range_of<N, T>([least, usual, most]: [N; 3], typed: impl Fn(N) -> T) -> Range<T> {
    Range { least: typed(least), usual: typed(usual), most: typed(most) }
}

fn days([least, most]: [u16; 2]) -> Span<TimeDelta> {
    let days = |count: u16| TimeDelta::days(i64::from(count));
    Span { least: days(least), most: days(most) }
}
