//! The curve of nitrogen that rotting holds and gives back, with the days that are safe.

use chrono::NaiveDate;
use maud::{Markup, html};
use pegline_core::text::day;

use super::px;

const WIDE: f64 = 324.0;
const HIGH: f64 = 200.0;
const TOP: f64 = 24.0;
const BOTTOM: f64 = 28.0;
/// A curve flatter than this, g/m2 from top to bottom, is drawn flat and not blown up.
const FLAT: f64 = 0.6;

/// What the curve shows.
#[derive(Clone, Debug)]
pub struct Curve<'a> {
    /// Days with the nitrogen set free by then, below zero held, g/m2.
    pub points: &'a [(NaiveDate, f64)],
    /// Above this it does no harm, g/m2.
    pub safe_above: f64,
    /// The first safe day, where there is one on the drawing.
    pub safe_from: Option<NaiveDate>,
    /// Today.
    pub today: NaiveDate,
    /// The same in words.
    pub words: &'a str,
}

/// Draws the curve.
pub fn balance(show: &Curve<'_>) -> Markup {
    let (Some(first), Some(last)) = (show.points.first(), show.points.last()) else {
        return html! {};
    };
    let days = ((last.0 - first.0).num_days() as f64).max(1.0);
    let values = || show.points.iter().map(|point| point.1);
    let mut high = values().fold(0.0, f64::max);
    let mut low = values().fold(0.0, f64::min);
    if high - low < FLAT {
        (low, high) = (low - FLAT / 2.0, high + FLAT / 2.0);
    }
    let room = (high - low) * 0.16;
    (low, high) = (low - room, high + room);
    let x = |date: NaiveDate| ((date - first.0).num_days() as f64 / days).clamp(0.0, 1.0) * WIDE;
    let y = |n: f64| TOP + (high - n) / (high - low) * (HIGH - TOP - BOTTOM);
    let line: Vec<String> =
        show.points.iter().map(|point| format!("{} {}", px(x(point.0)), px(y(point.1)))).collect();
    let safe = show.safe_from.filter(|from| *from < last.0).map(x);
    let today = x(show.today);
    let nearly_right = |at: f64| WIDE - 70.0 < at;
    // The word stands clear of the curve: opposite to where it starts off.
    let held = values().any(|n| n < -FLAT / 4.0);
    html! {
        svg.balance xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {} {}", px(WIDE), px(HIGH))) role="img" aria-label=(show.words) {
            @if let Some(from) = safe {
                rect.safe x=(px(from)) width=(px(WIDE - from)) y=(px(TOP)) height=(px(HIGH - TOP - BOTTOM)) {}
                text.word x=(px(if nearly_right(from) { WIDE - 2.0 } else { from + 4.0 })) y=(px(HIGH - BOTTOM - 6.0)) font-size="15" text-anchor=[nearly_right(from).then_some("end")] { "safe" }
            }
            line.zero x1="0" x2=(px(WIDE)) y1=(px(y(0.0))) y2=(px(y(0.0))) stroke-width="1.5" {}
            @if low < show.safe_above {
                line.bears x1="0" x2=(px(WIDE)) y1=(px(y(show.safe_above))) y2=(px(y(show.safe_above))) stroke-width="1.5" stroke-dasharray="2 4" {}
            }
            path.line d=(format!("M{}", line.join("L"))) fill="none" stroke-width="4" {}
            line.today x1=(px(today)) x2=(px(today)) y1=(px(TOP - 4.0)) y2=(px(HIGH - BOTTOM)) stroke-width="2" stroke-dasharray="5 4" {}
            text.word x=(px(if nearly_right(today) { today - 4.0 } else { today + 4.0 })) y="14" font-size="15" text-anchor=[nearly_right(today).then_some("end")] { "today" }
            @if !held || 0.0 < last.1 {
                text.word x=(px(WIDE - 2.0)) y=(px((y(last.1.max(0.0)) + 26.0).max(TOP + 12.0))) font-size="15" text-anchor="end" { "given back" }
            }
            @if held { text.word x=(px(WIDE * 0.3)) y=(px(y(0.0) - 5.0)) font-size="15" { "held below the line" } }
            text.date x="0" y=(px(HIGH - 8.0)) font-size="15" { (day(first.0, Some(show.today))) }
            @match show.safe_from.filter(|from| first.0 < *from && *from < last.0) {
                Some(from) if 60.0 < x(from) && x(from) < WIDE - 100.0 => text.date x=(px(x(from))) y=(px(HIGH - 8.0)) font-size="15" { (day(from, Some(show.today))) },
                _ => {}
            }
            text.date x=(px(WIDE)) y=(px(HIGH - 8.0)) font-size="15" text-anchor="end" { (day(last.0, Some(show.today))) }
        }
    }
}
