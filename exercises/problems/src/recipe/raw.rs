//! A recipe as its author wrote it: the front matter, read but not checked.

use core::fmt;
use core::marker::PhantomData;

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, Visitor, value::MapAccessDeserializer};

#[cfg(feature = "schema")]
use super::schema;

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
    pub plausible: Vec<String>,
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
#[serde(deny_unknown_fields)]
pub struct RawLongDraw {
    /// What is drawn in customary units.
    pub us: Option<RawSide>,
    /// What is drawn in SI units.
    pub si: Option<RawSide>,
    /// What one is chosen of, in both systems.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::Scalar>>"))]
    pub choose: Option<Vec<String>>,
    /// A formula that gives the value.
    pub from: Option<String>,
    /// The step to which a derived value is rounded.
    pub shown_to: Option<RawPair>,
}

/// One system's side of a draw.
#[derive(Debug)]
pub enum RawSide {
    /// A range.
    Range(String),
    /// What one is chosen of.
    Choose(Vec<String>),
}

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
pub enum RawText {
    /// The same in both.
    Same(String),
    /// One for each.
    Pair(RawPair),
}

/// One thing that is asked. Which keys belong to which form is checked later, so that one that is out of place gets a
/// message of its own.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::keys_of_forms))]
#[serde(deny_unknown_fields)]
pub struct RawAsk {
    /// The name of the part.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Name"))]
    pub id: String,
    /// The form of the answer.
    #[serde(default = "number")]
    #[cfg_attr(feature = "schema", schemars(with = "schema::FormName"))]
    pub form: String,
    /// What the learner sees beside the field.
    pub label: String,
    /// The formula of the right answer.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub answer: Option<String>,
    /// The unit that the answer is asked in.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::UnitText>"))]
    pub unit: Option<RawText>,
    /// How far from the right answer still counts.
    pub within: Option<RawText>,
    /// `upper` or `lower`: the answer is a limit, and that side of it is unsafe.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::LimitName>"))]
    pub limit: Option<String>,
    /// Whether an answer on the unsafe side fails the whole question.
    pub unsafe_fails: Option<bool>,
    /// How the answer has to be rounded.
    pub round: Option<RawRound>,
    /// Between which values such a number usually lies.
    pub believable: Option<RawText>,
    /// Formulas of the answers that named mistakes give.
    #[serde(default)]
    pub mistakes: Entries<String>,
    /// The figure: its name, or its name and what it is drawn from.
    pub figure: Option<RawFigure>,
    /// What can be chosen.
    pub options: Option<Vec<RawOption>>,
    /// Whether the options stay in the author's order.
    pub keep_order: Option<bool>,
    /// What is to be put in order.
    pub items: Option<Vec<RawItem>>,
    /// Whether items go by their values from the greatest to the least.
    pub highest_first: Option<bool>,
    /// What is to be matched.
    pub pairs: Option<Vec<RawPairing>>,
    /// Partners that go with nothing.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::Scalar>>"))]
    pub spare: Option<Vec<String>>,
    /// The parts of the figure that have words of their own.
    pub parts: Option<Vec<RawPart>>,
    /// What is said of any other part.
    pub otherwise: Option<String>,
    /// What is true or false.
    pub statement: Option<String>,
    /// Whether the statement is true.
    pub right: Option<RawRight>,
    /// The reasons to choose from.
    pub reasons: Option<Vec<RawOption>>,
    /// Which answer, `true` or `false`, can hurt somebody who believes it where it is wrong.
    pub unsafe_if: Option<bool>,
}

/// How an answer has to be rounded.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::step_or_figures))]
#[serde(deny_unknown_fields)]
pub struct RawRound {
    /// To the multiples of this.
    pub to: Option<RawText>,
    /// To so many significant figures.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Figures>"))]
    pub figures: Option<u8>,
    /// `nearest`, `up`, `down` or `safe`.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::SideName>"))]
    pub side: Option<String>,
}

