//! A recipe as its author wrote it: the front matter, read but not checked.

use core::fmt;
use std::sync::LazyLock;

use serde::Deserialize;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, Visitor};

#[cfg(feature = "schema")]
use super::schema;
use super::written::{RawPair, text_or_mapping};

pub use super::written::Entries;
use crate::forms::keys::{PartKeys, ReadKeys, SharedKeys};
use crate::forms::{Form, OwnKeys, SaidText, keys_of_parts};

/// The front matter of a recipe.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawRecipe {
    /// The version of the format that it is written in.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Format"))]
    pub format: u32,
    /// The name of the recipe.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Id"))]
    pub id: String,
    /// What the learner sees as its title.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub title: String,
    /// What it practises: ids of objectives that lessons declare.
    #[cfg_attr(feature = "schema", schemars(with = "Vec<schema::Id>", length(min = 1)))]
    pub objectives: Vec<String>,
    /// How hard it is, from 1 to 3.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Level"))]
    pub level: u8,
    /// What is drawn, in order.
    #[serde(default)]
    pub draw: Entries<RawDraw>,
    /// Conditions that every draw meets; others are drawn again.
    #[serde(default)]
    pub require: Vec<String>,
    /// Conditions that hold for every draw, or the recipe is refused.
    #[serde(default)]
    pub must_hold: Vec<String>,
    /// What is asked, in order.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub ask: Vec<RawAsk>,
}

/// One thing that is drawn.
#[derive(Debug)]
pub enum RawDraw {
    /// The same in both systems of units.
    Same(String),
    /// Said at more length.
    Long(RawLongDraw),
}

/// The long form of a draw.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::one_way_to_draw))]
#[serde(deny_unknown_fields)]
pub struct RawLongDraw {
    /// What is drawn in customary units.
    pub us: Option<RawSide>,
    /// What is drawn in SI units.
    pub si: Option<RawSide>,
    /// What one is chosen of, in both systems.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::Scalar>>"))]
    pub choose: Option<Vec<String>>,
    /// Texts that one is chosen of, shown as they are typed: tag numbers, fluids, names of jobs.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::ChosenText>>"))]
    pub choose_text: Option<Vec<String>>,
    /// A formula that gives the value.
    pub from: Option<String>,
    /// The step to which a derived value is rounded.
    pub rounded_to: Option<RawPair>,
}

/// One system's side of a draw.
#[derive(Debug)]
pub enum RawSide {
    /// A range.
    Range(String),
    /// What one is chosen of.
    Choose(RawChoose),
}

impl RawSide {
    /// The range, or the first of what is chosen of.
    #[must_use]
    pub fn first_text(&self) -> Option<&str> {
        match self {
            Self::Range(text) => Some(text),
            Self::Choose(chosen) => chosen.choose.iter().flatten().next().map(String::as_str),
        }
    }
}

/// What one is chosen of, in one of two ways.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::choose_or_text))]
#[serde(deny_unknown_fields)]
pub struct RawChoose {
    /// Values, known names or texts that one is chosen of.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::Scalar>>"))]
    pub choose: Option<Vec<String>>,
    /// Texts that one is chosen of, shown as they are typed.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::ChosenText>>"))]
    pub choose_text: Option<Vec<String>>,
}

text_or_mapping!(RawDraw [schema::RangeText, RawLongDraw], "a range, or a mapping with us and si, choose, choose_text, or from", RawDraw::Same, RawLongDraw => RawDraw::Long);
text_or_mapping!(RawSide [schema::RangeText, RawChoose], "a range, or a mapping with choose or choose_text", RawSide::Range, RawChoose => RawSide::Choose);

/// The keys of every part.
pub(crate) const OF_EVERY_PART: [&str; 3] = ["id", "form", "label"];

/// One thing that is asked. Which keys belong to which form is checked later, so that one that is out of place gets a
/// message of its own.
#[derive(Debug, Default)]
pub struct RawAsk {
    /// The name of the part.
    pub id: String,
    /// The form of the answer.
    pub form: String,
    /// What the learner sees beside the field.
    pub label: String,
    /// The keys that several forms share.
    pub(crate) shared: SharedKeys,
    /// The keys that belong to one form alone.
    pub(crate) own: OwnKeys,
}

impl RawAsk {
    /// Its keys, as forms check them.
    pub(crate) fn keys(&self) -> PartKeys<'_, OwnKeys> {
        PartKeys { id: &self.id, shared: &self.shared, own: &self.own }
    }

    /// The keys that the author gave it, of those that belong to some form.
    pub(crate) fn given(&self) -> impl Iterator<Item = &'static str> {
        self.shared.given().into_iter().chain(self.own.given())
    }

    /// The texts in it that learners read, beside the label.
    #[must_use]
    pub fn texts(&self) -> Vec<SaidText<'_>> {
        Form::texts(self.keys())
    }

    /// The names of the mistakes that it explains.
    #[must_use]
    pub fn mistakes(&self) -> Vec<&str> {
        Form::mistakes(&self.form, self.keys())
    }
}

/// A key of a part; any other is refused where it is read, so that the fault is in its place.
struct Key;

impl<'de> DeserializeSeed<'de> for Key {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<String, D::Error> {
        input.deserialize_identifier(self)
    }
}

impl Visitor<'_> for Key {
    type Value = String;

    fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
        out.write_str("field identifier")
    }

    fn visit_str<E: Error>(self, key: &str) -> Result<String, E> {
        static KNOWN: LazyLock<Vec<&str>> =
            LazyLock::new(|| OF_EVERY_PART.into_iter().chain(keys_of_parts()).collect());
        if KNOWN.contains(&key) { Ok(key.to_owned()) } else { Err(E::unknown_field(key, &KNOWN)) }
    }
}

impl<'de> Deserialize<'de> for RawAsk {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        struct Reader;
        impl<'de> Visitor<'de> for Reader {
            type Value = RawAsk;

            fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                out.write_str("struct RawAsk")
            }

            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<RawAsk, M::Error> {
                let (mut id, mut form, mut label) = (None, None, None);
                let mut ask = RawAsk::default();
                let mut seen: Vec<String> = Vec::new();
                while let Some(key) = map.next_key_seed(Key)? {
                    if seen.contains(&key) {
                        return Err(M::Error::custom(format_args!("duplicate field `{key}`")));
                    }
                    match key.as_str() {
                        "id" => id = Some(map.next_value()?),
                        "form" => form = Some(map.next_value()?),
                        "label" => label = Some(map.next_value()?),
                        key => {
                            let _known = ask.shared.read(key, &mut map)? || ask.own.read(key, &mut map)?;
                        }
                    }
                    seen.push(key);
                }
                ask.id = id.ok_or_else(|| M::Error::missing_field("id"))?;
                ask.form = form.unwrap_or_else(|| "number".to_owned());
                ask.label = label.ok_or_else(|| M::Error::missing_field("label"))?;
                Ok(ask)
            }
        }
        input.deserialize_map(Reader)
    }
}
