//! A table to fill in as its author writes it, and the checks that make one of it.

use core::ops::RangeInclusive;

use faults::Code;
use relief::Kind;
use serde::Deserialize;

use super::cells::{Cell, Column, Content, FillTable};
use crate::forms::keys::{RawAlsoRight, RawRound, SaidText, keys};
use crate::forms::options::Choice;
use crate::formula::{Condition, NameKind};
use crate::number::check::{self, NumberKeys, asked_unit};
use crate::recipe::checking::{Check, Path};
#[cfg(feature = "schema")]
use crate::recipe::schema;
use crate::recipe::written::{Entries, RawRight, RawText};
use crate::recipe::{Pair, UnitRef};

/// More do not fit on a sheet of paper.
pub(super) const COLUMNS: RangeInclusive<usize> = 1..=6;
/// As for the columns.
pub(super) const ROWS: RangeInclusive<usize> = 1..=8;

/// With a single reason, who finds that nothing was measured has nothing left to say.
pub(super) const FEWEST_REASONS: usize = 2;

/// The keys of a number that its column says for all its cells; `within` and `usual_range` where the cell does not.
const OF_COLUMN: [&str; 6] = ["unit", "within", "limit", "unsafe_fails", "round", "usual_range"];

keys! {
    /// The keys of a table to fill in.
    Keys {
        /// The columns, from left to right.
        columns: Vec<RawColumn>,
        /// The rows, from top to bottom.
        rows: Vec<RawRow>,
        /// The reasons that are offered for what was not measured.
        not_measured: Vec<RawReason>,
    }
}

/// One column; what it says of a number holds for all its cells.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawColumn {
    /// Its name.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Name"))]
    pub id: String,
    /// What stands above it.
    pub head: String,
    /// The unit of what is in it.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::UnitText>"))]
    pub unit: Option<RawText>,
    /// How far from the right answer still counts.
    pub within: Option<RawText>,
    /// `upper` or `lower`: the answers are limits, and that side of them is unsafe.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::LimitName>"))]
    pub limit: Option<String>,
    /// Whether an answer on the unsafe side fails the whole question.
    pub unsafe_fails: Option<bool>,
    /// How the answers have to be rounded.
    pub round: Option<RawRound>,
    /// Between which values such numbers usually lie.
    pub usual_range: Option<RawText>,
}

/// One row.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawRow {
    /// Its name.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Name"))]
    pub id: String,
    /// What stands before it.
    pub head: String,
    /// Its cells, by the name of their column.
    pub cells: Entries<RawCell>,
}

/// One cell: `given` or `answer`.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = schema::given_or_answer))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawCell {
    /// The name of the draw that it shows.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Name>"))]
    pub given: Option<String>,
    /// The formula of the right answer.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub answer: Option<String>,
    /// How far from the right answer still counts, where the column does not say it.
    pub within: Option<RawText>,
    /// Between which values the number usually lies, where the column does not say it.
    pub usual_range: Option<RawText>,
    /// Other formulas that are right as well, each with when it holds.
    pub also_right: Option<Vec<RawAlsoRight>>,
    /// Formulas of the answers that named mistakes give.
    pub mistakes: Option<Entries<String>>,
    /// When it was not measured: a condition for each reason by its name. It may be empty: then that is never right.
    pub not_measured: Option<Entries<RawRight>>,
}

/// A reason for which something was not measured.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawReason {
    /// Its name.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Name"))]
    pub id: String,
    /// What it says, with holes.
    pub text: String,
    /// What is told where it is the right answer, and another one was given.
    pub why: Option<String>,
}

impl Keys {
    pub(super) fn cells(&self) -> impl Iterator<Item = &RawCell> {
        self.rows.iter().flatten().flat_map(|row| &row.cells.0).map(|(_, cell)| cell)
    }

    /// The texts that learners read.
    pub(super) fn texts(&self) -> Vec<SaidText<'_>> {
        let columns = self.columns.iter().flatten().enumerate();
        let columns = columns.map(|(place, column)| SaidText::listed("columns", place, "head", &column.head));
        let rows = self.rows.iter().flatten().enumerate();
        let rows = rows.map(|(place, row)| SaidText::listed("rows", place, "head", &row.head));
        let reasons = self.not_measured.iter().flatten().enumerate().flat_map(|(place, reason)| {
            let texts = [("text", Some(&reason.text)), ("why", reason.why.as_ref())];
            texts.into_iter().filter_map(move |(key, text)| Some(SaidText::listed("not_measured", place, key, text?)))
        });
        columns.chain(rows).chain(reasons).collect()
    }
}

