//! Numbers and units as a learner reads them.

use relief::units::{self, Unit};
use relief::{Exact, Kind, Quantity, Rounding, Style, System};

use crate::decimal_mark::DecimalMark;
use crate::rounding::RoundingGrid;

/// Significant figures of a computed value.
pub const FIGURES: u8 = 4;

/// Significant figures of the lines in a working: one more than an answer has, so that a sum of what is printed gives
/// what is printed beside it, and the answer is not rounded twice.
pub const WORKING_FIGURES: u8 = 5;

/// Between a number and its unit, where no line may break.
const SPACE: char = '\u{a0}';

/// What is printed for what is typed in the symbol of a unit. Where two begin alike, the longer one comes first.
const PRINTED: [(&str, &str); 16] = [
    ("kPaa", "kPa (abs)"),
    ("kPag", "kPa (gauge)"),
    ("in2", "in²"),
    ("m2", "m²"),
    ("m3", "m³"),
    ("ft3", "ft³"),
    ("degF", "°F"),
    ("degR", "°R"),
    ("degC", "°C"),
    ("kg K", "kg·K"),
    ("mol K", "mol·K"),
    ("ft lbf", "ft·lbf"),
    ("in lbf", "in·lbf"),
    ("N m", "N·m"),
    ("ft2", "ft²"),
    ("s2", "s²"),
];

/// The symbol of a unit as it is printed: `in²` for `in2`, `turns` beside any number but one and the fractions below.
#[must_use]
pub fn unit_text(unit: &Unit, value: f64) -> String {
    let single = value.abs() <= 1.0;
    match unit.symbol {
        "turn" if !single => "turns".to_owned(),
        symbol => printed(symbol),
    }
}

fn printed(symbol: &str) -> String {
    let mut out = String::with_capacity(2 * symbol.len());
    let mut rest = symbol;
    while let Some(next) = rest.chars().next() {
        let known = PRINTED.iter().find_map(|(typed, printed)| Some((*printed, rest.strip_prefix(typed)?)));
        let (text, after) = known.unwrap_or_else(|| rest.split_at(next.len_utf8()));
        out.push_str(text);
        rest = after;
    }
    out
}

/// A number with its unit.
fn with_unit(mut number: String, unit: Option<&Unit>, value: f64) -> String {
    if let Some(unit) = unit {
        number.push(SPACE);
        number.push_str(&unit_text(unit, value));
    }
    number
}

/// A text of [`computed`] and its like with no more places after the mark than so many.
#[must_use]
pub fn at_most_places(text: String, most: usize, quantity: Quantity, unit: Option<&Unit>, mark: DecimalMark) -> String {
    if places(&text, mark) <= most {
        return text;
    }
    let value = unit.map_or(quantity.si, |unit| unit.value(quantity));
    let number = format!("{value:.most$}");
    with_unit(mark.print(&number), unit, value)
}

/// The places after the mark of the number that a text begins with.
#[must_use]
pub fn places(text: &str, mark: DecimalMark) -> usize {
    let number = text.split(SPACE).next().unwrap_or_default();
    number.split_once(mark.sign()).map_or(0, |(_, after)| after.len())
}

/// An exact number in a unit.
#[must_use]
pub fn number(value: Exact, style: Style, unit: Option<&Unit>, mark: DecimalMark) -> String {
    written(&value.text(style), value, unit, mark)
}

/// The same, where it is written with a point already.
pub(crate) fn written(number: &str, value: Exact, unit: Option<&Unit>, mark: DecimalMark) -> String {
    with_unit(mark.print(number), unit, value.to_f64())
}

/// A computed quantity in a unit.
#[must_use]
pub fn computed(quantity: Quantity, unit: Option<&Unit>, rounding: Rounding, mark: DecimalMark) -> String {
    to_figures(quantity, unit, FIGURES, rounding, mark)
}

/// The same with so many significant figures.
#[must_use]
pub fn to_figures(
    quantity: Quantity,
    unit: Option<&Unit>,
    figures: u8,
    rounding: Rounding,
    mark: DecimalMark,
) -> String {
    let value = unit.map_or(quantity.si, |unit| unit.value(quantity));
    let number = relief::shown(value, figures, rounding);
    with_unit(mark.print(&number), unit, relief::nearest(&number).unwrap_or(value))
}

/// A rounded value as it was asked for.
#[must_use]
pub fn on_grid(value: f64, grid: &RoundingGrid, unit: Option<&Unit>, mark: DecimalMark) -> String {
    let number = grid
        .exact(value)
        .map_or_else(|| relief::shown(value, FIGURES, Rounding::Nearest), |exact| exact.text(grid.style(value)));
    with_unit(mark.print(&number), unit, value)
}

