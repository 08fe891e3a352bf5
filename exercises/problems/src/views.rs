//! What the page, the paper and the terminal are given of a problem: plain data, ready to be written as JSON.

use std::borrow::Cow;

use serde::Serialize;

/// A drawn value.
#[derive(Debug, Serialize)]
pub struct GivenView {
    /// The name.
    pub name: String,
    /// The number, in the unit, as it was drawn, such as `1.25` or `3/8`; or the name of the choice.
    pub value: String,
    /// The unit.
    pub unit: Option<&'static str>,
    /// As it is read.
    pub text: String,
}

/// An option, item, partner or reason.
#[derive(Debug, Serialize)]
pub struct OptionView {
    /// What to answer to choose it.
    pub id: String,
    /// What it says, as HTML.
    pub html: String,
}

/// A figure.
#[derive(Debug, Serialize)]
pub struct FigureView {
    /// The drawing, with the decimal mark of the problem.
    pub svg: String,
    /// What the columns of the list say; nothing without a list.
    pub heads: Vec<String>,
    /// The trace as a list, from which the question can be answered as well.
    pub rows: Vec<Vec<String>>,
    /// Whether an earlier part of the problem shows the same plot, so that it need not be shown again.
    pub again: bool,
}

/// A right answer.
#[derive(Debug, Serialize)]
pub struct AnswerView {
    /// The name of the part or cell.
    pub id: String,
    /// What the learner reads beside the field.
    pub label: String,
    /// As it is read; HTML.
    pub shown: String,
    /// What could be typed for it: a number with its unit to full precision, or the text in which choices cross; nothing
    /// where its cells are answered.
    pub exact: String,
    /// The cells, where the part has several fields.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cells: Vec<AnswerView>,
}

impl AnswerView {
    /// What is answered under a name of its own: the part, or each of its cells.
    pub fn fields(&self) -> impl Iterator<Item = &Self> {
        self.cells.is_empty().then_some(self).into_iter().chain(&self.cells)
    }
}

/// A line of what a part asks, for the terminal: what a page lays out, one piece after the other.
#[derive(Debug)]
pub enum Outline<'v> {
    /// The unit that is asked for.
    Unit(&'v str),
    /// A sentence, by the key of its words, with what it needs to know.
    Sentence(String, Vec<(&'static str, String)>),
    /// A statement, as HTML.
    Statement(&'v str),
    /// What can be chosen, with the key of the words above it where it needs any.
    Options(Option<&'static str>, &'v [OptionView]),
    /// What can be pointed at: the number and the name of each part, as HTML.
    Numbered(Vec<(u8, &'v str)>),
    /// A table: its head and its rows.
    Rows(Cow<'v, [String]>, Cow<'v, [Vec<String>]>),
}

/// Whether a flag is not set, and so left out of what is written.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
pub(crate) fn is_false(flag: &bool) -> bool {
    !flag
}
