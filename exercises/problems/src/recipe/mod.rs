//! Recipes: as written ([`raw`]), compiled ([`Recipe`]) and the way from the one to the other ([`compile`]).

mod asks;
mod check;
mod choices;
mod draws;
mod form;
mod growth;
mod numbers;
mod plot;
pub mod raw;
#[cfg(feature = "schema")]
pub mod schema;
mod sets;

pub use relief::System;
use relief::units::Unit;
use relief::{Exact, Kind, Style};
use serde::Serialize;

pub use check::{Bodies, Lexicon, RecipeFault, RecipePlace, Step, compile};
pub use form::{
    Ask, Believable, Choice, ChoiceAsk, Form, Grid, Item, Limit, Mistake, NumberAsk, OrderAsk, Pairing, PairsAsk, Part,
    Plot, PointAsk, RoundTo, Side, Tolerance, TruthAsk, UnitRef,
};

use crate::formula::{Condition, Node};
use crate::stored::{Fields, Stored, Unfit, stored_cases, stored_fields};
use crate::template::Template;

/// The version of the compiled form that this core writes and reads. It is open until graded work can be issued from it.
pub const FORMAT: u32 = 3;

/// The version of the rules by which answers are marked. 3 brought the printed forms of both systems.
pub const RULES: u32 = 3;

/// The newest version of the format in which authors write recipes.
pub const WRITTEN_FORMAT: u32 = 1;

/// How hard a recipe can be.
const LEVELS: core::ops::RangeInclusive<u8> = 1..=3;

/// To how many significant figures an answer can be rounded.
const ROUNDED_FIGURES: core::ops::RangeInclusive<u8> = 1..=6;

/// The longest compiled form that is read, in bytes: many times what the longest of any course takes. Its tree holds up to
/// a hundred times as much in memory.
const LONGEST: usize = 200_000;

/// Something for each system of units.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pair<T> {
    /// In customary units.
    pub us: T,
    /// In SI units.
    pub si: T,
}

impl<T: Stored> Stored for Pair<T> {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        let mut fields = Fields::of(tree)?;
        Ok(Self { us: fields.take("us")?, si: fields.take("si")? })
    }
}

impl<T> Pair<T> {
    /// The one for a system.
    pub fn of(&self, system: System) -> &T {
        match system {
            System::Us => &self.us,
            System::Si => &self.si,
        }
    }
}

/// A compiled recipe: all that is needed to draw, mark and work its problems.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Recipe {
    /// The version of this form.
    pub format: u32,
    /// The version of the marking rules.
    pub rules: u32,
    /// The name.
    pub id: String,
    /// The title, as text.
    pub title: String,
    /// From 1 to 3.
    pub level: u8,
    /// What it practises.
    pub objectives: Vec<String>,
    /// What is drawn, in order.
    pub draws: Vec<Draw>,
    /// What every draw meets.
    pub require: Vec<Condition>,
    /// What proof asks of every draw.
    pub plausible: Vec<Condition>,
    /// What is asked, in order.
    pub asks: Vec<Ask>,
    /// The statement.
    pub question: Template,
    /// Where to start.
    pub start: Option<Template>,
    /// The worked solution.
    pub working: Template,
    /// The laws that the worked steps show.
    pub laws: Vec<Law>,
    /// The words that workings and answers need, by key.
    pub words: Vec<(String, String)>,
}

/// Why a compiled recipe cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReadError {
    /// It was written by a newer version of the product, in a form or for marking rules that this one does not know.
    Newer {
        /// Its format.
        format: u32,
        /// Its rules.
        rules: u32,
    },
    /// It was written by an older version of the product, from which nothing was ever issued.
    Older {
        /// Its format.
        format: u32,
        /// Its rules.
        rules: u32,
    },
    /// It is not a compiled recipe.
    Unreadable(String),
}

