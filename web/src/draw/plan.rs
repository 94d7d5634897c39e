//! The bed as one stands at it: near side at the bottom, drip lines numbered from the path, holes
//! counted along the hose, proposed plants as stakes driven in at their place.

use maud::{Markup, html};
use pegline_core::{
    bed::{Bed, Drip, Spot},
    plan::by_hand::Touch,
    quantity::System,
};

use super::px;

/// The drawing's inner width on a phone, in CSS pixels.
const PHONE: f64 = 300.0;
/// Beds longer than this scroll sideways instead of shrinking, in metres (12 ft).
const SCROLLS_FROM: f64 = 3.66;
/// Room left of the bed for line numbers.
const LEFT: f64 = 22.0;
/// A touch farther than this from every place means none of them, in the drawing's units.
const TOUCH: f64 = 40.0;
/// Room above the bed for stakes that stand over its edge.
const ABOVE: f64 = 12.0;

/// One crop of the bed, in it already or proposed: where, and its name.
#[derive(Clone, Debug)]
pub struct In {
    /// The places.
    pub stakes: Vec<Spot>,
    /// The name written along the line, or beside the stake's form where there are several.
    pub name: String,
}

/// What the drawing shows.
#[derive(Clone, Debug)]
pub struct Plan<'a> {
    /// The bed.
    pub bed: &'a Bed,
    /// Crops proposed; each has a stake of its own form.
    pub proposed: &'a [In],
    /// Plants already in.
    pub already: &'a [In],
    /// Ticks every foot or every half metre.
    pub system: System,
    /// What the picture shows, in words, for those who can't see it.
    pub words: &'a str,
}

/// Where what lies in the bed is on the drawing.
#[derive(Clone, Copy, Debug)]
pub struct Scale {
    length: f64,
    width: f64,
    /// Pixels a metre along the bed.
    along: f64,
}

impl Scale {
    /// The scale of this bed's drawing.
    pub fn of(bed: &Bed) -> Self {
        let (length, width) = (bed.length().metres(), bed.width().metres());
        let pitch = bed.drip().map_or(0.15, |drip| drip.emitter_spacing().metres());
        // Long beds keep at least 24 px a site, so that a thumb can still tell them apart.
        let along = if length > SCROLLS_FROM { (24.0 / pitch).min(240.0) } else { PHONE / length };
        Self { length, width, along }
    }

    fn scrolls(&self) -> bool {
        self.length > SCROLLS_FROM
    }

    fn wide(&self) -> f64 {
        self.length * self.along
    }

    fn high(&self) -> f64 {
        (self.width * self.along).max(24.0)
    }

    /// How far right in the drawing something lies that is so many metres along the bed.
    fn x(&self, along: f64) -> f64 {
        LEFT + along * self.along
    }

    /// How far down in the drawing something lies that is so many metres across the bed.
    fn y(&self, across: f64) -> f64 {
        let high = self.high();
        let up = across / self.width.max(1e-6) * high;
        ABOVE + high - up
    }

    /// The place of a stake, in the drawing's units.
    fn place(&self, stake: Spot) -> (f64, f64) {
        (self.x(stake.along.metres()), self.y(stake.across.metres()))
    }

    /// What a touch at (x, y) of the drawing touches in the bed.
    pub fn touch(&self, x: f64, y: f64) -> Touch {
        Touch {
            along_m: (x - LEFT) / self.along,
            across_m: (ABOVE + self.high() - y) / self.high() * self.width,
            reach_m: TOUCH / self.along,
        }
    }
}

/// Draws the plan.
pub fn plan(show: &Plan<'_>) -> Markup {
    touched(show, None, &[])
}

/// Draws the plan as one target to touch, for this action; each pair of stakes that is too near is
/// joined, and a pair of the same stake ringed.
pub fn touched(show: &Plan<'_>, action: Option<&str>, too_near: &[(Spot, Spot)]) -> Markup {
    let bed = show.bed;
    let scales = Scale::of(bed);
    let (length, scale) = (scales.length, scales.along);
    let (wide, high) = (scales.wide(), scales.high());
    let below = 40.0;
    let view = format!("0 0 {} {}", px(LEFT + wide + 6.0), px(ABOVE + high + below));
    let scrolls = scales.scrolls();
    let x = |along: f64| scales.x(along);
    let y = |across: f64| scales.y(across);
    let size = stake_size(show, scale);
    html! {
        div.plan-scroll id="plan" tabindex=[scrolls.then_some("0")] {
            svg.plan.wide[scrolls] xmlns="http://www.w3.org/2000/svg" viewBox=(view) role="img" aria-label=(show.words) data-action=[action]
                width=[scrolls.then(|| px(LEFT + wide + 6.0))] height=[scrolls.then(|| px(ABOVE + high + below))] {
                rect.bed x=(px(LEFT)) y=(px(ABOVE)) width=(px(wide)) height=(px(high)) stroke-width="2.5" {}
                @if let Some(drip) = bed.drip() {
                    @for (index, line) in drip.lines().iter().enumerate() {
                        @let level = y(line.across.metres());
                        text.number x=(px(LEFT / 2.0)) y=(px(level + 5.0)) font-size="15" { (index + 1) }
                        line.hose x1=(px(LEFT)) x2=(px(LEFT + wide)) y1=(px(level)) y2=(px(level)) stroke-width="1.8" {}
                        @let holes = &mut drip.emitters(line).map(|hole| x(hole.metres()));
                        path.hole d=(marks(holes, level - 4.0, level + 4.0)) stroke-width="2.2" {}
                    }
                    (hole_numbers(drip, drip.emitter_spacing().metres() * scale, &x, ABOVE + high + 16.0))
                }
                (ticks(show.system, length, scale, ABOVE + high + 22.0))
                @for already in show.already {
                    path.stake.in d=(outlines(&scales, &already.stakes, size, 0)) stroke-width="2" {}
                    @if let Some(first) = already.stakes.first() {
                        text.along x=(px(x(first.along.metres()) + size)) y=(px(y(first.across.metres()) - 6.0)) font-size="14" { (already.name) }
                    }
                }
                @for (form, crop) in show.proposed.iter().enumerate() {
                    path.stake d=(outlines(&scales, &crop.stakes, size, form)) stroke-width="1" {}
                }
                @for (one, other) in too_near {
                    @let (from, to) = (scales.place(*one), scales.place(*other));
                    @if from == to {
                        circle.clash cx=(px(from.0)) cy=(px(from.1)) r=(px(size * 2.0)) fill="none" stroke-width="3" {}
                    } @else {
                        line.clash x1=(px(from.0)) y1=(px(from.1)) x2=(px(to.0)) y2=(px(to.1)) stroke-width="3" {}
                    }
                }
            }
        }
        @if show.proposed.len() > 1 { (key(show.proposed)) }
    }
}

