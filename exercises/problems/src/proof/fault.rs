//! What proof refuses a recipe for.

use crate::draw::DrawError;
use crate::recipe::System;

/// Why a recipe is refused.
#[derive(Clone, Debug, PartialEq)]
pub struct ProofFault {
    /// The rule that it breaks.
    pub code: &'static str,
    /// The seed whose draw shows it.
    pub seed: u64,
    /// The system of units.
    pub system: System,
    /// What a message needs to know.
    pub values: Vec<(&'static str, String)>,
}

/// A rule that a draw breaks, with what a message needs to know.
pub(super) type Found = (&'static str, Vec<(&'static str, String)>);

pub(super) fn found<const N: usize>(code: &'static str, values: [(&'static str, String); N]) -> Found {
    (code, values.into())
}

/// The rule that is broken where nothing can be drawn.
pub(super) fn of_draw(error: &DrawError) -> Found {
    let (code, part, reason) = match error {
        DrawError::NeverMet => ("proof-never-met", "", String::new()),
        DrawError::NoValue(name, error) => ("proof-no-value", name.as_str(), error.to_string()),
        DrawError::RightOptions(name, count) => ("proof-right-options", name.as_str(), count.to_string()),
        DrawError::AllOrNone(name) => ("proof-all-or-none", name.as_str(), String::new()),
        DrawError::Tie(name) => ("proof-tie", name.as_str(), String::new()),
        DrawError::NoFigure(name, rule) => ("proof-no-figure", name.as_str(), rule.clone()),
    };
    found(code, [("part", part.to_owned()), ("error", reason)])
}
