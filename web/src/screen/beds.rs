//! Beds: the list of them, and the form that lays one out or changes it.

use maud::{Markup, html};
use pegline_core::record;

use super::form::bed_fields;
use crate::{
    draw::board,
    part::{fault_summary, page},
    route::Route,
    state::App,
};

/// The list.
pub fn screen(app: &App) -> Markup {
    let beds = app.beds();
    page(
        "Beds",
        &app.day_words(),
        &Route::Beds,
        &html! {
            h1 { "Beds" }
            (app.notices())
            @if beds.is_empty() { p { "None is laid out yet." } }
            ul.rows {
                @for bed in beds {
                    li {
                        a href=(Route::Bed(bed.id.clone()).address()) {
                            (board(bed, app.now().today())) (bed.name) small { (record::state_today(app.garden(), bed, app.now().today())) }
                        }
                    }
                }
            }
            @if !app.beds().is_empty() { ul.rows { li { (super::cold::link()) } } }
            a.act href=(Route::NewBed.address()) { "Lay out a bed" }
            @if app.is_new() {
                button.plain type="button" data-action="demo" { "See a sample garden" }
            }
        },
    )
}

/// The form for a new bed, or for one that changes.
pub fn form(app: &App, id: Option<&str>) -> Markup {
    let title = if id.is_some() { "Change this bed" } else { "Lay out a bed" };
    let action = format!("save-bed:{}", id.unwrap_or_default());
    page(
        title,
        "",
        app.route(),
        &html! {
            h1 { (title) }
            (app.notices())
            (fault_summary(app.form(), app.faults()))
            p { "Measure inside the boards. Stand at a long side you can reach: that is the near side." }
            form data-action=(action) novalidate {
                (bed_fields(app))
                button.act type="submit" data-action=(action) { @if id.is_some() { "Keep the change" } @else { "Save this bed" } }
            }
            @if let Some(id) = id {
                button.plain type="button" data-action=(format!("gone:{id}")) { "This bed was taken away" }
            }
        },
    )
}
