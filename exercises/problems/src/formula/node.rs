//! Checked formulas: every name, relation, unit and kind in them is known. This is their stored form too.

use relief::units::Unit;
use relief::{Argument, Exact, Kind, Quantity, Relation, RelationError, Rounding, SafeSide};
use serde::{Deserialize, Serialize};

use super::{Scope, Value};
use crate::stored;

/// A checked formula.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Node {
    /// A bare number.
    Number(#[serde(with = "stored::exact")] Exact),
    /// A quantity as written.
    Quantity {
        /// The number in the unit.
        #[serde(with = "stored::exact")]
        value: Exact,
        /// The unit.
        #[serde(with = "stored::unit")]
        unit: &'static Unit,
        /// The kind that it is of.
        #[serde(with = "stored::kind")]
        kind: Kind,
    },
    /// One of a relation's named choices.
    Choice(String),
    /// A drawn value, or the right answer of an earlier part.
    Name(String),
    /// The value with its sign changed.
    Negated(Box<Node>),
    /// Two values and what is done with them.
    Binary(Operation, Box<Node>, Box<Node>),
    /// A relation, with an argument for each of its inputs, in order (a missing one takes the input's default), and the
    /// place of the output that is meant.
    Call(#[serde(with = "stored::relation")] &'static Relation, Vec<Option<Node>>, usize),
}

/// One of the four operations.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Operation {
    /// Addition.
    Plus,
    /// Subtraction.
    Minus,
    /// Multiplication.
    Times,
    /// Division.
    Over,
}

impl Operation {
    /// How it is written in a formula.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Plus => "+",
            Self::Minus => "-",
            Self::Times => "*",
            Self::Over => "/",
        }
    }

    /// The kind of the result, or `None` where the two kinds may not meet.
    #[must_use]
    pub fn kind(self, left: Kind, right: Kind) -> Option<Kind> {
        match self {
            Self::Plus => left.plus(right),
            Self::Minus => left.minus(right),
            Self::Times => left.times(right),
            Self::Over => left.over(right),
        }
    }

    fn apply(self, left: Quantity, right: Quantity) -> Option<Quantity> {
        match self {
            Self::Plus => left.plus(right),
            Self::Minus => left.minus(right),
            Self::Times => left.times(right),
            Self::Over => left.over(right),
        }
    }
}

/// How two values are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Comparison {
    /// `>=`
    AtLeast,
    /// `<=`
    AtMost,
    /// `>`
    Above,
    /// `<`
    Below,
    /// `=`
    Equal,
    /// `!=`
    Unequal,
}

impl Comparison {
    /// All of them; longer signs first.
    pub const ALL: [Self; 6] = [Self::AtLeast, Self::AtMost, Self::Unequal, Self::Above, Self::Below, Self::Equal];

    /// How it is written.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::AtLeast => ">=",
            Self::AtMost => "<=",
            Self::Above => ">",
            Self::Below => "<",
            Self::Equal => "=",
            Self::Unequal => "!=",
        }
    }

    /// Compares two numbers. Differences below one part in a billion are those of conversion and count as equal, so
    /// that a limit of 10 psi holds for exactly 10 psi however it was computed.
    #[must_use]
    pub fn holds(self, left: f64, right: f64) -> bool {
        let equal = (left - right).abs() <= 1e-9 * left.abs().max(right.abs());
        match self {
            Self::AtLeast => equal || left > right,
            Self::AtMost => equal || left < right,
            Self::Above => !equal && left > right,
            Self::Below => !equal && left < right,
            Self::Equal => equal,
            Self::Unequal => !equal,
        }
    }
}

/// Why a checked formula has no value for some draw.
#[derive(Clone, Debug, PartialEq)]
pub enum EvaluateError {
    /// A relation refused its arguments.
    Relation(&'static str, RelationError),
    /// The result is not finite (a division by zero).
    NotFinite,
    /// The formula does not fit its scope: a stored form that was tampered with.
    Unfit,
}

impl core::fmt::Display for EvaluateError {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Relation(id, error) => write!(out, "{id}: {error}"),
            Self::NotFinite => out.write_str("not finite"),
            Self::Unfit => out.write_str("unfit"),
        }
    }
}

