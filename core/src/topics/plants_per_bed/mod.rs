//! Topic `plants-per-bed`: how many plants fit in a bed, and where.
//!
//! The count at the asked spacing is the true maximum on a drip bed's sites, searched by a moving
//! front ([`layout`](crate::layout)); without drip it is the best of many
//! [`patterns`](crate::layout::patterns).
//! Where not all that is in hand fits, the crop's published range is gone through from wide to
//! narrow: the first spacing that takes all of them is the way round, and the verdict.
//!
//! Of equal layouts the better one is told (`siting`), with what fits in between (`fillers`) and the
//! families that the bed should rest from (`rotation`).

mod answer;
mod fillers;
mod ground;
mod question;
mod rotation;
mod siting;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, AtSpacing, Filler, WayRound};
pub use question::{Asked, PlantAsked, StandingAsked};

use self::{answer::left_over, ground::Ground, words::Found};
use crate::{
    asking::Asking,
    given::Faults,
    place::site::SiteAsked,
    plan::{arrangement, resting},
    telling::Telling,
    turns::Pace,
};

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
    let south = SiteAsked::read(None, &asking.garden.place, &mut Faults::default()).south;
    let ground = Ground { question: &question, south, pace };
    let asked = ground.lay(question.wanted.clone()).await?;
    let at_spacing = ground.at_spacings(system).await;
    let way_round = ground.way_round(&asked, &at_spacing).await;
    let resting = resting(&question.meant, asking.garden, asking.today);
    let fillers = fillers::of(&asked, &resting, system);
    let told = way_round.as_ref().unwrap_or(&asked);
    let found = Found {
        question: &question,
        siting: match told.wanted.len() {
            1 => Vec::new(),
            _ => ground.siting(&told.wanted).told(told),
        },
        fillers: if way_round.is_some() { &[] } else { &fillers },
        resting: &resting,
        asked: &asked,
        way_round: way_round.as_ref(),
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
