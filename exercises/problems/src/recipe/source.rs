//! What is drawn, and where its value comes from.

use relief::units::Unit;
use relief::{Exact, Kind, Style};
use serde::Serialize;

use super::pair::Pair;
use crate::formula::Node;
use crate::stored::{stored_cases, stored_fields};

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

stored_fields!(Draw { name, source });
stored_cases!(Source {
    "range" => Range { start, step, count, measure },
    "choose" => Choose(options),
    "from" => From { formula, grid, measure },
});
stored_fields!(Measure { unit, kind, style });
stored_cases!(Given { "quantity" => Quantity { value, measure }, "choice" => Choice { name, text } });
