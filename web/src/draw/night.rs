//! A bed's low tonight on a scale that all beds share: the likely low as a peg, nine nights in ten as
//! the band, freezing as the dashed line.

use maud::{Markup, html};

use super::px;

const WIDE: f64 = 324.0;
const HIGH: f64 = 26.0;

/// What is drawn, all in °C.
pub struct Night<'a> {
    /// The likely low.
    pub low: f64,
    /// Nine nights in ten end between these.
    pub between: (f64, f64),
    /// The ends of the scale.
    pub scale: (f64, f64),
    /// The same in words.
    pub words: &'a str,
}

/// Draws it.
pub fn night(night: &Night<'_>) -> Markup {
    let (least, most) = night.scale;
    let x = |degrees: f64| px((degrees - least) / (most - least).max(1.0) * WIDE);
    let freezing = x(0.0);
    html! {
        svg.night xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {} {}", px(WIDE), px(HIGH))) role="img" aria-label=(night.words) {
            line.scale x1="0" x2=(px(WIDE)) y1="13" y2="13" stroke-width="1.5" {}
            rect.band x=(x(night.between.0)) y="6" height="14" stroke-width="1.5"
                width=(px((night.between.1 - night.between.0) / (most - least).max(1.0) * WIDE)) {}
            line.freezing x1=(freezing) x2=(freezing) y1="0" y2=(px(HIGH)) stroke-width="2" stroke-dasharray="4 3" {}
            line.low x1=(x(night.low)) x2=(x(night.low)) y1="1" y2="25" stroke-width="6" {}
        }
    }
}
