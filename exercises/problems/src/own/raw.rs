//! A relation of a course's own as its author wrote it: the front matter, read but not checked.

use serde::Deserialize;

use crate::recipe::raw::Entries;
#[cfg(feature = "schema")]
use crate::recipe::schema;
use crate::recipe::written::RawPair;

/// The front matter of a relation.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawRelation {
    /// The version of the format that it is written in.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Format"))]
    pub format: u32,
    /// The name of the relation, by which formulas call it.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Id"))]
    pub id: String,
    /// What it is called.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub title: String,
    /// What it is for, in a sentence.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub summary: String,
    /// What it takes, by name, in the order of its calculator.
    pub inputs: Entries<RawInput>,
    /// Its formulas by name, in order: each may use the inputs and what the earlier ones gave. The last gives the result.
    pub formulas: Option<Entries<String>>,
    /// The same where the trade prints other formulas in each system of units.
    pub forms: Option<RawForms>,
    /// Symbols in LaTeX for what the formulas give on the way to the result, by name.
    #[serde(default)]
    pub symbols: Entries<String>,
    /// What the last formula gives.
    pub result: RawResult,
    /// Where it comes from: a document with its edition and clause, or common practice.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub source: String,
    /// How well the source is known.
    #[cfg_attr(feature = "schema", schemars(extend("enum" = relief::Status::ALL.map(relief::Status::id))))]
    pub status: String,
    /// What to watch for.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// A worked example from its source, which must come out.
    pub check: Option<RawCheck>,
}

/// What a relation takes.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawInput {
    /// What it is, as the calculator calls it.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub text: String,
    /// Its symbol in LaTeX.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub symbol: String,
    /// The kind of quantity.
    #[cfg_attr(feature = "schema", schemars(extend("enum" = relief::Kind::NAMED.map(relief::Kind::id))))]
    pub kind: String,
    /// The values for which it holds, such as "1 gpm .. 500 gpm".
    pub range: String,
}

/// The formulas for each system of units.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawForms {
    /// As they are printed in customary units.
    pub us: Entries<String>,
    /// As they are printed in SI units.
    pub si: Entries<String>,
}

/// What a relation gives.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawResult {
    /// What it is, as the calculator calls it.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub text: String,
    /// Its symbol in LaTeX.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub symbol: String,
    /// The kind of quantity.
    #[cfg_attr(feature = "schema", schemars(extend("enum" = relief::Kind::NAMED.map(relief::Kind::id))))]
    pub kind: String,
    /// The units that it is given in; none for a bare number.
    pub unit: Option<RawPair>,
    /// The side to which it may be rounded without becoming dangerous: up for a size, down for a limit.
    #[cfg_attr(feature = "schema", schemars(extend("enum" = ["up", "down"])))]
    pub safe_side: Option<String>,
}

/// A worked example.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RawCheck {
    /// The values that it starts from, by the names of the inputs.
    pub given: Entries<String>,
    /// What must come out.
    pub gives: String,
    /// How near it must come, such as "0.5 %".
    pub within: String,
    /// Where the example comes from.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub source: String,
    /// Who worked it again.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Words"))]
    pub checked_by: String,
}

impl RawRelation {
    /// Its formulas with the key that each list of them stands under.
    pub(super) fn lists(&self) -> Vec<(Vec<&'static str>, &Entries<String>)> {
        let same = self.formulas.iter().map(|list| (vec!["formulas"], list));
        let each =
            self.forms.iter().flat_map(|forms| [(vec!["forms", "us"], &forms.us), (vec!["forms", "si"], &forms.si)]);
        same.chain(each).collect()
    }
}
