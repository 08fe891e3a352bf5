//! Marking: what was typed against what is right, with the reason where it is not.

mod judge;
mod window;

use relief::Quantity;

use crate::draw::{Answer, Problem};
use crate::forms::{choices, order, pairs, parts, truth};
use crate::recipe::{Form, NumberAsk, Tolerance};
use crate::slips::Slip;

pub(crate) use judge::own;
pub(crate) use window::Window;

/// What marking found.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Right.
    Right,
    /// The number asked for, with another unit.
    WrongUnit,
    /// The number asked for, but not rounded as it was asked for.
    Rounding,
    /// What the right way gives from the learner's own earlier answer.
    Carried,
    /// Partly right: some of several options, of an order, of pairs.
    Partly,
    /// A unit that measures something else.
    WrongKind,
    /// What a named mistake gives.
    Mistake(String),
    /// What a common slip gives.
    Slip(Slip),
    /// On the unsafe side of a limit, or a choice that can hurt somebody.
    Unsafe,
    /// None of these.
    Wrong,
    /// An option that is not right.
    WrongOption,
    /// Options that earn nothing together.
    WrongChoices,
    /// An order that earns nothing.
    WrongSequence,
    /// Pairs that earn nothing.
    WrongPairs,
    /// A part that is not right.
    WrongPart,
    /// True for false, or false for true.
    WrongTruth,
    /// Rightly true or false, and not for this reason.
    WrongReason,
    /// Could be two numbers.
    Ambiguous,
    /// No number with a unit; or no answer in the form that is asked for.
    Unreadable,
    /// Nothing, or not all of it.
    Blank,
}

impl Verdict {
    /// The code under which words for this verdict are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::WrongUnit => "wrong_unit",
            Self::Rounding => "rounding",
            Self::Carried => "carried",
            Self::Partly => "partly",
            Self::WrongKind => "wrong_kind",
            Self::Mistake(_) => "mistake",
            Self::Slip(_) => "slip",
            Self::Unsafe => "unsafe",
            Self::Wrong => "wrong",
            Self::WrongOption => "wrong_option",
            Self::WrongChoices => "wrong_choices",
            Self::WrongSequence => "wrong_sequence",
            Self::WrongPairs => "wrong_pairs",
            Self::WrongPart => "wrong_part",
            Self::WrongTruth => "wrong_truth",
            Self::WrongReason => "wrong_reason",
            Self::Ambiguous => "ambiguous",
            Self::Unreadable => "unreadable",
            Self::Blank => "blank",
        }
    }

    /// The credit, in percent; for [`Verdict::Partly`] see [`Marked::credit`].
    fn credit(&self) -> u8 {
        match self {
            Self::Right => 100,
            Self::WrongUnit | Self::Rounding | Self::Carried => 50,
            _ => 0,
        }
    }
}

/// A marked answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// What was found.
    pub verdict: Verdict,
    /// The credit, in percent.
    pub credit: u8,
    /// What the recipe says of it, as HTML.
    pub html: Option<String>,
    /// What the recipe says of each piece of it, as HTML.
    pub told: Vec<String>,
    /// What a message needs to know, by name.
    pub values: Vec<(&'static str, String)>,
    /// How the answer was taken: `taken_as_gauge`, `taken_as_absolute`, `unit_assumed`; and what is to be said besides:
    /// `unsafe_side`, `not_believable`, `near`.
    pub notes: Vec<&'static str>,
    /// The two readings of an ambiguous answer.
    pub readings: Vec<String>,
}

impl Marked {
    pub(crate) fn new(verdict: Verdict) -> Self {
        Self {
            credit: verdict.credit(),
            verdict,
            html: None,
            told: Vec::new(),
            values: Vec::new(),
            notes: Vec::new(),
            readings: Vec::new(),
        }
    }

    /// Partly right, or the given verdict where nothing is earned.
    pub(crate) fn partly(credit: u8, otherwise: Verdict) -> Self {
        // Full credit is for what is all right.
        let credit = credit.min(99);
        Self { credit, ..Self::new(if credit > 0 { Verdict::Partly } else { otherwise }) }
    }

