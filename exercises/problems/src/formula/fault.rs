//! What is wrong with a formula as it is written.

use core::ops::Range;

use faults::Fault;

/// What is wrong with a formula; its place is the bytes in the formula's text.
pub type FormulaFault = Fault<Range<usize>>;
