//! Writing about trays: sown, looked at, moved on, got used to outdoors, and planted from.

use pegline_core::{
    catalogue,
    garden::Start,
    given::Refusal,
    journal::{About, Draft, What, details, next_id},
    record::{self, trays},
};

use super::App;
use crate::{forms::Form, route::Route};

impl App {
    /// What the garden knows of a tray, in the form of a question about it.
    pub(super) fn fill_in_start(&self, form: &mut Form, topic: &str, id: &str) {
        if topic != "plants-per-bed" {
            form.set("tray", id);
            return;
        }
        let Some(start) = self.start(id) else { return };
        let crop = catalogue::crop(&start.crop).map_or(start.crop.as_str(), |crop| crop.name());
        form.set("plants.0.crop", crop);
        if let Some(left) = start.left {
            form.set("plants.0.on_hand", &left.to_string());
        }
        if let [only] = self.beds().as_slice() {
            form.set("bed", only.id.as_str());
        }
    }

    /// Plants that were asked about from a tray are planted from it.
    pub(super) fn name_start(&self, drafts: &mut [Draft]) {
        let Route::OfStart { start: id, .. } = self.route() else {
            return;
        };
        let Some(start) = self.start(id) else { return };
        let crop = |name: &str| catalogue::crop(name).ok().map(catalogue::Crop::id);
        for draft in drafts {
            if let What::Planted(planted) = &draft.what
                && (planted.crop == start.crop || crop(&planted.crop) == crop(&start.crop))
            {
                draft.about.start = Some(id.clone());
            }
        }
    }

    pub(super) fn save_tray_sown(&mut self) {
        self.form.submit();
        let typed = self.form.completed(&self.sent.nested(), self.system());
        match record::new_tray(&typed, self.now.local) {
            Err(refusal) => self.faults = refusal.refused,
            Ok(tray) => {
                self.faults.clear();
                // The id that writing gives to the first of the two.
                let id = next_id(self.now.millis, self.now.chance(), self.last_own);
                let mut drafts = vec![(tray.sown, tray.when)];
                drafts.extend(tray.look.map(|look| (seen(id, look), self.now.local)));
                if self.write_at(drafts, None) {
                    self.arrive(Route::Start(id.to_string()));
                }
            }
        }
    }

    /// Writes one form of a tray's page: `lost:<id>` and the like.
    pub(super) fn save_tray(&mut self, object: &str) {
        let (done, id) = object.split_once(':').unwrap_or((object, ""));
        self.form.submit();
        let typed = self.form.completed(&self.sent.nested(), self.system());
        self.write_of_tray(id, |start| record::tray(done, &typed, start));
    }

    /// Writes what the roots look like, in one tap: `circling:<id>`.
    pub(super) fn save_roots(&mut self, object: &str) {
        let (roots, id) = object.split_once(':').unwrap_or((object, ""));
        let look = details::CheckIn {
            roots: Some(roots.to_owned()),
            signs: self.start(id).map(signs).unwrap_or_default(),
            ..details::CheckIn::default()
        };
        self.write_of_tray(id, |start| Ok(seen(start.id, look)));
    }

    /// Writes that today's day outdoors was done as asked, in one tap.
    pub(super) fn save_day_outdoors(&mut self, id: &str) {
        let done = self
            .start(id)
            .and_then(|start| trays::tray(start.id, &self.trays_today()))
            .and_then(|tray| tray.outdoors?.done_today);
        if let Some(draft) = done {
            self.write_of_tray(id, |_| Ok(draft));
        }
    }

    fn write_of_tray(&mut self, id: &str, draft: impl FnOnce(&Start) -> Result<Draft, Refusal>) {
        let Some(draft) = self.start(id).map(draft) else {
            return;
        };
        match draft {
            Err(refusal) => self.faults = refusal.refused,
            Ok(draft) => {
                self.faults.clear();
                if self.write(vec![draft], None) {
                    self.sent_is_written();
                }
            }
        }
    }
}

/// What was seen at the last look, so that a look at the roots leaves it as it was.
fn signs(start: &Start) -> Vec<String> {
    let last = start.check_ins.last();
    last.map(|look| look.what.signs.clone()).unwrap_or_default()
}

fn seen(start: pegline_core::journal::Ulid, look: details::CheckIn) -> Draft {
    Draft { about: About::start(start), what: What::CheckIn(look) }
}
