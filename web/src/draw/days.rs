//! Time as a row of pegs: those of safe days stand, the others lie.

use chrono::{Days, NaiveDate};
use maud::{Markup, html};
use pegline_core::text::day;

use super::px;

/// The drawing's inner width on a phone, in CSS pixels.
const WIDE: f64 = 324.0;
/// Room for one row with its label and its dates.
const ROW: f64 = 80.0;
/// As many pegs as can still be told apart.
const PEGS: i64 = 26;

/// One row: what is done, and from when it is safe.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    /// What is done.
    pub label: &'a str,
    /// As early as this it may be safe.
    pub early: Option<NaiveDate>,
    /// Likely safe from then.
    pub likely: Option<NaiveDate>,
    /// Surely safe from then.
    pub late: Option<NaiveDate>,
}

/// Draws the rows from `today` on; `words` say the same to those who can't see it.
pub fn days(today: NaiveDate, rows: &[Row<'_>], words: &str) -> Markup {
    let ends = rows
        .iter()
        .flat_map(|row| [row.likely, row.late])
        .flatten()
        .map(|date| (date - today).num_days() + 4);
    // Days, or weeks where days would run together, or four weeks.
    let span = ends.max().unwrap_or(0).clamp(14, 28 * (PEGS - 1));
    let each = [1, 7, 28].into_iter().find(|each| span <= each * (PEGS - 1)).unwrap_or(28);
    // The last one no earlier than the last day, so that the peg of a safe day is there to stand.
    let pegs = ((span + each - 1) / each + 1).clamp(2, PEGS);
    let apart = WIDE / pegs as f64;
    let count = rows.len() as f64;
    let every = match each {
        1 => "One peg a day",
        7 => "One peg a week",
        _ => "One peg every four weeks",
    };
    html! {
        svg.days xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {} {}", px(WIDE), px(ROW * count))) role="img" aria-label=(words) {
            @for (at, row) in rows.iter().enumerate() {
                @let base = ROW * at as f64 + 50.0;
                text.word x="0" y=(px(base - 34.0)) font-size="15" { (row.label) }
                line.ground x1="0" x2=(px(WIDE)) y1=(px(base)) y2=(px(base)) stroke-width="1.5" {}
                @for peg in 0..pegs {
                    @let date = today.checked_add_days(Days::new((peg * each).unsigned_abs())).unwrap_or(today);
                    @let x = (peg as f64 + 0.5) * apart;
                    path.peg.(stands(row, date)) d=(outline(x, base, apart, stands(row, date))) stroke-width="1.5" {}
                }
                (dates(today, row, each, pegs, apart, base + 19.0))
            }
        }
        p { small { (every) ": lying is too early, an open one is likely safe, a full one surely." } }
    }
}

/// How the peg of a day stands.
fn stands(row: &Row<'_>, date: NaiveDate) -> &'static str {
    let reached = |from: Option<NaiveDate>| from.is_some_and(|from| from <= date);
    if reached(row.late) {
        "full"
    } else if reached(row.likely) {
        "open"
    } else {
        "lying"
    }
}

/// A peg in the ground at `x`, or lying on it.
fn outline(x: f64, base: f64, apart: f64, how: &str) -> String {
    let half = (apart * 0.3).min(5.0);
    if how == "lying" {
        let long = (apart * 0.42).min(9.0);
        return format!(
            "M{} {}H{}L{} {}L{} {}H{}Z",
            px(x - long),
            px(base - 5.0),
            px(x + long * 0.5),
            px(x + long),
            px(base - 3.0),
            px(x + long * 0.5),
            px(base - 1.0),
            px(x - long)
        );
    }
    format!(
        "M{} {}H{}V{}L{} {}L{} {}Z",
        px(x - half),
        px(base - 24.0),
        px(x + half),
        px(base - 6.0),
        px(x),
        px(base),
        px(x - half),
        px(base - 6.0)
    )
}

/// "today" and the first likely safe day below the row.
fn dates(today: NaiveDate, row: &Row<'_>, each: i64, pegs: i64, apart: f64, level: f64) -> Markup {
    let likely = row.likely.filter(|likely| today < *likely);
    let peg = likely.map(|likely| ((likely - today).num_days() + each - 1) / each);
    let at = peg.map_or(0.0, |peg| (peg.min(pegs - 1) as f64 + 0.5) * apart);
    let end = WIDE * 0.72 < at;
    html! {
        // Where both would run together the safe day counts.
        @if peg.is_none() || 60.0 < at { text.date x="0" y=(px(level)) font-size="15" { "today" } }
        @match likely {
            Some(likely) => text.date x=(px(if end { WIDE } else { at.max(4.0) - 4.0 })) y=(px(level)) font-size="15" text-anchor=[end.then_some("end")] {
                "about " (day(likely, Some(today)))
            },
            None if row.likely.is_none() => text.date x=(px(WIDE)) y=(px(level)) font-size="15" text-anchor="end" { "not within two years" },
            None => {}
        }
    }
}