/// Which crop has which stake.
fn key(crops: &[In]) -> Markup {
    html! {
        ul.key {
            @for (form, crop) in crops.iter().enumerate() {
                @if !crop.stakes.is_empty() {
                    li {
                        svg.plan.one viewBox="0 0 20 32" width="20" height="32" aria-hidden="true" {
                            path.stake d=(outline(10.0, 22.0, 6.0, form)) stroke-width="1" {}
                        }
                        (crop.stakes.len()) " " (crop.name)
                    }
                }
            }
        }
    }
}

/// The numbers under the holes of the first line; every second or fifth where they would run together
/// or be more than a phone draws at once.
fn hole_numbers(drip: &Drip, apart: f64, x: &dyn Fn(f64) -> f64, level: f64) -> Markup {
    let holes = drip.lines().first().map_or(0, |line| drip.emitters(line).count());
    let every = if apart >= 18.0 && holes <= 48 {
        1
    } else if apart >= 9.0 {
        2
    } else {
        5
    };
    html! {
        @for (index, hole) in drip.lines().first().map(|line| drip.emitters(line)).into_iter().flatten().enumerate() {
            @if index % every == 0 {
                text.hole-number x=(px(x(hole.metres()))) y=(px(level)) font-size="13" { (index + 1) }
            }
        }
    }
}

/// Ticks every foot, or every half metre, below the bed.
fn ticks(system: System, length: f64, scale: f64, level: f64) -> Markup {
    let step = if system == System::Us { 0.3048 } else { 0.5 };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a bed's length is small and positive"
    )]
    let last = (length / step + 1e-6) as u32;
    let at = &mut (0..=last).map(|tick| LEFT + f64::from(tick) * step * scale);
    html! { path.tick d=(marks(at, level, level + 5.0)) stroke-width="1.6" {} }
}

/// Upright marks at these places, as one line: a thousand of their own would make a phone stand still.
fn marks(at: &mut dyn Iterator<Item = f64>, top: f64, end: f64) -> String {
    let (top, end) = (px(top), px(end));
    let mut path = String::new();
    for x in at {
        for part in ["M", &px(x), " ", &top, "V", &end] {
            path.push_str(part);
        }
    }
    path
}

/// Stakes of one form, as one outline.
fn outlines(scales: &Scale, stakes: &[Spot], half: f64, form: usize) -> String {
    let mut path = String::new();
    for &stake in stakes {
        let (x, y) = scales.place(stake);
        path.push_str(&outline(x, y, half, form));
    }
    path
}

/// Half the width of a stake: as large as reads well, smaller where plants stand close.
fn stake_size(show: &Plan<'_>, scale: f64) -> f64 {
    let mut nearest = f64::MAX;
    let stakes: Vec<(f64, f64)> = show
        .proposed
        .iter()
        .flat_map(|crop| &crop.stakes)
        .map(|stake| (stake.along.metres(), stake.across.metres()))
        .collect();
    for (index, one) in stakes.iter().enumerate() {
        // Sorted by place within each crop: the next few hold the nearest neighbour along the line.
        for other in stakes.iter().skip(index + 1).take(40) {
            nearest = nearest.min((one.0 - other.0).hypot(one.1 - other.1));
        }
    }
    (nearest * scale * 0.2).clamp(2.2, 7.5)
}

/// The heads of stakes, so that crops are told apart without colour: flat, gabled, notched, slanted.
/// Each is the height of its left end, its middle and its right end over the flat one, in half widths.
const HEADS: [[f64; 3]; 4] =
    [[0.0, 0.0, 0.0], [-0.6, 1.2, -0.6], [0.8, -0.8, 0.8], [1.2, 0.2, -0.8]];

/// A stake as seen from the side, its point in the soil at (x, y).
fn outline(x: f64, y: f64, half: f64, form: usize) -> String {
    let (top, shoulder) = (y - half * 2.6, y - half * 0.4);
    let point = y + half * 1.3;
    let [left, middle, right] =
        HEADS.get(form % HEADS.len()).copied().unwrap_or_default().map(|over| top - over * half);
    format!(
        "M{} {}L{} {}L{} {}V{}L{} {}L{} {}Z",
        px(x - half),
        px(left),
        px(x),
        px(middle),
        px(x + half),
        px(right),
        px(shoulder),
        px(x),
        px(point),
        px(x - half),
        px(shoulder)
    )
}
