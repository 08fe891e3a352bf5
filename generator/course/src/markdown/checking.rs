//! A text while it is checked.

use std::ops::Range;

use faults::Code;

use super::references::References;
use super::text::Text;
use crate::fault::Fault;

/// A text, what it may refer to, and what is wrong with it so far.
pub(super) struct Checking<'f, 'a> {
    pub(super) text: Text<'a>,
    pub(super) references: &'a References<'a>,
    pub(super) faults: &'f mut Vec<Fault>,
}

impl Checking<'_, '_> {
    /// Notes a fault.
    pub(super) fn tell(&mut self, fault: Fault) {
        self.faults.push(fault);
    }

    /// Notes a fault that needs no values.
    pub(super) fn refuse(&mut self, code: Code, range: &Range<usize>) {
        self.faults.push(self.text.fault(code, range));
    }

    /// Whether a fault of this kind was noted.
    pub(super) fn has(&self, code: Code) -> bool {
        self.faults.iter().any(|fault| fault.code == code)
    }
}
