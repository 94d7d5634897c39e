//! Enums whose values are written as one kebab-case word.

use crate::quantity::Unreadable;

/// Which of these words a text is, however it joins the word's parts.
pub(crate) fn place_among(words: &[&str], text: &str) -> Result<usize, Unreadable> {
    let folded = text.to_ascii_lowercase().replace([' ', '_'], "-");
    let place = words.iter().position(|word| *word == folded);
    place.ok_or_else(|| not_among(words))
}

/// That a text is none of these words.
pub(crate) fn not_among(words: &[&str]) -> Unreadable {
    Unreadable { allowed: format!("one of: {}", words.join(", ")), why: "none of these".to_owned() }
}

/// Declares an enum with the word of each value; reading, printing and the schema follow from it.
/// What a form offers has what is said of it behind it: `Loose = "loose" => "plug crumbles"`.
macro_rules! words {
    ($(#[$meta:meta])* $vis:vis enum $name:ident {
        $($(#[$doc:meta])* $value:ident = $word:literal $(=> $said:literal)?),* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis enum $name { $($(#[$doc])* $value),* }

        impl $name {
            /// Every value, in order.
            pub const ALL: &[Self] = &[$(Self::$value),*];

            /// The word of each value, in the same order.
            const WORDS: &[&str] = &[$($word),*];

            /// The word that stands for the value in a question or an answer.
            #[expect(clippy::indexing_slicing, reason = "each value has its word")]
            pub const fn word(self) -> &'static str {
                Self::WORDS[self as usize]
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(self.word())
            }
        }

        impl $crate::given::Readable for $name {
            const CONTROL: $crate::given::Control =
                $crate::given::Control::of(&[$($(($word, $said),)?)*]);

            fn allowed() -> String {
                $crate::given::not_among(Self::WORDS).allowed
            }

            #[expect(clippy::indexing_slicing, reason = "each word has its value")]
            fn read(text: &str) -> Result<Self, $crate::quantity::Unreadable> {
                let place = $crate::given::place_among(Self::WORDS, text)?;
                Ok(Self::ALL[place])
            }

            fn words() -> &'static [&'static str] {
                Self::WORDS
            }
        }

        #[cfg(feature = "schema")]
        impl schemars::JsonSchema for $name {
            // Several topics have a `Verdict`; each states its own words in place.
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "enum": <Self as $crate::given::Readable>::words() })
            }
        }
    };
}

pub(crate) use words;
