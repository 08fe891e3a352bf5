//! The names that a formula may use, and their values.

use relief::{Kind, Quantity, System};

/// What a name in a formula may be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NameKind {
    /// A quantity of a kind.
    Quantity(Kind),
    /// One of these named choices.
    Choice(Vec<String>),
}

/// The names that a formula may use.
pub type Names = Vec<(String, NameKind)>;

/// The value of a name or formula.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity.
    Quantity(Quantity),
    /// A named choice.
    Choice(String),
}

/// The values of the names of a formula, and the system of units that it is worked in.
#[derive(Clone, Debug, PartialEq)]
pub struct Scope {
    system: System,
    values: Vec<(String, Value)>,
}

impl Scope {
    /// No names yet.
    #[must_use]
    pub fn new(system: System) -> Self {
        Self { system, values: Vec::new() }
    }

    /// The system, whose printed forms are taken.
    #[must_use]
    pub fn system(&self) -> System {
        self.system
    }

    /// The value of a name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.values.iter().find(|(known, _)| known == name).map(|(_, value)| value)
    }

    /// Gives a name a value, in place of an earlier one.
    pub fn set(&mut self, name: &str, value: Value) {
        match self.values.iter_mut().find(|(known, _)| known == name) {
            Some((_, old)) => *old = value,
            None => self.values.push((name.to_owned(), value)),
        }
    }
}

impl Default for Scope {
    /// No names, worked in SI.
    fn default() -> Self {
        Self::new(System::Si)
    }
}
