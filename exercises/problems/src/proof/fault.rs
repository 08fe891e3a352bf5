//! What proof refuses a recipe for.

use faults::{Code, Fault};

use crate::draw::DrawError;
use crate::recipe::System;

/// Why a recipe is refused.
pub type ProofFault = Fault<Drawn>;

/// The draw that shows what is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// The seed.
    pub seed: u64,
    /// The system of units.
    pub system: System,
}

/// A rule that a draw breaks, before it is said which draw.
pub(super) type Found = Fault<()>;

pub(super) fn found<const N: usize>(code: Code, values: [(&'static str, String); N]) -> Found {
    Fault { values: values.into(), ..Fault::at(code, ()) }
}

/// The rule that is broken where nothing can be drawn.
pub(super) fn of_draw(error: &DrawError) -> Found {
    let (code, part, reason) = match error {
        DrawError::NeverMet => (Code::ProofNeverMet, "", String::new()),
        DrawError::NoValue(name, error) => (Code::ProofNoValue, name.as_str(), error.to_string()),
        DrawError::RightOptions(name, count) => (Code::ProofRightOptions, name.as_str(), count.to_string()),
        DrawError::AllOrNone(name) => (Code::ProofAllOrNone, name.as_str(), String::new()),
        DrawError::Tie(name) => (Code::ProofTie, name.as_str(), String::new()),
        DrawError::NoFigure(name, rule) => (Code::ProofNoFigure, name.as_str(), rule.clone()),
    };
    found(code, [("part", part.to_owned()), ("error", reason)])
}
