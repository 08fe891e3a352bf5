//! A small table of numbers, such as a test record: some cells are given, the others are filled in.
//!
//! Each cell that is asked is a number of its own, named `part.row.column`, and is answered, marked and carried on as a
//! part would be. Where it was not measured, that and the reason are what is right.

mod cells;
mod written;

#[cfg(feature = "schema")]
use core::ops::RangeInclusive;
use std::borrow::Cow;

use serde::Serialize;

use super::form::AnswerForm;
use super::keys::{PartKeys, SaidText};
use super::number::{RoundView, mistake_names, rounding};
use crate::answer::{Reading, read};
use crate::facts::{DrawError, Facts, NumberAt, PartOf};
use crate::number::{self, Number};
use crate::proof;
use crate::proof::found::{Found, filled_alike};
use crate::recipe::checking::{Check, Path, Step};
use crate::review::{OptionReview, Reviewed};
use crate::seed::Seed;
use crate::template::escape;
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::{AnswerView, OptionView, Outline};
use cells::{Cell, Column, Content};
use written::Keys;

pub use cells::FillTable;
#[cfg(feature = "schema")]
use written::{COLUMNS, FEWEST_REASONS, ROWS};

/// What is answered for a cell that was not measured: this, and the place of the reason.
const NOT_MEASURED: &str = "not measured: ";

/// What a blank looks like on a terminal.
const BLANK: &str = "________";

/// For each cell, in order: the place of the reason for which it was not measured; none where it was.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer(Vec<Option<usize>>);

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