    pub(crate) fn with(mut self, name: &'static str, value: impl Into<String>) -> Self {
        self.values.push((name, value.into()));
        self
    }

    /// Whether the answer lies on the unsafe side of a limit.
    fn is_unsafe(&self) -> bool {
        self.verdict == Verdict::Unsafe || self.notes.contains(&"unsafe_side")
    }
}

/// What a learner answered, by the names of the parts.
pub type Typed = [(String, String)];

/// A marked question.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkedAll {
    /// The credit of the whole, in percent: the mean of the parts; nothing, where an answer on the unsafe side fails it.
    pub credit: u8,
    /// Whether an unsafe answer fails the whole.
    pub failed: bool,
    /// The parts, in the order of the recipe. One without an answer is blank.
    pub parts: Vec<(String, Marked)>,
}

/// Marks all parts of a question.
#[must_use]
pub fn mark_all(problem: &Problem, typed: &Typed) -> MarkedAll {
    let asks = &problem.recipe.asks;
    let parts: Vec<_> =
        asks.iter().filter_map(|ask| Some((ask.id.clone(), mark_part(problem, &ask.id, typed)?))).collect();
    // An unsafe choice always fails the whole, an unsafe number where its author says so.
    let failed = asks.iter().zip(&parts).any(|(ask, (_, marked))| match &ask.form {
        Form::Number(number) => number.unsafe_fails && marked.is_unsafe(),
        _ => marked.is_unsafe(),
    });
    let sum: usize = parts.iter().map(|(_, marked)| usize::from(marked.credit)).sum();
    let mean = u8::try_from(sum / parts.len().max(1)).unwrap_or(0);
    MarkedAll { credit: if failed { 0 } else { mean }, failed, parts }
}

/// Marks what was typed for a part, as if nothing had been answered before; `None` where there is no such part.
#[must_use]
pub fn mark(problem: &Problem, part: &str, typed: &str) -> Option<Marked> {
    mark_part(problem, part, &[(part.to_owned(), typed.to_owned())])
}

/// Marks one part of what was answered; `None` where there is no such part.
#[must_use]
pub fn mark_part(problem: &Problem, part: &str, answers: &Typed) -> Option<Marked> {
    let (ask, answer) = problem.part(part)?;
    let typed = answers.iter().find(|(id, _)| id == part).map_or("", |(_, typed)| typed.as_str());
    match (&ask.form, answer) {
        (Form::Number(number), Answer::Number(right)) => {
            Some(judge::mark(problem, ask, number, *right, typed, answers))
        }
        (Form::OneOf(choice), Answer::OneOf { right, .. }) => Some(choices::mark_one(problem, choice, *right, typed)),
        (Form::SeveralOf(choice), Answer::SeveralOf { right, .. }) => {
            Some(choices::mark_several(problem, choice, right, typed))
        }
        (Form::InOrder(items), Answer::InOrder { order, right }) => {
            Some(order::mark(problem, items, (order, right), typed))
        }
        (Form::Match(matched), Answer::Match { .. }) => Some(pairs::mark(problem, matched, typed)),
        (Form::PointAt(point), Answer::PointAt { right }) => Some(parts::mark(problem, point, *right, typed)),
        (Form::TrueOrFalse(claim), Answer::TrueOrFalse { right, reason, .. }) => {
            Some(truth::mark(problem, claim, *right, *reason, typed))
        }
        _ => None,
    }
}

/// The distance from the right answer that still counts, in SI units.
pub(crate) fn tolerance(problem: &Problem, number: &NumberAsk, right: Quantity) -> f64 {
    match number.within.of(problem.setting.system) {
        Tolerance::Share(share) => share.to_f64() * right.si.abs(),
        Tolerance::Amount(amount) => {
            let asked = number.unit.of(problem.setting.system).0;
            asked.map_or(amount.to_f64(), |unit| unit.quantity(amount.to_f64(), right.kind).si.abs())
        }
    }
}

/// How near a wrong number is still called near, as a share of the right one.
pub(crate) const NEAR: f64 = 0.05;

/// The last bits of a conversion never decide: one part in a billion.
pub(crate) fn slack(si: f64) -> f64 {
    si.abs() * 1e-9
}
