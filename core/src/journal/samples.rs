//! Entries for tests: one of each kind, and records made by chance.

use super::{entry::Entry, id::Ulid, merge::Journal, read_entry};
use proptest::prelude::*;

/// The text of an entry, from its number, minutes after the start of 2026-03-01, and the rest.
pub(crate) fn entry_text(id: u128, minute: u32, rest: &str) -> String {
    let (day, hour, minute) = (1 + minute / 1440, minute / 60 % 24, minute % 60);
    let id = Ulid(id);
    format!(r#"{{"v":1,"id":"{id}","when":"2026-03-{day:02}T{hour:02}:{minute:02}",{rest}}}"#)
}

/// A note in so many words.
pub(crate) fn note(id: u128, words: &str) -> String {
    entry_text(id, 510, &format!(r#""kind":"note","what":{{"text":"{words}"}}"#))
}

/// An entry that must be good.
pub(crate) fn entry(id: u128, minute: u32, rest: &str) -> Entry {
    let text = entry_text(id, minute, rest);
    read_entry(&text).unwrap_or_else(|why| panic!("{text}: {why}"))
}

/// One of each kind with most of its fields; `$` and `%` stand for the ids of others.
pub(crate) const KINDS: &[&str] = &[
    r#""kind":"bed","about":{"bed":"fence"},"what":{"bed":{"drip":{"emitter_spacing":"9 in","lines":4},"length":"8 ft","width":"4 ft"},"name":"Fence bed"}"#,
    r#""kind":"bed","about":{"bed":"fence"},"what":{"gone":true}"#,
    r#""kind":"bed","about":{"bed":"shed"},"what":{"name":"By the shed"}"#,
    r#""kind":"place","what":{"last_frost":"04-20","latitude":"45.5"}"#,
    r#""kind":"place","what":{"latitude":null,"soil":"loam"}"#,
    r#""kind":"settings","what":{"nerve":25,"units":"metric"}"#,
    r#""kind":"settings","what":{"units":"us","wheelbarrow":"0.1 m3"}"#,
    r#""kind":"start-sown","what":{"container":"24 cells","count":24,"crop":"cabbage","name":"Tray A","spot":"sill","variety":"Early Round"}"#,
    r#""kind":"start-pricked-out","about":{"start":"$"},"what":{"container":"4 in pots","count":20}"#,
    r#""kind":"start-moved","about":{"start":"$"},"what":{"spot":"cold-frame"}"#,
    r#""kind":"start-lost","about":{"start":"$"},"what":{"count":2,"why":"slugs"}"#,
    r#""kind":"start-lost","about":{"start":"$"},"what":{}"#,
    r#""kind":"planted","about":{"bed":"fence","start":"$"},"what":{"at":"L1:1-11x6","count":6,"crop":"cabbage","spacing":"18 in"}"#,
    r#""kind":"planted","about":{"bed":"shed"},"what":{"count":140,"crop":"garlic"}"#,
    r#""kind":"seeded","about":{"bed":"fence"},"what":{"at":"25.4:0-2286x31","crop":"radish","depth":"1/2 in","seeds":60}"#,
    r#""kind":"residue-laid","about":{"bed":"fence"},"what":{"chop":"hand","flags":["running"],"materials":[{"amount":"2 buckets","residue":"pea-vines-green","state":"fresh"}],"part":"left half","placement":"on-top"}"#,
    r#""kind":"check-in","about":{"bed":"fence"},"what":{"left":0.5,"part":"left half","slugs":1.0}"#,
    r#""kind":"check-in","about":{"start":"$"},"what":{"leaves":4,"roots":"holding"}"#,
    r#""kind":"check-in","about":{"planting":"$"},"what":{"up":0.8}"#,
    r#""kind":"check-in","about":{"planting":"$"},"what":{"stage":"5 prime, 3 past"}"#,
    r#""kind":"reading","about":{"bed":"shed"},"what":{"depth":"4 in","low":"29 F","soil":"48 F"}"#,
    r#""kind":"reading","what":{"high":"70 F","low":"36 F","spot":"greenhouse"}"#,
    r#""kind":"covered","about":{"bed":"fence"},"what":{"count":2,"cover":"light-sheet"}"#,
    r#""kind":"uncovered","about":{"bed":"fence"},"what":{}"#,
    r#""kind":"frost-seen","about":{"bed":"fence"},"what":{"crop":"radish","harm":"some","low":"27 F"}"#,
    r#""kind":"hardening-done","about":{"start":"$"},"what":{"hours":2.5,"night":"in"}"#,
    r#""kind":"harvest","about":{"bed":"fence"},"what":{"amount":"3 heads","crop":"cabbage","plants":3,"stage":"prime"}"#,
    r#""kind":"harvest","about":{"planting":"$"},"what":{"all":true}"#,
    r#""kind":"cleared","about":{"bed":"fence"},"what":{"how":"pulled"}"#,
    r#""kind":"cleared","about":{"bed":"fence"},"what":{"crop":"radish"}"#,
    r#""kind":"cleared","about":{"planting":"$"},"what":{"plants":1}"#,
    r#""kind":"watered","about":{"bed":"fence"},"what":{"minutes":40.0}"#,
    r#""kind":"fed","about":{"start":"$"},"what":{"amount":"1 l","product":"fish emulsion"}"#,
    r#""kind":"reserved","about":{"bed":"shed"},"what":{"crop":"garlic","from":"2026-10-01","until":"2026-11-15"}"#,
    r#""kind":"note","about":{"bed":"fence"},"what":{"text":"mice"}"#,
    r#""kind":"struck-out","what":{"target":"$"}"#,
    r#""kind":"corrected","what":{"target":"$","when":"2026-03-09T07:00"}"#,
    r#""kind":"corrected","what":{"about":{"bed":"shed"},"target":"$"}"#,
    r#""kind":"corrected","what":{"target":"$","what":{"count":9,"crop":"kale"}}"#,
    r#""kind":"corrected","what":{"over":["%"],"set":{"count":null,"crop":"leek"},"target":"$"}"#,
    r#""kind":"corrected","what":{"over":["%"],"set":{"count":3},"target":"$"}"#,
];

/// How many of them are second thoughts.
const SECOND_THOUGHTS: usize = 6;

/// How many different ids chance picks from: few, so that entries meet.
const IDS: u128 = 24;

/// The rest of an entry that speaks of two others.
fn about(rest: &str, one: u128, other: u128) -> String {
    rest.replace('$', &Ulid(one).to_string()).replace('%', &Ulid(other).to_string())
}

prop_compose! {
    /// An entry that is good, about other entries that may exist.
    pub(crate) fn any_good_text()(
        id in 1..IDS, other in 1..IDS, third in 1..IDS, minute in 0..28 * 1440u32, kind in 0..KINDS.len(),
    ) -> String {
        entry_text(id, minute, &about(KINDS[kind], other, third))
    }
}

prop_compose! {
    /// A strike-out or a correction, so that chains of them come about.
    pub(crate) fn any_second_thought()(
        id in 1..IDS, other in 1..IDS, third in 1..IDS, minute in 0..28 * 1440u32,
        kind in KINDS.len() - SECOND_THOUGHTS..KINDS.len(),
    ) -> String {
        entry_text(id, minute, &about(KINDS[kind], other, third))
    }
}

/// Any text that may turn up where an entry should be; always JSON.
pub(crate) fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        8 => any_good_text(),
        2 => any_second_thought(),
        1 => any_good_text().prop_map(|text| text.replace("\"v\":1", "\"v\":2")),
        1 => any_good_text().prop_map(|text| text.replace("\"kind\":\"", "\"kind\":\"x")),
        1 => any_good_text().prop_map(|text| text.replace("\"when\"", " \n\"wen\"")),
        1 => (1..IDS).prop_map(|id| format!(r#"{{"id":"{}"}}"#, Ulid(id))),
        1 => (0..9u8).prop_map(|n| format!("[{n}]")),
    ]
}

/// Any record.
pub(crate) fn any_journal() -> impl Strategy<Value = Journal> {
    prop::collection::vec(any_text(), 0..16).prop_map(|texts| {
        let mut journal = Journal::default();
        for text in texts {
            journal.add(&text);
        }
        journal
    })
}
