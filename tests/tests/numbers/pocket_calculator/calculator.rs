//! A person with a sheet and a pocket calculator: takes what is given, writes lines, goes on from earlier answers.

use std::cell::{Cell, RefCell};

use problems::System;
use problems::draw::Problem;
use problems::number::Number;

use super::laws;
use super::rounding::{SHOWN_FIGURES, Way, as_asked, step, step_of, to_figures};
use super::units::{Measure, PRESSURE};

/// How the person works.
#[derive(Clone, Debug)]
pub(crate) enum Manner {
    /// All digits to the end.
    Unrounded,
    /// All digits, but from an earlier answer as it had to be rounded.
    FromRounded,
    /// Each line rounded to so many figures, and on from there: to nearest, or down where the question says so.
    Lines(i32),
    /// Each line rounded to nearest at so many figures, even where the question says to round down: only the answer is
    /// what it asks for.
    NearestLines(i32),
    /// The same, but the earlier answers to go on from were worked with all digits.
    NearestLinesFrom(i32, Vec<Worked>),
    /// All digits, but from this own answer to an earlier part, in the unit asked for.
    From(String, f64),
}

/// What a careless person does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Slip {
    /// The coefficient of discharge is left at one.
    FactorForgotten,
    /// The relieving pressure is taken for the set pressure.
    OverpressureForgotten,
    /// A gauge pressure is taken for an absolute one.
    GaugeForAbsolute,
}

impl Slip {
    pub(crate) const ALL: [Self; 3] = [Self::FactorForgotten, Self::OverpressureForgotten, Self::GaugeForAbsolute];
}

/// A calculation written for one recipe.
pub(crate) type Calculation = fn(&Calculator);

/// One answer, in the unit asked for, before it is rounded as the part asks.
#[derive(Clone, Debug)]
pub(crate) struct Worked {
    pub(crate) part: String,
    pub(crate) value: f64,
}

impl Worked {
    /// Whether the number is another one.
    pub(crate) fn differs(&self, before: &Self) -> bool {
        self.value.to_bits() != before.value.to_bits()
    }
}

/// The person at work on one problem.
pub(crate) struct Calculator<'p> {
    problem: &'p Problem<'p>,
    /// In whose units and constants the laws are worked.
    pub(crate) form: System,
    manner: Manner,
    slip: Option<Slip>,
    results: RefCell<Vec<Worked>>,
    slipped: Cell<bool>,
}

/// The answers of a person who works a problem in a form and a manner.
pub(crate) fn work(problem: &Problem, calculation: Calculation, form: System, manner: Manner) -> Vec<Worked> {
    let calculator = Calculator::new(problem, form, manner, None);
    calculation(&calculator);
    calculator.results.into_inner()
}

/// The answers of a careless person; `None` where this slip has no place in the calculation.
pub(crate) fn work_carelessly(problem: &Problem, calculation: Calculation, slip: Slip) -> Option<Vec<Worked>> {
    let calculator = Calculator::new(problem, problem.facts.setting.system, Manner::Unrounded, Some(slip));
    calculation(&calculator);
    calculator.slipped.get().then(|| calculator.results.into_inner())
}

impl<'p> Calculator<'p> {
    fn new(problem: &'p Problem<'p>, form: System, manner: Manner, slip: Option<Slip>) -> Self {
        let (results, slipped) = (RefCell::default(), Cell::new(false));
        Self { problem, form, manner, slip, results, slipped }
    }

    /// What is given under a name, in the unit of the form.
    pub(crate) fn given(&self, name: &str, measure: &Measure) -> f64 {
        let given = self.problem.facts.givens.iter().find(|given| given.name == name).expect("a name of the recipe");
        measure.in_system(self.form, number(&given.value), given.unit.unwrap_or_default())
    }

    /// A percentage that is given, as a share of one.
    pub(crate) fn share(&self, name: &str) -> f64 {
        self.given(name, &super::units::PERCENT) / 100.0
    }

    /// The system of units that the problem is set in.
    pub(crate) fn system(&self) -> System {
        self.problem.facts.setting.system
    }

    /// A choice that is given.
    pub(crate) fn choice(&self, name: &str) -> &str {
        &self.problem.facts.givens.iter().find(|given| given.name == name).expect("a name of the recipe").value
    }

    /// A pressure that is printed twice, in psi and in bar: the person reads the one of the problem's own system.
    pub(crate) fn stated(&self, psi: f64, bar: f64) -> f64 {
        match self.problem.facts.setting.system {
            System::Us => PRESSURE.in_system(self.form, psi, "psi"),
            System::Si => PRESSURE.in_system(self.form, bar, "bar"),
        }
    }