/// A figure: by its name alone, or with what it is drawn from.
#[derive(Debug)]
pub enum RawFigure {
    /// The name.
    Named(String),
    /// `draw` gives the name; the others are its parameters.
    Drawn(Entries<String>),
}

/// One option of a choice.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::says_or_shows))]
#[serde(deny_unknown_fields)]
pub struct RawOption {
    /// What it says, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub say: Option<String>,
    /// The formula whose value it shows.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub value: Option<String>,
    /// `true`, or the condition under which it is right.
    #[serde(default)]
    pub right: RawRight,
    /// Why it is right or wrong.
    pub why: Option<String>,
    /// `true`, or the condition under which who believes this can be hurt. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: RawRight,
}

/// One item to put in order.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawItem {
    /// What it says, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub say: String,
    /// The formula whose value gives its place.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub by: Option<String>,
    /// Why it has its place.
    pub why: Option<String>,
    /// `true`: who does this too early can hurt somebody. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: bool,
}

/// An item and its partner.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawPairing {
    /// The item, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub item: String,
    /// What goes with it, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub with: String,
    /// Why.
    pub why: Option<String>,
    /// `true`: who gives this item another partner can be hurt. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: bool,
}

/// A part of a figure.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawPart {
    /// Its name in the figure.
    #[cfg_attr(feature = "schema", schemars(with = "schema::PartName"))]
    pub part: String,
    /// `true`, or the condition under which it is right.
    #[serde(default)]
    pub right: RawRight,
    /// Why it is right or wrong.
    pub why: Option<String>,
    /// `true`: who believes this can be hurt. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: bool,
}

/// When an option is right.
#[derive(Debug, Default)]
pub enum RawRight {
    /// Never.
    #[default]
    No,
    /// Always.
    Yes,
    /// When this condition holds.
    When(String),
}

fn number() -> String {
    "number".to_owned()
}

/// A map in the order of its author, in which no key stands twice. (A `BTreeMap` would let the last of two win.)
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

/// Reads a type from a text, or else from a mapping; and where it says so, from `true` and `false`. The two types in
/// square brackets say the same for its schema.
macro_rules! text_or_mapping {
    ($type:ident [$one:ty, $other:ty], $expecting:literal, $text:expr, $mapping:ty => $long:expr $(, $flag:expr)?) => {
        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
                struct Reader;
                impl<'de> Visitor<'de> for Reader {
                    type Value = $type;

                    fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                        out.write_str($expecting)
                    }

                    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
                        Ok($text(text.to_owned()))
                    }

                    fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<Self::Value, M::Error> {
                        <$mapping>::deserialize(MapAccessDeserializer::new(map)).map($long)
                    }

                    $(fn visit_bool<E: Error>(self, flag: bool) -> Result<Self::Value, E> {
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
                schema::either::<$one, $other>(generator)
            }
        }
    };
}

#[derive(Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct RawChoose {
    /// What one is chosen of.
    #[cfg_attr(feature = "schema", schemars(with = "Vec<schema::Scalar>"))]
    choose: Vec<String>,
}

/// No mapping fits here: an empty one is as wrong as any.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawWhen {
    when: String,
}

text_or_mapping!(RawDraw [String, RawLongDraw], "a range, or a mapping with us and si, choose, or from", RawDraw::Same, RawLongDraw => RawDraw::Long);
text_or_mapping!(RawSide [String, RawChoose], "a range, or a mapping with choose", RawSide::Range, RawChoose => |side: RawChoose| RawSide::Choose(side.choose));
text_or_mapping!(RawFigure [schema::FigureName, schema::DrawnFigure], "the name of a figure, or a mapping with draw", RawFigure::Named, Entries<String> => RawFigure::Drawn);
text_or_mapping!(RawText [String, RawPair], "a text, or a mapping with us and si", RawText::Same, RawPair => RawText::Pair);
text_or_mapping!(
    RawRight [bool, String],
    "true, or a condition in quotes",
    RawRight::When,
    RawWhen => |right: RawWhen| RawRight::When(right.when),
    |flag: bool| if flag { RawRight::Yes } else { RawRight::No }
);
