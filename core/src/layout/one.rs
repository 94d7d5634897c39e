//! One crop laid into a bed, beside what stays.

use super::arrangement::{AlongLine, Arrangement, Form, OnLine};
use super::geometry::{Field, Kept, Plant};
use super::pack::{self, Packing, pack};
use super::request::{Request, SiteChoice, Want};
use super::sites::{Along, along_lines, at_emitters};
use super::{open, tidy};
use crate::bed::{Bed, Site, Spot, TOLERANCE};
use crate::order;
use crate::quantity::Micrometres;
use crate::turns::{Pace, at_once};

/// How many of one want fit, without saying where.
#[derive(Clone, Copy)]
pub(super) struct Most {
    /// As many as were found.
    pub(super) count: u32,
    /// No layout of this want alone holds more.
    pub(super) bound: u32,
    /// Work done.
    pub(super) steps: u64,
}

/// The layout of one want.
#[derive(Clone)]
pub(super) struct Laid {
    /// The plants, in no order that matters.
    pub(super) plants: Vec<Plant>,
    /// No layout of this want alone holds more.
    pub(super) bound: u32,
    /// Work done.
    pub(super) steps: u64,
    /// The form.
    pub(super) arrangement: Arrangement,
}

impl Laid {
    /// Plants at these emitters, line by line.
    pub(super) fn at(mut plants: Vec<Plant>) -> Self {
        let arrangement = match plants.is_empty() {
            true => Arrangement::of(Form::Empty),
            false => Arrangement::of(list(&mut plants)),
        };
        Self { bound: plants.len() as u32, plants, steps: 0, arrangement }
    }
}

/// How hard to look for a count.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    /// Until it is proved, or nothing helps.
    Whole,
    /// Within a frame.
    Rough,
}

/// How many of one want fit beside what stays.
pub(super) async fn most(bed: &Bed, want: &Want, kept: &Kept, look: Look, pace: &Pace) -> Most {
    let margin = want.edge_margin.at(want.spacing);
    let packed = |packing: Packing| Most {
        count: packing.chosen.len() as u32,
        bound: packing.bound,
        steps: packing.steps,
    };
    let all = match want.sites {
        SiteChoice::Emitters => packed(AtEmitters::new(bed, want, kept).pack(look, pace).await),
        SiteChoice::AlongLine => {
            let along = along_lines(bed, margin, want.spacing, kept);
            packed(pack_along(&along, want.spacing, look, pace).await)
        }
        SiteChoice::Anywhere => {
            let found = open::lay(bed, margin, want.spacing, kept);
            let count = found.as_ref().map_or(0, |found| found.spots.len() as u32);
            let bound = found.map_or(0, |found| found.at_most);
            Most { count, bound, steps: u64::from(count) }
        }
    };
    let few = want.on_hand.unwrap_or(u32::MAX);
    Most { count: all.count.min(few), bound: all.bound.min(few), ..all }
}

/// How many of the request's first want fit, and no layout of it more, looked for within a frame.
pub(crate) fn roughly(request: &Request<'_>) -> Option<(u32, u32)> {
    let want = request.wants().first()?;
    let kept = Kept::new(request.standing());
    let most =
        at_once(async |pace: &Pace| most(request.bed(), want, &kept, Look::Rough, pace).await);
    Some((most.count, most.bound))
}

/// A fullest layout, before plants that are not there are left out.
struct Full {
    plants: Vec<Plant>,
    /// The rule that the places follow, if they do; else they are listed.
    rule: Option<Form>,
    /// Whether places of the rule are left out for what stays.
    with_gaps: bool,
    bound: u32,
    steps: u64,
}

