//! A number that is asked for: what is right, how near one must come, and how it is rounded.

use relief::units::Unit;
use relief::{Exact, Kind, Quantity, Rounding, System};
use serde::Serialize;

use crate::decimal_mark::DecimalMark;
use crate::display;
use crate::formula::Node;
use crate::recipe::{Pair, UnitRef};
use crate::rounding::{RoundTo, RoundingGrid, Side};
use crate::stored::{stored_cases, stored_fields};
use crate::template::Template;
use crate::views::is_false;

/// A number with a unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Number {
    /// The right answer.
    pub answer: Node,
    /// The unit that it is asked in.
    pub unit: Pair<UnitRef>,
    /// The kind of the answer.
    #[serde(serialize_with = "crate::stored::kind::serialize")]
    pub kind: Kind,
    /// How far from the right answer still counts.
    pub within: Pair<Tolerance>,
    /// Which side is unsafe, where the answer is a limit.
    pub limit: Option<Limit>,
    /// Whether an answer on the unsafe side fails the whole question.
    pub unsafe_fails: bool,
    /// How the answer has to be rounded, where that is asked.
    pub round: Option<RoundTo>,
    /// Between which values such a number usually lies, in the unit asked for.
    pub usual_range: Option<Pair<UsualRange>>,
    /// What is right as well.
    pub also_right: Vec<AlsoRight>,
    /// The answers that named mistakes give.
    pub mistakes: Vec<Mistake>,
}

/// Another right answer to the same number.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AlsoRight {
    /// The number as it would be asked with this answer alone.
    pub number: Number,
    /// When it holds.
    pub when: Template,
    /// Whether it is right also on the unsafe side of the limit that the answer is.
    #[serde(skip_serializing_if = "is_false")]
    pub beyond_limit: bool,
}

/// How far from the right answer still counts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Tolerance {
    /// A share of the right answer.
    Share(#[serde(serialize_with = "crate::stored::exact::serialize")] Exact),
    /// So much in the unit that is asked for.
    Amount(#[serde(serialize_with = "crate::stored::exact::serialize")] Exact),
}

/// Which side of a limit is unsafe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// Above it.
    Upper,
    /// Below it.
    Lower,
}

/// Between which values a number usually lies, in the unit asked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct UsualRange {
    /// The least.
    #[serde(serialize_with = "crate::stored::exact::serialize")]
    pub low: Exact,
    /// The greatest.
    #[serde(serialize_with = "crate::stored::exact::serialize")]
    pub high: Exact,
    /// How both are written.
    #[serde(serialize_with = "crate::stored::style::serialize")]
    pub style: relief::Style,
}

/// An answer that a named mistake gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mistake {
    /// The name.
    pub name: String,
    /// The formula that the mistake amounts to.
    pub answer: Node,
    /// What the learner reads.
    pub message: Template,
}

stored_fields!(Number { answer, unit, kind, within, limit, unsafe_fails, round, usual_range, also_right, mistakes });
stored_cases!(Tolerance { "share" => Share(share), "amount" => Amount(amount) });
stored_cases!(Limit { "upper" => Upper, "lower" => Lower });
stored_fields!(UsualRange { low, high, style });
stored_fields!(AlsoRight { number, when, beyond_limit });
stored_fields!(Mistake { name, answer, message });

impl Limit {
    /// Both of them.
    pub const BOTH: [Self; 2] = [Self::Upper, Self::Lower];

    /// The name in recipes.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }

    /// Whether a number is on the unsafe side of another (SI).
    pub(crate) fn is_beyond(self, number: f64, limit: f64) -> bool {
        match self {
            Self::Upper => number > limit,
            Self::Lower => number < limit,
        }
    }
}

impl UsualRange {
    /// Both ends as a learner reads them.
    #[must_use]
    pub fn texts(&self, unit: Option<&'static Unit>, mark: DecimalMark) -> [String; 2] {
        [self.low, self.high].map(|end| display::number(end, self.style, unit, mark))
    }
}

impl Number {
    /// The unit that it is asked in; none for a bare number.
    #[must_use]
    pub fn unit_in(&self, system: System) -> Option<&'static Unit> {
        self.unit.of(system).0
    }

    /// The number of a quantity in the unit that is asked for.
    #[must_use]
    pub fn in_unit(&self, value: Quantity, system: System) -> f64 {
        self.unit_in(system).map_or(value.si, |unit| unit.value(value))
    }

    /// The right answer for the values of a scope, as a quantity of the kind that is asked for.
    ///
    /// # Errors
    /// As [`Node::evaluate`].
    pub fn right(&self, scope: &crate::formula::Scope) -> Result<Quantity, crate::formula::EvaluateError> {
        self.answer.quantity(scope).map(|value| Quantity::new(value.si, self.kind))
    }

    /// How the answer is to be rounded in a system of units; `None` where nothing is said of it.
    #[must_use]
    pub fn grid(&self, system: System) -> Option<RoundingGrid> {
        let round = self.round?;
        let up = round.side == Side::Up || round.side == Side::Safe && self.limit == Some(Limit::Lower);
        Some(RoundingGrid::new(*round.to.of(system), round.side, up))
    }

    /// Whether a piece of the formula is its last line: the answer, or what it counts from zero, as in `0 psig + rise`.
    pub(crate) fn is_last(&self, node: &Node) -> bool {
        let is_zero = |node: &Node| matches!(node, Node::Quantity { value, .. } if *value == Exact::ZERO);
        let counted = || matches!(&self.answer, Node::Binary(_, zero, rest) if is_zero(zero) && **rest == *node);
        self.answer == *node || counted()
    }

    /// A right answer rounded as it is asked for; as it is, where nothing is said of that.
    #[must_use]
    pub fn rounded(&self, right: Quantity, system: System) -> Quantity {
        let Some(grid) = self.grid(system) else { return right };
        match self.unit_in(system) {
            Some(unit) => unit.quantity(grid.round(unit.value(right)), right.kind),
            None => Quantity::new(grid.round(right.si), right.kind),
        }
    }

    /// How the right answer is rounded when it is shown: away from the unsafe side of a limit.
    #[must_use]
    pub fn rounding(&self) -> Rounding {
        match self.limit {
            None => Rounding::Nearest,
            Some(Limit::Upper) => Rounding::Down,
            Some(Limit::Lower) => Rounding::Up,
        }
    }

    /// A right answer, as the learner reads it: rounded as it is asked for, or to the safe side where it is a limit.
    #[must_use]
    pub fn text(&self, value: Quantity, system: System, mark: DecimalMark) -> String {
        let unit = self.unit_in(system);
        match self.grid(system) {
            Some(grid) => display::on_grid(grid.round(self.in_unit(value, system)), &grid, unit, mark),
            None => display::computed(value, unit, self.rounding(), mark),
        }
    }

    /// The distance from the right answer that still counts (SI).
    pub(crate) fn tolerance(&self, right: Quantity, system: System) -> f64 {
        match self.within.of(system) {
            Tolerance::Share(share) => share.to_f64() * right.si.abs(),
            Tolerance::Amount(amount) => {
                let asked = self.unit_in(system);
                asked.map_or(amount.to_f64(), |unit| unit.quantity(amount.to_f64(), right.kind).si.abs())
            }
        }
    }
}

/// The last bits of a conversion never decide: one part in a billion.
pub(crate) fn slack(si: f64) -> f64 {
    si.abs() * 1e-9
}