    /// A line of the working: what the person reads from the sheet for the next one.
    pub(crate) fn line(&self, value: f64) -> f64 {
        match self.manner {
            Manner::Lines(figures) | Manner::NearestLines(figures) | Manner::NearestLinesFrom(figures, _) => {
                to_figures(value, figures, Way::Nearest)
            }
            _ => value,
        }
    }

    /// A line of a working whose question says to round down wherever something is rounded.
    pub(crate) fn line_down(&self, value: f64) -> f64 {
        match self.manner {
            Manner::Lines(figures) => to_figures(value, figures, Way::Down),
            _ => self.line(value),
        }
    }

    /// The answer of a part, of which the question says to go on from it as it is rounded; gives that.
    pub(crate) fn rounded_answer(&self, part: &str, measure: &Measure, value: f64) -> f64 {
        self.answer(part, measure, value);
        let (number, system) = (self.number(part), self.problem.facts.setting.system);
        let symbol = number.unit.of(system).0.map_or("", |unit| unit.symbol);
        let value = self.results.borrow().last().map_or(f64::NAN, |own| own.value);
        measure.in_system(self.form, as_asked(number, system, value), symbol)
    }

    /// The answer of a part; gives what the person goes on from.
    pub(crate) fn answer(&self, part: &str, measure: &Measure, value: f64) -> f64 {
        let number = self.number(part);
        let system = self.problem.facts.setting.system;
        let symbol = number.unit.of(system).0.map_or("", |unit| unit.symbol);
        let asked = measure.out_of_system(self.form, value, symbol);
        let (asked, goes_on) = match &self.manner {
            Manner::From(own, typed) if own == part => (*typed, measure.in_system(self.form, *typed, symbol)),
            Manner::FromRounded if number.round.is_some() => {
                (asked, measure.in_system(self.form, as_asked(number, system, asked), symbol))
            }
            Manner::NearestLines(figures) => (self.last_line(number, asked, *figures), self.line(value)),
            Manner::NearestLinesFrom(figures, plain) => {
                let earlier = plain.iter().find(|own| own.part == part).map_or(asked, |own| own.value);
                (self.last_line(number, asked, *figures), measure.in_system(self.form, earlier, symbol))
            }
            _ => (asked, self.line(value)),
        };
        self.results.borrow_mut().push(Worked { part: part.to_owned(), value: asked });
        goes_on
    }

    /// An answer as the last line of a working shows it, where that is finer than what the part asks for.
    fn last_line(&self, number: &Number, asked: f64, figures: i32) -> f64 {
        let shown = to_figures(asked, figures, Way::Nearest);
        let step = step(number, self.problem.facts.setting.system, asked);
        let finer = number.round.is_some() && figures == SHOWN_FIGURES && step >= 9.9 * step_of(asked, figures);
        if finer { shown } else { asked }
    }

    fn number(&self, part: &str) -> &'p Number {
        number_part(self.problem, part)
    }

    fn slips(&self, slip: Slip) -> bool {
        let slips = self.slip == Some(slip);
        self.slipped.set(self.slipped.get() || slips);
        slips
    }

    /// A factor of a law, which the careless forget.
    pub(crate) fn factor(&self, factor: f64) -> f64 {
        if self.slips(Slip::FactorForgotten) { 1.0 } else { factor }
    }

    /// Relieving pressure: set pressure and overpressure, which the careless forget.
    pub(crate) fn relieving(&self, set: f64, share: f64) -> f64 {
        let over = if self.slips(Slip::OverpressureForgotten) { 0.0 } else { self.line(set * share) };
        set + over
    }

    /// A gauge pressure and the atmosphere, which the careless forget.
    pub(crate) fn absolute(&self, gauge: f64) -> f64 {
        gauge + if self.slips(Slip::GaugeForAbsolute) { 0.0 } else { self.atmosphere() }
    }

    /// The atmosphere, as the question gives it.
    pub(crate) fn atmosphere(&self) -> f64 {
        laws::atmosphere(self.form)
    }
}

/// A part that asks for a number.
///
/// # Panics
/// Where there is none: the recipe has changed, and the calculation has to follow.
pub(crate) fn number_part<'p>(problem: &Problem<'p>, part: &str) -> &'p Number {
    let number = problem.facts.number(part).map(|(at, _)| at.number);
    number.unwrap_or_else(|| panic!("{} has no number {part}", problem.recipe.id))
}

/// A number as it is drawn: `1.25`, `3/8`, `1 1/4`.
fn number(text: &str) -> f64 {
    let term = |text: &str| match text.split_once('/') {
        Some((upper, lower)) => plain(upper) / plain(lower),
        None => plain(text),
    };
    text.split(' ').map(term).sum()
}

fn plain(text: &str) -> f64 {
    text.parse().unwrap_or_else(|_| panic!("{text} is no number"))
}