impl AnswerForm for FillTable {
    const NAME: &'static str = "fill_table";
    const KEYS: &'static [&'static str] = &["columns", "rows", "not_measured"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["columns", "rows"];
    type Keys = Keys;
    type Answer = Answer;
    type View = View;

    #[cfg(feature = "schema")]
    fn counts() -> serde_json::Value {
        let size =
            |size: RangeInclusive<usize>| serde_json::json!({ "minItems": size.start(), "maxItems": size.end() });
        let reasons = serde_json::json!({ "minItems": FEWEST_REASONS });
        serde_json::json!({ "columns": size(COLUMNS), "rows": size(ROWS), "not_measured": reasons })
    }

    fn check(PartKeys { id, own, .. }: PartKeys<Keys>, path: &Path, check: &mut Check) -> Option<Self> {
        Some(written::table(id, own, path, check))
    }

    fn texts<'k>(keys: PartKeys<'k, Keys>) -> Vec<SaidText<'k>> {
        keys.own.texts()
    }

    fn mistakes<'k>(keys: PartKeys<'k, Keys>) -> Vec<&'k str> {
        keys.own.cells().flat_map(|cell| mistake_names(cell.mistakes.as_ref())).collect()
    }

    fn numbers<'f>(&'f self, _: &'f str, _: &'f str) -> Vec<NumberAt<'f>> {
        self.asked().collect()
    }

    fn path(&self, name: &str) -> Vec<Step> {
        let Some(place) = self.cells.iter().position(|cell| cell.id == name) else { return Vec::new() };
        let key = |key: &str| Step::Key(key.to_owned());
        let (row, column) = (place / self.across(), name.rsplit('.').next().unwrap_or_default());
        vec![key("rows"), Step::Index(row), key("cells"), key(column)]
    }

    fn names_danger(&self) -> bool {
        self.asked().any(|at| at.number.names_danger())
    }

    fn words(&self) -> Vec<&'static str> {
        let of_reasons = (!self.reasons.is_empty()).then_some("answers.not_measured");
        self.asked().flat_map(|at| at.number.words()).chain(of_reasons).collect()
    }

    fn draw(&self, _: &str, seed: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let mut all = Vec::new();
        for cell in &self.cells {
            if let Content::Asked(number) = &cell.holds {
                number.draw(&cell.id, seed, facts)?;
            }
            let lacks = cell.lacks(&facts.scope)?;
            if let Some(reason) = lacks.and_then(|place| self.reasons.get(place)) {
                let said = format!("{}: {}", facts.word("answers.not_measured"), facts.fill(&reason.text));
                facts.answers.push((cell.id.clone(), said));
            }
            all.push(lacks);
        }
        Ok(Answer(all))
    }

    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let mut cells = Vec::new();
        for (cell, lacks) in self.cells.iter().zip(&answer.0) {
            if let Some(at) = cell.asked() {
                cells.push((cell.id.clone(), self.mark_cell(at, *lacks, part.facts, answers)));
            }
        }
        Marked::of_cells(cells)
    }

    fn fails(&self, marked: &Marked) -> bool {
        self.asked().zip(&marked.cells).any(|(at, (_, cell))| at.number.fails(cell))
    }

    fn view(&self, _: &Answer, part: PartOf, _: &str) -> View {
        let mut rows = Vec::new();
        for (head, cells) in self.rows.iter().zip(self.cells.chunks(self.across())) {
            let mut row = RowView { head: head.clone(), cells: Vec::new() };
            for (cell, column) in cells.iter().zip(&self.columns) {
                row.cells.push(cell.view(column, part.facts));
            }
            rows.push(row);
        }
        let mut not_measured = Vec::new();
        for (place, reason) in self.reasons.iter().enumerate() {
            not_measured.push(OptionView { id: format!("{NOT_MEASURED}{place}"), html: part.facts.fill(&reason.text) });
        }
        let columns = self.columns.iter().enumerate();
        let columns = columns.map(|(place, column)| self.column_view(column, place, part.facts)).collect();
        View { form: Self::NAME, columns, rows, not_measured }
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        let heads = [String::new()].into_iter().chain(view.columns.iter().map(ColumnView::text)).collect();
        let row = |row: &RowView| [row.head.clone()].into_iter().chain(row.cells.iter().map(CellView::text)).collect();
        let rows = view.rows.iter().map(row).collect();
        let table = Outline::Rows(Cow::Owned(heads), Cow::Owned(rows));
        let rounded = view.columns.iter().flat_map(|column| {
            let sentence = rounding(column.rounding, column.round.as_ref());
            sentence.into_iter().flat_map(|sentence| [Outline::Statement(&column.head), sentence])
        });
        let reasons = Outline::Options(Some("command.draw.not_measured"), &view.not_measured);
        [table].into_iter().chain(rounded).chain((!view.not_measured.is_empty()).then_some(reasons)).collect()
    }

    fn shown(&self, _: &Answer, part: PartOf) -> String {
        let mut html = "<div class=\"table-wrap\"><table><thead><tr><td></td>".to_owned();
        for column in &self.columns {
            html.push_str(&element("th", "col", &escape(&column.head)));
        }
        html.push_str("</tr></thead><tbody>");
        for (head, cells) in self.rows.iter().zip(self.cells.chunks(self.across())) {
            html.push_str("<tr>");
            html.push_str(&element("th", "row", &escape(head)));
            for (cell, column) in cells.iter().zip(&self.columns) {
                html.push_str(&element("td", "", &cell.shown(column, part.facts)));
            }
            html.push_str("</tr>");
        }
        html.push_str("</tbody></table></div>");
        html
    }

    fn cells(&self, answer: &Answer, part: PartOf) -> Vec<AnswerView> {
        let mut all = Vec::new();
        for (cell, lacks) in self.cells.iter().zip(&answer.0) {
            if let Some(at) = cell.asked() {
                let (shown, exact) = (cell.answer(part.facts), exact(at, *lacks, part.facts));
                let (id, label) = (cell.id.clone(), cell.label.clone());
                all.push(AnswerView { id, label, shown, exact, cells: Vec::new() });
            }
        }
        all
    }

    fn exact(&self, _: &Answer, _: PartOf) -> String {
        String::new()
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        let facts = part.facts;
        let reasons = self.reasons.iter().enumerate().map(|(place, reason)| {
            let is_right = answer.0.contains(&Some(place));
            OptionReview::new(facts, facts.fill(&reason.text), is_right, false, reason.why.as_ref())
        });
        let mut reviewed = Reviewed::options(reasons);
        for (at, right) in self.measured(facts) {
            let cell = at.number.reviewed(right, facts);
            reviewed.also_right.extend(cell.also_right);
            reviewed.mistakes.extend(cell.mistakes);
        }
        reviewed
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        filled_alike(part.facts, part.id, self.reasons.iter().map(|reason| &reason.text))?;
        self.measured(part.facts).try_for_each(|(at, right)| proof::number::check(part.facts, at, right))
    }

    fn choices(&self) -> Vec<(String, bool)> {
        self.cells.iter().filter_map(|cell| Some((cell.id.clone(), cell.is_drawn()?))).collect()
    }

    fn count(&self, answer: &Answer, counts: &mut [u64]) {
        let may_lack = self.cells.iter().zip(&answer.0).filter(|(cell, _)| cell.is_drawn().is_some());
        may_lack.zip(counts).for_each(|((_, lacks), count)| *count += u64::from(lacks.is_some()));
    }
}