/// The unit in which a relation is given a value of a kind, or gives it: none for a ratio that the trade writes as a
/// number.
#[must_use]
pub fn unit_for(relation: &relief::Relation, kind: Kind, system: System) -> Option<&'static Unit> {
    match relation.unit_in(system) {
        Some(unit) if kind == relation.kind() => Some(unit),
        _ if relief::is_bare(relation, kind) => None,
        _ => usual_unit(kind, system),
    }
}

/// The unit in which an intermediate value of a calculation is shown.
#[must_use]
pub fn usual_unit(kind: Kind, system: System) -> Option<&'static Unit> {
    let symbol = match (kind, system) {
        (Kind::Number | Kind::Derived(_), _) => return None,
        (Kind::Ratio, _) => "%",
        (Kind::Turns, _) => "turn",
        (Kind::Length, System::Us) => "in",
        (Kind::Length, System::Si) => "mm",
        (Kind::Area, System::Us) => "in2",
        (Kind::Area, System::Si) => "mm2",
        (Kind::Force, System::Us) => "lbf",
        (Kind::Force, System::Si) => "N",
        (Kind::SpringRate, System::Us) => "lbf/in",
        (Kind::SpringRate, System::Si) => "N/mm",
        (Kind::Stress | Kind::Difference, System::Us) => "psi",
        (Kind::Stress, System::Si) => "MPa",
        (Kind::Difference, System::Si) => "bar",
        (Kind::Gauge, System::Us) => "psig",
        (Kind::Gauge, System::Si) => "barg",
        (Kind::Temperature, System::Us) => "degF",
        (Kind::Temperature, System::Si) => "degC",
        (Kind::TemperatureDifference, System::Us) => "degF difference",
        (Kind::TemperatureDifference, System::Si) => "K",
        (Kind::Density, System::Us) => "lb/ft3",
        (Kind::Density, System::Si) => "kg/m3",
        (Kind::VolumeFlow, System::Us) => "gpm",
        (Kind::VolumeFlow, System::Si) => "L/min",
        (Kind::MassFlow, System::Us) => "lb/h",
        (Kind::MassFlow, System::Si) => "kg/h",
        (Kind::Viscosity, _) => "cP",
        (Kind::KinematicViscosity, _) => "cSt",
        (Kind::MolarMass, System::Us) => "lb/lbmol",
        (Kind::MolarMass, System::Si) => "kg/kmol",
        (Kind::HeatFlow, System::Us) => "Btu/h",
        (Kind::HeatFlow, System::Si) => "kW",
        (Kind::SpecificHeat, System::Us) => "Btu/(lb degF)",
        (Kind::SpecificHeat, System::Si) => "kJ/(kg K)",
        (Kind::Expansion, System::Us) => "1/degF",
        (Kind::Expansion, System::Si) => "1/K",
        (Kind::CountRate, _) => "1/min",
        (Kind::Volume, System::Us) => "gal",
        (Kind::Volume, System::Si) => "L",
        (Kind::Mass, System::Us) => "lbm",
        (Kind::Mass, System::Si) => "kg",
        (Kind::Time, _) => "s",
        (Kind::Velocity, System::Us) => "ft/s",
        (Kind::Velocity, System::Si) => "m/s",
        (Kind::Acceleration, System::Us) => "ft/s2",
        (Kind::Acceleration, System::Si) => "m/s2",
        (Kind::Energy, System::Us) => "Btu",
        (Kind::Energy, System::Si) => "kJ",
        (Kind::Torque, System::Us) => "ft lbf",
        (Kind::Torque, System::Si) => "N m",
        (Kind::MolarHeat, System::Us) => "Btu/(lbmol degR)",
        (Kind::MolarHeat, System::Si) => "J/(mol K)",
        (Kind::Absolute, System::Us) => "psia",
        (Kind::Absolute, System::Si) => "bara",
    };
    units::find(symbol)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_printed_as_people_read_them() {
        let unit = |symbol| units::find(symbol).expect(symbol);
        assert_eq!(unit_text(unit("in2"), 3.0), "in²");
        assert_eq!(unit_text(unit("turn"), 0.5), "turn");
        assert_eq!(unit_text(unit("turn"), 2.0), "turns");
        let area = unit("in2").quantity(1.234_56, Kind::Area);
        assert_eq!(computed(area, Some(unit("in2")), Rounding::Nearest, DecimalMark::Comma), "1,235\u{a0}in²");
    }

    #[test]
    fn every_named_kind_has_a_unit_in_both_systems() {
        for kind in Kind::NAMED.into_iter().filter(|kind| *kind != Kind::Number) {
            for system in System::BOTH {
                assert!(usual_unit(kind, system).is_some_and(|unit| unit.measures(kind)), "{kind:?}");
            }
        }
    }
}