/// Checks and compiles a table.
pub(super) fn table(part: &str, keys: &Keys, path: &Path, check: &mut Check) -> FillTable {
    let columns = keys.columns.as_deref().unwrap_or_default();
    let rows = keys.rows.as_deref().unwrap_or_default();
    let reasons = keys.not_measured.as_deref().unwrap_or_default();
    heads(COLUMNS, columns.iter().map(|column| (&*column.id, &*column.head)).collect(), &path.key("columns"), check);
    heads(ROWS, rows.iter().map(|row| (&*row.id, &*row.head)).collect(), &path.key("rows"), check);
    if rows.iter().flat_map(|row| &row.cells.0).all(|(_, cell)| cell.answer.is_none()) {
        check.faults.push(path.key("rows").fault(Code::RecipeTableAsksNothing));
    }
    let writing = Writing { part, columns, rows, reasons, path };
    let reasons = writing.reasons(check);
    let cells: Vec<_> = (0..rows.len()).flat_map(|index| writing.row(index, check)).collect();
    let columns = columns.iter().enumerate().filter_map(|(index, raw)| writing.column(raw, index, &cells, check));
    let columns = columns.collect();
    FillTable { columns, rows: rows.iter().map(|row| row.head.clone()).collect(), cells, reasons }
}

/// Checks how many columns or rows there are, and what they are called.
fn heads(size: RangeInclusive<usize>, all: Vec<(&str, &str)>, path: &Path, check: &mut Check) {
    let (names, heads): (Vec<_>, Vec<_>) = all.into_iter().unzip();
    check.size(names.len(), size, Code::RecipeTableSize, path);
    check.names_within(&names, path);
    for (index, head) in heads.into_iter().enumerate() {
        check.words_alone(head, &path.index(index).key("head"));
    }
}

/// What the cells of a table are checked with.
struct Writing<'k> {
    part: &'k str,
    columns: &'k [RawColumn],
    rows: &'k [RawRow],
    reasons: &'k [RawReason],
    path: &'k Path,
}

impl RawCell {
    /// Whether it has no key of a number.
    fn is_only_given(&self) -> bool {
        self.within.is_none() && self.usual_range.is_none() && self.mistakes.is_none()
    }

    /// The keys of its number: its own, or those of its column.
    fn number<'k>(&'k self, column: &'k RawColumn) -> NumberKeys<'k> {
        NumberKeys {
            answer: self.answer.as_deref(),
            unit: column.unit.as_ref(),
            within: self.within.as_ref().or(column.within.as_ref()),
            limit: column.limit.as_deref(),
            unsafe_fails: column.unsafe_fails,
            round: column.round.as_ref(),
            usual_range: self.usual_range.as_ref().or(column.usual_range.as_ref()),
            also_right: self.also_right.as_deref(),
            mistakes: self.mistakes.as_ref(),
        }
    }

    /// Whether a fault in a key of its number is one of the column.
    fn is_of_column(&self, key: &str) -> bool {
        match key {
            "within" => self.within.is_none(),
            "usual_range" => self.usual_range.is_none(),
            key => OF_COLUMN.contains(&key),
        }
    }
}

impl RawColumn {
    /// The keys of a number that it has for its cells.
    fn for_cells(&self) -> impl Iterator<Item = &'static str> {
        let all = [
            ("within", self.within.is_some()),
            ("limit", self.limit.is_some()),
            ("unsafe_fails", self.unsafe_fails.is_some()),
            ("round", self.round.is_some()),
            ("usual_range", self.usual_range.is_some()),
        ];
        all.into_iter().filter(|(_, given)| *given).map(|(key, _)| key)
    }
}

