//! What is typed and not yet written, handed over to the page that is loaded next.

use serde_json::{Map, Value};

use crate::forms::Form;
use crate::route::Route;
use crate::state::App;

impl App {
    /// All half-filled forms of the own garden, as a text that only [`App::take_up`] reads; nothing
    /// where there is none.
    pub fn typed(&self) -> Option<String> {
        let (left, here) = match self.is_demo {
            true => (&self.left_at_home, None),
            false => (&self.left, Some((self.route.address(), self.form.clone()))),
        };
        let here = here.filter(|(_, form)| form.is_typed_in());
        let mut forms = Map::new();
        for (address, form) in left.iter().chain(&here) {
            forms.insert(address.clone(), form.texts());
        }
        if forms.is_empty() { None } else { serde_json::to_string(&forms).ok() }
    }

    /// Takes up what was typed before this page was loaded. Nothing of a text that can't be read.
    pub(super) fn take_up(&mut self, typed: &str) {
        let Ok(Value::Object(forms)) = serde_json::from_str(typed) else {
            return;
        };
        for (address, fields) in forms {
            let mut form = Form::of(super::fields(&Route::read(&address)));
            form.take(&fields);
            self.left.push((address, form));
        }
    }
}
