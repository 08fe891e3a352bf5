//! How a relation is worked: by a function of the core, or by formulas that came with a course.

use core::any::Any;
use core::fmt;

use super::error::RelationError;
use super::inputs::{Argument, Arguments};
use super::outputs::Outputs;
use crate::quantity::Quantity;
use crate::system::{Manner, System};

/// How a relation is worked.
#[derive(Clone, Copy, Debug)]
pub enum Run {
    /// By a function of the core; called only with arguments that were checked.
    Native(fn(&Arguments) -> Result<Outputs, RelationError>),
    /// By formulas.
    Formulas(&'static dyn Formulas),
}

/// Formulas that are worked one after another, each with what the earlier ones gave.
pub trait Formulas: Sync {
    /// What each of them gives, in order; the last is the result. The arguments were checked and stand in the order of the
    /// inputs.
    ///
    /// # Errors
    /// [`RelationError`], where one of them has no value.
    fn lines(&self, given: &[Argument], manner: Manner) -> Result<Vec<Quantity>, RelationError>;

    /// The place of the formula of a name in the form of a system.
    fn place(&self, name: &str, form: System) -> Option<usize>;

    /// Itself, for who knows what it is made of.
    fn any(&self) -> &dyn Any;
}

/// Without what is in them: to print that would bring the engine all that formulas are made of.
impl fmt::Debug for dyn Formulas {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("formulas")
    }
}

/// What a formula gives on the way to the result.
#[derive(Debug)]
pub struct Step {
    /// The name.
    pub name: &'static str,
    /// The symbol as LaTeX.
    pub symbol: &'static str,
}

impl Run {
    pub(super) fn work(self, arguments: &Arguments) -> Result<Outputs, RelationError> {
        match self {
            Self::Native(run) => run(arguments),
            Self::Formulas(formulas) => {
                let lines = formulas.lines(arguments.given, arguments.manner)?;
                lines.last().copied().map(Outputs::One).ok_or(RelationError::NotFinite)
            }
        }
    }
}
