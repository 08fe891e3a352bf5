//! The cells of a table to fill in, and what is in them.

use relief::Quantity;
use serde::Serialize;

use crate::display::unit_text;
use crate::facts::{DrawError, Facts, NumberAt};
use crate::forms::options::{Choice, is_drawn};
use crate::formula::{Condition, Scope};
use crate::number::Number;
use crate::recipe::{Pair, UnitRef};
use crate::stored::{stored_cases, stored_fields};
use crate::template::escape;

/// A table to fill in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FillTable {
    /// The columns.
    pub columns: Vec<Column>,
    /// What stands before each row.
    pub rows: Vec<String>,
    /// The cells, row by row: in each row one for each column.
    pub cells: Vec<Cell>,
    /// The reasons for which a cell may not have been measured. Which of them is right, the cell says.
    pub reasons: Vec<Choice>,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Column {
    /// What stands above it.
    pub head: String,
    /// The unit of what is in it.
    pub unit: Pair<UnitRef>,
}

/// A cell of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cell {
    /// `part.row.column`
    pub id: String,
    /// The heads of its row and its column.
    pub label: String,
    /// What is in it.
    pub holds: Content,
    /// When it was not measured, for each of the reasons in turn; none where nobody may say so.
    pub not_measured: Option<Vec<Condition>>,
}

/// What is in a cell.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Content {
    /// What was drawn under a name.
    Given(String),
    /// A number that is asked for.
    Asked(Box<Number>),
}

stored_fields!(FillTable { columns, rows, cells, reasons });
stored_fields!(Column { head, unit });
stored_fields!(Cell { id, label, holds, not_measured });
stored_cases!(Content { "given" => Given(name), "asked" => Asked(number) });

impl FillTable {
    /// How many cells a row has.
    pub(super) fn across(&self) -> usize {
        self.columns.len().max(1)
    }

    /// The numbers that it asks for.
    pub(super) fn asked(&self) -> impl Iterator<Item = NumberAt<'_>> {
        self.cells.iter().filter_map(Cell::asked)
    }

    /// Those that were measured, each with what is right.
    pub(super) fn measured<'f>(&self, facts: &'f Facts<'f>) -> impl Iterator<Item = (NumberAt<'f>, Quantity)> {
        self.asked().filter_map(|at| facts.number(at.id))
    }
}

impl Column {
    /// The unit, as it is printed.
    pub(super) fn unit_text(&self, facts: &Facts) -> Option<String> {
        self.unit.of(facts.setting.system).0.map(|unit| unit_text(unit, 2.0))
    }
}

impl Cell {
    /// The number that it asks for.
    pub(super) fn asked(&self) -> Option<NumberAt<'_>> {
        match &self.holds {
            Content::Given(_) => None,
            Content::Asked(number) => Some(NumberAt { id: &self.id, label: &self.label, number }),
        }
    }

    /// The place of the reason for which it was not measured; `None` where it was.
    pub(super) fn lacks(&self, scope: &Scope) -> Result<Option<usize>, DrawError> {
        let (mut found, mut bits) = (None, 0_u64);
        for (place, when) in self.not_measured.iter().flatten().enumerate() {
            if when.holds(scope).map_err(|error| DrawError::NoValue(self.id.clone(), error))? {
                (found, bits) = (Some(place), bits | 1 << (place % 64));
            }
        }
        if bits.count_ones() > 1 { Err(DrawError::RightOptions(self.id.clone(), bits)) } else { Ok(found) }
    }

    /// Whether it depends on what is drawn that it was not measured; `None` where it is never so, or it is not asked.
    pub(super) fn is_drawn(&self) -> Option<bool> {
        let possible = || self.not_measured.iter().flatten().filter(|when| **when != Condition::never());
        self.asked()?;
        possible().next()?;
        Some(possible().any(|when| is_drawn(Some(when))))
    }

    /// What belongs in it, as HTML: a given number in the unit of its column without that unit.
    pub(super) fn shown(&self, column: &Column, facts: &Facts) -> String {
        let Content::Given(name) = &self.holds else { return self.answer(facts) };
        if facts.answer(&self.id).is_some() {
            return self.answer(facts);
        }
        let unit = column.unit.of(facts.setting.system).0.map(|unit| unit.symbol);
        match facts.givens.iter().find(|given| given.name == *name) {
            Some(given) if unit.is_some() && given.unit == unit => escape(&facts.setting.mark.print(&given.value)),
            _ => escape(&facts.text(name)),
        }
    }

    /// The right answer, or why there is none, as HTML.
    pub(super) fn answer(&self, facts: &Facts) -> String {
        match facts.answer(&self.id) {
            Some(said) => said.to_owned(),
            None => format!("<strong>{}</strong>", escape(&facts.text(&self.id))),
        }
    }
}
