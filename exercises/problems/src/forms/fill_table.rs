//! A small table of numbers, such as a test record: some cells are given, the others are filled in.
//!
//! Each cell that is asked is a number of its own, named `part.row.column`, and is answered, marked and carried on as a
//! part would be. Where it was not measured, that and the reason are what is right.

mod view;
mod written;

#[cfg(feature = "schema")]
use core::ops::RangeInclusive;
use relief::Quantity;
use serde::Serialize;

use super::form::AnswerForm;
use super::keys::{PartKeys, SaidText};
use super::number::mistake_names;
use super::options::{Choice, is_drawn};
use crate::answer::{Reading, read};
use crate::facts::{DrawError, Facts, NumberAt, PartOf};
use crate::formula::{Condition, Scope};
use crate::number::{self, Number};
use crate::proof;
use crate::proof::found::{Found, filled_alike};
use crate::recipe::checking::{Check, Path, Step};
use crate::recipe::{Pair, UnitRef};
use crate::review::{OptionReview, Reviewed};
use crate::seed::Seed;
use crate::stored::{stored_cases, stored_fields};
use crate::template::escape;
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::{AnswerView, Outline};
use view::View;
use written::Keys;
#[cfg(feature = "schema")]
use written::{COLUMNS, FEWEST_REASONS, ROWS};

/// What is answered for a cell that was not measured: this, and the place of the reason.
const NOT_MEASURED: &str = "not measured: ";

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

/// For each cell, in order: the place of the reason for which it was not measured; none where it was.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer(Vec<Option<usize>>);

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
        let mut all = Vec::with_capacity(self.cells.len());
        for cell in &self.cells {
            if let Content::Asked(number) = &cell.holds {
                number.draw(&cell.id, seed, facts)?;
            }
            let lacks = cell.lacks(&facts.scope)?;
            if let Some(reason) = lacks.and_then(|place| self.reasons.get(place)) {
                let said = format!("{}: {}", facts.word("answers.not_measured"), facts.fill(&reason.say));
                facts.answers.push((cell.id.clone(), said));
            }
            all.push(lacks);
        }
        Ok(Answer(all))
    }

    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let mut cells = Vec::with_capacity(self.cells.len());
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
        view::of(self, part.facts)
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        view.outline()
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
        let mut all = Vec::with_capacity(self.cells.len());
        for (place, (cell, lacks)) in self.cells.iter().zip(&answer.0).enumerate() {
            let column = self.columns.get(place % self.across());
            if let Some((at, column)) = cell.asked().zip(column) {
                all.push(AnswerView {
                    id: cell.id.clone(),
                    label: cell.label.clone(),
                    shown: cell.shown(column, part.facts),
                    exact: exact(at, *lacks, part.facts),
                    cells: Vec::new(),
                });
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
            OptionReview::new(facts, facts.fill(&reason.say), is_right, false, reason.why.as_ref())
        });
        Reviewed {
            mistakes: self.measured(facts).flat_map(|(at, right)| at.number.reviewed_mistakes(right, facts)).collect(),
            options: reasons.collect(),
        }
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        filled_alike(part.facts, part.id, self.reasons.iter().map(|reason| &reason.say))?;
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
    /// How many cells a row has.
    fn across(&self) -> usize {
        self.columns.len().max(1)
    }

    /// The numbers that it asks for.
    fn asked(&self) -> impl Iterator<Item = NumberAt<'_>> {
        self.cells.iter().filter_map(Cell::asked)
    }

    /// Those that were measured, each with what is right.
    fn measured<'f>(&self, facts: &'f Facts<'f>) -> impl Iterator<Item = (NumberAt<'f>, Quantity)> {
        self.asked().filter_map(|at| facts.number(at.id))
    }

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
    /// The number that it asks for.
    fn asked(&self) -> Option<NumberAt<'_>> {
        match &self.holds {
            Content::Given(_) => None,
            Content::Asked(number) => Some(NumberAt { id: &self.id, label: &self.label, number }),
        }
    }

    /// The place of the reason for which it was not measured; `None` where it was.
    fn lacks(&self, scope: &Scope) -> Result<Option<usize>, DrawError> {
        let (mut found, mut count) = (None, 0);
        for (place, when) in self.not_measured.iter().flatten().enumerate() {
            if when.holds(scope).map_err(|error| DrawError::NoValue(self.id.clone(), error))? {
                (found, count) = (Some(place), count + 1);
            }
        }
        if count > 1 { Err(DrawError::RightOptions(self.id.clone(), count)) } else { Ok(found) }
    }

    /// Whether it depends on what is drawn that it was not measured; `None` where it is never so, or it is not asked.
    fn is_drawn(&self) -> Option<bool> {
        let possible = || self.not_measured.iter().flatten().filter(|when| **when != Condition::never());
        self.asked()?;
        possible().next()?;
        Some(possible().any(|when| is_drawn(Some(when))))
    }

    /// What belongs in it, as HTML: a given number in the unit of its column without that unit.
    fn shown(&self, column: &Column, facts: &Facts) -> String {
        if let Some(said) = facts.answer(&self.id) {
            return said.to_owned();
        }
        let unit = column.unit.of(facts.setting.system).0.map(|unit| unit.symbol);
        match &self.holds {
            Content::Asked(_) => format!("<strong>{}</strong>", escape(&facts.text(&self.id))),
            Content::Given(name) => match facts.givens.iter().find(|given| given.name == *name) {
                Some(given) if unit.is_some() && given.unit == unit => escape(&facts.setting.mark.print(&given.value)),
                _ => escape(&facts.text(name)),
            },
        }
    }
}
