//! Checked formulas: every name, relation, unit and kind in them is known. This is their stored form too.

use relief::units::Unit;
use relief::{Argument, Exact, Kind, Manner, Quantity, Relation, RelationError, Rounding, SafeSide, System};
use serde::Serialize;

use super::scope::{Scope, Value};
use crate::stored::{stored_cases, stored_fields};

/// A checked formula.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Node {
    /// A bare number.
    Number(#[serde(serialize_with = "crate::stored::exact::serialize")] Exact),
    /// A quantity as written.
    Quantity {
        /// The number in the unit.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        value: Exact,
        /// The unit.
        #[serde(serialize_with = "crate::stored::unit::serialize")]
        unit: &'static Unit,
        /// The kind that it is of.
        #[serde(serialize_with = "crate::stored::kind::serialize")]
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
    /// A value raised to a power.
    Power(Box<Node>, Box<Node>),
    /// A square root.
    Root(Box<Node>),
    /// The circle number.
    Pi,
    /// A relation, with an argument for each of its inputs.
    Call(Box<Call>),
}

/// A relation, with an argument for each of its inputs, in order; a missing one takes the input's default.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Call {
    /// The relation.
    #[serde(serialize_with = "crate::stored::relation::serialize")]
    pub relation: &'static Relation,
    /// What it is worked for.
    pub arguments: Vec<Option<Node>>,
    /// The place of the output that is meant.
    pub output: usize,
    /// The system whose printed form is taken; by the system of the problem where there is none.
    #[serde(serialize_with = "crate::stored::some_system::serialize")]
    pub form: Option<System>,
}

stored_cases!(Node {
    "number" => Number(value),
    "quantity" => Quantity { value, unit, kind },
    "choice" => Choice(name),
    "name" => Name(name),
    "negated" => Negated(node),
    "binary" => Binary(operation, left, right),
    "power" => Power(base, exponent),
    "root" => Root(inner),
    "pi" => Pi,
    "call" => Call(call),
});
stored_fields!(Call { relation, arguments, output, form });

impl Call {
    /// The inputs with the arguments that are given for them.
    pub fn given(&self) -> impl Iterator<Item = (&'static relief::Input, &Node)> {
        self.relation.inputs.iter().zip(&self.arguments).filter_map(|(input, node)| Some((input, node.as_ref()?)))
    }

    /// The kind of quantity that it gives; none where it gives a choice.
    #[must_use]
    pub fn gives(&self) -> Option<Kind> {
        match self.relation.outputs.get(self.output)?.gives {
            relief::Gives::Quantity(kind) => Some(kind),
            relief::Gives::Choice(_) => None,
        }
    }

    /// The system whose form it takes in a problem of a system.
    #[must_use]
    pub fn form_in(&self, system: System) -> System {
        self.form.unwrap_or(system)
    }
}

/// One of the four operations.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
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

stored_cases!(Operation { "plus" => Plus, "minus" => Minus, "times" => Times, "over" => Over });

/// How two values are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
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

stored_cases!(Comparison {
    "at_least" => AtLeast,
    "at_most" => AtMost,
    "above" => Above,
    "below" => Below,
    "equal" => Equal,
    "unequal" => Unequal,
});

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

/// What may be done while a formula is worked: marking needs it to see how an answer came about.
pub(crate) trait Pass {
    /// What a piece is taken for instead of what it is; `None` to take it as it is.
    fn instead(&self, _: &Node, _: &Scope) -> Option<Result<Value, EvaluateError>> {
        None
    }

    /// What an argument of a call becomes as it is put into the relation.
    fn argument(&self, _: &Call, _: &relief::Input, _: Option<&Node>, value: Quantity) -> Quantity {
        value
    }

    /// What the value of a piece becomes when it is written down.
    fn line(&self, _: &Node, value: Quantity) -> Quantity {
        value
    }

    /// In which manner a relation is worked.
    fn manner(&self, call: &Call, scope: &Scope) -> Manner {
        Manner::unrounded(call.form_in(scope.system()))
    }
}

/// As it is written.
struct AsWritten;

impl Pass for AsWritten {}

impl Node {
    /// The value for the names in a scope.
    ///
    /// # Errors
    /// [`EvaluateError`], by its rule.
    pub fn evaluate(&self, scope: &Scope) -> Result<Value, EvaluateError> {
        self.pass(scope, &AsWritten)
    }

