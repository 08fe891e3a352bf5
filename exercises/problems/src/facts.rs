//! What all parts of a drawn problem share: what was drawn, the numbers asked for and their right values, the words.

use relief::{Quantity, System};

use crate::decimal_mark::DecimalMark;
use crate::formula::{EvaluateError, Scope, Value};
use crate::number::Number;
use crate::recipe::Law;

/// How a problem is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Setting {
    /// The system of units.
    pub system: System,
    /// The decimal mark that it is printed with.
    pub mark: DecimalMark,
}

/// A drawn value.
#[derive(Clone, Debug, PartialEq)]
pub struct GivenValue {
    /// The name.
    pub name: String,
    /// The number or choice, as data: `1.25`, `3/8`, `single`.
    pub value: String,
    /// The symbol of the unit; none for a bare number or a choice.
    pub unit: Option<&'static str>,
    /// As the learner reads it.
    pub text: String,
}

/// A number that is asked, where it is asked.
#[derive(Clone, Copy, Debug)]
pub struct NumberAt<'r> {
    /// The name that it is answered under, and that what comes after it knows it by.
    pub id: &'r str,
    /// What the learner reads beside its field.
    pub label: &'r str,
    /// The number.
    pub number: &'r Number,
}

/// What all parts of a problem share.
#[derive(Debug)]
pub struct Facts<'r> {
    /// How the problem is set.
    pub setting: Setting,
    /// What was drawn, in the order of the recipe.
    pub givens: Vec<GivenValue>,
    /// The values of all names.
    pub scope: Scope,
    /// The numbers that are asked, in order.
    pub numbers: Vec<NumberAt<'r>>,
    /// The right answers of the numbers, as far as they are known.
    pub(crate) rights: Vec<Quantity>,
    /// The right answers that are no numbers by name, as HTML: of parts of other forms, and of numbers that were not
    /// measured.
    pub(crate) answers: Vec<(String, String)>,
    /// The laws that worked steps show.
    pub(crate) laws: &'r [Law],
    /// The words that answers and workings need, by key.
    pub(crate) words: &'r [(String, String)],
}

/// Why nothing could be drawn. A proven recipe gives none of these.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawError {
    /// No draw in a thousand met what the recipe requires.
    NeverMet,
    /// The formula of a name has no value.
    NoValue(String, EvaluateError),
    /// The options of a part at these places are right, and not one. The first place is the lowest bit.
    RightOptions(String, u64),
    /// All options of a part are right, or none.
    AllOrNone(String),
    /// Two items of a part have the same value, so that neither comes first.
    Tie(String),
    /// The figure of a part cannot be drawn from these values, by the rule named.
    NoFigure(String, String),
}

impl DrawError {
    /// The code under which words for this error are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::NeverMet => "never_met",
            Self::NoValue(..) => "no_value",
            Self::RightOptions(..) => "right_options",
            Self::AllOrNone(..) => "all_or_none",
            Self::Tie(..) => "tie",
            Self::NoFigure(..) => "no_figure",
        }
    }
}

impl<'r> Facts<'r> {
    /// The system of units.
    #[must_use]
    pub fn system(&self) -> System {
        self.setting.system
    }

    /// The number with a name, and its right value; `None` also where it was not measured.
    #[must_use]
    pub fn number(&self, id: &str) -> Option<(NumberAt<'r>, Quantity)> {
        let (at, right) = self.numbers.iter().zip(&self.rights).find(|(at, _)| at.id == id)?;
        self.answer(id).is_none().then_some((*at, *right))
    }

    /// The numbers that come before the one with a name.
    pub(crate) fn numbers_before(&self, id: &str) -> impl Iterator<Item = &NumberAt<'r>> {
        self.numbers.iter().take_while(move |earlier| earlier.id != id)
    }

    /// The value of a name, as the learner reads it: as drawn, or as the right answer of a part.
    #[must_use]
    pub fn text(&self, name: &str) -> String {
        if let Some(given) = self.givens.iter().find(|given| given.name == name) {
            return given.text.clone();
        }
        match self.number(name) {
            Some((at, right)) => self.number_text(at.number, right),
            None => self.answer(name).unwrap_or_default().to_owned(),
        }
    }

    /// The right answer under a name where it is no number, as HTML.
    pub(crate) fn answer(&self, name: &str) -> Option<&str> {
        self.answers.iter().find(|(known, _)| known == name).map(|(_, html)| html.as_str())
    }

    /// A right number, as the learner reads it.
    pub(crate) fn number_text(&self, number: &Number, value: Quantity) -> String {
        number.text(value, self.setting.system, self.setting.mark)
    }

    /// A word that the recipe carries.
    pub(crate) fn word(&self, key: &str) -> &'r str {
        self.words.iter().find(|(known, _)| known == key).map_or("", |(_, word)| word)
    }

    /// The next number whose right value is not known yet.
    pub(crate) fn next_number(&self) -> Option<NumberAt<'r>> {
        self.numbers.get(self.rights.len()).copied()
    }

    /// Takes in the right value of the next number. What goes on from a rounded answer goes on from the number that is
    /// seen.
    pub(crate) fn learn(&mut self, right: Quantity) {
        let Some(at) = self.next_number() else { return };
        self.scope.set(at.id, Value::Quantity(at.number.rounded(right, self.setting.system)));
        self.rights.push(right);
    }
}

/// A part of a problem, as its form sees it.
#[derive(Clone, Copy, Debug)]
pub struct PartOf<'p> {
    /// The name of the part.
    pub id: &'p str,
    /// What the learner reads beside its field.
    pub label: &'p str,
    /// What all parts share.
    pub facts: &'p Facts<'p>,
}
