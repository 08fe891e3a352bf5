//! The made-up numbers of a lesson: named in its front matter, so that the file has each in one place.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use faults::Code;
use problems::display;
use problems::formula::{Formula, NameKind, Names, Scope, Value, literal};
use problems::recipe::raw::Entries;
use problems::template::is_name;
use relief::units::Unit;
use relief::{Exact, Kind, Quantity, System};

use crate::fault::Fault;
use crate::markdown::References;
use crate::quantities::is_unit;
use crate::yaml::{Yaml, key};

/// The key of the front matter.
pub(crate) const KEY: &str = "scenario";

/// One value.
#[derive(Debug)]
pub(crate) struct Given {
    /// As its author wrote it.
    pub(crate) text: String,
    pub(crate) unit: Option<&'static Unit>,
    exact: Exact,
    /// As it is printed.
    pub(crate) shown: String,
}

impl Given {
    fn kind(&self) -> Kind {
        self.unit.map_or(Kind::Number, Unit::usual_kind)
    }

    /// The number in SI units.
    pub(crate) fn quantity(&self) -> Quantity {
        let number = self.exact.to_f64();
        self.unit.map_or(Quantity::new(number, Kind::Number), |unit| unit.quantity(number, unit.usual_kind()))
    }
}

/// The values of a lesson, in the order of its author.
#[derive(Debug)]
pub(crate) struct Scenario {
    given: Vec<Given>,
    /// The names of the values, for formulas.
    pub(crate) names: Names,
    /// The values themselves, for formulas: worked in customary units, and in SI.
    scopes: [Scope; 2],
    /// Names whose values have faults. Using them is not another fault.
    lost: Vec<String>,
}

/// What texts without made-up numbers have.
pub(crate) static NONE: LazyLock<Scenario> = LazyLock::new(Scenario::default);

impl Default for Scenario {
    fn default() -> Self {
        let (given, names, lost) = Default::default();
        Self { given, names, scopes: [System::Us, System::Si].map(Scope::new), lost }
    }
}

impl Scenario {
    /// Reads the values, and says what is wrong with them. They are printed with the decimal mark of the course.
    pub(crate) fn read(yaml: &Yaml, raw: &Entries<String>, references: &References, faults: &mut Vec<Fault>) -> Self {
        let mark = references.mark();
        let mut scenario = Self { names: Names::with(&references.relations), ..Self::default() };
        for (name, text) in &raw.0 {
            if !is_name(name) || is_unit(name) {
                faults.push(Fault::at(Code::ScenarioName, yaml.key_place(&[key(KEY)], name)).with("found", name));
                scenario.lost.push(name.clone());
            } else if let Some((exact, style, unit)) = literal(text) {
                let shown = display::number(exact, style, unit, mark);
                scenario.add(name, Given { text: text.clone(), unit, exact, shown });
            } else {
                let fault = Fault::at(Code::ScenarioValue, yaml.place(&[key(KEY), key(name)]));
                faults.push(fault.with("found", text).with("name", name));
                scenario.lost.push(name.clone());
            }
        }
        scenario
    }

    fn add(&mut self, name: &str, given: Given) {
        self.names.push((name.to_owned(), NameKind::Quantity(given.kind())));
        self.scopes.iter_mut().for_each(|scope| scope.set(name, Value::Quantity(given.quantity())));
        self.given.push(given);
    }

    /// The place of a name among the values.
    pub(crate) fn find(&self, name: &str) -> Option<usize> {
        self.names.iter().position(|(known, _)| known == name)
    }

    /// The value at a place.
    pub(crate) fn given(&self, place: usize) -> &Given {
        &self.given[place]
    }

    /// The names of the values.
    pub(crate) fn known(&self) -> impl Iterator<Item = &str> {
        self.names.iter().map(|(name, _)| name.as_str())
    }

    /// Whether a name is one whose value has a fault of its own.
    pub(crate) fn is_lost(&self, name: &str) -> bool {
        self.lost.iter().any(|lost| lost == name)
    }

    /// The values for a formula whose result is shown in a unit, worked in the system that its units belong to.
    pub(crate) fn scope_of(&self, formula: &Formula, result: Option<&Unit>) -> &Scope {
        let unit_of = |name: &str| self.find(name).and_then(|place| self.given(place).unit);
        let [us, si] = &self.scopes;
        if formula.system(unit_of, result) == Some(System::Us) { us } else { si }
    }

    /// The places of the values that a formula names.
    pub(crate) fn named_in(&self, formula: &str) -> impl Iterator<Item = usize> {
        names_in(formula).filter_map(|word| self.find(word))
    }

    /// A fault for each value that nothing uses.
    pub(crate) fn unused(&self, yaml: &Yaml, used: &BTreeSet<usize>, faults: &mut Vec<Fault>) {
        for (_, name) in self.known().enumerate().filter(|(place, _)| !used.contains(place)) {
            faults.push(Fault::at(Code::ScenarioUnused, yaml.key_place(&[key(KEY)], name)).with("name", name));
        }
    }
}

/// The words of a formula that may name values. A name before a colon is that of an input.
pub(crate) fn names_in(formula: &str) -> impl Iterator<Item = &str> {
    let words = formula.split_inclusive(|next: char| !is_part(next)).scan(0, |from, piece| {
        let word = piece.trim_end_matches(|last: char| !is_part(last));
        let after = &formula[*from + word.len()..];
        *from += piece.len();
        Some((word, after))
    });
    words.filter(|(word, after)| !word.is_empty() && !after.trim_start().starts_with(':')).map(|(word, _)| word)
}

/// Whether a name goes on with a character.
fn is_part(next: char) -> bool {
    next.is_ascii_alphanumeric() || next == '_'
}
