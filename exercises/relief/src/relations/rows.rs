//! What the rows of the registry are written with: the row itself, inputs, outputs and forms in short.

use core::marker::PhantomData;

use crate::law_units::NEWTON_MILLIMETRE;
use crate::quantity::{Area, Gauge, Length, Number, Quantity, Typed};
use crate::relation::{
    Argument, Default, Form, Forms, Gives, Input, Output, Outputs, Printed, Range, RelationError, Role, SafeSide,
    Source, Units,
};
use crate::texts::text;

/// One row of the registry. Each input is named once: the name is the input's, and in `run` it is the value that was
/// given, as the Rust type of its kind. So a name that is mistyped, a value of the wrong kind and an input that `run`
/// does not use are refused by the compiler. `run(manner)` also has the manner in which the relation is worked.
macro_rules! relation {
    (
        id: $id:literal,
        inputs: { $($name:ident: $takes:expr),+ $(,)? },
        outputs: $outputs:expr,
        forms: $forms:expr,
        run$(($manner:ident))?: $run:expr $(,)?
    ) => {
        $crate::relation::Relation {
            id: $id,
            key: $id,
            inputs: &[$($takes.named(stringify!($name))),+],
            outputs: $outputs,
            forms: $forms,
            steps: &[],
            units: None,
            run: $crate::relation::Run::Native(|arguments| {
                let [$($name),+] = arguments.given else { return Err($crate::relation::RelationError::NotFinite) };
                $(let $name = $takes.read($name);)+
                $(let $manner = arguments.manner;)?
                $run
            }),
        }
    };
}
pub(super) use relation;

/// What an input takes, all but its name: a quantity of the kind that `Q` is the type of.
#[derive(Clone, Copy)]
pub(super) struct Takes<Q> {
    symbol: &'static str,
    range: Range,
    usual: Option<(f64, &'static str)>,
    role: Role,
    quantity: PhantomData<Q>,
}

impl<Q: Typed> Takes<Q> {
    /// With what is taken where nothing is given (SI), and where that comes from.
    pub(super) const fn usually(self, si: f64, source: &'static str) -> Self {
        Self { usual: Some((si, source)), ..self }
    }

    /// With what the input is beyond its kind.
    pub(super) const fn is(self, role: Role) -> Self {
        Self { role, ..self }
    }

    pub(super) const fn named(self, name: &'static str) -> Input {
        let default = match self.usual {
            Some((si, source)) => {
                Some(Default { value: Argument::Quantity(Quantity::new(si, Q::KIND)), source: text(source) })
            }
            None => None,
        };
        Input { name, symbol: text(self.symbol), form: Form::Quantity(Q::KIND, self.range), default, role: self.role }
    }

    /// The value of an argument that was checked.
    pub(super) fn read(&self, argument: &Argument) -> Q {
        match argument {
            Argument::Quantity(quantity) => Q::from_si(quantity.si),
            Argument::Choice(_) => Q::from_si(f64::NAN),
        }
    }
}

/// What an input takes, all but its name: one of these names.
#[derive(Clone, Copy)]
pub(super) struct Choice {
    symbol: &'static str,
    names: &'static [&'static str],
    usual: Option<(&'static str, &'static str)>,
}

impl Choice {
    /// With what is taken where nothing is given, and where that comes from.
    pub(super) const fn usually(self, name: &'static str, source: &'static str) -> Self {
        Self { usual: Some((name, source)), ..self }
    }

    pub(super) const fn named(self, name: &'static str) -> Input {
        let default = match self.usual {
            Some((name, source)) => Some(Default { value: Argument::Choice(name), source: text(source) }),
            None => None,
        };
        Input { name, symbol: text(self.symbol), form: Form::Choice(self.names), default, role: Role::Plain }
    }

    /// The name of an argument that was checked.
    pub(super) fn read(&self, argument: &Argument) -> &'static str {
        match argument {
            Argument::Choice(name) => name,
            Argument::Quantity(_) => "",
        }
    }
}

