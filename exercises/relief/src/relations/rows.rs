//! What the rows of the registry are written with: inputs, outputs and forms in short.

use crate::kind::Kind;
use crate::quantity::{Quantity, Typed};
use crate::relation::{
    Argument, Default, Form, Forms, Gives, Input, Output, Outputs, Printed, Range, RelationError, SafeSide, Source,
};
use crate::texts::text;

/// The highest pressure that any relation takes: far above any relief valve, low enough that no product overflows.
pub(super) const PRESSURE: f64 = 1e9;
/// The greatest length that any relation takes (metre).
pub(super) const LENGTH: f64 = 1e2;

/// The units of a printed law.
pub(super) type Units = &'static [(Kind, &'static str)];

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

/// The two forms of one formula: what either gives is right.
pub(super) const fn each(us: Printed, si: Printed) -> Forms {
    Forms::Each { us, si }
}

/// One law whose numbers a code states for each system.
pub(super) const fn stated(law: &'static str, source: Source) -> Forms {
    let si = Source { document: source.document, status: source.status };
    Forms::BySystem { us: printed(law, source), si: printed(law, si) }
}

pub(super) const fn quantity(name: &'static str, symbol: &'static str, kind: Kind, range: Range) -> Input {
    Input { name, symbol: text(symbol), form: Form::Quantity(kind, range), default: None }
}

/// A gauge pressure from zero up.
pub(super) const fn gauge(name: &'static str, symbol: &'static str) -> Input {
    quantity(name, symbol, Kind::Gauge, Range::from_zero(PRESSURE))
}

/// A gauge pressure above zero, at which something is set or opens.
pub(super) const fn opens(name: &'static str, symbol: &'static str) -> Input {
    quantity(name, symbol, Kind::Gauge, Range::positive(PRESSURE))
}

pub(super) const fn length(name: &'static str, symbol: &'static str) -> Input {
    quantity(name, symbol, Kind::Length, Range::positive(LENGTH))
}

pub(super) const fn number(name: &'static str, symbol: &'static str, range: Range) -> Input {
    quantity(name, symbol, Kind::Number, range)
}

/// A number with a usual value.
pub(super) const fn number_from(
    name: &'static str,
    symbol: &'static str,
    range: Range,
    usual: f64,
    source: &'static str,
) -> Input {
    let value = Argument::Quantity(Quantity::new(usual, Kind::Number));
    let default = Some(Default { value, source: text(source) });
    Input { name, symbol: text(symbol), form: Form::Quantity(Kind::Number, range), default }
}

/// A correction factor of a sizing formula, with its usual value.
pub(super) const fn ratio(name: &'static str, symbol: &'static str, usual: f64, source: &'static str) -> Input {
    number_from(name, symbol, Range::between(0.01, 2.0), usual, source)
}

/// A size: rounded up when it is shown.
pub(super) const fn size(name: &'static str, symbol: &'static str) -> Output {
    Output { name, symbol: text(symbol), gives: Gives::Quantity(Kind::Area), safe_side: SafeSide::Up }
}

pub(super) const fn output(name: &'static str, symbol: &'static str, kind: Kind) -> Output {
    Output { name, symbol: text(symbol), gives: Gives::Quantity(kind), safe_side: SafeSide::Neither }
}

#[expect(clippy::unnecessary_wraps, reason = "the shape that a relation's function has")]
pub(super) fn one(value: impl Typed) -> Result<Outputs, RelationError> {
    Ok(Outputs::One(value.quantity()))
}