/// Lays out one want beside what stays.
pub(super) async fn lay(bed: &Bed, want: &Want, kept: &Kept, pace: &Pace) -> Laid {
    let margin = want.edge_margin.at(want.spacing);
    let mut full = match want.sites {
        SiteChoice::Emitters => lay_at_emitters(bed, want, kept, pace).await,
        SiteChoice::AlongLine => lay_along_lines(bed, want, margin, kept, pace).await,
        SiteChoice::Anywhere => lay_on_open_ground(bed, want, margin, kept),
    };
    let few = want.on_hand.unwrap_or(u32::MAX);
    let from_left = full.plants.len() > few as usize;
    if from_left {
        order::sort(&mut full.plants, &|plant| plant.site.spot.key());
        full.plants.truncate(few as usize);
    }
    let arrangement = match full.rule {
        _ if full.plants.is_empty() => Arrangement::of(Form::Empty),
        Some(form) => Arrangement { form, from_left, with_gaps: full.with_gaps },
        None => Arrangement::of(list(&mut full.plants)),
    };
    let bound = full.bound.min(few);
    Laid { plants: full.plants, bound, steps: full.steps, arrangement }
}

/// The places line by line, at emitters or between.
fn list(plants: &mut [Plant]) -> Form {
    order::sort(plants, &|plant| {
        [plant.site.line.map_or(-1, i64::from), plant.site.spot.along.get(), 0]
    });
    let lines = || {
        plants
            .chunk_by(|one, other| one.site.line == other.site.line)
            .filter_map(|plants| Some((plants.first()?.site.line?, plants)))
    };
    if plants.iter().any(|plant| plant.site.line.is_none()) {
        Form::Scattered
    } else if plants.iter().all(|plant| plant.site.hole.is_some()) {
        Form::Holes(
            lines()
                .map(|(line, plants)| OnLine {
                    line,
                    holes: plants.iter().filter_map(|plant| plant.site.hole).collect(),
                })
                .collect(),
        )
    } else {
        Form::Along(
            lines()
                .map(|(line, plants)| AlongLine {
                    line,
                    along: plants.iter().map(|plant| plant.site.spot.along).collect(),
                })
                .collect(),
        )
    }
}

/// The emitters that one want may use.
struct AtEmitters {
    sites: Vec<Site>,
    /// Emitters kept by plants that stay.
    kept: Vec<Site>,
    apart: Micrometres,
}

impl AtEmitters {
    fn new(bed: &Bed, want: &Want, kept: &Kept) -> Self {
        let (kept, sites) = at_emitters(bed, want.edge_margin.at(want.spacing))
            .into_iter()
            .partition(|site| kept.off(&site.spot, want.spacing));
        // Emitters lie where they lie, so a distance short of the spacing by the tolerance counts.
        Self { sites, kept, apart: want.spacing - TOLERANCE }
    }

    /// Whether a rule with this hop would also plant an emitter that is kept.
    fn leaves_out(&self, planted: &[Site], every: u16) -> bool {
        self.kept.iter().any(|kept| {
            planted.iter().any(|site| {
                let hops = site.hole.zip(kept.hole).map(|(one, other)| one.abs_diff(other));
                site.line == kept.line && hops.is_some_and(|hops| hops % every.max(1) == 0)
            })
        })
    }

    async fn pack(&self, look: Look, pace: &Pace) -> Packing {
        pack_sites(&self.sites, self.apart, look, pace).await
    }

    fn sites_at(&self, places: &[usize]) -> Vec<Site> {
        places.iter().filter_map(|&at| self.sites.get(at).copied()).collect()
    }
}

/// For each of the bed's emitters, whether one want may use it.
pub(super) fn may_use(bed: &Bed, want: &Want, kept: &Kept, all: &[Site]) -> Vec<bool> {
    let own = AtEmitters::new(bed, want, kept).sites;
    // Both are in the same order.
    let mut own = own.iter().peekable();
    all.iter().map(|site| own.next_if_eq(&site).is_some()).collect()
}

