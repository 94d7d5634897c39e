//! Plants seen from above, pegs at their places, and what stands where nobody knows.

use maud::{Markup, html};
use pegline_core::{bed::Spot, catalogue::Seen, plan::Drawn};

use super::{
    Plan,
    scale::{LEFT, Scale},
};
use crate::draw::px;

/// More plants than this, or smaller ones, are drawn as one outline of circles: so many pictures would
/// make a phone stand still, and run together.
const MOST: usize = 90;
const SMALLEST: f64 = 11.0;

/// The picture of a plant, and the hatch of ground that it covers: both lie in `index.html`.
fn looks(seen: Seen) -> (&'static str, &'static str) {
    match seen {
        Seen::Head => ("#p-head", "url(#h-head)"),
        Seen::Leafy => ("#p-leafy", "url(#h-leafy)"),
        Seen::Frilly => ("#p-frilly", "url(#h-frilly)"),
        Seen::Blade => ("#p-blade", "url(#h-blade)"),
        Seen::Bean => ("#p-bean", "url(#h-bean)"),
        Seen::Root => ("#p-root", "url(#h-root)"),
        Seen::Fruit => ("#p-fruit", "url(#h-fruit)"),
        Seen::Bloom => ("#p-bloom", "url(#h-bloom)"),
    }
}

/// The hatch of ground that a crop covers.
pub(in crate::draw) fn hatch(seen: Seen) -> &'static str {
    looks(seen).1
}

/// The plants of a crop whose places are known, the far ones first.
pub(super) fn plants(crop: &Drawn, scale: &Scale, class: &str) -> Markup {
    let spread = scale.pixels(crop.spacing.metres()).max(5.0);
    let (picture, _) = looks(crop.seen);
    let one_by_one = crop.spots.len() <= MOST && spread >= SMALLEST;
    // The pictures are a little wider than the circle they fill.
    let size = spread * 1.04;
    html! {
        @if one_by_one {
            @for spot in crop.spots.iter().rev() {
                @let (x, y) = scale.place(*spot);
                use href=(picture) class=(class) x=(px(x - size / 2.0)) y=(px(y - size / 2.0)) width=(px(size)) height=(px(size)) {}
            }
        } @else if !crop.spots.is_empty() {
            path class=(format!("leaves {class}")) d=(circles(&crop.spots, scale, (spread / 2.0 - 0.5).max(2.0))) {}
        }
    }
}

fn circles(spots: &[Spot], scale: &Scale, radius: f64) -> String {
    let (r, wide) = (px(radius), px(radius * 2.0));
    let mut path = String::new();
    for spot in spots.iter().rev() {
        let (x, y) = scale.place(*spot);
        let (x, y) = (px(x - radius), px(y));
        path.push_str(&format!("M{x} {y}a{r} {r} 0 1 0 {wide} 0a{r} {r} 0 1 0-{wide} 0z"));
    }
    path
}

/// What stands in the bed where nobody knows: the free part of it in the crop's hatch, with how many.
pub(super) fn elsewhere(crop: &Drawn, show: &Plan<'_>, scale: &Scale) -> Markup {
    if crop.elsewhere == Some(0) {
        return html! {};
    }
    // Crops of no known place share what is free, each its part of the length.
    let lost = |crop: &&Drawn| crop.elsewhere != Some(0);
    let many = show.standing.iter().filter(lost).count();
    let which = show.standing.iter().filter(lost).position(|it| std::ptr::eq(it, crop));
    #[expect(clippy::cast_precision_loss, reason = "a few crops")]
    let (many, which) = (many as f64, which.unwrap_or(0) as f64);
    let free = free_from(show);
    let (from, to) =
        (free + (1.0 - free) * which / many, free + (1.0 - free) * (which + 1.0) / many);
    let told = match crop.elsewhere {
        Some(count) => format!("{count} {}", crop.name),
        None => crop.name.clone(),
    };
    let parts: Vec<(usize, (f64, f64))> =
        (0..scale.rows()).filter_map(|row| Some((row, scale.part(row, from, to)?))).collect();
    html! {
        @for (row, (x, wide)) in &parts {
            @let d = format!("M{} {}h{}v{}h-{}z", px(x + 3.0), px(scale.top(*row) + 4.0), px((wide - 6.0).max(1.0)), px(scale.high() - 8.0), px((wide - 6.0).max(1.0)));
            path.wash d=(d) {}
            path.unsure fill=(hatch(crop.seen)) d=(d) {}
        }
        @if let Some((row, (x, wide))) = parts.first() {
            (plate(&told, x + wide / 2.0, scale.top(*row) + scale.high() / 2.0))
        }
    }
}

