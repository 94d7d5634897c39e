//! The bed as one stands at it: near side at the bottom, drip lines numbered from the path, holes
//! counted along the hose. Plants are seen from above at their true spread; a proposed one has a peg
//! whose point stands at its place.

mod plants;
mod scale;

use maud::{Markup, html};
use pegline_core::{
    bed::{Bed, Drip, Spot},
    plan::Drawn,
    quantity::System,
    record::Lies,
};

use super::px;
pub(super) use plants::hatch;
use plants::{elsewhere, key, peg_size, pegs, plants};
pub use scale::Scale;
use scale::{LEFT, PLANK, WIDE};

/// What the drawing shows.
#[derive(Clone, Debug)]
pub struct Plan<'a> {
    /// The bed.
    pub bed: &'a Bed,
    /// Crops proposed; the pegs of each have a form of their own.
    pub proposed: &'a [Drawn],
    /// Crops that stand there.
    pub standing: &'a [Drawn],
    /// Where something lies on it.
    pub lies: &'a [Lies],
    /// Whether a cover lies over it.
    pub covered: bool,
    /// Ticks every foot or every half metre, where there are no holes to count.
    pub system: System,
    /// What the picture shows, in words, for those who can't see it.
    pub words: &'a str,
}

/// Draws the plan.
pub fn plan(show: &Plan<'_>) -> Markup {
    touched(show, None, &[])
}

/// Draws the plan as one target to touch, for this action; each pair of plants that is too near is
/// joined, and a pair of the same plant ringed.
pub fn touched(show: &Plan<'_>, action: Option<&str>, too_near: &[(Spot, Spot)]) -> Markup {
    let scale = Scale::of(show.bed);
    let view = format!("0 -8 {} {}", px(WIDE), px(scale.bottom() + 46.0));
    let half = peg_size(show.proposed, &scale);
    html! {
        svg.plan id="plan" xmlns="http://www.w3.org/2000/svg" viewBox=(view) role="img" aria-label=(show.words) data-action=[action] {
            @for row in 0..scale.rows() { (ground(show, &scale, row)) }
            @for crop in show.standing { (elsewhere(crop, show, &scale)) }
            @for crop in show.standing { (plants(crop, &scale, "stands")) }
            @for crop in show.proposed { (plants(crop, &scale, "new")) }
            @for (form, crop) in show.proposed.iter().enumerate() { (pegs(crop, &scale, half, form)) }
            @for row in 0..scale.rows() {
                @if show.covered { (hoops(&scale, row)) }
                (numbers(show, &scale, row))
            }
            @for (one, other) in too_near {
                @let (from, to) = (scale.place(*one), scale.place(*other));
                @if from == to {
                    circle.clash cx=(px(from.0)) cy=(px(from.1)) r=(px(half * 2.5)) fill="none" stroke-width="3" {}
                } @else {
                    line.clash x1=(px(from.0)) y1=(px(from.1)) x2=(px(to.0)) y2=(px(to.1)) stroke-width="3" {}
                }
            }
            (path(scale.bottom()))
        }
        @if show.proposed.len() + show.standing.len() > 1 || !show.standing.is_empty() { (key(show)) }
    }
}

/// Boards, soil, what lies on it, and the hoses with their holes.
fn ground(show: &Plan<'_>, scale: &Scale, row: usize) -> Markup {
    let (top, high, long) = (scale.top(row), scale.high(), scale.long());
    let soil = format!("M{} {}h{}v{}h-{}z", px(LEFT), px(top), px(long), px(high), px(long));
    let (out, thick) = (LEFT - PLANK, PLANK * 2.0);
    let planks = format!(
        "M{} {}h{}v{}h-{}z",
        px(out),
        px(top - PLANK),
        px(long + thick),
        px(high + thick),
        px(long + thick)
    );
    let lying = |lies: &Lies| {
        let (from, to) = match lies {
            Lies::AllOver => (0.0, 1.0),
            Lies::Left => (0.0, 0.5),
            Lies::Right => (0.5, 1.0),
        };
        scale.part(row, from, to).map(|(x, wide)| {
            format!("M{} {}h{}v{}h-{}z", px(x), px(top), px(wide), px(high), px(wide))
        })
    };
    html! {
        path.wood d=(planks) {}
        path.ground d=(soil) {}
        path fill="url(#h-soil)" d=(soil) {}
        @for d in show.lies.iter().filter_map(lying) {
            path.ground d=(d) {}
            path fill="url(#h-mulch)" d=(d) {}
        }
        path.plank d=(format!("{planks}{soil}")) {}
        @if let Some(drip) = show.bed.drip() {
            @for line in drip.lines() {
                @let level = scale.level(row, line.across.metres());
                line.hose x1=(px(LEFT - 16.0)) x2=(px(LEFT + long - 3.0)) y1=(px(level)) y2=(px(level)) {}
                path.hole d=(rings(&mut drip.emitters(line).filter_map(|hole| scale.x(row, hole.metres())), level)) {}
            }
        }
    }
}

