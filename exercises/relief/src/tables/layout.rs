//! What a reference table is made of: its rows as the core holds them, and its columns and cells as they are printed.

use crate::kind::Kind;
use crate::limits::Limit;
use crate::relation::Status;
use crate::units::Unit;

/// One reference table.
#[derive(Debug)]
pub struct Table {
    /// The name, the same in addresses, file names and words.
    pub id: &'static str,
    /// The relations that take their numbers from these rows.
    pub relations: &'static [&'static str],
    /// What the rows are made of.
    pub content: Content,
}

/// What the rows of a table are made of.
#[derive(Debug)]
pub enum Content {
    /// The standard orifices.
    Orifices,
    /// Limits that codes state.
    Limits(LimitTable),
    /// Bubbles of air in a minute.
    Bubbles,
    /// Grades of gauges.
    GaugeGrades,
    /// A relation worked for a row of values.
    Ladder(Ladder),
    /// Every unit, by kind.
    Units,
}

/// How a table of limits is laid out.
#[derive(Debug)]
pub struct LimitTable {
    /// The column of the names: `code`, `case`, `rank`, `rule`.
    pub of: &'static str,
    /// The heading over the lower sides; nothing where all of them are zero and none is shown.
    pub low: Option<&'static str>,
    /// The heading over the upper sides.
    pub high: &'static str,
    /// The rows.
    pub rows: &'static [Limit],
}

/// One column of a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// The heading that it shares with its neighbours.
    pub under: Option<&'static str>,
    /// Its own heading; nothing where its unit says all.
    pub name: Option<&'static str>,
    /// The unit of its numbers.
    pub unit: Option<&'static Unit>,
}

/// One row of a table.
#[derive(Debug)]
pub struct Row {
    /// A cell for each column.
    pub cells: Vec<Cell>,
    /// The document with its edition and clause; empty for common practice.
    pub document: &'static str,
    /// How well it is known.
    pub status: Status,
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// The source states nothing here.
    Nothing,
    /// A number in the unit of the column, with so many significant figures.
    Number(f64, u8),
    /// The name of a choice.
    Choice(&'static str),
    /// The names of kinds of quantity.
    Kinds(&'static [Kind]),
    /// The symbol of a unit, as it is typed.
    Symbol(String),
    /// A letter.
    Letter(&'static str),
}

/// A relation worked for a row of values.
#[derive(Debug)]
pub struct Ladder {
    /// The column of the values.
    pub(super) of: &'static str,
    /// The kind of the values.
    pub(super) kind: Kind,
    /// The units of the values; they are round in the first.
    pub(super) units: &'static [&'static str],
    /// The values in the first unit.
    pub(super) at: &'static [f64],
    /// What the relation is worked for beside each other, as headings.
    pub(super) across: &'static [&'static str],
    /// The kind and the units of what it gives.
    pub(super) gives: (Kind, &'static [&'static str]),
    /// The relation: what it gives (SI) at a value (SI) for one of the headings.
    pub(super) work: fn(f64, &str) -> f64,
}
