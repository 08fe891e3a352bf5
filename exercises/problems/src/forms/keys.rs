//! The keys of a part: how each form says which it takes, and those that several forms share.

use serde::Deserialize;
use serde::de::MapAccess;

#[cfg(feature = "schema")]
use crate::recipe::schema;
use crate::recipe::written::{Entries, RawRight, RawText, text_or_mapping};

/// Keys that are read from a part as its author wrote it.
pub(crate) trait ReadKeys: Default {
    /// All of them.
    const NAMES: &'static [&'static str];

    /// Reads the value of a key; `false` where it is none of these.
    fn read<'de, M: MapAccess<'de>>(&mut self, key: &str, map: &mut M) -> Result<bool, M::Error>;

    /// Those that the author gave.
    fn given(&self) -> Vec<&'static str>;
}

/// Declares keys with their types; each may be left out.
macro_rules! keys {
    ($(#[$doc:meta])* $name:ident { $($(#[$about:meta])* $key:ident: $type:ty,)* }) => {
        $(#[$doc])*
        #[derive(Debug, Default)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub(crate) struct $name {
            $($(#[$about])* pub $key: Option<$type>,)*
        }

        impl $crate::forms::keys::ReadKeys for $name {
            const NAMES: &'static [&'static str] = &[$(stringify!($key)),*];

            fn read<'de, M: serde::de::MapAccess<'de>>(&mut self, key: &str, map: &mut M) -> Result<bool, M::Error> {
                match key {
                    $(stringify!($key) => self.$key = map.next_value()?,)*
                    _ => return Ok(false),
                }
                Ok(true)
            }

            fn given(&self) -> Vec<&'static str> {
                let all = [$((stringify!($key), self.$key.is_some())),*];
                all.into_iter().filter(|(_, given)| *given).map(|(key, _)| key).collect()
            }
        }
    };
}

pub(crate) use keys;

/// The keys of a form that has none of its own.
#[derive(Debug, Default)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct NoKeys {}

impl ReadKeys for NoKeys {
    const NAMES: &'static [&'static str] = &[];

    fn read<'de, M: MapAccess<'de>>(&mut self, _: &str, _: &mut M) -> Result<bool, M::Error> {
        Ok(false)
    }

    fn given(&self) -> Vec<&'static str> {
        Vec::new()
    }
}

keys! {
    /// The keys that several forms share.
    SharedKeys {
        /// The formula of the right answer.
        #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
        answer: String,
        /// The unit that the answer is asked in.
        #[cfg_attr(feature = "schema", schemars(with = "Option<schema::UnitText>"))]
        unit: RawText,
        /// How far from the right answer still counts.
        within: RawText,
        /// `upper` or `lower`: the answer is a limit, and that side of it is unsafe.
        #[cfg_attr(feature = "schema", schemars(with = "Option<schema::LimitName>"))]
        limit: String,
        /// Whether an answer on the unsafe side fails the whole question.
        unsafe_fails: bool,
        /// How the answer has to be rounded.
        round: RawRound,
        /// Between which values such a number usually lies.
        usual_range: RawText,
        /// Other formulas that are right as well, each with when it holds.
        also_right: Vec<RawAlsoRight>,
        /// Formulas of the answers that named mistakes give.
        mistakes: Entries<String>,
        /// The figure: its name, or its name and what it is drawn from.
        figure: RawFigure,
        /// What can be chosen.
        options: Vec<RawOption>,
        /// Whether the options stay in the author's order.
        keep_order: bool,
    }
}

/// The keys of a part, as a form is given them to check.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PartKeys<'k, Own> {
    /// The name of the part.
    pub(crate) id: &'k str,
    /// The keys that the form shares with others.
    pub(crate) shared: &'k SharedKeys,
    /// Its own keys.
    pub(crate) own: &'k Own,
}

/// Another right answer.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawAlsoRight {
    /// Its formula.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub answer: String,
    /// When it holds: what the learner reads with the verdict.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub when: String,
    /// `true`: it is right also where it lies on the unsafe side of `answer`, which is a limit.
    #[serde(default)]
    pub beyond_limit: bool,
}

/// How an answer has to be rounded.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::step_or_figures))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawRound {
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
pub(crate) enum RawFigure {
    /// The name.
    Named(String),
    /// `show` gives the name; the others are its parameters.
    Drawn(Entries<String>),
}

text_or_mapping!(RawFigure [schema::FigureName, schema::DrawnFigure], "the name of a figure, or a mapping with draw", RawFigure::Named, Entries<String> => RawFigure::Drawn);

/// One option of a choice.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::says_or_shows))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawOption {
    /// What it says, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub text: Option<String>,
    /// The formula whose value it shows.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub value: Option<String>,
    /// `true`, or the condition under which it is right.
    #[serde(default)]
    pub right: RawRight,
    /// Why it is right or wrong.
    pub why: Option<String>,
    /// `true`, or the condition under which whoever believes this can be hurt. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: RawRight,
}

/// A text of a part that a learner reads: the list that holds it and the place in the list, where it is in one; its key;
/// and what it says.
#[derive(Clone, Copy, Debug)]
pub struct SaidText<'k> {
    /// The list, and the place in it.
    pub listed: Option<(&'static str, usize)>,
    /// The key; none for an entry that is itself the text.
    pub key: Option<&'static str>,
    /// The text.
    pub text: &'k str,
}

impl<'k> SaidText<'k> {
    /// The text of a key of an entry in a list.
    pub(crate) fn listed(list: &'static str, place: usize, key: &'static str, text: &'k str) -> Self {
        Self { listed: Some((list, place)), key: Some(key), text }
    }
}
