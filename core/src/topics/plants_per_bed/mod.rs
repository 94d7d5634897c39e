//! Topic `plants-per-bed`: how many plants fit in a bed, and where.
//!
//! The count at the asked spacing is the true maximum on a drip bed's sites, searched by a moving
//! front ([`layout`]); without drip it is the best of the patterns of [`patterns`](layout::patterns).
//! Where not all that is in hand fits, the crop's published range is gone through from wide to
//! narrow: the first spacing that takes all of them is the way round, and the verdict.
//!
//! Of equal layouts the better one is told (`siting`), with what fits in between (`fillers`) and the
//! families that the bed should rest from (`rotation`).

mod answer;
mod fillers;
mod question;
mod rotation;
mod siting;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, AtSpacing, Filler, WayRound};
pub use question::{Asked, PlantAsked, StandingAsked};

use self::{answer::left_over, question::Question, rotation::Stood, siting::Siting};
use crate::{
    ask::Asking,
    bed::Meant,
    given::Faults,
    layout::{self, Aim, Plant, SiteChoice, Want},
    place::site::SiteAsked,
    plan::{Laid, Wanted, arrangement},
    quantity::{Micrometres, System},
    telling::Telling,
    turns::Pace,
};

/// The question, ready to lay crops out in its bed.
struct Ground<'a> {
    question: &'a Question,
    /// Whether the pole is the south one, where that is known.
    south: Option<bool>,
    pace: &'a Pace,
}

impl Ground<'_> {
    fn siting(&self, wanted: &[Wanted]) -> Siting<'_> {
        let crops = wanted.iter().map(|wanted| (wanted.row, wanted.want.spacing));
        Siting::new(&self.question.meant.bed, self.south, crops)
    }

    /// Lays these crops out; nothing where the solver can't take them.
    async fn lay(&self, wanted: Vec<Wanted>) -> Option<Laid> {
        let siting = self.siting(&wanted);
        let judge = |plants: &[Vec<Plant>]| match plants.len() {
            1 => 0,
            _ => siting.score(plants),
        };
        let request = self.question.request(&wanted).ok()?;
        let layout = layout::fill_by(&request, &judge, self.pace).await;
        let Question { meant, standing, .. } = self.question;
        Some(Laid {
            bed: meant.bed.clone(),
            bed_id: meant.id.clone(),
            standing: standing.clone(),
            wanted,
            layout,
        })
    }

    /// How many fit of each of these, which differ by their spacing and come in its order.
    async fn counts(&self, wants: &[Want]) -> Vec<u32> {
        match self.question.request(&self.question.wanted) {
            Ok(request) => layout::counts(&request, wants, self.pace).await,
            Err(_) => Vec::new(),
        }
    }

    /// How many of the first crop fit at each spacing of its published range, from wide to narrow.
    async fn at_spacings(&self, system: System) -> Vec<(Micrometres, u32)> {
        let Some(first) = self.question.wanted.first() else {
            return Vec::new();
        };
        let steps = first.steps(system);
        let bed = &self.question.meant.bed;
        let wants: Vec<Want> = steps.iter().map(|&spacing| first.at(spacing, bed).want).collect();
        let counts = self.counts(&wants).await;
        steps.into_iter().zip(counts).collect()
    }

    /// The widest closer spacing of the published range at which all of the first crop fit.
    async fn way_round(&self, asked: &Laid, at_spacing: &[(Micrometres, u32)]) -> Option<Laid> {
        let first = asked.wanted.first()?;
        let in_hand = first.want.on_hand?;
        if asked.layout.counts.first().copied()? >= in_hand {
            return None;
        }
        let (spacing, _) = at_spacing
            .iter()
            .find(|(spacing, count)| *spacing < first.want.spacing && *count >= in_hand)?;
        let mut wanted = asked.wanted.clone();
        if let Some(first) = wanted.first_mut() {
            *first = first.at(*spacing, &asked.bed);
        }
        let laid = self.lay(wanted).await?;
        (laid.layout.counts.first().copied()? >= in_hand).then_some(laid)
    }

    /// How many of a single crop fit on the holes and how many along the lines, where its spacing is
    /// no multiple of the holes' so that keeping to them may cost plants.
    async fn beside(&self, laid: &Laid) -> Option<(u32, u32)> {
        let [one] = laid.wanted.as_slice() else {
            return None;
        };
        let pitch = laid.bed.drip()?.emitter_spacing().get();
        if one.want.sites != SiteChoice::Emitters || one.want.spacing.get() % pitch == 0 {
            return None;
        }
        let most = async |sites| {
            let want = Want { sites, ..one.want };
            self.counts(&[want]).await.first().copied()
        };
        let laid_out = laid.layout.counts.first().copied()?;
        // With fewer plants than places the layout does not say how many places there are.
        let at_emitters = match one.want.on_hand {
            Some(in_hand) if in_hand <= laid_out => most(SiteChoice::Emitters).await?,
            _ => laid_out,
        };
        Some((at_emitters, most(SiteChoice::AlongLine).await?))
    }
}

