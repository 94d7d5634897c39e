//! Settings: units and place, and how safely the record is kept.

use maud::{Markup, html};
use pegline_core::{quantity::System, record};

use super::form::{
    parts::{declared, plain},
    place_fields,
};
use crate::{
    draw,
    part::{fault_summary, page},
    route::Route,
    state::App,
};

/// The screen.
pub fn screen(app: &App) -> Markup {
    page(
        "Settings",
        "",
        &Route::Settings,
        &html! {
            h1 { "Units and place" }
            (app.notices())
            (fault_summary(app.form(), app.faults()))
            form data-action="save-settings" novalidate {
                (plain(app, "units"))
                (place_fields(app))
                h2 { "Your own measures" }
                div.pair {
                    (declared(app, "wheelbarrow", if app.system() == System::Us { "6 cu ft" } else { "170 l" }, ""))
                    (declared(app, "nerve", "as usual", ""))
                }
                button.act type="submit" data-action="save-settings" { "Keep these settings" }
            }
            (year(app))
            h2 { "Opens without signal" }
            p { (app.opens_words()) }
            h2 { "Where the record is kept" }
            p { (app.kept_words()) }
            p { "Nothing leaves this phone unless you share a copy, in the Book." }
            p { a.plain href="licences.txt" target="_blank" rel="noopener" { "Licences of what this app is made of" } }
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
