//! The one door: a question in, an answer or a refusal out.
//!
//! The door knows which topic a question belongs to and hands it over; it names no topic's field.
//! Adding a topic is one line in [`topics!`] and a module that has `Asked`, `Answer` and `answer`.

#[cfg(feature = "schema")]
mod schema;

use std::rc::Rc;

use chrono::NaiveDate;
use serde_json::{Map, Value};

use crate::{
    asking::{Asking, Topic},
    garden::Garden,
    given::{Control, Faults, FromGiven, Given, Meant, ReadBy, Readable, Refusal, asked},
    quantity::System,
    telling::Telling,
    turns::{Pace, Turns, at_once},
};

#[cfg(feature = "schema")]
pub use schema::schema;

asked! {
    /// What every question has.
    struct Common {
        /// The topic's name.
        topic: Given<Topic>,
        /// Today's date.
        today: Given<NaiveDate>,
        /// The system of units that the answer's words are printed in; the garden's own if absent.
        units: Given<System>,
    }
}

/// An answer: its topic, what is told, and the topic's own typed numbers.
#[derive(Clone, Debug, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The topic that was asked.
    pub topic: Topic,
    /// The words.
    #[serde(flatten)]
    pub telling: Telling,
    /// The numbers.
    #[serde(flatten)]
    pub of: Of,
    /// Names that were taken for others; absent where there are none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub meant: Vec<Meant>,
}

/// A topic's own answer; one that may take long is worked out in turns.
macro_rules! answered {
    (in_turns $($room:ident)::+, $asked:expr, $asking:expr, $faults:expr, $pace:expr) => {
        crate::$($room)::+::answer($asked, $asking, $faults, $pace).await
    };
    ($($room:ident)::+, $asked:expr, $asking:expr, $faults:expr, $pace:expr) => {
        crate::$($room)::+::answer($asked, $asking, $faults)
    };
}

/// Each topic answered by its own room.
macro_rules! hand_over {
    ($($(#[$doc:meta])* $name:ident = $word:literal in $($room:ident)::+ $(, $turns:ident)?;)*) => {
        /// The typed numbers of an answer, by topic.
        #[derive(Clone, Debug, serde::Serialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(untagged)]
        #[allow(clippy::large_enum_variant, reason = "one answer is held at a time")]
        pub enum Of { $($(#[$doc])* $name(crate::$($room)::+::Answer)),* }

        /// Hands the question's own fields to its topic.
        async fn hand_over(
            topic: Topic,
            fields: &Value,
            asking: &Asking<'_>,
            faults: &mut Faults,
            pace: &Pace,
        ) -> Option<(Telling, Of)> {
            match topic {
                $(Topic::$name => {
                    let asked = FromGiven::from_given(Some(fields), "", faults);
                    answered!($($turns)? $($room)::+, &asked, asking, faults, pace)
                        .map(|(telling, answer)| (telling, Of::$name(answer)))
                })*
            }
        }

        /// A topic's own fields, as its form shows them.
        pub fn fields(topic: &str) -> Control {
            match Topic::read(topic) {
                $(Ok(Topic::$name) => <crate::$($room)::+::Asked as FromGiven>::CONTROL,)*
                Err(_) => Control::Group(&[]),
            }
        }

        /// The schema of each topic's own fields and of its answer's.
        #[cfg(feature = "schema")]
        pub(crate) fn schemas(
            with: &mut schemars::SchemaGenerator,
        ) -> Vec<(Topic, schemars::Schema, schemars::Schema)> {
            vec![$((
                Topic::$name,
                with.subschema_for::<crate::$($room)::+::Asked>(),
                with.subschema_for::<crate::$($room)::+::Answer>(),
            )),*]
        }
    };
}

crate::asking::topics!(hand_over);

/// Answers a question, or refuses it naming every field that can't be read.
///
/// `garden` may be empty: every topic answers from its own fields alone.
///
/// # Errors
/// The refusal, with all faults at once.
pub fn ask(question: &Value, garden: &Garden) -> Result<Answer, Refusal> {
    at_once(async |pace: &Pace| reply(question, garden, pace).await)
}

/// [`ask`], in turns: nearly every question is answered in the first.
pub fn ask_in_turns(question: Value, garden: Rc<Garden>) -> Turns<Result<Answer, Refusal>> {
    Turns::new(async move |pace: &Pace| reply(&question, &garden, pace).await)
}

async fn reply(question: &Value, garden: &Garden, pace: &Pace) -> Result<Answer, Refusal> {
    let Value::Object(fields) = question else {
        return Err(Refusal::of("", "", "a question with a topic", "this is no group of fields"));
    };
    let (mut common, mut own) = (Map::new(), fields.clone());
    for name in ["topic", "today", "units"] {
        common.extend(own.remove_entry(name));
    }
    let mut faults = Faults::default();
    let common = Common::from_given(Some(&Value::Object(common)), "", &mut faults);
    let topic = common.topic.need(&mut faults);
    let asking = Asking {
        garden,
        today: common.today.read(&mut faults),
        system: common.units.read(&mut faults).unwrap_or(garden.units()),
    };
    let month_first = asking.system == System::Us;
    faults.read_by(ReadBy { today: asking.today, month_first });
    let mut answer = None;
    if let Some(topic) = topic {
        let told = hand_over(topic, &Value::Object(own), &asking, &mut faults, pace).await;
        let meant = faults.take_meant();
        answer = told.map(|(telling, of)| Answer { topic, telling, of, meant });
    }
    faults.or_refuse(answer)
}

impl Readable for System {
    const CONTROL: Control = Control::Choice(&[
        ("us", "inches, feet, °F, gallons"),
        ("metric", "centimetres, metres, °C, litres"),
    ]);

    fn allowed() -> String {
        "us or metric".to_owned()
    }

    fn read(text: &str) -> Result<Self, crate::quantity::Unreadable> {
        match text.to_ascii_lowercase().as_str() {
            "us" => Ok(Self::Us),
            "metric" => Ok(Self::Metric),
            _ => Err(crate::quantity::Unreadable {
                allowed: Self::allowed(),
                why: "neither of these".to_owned(),
            }),
        }
    }

    fn words() -> &'static [&'static str] {
        &["us", "metric"]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn laid(date: &str, units: &str) -> Result<Answer, Refusal> {
        let question = json!({
            "topic": "residue-wait", "today": "2026-11-30", "units": units, "laid": date,
            "area": "32 sq ft", "materials": [{"residue": "straw", "amount": "a bale"}],
        });
        ask(&question, &Garden::default())
    }

    #[test]
    fn a_date_is_read_as_it_is_said_where_the_question_is_asked() {
        let told = |date, units| format!("{:?}", laid(date, units).unwrap());
        assert_eq!(told("Nov 3", "us"), told("2026-11-03", "us"));
        assert_eq!(told("11/3", "us"), told("2026-11-03", "us"));
        assert_eq!(told("3/11/2026", "us"), told("2026-03-11", "us"));
        let refused = laid("11/3", "metric").unwrap_err().refused;
        assert_eq!(refused[0].field, "laid");
        assert!(refused[0].why.contains("11 March or 3 November"), "{}", refused[0].why);
    }

    #[test]
    fn what_a_bale_was_taken_for_is_told() {
        let because = laid("Nov 3", "us").unwrap().telling.because.join(" ");
        assert!(because.contains("a bale of 50 lb"), "{because}");
    }
}
