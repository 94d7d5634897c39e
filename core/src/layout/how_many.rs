//! Topic `plants-per-bed`: how many plants fit in a bed, and where.
//!
//! The count at the asked spacing is the true maximum on a drip bed's sites (see [`pack`](super::pack));
//! without drip it is the best of the patterns of [`patterns`](super::patterns). Where not all that
//! is in hand fits, the crop's published range is gone through from wide to narrow: the first
//! spacing that takes all of them is the way round, and the verdict.

use super::{
    Aim, Layout, Placed, Request, SiteChoice, Standing, Want, fill_by, fillers,
    loosest::counts,
    rest,
    rest::Stood,
    sense::Sense,
    spot::Kept,
    telling,
    wanted::{PlantAsked, StandingAsked, Wanted, in_the_record},
};
use crate::{
    asking::Asking,
    bed::{self, BedAsked, Meant},
    catalogue::{self, Kind},
    given::{Faults, Given, asked},
    place::site::SiteAsked,
    quantity::{Length, Micrometres, System, show_spacing},
    telling::Telling,
    text::small,
    turns::Pace,
};
use uom::si::length::meter;

asked! {
    /// How many plants fit in a bed?
    pub struct Asked {
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// The crops that are to go in, in order of wanting.
        plants: Vec<PlantAsked> = "",
        /// Which crop goes first when not all fit.
        aim: Given<Aim> = "When not all fit",
        /// What is in the bed already, beside what the record tells.
        standing: Vec<StandingAsked>,
    }
}

/// How many fit, and where.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Each plant, by its distance from the near side, then from the left end.
    pub placed: Vec<Plant>,
    /// How many of each crop, in the order asked.
    pub counts: Vec<u32>,
    /// How many of each crop are left over; null where it was not said how many there are.
    pub left_over: Vec<Option<u32>>,
    /// Whether no layout holds more.
    pub proved: bool,
    /// No layout that serves the aim holds more plants than this in all.
    pub bound: u32,
    /// The layout in words a person can follow along the hose.
    pub arrangement: String,
    /// How many of the first crop fit at each spacing of its published range, from wide to narrow,
    /// however many there are.
    pub at_spacing: Vec<AtSpacing>,
    /// What fits into the gaps that are left.
    pub fillers: Vec<Filler>,
    /// All of the first crop at a closer spacing of its published range, where the asked one leaves some over.
    pub way_round: Option<WayRound>,
}

/// One plant's place.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Plant {
    /// The crop's catalogue id, or the gardener's word for it.
    pub crop: String,
    /// From the left end, metres.
    pub along_m: f64,
    /// From the near side, metres.
    pub across_m: f64,
    /// The drip line, counted from the near side, where the plant stands at one.
    pub line: Option<u16>,
    /// The hole, counted along the line from the left end, where the plant stands at one.
    pub hole: Option<u16>,
}

/// A count at a spacing.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AtSpacing {
    /// The spacing, metres.
    pub spacing_m: f64,
    /// How many fit.
    pub count: u32,
}

impl AtSpacing {
    /// The spacing as it is told.
    pub fn told(&self, system: System) -> String {
        show_spacing(Length::new::<meter>(self.spacing_m), system)
    }
}

/// What fits into the gaps.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Filler {
    /// The spacing, metres.
    pub spacing_m: f64,
    /// How many fit.
    pub count: u32,
    /// Crops that suit, by catalogue id.
    pub crops: Vec<String>,
}

impl Filler {
    /// The spacing as it is told.
    pub fn told(&self, system: System) -> String {
        show_spacing(Length::new::<meter>(self.spacing_m), system)
    }

    /// The names of the crops that suit; what only looks like food says so.
    pub fn names(&self) -> Vec<String> {
        let rows = self.crops.iter().filter_map(|id| catalogue::crop(id).ok());
        rows.map(|crop| match crop.kind() == Kind::Flower && !crop.eaten() {
            true => format!("{} (not for eating)", small(crop.name())),
            false => small(crop.name()),
        })
        .collect()
    }
}

/// A closer spacing that takes all.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WayRound {
    /// The spacing, metres.
    pub spacing_m: f64,
    /// How many of each crop fit then.
    pub counts: Vec<u32>,
    /// How many of each crop are left over then.
    pub left_over: Vec<Option<u32>>,
    /// Each plant's place then.
    pub placed: Vec<Plant>,
    /// The layout in words.
    pub arrangement: String,
}

/// The bed that was asked about, ready to lay crops out in.
struct Ground<'a> {
    meant: &'a Meant,
    /// What stays in it.
    standing: &'a [Standing],
    aim: Aim,
    /// Whether the pole is the south one, where that is known.
    south: Option<bool>,
    pace: &'a Pace,
}

