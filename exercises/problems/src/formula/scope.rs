//! The names that a formula may use, and their values.

use core::ops::{Deref, DerefMut};

use relief::{Kind, Quantity, Relation, System};

/// What a name in a formula may be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NameKind {
    /// A quantity of a kind.
    Quantity(Kind),
    /// One of these named choices.
    Choice(Vec<String>),
}

/// The names that a formula may use: of values, and of the relations of its course beside those of the core.
#[derive(Clone, Debug, Default)]
pub struct Names {
    values: Vec<(String, NameKind)>,
    own: Vec<&'static Relation>,
}

impl Names {
    /// No names beside the relations of the core.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// No names of values yet, and these relations beside those of the core.
    #[must_use]
    pub fn with(own: &[&'static Relation]) -> Self {
        Self { values: Vec::new(), own: own.to_vec() }
    }

    /// The relation that is called so.
    #[must_use]
    pub fn relation(&self, id: &str) -> Option<&'static Relation> {
        relief::find(id).or_else(|| self.own.iter().find(|relation| relation.id == id).copied())
    }

    /// What all relations are called.
    pub fn relations(&self) -> impl Iterator<Item = &'static str> {
        relief::relations().map(|relation| relation.id).chain(self.own.iter().map(|relation| relation.id))
    }
}

impl Deref for Names {
    type Target = Vec<(String, NameKind)>;

    fn deref(&self) -> &Self::Target {
        &self.values
    }
}

impl DerefMut for Names {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.values
    }
}

impl From<Vec<(String, NameKind)>> for Names {
    fn from(values: Vec<(String, NameKind)>) -> Self {
        Self { values, own: Vec::new() }
    }
}

impl FromIterator<(String, NameKind)> for Names {
    fn from_iter<I: IntoIterator<Item = (String, NameKind)>>(values: I) -> Self {
        values.into_iter().collect::<Vec<_>>().into()
    }
}

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
