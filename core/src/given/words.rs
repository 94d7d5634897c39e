//! Enums whose values are written as one kebab-case word.

use crate::quantity::Unreadable;

/// Which of these words a text is, however it joins them.
pub(crate) fn place_among(words: &[&str], text: &str) -> Option<usize> {
    let folded = text.to_ascii_lowercase().replace([' ', '_'], "-");
    words.iter().position(|word| *word == folded)
}

/// That a text is none of these words.
pub(crate) fn not_among(words: &[&str]) -> Unreadable {
    Unreadable {
        allowed: format!("one of: {}", words.join(", ")),
        why: "none of these".to_owned(),
    }
}

/// Declares an enum with the word of each value; reading, printing and the schema follow from it.
macro_rules! words {
    ($(#[$meta:meta])* $vis:vis enum $name:ident {
        $($(#[$doc:meta])* $value:ident = $word:literal),* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis enum $name { $($(#[$doc])* $value),* }

        impl $name {
            /// Every value, in order.
            pub const ALL: &[Self] = &[$(Self::$value),*];

            /// The word that stands for the value in a question or an answer.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$value => $word),* }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(self.word())
            }
        }

        impl $crate::given::Readable for $name {
            fn allowed() -> String {
                $crate::given::not_among(&<Self as $crate::given::Readable>::words()).allowed
            }

            fn read(text: &str) -> Result<Self, $crate::quantity::Unreadable> {
                let words = <Self as $crate::given::Readable>::words();
                let place = $crate::given::place_among(&words, text);
                place
                    .and_then(|place| Self::ALL.get(place).copied())
                    .ok_or_else(|| $crate::given::not_among(&words))
            }

            fn words() -> Vec<&'static str> {
                Self::ALL.iter().map(|value| value.word()).collect()
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
