//! Parts that several forms share: crops by name, which bed, its size, the place.

use maud::{Markup, html};
use pegline_core::{catalogue, record, text::capital};

use crate::{
    part::{Field, Kind, control_id, fault_of, field},
    state::App,
};

/// One field of the app's form.
pub(in crate::screen) fn one(app: &App, asked: &Field<'_>) -> Markup {
    field(app.form(), app.faults(), app.system(), asked)
}

/// A field as it is declared. `example` stands for what is taken where it is left empty.
pub(in crate::screen) fn declared(app: &App, name: &str, example: &str, hint: &str) -> Markup {
    one(app, &Field { example, hint, ..Field::of(app.form(), name) })
}

/// A field as it is declared, with nothing more to say.
pub(in crate::screen) fn plain(app: &App, name: &str) -> Markup {
    declared(app, name, "", "")
}

/// One of a few that the garden tells. `example` says what none of them means.
pub(in crate::screen) fn one_of(
    app: &App,
    name: &str,
    choices: &[(&str, &str)],
    example: &str,
) -> Markup {
    one(app, &Field { kind: Kind::Choice(choices), example, ..Field::of(app.form(), name) })
}

/// When something happened: `when`, or `when.look` where a page has several forms that ask for it.
pub(in crate::screen) fn when(app: &App, name: &str, hint: &str) -> Markup {
    one(app, &Field { kind: Kind::Moment, hint, ..Field::of(app.form(), name) })
}

/// One of a few, a tap each: for what is answered with cold hands.
pub(in crate::screen) fn tap(app: &App, name: &str) -> Markup {
    let id = control_id(name);
    let fault = fault_of(app.form(), app.faults(), name);
    let fault_id = format!("{id}-fault");
    let row = app.form().row(name);
    let choices = row.map_or(&[][..], |row| row.control.choices());
    html! {
        fieldset.field id=(id) tabindex="-1" aria-describedby=[fault.is_some().then_some(&fault_id)] {
            legend { (row.map_or("", |row| row.label)) }
            div.choice.four[choices.len() > 3] {
                @for (value, words) in choices {
                    label {
                        input type="radio" name=(name) value=(value) checked[app.form().text(name) == *value];
                        (capital(words))
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
        (plain(app, name))
        (crops())
    }
}

/// The names that crop fields suggest.
pub(super) fn crops() -> Markup {
    html! {
        datalist id="crops" { @for crop in catalogue::crops() { option value=(crop.name()) {} } }
    }
}

/// Any of a few, a tick each.
pub(super) fn ticks(app: &App, name: &str) -> Markup {
    let ticked = |at: usize| !app.form().text(&format!("{name}.{at}")).is_empty();
    let row = app.form().row(name);
    let fault = fault_of(app.form(), app.faults(), name);
    let fault_id = format!("{}-fault", control_id(name));
    html! {
        fieldset id=(control_id(name)) tabindex="-1" aria-describedby=[fault.is_some().then_some(&fault_id)] {
            legend { (row.map_or("", |row| row.label)) }
            @for (at, (value, words)) in row.iter().flat_map(|row| row.control.choices()).enumerate() {
                @let one = format!("{name}.{at}");
                label.tick {
                    // An empty text under the same name, so that taking the tick off counts.
                    input type="hidden" name=(one) value="";
                    input type="checkbox" id=(control_id(&one)) name=(one) value=(value) checked[ticked(at)];
                    (words)
                }
            }
            @if let Some(fault) = fault { span.fault id=(fault_id) { (fault) } }
        }
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
            (one(app, &Field { kind: Kind::Choice(&choices), ..Field::of(app.form(), "bed") }))
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
            (plain(app, "bed.length"))
            (plain(app, "bed.width"))
            (declared(app, "bed.drip.lines", "none", ""))
            (plain(app, "bed.drip.emitter_spacing"))
        }
        details id="more-about-the-bed" {
            summary { "More about the bed" }
            (plain(app, "bed.name"))
            div.pair {
                (declared(app, "bed.drip.line_spacing", "", "Equal strips if left empty"))
                (plain(app, "bed.drip.first_line"))
                (declared(app, "bed.drip.first_emitter", "", "Centred if left empty"))
                (declared(app, "bed.edge_margin", "", "By the crop if left empty"))
            }
            (declared(app, "bed.drip.flow", "", "Printed on the hose, such as 0.5 gal/h"))
            div.pair {
                (declared(app, "bed.drains", "not known", ""))
                (declared(app, "bed.spring_sun", "not known", ""))
            }
            p { small { "Garlic goes where no puddle stays an hour after rain, with sun from early spring." } }
            (declared(app, "bed.faces", "", "Standing at the near side: N, south-east, 120"))
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
    let label = |name: &str| app.form().row(name).map_or("", |row| row.label);
    html! {
        (declared(app, "site.latitude", "45.5 N", ""))
        div.pair {
            @for month in ["site.coldest", "site.hottest"] {
                @let [low, high] = ["low", "high"].map(|part| format!("{month}.{part}"));
                (one(app, &Field { label: &format!("{}: {}", label(month), label(&low)), ..Field::of(app.form(), &low) }))
                (one(app, &Field { label: &format!("and {}", label(&high)), ..Field::of(app.form(), &high) }))
            }
        }
    }
}

const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// Everything that can be told about the place; all of it optional.
pub fn place_fields(app: &App) -> Markup {
    let of_month = |name: String, label: String| {
        one(app, &Field { label: &label, ..Field::of(app.form(), &name) })
    };
    html! {
        (extremes(app))
        div.pair {
            (declared(app, "site.last_frost", "", "Month and day, such as 04-15"))
            (declared(app, "site.first_frost", "", "Month and day, such as 10-20"))
        }
        (declared(app, "site.soil", "not known", ""))
        (plain(app, "site.elevation"))
        details {
            summary { "All twelve months instead" }
            p { small { "Usual lows and highs. They make every date surer; then the four above are not needed." } }
            div.pair {
                @for (at, month) in MONTHS.iter().enumerate() {
                    (of_month(format!("site.monthly_low.{at}"), format!("{month}, low")))
                    (of_month(format!("site.monthly_high.{at}"), format!("{month}, high")))
                }
            }
        }
    }
}
