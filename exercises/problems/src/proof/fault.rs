//! What proof refuses a recipe for.

use faults::Fault;
use relief::System;

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
