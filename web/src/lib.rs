//! Pegline in the browser: storage, forms in, markup out. No garden knowledge.
//!
//! The page's own script hands every event to [`Page::event`] and morphs the markup that comes
//! back into the page; screens are plain functions from the app's state to markup.

#![cfg_attr(
    test,
    allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)
)]

pub mod app;
pub mod clock;
pub mod demo;
pub mod draw;
pub mod forms;
pub mod part;
pub mod route;
pub mod screen;
pub mod state;
pub mod store;

#[cfg(feature = "door")]
use pegline_core::{garden::Garden, journal::file};
use serde::Serialize;
use serde_json::Value;
use wasm_bindgen::prelude::*;

pub use clock::Now;

/// The app as the page's script holds it.
#[wasm_bindgen(js_name = App)]
pub struct Page {
    app: app::App,
    /// What the page shows, as far as nothing was typed since.
    shown: Option<String>,
}

/// What is told of storage, which changes what is shown only now and then.
const OF_STORAGE: [&str; 8] =
    ["storage", "looked", "found", "not-found", "late", "kept", "not-kept", "persisted"];

#[wasm_bindgen(js_class = App)]
impl Page {
    /// Opens the record.
    #[wasm_bindgen(constructor)]
    #[expect(clippy::new_without_default, reason = "a constructor for the page's script only")]
    pub fn new() -> Self {
        Self { app: app::App::new(store::Store::open(), Now::read()), shown: None }
    }

    /// Takes an event in and gives the markup of the page, or nothing as long as it should stay as
    /// it is: what was asked takes another turn.
    pub fn event(&mut self, name: &str, action: &str, fields: JsValue) -> Option<String> {
        self.app.take(name, action, &from_js(&fields), Now::read());
        // What is only kept changes nothing that the app shows.
        if name == "typed" {
            self.shown = None;
            return None;
        }
        let before = self.shown.take();
        let markup = self.markup()?;
        // A page of thousands of rows is not gone through for nothing.
        if OF_STORAGE.contains(&name) && before.as_ref() == Some(&markup) {
            self.shown = before;
            return None;
        }
        Some(markup)
    }

    /// What is typed and not yet written, for the page that is loaded next.
    pub fn typed(&self) -> Option<String> {
        self.app.typed()
    }

    /// Whether something is being worked out still.
    pub fn works(&self) -> bool {
        self.app.works()
    }

    /// Works on for one turn, and gives the markup of the page where it is another now.
    pub fn turn(&mut self) -> Option<String> {
        self.app.turn();
        self.markup()
    }

    fn markup(&mut self) -> Option<String> {
        if self.app.is_soon_done() {
            return None;
        }
        self.shown = Some(self.app.show().into_string());
        self.shown.clone()
    }

    /// What the page's script is to do now.
    pub fn effects(&mut self) -> JsValue {
        let effects: Vec<Value> = self.app.effects().iter().map(app::Effect::for_page).collect();
        to_js(&effects)
    }
}

/// The door: a question as a plain object, and optionally the text of a record's file.
///
/// Gives the answer, or the refusal with its `refused` list, as plain objects.
#[cfg(feature = "door")]
#[wasm_bindgen]
pub fn ask(question: JsValue, record: Option<String>) -> JsValue {
    let question = from_js(&question);
    let garden = match record.as_deref().map(file::read) {
        None => Garden::default(),
        Some(Ok(opened)) => Garden::fold(&opened.journal),
        Some(Err(bad)) => {
            let why = bad.to_string();
            return to_js(&pegline_core::given::Refusal::of(
                "garden",
                "",
                "a copy of a record",
                why,
            ));
        }
    };
    match pegline_core::ask::ask(&question, &garden) {
        Ok(answer) => to_js(&answer),
        Err(refusal) => to_js(&refusal),
    }
}

/// What the page sent; nothing where it is neither text, number, list nor group.
///
/// As one text, since the record is read from text too: a second reader weighs 20 kB on the phone.
fn from_js(value: &JsValue) -> Value {
    let text = js_sys::JSON::stringify(value).map(String::from);
    text.map_or(Value::Null, |text| serde_json::from_str(&text).unwrap_or(Value::Null))
}

/// As plain objects, JSON-compatible so that every door gives the same: objects not maps, null not
/// undefined. By way of one tree, since each further type that the page's serializer knows costs the
/// phone as much code again.
fn to_js(value: &impl Serialize) -> JsValue {
    let tree = serde_json::to_value(value).unwrap_or_default();
    let json = serde_wasm_bindgen::Serializer::json_compatible();
    tree.serialize(&json).unwrap_or(JsValue::NULL)
}
