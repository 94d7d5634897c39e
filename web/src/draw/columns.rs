//! A cold night, a column a bed: freezing as a line through all, nine nights in ten as a tongue, the likely
//! low as the point of a peg; a hoop over those to cover.

use maud::{Markup, html};

use super::px;

const WIDE: f64 = 324.0;
const HIGH: f64 = 150.0;
/// Room above for hoops, and below for the figure and the name.
const ABOVE: f64 = 22.0;
const BELOW: f64 = 44.0;
/// Columns beside each other.
const ROW: usize = 6;

/// One bed's night, in °C.
pub struct Column<'a> {
    /// Its name.
    pub name: &'a str,
    /// The likely low.
    pub low: f64,
    /// Nine nights in ten end between these.
    pub between: (f64, f64),
    /// The likely low as it is read.
    pub figure: &'a str,
    /// Whether it is to be covered.
    pub cover: bool,
    /// The same in words.
    pub words: &'a str,
}

/// Draws them, in rows.
pub fn columns(beds: &[Column<'_>]) -> Markup {
    // Freezing always lies on the scale.
    let least = beds.iter().map(|bed| bed.between.0).fold(-2.0, f64::min) - 0.5;
    let most = beds.iter().map(|bed| bed.between.1).fold(2.0, f64::max) + 0.5;
    let y = |degrees: f64| ABOVE + (most - degrees) / (most - least) * HIGH;
    html! { @for row in beds.chunks(ROW) { (drawn(row, &y)) } }
}

fn drawn(row: &[Column<'_>], y: &dyn Fn(f64) -> f64) -> Markup {
    #[expect(clippy::cast_precision_loss, reason = "six at most")]
    let each = (WIDE / row.len() as f64).min(WIDE / 3.0);
    let freezing = y(0.0);
    let end = ABOVE + HIGH;
    let words: Vec<String> =
        row.iter().map(|bed| format!("{}: {}.", bed.name, bed.words)).collect();
    html! {
        svg.columns viewBox=(format!("0 0 {} {}", px(WIDE), px(end + BELOW))) role="img" aria-label=(words.join(" ")) {
            path.ice d=(format!("M0 {}H324V{}H0z", px(freezing), px(end))) {}
            line.freezing x1="0" x2="324" y1=(px(freezing)) y2=(px(freezing)) stroke-width="2" {}
            @for (at, bed) in (0_u8..).zip(row) {
                @let x = each * (f64::from(at) + 0.5);
                @let (top, low, tip) = (y(bed.between.1), y(bed.between.0), y(bed.low));
                path.tongue d=(format!("M{} {}a10 10 0 0 1 20 0V{}a10 10 0 0 1-20 0z", px(x - 10.0), px(top), px(low))) {}
                path.peg.mild[!bed.cover] d=(format!("M{} {}h11v10L{} {}L{} {}z", px(x - 5.5), px(tip - 20.0), px(x), px(tip), px(x - 5.5), px(tip - 10.0))) {}
                @if bed.cover { path.hoop d=(format!("M{} {}a16 16 0 0 1 32 0", px(x - 16.0), px(top - 2.0))) {} }
                text.figure x=(px(x)) y=(px(end + 18.0)) { (bed.figure) }
                text.name x=(px(x)) y=(px(end + 37.0)) textLength=[squeezed(bed.name, each)] lengthAdjust="spacingAndGlyphs" { (bed.name) }
            }
        }
    }
}

/// A name too long for its column is squeezed into it.
fn squeezed(name: &str, each: f64) -> Option<String> {
    #[expect(clippy::cast_precision_loss, reason = "a few letters")]
    let wide = name.chars().count() as f64 * 8.5;
    (wide > each - 6.0).then(|| px(each - 6.0))
}
