//! A formula on a line of its own waits for the words that explain it.

use faults::Code;

use super::checking::Checking;
use crate::fault::{Fault, Place};

/// The place of a formula that no words have explained so far.
#[derive(Default)]
pub(super) struct Waiting(Option<Place>);

impl Waiting {
    /// Notes a formula, unless an earlier one waits.
    pub(super) fn start(&mut self, place: impl FnOnce() -> Place) {
        self.0.get_or_insert_with(place);
    }

    /// Takes text after a formula: any words explain it.
    pub(super) fn explain(&mut self, text: &str) {
        if self.0.is_some() && text.contains(char::is_alphabetic) {
            self.0 = None;
        }
    }

    /// Something else begins: a formula that is still waiting is a fault.
    pub(super) fn end(&mut self, checking: &mut Checking) {
        if let Some(place) = self.0.take() {
            checking.tell(Fault::at(Code::FormulaWithoutWords, place));
        }
    }
}
