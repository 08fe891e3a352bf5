//! The limits that codes state, as rows: the relations take them from here, and so do the reference tables.

use crate::compare::above;
use crate::factors::{BAR, KILOPASCAL, POUND_PER_SQUARE_INCH};
use crate::quantity::{Gauge, Typed};
use crate::relation::{Source, Status};
use crate::system::System;
use crate::texts::text;

/// The documents that limits come from: each row of a table names its own, and the source of its relation names them all.
macro_rules! document {
    (vessel) => {
        "ASME BPVC VIII-1 (2015) UG-134(d)"
    };
    (boiler) => {
        "ASME BPVC I PG-72.2 as tabulated, its kPa limits from memory"
    };
    (iso) => {
        "ISO 4126-1:2013/Amd 1:2016"
    };
    (boiler_blowdown) => {
        "ASME BPVC I PG-72: the least as tabulated, the steps of the most and all kPa from memory; editions differ"
    };
    (vessel_certification) => {
        "ASME BPVC VIII-1 UG-131"
    };
    (iso_blowdown) => {
        "ISO 4126-1:2013/Amd 1:2016 d)"
    };
    (vessel_rise) => {
        "ASME BPVC VIII-1 UG-125(c), (c)(1), (c)(2) as in API RP 520 tables 2 and 3; UG-153 since 2021 and the kPa minimums from memory"
    };
    (boiler_rise) => {
        "ASME BPVC I PG-67.2 as tabulated"
    };
    (ranks) => {
        "ASME BPVC VIII-1 UG-134(a) as in API RP 520 table 3 and figure; (b) for fire and UG-155 since 2021 from memory"
    };
    (ship_gas) => {
        "46 CFR 162.018-4(f), US ships, liquefied compressed gas"
    };
}

/// A pressure as a code states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stated {
    /// Nothing is stated.
    Nothing,
    /// Stated twice, in psi and in kilopascal: each is rounded apart, so that they are not conversions of each other.
    Twice(f64, f64),
    /// Stated in bar alone.
    Bars(f64),
}

impl Stated {
    /// The pressure (pascal), as the code states it in psi or in kilopascal.
    #[must_use]
    pub fn pascals(self, form: System) -> f64 {
        match (self, form) {
            (Self::Nothing, _) => 0.0,
            (Self::Twice(_, kilopascals), System::Si) => kilopascals * KILOPASCAL,
            (Self::Twice(pounds, _), System::Us) => pounds * POUND_PER_SQUARE_INCH,
            (Self::Bars(bars), _) => bars * BAR,
        }
    }
}

/// How wide a limit is: a share of a pressure or a stated pressure, whichever is greater.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Width {
    /// The share (a ratio).
    pub share: f64,
    /// The stated pressure.
    pub least: Stated,
}

impl Width {
    /// No width.
    const NONE: Self = Self::share(0.0);

    const fn share(share: f64) -> Self {
        Self { share, least: Stated::Nothing }
    }

    /// The width (pascal) at a pressure.
    #[must_use]
    pub fn at(self, pressure: Gauge, form: System) -> f64 {
        (pressure.si() * self.share).max(self.least.pascals(form))
    }
}

/// One row of a table of limits.
#[derive(Debug)]
pub struct Limit {
    /// What the row is for: one of the names that the relation's choice takes.
    pub name: &'static str,
    /// The highest pressure (gauge) that the row holds for; nothing where it holds above the rows before it.
    pub up_to: Stated,
    /// How far below, or the least.
    pub low: Width,
    /// How far above, or the most.
    pub high: Width,
    /// Where the row comes from.
    pub source: Source,
}

impl Limit {
    fn holds_at(&self, pressure: Gauge, form: System) -> bool {
        // With the slack of a conversion.
        self.up_to == Stated::Nothing || !above(pressure.si(), self.up_to.pascals(form))
    }
}

