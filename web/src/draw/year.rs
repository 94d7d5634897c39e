//! The usual year of the place: the air between its low and its high, the soil as the one thick line,
//! frost and short days below.

use maud::{Markup, html};
use pegline_core::{
    quantity::{Quantity, System, Temperature},
    record::{UsualDay, Year},
};

use super::px;

const WIDE: f64 = 324.0;
const HIGH: f64 = 190.0;
const TOP: f64 = 18.0;
const BOTTOM: f64 = 40.0;
const DAYS: f64 = 366.0;

/// Draws the year.
pub fn year(year: &Year, system: System) -> Markup {
    let celsius = |temperature: Temperature| temperature.value - 273.15;
    let lows = year.days.iter().map(|day| celsius(day.low));
    let highs = year.days.iter().map(|day| celsius(day.high));
    let (bottom, top) = (lows.fold(0.0, f64::min) - 2.0, highs.fold(10.0, f64::max) + 2.0);
    let x = |day: f64| (day / DAYS - (day / DAYS).floor()) * WIDE;
    let y = |degrees: f64| TOP + (top - degrees) / (top - bottom) * (HIGH - TOP - BOTTOM);
    let line = |of: &dyn Fn(&UsualDay) -> Temperature| {
        let points: Vec<String> = year
            .days
            .iter()
            .map(|day| {
                format!(
                    "{} {}",
                    px((day.day.number() / DAYS * WIDE).min(WIDE)),
                    px(y(celsius(of(day))))
                )
            })
            .collect();
        format!("M{}", points.join("L"))
    };
    let air = {
        let there = line(&|day| day.high);
        let points: Vec<String> = year
            .days
            .iter()
            .rev()
            .map(|day| {
                format!(
                    "{} {}",
                    px((day.day.number() / DAYS * WIDE).min(WIDE)),
                    px(y(celsius(day.low)))
                )
            })
            .collect();
        format!("{there}L{}Z", points.join("L"))
    };
    let warmest = year.days.iter().max_by(|one, other| one.soil.value.total_cmp(&other.soil.value));
    let words = year.words.join(" ");
    html! {
        svg.year xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {} {}", px(WIDE), px(HIGH))) role="img" aria-label=(words) {
            path.air d=(air) {}
            line.freezing x1="0" x2=(px(WIDE)) y1=(px(y(0.0))) y2=(px(y(0.0))) stroke-width="1.5" stroke-dasharray="5 4" {}
            path.soil-line d=(line(&|day| day.soil)) fill="none" stroke-width="4" {}
            @if let Some(day) = warmest {
                text.word x=(px((day.day.number() / DAYS * WIDE).clamp(60.0, WIDE - 60.0))) y=(px(y(celsius(day.soil)) - 8.0)) font-size="14" text-anchor="middle" {
                    "soil " (day.soil.show(system))
                }
            }
            text.word x="4" y=(px(y(0.0) - 5.0)) font-size="13" { "freezing" }
            @for frost in year.frosts.iter().flatten() {
                line.frost x1=(px(x(frost.number()))) x2=(px(x(frost.number()))) y1=(px(TOP)) y2=(px(HIGH - BOTTOM + 4.0)) stroke-width="2.5" {}
            }
            @if let Some([from, to]) = year.short {
                @for (left, right) in pieces(x(from.number()), x(to.number())) {
                    rect.short x=(px(left)) width=(px(right - left)) y=(px(HIGH - BOTTOM + 4.0)) height="8" {}
                }
            }
            @for (month, name) in ["Jan", "Apr", "Jul", "Oct"].iter().enumerate() {
                text.month x=(px(month_start(month) + 2.0)) y=(px(HIGH - 6.0)) font-size="14" { (name) }
            }
        }
        p { small { "Air between its usual low and high, soil four inches down as the thick line; upright lines are the usual frosts, the bar the days under 10 hours." } }
    }
}

/// Where each quarter begins.
fn month_start(quarter: usize) -> f64 {
    let day = [1.0, 91.0, 182.0, 274.0].get(quarter).copied().unwrap_or(1.0);
    day / DAYS * WIDE
}

/// A stretch that may run over the year's end, as one or two pieces.
fn pieces(from: f64, to: f64) -> Vec<(f64, f64)> {
    if from <= to { vec![(from, to)] } else { vec![(0.0, to), (from, WIDE)] }
}