impl FillTable {
    /// Marks what was typed for a cell: one that was measured, or that was not for the reason at a place.
    fn mark_cell(&self, at: NumberAt, lacks: Option<usize>, facts: &Facts, answers: &Typed) -> Marked {
        let typed = typed(answers, at.id);
        let known = |place: &usize| *place < self.reasons.len();
        let said = typed.strip_prefix(NOT_MEASURED).map(|place| place.parse().ok().filter(known));
        let verdict = match (said, facts.number(at.id)) {
            (None, Some((_, right))) => return number::mark(facts, at, right, typed, answers),
            (None, None) => unmeasured(&read(typed, facts.setting.mark)),
            (Some(None), _) => Verdict::Unreadable,
            (Some(_), Some(_)) => Verdict::WasRead,
            (Some(said), None) if said == lacks => Verdict::Right,
            (Some(_), None) => Verdict::OtherReason,
        };
        let reason = lacks.and_then(|place| self.reasons.get(place));
        let is_told = matches!(verdict, Verdict::NoReading | Verdict::OtherReason);
        let mut marked = Marked::new(verdict);
        marked.html = reason.filter(|_| is_told).and_then(|reason| facts.explain(reason.why.as_ref()));
        marked
    }

    fn column_view(&self, column: &Column, place: usize, facts: &Facts) -> ColumnView {
        let asked = self.cells.iter().skip(place).step_by(self.across()).find_map(Cell::asked);
        let number = asked.map(|at| at.number.asked_view(facts.setting));
        let (rounding, round) = number.map(|number| (number.rounding, number.round)).unwrap_or_default();
        ColumnView { head: column.head.clone(), unit: column.unit_text(facts), rounding, round }
    }
}

/// An element of a table; the head of a row or of a column says so.
fn element(tag: &str, scope: &str, html: &str) -> String {
    let scope = if scope.is_empty() { String::new() } else { format!(" scope=\"{scope}\"") };
    format!("<{tag}{scope}>{html}</{tag}>")
}

/// What could be typed for a cell.
fn exact(at: NumberAt, lacks: Option<usize>, facts: &Facts) -> String {
    match (lacks, facts.number(at.id)) {
        (None, Some((_, right))) => at.number.typed_text(right, facts.setting.system),
        (place, _) => format!("{NOT_MEASURED}{}", place.unwrap_or_default()),
    }
}

/// What a number is where none was measured, however it was read.
fn unmeasured(reading: &Reading) -> Verdict {
    match reading {
        Reading::Blank => Verdict::Blank,
        Reading::Unreadable | Reading::UnknownUnit(_) => Verdict::Unreadable,
        Reading::Number(..) | Reading::Ambiguous(_) => Verdict::NoReading,
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