/// What a piece of a formula is taken for instead of what it is; `None` to take it as it is. Used to work out what a
/// misreading gives.
pub(crate) type Twist<'t> = dyn Fn(&Node, &Scope) -> Option<Quantity> + 't;

impl Node {
    /// The value for the names in a scope.
    ///
    /// # Errors
    /// [`EvaluateError`], by its rule.
    pub fn evaluate(&self, scope: &Scope) -> Result<Value, EvaluateError> {
        self.twisted(scope, &|_, _| None)
    }

    /// The value where the pieces that a twist knows are taken for what it says.
    pub(crate) fn twisted(&self, scope: &Scope, twist: &Twist) -> Result<Value, EvaluateError> {
        if let Some(quantity) = twist(self, scope) {
            return Ok(Value::Quantity(quantity));
        }
        let quantity = |node: &Self| match node.twisted(scope, twist)? {
            Value::Quantity(quantity) => Ok(quantity),
            Value::Choice(_) => Err(EvaluateError::Unfit),
        };
        let value = match self {
            Self::Number(value) => Quantity::new(value.to_f64(), Kind::Number),
            Self::Quantity { value, unit, kind } => unit.quantity(value.to_f64(), *kind),
            Self::Choice(name) => return Ok(Value::Choice(name.clone())),
            Self::Name(name) => return scope.get(name).cloned().ok_or(EvaluateError::Unfit),
            Self::Negated(inner) => {
                let inner = quantity(inner)?;
                Quantity::new(-inner.si, inner.kind)
            }
            Self::Binary(operation, left, right) => {
                operation.apply(quantity(left)?, quantity(right)?).ok_or(EvaluateError::Unfit)?
            }
            Self::Call(relation, arguments, output) => match call(relation, arguments, *output, scope, twist)? {
                Value::Quantity(quantity) => quantity,
                choice @ Value::Choice(_) => return Ok(choice),
            },
        };
        if value.si.is_finite() { Ok(Value::Quantity(value)) } else { Err(EvaluateError::NotFinite) }
    }

    /// The way in which its value is rounded when it is shown: to the safe side of what a relation gives.
    #[must_use]
    pub fn rounding(&self) -> Rounding {
        match self {
            Self::Call(relation, _, output) => {
                relation.outputs.get(*output).map_or(SafeSide::Neither, |output| output.safe_side).into()
            }
            _ => Rounding::Nearest,
        }
    }

    /// The value where it is a quantity.
    ///
    /// # Errors
    /// As [`Node::evaluate`].
    pub fn quantity(&self, scope: &Scope) -> Result<Quantity, EvaluateError> {
        match self.evaluate(scope)? {
            Value::Quantity(quantity) => Ok(quantity),
            Value::Choice(_) => Err(EvaluateError::Unfit),
        }
    }
}

fn call(
    relation: &'static Relation,
    arguments: &[Option<Node>],
    output: usize,
    scope: &Scope,
    twist: &Twist,
) -> Result<Value, EvaluateError> {
    let mut given = Vec::with_capacity(arguments.len());
    for (input, argument) in relation.inputs.iter().zip(arguments) {
        if let Some(argument) = argument {
            given.push((input.name, as_argument(argument.twisted(scope, twist)?, input)?));
        }
    }
    let outputs = relation.evaluate(&given).map_err(|error| EvaluateError::Relation(relation.id, error))?;
    match outputs.get(output) {
        Some(Argument::Quantity(quantity)) => Ok(Value::Quantity(quantity)),
        Some(Argument::Choice(name)) => Ok(Value::Choice(name.to_owned())),
        None => Err(EvaluateError::Unfit),
    }
}

fn as_argument(value: Value, input: &relief::Input) -> Result<Argument, EvaluateError> {
    match (value, &input.form) {
        (Value::Quantity(quantity), _) => Ok(Argument::Quantity(quantity)),
        (Value::Choice(name), relief::Form::Choice(known)) => {
            known.iter().find(|known| **known == name).map(|known| Argument::Choice(known)).ok_or(EvaluateError::Unfit)
        }
        (Value::Choice(_), relief::Form::Quantity(..)) => Err(EvaluateError::Unfit),
    }
}