/// The row that holds for a name at a pressure; the last one for a name that has none.
pub(crate) fn find(rows: &'static [Limit], name: &str, pressure: Gauge, form: System) -> &'static Limit {
    let holds = |row: &&Limit| row.name == name && row.holds_at(pressure, form);
    rows.iter().find(holds).unwrap_or(&rows[rows.len() - 1])
}

const fn row(name: &'static str, low: Width, high: Width, document: &'static str, status: Status) -> Limit {
    Limit { name, up_to: Stated::Nothing, low, high, source: Source { document: text(document), status } }
}

const fn up_to(pounds: f64, kilopascals: f64, limit: Limit) -> Limit {
    Limit { up_to: Stated::Twice(pounds, kilopascals), ..limit }
}

const fn twice(pounds: f64, kilopascals: f64) -> Width {
    Width { share: 0.0, least: Stated::Twice(pounds, kilopascals) }
}

const fn or(share: f64, least: Stated) -> Width {
    Width { share, least }
}

const fn both(name: &'static str, width: Width, document: &'static str) -> Limit {
    row(name, width, width, document, Status::Read)
}

const fn boiler(width: Width) -> Limit {
    row("boiler", width, width, document!(boiler), Status::Partly)
}

const fn partly(document: &'static str) -> Source {
    Source { document, status: Status::Partly }
}

/// The source of [`SET_TOLERANCES`] as a whole.
pub(crate) const SET_TOLERANCES_SOURCE: Source =
    partly(concat!("vessel: ", document!(vessel), "; boiler: ", document!(boiler), "; iso: ", document!(iso)));

/// The source of [`BLOWDOWN_LIMITS`] as a whole.
pub(crate) const BLOWDOWN_LIMITS_SOURCE: Source = partly(concat!(
    "boiler: ",
    document!(boiler_blowdown),
    "; vessel_certification: ",
    document!(vessel_certification),
    ", from memory; iso: ",
    document!(iso_blowdown)
));

/// The source of [`ALLOWED_ACCUMULATIONS`] as a whole.
pub(crate) const ALLOWED_ACCUMULATIONS_SOURCE: Source =
    partly(concat!(document!(vessel_rise), "; ", document!(boiler_rise), " (boiler)"));

/// The source of [`MAXIMUM_SETS`] as a whole.
pub(crate) const MAXIMUM_SETS_SOURCE: Source = partly(document!(ranks));

/// The source of [`RESETS`], and of the limits that the maker and the vessel set.
pub(crate) const RESETS_SOURCE: Source = partly(concat!(
    "NBIC Part 4: the maker's published spring range (from memory); ASME BPVC VIII-1 UG-134(a): not above the MAWP (read); ",
    document!(ship_gas),
    ": 10 % of the marked pressure (read)"
));

/// How far from its set pressure a valve may open, below and above.
pub const SET_TOLERANCES: &[Limit] = &[
    up_to(70.0, 500.0, both("vessel", twice(2.0, 15.0), document!(vessel))),
    both("vessel", Width::share(0.03), document!(vessel)),
    row("vessel_fire_only", Width::NONE, Width::share(0.10), document!(vessel), Status::Read),
    up_to(70.0, 500.0, boiler(twice(2.0, 15.0))),
    up_to(300.0, 2100.0, boiler(Width::share(0.03))),
    up_to(1000.0, 7000.0, boiler(twice(10.0, 70.0))),
    boiler(Width::share(0.01)),
    both("iso", or(0.03, Stated::Bars(0.1)), document!(iso)),
];

const fn boiler_blowdown(most: Width) -> Limit {
    row("boiler", or(0.02, Stated::Twice(2.0, 15.0)), most, document!(boiler_blowdown), Status::Partly)
}

/// The least and the most blowdown.
pub const BLOWDOWN_LIMITS: &[Limit] = &[
    up_to(67.0, 500.0, boiler_blowdown(twice(4.0, 30.0))),
    up_to(250.0, 1700.0, boiler_blowdown(Width::share(0.06))),
    up_to(375.0, 2500.0, boiler_blowdown(twice(15.0, 100.0))),
    boiler_blowdown(Width::share(0.04)),
    row(
        "vessel_certification",
        Width::NONE,
        or(0.05, Stated::Twice(3.0, 20.0)),
        document!(vessel_certification),
        Status::Memory,
    ),
    row("iso_gas", Width::share(0.02), or(0.15, Stated::Bars(0.3)), document!(iso_blowdown), Status::Read),
    row("iso_liquid", Width::share(0.025), or(0.20, Stated::Bars(0.6)), document!(iso_blowdown), Status::Read),
];

/// How far the pressure may rise over the MAWP.
pub const ALLOWED_ACCUMULATIONS: &[Limit] = &[
    row("single", Width::NONE, or(0.10, Stated::Twice(3.0, 20.0)), document!(vessel_rise), Status::Partly),
    row("several", Width::NONE, or(0.16, Stated::Twice(4.0, 30.0)), document!(vessel_rise), Status::Partly),
    row("fire", Width::NONE, Width::share(0.21), document!(vessel_rise), Status::Partly),
    row("boiler", Width::NONE, Width::share(0.06), document!(boiler_rise), Status::Read),
];

/// How far above the MAWP a valve may be set, by its rank.
pub const MAXIMUM_SETS: &[Limit] = &[
    row("first", Width::NONE, Width::NONE, document!(ranks), Status::Partly),
    row("additional", Width::NONE, Width::share(0.05), document!(ranks), Status::Partly),
    row("fire_supplemental", Width::NONE, Width::share(0.10), document!(ranks), Status::Partly),
];

/// How far a new setting may be from the marked one, where a rule gives a number.
pub const RESETS: &[Limit] = &[both("ship_gas", Width::share(0.10), document!(ship_gas))];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stated_limit_is_taken_as_it_is_stated() {
        assert_eq!(Stated::Twice(2.0, 15.0).pascals(System::Si).to_bits(), 15_000.0_f64.to_bits());
        assert_eq!(Stated::Twice(2.0, 15.0).pascals(System::Us).to_bits(), (2.0 * POUND_PER_SQUARE_INCH).to_bits());
        assert_eq!(Stated::Bars(0.1).pascals(System::Us).to_bits(), 10_000.0_f64.to_bits());
    }

    #[test]
    fn the_rows_of_a_name_rise_and_the_last_is_open() {
        for rows in [SET_TOLERANCES, BLOWDOWN_LIMITS, ALLOWED_ACCUMULATIONS, MAXIMUM_SETS, RESETS] {
            for (row, next) in rows.iter().zip(rows.iter().skip(1).map(Some).chain([None])) {
                let same = next.filter(|next| next.name == row.name);
                assert_eq!(same.is_none(), row.up_to == Stated::Nothing, "{}", row.name);
                let rises = |next: &Limit| next.up_to.pascals(System::Us) > row.up_to.pascals(System::Us);
                assert!(same.is_none_or(|next| next.up_to == Stated::Nothing || rises(next)), "{}", row.name);
            }
        }
    }
}
