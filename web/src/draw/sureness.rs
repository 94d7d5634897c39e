//! How sure an answer is: a short hose of three holes, as many filled as it deserves.

use maud::{Markup, html};
use pegline_core::telling::Sure;

use super::px;

/// Draws it; the words beside it say the same.
pub fn sureness(sure: Sure) -> Markup {
    let filled = match sure {
        Sure::High => 3,
        Sure::Fair => 2,
        Sure::Low => 1,
    };
    html! {
        svg.sure viewBox="0 0 66 16" width="66" height="16" aria-hidden="true" {
            line.hose x1="1" x2="65" y1="8" y2="8" stroke-width="2.5" {}
            @for hole in 0..3_u8 {
                circle.hole.filled[hole < filled] cx=(px(12.0 + 21.0 * f64::from(hole))) cy="8" r="5" stroke-width="2.5" {}
            }
        }
    }
}
