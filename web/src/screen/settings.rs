//! Settings: units and place, and how safely the record is kept.

use maud::{Markup, html};
use pegline_core::{quantity::System, record};

use super::form::place_fields;
use crate::{
    app::App,
    draw,
    part::{Field, Kind, fault_summary, field, page},
    route::Route,
};

/// The units one can choose from.
pub const UNITS: [(&str, &str); 2] =
    [("us", "inches, feet, °F, gallons"), ("metric", "centimetres, metres, °C, litres")];

/// The screen.
pub fn screen(app: &App) -> Markup {
    let form = app.form();
    let faults = app.faults();
    let system = app.system();
    page(
        "Settings",
        "",
        &Route::Settings,
        &html! {
            h1 { "Units and place" }
            (app.notices())
            (fault_summary(form, faults))
            form data-action="save-settings" novalidate {
                (field(form, faults, system, &Field {
                    name: "units", label: "Units", kind: Kind::Choice(&UNITS), ..Field::default()
                }))
                (place_fields(app))
                h2 { "Your own measures" }
                div.pair {
                    (field(form, faults, system, &Field {
                        name: "wheelbarrow", label: "A heaped wheelbarrow holds",
                        example: if system == System::Us { "6 cu ft" } else { "170 l" }, ..Field::default()
                    }))
                    (field(form, faults, system, &Field {
                        name: "nerve", label: "Cover when the risk of harm is",
                        kind: Kind::Choice(&[("", "as usual"), ("10", "1 in 10"), ("25", "1 in 4"), ("50", "1 in 2")]), ..Field::default()
                    }))
                }
                button.act type="submit" data-action="save-settings" { "Keep these settings" }
            }
            (year(app))
            h2 { "Where the record is kept" }
            p { (app.kept_words()) }
            p { "Nothing leaves this phone unless you hand over a copy, in the Book." }
        },
    )
}

/// The year as it follows from the place.
fn year(app: &App) -> Markup {
    html! {
        @if let Some(year) = record::year(app.garden(), app.now().today()) {
            h2 { "Your year" }
            (draw::year(&year, app.system()))
            @for line in &year.words { p { (line) } }
        }
    }
}
