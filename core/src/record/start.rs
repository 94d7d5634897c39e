//! Trays: sown, looked at, moved on, got used to outdoors, come to an end.

use chrono::{NaiveDate, NaiveDateTime};
use serde_json::Value;

use crate::{
    catalogue::KnownCrop,
    garden::Start,
    given::{Faults, FromGiven, Given, Refusal, Text, asked},
    journal::{About, Draft, What, details},
    quantity::Temperature,
    starts::{age::Roots, hardening::Night, tray_asked::Sign},
    topics::hardening_plan::HoursOut,
    words::spot::Spot,
};

asked! {
    /// What the form of a new tray holds.
    pub(super) struct Sown {
        /// The crop.
        crop: Given<KnownCrop> = "Crop",
        /// The variety.
        variety: Given<Text> = "Variety",
        /// What the gardener calls it.
        name: Given<Text> = "Its name",
        /// How many cells.
        count: Given<u32> = "How many plants",
        /// What it was sown in.
        container: Given<Text> = "In what",
        /// Where it stands.
        spot: Given<Spot> = "Where it stands",
        /// How warm it is kept.
        warmth: Given<Temperature> = "Mean of day and night, if you know",
        /// The day it was sown; today if absent.
        on: Given<NaiveDate> = "Sown, if not today",
    }
}

asked! {
    /// What is seen on a tray.
    pub(super) struct Look {
        /// True leaves.
        leaves: Given<u32> = "True leaves",
        /// Roots of a plug slid out.
        roots: Given<Roots> = "Roots, plug slid out",
        /// Long and thin.
        leggy: Given<bool>,
        /// Two or more in a cell.
        doubled: Given<bool>,
        /// Buds or flowers.
        budding: Given<bool>,
        /// Lower leaves yellow.
        yellow: Given<bool>,
        /// Leaves a hand wide or stems like a pencil.
        large: Given<bool>,
    }
}

asked! {
    /// What is done with a tray; each form of its page fills in some of it.
    pub(super) struct Done {
        /// How many.
        count: Given<u32> = "How many",
        /// What they stand in.
        container: Given<Text> = "Into what",
        /// Where it stands.
        spot: Given<Spot> = "Where it stands now",
        /// What took them.
        why: Given<Text> = "Why",
        /// Hours outdoors.
        hours: Given<HoursOut> = "Hours outdoors",
        /// Where the night was spent.
        night: Given<Night> = "Night after",
        /// Whether plants were hurt.
        damage: Given<bool> = "Wilted, bleached or burnt",
    }
}

/// A tray as it was sown: the draft, the moment it happened, and what was seen on it now.
#[derive(Clone, Debug, PartialEq)]
pub struct NewTray {
    /// The sowing.
    pub sown: Draft,
    /// When.
    pub when: NaiveDateTime,
    /// What was seen, if anything was told; it belongs to the start that the sowing begins.
    pub look: Option<details::CheckIn>,
}

/// The most plants a tray is believed to hold.
const MOST_PLANTS: u32 = 5000;

fn text(given: &Given<Text>, faults: &mut Faults) -> Option<String> {
    given.read(faults).map(|Text(text)| text)
}

fn spot(given: &Given<Spot>, faults: &mut Faults) -> Option<String> {
    given.read(faults).map(|spot| spot.word().to_owned())
}