/// Everything the words are made from.
struct Found<'a> {
    meant: &'a Meant,
    asked: &'a Laid,
    way_round: Option<&'a Laid>,
    already: usize,
    /// How many plants of the record have no place in the bed.
    outside: u32,
    aim: Aim,
    /// Where each crop stands best, as far as the layout told follows it.
    siting: Vec<String>,
    fillers: &'a [Filler],
    resting: &'a [Stood],
    /// How many fit on the holes, and along the lines, where the spacing is no multiple of the holes'.
    beside: Option<(u32, u32)>,
}

/// Answers the question.
pub(crate) async fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults)?;
    let system = asking.system;
    // Faults of the record's place are for the questions that rest on it.
    let south = SiteAsked::read(None, asking.garden, &mut Faults::default()).south;
    let ground = Ground { question: &question, south, pace };
    let asked = ground.lay(question.wanted.clone()).await?;
    let at_spacing = ground.at_spacings(system).await;
    let way_round = ground.way_round(&asked, &at_spacing).await;
    let resting = rotation::resting(&question.meant, asking.garden, asking.today);
    let fillers = fillers(&asked, &resting, system);
    let told = way_round.as_ref().unwrap_or(&asked);
    let found = Found {
        aim: question.aim,
        siting: match told.wanted.len() {
            1 => Vec::new(),
            _ => ground.siting(&told.wanted).told(told),
        },
        fillers: if way_round.is_some() { &[] } else { &fillers },
        resting: &resting,
        meant: &question.meant,
        asked: &asked,
        way_round: way_round.as_ref(),
        already: question.standing.len(),
        outside: question.outside,
        beside: ground.beside(told).await,
    };
    let telling = words::tell(&found, asking);
    let at_spacing = at_spacing
        .iter()
        .map(|(spacing, count)| AtSpacing { spacing_m: spacing.metres(), count: *count })
        .collect();
    let answer = Answer {
        placed: asked.placed(),
        counts: asked.layout.counts.clone(),
        left_over: left_over(&asked),
        proved: asked.layout.proved,
        bound: asked.layout.bound,
        arrangement: arrangement(&asked, system),
        at_spacing,
        fillers,
        way_round: way_round.as_ref().map(|laid| WayRound::of(laid, arrangement(laid, system))),
        laid: way_round.unwrap_or(asked),
    };
    Some((telling, answer))
}

/// What fits into the gaps of a layout: the gaps with the crops that suit them.
fn fillers(laid: &Laid, resting: &[Stood], system: System) -> Vec<Filler> {
    let placed = || laid.layout.plants.iter().flatten();
    if placed().next().is_none() {
        return Vec::new();
    }
    let plants: Vec<Plant> = laid.standing.iter().chain(placed()).copied().collect();
    let main: Vec<_> = laid.wanted.iter().filter_map(|wanted| wanted.row).collect();
    let families: Vec<_> = resting.iter().map(|stood| stood.0).collect();
    let suiting = |spacing| fillers::suiting(spacing, &main, &families);
    let suits = |spacing| !suiting(spacing).is_empty();
    fillers::gaps(&laid.bed, &plants, system, &suits)
        .iter()
        .map(|gaps| Filler {
            spacing_m: gaps.spacing.metres(),
            count: gaps.places.len() as u32,
            crops: suiting(gaps.spacing).iter().map(|crop| crop.id().to_owned()).collect(),
        })
        .collect()
}