impl Recipe {
    /// Reads a compiled recipe.
    ///
    /// # Errors
    /// [`ReadError`], by its rule.
    #[inline]
    pub fn read(json: &str) -> Result<Self, ReadError> {
        let unreadable = |error: serde_json::Error| ReadError::Unreadable(error.to_string());
        if json.len() > LONGEST {
            return Err(ReadError::Unreadable("too long".to_owned()));
        }
        let tree: serde_json::Value = serde_json::from_str(json).map_err(unreadable)?;
        let version = |key: &str| tree.get(key).and_then(|version| u32::try_from(version.as_u64()?).ok());
        let (Some(format), Some(rules)) = (version("format"), version("rules")) else {
            return Err(ReadError::Unreadable("no version".to_owned()));
        };
        if format > FORMAT || rules > RULES {
            return Err(ReadError::Newer { format, rules });
        }
        if format < FORMAT || rules < RULES {
            return Err(ReadError::Older { format, rules });
        }
        if !growth::is_bounded(&tree) {
            return Err(ReadError::Unreadable("grows too long".to_owned()));
        }
        Stored::read(tree).map_err(|Unfit(place)| ReadError::Unreadable(place.to_owned()))
    }

    /// A word that it carries.
    #[must_use]
    pub fn word(&self, key: &str) -> &str {
        self.words.iter().find(|(known, _)| known == key).map_or("", |(_, word)| word)
    }

    /// Whether some answer to it is unsafe.
    #[must_use]
    pub fn names_danger(&self) -> bool {
        self.asks.iter().any(|ask| ask.form.names_danger())
    }

    /// The compiled recipe as JSON, the same bytes for the same recipe.
    #[must_use]
    pub fn write(&self) -> String {
        // Everything in a recipe has a JSON form, so this never fails; an empty text would be refused by `read`.
        serde_json::to_string(self).unwrap_or_default()
    }
}

/// One thing that is drawn or derived.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Draw {
    /// The name.
    pub name: String,
    /// Where its value comes from.
    pub source: Pair<Source>,
}

/// Where a value comes from.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// One of `count` equal steps from a start.
    Range {
        /// The lowest value, in the unit.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        start: Exact,
        /// The step, in the unit.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        step: Exact,
        /// How many values there are.
        count: u32,
        /// How the value is measured and written.
        measure: Measure,
    },
    /// One of these.
    Choose(Vec<Given>),
    /// A formula, rounded to a grid.
    From {
        /// The formula.
        formula: Node,
        /// The step to which the value is rounded, in the unit.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        grid: Exact,
        /// How the value is measured and written.
        measure: Measure,
    },
}

/// The unit, kind and style of a number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Measure {
    /// The unit; none for a bare number.
    #[serde(serialize_with = "crate::stored::some_unit::serialize")]
    pub unit: Option<&'static Unit>,
    /// The kind.
    #[serde(serialize_with = "crate::stored::kind::serialize")]
    pub kind: Kind,
    /// How the number is written.
    #[serde(serialize_with = "crate::stored::style::serialize")]
    pub style: Style,
}

/// A value that can be chosen.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Given {
    /// A quantity.
    Quantity {
        /// The number, in the unit.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        value: Exact,
        /// How it is measured and written.
        measure: Measure,
    },
    /// A named choice and the words for it.
    Choice {
        /// The name that relations know it by.
        name: String,
        /// What the learner reads.
        text: String,
    },
}

/// The law of a relation, as the worked steps show it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Law {
    /// The relation.
    #[serde(serialize_with = "crate::stored::relation::serialize")]
    pub relation: &'static relief::Relation,
    /// The system whose form it is; none where one form serves both.
    #[serde(serialize_with = "crate::stored::some_system::serialize")]
    pub form: Option<System>,
    /// Its title.
    pub title: String,
    /// The law in MathML, in symbols.
    pub symbols: String,
    /// The law in MathML, with a hole for each input.
    pub numbers: Template,
}

stored_fields!(Recipe {
    format,
    rules,
    id,
    title,
    level,
    objectives,
    draws,
    require,
    plausible,
    asks,
    question,
    start,
    working,
    laws,
    words,
});
stored_fields!(Draw { name, source });
stored_cases!(Source {
    "range" => Range { start, step, count, measure },
    "choose" => Choose(options),
    "from" => From { formula, grid, measure },
});
stored_fields!(Measure { unit, kind, style });
stored_cases!(Given { "quantity" => Quantity { value, measure }, "choice" => Choice { name, text } });
stored_fields!(Law { relation, form, title, symbols, numbers });