impl Ground<'_> {
    fn sense(&self, wanted: &[Wanted<'_>]) -> Sense<'_> {
        let crops = wanted.iter().map(|wanted| (wanted.row, wanted.spacing));
        Sense::new(&self.meant.bed, self.south, crops)
    }

    async fn lay(&self, wanted: &[Wanted<'_>]) -> Result<Layout, Vec<super::Fault>> {
        let wants: Vec<_> = wanted.iter().map(Wanted::want).collect();
        let request = Request::new(&self.meant.bed, &wants, self.standing, self.aim)?;
        let sense = self.sense(wanted);
        let judge = |placed: &[Placed]| match wanted.len() {
            1 => 0,
            _ => sense.score(placed),
        };
        Ok(fill_by(&request, &judge, self.pace).await)
    }

    /// How many fit of each of these, which differ by their spacing and come in its order.
    async fn counts(&self, wants: &[Want]) -> Vec<u32> {
        let kept = Kept::new(self.standing);
        counts(&self.meant.bed, wants, &kept, self.pace).await
    }
}

/// A layout with the crops it was made for.
pub(super) struct Laid<'a> {
    pub wanted: Vec<Wanted<'a>>,
    pub layout: Layout,
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub meant: &'a Meant,
    pub asked: &'a Laid<'a>,
    pub way_round: Option<&'a Laid<'a>>,
    pub already: usize,
    pub aim: Aim,
    /// Where each crop stands best, as far as the layout told follows it.
    pub sense: Vec<String>,
    pub fillers: &'a [Filler],
    pub resting: &'a [Stood],
    /// How many fit on the holes, and along the lines, where the spacing is no multiple of the holes'.
    pub beside: Option<(u32, u32)>,
}

/// Answers the question.
pub(crate) async fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let meant = bed::needed(asked.bed.as_ref(), asking.garden, asking.system, faults);
    let aim = asked.aim.read(faults).unwrap_or_default();
    if asked.plants.is_empty() {
        faults.add("plants", "", "at least one crop", "what is to go in is needed for an answer");
    }
    // Without the bed the crops are still read, so that their faults show too.
    let bed = meant.as_ref().map(|meant| &meant.bed);
    let wanted: Vec<Wanted<'_>> =
        asked.plants.iter().filter_map(|plant| plant.read(bed, asking.system, faults)).collect();
    let more: Vec<_> =
        asked.standing.iter().filter_map(|plant| plant.read(asking.system, faults)).collect();
    let meant = meant?;
    if wanted.len() != asked.plants.len() || more.len() != asked.standing.len() {
        return None;
    }
    let mut standing = meant
        .id
        .as_deref()
        .map_or_else(Vec::new, |id| in_the_record(asking.garden, id, &meant.bed));
    standing.extend(more);

    let ground = Ground {
        meant: &meant,
        standing: &standing,
        aim,
        // Faults of the record's place are for the questions that rest on it.
        south: SiteAsked::read(None, asking.garden, &mut Faults::default()).south,
        pace,
    };
    let layout = match ground.lay(&wanted).await {
        Ok(layout) => layout,
        Err(wrong) => {
            telling::refuse(&wrong, asking.system, faults);
            return None;
        }
    };
    let first = wanted.first()?;
    let steps = first.steps(asking.system);
    let wants: Vec<Want> =
        steps.iter().map(|&spacing| first.at(spacing, &meant.bed).want()).collect();
    let counts = ground.counts(&wants).await;
    let at_spacing: Vec<(Micrometres, u32)> = steps.into_iter().zip(counts).collect();

    let asked_laid = Laid { wanted, layout };
    let way_round = way_round(&asked_laid, &at_spacing, &ground).await;
    let resting = rest::resting(&meant, asking.garden, asking.today);
    let fillers = fillers(&asked_laid, &meant, standing.clone(), &resting, asking.system);
    let told_laid = way_round.as_ref().unwrap_or(&asked_laid);
    let found = Found {
        aim,
        sense: match told_laid.wanted.len() {
            1 => Vec::new(),
            _ => ground.sense(&told_laid.wanted).told(told_laid),
        },
        fillers: if way_round.is_some() { &[] } else { &fillers },
        resting: &resting,
        meant: &meant,
        asked: &asked_laid,
        way_round: way_round.as_ref(),
        already: standing.len(),
        beside: beside(told_laid, &ground).await,
    };
    let told = telling::how_many(&found, asking);
    Some((
        told,
        Answer {
            placed: plants(&asked_laid),
            counts: asked_laid.layout.counts.clone(),
            left_over: left_over(&asked_laid),
            proved: asked_laid.layout.proved,
            bound: asked_laid.layout.bound,
            arrangement: telling::arrangement(&asked_laid, asking.system),
            at_spacing: at_spacing
                .iter()
                .map(|(spacing, count)| AtSpacing { spacing_m: spacing.metres(), count: *count })
                .collect(),
            fillers,
            way_round: way_round.as_ref().map(|laid| WayRound {
                spacing_m: laid.wanted.first().map_or(0.0, |first| first.spacing.metres()),
                counts: laid.layout.counts.clone(),
                left_over: left_over(laid),
                placed: plants(laid),
                arrangement: telling::arrangement(laid, asking.system),
            }),
        },
    ))
}