async fn lay_at_emitters(bed: &Bed, want: &Want, kept: &Kept, pace: &Pace) -> Full {
    let emitters = AtEmitters::new(bed, want, kept);
    let packing = emitters.pack(Look::Whole, pace).await;
    let found = packing.chosen.len() as u32;
    let need = found.min(want.on_hand.unwrap_or(u32::MAX));
    let pitch = bed.drip().map_or(want.spacing, |drip| drip.emitter_spacing());
    let found = tidy::find(&emitters.sites, pitch, emitters.apart, need..=packing.bound);
    let (sites, rule, with_gaps) = match found.zip(tidy::first_hole(&emitters.sites)) {
        Some(((comb, places), first_hole)) => {
            let sites = emitters.sites_at(&places);
            let mut lines: Vec<u16> = sites.iter().filter_map(|site| site.line).collect();
            lines.dedup();
            let with_gaps = emitters.leaves_out(&sites, comb.every);
            (sites, Some(Form::Comb { comb, first_hole, lines }), with_gaps)
        }
        None => (emitters.sites_at(&packing.chosen), None, false),
    };
    Full {
        plants: planted(&sites, want.spacing),
        rule,
        with_gaps,
        bound: packing.bound,
        steps: packing.steps,
    }
}

/// A plant of this spacing at each site.
fn planted(sites: &[Site], spacing: Micrometres) -> Vec<Plant> {
    sites.iter().map(|&site| Plant { site, spacing }).collect()
}

async fn pack_sites(sites: &[Site], apart: Micrometres, look: Look, pace: &Pace) -> Packing {
    let spots: Vec<Spot> = sites.iter().map(|site| site.spot).collect();
    match look {
        Look::Whole => pack(&spots, apart, pace).await,
        Look::Rough => pack::roughly(&spots, apart, pace).await,
    }
}

/// The fullest choice among places along the lines, with the bound of both.
async fn pack_along(along: &Along, spacing: Micrometres, look: Look, pace: &Pace) -> Packing {
    let packing = pack_sites(&along.sites, spacing, look, pace).await;
    let searched = if along.whole { packing.bound } else { u32::MAX };
    Packing { bound: along.at_most.min(searched), ..packing }
}

async fn lay_along_lines(
    bed: &Bed,
    want: &Want,
    margin: Micrometres,
    kept: &Kept,
    pace: &Pace,
) -> Full {
    let along = along_lines(bed, margin, want.spacing, kept);
    let packing = pack_along(&along, want.spacing, Look::Whole, pace).await;
    let mut chosen: Vec<Site> =
        packing.chosen.iter().filter_map(|&at| along.sites.get(at).copied()).collect();
    settle(&mut chosen, bed, margin, want.spacing, kept);
    Full {
        plants: planted(&chosen, want.spacing),
        rule: None,
        with_gaps: false,
        bound: packing.bound,
        steps: packing.steps,
    }
}

/// Moves plants that were searched from the very edge of the tolerance back inside the margin,
/// where the right end and the plants that stay allow it.
fn settle(chosen: &mut [Site], bed: &Bed, margin: Micrometres, spacing: Micrometres, kept: &Kept) {
    let Some(field) = Field::loosely_within(bed, margin) else {
        return;
    };
    let back = margin - field.corner.along;
    let moved = |site: &Site| Spot { along: site.spot.along + back, ..site.spot };
    let can = chosen.iter().map(moved).all(|spot| field.holds(&spot) && !kept.off(&spot, spacing));
    if can {
        for site in chosen {
            site.spot = moved(site);
        }
    }
}

fn lay_on_open_ground(bed: &Bed, want: &Want, margin: Micrometres, kept: &Kept) -> Full {
    let Some(found) = open::lay(bed, margin, want.spacing, kept) else {
        return Full { plants: Vec::new(), rule: None, with_gaps: false, bound: 0, steps: 0 };
    };
    let steps = found.spots.len() as u64;
    let rule = found.rows.map(|(rows, over)| {
        let (row, breadth) =
            if rows.run_across { (over.width, over.length) } else { (over.length, over.width) };
        Form::Rows { rows, step: rows.step(row), gap: rows.gap(breadth) }
    });
    Full {
        plants: found.spots.iter().map(|&spot| Plant::open(spot, want.spacing)).collect(),
        rule,
        with_gaps: found.with_gaps,
        bound: found.at_most,
        steps,
    }
}
