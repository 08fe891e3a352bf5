//! Tables that a relation fills: worked for a row of values, and for several codes or editions beside each other.

use super::cells::{STATED, WORKED, in_unit, under};
use super::layout::{Cell, Column, Content, Ladder, Table};
use crate::kind::Kind;
use crate::quantity::{Gauge, Length, Number, Quantity, Typed};
use crate::relations::{bench, settings, viscosity};
use crate::system::System;
use crate::units;

impl Ladder {
    pub(super) fn columns(&self) -> Vec<Column> {
        let headings =
            [self.of].into_iter().zip([self.units]).chain(self.across.iter().map(|name| (*name, self.gives.1)));
        headings.flat_map(|(heading, units)| units.iter().map(move |unit| under(heading, unit))).collect()
    }

    pub(super) fn rungs(&self) -> Vec<Vec<Cell>> {
        self.at.iter().map(|value| self.rung(*value)).collect()
    }

    fn rung(&self, value: f64) -> Vec<Cell> {
        let si = units::find(self.units[0]).map_or(value, |unit| unit.quantity(value, self.kind).si);
        let converted = self.units.iter().skip(1).map(|unit| in_unit(unit, Quantity::new(si, self.kind)));
        let first = [Cell::Number(value, STATED)].into_iter().chain(converted);
        let worked = self.across.iter().flat_map(|name| {
            let given = (self.work)(si, name);
            self.gives.1.iter().map(move |unit| number(unit, Quantity::new(given, self.gives.0)))
        });
        first.chain(worked).collect()
    }
}

/// A number in a unit, or the bare one where there is none.
fn number(unit: &str, quantity: Quantity) -> Cell {
    if unit.is_empty() { Cell::Number(quantity.si, WORKED) } else { in_unit(unit, quantity) }
}

const SETS_PSIG: &[f64] = &[15.0, 30.0, 50.0, 70.0, 75.0, 100.0, 150.0, 300.0, 350.0, 600.0, 1000.0, 1500.0];
const SETS_BARG: &[f64] = &[1.0, 2.0, 3.0, 5.0, 6.0, 10.0, 15.0, 20.0, 25.0, 40.0, 70.0, 100.0];
const TOLERANCES: &[&str] = &["vessel", "boiler", "iso"];
const BLOWDOWNS: &[&str] = &["boiler", "vessel_certification", "iso_gas", "iso_liquid"];

/// A limit by several codes, as they state it in one system of units.
const fn compared(id: &'static str, limit: &Compared, system: &StatedIn) -> Table {
    let (of, kind, units, at) = ("set", Kind::Gauge, system.set, system.at);
    let gives = (Kind::Difference, system.difference);
    let work = if system.metric { limit.metric } else { limit.customary };
    let ladder = Ladder { of, kind, units, at, across: limit.codes, gives, work };
    Table { id, relations: limit.relations, content: Content::Ladder(ladder) }
}

/// A limit that several codes have.
struct Compared {
    relations: &'static [&'static str],
    codes: &'static [&'static str],
    customary: fn(f64, &str) -> f64,
    metric: fn(f64, &str) -> f64,
}

/// The units in which codes state limits, and set pressures that are round in them.
struct StatedIn {
    metric: bool,
    set: &'static [&'static str],
    at: &'static [f64],
    difference: &'static [&'static str],
}

const POUNDS: StatedIn = StatedIn { metric: false, set: &["psig"], at: SETS_PSIG, difference: &["psi"] };
const BARS: StatedIn = StatedIn { metric: true, set: &["barg"], at: SETS_BARG, difference: &["bar"] };
const TOLERANCE: Compared = Compared {
    relations: &["set_tolerance"],
    codes: TOLERANCES,
    customary: |set, code| tolerance(set, code, System::Us),
    metric: |set, code| tolerance(set, code, System::Si),
};
const BLOWDOWN: Compared = Compared {
    relations: &["blowdown_limit"],
    codes: BLOWDOWNS,
    customary: |set, code| most_blowdown(set, code, System::Us),
    metric: |set, code| most_blowdown(set, code, System::Si),
};

fn tolerance(set: f64, code: &str, form: System) -> f64 {
    settings::set_tolerance(Gauge::from_si(set), code, form).1.si()
}

fn most_blowdown(set: f64, code: &str, form: System) -> f64 {
    settings::blowdown_limit(Gauge::from_si(set), code, form).1.si()
}

/// What codes and editions make of the same values.
pub(super) const COMPARED: &[Table] = &[
    compared("tolerance_psi", &TOLERANCE, &POUNDS),
    compared("tolerance_bar", &TOLERANCE, &BARS),
    compared("blowdown_psi", &BLOWDOWN, &POUNDS),
    compared("blowdown_bar", &BLOWDOWN, &BARS),
    Table {
        id: "viscosity_factor",
        relations: &["viscosity_factor"],
        content: Content::Ladder(Ladder {
            of: "reynolds",
            kind: Kind::Number,
            units: &[""],
            at: &[100.0, 200.0, 500.0, 1e3, 2e3, 5e3, 1e4, 2e4, 5e4, 1e5],
            across: &["7", "10"],
            gives: (Kind::Number, &[""]),
            work: |reynolds, edition| viscosity::viscosity_factor(Number::from_si(reynolds), edition == "10").si(),
        }),
    },
];

pub(super) const LEAK_TEST: Table = Table {
    id: "leak_test",
    relations: &["leak_test_pressure"],
    content: Content::Ladder(Ladder {
        of: "cold_test",
        kind: Kind::Gauge,
        units: &["psig", "barg"],
        at: &[15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 150.0, 200.0, 300.0, 600.0, 1000.0],
        across: &["leak_test"],
        gives: (Kind::Gauge, &["psig", "barg"]),
        // No value of this table is below 5 psig, which is all that the relation refuses.
        work: |set, _| bench::leak_test_pressure(Gauge::from_si(set)).map_or(f64::NAN, Typed::si),
    }),
};

pub(super) const WATER_LEAK: Table = Table {
    id: "water_leak",
    relations: &["water_leak_limit"],
    content: Content::Ladder(Ladder {
        of: "inlet",
        kind: Kind::Length,
        units: &["in"],
        at: &[0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0],
        across: &["metal", "soft"],
        gives: (Kind::VolumeFlow, &["cm3/h"]),
        work: |inlet, seat| bench::water_leak_limit(Length::from_si(inlet), seat == "soft").si(),
    }),
};

pub(super) const GAUGE_SPAN: Table = Table {
    id: "gauge_span",
    relations: &["gauge_range"],
    content: Content::Ladder(Ladder {
        of: "test",
        kind: Kind::Gauge,
        units: &["psig", "barg"],
        at: &[15.0, 30.0, 50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 600.0, 1000.0],
        across: &["least", "most"],
        gives: (Kind::Difference, &["psi", "bar"]),
        work: |test, end| {
            let (least, most) = bench::gauge_range(Gauge::from_si(test));
            if end == "least" { least.si() } else { most.si() }
        },
    }),
};
