//! What proof refuses a recipe for.

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