/// From which share of the bed's length on no plant of a known place stands; all of it where little is left.
fn free_from(show: &Plan<'_>) -> f64 {
    let length = show.bed.length().metres();
    let mut free: f64 = 0.0;
    for crop in show.standing {
        for spot in &crop.spots {
            free = free.max((spot.along.metres() + crop.spacing.metres() / 2.0) / length);
        }
    }
    if free > 0.75 { 0.0 } else { free }
}

/// Words on a plate, at the middle of it.
fn plate(words: &str, x: f64, y: f64) -> Markup {
    #[expect(clippy::cast_precision_loss, reason = "a few letters")]
    let wide = 16.0 + 9.5 * words.chars().count() as f64;
    let x = x.max(LEFT + wide / 2.0 - 6.0).min(318.0 - wide / 2.0);
    html! {
        path.plate d=(format!("M{} {}h{}v26h-{}z", px(x - wide / 2.0), px(y - 13.0), px(wide), px(wide))) {}
        text.on-plate x=(px(x)) y=(px(y)) dy=".36em" { (words) }
    }
}

/// Which crop looks how.
pub(super) fn key(show: &Plan<'_>) -> Markup {
    let crops = show.proposed.iter().map(|crop| (crop, "new"));
    let crops = crops.chain(show.standing.iter().map(|crop| (crop, "stands")));
    html! {
        ul.key {
            @for (at, (crop, class)) in crops.enumerate() {
                @if !crop.spots.is_empty() {
                    li {
                        svg.plan.one viewBox="0 -6 32 38" width="32" height="38" aria-hidden="true" {
                            use href=(looks(crop.seen).0) class=(class) x="2" y="4" width="28" height="28" {}
                            @if class == "new" { path.peg.rim d=(peg(16.0, 20.0, 5.0, at)) {} }
                        }
                        (crop.spots.len()) " " (crop.name)
                    }
                }
            }
        }
    }
}

/// The pegs of a crop, as one outline.
pub(super) fn pegs(crop: &Drawn, scale: &Scale, half: f64, form: usize) -> Markup {
    let outline = |spot: &Spot| {
        let (x, y) = scale.place(*spot);
        peg(x, y, half, form)
    };
    html! {
        @if !crop.spots.is_empty() {
            path.peg.rim d=(crop.spots.iter().rev().map(outline).collect::<String>()) {}
        }
    }
}

/// Half the width of a peg: as large as reads well, smaller where plants stand close.
pub(super) fn peg_size(proposed: &[Drawn], scale: &Scale) -> f64 {
    let mut nearest = f64::MAX;
    let pegs: Vec<(f64, f64)> = proposed
        .iter()
        .flat_map(|crop| &crop.spots)
        .map(|spot| (spot.along.metres(), spot.across.metres()))
        .collect();
    for (index, one) in pegs.iter().enumerate() {
        // Sorted by place within each crop: the next few hold the nearest neighbour along the line.
        for other in pegs.iter().skip(index + 1).take(40) {
            nearest = nearest.min((one.0 - other.0).hypot(one.1 - other.1));
        }
    }
    (scale.pixels(nearest.min(10.0)) * 0.18).clamp(1.8, 5.5)
}

/// The heads of pegs, so that crops are told apart without colour: flat, gabled, notched, slanted.
/// Each is the height of its left end, its middle and its right end over the flat one, in half widths.
const HEADS: [[f64; 3]; 4] =
    [[0.0, 0.0, 0.0], [-0.6, 1.2, -0.6], [0.8, -0.8, 0.8], [1.2, 0.2, -0.8]];

/// A peg as seen from the side, its point in the soil at (x, y).
fn peg(x: f64, y: f64, half: f64, form: usize) -> String {
    let (top, shoulder) = (y - half * 4.2, y - half * 1.5);
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
        px(y),
        px(x - half),
        px(shoulder)
    )
}
