//! A bed in small: its boards, what stands in it in the hatch of its kind, and a cover over it.

use chrono::NaiveDate;
use maud::{Markup, html};
use pegline_core::{garden, plan::drawn, record};

use super::{plan::hatch, px};

/// Units a metre; about ten a foot.
const METRE: f64 = 33.0;
/// As long as a bed is drawn at most, in metres (16 ft); what is longer looks so too.
const LONGEST: f64 = 4.9;

/// Draws it, for a list where its name stands beside.
pub fn board(bed: &garden::Bed, today: NaiveDate) -> Markup {
    let Some(shape) = record::shape(bed) else {
        return html! {};
    };
    let long = shape.length().metres().min(LONGEST) * METRE;
    let high = (shape.width().metres() * METRE * 0.6).clamp(16.0, 40.0);
    let crops = drawn(bed, &shape);
    #[expect(clippy::cast_precision_loss, reason = "a few crops")]
    let each = long / crops.len().max(1) as f64;
    let (wide, tall) = (long + 8.0, high + 14.0);
    let part = |at: f64, long: f64| {
        format!("M{} 8h{}v{}h-{}z", px(at + 4.0), px(long), px(high), px(long))
    };
    let lies = !record::lies_on(bed, today).is_empty();
    html! {
        svg.board viewBox=(format!("0 0 {} {}", px(wide), px(tall))) width=(px(wide)) height=(px(tall)) aria-hidden="true" {
            path.ground d=(part(0.0, long)) {}
            @if crops.is_empty() { path fill=(if lies { "url(#h-mulch)" } else { "url(#h-soil)" }) d=(part(0.0, long)) {} }
            @for (at, crop) in (0_u8..).zip(&crops) {
                path fill=(hatch(crop.seen)) d=(part(f64::from(at) * each, each)) {}
            }
            path.plank d=(part(0.0, long)) {}
            path.plank d=(format!("M2 6h{}v{}h-{}z", px(long + 4.0), px(high + 4.0), px(long + 4.0))) {}
            @if bed.covered.is_some() { path.hoop d=(format!("M3 {}C3 -4 {} -4 {} {}", px(high + 8.0), px(long + 5.0), px(long + 5.0), px(high + 8.0))) {} }
        }
    }
}
