//! What is to be filled in of a table, for a page, a paper and a terminal.

use std::borrow::Cow;

use serde::Serialize;

use super::{Cell, Column, FillTable, NOT_MEASURED};
use crate::display::unit_text;
use crate::facts::Facts;
use crate::forms::form::AnswerForm;
use crate::forms::number::{RoundView, rounding};
use crate::number::Number;
use crate::views::{OptionView, Outline};

/// What a blank looks like on a terminal.
const BLANK: &str = "________";

/// A table to fill in.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    form: &'static str,
    columns: Vec<ColumnView>,
    rows: Vec<RowView>,
    /// What may be answered for a cell that was not measured.
    not_measured: Vec<OptionView>,
}

#[derive(Debug, Serialize)]
struct ColumnView {
    head: String,
    /// The unit of what is in it, as it is printed.
    unit: Option<String>,
    /// The words that say how to round, or which limit it is, by their key under `round`.
    rounding: Option<&'static str>,
    round: Option<RoundView>,
}

#[derive(Debug, Serialize)]
struct RowView {
    head: String,
    cells: Vec<CellView>,
}

#[derive(Debug, Serialize)]
#[serde(untagged)]
enum CellView {
    Given {
        /// What it shows, as HTML.
        given: String,
    },
    Asked {
        id: String,
        label: String,
        /// The form that its verdicts are worded for.
        form: &'static str,
        unit: Option<String>,
        units: Vec<String>,
        /// Whether it may be answered as not measured.
        may_lack: bool,
    },
}

/// What is to be filled in of a table.
pub(super) fn of(table: &FillTable, facts: &Facts) -> View {
    let mut rows: Vec<_> = table.rows.iter().map(|head| RowView { head: head.clone(), cells: Vec::new() }).collect();
    for (place, cell) in table.cells.iter().enumerate() {
        let column = table.columns.get(place % table.across());
        if let Some((row, column)) = rows.get_mut(place / table.across()).zip(column) {
            row.cells.push(cell.view(column, facts));
        }
    }
    let mut not_measured = Vec::with_capacity(table.reasons.len());
    for (place, reason) in table.reasons.iter().enumerate() {
        not_measured.push(OptionView { id: format!("{NOT_MEASURED}{place}"), html: facts.fill(&reason.say) });
    }
    let columns = table.columns.iter().enumerate();
    let columns = columns.map(|(place, column)| column_view(table, column, place, facts)).collect();
    View { form: FillTable::NAME, columns, rows, not_measured }
}

fn column_view(table: &FillTable, column: &Column, place: usize, facts: &Facts) -> ColumnView {
    let asked = table.cells.iter().skip(place).step_by(table.across()).find_map(Cell::asked);
    let number = asked.map(|at| at.number.asked_view(facts.setting));
    let (rounding, round) = number.map(|number| (number.rounding, number.round)).unwrap_or_default();
    ColumnView { head: column.head.clone(), unit: column.unit_text(facts), rounding, round }
}

impl View {
    /// The same as lines for a terminal.
    pub(super) fn outline(&self) -> Vec<Outline<'_>> {
        let heads = [String::new()].into_iter().chain(self.columns.iter().map(ColumnView::text)).collect();
        let row = |row: &RowView| [row.head.clone()].into_iter().chain(row.cells.iter().map(CellView::text)).collect();
        let rows = self.rows.iter().map(row).collect();
        let table = Outline::Rows(Cow::Owned(heads), Cow::Owned(rows));
        let rounded = self.columns.iter().flat_map(|column| {
            let sentence = rounding(column.rounding, column.round.as_ref());
            sentence.into_iter().flat_map(|sentence| [Outline::Statement(&column.head), sentence])
        });
        let reasons = Outline::Options(Some("command.draw.not_measured"), &self.not_measured);
        [table].into_iter().chain(rounded).chain((!self.not_measured.is_empty()).then_some(reasons)).collect()
    }
}

impl Column {
    /// The unit, as it is printed.
    fn unit_text(&self, facts: &Facts) -> Option<String> {
        self.unit.of(facts.setting.system).0.map(|unit| unit_text(unit, 2.0))
    }
}

impl Cell {
    fn view(&self, column: &Column, facts: &Facts) -> CellView {
        let Some(at) = self.asked() else { return CellView::Given { given: self.shown(column, facts) } };
        let number = at.number.asked_view(facts.setting);
        CellView::Asked {
            id: self.id.clone(),
            label: self.label.clone(),
            form: Number::NAME,
            unit: number.unit,
            units: number.units,
            may_lack: self.not_measured.is_some(),
        }
    }
}

impl ColumnView {
    /// Its head with the unit, for a terminal.
    fn text(&self) -> String {
        self.unit.as_ref().map_or_else(|| self.head.clone(), |unit| format!("{} ({unit})", self.head))
    }
}

impl CellView {
    /// What it shows, for a terminal.
    fn text(&self) -> String {
        match self {
            Self::Given { given } => given.clone(),
            Self::Asked { .. } => BLANK.to_owned(),
        }
    }
}
