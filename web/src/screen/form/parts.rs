//! Parts that several forms share: crops by name, which bed, its size, the place.

use maud::{Markup, html};
use pegline_core::{catalogue, record};

use crate::{
    app::App,
    part::{Field, Kind, control_id, fault_of, field},
};

/// One field of the app's form.
pub(in crate::screen) fn one(app: &App, asked: &Field<'_>) -> Markup {
    field(app.form(), app.faults(), app.system(), asked)
}

/// A field of plain text.
pub(super) fn text(app: &App, name: &str, label: &str, hint: &str) -> Markup {
    one(app, &Field { name, label, hint, ..Field::default() })
}

/// One of a few, a tap each: for what is answered with cold hands.
pub(in crate::screen) fn tap(
    app: &App,
    name: &str,
    label: &str,
    choices: &[(&str, &str)],
) -> Markup {
    let id = control_id(name);
    let fault = fault_of(app.form(), app.faults(), name);
    let fault_id = format!("{id}-fault");
    html! {
        fieldset.field id=(id) tabindex="-1" aria-describedby=[fault.is_some().then_some(&fault_id)] {
            legend { (label) }
            div.choice.four[choices.len() > 3] {
                @for (value, words) in choices {
                    label {
                        input type="radio" name=(name) value=(value) checked[app.form().text(name) == *value];
                        (words)
                    }
                }
            }
            @if let Some(fault) = fault { span.fault id=(fault_id) { (fault) } }
        }
    }
}

/// A field for a crop, with every name suggested.
pub fn crop(app: &App, name: &str) -> Markup {
    html! {
        (one(app, &Field { name, label: "Crop", kind: Kind::Suggest("crops"), ..Field::default() }))
        (crops())
    }
}

/// The names that crop fields suggest.
pub(super) fn crops() -> Markup {
    html! {
        datalist id="crops" { @for crop in catalogue::crops() { option value=(crop.name()) {} } }
    }
}

/// Which bed, where the record has any; `other` says what choosing none means.
pub(super) fn bed_choice(app: &App, other: &str) -> Markup {
    let beds = app.beds();
    let mut choices: Vec<(&str, &str)> =
        beds.iter().map(|bed| (bed.id.as_str(), bed.name.as_str())).collect();
    choices.push(("", other));
    html! {
        @if !beds.is_empty() {
            (one(app, &Field { name: "bed", label: "Bed", kind: Kind::Choice(&choices), ..Field::default() }))
        }
    }
}

/// The size of a bed that is not in the record.
pub(super) fn bed_size(app: &App) -> Markup {
    html! {
        @if app.form().text("bed").is_empty() {
            fieldset id=[app.beds().is_empty().then(|| control_id("bed"))] tabindex="-1" {
                h2 { "The bed" }
                (bed_fields(app))
            }
        }
    }
}

/// The fields that describe a bed.
pub fn bed_fields(app: &App) -> Markup {
    html! {
        div.pair {
            (text(app, "bed.length", "Length", ""))
            (text(app, "bed.width", "Width", ""))
            (one(app, &Field {
                name: "bed.drip.lines", label: "Drip lines", kind: Kind::Count, example: "none", ..Field::default()
            }))
            (text(app, "bed.drip.emitter_spacing", "From hole to hole", ""))
        }
        details id="more-about-the-bed" {
            summary { "More about the bed" }
            (text(app, "bed.name", "What you call it", ""))
            div.pair {
                (text(app, "bed.drip.line_spacing", "From line to line", "Equal strips if left empty"))
                (text(app, "bed.drip.first_line", "Near side to first line", ""))
                (text(app, "bed.drip.first_emitter", "Left end to first hole", "Centred if left empty"))
                (text(app, "bed.edge_margin", "Side to nearest plant", "By the crop if left empty"))
            }
            (text(app, "bed.drip.flow", "What one hole gives", "Printed on the hose, such as 0.5 gal/h"))
            div.pair {
                (one(app, &Field {
                    name: "bed.drains", label: "After rain",
                    kind: Kind::Choice(&[("", "not known"), ("yes", "it drains"), ("no", "it stays wet")]), ..Field::default()
                }))
                (one(app, &Field {
                    name: "bed.spring_sun", label: "In spring",
                    kind: Kind::Choice(&[("", "not known"), ("yes", "in sun"), ("no", "in shade")]), ..Field::default()
                }))
            }
            p { small { "Garlic goes where no puddle stays an hour after rain, with sun from early spring." } }
            (text(app, "bed.faces", "You look towards", "Standing at the near side: N, south-east, 120"))
        }
    }
}

/// The place, where the record does not tell its climate yet.
pub(super) fn place_if_unknown(app: &App) -> Markup {
    html! {
        @if !record::knows_climate(app.garden()) {
            h2 id=(control_id("site")) tabindex="-1" { "The place" }
            p { small { "Four usual temperatures are enough. Settings keep them for every question." } }
            (extremes(app))
        }
    }
}

/// Latitude and the usual air of the coldest and the hottest month.
fn extremes(app: &App) -> Markup {
    html! {
        (one(app, &Field { name: "site.latitude", label: "Latitude", example: "45.5 N", ..Field::default() }))
        div.pair {
            (text(app, "site.coldest.low", "Coldest month: usual low", ""))
            (text(app, "site.coldest.high", "and usual high", ""))
            (text(app, "site.hottest.low", "Hottest month: usual low", ""))
            (text(app, "site.hottest.high", "and usual high", ""))
        }
    }
}

/// What the soil is made of.
pub(super) fn soil_choice(app: &App, name: &str, label: &str) -> Markup {
    one(
        app,
        &Field {
            name,
            label,
            kind: Kind::Choice(&[
                ("", "not known"),
                ("raised-bed-mix", "compost-rich mix"),
                ("loam", "loam"),
                ("sand", "sandy"),
                ("clay", "clay"),
                ("peat", "peat"),
            ]),
            ..Field::default()
        },
    )
}

const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// Everything that can be told about the place; all of it optional.
pub fn place_fields(app: &App) -> Markup {
    html! {
        (extremes(app))
        div.pair {
            (text(app, "site.last_frost", "Usual last frost", "Month and day, such as 04-15"))
            (text(app, "site.first_frost", "Usual first frost", "Month and day, such as 10-20"))
        }
        (soil_choice(app, "site.soil", "Soil in the beds"))
        (text(app, "site.elevation", "Height above the sea", ""))
        details {
            summary { "All twelve months instead" }
            p { small { "Usual lows and highs. They make every date surer; then the four above are not needed." } }
            div.pair {
                @for (at, month) in MONTHS.iter().enumerate() {
                    (text(app, &format!("site.monthly_low.{at}"), &format!("{month}, low"), ""))
                    (text(app, &format!("site.monthly_high.{at}"), &format!("{month}, high"), ""))
                }
            }
        }
    }
}