/// The highest pressure that any relation takes: far above any relief valve, low enough that no product overflows.
pub(super) const PRESSURE: f64 = 1e9;
/// The greatest length that any relation takes (metre).
pub(super) const LENGTH: f64 = 1e2;

pub(super) const fn quantity<Q: Typed>(symbol: &'static str, range: Range) -> Takes<Q> {
    Takes { symbol, range, usual: None, role: Role::Plain, quantity: PhantomData }
}

/// A gauge pressure from zero up.
pub(super) const fn gauge(symbol: &'static str) -> Takes<Gauge> {
    quantity(symbol, Range::from_zero(PRESSURE))
}

/// A gauge pressure above zero, at which something is set or opens.
pub(super) const fn opens(symbol: &'static str) -> Takes<Gauge> {
    quantity(symbol, Range::positive(PRESSURE))
}

pub(super) const fn length(symbol: &'static str) -> Takes<Length> {
    quantity(symbol, Range::positive(LENGTH))
}

pub(super) const fn number(symbol: &'static str, range: Range) -> Takes<Number> {
    quantity(symbol, range)
}

/// A correction factor of a sizing formula, with its usual value.
pub(super) const fn correction(symbol: &'static str, usual: f64, source: &'static str) -> Takes<Number> {
    number(symbol, Range::between(0.01, 2.0)).usually(usual, source)
}

pub(super) const fn choice(symbol: &'static str, names: &'static [&'static str]) -> Choice {
    Choice { symbol, names, usual: None }
}

pub(super) const fn output<Q: Typed>(name: &'static str, symbol: &'static str) -> Output {
    let gives = Gives::Quantity(Q::KIND);
    Output { name, symbol: text(symbol), gives, safe_side: SafeSide::Neither, stated_in: None }
}

/// A quantity that must not be shown smaller than it is.
pub(super) const fn at_least<Q: Typed>(name: &'static str, symbol: &'static str) -> Output {
    Output { safe_side: SafeSide::Up, ..output::<Q>(name, symbol) }
}

/// A quantity that must not be shown larger than it is.
pub(super) const fn at_most<Q: Typed>(name: &'static str, symbol: &'static str) -> Output {
    Output { safe_side: SafeSide::Down, ..output::<Q>(name, symbol) }
}

/// A size: rounded up when it is shown.
pub(super) const fn size(name: &'static str, symbol: &'static str) -> Output {
    at_least::<Area>(name, symbol)
}

/// One of these names, beside a quantity.
pub(super) const fn one_of(name: &'static str, symbol: &'static str, names: &'static [&'static str]) -> Output {
    let gives = Gives::Choice(names);
    Output { name, symbol: text(symbol), gives, safe_side: SafeSide::Neither, stated_in: None }
}

/// A law as it is printed in the usual units.
pub(super) const fn printed(law: &'static str, source: Source) -> Printed {
    printed_in(law, &[], source)
}

pub(super) const fn printed_in(law: &'static str, units: Units, source: Source) -> Printed {
    Printed { law: text(law), units, source: Source { document: text(source.document), status: source.status } }
}

/// One form that serves both systems.
pub(super) const fn same(law: &'static str, source: Source) -> Forms {
    Forms::Same(printed(law, source))
}

/// One form that serves both systems and joins pressures with areas, forces or springs: pounds and inches, or newtons and
/// millimetres.
pub(super) const fn mechanics(law: &'static str, source: Source) -> Forms {
    Forms::Same(printed_in(law, NEWTON_MILLIMETRE, source))
}

/// The two forms of one formula: what either gives is right.
pub(super) const fn each(us: Printed, si: Printed) -> Forms {
    Forms::Each { us, si }
}

/// One law whose numbers a code states for each system.
pub(super) const fn stated(law: &'static str, source: Source) -> Forms {
    let si = Source { document: source.document, status: source.status };
    Forms::BySystem { us: printed(law, source), si: printed(law, si) }
}

/// What a relation of one output gives.
#[expect(clippy::unnecessary_wraps, reason = "the shape that a relation's function has")]
pub(super) fn one(value: impl Typed) -> Result<Outputs, RelationError> {
    Ok(Outputs::One(value.quantity()))
}
