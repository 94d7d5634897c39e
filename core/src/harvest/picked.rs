//! What was picked, as it is written down: how much, of which variety, at what stage, and whether all.

use serde_json::Value;

use super::cues::sheets_of;
use crate::{
    catalogue,
    given::{Fault, Refusal},
    journal::{Draft, What, details},
    quantity::{
        System,
        number::{read_number, show_number},
    },
};

/// In what an amount is counted: the word that stands for it, one of it, many of it.
const COUNTED_IN: [[&str; 3]; 6] = [
    ["pieces", "", ""],
    ["handful", "handful", "handfuls"],
    ["colander", "colander", "colanders"],
    ["bucket", "bucket", "buckets"],
    ["lb", "lb", "lb"],
    ["kg", "kg", "kg"],
];

/// What an amount can be counted in, as (word, what is said): pieces by the crop's own name for them first.
pub fn counted_in(many: &'static str, system: System) -> Vec<(&'static str, &'static str)> {
    let other = if system == System::Us { "kg" } else { "lb" };
    COUNTED_IN
        .iter()
        .filter(|[word, ..]| *word != other)
        .map(|[word, _, words]| (*word, if words.is_empty() { many } else { *words }))
        .collect()
}

/// The entries that write down a picking: the draft of an answer, with what the form tells beside it
/// (`number`, `of`, `variety`). `all`: nothing is left to pick; where the plant itself is taken, as
/// with cabbage and garlic, it is out of the bed then.
///
/// # Errors
/// The field of the form that can't be read.
pub fn picked(offered: &Draft, form: &Value, all: bool) -> Result<Vec<Draft>, Refusal> {
    let text = |name: &str| form.get(name).and_then(Value::as_str).unwrap_or_default().trim();
    let What::Harvest(harvest) = &offered.what else {
        return Ok(vec![offered.clone()]);
    };
    let mut harvest = harvest.clone();
    harvest.all = all;
    if !text("variety").is_empty() {
        harvest.variety = Some(text("variety").to_owned());
    }
    let sheet = harvest
        .crop
        .as_deref()
        .and_then(|crop| catalogue::crop(crop).ok())
        .and_then(|crop| sheets_of(crop).first().copied());
    let whole = sheet.is_some_and(super::cues::Sheet::is_whole_plant);
    if !text("number").is_empty() || !matches!(text("of"), "" | "pieces") {
        let number = match text("number") {
            "" => 1.0,
            given => read_number(given)
                .ok()
                .filter(|number| (0.0..=100_000.0).contains(number))
                .ok_or_else(|| {
                    Refusal::of(
                        "entry.number",
                        given,
                        "a number such as 3 or 1 1/2",
                        "no amount can be read from it",
                    )
                })?,
        };
        let pieces = [
            "pieces",
            sheet.map_or("piece", |it| it.one()),
            sheet.map_or("pieces", |it| it.many()),
        ];
        let [word, one, many] = *COUNTED_IN
            .iter()
            .find(|[word, one, _]| *word == text("of") && !one.is_empty())
            .unwrap_or(&pieces);
        #[expect(clippy::float_cmp, reason = "exactly one is singular, and it is read exactly")]
        let noun = if number == 1.0 { one } else { many };
        harvest.amount = Some(format!("{} {noun}", show_number(number, 2)));
        // A root or a head is the plant itself.
        if word == "pieces" && whole && !all && number >= 1.0 && number.fract() == 0.0 {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number from 1 to 100 000"
            )]
            let plants = number as u32;
            harvest.plants = Some(plants);
        }
    }
    let cleared = details::Cleared {
        crop: harvest.crop.clone(),
        how: Some("picked".to_owned()),
        ..details::Cleared::default()
    };
    let mut drafts = vec![Draft { about: offered.about.clone(), what: What::Harvest(harvest) }];
    drafts.extend(
        (all && whole)
            .then(|| Draft { about: offered.about.clone(), what: What::Cleared(cleared) }),
    );
    if let Some(fault) = drafts.iter().flat_map(Draft::check).next() {
        return Err(Refusal {
            refused: vec![Fault {
                field: "entry.variety".to_owned(),
                given: String::new(),
                allowed: "something shorter".to_owned(),
                why: fault.why,
            }],
        });
    }
    Ok(drafts)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::journal::{About, details::Harvest};

    fn offered(crop: &str) -> Draft {
        Draft {
            about: About::bed("fence"),
            what: What::Harvest(Harvest {
                crop: Some(crop.to_owned()),
                stage: Some("prime".to_owned()),
                ..Harvest::default()
            }),
        }
    }

    fn amount(crop: &str, form: &Value) -> Option<String> {
        match &picked(&offered(crop), form, false).unwrap()[0].what {
            What::Harvest(harvest) => harvest.amount.clone(),
            _ => None,
        }
    }

    #[test]
    fn amounts_are_written_as_they_are_said() {
        let said =
            |number: &str, of: &str| amount("bean-snap-bush", &json!({"number": number, "of": of}));
        assert_eq!(said("", "colander").as_deref(), Some("1 colander"));
        assert_eq!(said("2", "handful").as_deref(), Some("2 handfuls"));
        assert_eq!(said("1 1/2", "lb").as_deref(), Some("1.5 lb"));
        assert_eq!(said("1", "pieces").as_deref(), Some("1 pod"));
        assert_eq!(said("12", "").as_deref(), Some("12 pods"));
        assert_eq!(said("", "pieces"), None);
        assert_eq!(
            picked(&offered("kale"), &json!({"number": "lots"}), false).unwrap_err().refused[0]
                .field,
            "entry.number"
        );
    }

    #[test]
    fn a_head_taken_is_a_plant_less_and_a_pod_is_not() {
        let plants =
            |crop| match &picked(&offered(crop), &json!({"number": "3"}), false).unwrap()[0].what {
                What::Harvest(harvest) => harvest.plants,
                _ => None,
            };
        assert_eq!(plants("cabbage"), Some(3));
        assert_eq!(plants("garlic"), Some(3));
        assert_eq!(plants("bean-snap-bush"), None);
        // Heading broccoli gives side shoots after the cut.
        assert_eq!(plants("broccoli"), None);
    }

    #[test]
    fn all_of_a_root_crop_is_out_of_the_bed_and_all_of_the_beans_is_not() {
        let kinds = |crop| -> Vec<&str> {
            picked(&offered(crop), &json!({"variety": "Blue Peg"}), true)
                .unwrap()
                .iter()
                .map(|draft| draft.what.kind())
                .collect()
        };
        assert_eq!(kinds("garlic"), ["harvest", "cleared"]);
        assert_eq!(kinds("bean-snap-bush"), ["harvest"]);
    }
}