/// The tray that a form describes, sown today where it does not say when.
///
/// # Errors
/// Every field that can't be read, named `sown.…` and `look.…` as on the form.
pub fn new_tray(form: &Value, now: NaiveDateTime) -> Result<NewTray, Refusal> {
    let mut faults = Faults::default();
    let given = Sown::from_given(form.get("sown"), "sown", &mut faults);
    let crop = given.crop.need(&mut faults);
    // What is written down is not guessed.
    for meant in faults.take_meant() {
        faults.add(&meant.field, &meant.given, meant.choices(), "no crop is called just that");
    }
    let plants = "1 to 5000 plants";
    let count = given.count.within(1, MOST_PLANTS, plants, &mut faults);
    let on = given.on.read(&mut faults).unwrap_or(now.date());
    let days = (now.date() - on).num_days();
    if !(0..730).contains(&days) {
        let why = if days < 0 { "that day has not come yet" } else { "no tray is that old" };
        given.on.refuse(&mut faults, "today or a day of the two years before", why);
    }
    given.warmth.read(&mut faults);
    let what = details::StartSown {
        crop: crop.map_or_else(String::new, |KnownCrop(crop)| crop.id().to_owned()),
        variety: text(&given.variety, &mut faults),
        name: text(&given.name, &mut faults),
        count,
        container: text(&given.container, &mut faults),
        spot: spot(&given.spot, &mut faults),
        warmth: given.warmth.text().map(str::to_owned),
        seed_year: None,
    };
    let look = read_look(form, &mut faults);
    // A day past is taken at noon.
    let when = if days == 0 { now } else { on.and_hms_opt(12, 0, 0).unwrap_or(now) };
    faults.or_refuse(Some(NewTray {
        sown: Draft { about: About::default(), what: What::StartSown(what) },
        when,
        look,
    }))
}

/// What was seen; `None` where nothing was told.
fn read_look(form: &Value, faults: &mut Faults) -> Option<details::CheckIn> {
    let given = Look::from_given(form.get("look"), "look", faults);
    let leaves = given.leaves.within(0, 60, "0 to 60 leaves", faults);
    let roots = given.roots.read(faults);
    let seen = [
        (&given.leggy, Sign::Leggy),
        (&given.doubled, Sign::Doubled),
        (&given.budding, Sign::Budding),
        (&given.yellow, Sign::Yellow),
        (&given.large, Sign::Large),
    ];
    let mut signs = Vec::new();
    for (given, sign) in seen {
        if given.read(faults) == Some(true) {
            signs.push(sign.word().to_owned());
        }
    }
    let look = details::CheckIn {
        leaves,
        roots: roots.map(|roots| roots.word().to_owned()),
        signs,
        ..details::CheckIn::default()
    };
    (look != details::CheckIn::default()).then_some(look)
}

/// What was last seen on a tray, as the form of a look holds it: field and text.
pub fn last_look(start: &Start) -> Vec<(&'static str, String)> {
    let Some(last) = start.check_ins.last().map(|look| &look.what) else {
        return Vec::new();
    };
    let mut fields = Vec::new();
    for (field, sign) in [
        ("look.leggy", Sign::Leggy),
        ("look.doubled", Sign::Doubled),
        ("look.budding", Sign::Budding),
        ("look.yellow", Sign::Yellow),
        ("look.large", Sign::Large),
    ] {
        if last.signs.iter().any(|seen| seen == sign.word()) {
            fields.push((field, "yes".to_owned()));
        }
    }
    fields
}

/// The draft of what was done with a tray: `look`, `pricked`, `moved`, `lost` or `day`, the name of the
/// form's group of fields.
///
/// # Errors
/// Every field that can't be read, named `lost.count` and the like as on the form.
pub fn tray(done: &str, form: &Value, start: &Start) -> Result<Draft, Refusal> {
    let mut faults = Faults::default();
    let what = read_done(done, form, start, &mut faults);
    faults.or_refuse(what.map(|what| Draft { about: About::start(start.id), what }))
}