    /// The value with something done while it is worked.
    pub(crate) fn pass(&self, scope: &Scope, pass: &dyn Pass) -> Result<Value, EvaluateError> {
        if let Some(value) = pass.instead(self, scope) {
            return value;
        }
        let quantity = |node: &Self| match node.pass(scope, pass)? {
            Value::Quantity(quantity) => Ok(quantity),
            Value::Choice(_) => Err(EvaluateError::Unfit),
        };
        let value = match self {
            Self::Number(value) => Quantity::new(value.to_f64(), Kind::Number),
            Self::Pi => Quantity::new(core::f64::consts::PI, Kind::Number),
            Self::Quantity { value, unit, kind } => unit.quantity(value.to_f64(), *kind),
            Self::Choice(name) => return Ok(Value::Choice(name.clone())),
            Self::Name(name) => return scope.get(name).cloned().ok_or(EvaluateError::Unfit),
            Self::Negated(inner) => {
                let inner = quantity(inner)?;
                Quantity::new(-inner.si, inner.kind)
            }
            Self::Binary(operation, left, right) => {
                let value = operation.apply(quantity(left)?, quantity(right)?).ok_or(EvaluateError::Unfit)?;
                pass.line(self, value)
            }
            Self::Power(base, exponent) => {
                let value = quantity(base)?.power(quantity(exponent)?.si).ok_or(EvaluateError::Unfit)?;
                pass.line(self, value)
            }
            Self::Root(inner) => pass.line(self, quantity(inner)?.root().ok_or(EvaluateError::Unfit)?),
            Self::Call(call) => match called(call, scope, pass)? {
                Value::Quantity(quantity) => pass.line(self, quantity),
                choice @ Value::Choice(_) => return Ok(choice),
            },
        };
        if value.si.is_finite() { Ok(Value::Quantity(value)) } else { Err(EvaluateError::NotFinite) }
    }

    /// The pieces that it is made of.
    pub(crate) fn pieces(&self) -> Vec<&Self> {
        match self {
            Self::Negated(inner) | Self::Root(inner) => vec![inner],
            Self::Binary(_, left, right) | Self::Power(left, right) => vec![left, right],
            Self::Call(call) => call.arguments.iter().flatten().collect(),
            Self::Number(_) | Self::Pi | Self::Quantity { .. } | Self::Choice(_) | Self::Name(_) => Vec::new(),
        }
    }

    /// Whether it is worked out here: neither written, named nor given by a relation.
    fn is_worked(&self) -> bool {
        matches!(self, Self::Binary(..) | Self::Power(..) | Self::Root(_) | Self::Negated(_))
    }

    /// Whether it, or a piece of it, is so.
    pub(crate) fn any(&self, is: &mut dyn FnMut(&Self) -> bool) -> bool {
        is(self) || self.pieces().into_iter().any(|piece| piece.any(is))
    }

    /// How its value is rounded when it is shown: to the safe side of what a relation gives.
    #[must_use]
    pub fn rounding(&self) -> Rounding {
        match self {
            Self::Call(call) => {
                call.relation.outputs.get(call.output).map_or(SafeSide::Neither, |output| output.safe_side).into()
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

impl Call {
    /// What a relation of a course gives on the way to its result, by the name of the formula.
    pub(crate) fn on_the_way(&self, name: &str, scope: &Scope) -> Option<Quantity> {
        let relief::Run::Formulas(formulas) = self.relation.run else { return None };
        let given = given(self, scope, &AsWritten).ok()?;
        let manner = AsWritten.manner(self, scope);
        let lines = formulas.lines(&given, manner).ok()?;
        let place = formulas.place(name, manner.form)?;
        lines.get(place).copied()
    }
}

fn called(call: &Call, scope: &Scope, pass: &dyn Pass) -> Result<Value, EvaluateError> {
    let refused = |error| EvaluateError::Relation(call.relation.id, error);
    let given = given(call, scope, pass)?;
    let outputs = call.relation.evaluate_ordered(&given, pass.manner(call, scope));
    match outputs.map_err(refused)?.get(call.output) {
        Some(Argument::Quantity(quantity)) => Ok(Value::Quantity(quantity)),
        Some(Argument::Choice(name)) => Ok(Value::Choice(name.to_owned())),
        None => Err(EvaluateError::Unfit),
    }
}

/// The arguments of a call, in the order of the inputs.
fn given(call: &Call, scope: &Scope, pass: &dyn Pass) -> Result<Vec<Argument>, EvaluateError> {
    let refused = |error| EvaluateError::Relation(call.relation.id, error);
    let mut given = Vec::with_capacity(call.relation.inputs.len());
    for (place, input) in call.relation.inputs.iter().enumerate() {
        let argument = call.arguments.get(place).and_then(Option::as_ref);
        let value = match (argument, &input.default) {
            (Some(argument), _) => as_argument(argument.pass(scope, pass)?, input, argument.is_worked())?,
            (None, Some(default)) => default.value,
            (None, None) => return Err(refused(RelationError::Missing { input: input.name })),
        };
        given.push(match value {
            Argument::Quantity(quantity) => Argument::Quantity(pass.argument(call, input, argument, quantity)),
            choice @ Argument::Choice(_) => choice,
        });
    }
    Ok(given)
}

/// A value as an argument. What a product gave is of the kind that the input takes, where the dimension is the same: that was
/// checked when the formula was read.
fn as_argument(value: Value, input: &relief::Input, is_computed: bool) -> Result<Argument, EvaluateError> {
    match (value, &input.form) {
        (Value::Quantity(quantity), relief::Form::Quantity(kind, _)) if is_computed && kind.fits(quantity.kind) => {
            Ok(Argument::Quantity(Quantity::new(quantity.si, *kind)))
        }
        (Value::Quantity(quantity), _) => Ok(Argument::Quantity(quantity)),
        (Value::Choice(name), relief::Form::Choice(known)) => {
            known.iter().find(|known| **known == name).map(|known| Argument::Choice(known)).ok_or(EvaluateError::Unfit)
        }
        (Value::Choice(_), relief::Form::Quantity(..)) => Err(EvaluateError::Unfit),
    }
}
