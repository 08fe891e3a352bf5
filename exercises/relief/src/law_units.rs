//! The units in which a law holds as it is printed. Laws of mechanics hold in any units that belong together; those of
//! the sizing standards have their units in their constants, and a number in another unit must not stand in them.

use crate::kind::Kind;
use crate::relation::{Form, Gives, Relation};
use crate::units::{self, Unit};

/// The units of the SI forms of the sizing standards (API Std 520 Part I).
const SIZING: &[(Kind, &str)] = &[
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

/// SI units without prefixes: what has a density, or heat and specific heat, in it.
const PLAIN: &[(Kind, &str)] = &[
    (Kind::VolumeFlow, "m3/s"),
    (Kind::Difference, "Pa"),
    (Kind::Area, "m2"),
    (Kind::Density, "kg/m3"),
    (Kind::HeatFlow, "W"),
    (Kind::SpecificHeat, "J/(kg K)"),
    (Kind::Expansion, "1/K"),
];

/// Newtons and millimetres: pressures are newtons for each square millimetre.
const NEWTON_MILLIMETRE: &[(Kind, &str)] =
    &[(Kind::Gauge, "MPag"), (Kind::Difference, "MPa"), (Kind::Absolute, "MPa"), (Kind::Stress, "MPa")];

const SIZED: &[&str] = &[
    "liquid_area",
    "liquid_area_uncertified",
    "liquid_capacity",
    "liquid_reynolds",
    "gas_area",
    "subcritical_gas_area",
    "napier_factor",
    "steam_area",
];

/// The unit in which the trade states what a relation gives, where that is another than for most values of its kind.
#[must_use]
pub fn result_unit(relation: &Relation) -> Option<&'static Unit> {
    if relation.id == "water_leak_limit" { units::find("cm3/h") } else { None }
}

/// The unit in which a value of a kind stands in a law as it is printed; `None` where the usual unit does. `metric` says
/// whether the values are otherwise shown in SI units: pounds and inches belong together as they are.
#[must_use]
pub fn law_unit(relation: &Relation, kind: Kind, metric: bool) -> Option<&'static Unit> {
    let table = if SIZED.contains(&relation.id) {
        SIZING
    } else if ["orifice_flow", "thermal_expansion_flow"].contains(&relation.id) {
        PLAIN
    } else if metric && has_forces(relation) {
        NEWTON_MILLIMETRE
    } else {
        return None;
    };
    let symbol = table.iter().find(|(known, _)| *known == kind).map(|(_, symbol)| symbol)?;
    units::find(symbol)
}

/// Whether a law joins pressures with areas, forces or springs.
fn has_forces(relation: &Relation) -> bool {
    let joins = |kind: Kind| matches!(kind, Kind::Area | Kind::Force | Kind::SpringRate);
    let given = relation.inputs.iter().any(|input| matches!(input.form, Form::Quantity(kind, _) if joins(kind)));
    given || relation.outputs.iter().any(|output| matches!(output.gives, Gives::Quantity(kind) if joins(kind)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::relations::relations;

    #[test]
    fn every_unit_measures_what_stands_in_its_place() {
        for (kind, symbol) in [SIZING, PLAIN, NEWTON_MILLIMETRE].concat() {
            assert!(units::find(symbol).is_some_and(|unit| unit.measures(kind)), "{symbol}");
        }
        for id in SIZED {
            assert!(relations().any(|relation| relation.id == *id), "{id}");
        }
    }

    /// 11.78 x 150 gpm would be no area: the flow stands in the law in litres a minute.
    #[test]
    fn a_law_with_units_in_its_constants_has_its_own_units_in_both_systems() {
        let relation = crate::relations::find("liquid_area").expect("relation");
        for metric in [false, true] {
            let symbol = |kind| law_unit(relation, kind, metric).map(|unit| unit.symbol);
            assert_eq!(symbol(Kind::VolumeFlow), Some("L/min"));
            assert_eq!(symbol(Kind::Gauge), Some("kPag"));
            assert_eq!(symbol(Kind::Area), Some("mm2"));
        }
        let force = crate::relations::find("opening_force").expect("relation");
        assert_eq!(law_unit(force, Kind::Gauge, true).map(|unit| unit.symbol), Some("MPag"));
        assert_eq!(law_unit(force, Kind::Gauge, false), None);
    }
}
