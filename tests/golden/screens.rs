//! Every screen, in both systems of units: those of the invented garden on the day on which its
//! record ends, those of an empty one, and there each question refused and answered.

use std::collections::{BTreeSet, VecDeque};

use pegline_core::{catalogue::crops, journal::file};
use pegline_web::{
    Now,
    app::App,
    screen::ask::{About, QUESTIONS},
    store::Store,
};
use serde_json::{Value, json};

use crate::{
    examples::of_no_garden,
    kept::{Texts, hold},
};

const TODAY: &str = "2026-11-25";

/// So many of a topic's examples are shown on its screen.
const ANSWERED: usize = 2;

#[test]
fn every_screen_is_as_kept_in_inches() {
    hold("us", &screens("us"));
}

#[test]
fn every_screen_is_as_kept_in_centimetres() {
    hold("metric", &screens("metric"));
}

fn screens(units: &str) -> Texts {
    let mut texts = Texts::new();
    invented(&mut Page::open(TODAY, units, true), &mut texts);
    empty(&mut Page::open(TODAY, units, false), &mut texts);
    answered(units, &mut texts);
    texts
}

/// All that can be reached by links. Of the entries, one of each kind with the same fields.
fn invented(page: &mut Page, texts: &mut Texts) {
    let of_beds = QUESTIONS.iter().filter(|question| question.of != About::NoBed);
    let seeds = of_beds.map(|question| format!("#/ask/{}/quince-bed", question.topic));
    let entries = one_of_each_kind(&page.app);
    for (address, text) in page.crawl(seeds) {
        let name = match address.strip_prefix("#/book/") {
            None => file_name("", &address),
            Some(entry) if entries.contains(entry) => file_name("", &address),
            Some(_) => continue,
        };
        texts.insert(name, text);
    }
}

/// The same of an empty record; what must be asked with something in it is asked with nothing.
fn empty(page: &mut Page, texts: &mut Texts) {
    for (address, text) in page.crawl([]) {
        texts.insert(file_name("empty_", &address), text);
    }
    for question in QUESTIONS {
        page.go(&format!("#/ask/{}", question.topic));
        let text = page.event("submit", "answer", &json!({}));
        if page.app.answer().is_none() {
            texts.insert(format!("refused_{}.txt", question.topic), text);
        }
    }
    for (address, action) in [("#/beds/new", "save-bed"), ("#/starts/new", "sow")] {
        page.go(address);
        let text = page.event("submit", action, &json!({}));
        texts.insert(file_name("refused_", address), text);
    }
}

/// Each question's first examples that are answered, as they stand in its form.
fn answered(units: &str, texts: &mut Texts) {
    let examples: Vec<Value> = of_no_garden().into_iter().map(|example| example.question).collect();
    for question in QUESTIONS {
        let mut shown = 0;
        for example in examples.iter().filter(|example| example["topic"] == question.topic) {
            if shown == ANSWERED {
                break;
            }
            let mut fields = example.as_object().unwrap().clone();
            let today = fields.remove("today");
            fields.retain(|name, _| name != "topic" && name != "units");
            let today = today.as_ref().and_then(Value::as_str).unwrap_or(TODAY);
            let mut page = Page::open(today, units, false);
            page.go(&format!("#/ask/{}", question.topic));
            let text = page.event("submit", "answer", &fields.into());
            if page.app.answer().is_some() {
                shown += 1;
                texts.insert(format!("answered_{}_{shown}.txt", question.topic), text);
            }
        }
        assert_eq!(shown, ANSWERED, "of the examples of {}", question.topic);
    }
}

/// The ids of the first entry of each kind with the same fields.
fn one_of_each_kind(app: &App) -> BTreeSet<String> {
    let mut seen = BTreeSet::new();
    let record: Value = serde_json::from_str(&file::write(app.journal())).unwrap();
    let entries = record["entries"].as_array().unwrap().iter();
    let fresh = entries.filter(|entry| {
        let fields = ["about", "what"].map(|part| {
            entry[part].as_object().map(|part| part.keys().cloned().collect::<Vec<_>>())
        });
        seen.insert((entry["kind"].to_string(), fields))
    });
    fresh.map(|entry| entry["id"].as_str().unwrap().to_owned()).collect()
}

/// The page of one phone, at one moment.
struct Page {
    app: App,
    now: Now,
}

impl Page {
    fn open(today: &str, units: &str, invented: bool) -> Self {
        let local: chrono::NaiveDateTime = format!("{today}T08:00:00").parse().unwrap();
        let millis = u64::try_from(local.and_utc().timestamp_millis()).unwrap();
        let now = Now { local, millis, random: [7; 10] };
        let mut page = Self { app: App::new(Store::memory(), now), now };
        if invented {
            page.event("click", "demo", &json!({}));
        }
        if units == "metric" {
            page.go("#/settings");
            page.event("submit", "save-settings", &json!({"units": units}));
        }
        page
    }

    /// What the page shows then, one tag or text a line.
    fn event(&mut self, name: &str, action: &str, fields: &Value) -> String {
        let page = self.app.event(name, action, fields, self.now).into_string();
        let parted = page.replace('<', "\n<").replace('>', ">\n").replace("\n\n", "\n");
        let parted = parted.replace("\n</option>", "</option>");
        parted.trim_start().replace(&offered_crops(), "")
    }

    fn go(&mut self, address: &str) -> String {
        self.event("route", address, &Value::Null)
    }

    /// Every screen that links lead to, and these, each once.
    fn crawl(&mut self, seeds: impl IntoIterator<Item = String>) -> Vec<(String, String)> {
        let mut ahead: VecDeque<String> = ["#/".to_owned()].into_iter().chain(seeds).collect();
        let (mut known, mut screens) = (BTreeSet::new(), Vec::new());
        while let Some(address) = ahead.pop_front() {
            if known.insert(address.clone()) {
                let text = self.go(&address);
                let links = text.split("href=\"").skip(1).filter_map(|link| link.split('"').next());
                ahead.extend(links.filter(|link| link.starts_with("#/")).map(str::to_owned));
                screens.push((address, text));
            }
        }
        screens
    }
}

/// What forms offer where they ask for a crop. It would be a quarter of all that is kept.
fn offered_crops() -> String {
    let offered =
        crops().iter().map(|crop| format!("<option value=\"{}\"></option>\n", crop.name()));
    offered.collect()
}

/// `#/bed/fence-bed/change` is `bed_fence-bed_change.txt`.
fn file_name(before: &str, address: &str) -> String {
    let path = address.trim_start_matches("#/").replace('/', "_");
    let path = if path.is_empty() { "ask" } else { &path };
    format!("{before}{path}.txt")
}