fn read_done(done: &str, form: &Value, start: &Start, faults: &mut Faults) -> Option<What> {
    if done == "look" {
        let look = read_look(form, faults);
        if look.is_none() && faults.is_empty() {
            faults.add("look.leaves", "", "at least one thing seen", "nothing was looked at");
        }
        return look.map(What::CheckIn);
    }
    let given = Done::from_given(form.get(done), done, faults);
    let count = match start.left.filter(|_| done == "lost") {
        None => given.count.within(1, MOST_PLANTS, "1 to 5000 plants", faults),
        Some(left) => {
            let few = format!("1 to {left}, as many as are left");
            given.count.within(1, left, &few, faults)
        }
    };
    Some(match done {
        "pricked" => What::StartPrickedOut(details::StartPrickedOut {
            count,
            container: text(&given.container, faults),
        }),
        "moved" => {
            given.spot.need(faults);
            What::StartMoved(details::StartMoved {
                spot: spot(&given.spot, &mut Faults::default())?,
            })
        }
        "lost" => What::StartLost(details::StartLost { count, why: text(&given.why, faults) }),
        _ => {
            let hours = given.hours.need(faults)?;
            What::HardeningDone(details::HardeningDone {
                hours: Some(hours.0),
                night: given.night.read(faults).map(|night| night.word().to_owned()),
                damage: given.damage.read(faults).unwrap_or(false),
            })
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        garden::Garden,
        journal::{Journal, samples::entry_text},
        time::iso::read_when,
    };
    use serde_json::json;

    fn now() -> NaiveDateTime {
        read_when("2026-11-25T08:00").unwrap()
    }

    fn fields(refusal: &Refusal) -> Vec<&str> {
        refusal.refused.iter().map(|fault| fault.field.as_str()).collect()
    }

    fn start() -> Start {
        let mut journal = Journal::default();
        journal.add(&entry_text(1, 0, r#""kind":"start-sown","what":{"crop":"kale","count":24}"#));
        Garden::fold(&journal).starts.remove(0)
    }

    #[test]
    fn a_tray_is_written_on_the_day_it_was_sown_with_its_looks_of_today() {
        let form = json!({
            "sown": {"crop": "Cabbage", "variety": "Blue Peg", "count": "18", "container": "2 in cells",
                     "spot": "unheated-greenhouse", "on": "2026-10-11"},
            "look": {"leaves": "4", "roots": "holding", "leggy": "yes", "doubled": "no"},
        });
        let tray = new_tray(&form, now()).unwrap();
        assert_eq!(tray.when, read_when("2026-10-11T12:00").unwrap());
        assert_eq!(tray.sown.check(), []);
        let What::StartSown(sown) = &tray.sown.what else { panic!("not sown") };
        assert_eq!((sown.crop.as_str(), sown.count), ("cabbage", Some(18)));
        let look = tray.look.unwrap();
        assert_eq!((look.leaves, look.signs), (Some(4), vec!["leggy".to_owned()]));
        let bare = new_tray(&json!({"sown": {"crop": "leek"}}), now()).unwrap();
        assert_eq!((bare.when, bare.look), (now(), None));
    }

    #[test]
    fn faults_of_a_new_tray_are_told_together() {
        let form = json!({"sown": {"crop": "cabage", "count": "0", "on": "2027-01-01", "spot": "moon"}, "look": {"leaves": "many"}});
        let refusal = new_tray(&form, now()).unwrap_err();
        let mut fields = fields(&refusal);
        fields.sort_unstable();
        assert_eq!(fields, ["look.leaves", "sown.count", "sown.crop", "sown.on", "sown.spot"]);
        let several = new_tray(&json!({"sown": {"crop": "lettuce"}}), now()).unwrap_err();
        assert_eq!(several.refused[0].allowed, "leaf lettuce or head lettuce");
    }

    #[test]
    fn no_more_plants_are_lost_than_there_are() {
        let lost = |count: &str| {
            tray("lost", &json!({"lost": {"count": count, "why": "slugs"}}), &start())
        };
        assert_eq!(fields(&lost("25").unwrap_err()), ["lost.count"]);
        assert_eq!(lost("24").unwrap().check(), []);
    }

    #[test]
    fn each_form_of_a_tray_writes_its_own_kind() {
        for (done, form, kind) in [
            ("look", json!({"look": {"roots": "circling"}}), "check-in"),
            (
                "pricked",
                json!({"pricked": {"count": "20", "container": "3 in pots"}}),
                "start-pricked-out",
            ),
            ("moved", json!({"moved": {"spot": "cold-frame"}}), "start-moved"),
            ("lost", json!({"lost": {"why": "given away"}}), "start-lost"),
            (
                "day",
                json!({"day": {"hours": "5", "night": "in", "damage": "yes"}}),
                "hardening-done",
            ),
        ] {
            let draft = tray(done, &form, &start()).unwrap();
            assert_eq!((draft.what.kind(), draft.check()), (kind, vec![]));
        }
        for (done, field) in
            [("look", "look.leaves"), ("moved", "moved.spot"), ("day", "day.hours")]
        {
            assert_eq!(fields(&tray(done, &json!({}), &start()).unwrap_err()), [field]);
        }
    }
}
