//! Recipes: as written ([`raw`]), compiled ([`Recipe`]), and how the one becomes the other ([`compile`]).

pub(crate) mod checking;
mod compile;
mod draws;
mod growth;
mod law;
mod pair;
#[cfg(feature = "schema")]
mod part_schema;
mod picture;
pub mod raw;
#[cfg(feature = "schema")]
pub mod schema;
mod source;
mod versions;
pub(crate) mod written;

use serde::Serialize;

pub use crate::forms::Ask;
pub use checking::{Bodies, Lexicon, RecipeFault, RecipePlace, Step};
pub use compile::{Compiled, compile};
pub use law::Law;
pub use pair::{Pair, UnitRef};
pub use picture::Picture;
pub use relief::System;
pub use source::{Draw, Given, Measure, Source};
pub use versions::{FORMAT, RULES, WRITTEN_FORMAT};

use crate::facts::NumberAt;
use crate::formula::Condition;
use crate::own::Own;
use crate::stored::{Stored, Unfit, stored_fields};
use crate::template::Template;
use versions::LONGEST;

/// A compiled recipe: all that is needed to draw, mark and work its problems.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Recipe {
    /// The version of this form.
    pub format: u32,
    /// The version of the marking rules.
    pub rules: u32,
    /// The relations of its course that its formulas call, each after those that it calls itself.
    pub relations: Vec<Own>,
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
    pub must_hold: Vec<Condition>,
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

    /// The numbers that it asks for, in order.
    pub fn numbers(&self) -> impl Iterator<Item = NumberAt<'_>> {
        self.asks.iter().flat_map(Ask::numbers)
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

stored_fields!(Recipe {
    format,
    rules,
    relations,
    id,
    title,
    level,
    objectives,
    draws,
    require,
    must_hold,
    asks,
    question,
    start,
    working,
    laws,
    words,
});
