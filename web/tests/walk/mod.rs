//! A way through the screens, without a browser. What only one file of tests does, it adds itself.

use chrono::{NaiveDateTime, TimeDelta};
use pegline_web::{Now, app::App, store::Store};
use serde_json::Value;

/// One phone and the page it shows.
pub(crate) struct Walk {
    pub(crate) app: App,
    pub(crate) local: NaiveDateTime,
    pub(crate) page: String,
}

impl Walk {
    /// Opened without a record at this local time, as in `2026-11-25T08:00:00`.
    pub(crate) fn at(local: &str) -> Self {
        let local = local.parse().unwrap();
        let mut walk =
            Self { app: App::new(Store::memory(), now(local)), local, page: String::new() };
        walk.go("#/");
        walk
    }

    /// What the page's script would send, a minute after the last.
    pub(crate) fn event(&mut self, name: &str, action: &str, fields: &Value) {
        self.local += TimeDelta::minutes(1);
        let page = self.app.event(name, action, fields, now(self.local));
        self.page = page.into_string();
    }

    pub(crate) fn go(&mut self, to: &str) {
        self.event("route", to, &Value::Null);
    }

    #[track_caller]
    pub(crate) fn sees(&self, words: &str) {
        let page = &self.page;
        assert!(page.contains(words), "{words} is not on the page:\n{page}");
    }

    #[track_caller]
    pub(crate) fn lacks(&self, words: &str) {
        let page = &self.page;
        assert!(!page.contains(words), "{words} is on the page:\n{page}");
    }
}

pub(crate) fn now(local: NaiveDateTime) -> Now {
    Now {
        local,
        millis: u64::try_from(local.and_utc().timestamp_millis()).unwrap(),
        random: [7; 10],
    }
}
