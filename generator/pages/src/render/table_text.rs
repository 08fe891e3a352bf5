//! Headings and cells of reference tables as text, for their pages and for their files.

use problems::display::unit_text;
use relief::Table;
use relief::tables::{Cell, Column, Row};
use relief::units::Unit;

use super::renderer::Renderer;

/// The name of the CSV file of a table.
pub(super) fn file(table: &Table) -> String {
    format!("{}.csv", table.id)
}

/// A unit as it is typed.
pub(super) fn typed(unit: &Unit) -> String {
    unit.symbol.to_owned()
}

/// A unit as it is printed.
pub(super) fn printed(unit: &Unit) -> String {
    unit_text(unit, 1.0)
}

impl Renderer<'_> {
    /// The heading of a column in full, with its unit.
    pub(super) fn heading(&self, column: Column, unit: fn(&Unit) -> String) -> String {
        let words = [column.under, column.name].into_iter().flatten().map(|name| self.column_word(name));
        let named = words.collect::<Vec<_>>().join(", ");
        match column.unit.map(unit) {
            Some(unit) if named.is_empty() => unit,
            Some(unit) => format!("{named} ({unit})"),
            None => named,
        }
    }

    pub(super) fn cell(&self, cell: &Cell, number: impl Fn(&str) -> String, symbol: impl Fn(&str) -> String) -> String {
        match cell {
            Cell::Nothing => String::new(),
            Cell::Number(value, figures) => number(&relief::shown(*value, *figures, relief::Rounding::Nearest)),
            Cell::Choice(name) => self.words.get(&format!("choices.{name}")).to_owned(),
            Cell::Kinds(kinds) => {
                let words = kinds.iter().map(|kind| self.words.get(&format!("kinds.{}", kind.id())).to_owned());
                words.collect::<Vec<_>>().join(", ")
            }
            Cell::Symbol(typed) => symbol(typed),
            Cell::Letter(letter) => (*letter).to_owned(),
        }
    }

    pub(super) fn status(&self, row: &Row) -> String {
        self.words.get(&format!("status.{}", row.status.id())).to_owned()
    }

    /// The heading of a column: a word of its own, or that of the choice which the column is for.
    pub(super) fn column_word(&self, name: &str) -> String {
        let own = course::Words::text(self.words, &format!("tables.columns.{name}"));
        own.unwrap_or_else(|| self.words.get(&format!("choices.{name}")).to_owned())
    }
}
