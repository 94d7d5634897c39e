//! Settings: units and place, and how safely the record is kept.

use maud::{Markup, html};

use crate::{
    app::App,
    part::{Field, Kind, fault_summary, field, page},
    route::Route,
};

/// The units one can choose from.
pub const UNITS: [(&str, &str); 2] = [
    ("us", "inches, feet, °F, gallons"),
    ("metric", "centimetres, metres, °C, litres"),
];

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
                (field(form, faults, system, &Field {
                    name: "latitude", label: "Latitude", example: "45.5 N",
                    hint: "Degrees north or south; any map tells it. Used for day length.",
                    ..Field::default()
                }))
                button.act type="submit" data-action="save-settings" { "Keep these settings" }
            }
            h2 { "Where the record is kept" }
            p { (app.kept_words()) }
            p { "Nothing leaves this phone unless you hand over a copy, in the Book." }
        },
    )
}