/// The widest closer spacing of the published range at which all of the first crop fit.
async fn way_round<'a>(
    asked: &Laid<'a>,
    at_spacing: &[(Micrometres, u32)],
    ground: &Ground<'_>,
) -> Option<Laid<'a>> {
    let first = asked.wanted.first()?;
    let in_hand = first.on_hand?;
    if asked.layout.counts.first().copied()? >= in_hand {
        return None;
    }
    let (spacing, _) =
        at_spacing.iter().find(|(spacing, count)| *spacing < first.spacing && *count >= in_hand)?;
    let mut wanted = asked.wanted.clone();
    if let Some(first) = wanted.first_mut() {
        *first = first.at(*spacing, &ground.meant.bed);
    }
    let layout = ground.lay(&wanted).await.ok()?;
    (layout.counts.first().copied()? >= in_hand).then_some(Laid { wanted, layout })
}

/// What fits into the gaps of a layout: the gaps with the crops that suit them.
fn fillers(
    laid: &Laid<'_>,
    meant: &Meant,
    mut plants: Vec<Standing>,
    resting: &[Stood],
    system: System,
) -> Vec<Filler> {
    if laid.layout.placed.is_empty() {
        return Vec::new();
    }
    plants.extend(laid.layout.placed.iter().filter_map(|placed| {
        Some(Standing {
            along: placed.along,
            across: placed.across,
            spacing: laid.wanted.get(placed.want)?.spacing,
        })
    }));
    let main: Vec<_> = laid.wanted.iter().filter_map(|wanted| wanted.row).collect();
    let families: Vec<_> = resting.iter().map(|stood| stood.0).collect();
    let suiting = |spacing| fillers::suiting(spacing, &main, &families);
    let suits = |spacing| !suiting(spacing).is_empty();
    fillers::gaps(&meant.bed, &plants, system, &suits)
        .iter()
        .map(|gaps| Filler {
            spacing_m: gaps.spacing.metres(),
            count: gaps.places.len() as u32,
            crops: suiting(gaps.spacing).iter().map(|crop| crop.id().to_owned()).collect(),
        })
        .collect()
}

/// How many of a single crop fit on the holes and how many along the lines, where its spacing is no
/// multiple of the holes' so that keeping to them may cost plants.
async fn beside(laid: &Laid<'_>, ground: &Ground<'_>) -> Option<(u32, u32)> {
    let [one] = laid.wanted.as_slice() else {
        return None;
    };
    let pitch = ground.meant.bed.drip()?.emitter_spacing().get();
    if one.sites != SiteChoice::Emitters || one.spacing.get() % pitch == 0 {
        return None;
    }
    let most = async |sites| {
        let want = Want { sites, ..one.want() };
        ground.counts(&[want]).await.first().copied()
    };
    let laid_out = laid.layout.counts.first().copied()?;
    // With fewer plants than places the layout does not say how many places there are.
    let at_emitters = match one.on_hand {
        Some(in_hand) if in_hand <= laid_out => most(SiteChoice::Emitters).await?,
        _ => laid_out,
    };
    Some((at_emitters, most(SiteChoice::AlongLine).await?))
}

fn left_over(laid: &Laid<'_>) -> Vec<Option<u32>> {
    let counts = laid.layout.counts.iter();
    laid.wanted
        .iter()
        .zip(counts)
        .map(|(wanted, count)| wanted.on_hand.map(|in_hand| in_hand.saturating_sub(*count)))
        .collect()
}

pub(super) fn plants(laid: &Laid<'_>) -> Vec<Plant> {
    let crop =
        |placed: &Placed| laid.wanted.get(placed.want).map_or("", |wanted| wanted.id()).to_owned();
    laid.layout
        .placed
        .iter()
        .map(|placed| Plant {
            crop: crop(placed),
            along_m: placed.along.metres(),
            across_m: placed.across.metres(),
            line: placed.line,
            hole: placed.hole,
        })
        .collect()
}
