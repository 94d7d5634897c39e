//! Store and forms in a real browser.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use gloo_storage::{LocalStorage, Storage as _};
use pegline_core::{
    garden::Garden,
    journal::{
        Journal,
        line::{self, ENTRY_KEYS},
    },
};
use pegline_web::{
    Now,
    app::{App, Effect},
    store::Store,
};
use serde_json::{Value, json};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn empty_storage() {
    LocalStorage::raw().clear().unwrap();
}

fn bed(name: &str) -> Value {
    json!({"bed": {"name": name, "length": "8", "width": "4"}})
}

fn lay_out(app: &mut App, name: &str) {
    let now = Now::read();
    app.event("route", "#/beds/new", &Value::Null, now);
    app.event("submit", "save-bed:", &bed(name), now);
}

fn stored() -> Garden {
    let mut journal = Journal::default();
    for (key, value) in Store::open().lines() {
        journal.add_line(key, value);
    }
    Garden::fold(&journal)
}

#[wasm_bindgen_test]
fn a_bed_laid_out_is_there_after_the_page_is_opened_again() {
    empty_storage();
    let mut app = App::new(Store::open(), Now::read());
    lay_out(&mut app, "Fence bed");
    assert!(app.effects().contains(&Effect::Persist));
    let again = App::new(Store::open(), Now::read());
    assert_eq!(again.beds()[0].name, "Fence bed");
}

#[wasm_bindgen_test]
fn two_tabs_do_not_overwrite_each_other() {
    empty_storage();
    let mut one = App::new(Store::open(), Now::read());
    let mut other = App::new(Store::open(), Now::read());
    lay_out(&mut one, "Fence bed");
    lay_out(&mut other, "Gate bed");
    one.event("storage", "", &Value::Null, Now::read());
    let names = |garden: &Garden| {
        let mut names: Vec<String> = garden.beds.iter().map(|bed| bed.name.clone()).collect();
        names.sort();
        names
    };
    assert_eq!(names(one.garden()), ["Fence bed", "Gate bed"]);
    assert_eq!(names(&stored()), ["Fence bed", "Gate bed"]);
}

#[wasm_bindgen_test]
fn keys_of_others_are_left_alone() {
    empty_storage();
    let storage = LocalStorage::raw();
    storage.set_item("someone/else", "not ours").unwrap();
    let mut app = App::new(Store::open(), Now::read());
    lay_out(&mut app, "Fence bed");
    assert_eq!(storage.get_item("someone/else").unwrap().as_deref(), Some("not ours"));
    assert_eq!(app.journal().strays().count(), 0);
}

#[wasm_bindgen_test]
fn a_damaged_line_is_set_aside_shown_and_never_deleted() {
    empty_storage();
    let mut app = App::new(Store::open(), Now::read());
    lay_out(&mut app, "Fence bed");
    let (key, value) = Store::open().lines()[0].clone();
    let damaged = value.replace("Fence", "Fense");
    LocalStorage::raw().set_item(&key, &damaged).unwrap();
    let mut again = App::new(Store::open(), Now::read());
    assert!(again.beds().is_empty());
    let book = again.event("route", "#/book", &Value::Null, Now::read()).into_string();
    assert!(book.contains("Fense bed"), "{book}");
    assert_eq!(LocalStorage::raw().get_item(&key).unwrap(), Some(damaged));
}

#[wasm_bindgen_test]
fn every_stored_line_has_its_checksum() {
    empty_storage();
    let mut app = App::new(Store::open(), Now::read());
    lay_out(&mut app, "Fence bed");
    for (key, value) in Store::open().lines() {
        assert!(key.starts_with(ENTRY_KEYS));
        assert!(line::decode(key, value).is_ok(), "{key}");
    }
}

#[wasm_bindgen_test]
fn a_full_store_says_so_and_keeps_what_was_typed() {
    empty_storage();
    let mut app = App::new(Store::open(), Now::read());
    // Fill what the browser grants, to the last few letters.
    let storage = LocalStorage::raw();
    let (mut size, mut at) = (1 << 22, 0);
    while size > 0 {
        if storage.set_item(&format!("fill/{at}"), &"x".repeat(size)).is_err() {
            size /= 2;
        }
        at += 1;
    }
    let now = Now::read();
    app.event("route", "#/beds/new", &Value::Null, now);
    app.event("submit", "save-bed:", &bed("Fence bed"), now);
    let sent = app.effects().into_iter().find_map(|effect| match effect {
        Effect::Keep { lines, .. } => Some(lines),
        _ => None,
    });
    let keys: Vec<String> = sent.unwrap().into_iter().map(|(key, _)| key).collect();
    assert!(stored().beds.is_empty());
    let shown =
        app.event("not-kept", "", &json!({ "keys": keys, "full": true }), now).into_string();
    assert!(shown.contains("Not written: the phone is full"), "{shown}");
    assert!(shown.contains("value=\"Fence bed\""), "{shown}");
    empty_storage();
}
