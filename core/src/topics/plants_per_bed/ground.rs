//! The layouts that the answer is made from: as asked, at other spacings, beside the holes.

use super::{question::Question, siting::Siting};
use crate::{
    layout::{self, Plant, SiteChoice, Want},
    plan::{Laid, Wanted},
    quantity::{Micrometres, System},
    turns::Pace,
};

/// The question, ready to lay crops out in its bed.
pub(super) struct Ground<'a> {
    pub(super) question: &'a Question,
    /// Whether the pole is the south one, where that is known.
    pub(super) south: Option<bool>,
    pub(super) pace: &'a Pace,
}

impl Ground<'_> {
    /// Where each of these crops stands best.
    pub(super) fn siting(&self, wanted: &[Wanted]) -> Siting<'_> {
        let crops = wanted.iter().map(|wanted| (wanted.row, wanted.want.spacing));
        Siting::new(&self.question.meant.bed, self.south, crops)
    }

    /// Lays these crops out; nothing where the solver can't take them.
    pub(super) async fn lay(&self, wanted: Vec<Wanted>) -> Option<Laid> {
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
    pub(super) async fn at_spacings(&self, system: System) -> Vec<(Micrometres, u32)> {
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
    pub(super) async fn way_round(
        &self,
        asked: &Laid,
        at_spacing: &[(Micrometres, u32)],
    ) -> Option<Laid> {
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
    pub(super) async fn beside(&self, laid: &Laid) -> Option<(u32, u32)> {
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