impl Writing<'_> {
    /// The reasons that are offered. What is offered must be right on some draw.
    fn reasons(&self, check: &mut Check) -> Vec<Choice> {
        let path = self.path.key("not_measured");
        let cells = || self.rows.iter().flat_map(|row| &row.cells.0).filter_map(|(_, cell)| cell.not_measured.as_ref());
        let can_lack = cells().flat_map(|when| &when.0).any(|(_, when)| !matches!(when, RawRight::No));
        let is_offered = !self.reasons.is_empty() || cells().next().is_some();
        if is_offered && !can_lack {
            check.faults.push(path.fault(Code::RecipeTableAllMeasured));
        }
        if (1..FEWEST_REASONS).contains(&self.reasons.len()) {
            check.faults.push(path.fault(Code::RecipeOptionsFew).with("least", FEWEST_REASONS));
        }
        check.names_within(&self.reasons.iter().map(|reason| &*reason.id).collect::<Vec<_>>(), &path);
        let reasons = self.reasons.iter().enumerate();
        let reasons = reasons.map(|(index, raw)| Choice {
            text: check.text(&raw.text, &path.index(index).key("text")),
            why: check.why(raw.why.as_deref(), &path.index(index)),
            value: None,
            right: None,
            is_unsafe: None,
        });
        reasons.collect()
    }

    fn row(&self, index: usize, check: &mut Check) -> Vec<Cell> {
        let raw = &self.rows[index];
        let path = self.path.key("rows").index(index).key("cells");
        let known = self.columns.iter().map(|column| column.id.as_str()).collect::<Vec<_>>();
        for (name, _) in raw.cells.0.iter().filter(|(name, _)| !known.contains(&name.as_str())) {
            let fault = path.key(name).fault(Code::RecipeTableCellUnknown).with("found", name);
            check.faults.push(fault.known(known.join(", ")));
        }
        let mut cells = Vec::new();
        for (place, column) in self.columns.iter().enumerate() {
            match raw.cells.0.iter().find(|(name, _)| *name == column.id) {
                Some((name, cell)) => cells.extend(self.cell(cell, (raw, column, place), &path.key(name), check)),
                None => check.faults.push(path.fault(Code::RecipeTableCellMissing).with("column", &column.id)),
            }
        }
        cells
    }

    fn cell(
        &self,
        raw: &RawCell,
        (row, column, place): (&RawRow, &RawColumn, usize),
        path: &Path,
        check: &mut Check,
    ) -> Option<Cell> {
        let (id, since) = (format!("{}.{}.{}", self.part, row.id, column.id), check.faults.len());
        let not_measured =
            raw.not_measured.as_ref().map(|when| self.not_measured(when, &path.key("not_measured"), check));
        let holds = match (&raw.given, &raw.answer) {
            (Some(name), None) if raw.is_only_given() => given(name, &path.key("given"), check),
            (None, Some(_)) => {
                check::number(raw.number(column), path, check).map(|asked| Content::Asked(Box::new(asked)))
            }
            _ => {
                check.faults.push(path.fault(Code::RecipeTableCellForm));
                None
            }
        };
        check.move_faults(since, |key| raw.is_of_column(key), path, &self.path.key("columns").index(place));
        match &holds {
            None => check.broken.push(id.clone()),
            Some(Content::Given(_)) => {}
            Some(Content::Asked(number)) => check.names.push((id.clone(), NameKind::Quantity(number.kind))),
        }
        Some(Cell { id, label: format!("{}, {}", row.head, column.head), holds: holds?, not_measured })
    }

    /// A condition for each of the reasons.
    fn not_measured(&self, raw: &Entries<RawRight>, path: &Path, check: &mut Check) -> Vec<Condition> {
        let mut all = vec![Condition::never(); self.reasons.len()];
        for (name, when) in &raw.0 {
            let path = path.key(name);
            match self.reasons.iter().position(|reason| reason.id == *name) {
                Some(place) => all[place] = check.right(when, &path).flatten().unwrap_or_else(Condition::never),
                None => {
                    let known = self.reasons.iter().map(|reason| reason.id.as_str()).collect::<Vec<_>>().join(", ");
                    check.faults.push(path.fault(Code::RecipeTableReason).with("found", name).known(known));
                }
            }
        }
        all
    }

    /// A column whose cells are all given has the unit of the first of them; any other that of its numbers.
    fn column(&self, raw: &RawColumn, index: usize, all: &[Cell], check: &mut Check) -> Option<Column> {
        let cells = || self.rows.iter().flat_map(|row| &row.cells.0).filter(|(name, _)| *name == raw.id);
        let inside = |cell: &&Cell| cell.id.rsplit('.').next() == Some(&*raw.id);
        let of_number = all.iter().filter(inside).find_map(Cell::asked).map(|at| at.number.unit);
        let takes = |key: &str| cells().any(|(_, cell)| cell.answer.is_some() && cell.is_of_column(key));
        for key in raw.for_cells().filter(|key| !takes(key)) {
            let path = self.path.key("columns").index(index).key(key);
            check.faults.push(path.fault(Code::RecipeTableColumnIdle).with("key", key));
        }
        let none = Pair { us: UnitRef(None), si: UnitRef(None) };
        let unit = match (of_number, &raw.unit) {
            (Some(unit), _) => unit,
            (None, Some(unit)) if cells().all(|(_, cell)| cell.answer.is_none()) => {
                let given = cells().find_map(|(_, cell)| kind(cell.given.as_deref()?, check));
                check.keep(asked_unit(
                    Some(unit),
                    given.unwrap_or(Kind::Number),
                    &self.path.key("columns").index(index).key("unit"),
                ))?
            }
            _ => none,
        };
        Some(Column { head: raw.head.clone(), unit })
    }
}

/// What is drawn under a name.
fn given(name: &str, path: &Path, check: &mut Check) -> Option<Content> {
    let known = check.drawn().map(|(name, _)| name.as_str()).collect::<Vec<_>>();
    if known.contains(&name) {
        return Some(Content::Given(name.to_owned()));
    }
    let fault = path.fault(Code::RecipeTableGiven).with("found", name).known(known.join(", "));
    if !check.broken.iter().any(|broken| broken == name) {
        check.faults.push(fault);
    }
    None
}

/// The kind of what is drawn under a name, where it is a quantity.
fn kind(name: &str, check: &Check) -> Option<Kind> {
    match &check.names.iter().find(|(known, _)| known == name)?.1 {
        NameKind::Quantity(kind) => Some(*kind),
        NameKind::Choice(_) => None,
    }
}
