//! What the front matter of recipes is written in: texts for both systems of units, conditions, maps, and the macros that
//! read them.

use core::fmt;
use core::marker::PhantomData;

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, Visitor};

#[cfg(feature = "schema")]
use super::schema;

/// A text for each system of units.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawPair {
    /// In customary units.
    pub us: String,
    /// In SI units.
    pub si: String,
}

/// A text for both systems of units, or one for each.
#[derive(Debug)]
pub(crate) enum RawText {
    /// The same in both.
    Same(String),
    /// One for each.
    Pair(RawPair),
}

/// When an option is right.
#[derive(Debug, Default)]
pub(crate) enum RawRight {
    /// Never.
    #[default]
    No,
    /// Always.
    Yes,
    /// When this condition holds.
    When(String),
}

/// A map in the order of its author, in which no key is repeated. (A `BTreeMap` would let the last of two win.)
#[derive(Debug)]
pub struct Entries<T>(pub Vec<(String, T)>);

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Entries<T> {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        struct Reader<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Reader<T> {
            type Value = Entries<T>;

            fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                out.write_str("a mapping")
            }

            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Self::Value, M::Error> {
                let mut entries: Vec<(String, T)> = Vec::new();
                while let Some((key, value)) = map.next_entry::<String, T>()? {
                    if entries.iter().any(|(known, _)| *known == key) {
                        return Err(M::Error::custom(format_args!("duplicate field `{key}`")));
                    }
                    entries.push((key, value));
                }
                Ok(Entries(entries))
            }
        }
        input.deserialize_map(Reader(PhantomData))
    }
}

#[cfg(feature = "schema")]
impl<T: schemars::JsonSchema> schemars::JsonSchema for Entries<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Entries_{}", T::schema_name()).into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let values = generator.subschema_for::<T>();
        schemars::json_schema!({ "type": "object", "propertyNames": { "pattern": schema::NAME }, "additionalProperties": values })
    }
}

/// Reads a type from a text, or else from a mapping; and where it says so, from `true` and `false`. The two types in
/// square brackets say the same for its schema.
macro_rules! text_or_mapping {
    ($type:ident [$one:ty, $other:ty], $expecting:literal, $text:expr, $mapping:ty => $long:expr $(, $flag:expr)?) => {
        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
                struct Reader;
                impl<'de> serde::de::Visitor<'de> for Reader {
                    type Value = $type;

                    fn expecting(&self, out: &mut core::fmt::Formatter) -> core::fmt::Result {
                        out.write_str($expecting)
                    }

                    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Self::Value, E> {
                        Ok($text(text.to_owned()))
                    }

                    fn visit_map<M: serde::de::MapAccess<'de>>(self, map: M) -> Result<Self::Value, M::Error> {
                        <$mapping as serde::Deserialize>::deserialize(serde::de::value::MapAccessDeserializer::new(map)).map($long)
                    }

                    $(fn visit_bool<E: serde::de::Error>(self, flag: bool) -> Result<Self::Value, E> {
                        Ok($flag(flag))
                    })?
                }
                input.deserialize_any(Reader)
            }
        }

        #[cfg(feature = "schema")]
        impl schemars::JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }

            fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
                $crate::recipe::schema::either::<$one, $other>(generator)
            }
        }
    };
}

pub(crate) use text_or_mapping;

/// No mapping fits here: an empty one is as wrong as any.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawWhen {
    when: String,
}

text_or_mapping!(RawText [String, RawPair], "a text, or a mapping with us and si", RawText::Same, RawPair => RawText::Pair);
text_or_mapping!(
    RawRight [bool, String],
    "true, or a condition in quotes",
    RawRight::When,
    RawWhen => |right: RawWhen| RawRight::When(right.when),
    |flag: bool| if flag { RawRight::Yes } else { RawRight::No }
);
