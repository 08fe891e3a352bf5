//! The units in which a law holds as it is printed. Laws of mechanics hold in any units that belong together. The constants
//! of the sizing standards belong to certain units: with a number in another unit they give a wrong result.

use crate::kind::Kind;
use crate::relation::{Relation, Units};
use crate::system::System;
use crate::units::{self, Unit};

/// The units of the SI forms of the sizing standards (API Std 520 Part I).
pub(crate) const SIZING_SI: Units = &[
    (Kind::VolumeFlow, "L/min"),
    (Kind::MassFlow, "kg/h"),
    (Kind::Gauge, "kPag"),
    (Kind::Absolute, "kPaa"),
    (Kind::Difference, "kPa"),
    (Kind::Area, "mm2"),
    (Kind::Viscosity, "cP"),
    (Kind::Temperature, "K"),
    (Kind::MolarMass, "kg/kmol"),
];

/// The units of the customary forms of the sizing standards (API Std 520 Part I).
pub(crate) const SIZING_US: Units = &[
    (Kind::VolumeFlow, "gpm"),
    (Kind::MassFlow, "lb/h"),
    (Kind::Gauge, "psig"),
    (Kind::Absolute, "psia"),
    (Kind::Difference, "psi"),
    (Kind::Area, "in2"),
    (Kind::Viscosity, "cP"),
    (Kind::Temperature, "degR"),
    (Kind::MolarMass, "lb/lbmol"),
];

/// The units of the customary form of the expansion formula (API Std 521).
pub(crate) const HEATING_US: Units = &[
    (Kind::VolumeFlow, "gpm"),
    (Kind::HeatFlow, "Btu/h"),
    (Kind::SpecificHeat, "Btu/(lb degF)"),
    (Kind::Expansion, "1/degF"),
];

/// A ratio that the trade writes as a number, where it writes a share in percent.
pub(crate) const BARE_RATIO: Units = &[(Kind::Ratio, BARE)];

/// Written where there is no unit.
const BARE: &str = "";

/// SI units without prefixes: what has a density, or heat and specific heat, in it.
pub(crate) const PLAIN: Units = &[
    (Kind::VolumeFlow, "m3/s"),
    (Kind::Difference, "Pa"),
    (Kind::Area, "m2"),
    (Kind::Density, "kg/m3"),
    (Kind::HeatFlow, "W"),
    (Kind::SpecificHeat, "J/(kg K)"),
    (Kind::Expansion, "1/K"),
];

/// Newtons and millimetres: pressures are newtons for each square millimetre.
pub(crate) const NEWTON_MILLIMETRE: Units =
    &[(Kind::Gauge, "MPag"), (Kind::Difference, "MPa"), (Kind::Absolute, "MPa"), (Kind::Stress, "MPa")];

/// The unit in which the trade states what a relation gives, where it is not the usual one of its kind.
#[must_use]
pub fn result_unit(relation: &Relation) -> Option<&'static Unit> {
    units::of_symbol(relation.outputs[0].stated_in?)
}

/// The unit of a kind of quantity in the form of a law that a system prints; `None` for the usual unit. Pounds and inches
/// belong together as they are.
#[must_use]
pub fn law_unit(relation: &Relation, kind: Kind, form: System) -> Option<&'static Unit> {
    units::of_symbol(relation.forms.units(form).iter().find(|(known, _)| *known == kind)?.1)
}

/// Whether the trade writes a value of a kind as a bare number in a relation: a pressure ratio of 0.55, not 55 %.
#[must_use]
pub fn is_bare(relation: &Relation, kind: Kind) -> bool {
    kind == Kind::Number || relation.forms.units(System::Si).contains(&(kind, BARE))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unit_measures_what_stands_in_its_place() {
        for (kind, symbol) in [SIZING_SI, SIZING_US, HEATING_US, PLAIN, NEWTON_MILLIMETRE].concat() {
            assert!(units::find(symbol).is_some_and(|unit| unit.measures(kind)), "{symbol}");
        }
    }

    /// 38 belongs to gallons a minute and 11.78 to litres a minute: each form has its own units.
    #[test]
    fn a_law_with_units_in_its_constants_has_them_in_each_form() {
        let relation = crate::relations::find("liquid_area").expect("relation");
        let symbols = |form| {
            [Kind::VolumeFlow, Kind::Gauge, Kind::Area]
                .map(|kind| law_unit(relation, kind, form).map(|unit| unit.symbol))
        };
        assert_eq!(symbols(System::Si), [Some("L/min"), Some("kPag"), Some("mm2")]);
        assert_eq!(symbols(System::Us), [Some("gpm"), Some("psig"), Some("in2")]);
        let force = crate::relations::find("opening_force").expect("relation");
        assert_eq!(law_unit(force, Kind::Gauge, System::Si).map(|unit| unit.symbol), Some("MPag"));
        assert_eq!(law_unit(force, Kind::Gauge, System::Us), None);
    }
}