/// The numbers of the lines, and under the boards those of the holes; ticks where there are none.
fn numbers(show: &Plan<'_>, scale: &Scale, row: usize) -> Markup {
    let below = scale.top(row) + scale.high() + PLANK;
    html! {
        @match show.bed.drip() {
            Some(drip) => {
                @for (index, line) in drip.lines().iter().enumerate() {
                    text.line-no x="9" y=(px(scale.level(row, line.across.metres()))) dy=".36em" { (index + 1) }
                }
                (hole_numbers(drip, scale, row, below + 18.0))
            }
            None => path.tick d=(ticks(show.system, scale, row, below + 3.0)) stroke-width="1.6" {},
        }
    }
}

/// Every hole where numbers have room, else every second, fifth or tenth.
fn hole_numbers(drip: &Drip, scale: &Scale, row: usize, level: f64) -> Markup {
    let apart = scale.pixels(drip.emitter_spacing().metres());
    // Two figures want more room than one.
    let holes = drip.lines().first().map_or(0, |line| drip.emitters(line).count());
    let wide = if holes < 10 { 22.0 } else { 29.0 };
    let every = [1, 2, 5, 10, 20].into_iter().find(|every| apart * f64::from(*every) >= wide);
    let every = usize::try_from(every.unwrap_or(50)).unwrap_or(50);
    let first = drip.lines().first().map(|line| drip.emitters(line));
    html! {
        @for (index, hole) in first.into_iter().flatten().enumerate() {
            @if index % every == 0 && let Some(x) = scale.x(row, hole.metres()) {
                text.hole-no.between[index / every % 2 == 1] x=(px(x)) y=(px(level)) { (index + 1) }
            }
        }
    }
}

/// Ticks every foot, or every half metre, below the bed.
fn ticks(system: System, scale: &Scale, row: usize, level: f64) -> String {
    let step = if system == System::Us { 0.3048 } else { 0.5 };
    let (top, end) = (px(level), px(level + 6.0));
    let mut path = String::new();
    for x in (0..400).map_while(|tick| scale.tick(f64::from(tick) * step)).filter(|at| at.0 == row)
    {
        for part in ["M", &px(x.1), " ", &top, "V", &end] {
            path.push_str(part);
        }
    }
    path
}

/// Rings at these places, as one outline: a thousand of their own would make a phone stand still.
fn rings(at: &mut dyn Iterator<Item = f64>, level: f64) -> String {
    let top = px(level - 2.8);
    let mut path = String::new();
    for x in at {
        for part in ["M", &px(x), " ", &top, "a2.8 2.8 0 1 1-.01 0z"] {
            path.push_str(part);
        }
    }
    path
}

/// A cover on hoops, bowed to the right; the bed shows through.
fn hoops(scale: &Scale, row: usize) -> Markup {
    let (top, end) = (scale.top(row) - 4.0, scale.top(row) + scale.high() + 4.0);
    let bow = (end - top) / 3.0;
    let last = LEFT + scale.long() - 14.0;
    let hoop = |x: f64| {
        let out = px(x + 14.0);
        format!(
            "M{} {}C{out} {} {out} {} {} {}",
            px(x),
            px(end),
            px(end - bow),
            px(top + bow),
            px(x),
            px(top)
        )
    };
    let step = (last - LEFT) / 4.0;
    let cloth = format!("{}H{}", hoop(LEFT), px(last));
    let (out, top, end) = (px(last + 14.0), top, end);
    let cloth = format!(
        "{cloth}C{out} {} {out} {} {} {}z",
        px(top + bow),
        px(end - bow),
        px(last),
        px(end)
    );
    html! {
        path.cloth d=(cloth) {}
        path.hoop d=((0..5_u8).map(|at| hoop(LEFT + f64::from(at) * step)).collect::<String>()) {}
    }
}

/// The path in front, and where one stands on it.
fn path(bottom: f64) -> Markup {
    let top = px(bottom + 4.0);
    html! {
        path.slab d=(format!("M24 {top}h46v28h-50zM75 {top}h194v28h-194zM274 {top}h44l3 28h-47z")) {}
        g.soles transform=(format!("translate(94 {})", px(bottom + 18.0))) {
            path d="M-7-10c4 0 5 4 4 7l-1 6h-5l-2-5c-2-5 0-8 4-8zM-9 5h5v3c0 4-5 4-5 0zM7-10c-4 0-5 4-4 7l1 6h5l2-5c2-5 0-8-4-8zM9 5H4v3c0 4 5 4 5 0z" {}
        }
        text.you x="114" y=(px(bottom + 18.0)) dy=".36em" { "you stand here" }
    }
}
