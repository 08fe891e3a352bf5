//! The registry: every relation once, by family.
#![deny(unused_variables, reason = "a relation uses all that its row takes")]

mod rows;

pub mod bench;
pub mod coil;
pub mod gas;
pub mod liquid;
pub mod orifice;
pub mod pressures;

pub mod settings;
pub mod spring;
pub mod viscosity;

use crate::relation::Relation;

/// Relations that belong together: one reference page.
#[derive(Debug)]
pub struct Family {
    /// The name, the same in addresses and words.
    pub id: &'static str,
    /// Its relations, in the order of the page.
    pub relations: &'static [Relation],
}

/// Every family, in the order of the reference.
pub const FAMILIES: &[Family] = &[
    Family { id: "pressures", relations: pressures::RELATIONS },
    Family { id: "settings", relations: settings::RELATIONS },
    Family { id: "spring", relations: spring::RELATIONS },
    Family { id: "coil", relations: coil::RELATIONS },
    Family { id: "orifice", relations: orifice::RELATIONS },
    Family { id: "liquid", relations: liquid::RELATIONS },
    Family { id: "viscosity", relations: viscosity::RELATIONS },
    Family { id: "gas", relations: gas::RELATIONS },
    Family { id: "steam", relations: gas::STEAM },
    Family { id: "bench", relations: bench::RELATIONS },
];

/// Every relation, in the order of the families.
pub fn relations() -> impl Iterator<Item = &'static Relation> {
    FAMILIES.iter().flat_map(|family| family.relations)
}

/// The relation with an id.
#[must_use]
pub fn find(id: &str) -> Option<&'static Relation> {
    relations().find(|relation| relation.id == id)
}

#[cfg(test)]
mod tests;
