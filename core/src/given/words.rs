//! Enums whose values are written as one kebab-case word.

/// Declares an enum with the word of each value; reading, printing and the schema follow from it.
/// `if "feature"` behind a word keeps the value out of builds without that feature.
macro_rules! words {
    ($(#[$meta:meta])* $vis:vis enum $name:ident {
        $($(#[$doc:meta])* $value:ident = $word:literal $(if $feature:literal)?),* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis enum $name { $($(#[$doc])* $(#[cfg(feature = $feature)])? $value),* }

        impl $name {
            /// Every value, in order.
            pub const ALL: &[Self] = &[$($(#[cfg(feature = $feature)])? Self::$value),*];

            /// The word that stands for the value in a question or an answer.
            pub const fn word(self) -> &'static str {
                match self { $($(#[cfg(feature = $feature)])? Self::$value => $word),* }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(self.word())
            }
        }

        impl $crate::given::Readable for $name {
            fn allowed() -> String {
                format!("one of: {}", <Self as $crate::given::Readable>::words().join(", "))
            }

            fn read(text: &str) -> Result<Self, $crate::quantity::Unreadable> {
                let folded = text.to_ascii_lowercase().replace([' ', '_'], "-");
                Self::ALL.iter().copied().find(|value| value.word() == folded).ok_or_else(|| {
                    $crate::quantity::Unreadable {
                        allowed: <Self as $crate::given::Readable>::allowed(),
                        why: "none of these".to_owned(),
                    }
                })
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
