//! A cold night bed by bed.

use maud::{Markup, html};
use pegline_core::frost::{Answer, AtBed, Verdict};

use crate::{
    app::App,
    draw::{Night, night},
};

/// Each bed with its low, what is in danger there, and its cover; those to see to first.
pub(super) fn beds(app: &App, found: &Answer) -> Markup {
    let lows = found.beds.iter().map(|bed| bed.low_from_c);
    let highs = found.beds.iter().map(|bed| bed.low_to_c);
    // Freezing always lies on the scale.
    let scale = (lows.fold(-2.0, f64::min), highs.fold(2.0, f64::max));
    let mut rows: Vec<&AtBed> = Vec::new();
    for rank in 1..=found.beds.len() {
        rows.extend(
            found
                .beds
                .iter()
                .filter(|bed| bed.cover_as.is_some_and(|at| at as usize == rank)),
        );
    }
    let others = |safe: bool| {
        let left = found.beds.iter().filter(|bed| bed.cover_as.is_none());
        left.filter(move |bed| safe == bed.crops.iter().all(|crop| crop.verdict == Verdict::Safe))
    };
    rows.extend(others(false));
    let first_safe = rows.len();
    rows.extend(others(true));
    html! {
        ul.rows id="beds-tonight" {
            @for (at, bed) in rows.iter().enumerate() {
                @let told = bed.told(app.system());
                li { div.row {
                    @if let Some(name) = &bed.bed { (name) }
                    small { (told.low) }
                    @if at < first_safe {
                        (night(&Night {
                            low: bed.low_c, between: (bed.low_from_c, bed.low_to_c), scale, words: &told.low,
                        }))
                    }
                    @for line in &told.harm { small { (line) } }
                    @if told.is_urgent { strong.urgent { (told.act) } } @else { small { (told.act) } }
                } }
            }
        }
        @if first_safe > 0 { p { small { "Bar: nine such nights in ten. Thick stroke: the likely low. Dashed: freezing." } } }
    }
}
