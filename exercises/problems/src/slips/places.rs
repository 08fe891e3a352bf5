//! The places of a formula at which one thing may be taken for another, and what comes out then.

use core::cell::Cell;

use relief::{Input, Quantity};

use crate::facts::Facts;
use crate::formula::{Call, EvaluateError, Node, Pass, Scope, Value};
use crate::number::Number;

/// What a piece of a formula is taken for; `None` to take it as it is.
pub(super) type Taken<'t> = dyn Fn(&Node) -> Option<Quantity> + 't;

/// What an input that was left to its usual value is taken for.
pub(super) type Usual<'t> = dyn Fn(&Call, &Input, Quantity) -> Option<Quantity> + 't;

/// The formula of a part, and the formulas of the earlier parts that it rests on.
pub(super) struct Places<'p> {
    pub(super) facts: &'p Facts<'p>,
    pub(super) number: &'p Number,
}

/// At which places something is substituted.
#[derive(Clone, Copy)]
pub(super) enum At {
    /// At all of them at once.
    All,
    /// At one of them, counted from zero in the order of the working.
    One(usize),
}

/// One substitution while a formula is worked.
struct Substitution<'s> {
    facts: &'s Facts<'s>,
    taken: &'s Taken<'s>,
    usual: &'s Usual<'s>,
    at: At,
    /// How many places were met.
    met: Cell<usize>,
}

impl Places<'_> {
    /// What comes out where pieces are taken for something else (SI), and at how many places that could be; nothing where
    /// it could be at none, or where nothing comes out.
    pub(super) fn with(&self, at: At, taken: &Taken) -> (Option<f64>, usize) {
        self.substituted(at, taken, &|_, _, _| None)
    }

    /// The same for inputs that were left to their usual values.
    pub(super) fn with_usual(&self, at: At, usual: &Usual) -> (Option<f64>, usize) {
        self.substituted(at, &|_| None, usual)
    }

    fn substituted(&self, at: At, taken: &Taken, usual: &Usual) -> (Option<f64>, usize) {
        let pass = Substitution { facts: self.facts, taken, usual, at, met: Cell::new(0) };
        let value = match self.number.answer.pass(&self.facts.scope, &pass) {
            Ok(Value::Quantity(value)) => Some(value.si),
            _ => None,
        };
        let met = pass.met.get();
        (value.filter(|_| met > 0), met)
    }

    /// Every value that comes up within the formula, with its piece: of this part, and of the earlier ones that it rests on.
    pub(super) fn steps(&self) -> Vec<(Node, Quantity)> {
        let mut all = Vec::new();
        self.collect(&self.number.answer, &mut all);
        all
    }

    fn collect(&self, node: &Node, into: &mut Vec<(Node, Quantity)>) {
        if let Node::Name(name) = node
            && let Some(earlier) = earlier(self.facts, name)
        {
            self.collect(&earlier.answer, into);
        }
        node.pieces().into_iter().for_each(|piece| self.collect(piece, into));
        if let Ok(value) = node.quantity(&self.facts.scope) {
            into.push((node.clone(), value));
        }
    }
}

/// The number that an earlier part of a name asks for.
pub(super) fn earlier<'p>(facts: &Facts<'p>, name: &str) -> Option<&'p Number> {
    facts.number(name).map(|(at, _)| at.number)
}

impl Substitution<'_> {
    /// Whether this place is meant; it is counted.
    fn is_here(&self) -> bool {
        let place = self.met.replace(self.met.get() + 1);
        match self.at {
            At::All => true,
            At::One(wanted) => wanted == place,
        }
    }
}

impl Pass for Substitution<'_> {
    fn instead(&self, node: &Node, scope: &Scope) -> Option<Result<Value, EvaluateError>> {
        if let Some(taken) = (self.taken)(node)
            && self.is_here()
        {
            return Some(Ok(Value::Quantity(taken)));
        }
        let Node::Name(name) = node else { return None };
        // An earlier part is worked again, with the same slip in it, and rounded as it was asked for.
        let number = earlier(self.facts, name)?;
        Some(number.answer.pass(scope, self).map(|value| match value {
            Value::Quantity(value) => {
                let value = Quantity::new(value.si, number.kind);
                Value::Quantity(number.rounded(value, self.facts.setting.system))
            }
            choice @ Value::Choice(_) => choice,
        }))
    }

    fn argument(&self, call: &Call, input: &Input, node: Option<&Node>, value: Quantity) -> Quantity {
        if node.is_some() {
            return value;
        }
        match (self.usual)(call, input, value) {
            Some(taken) if self.is_here() => taken,
            _ => value,
        }
    }
}
