//! The columns and rows of each table.

use super::cells::{STATED, in_unit, plain, share, under};
use super::layout::{Cell, Column, Content, LimitTable, Row, Table};
use crate::factors::SQUARE_INCH;
use crate::kind::Kind;
use crate::limits::{Limit, Stated, Width};
use crate::quantity::Quantity;
use crate::relation::{Source, Status};
use crate::relations;
use crate::relations::bench::{BUBBLES, GAUGE_GRADES};
use crate::relations::orifice::ORIFICES;
use crate::system::System;
use crate::units::{self, UNITS, Unit};

/// Figures of the factor of a unit.
const FACTOR: u8 = 10;

impl Table {
    /// The columns, without those of source and status, which every table has.
    #[must_use]
    pub fn columns(&self) -> Vec<Column> {
        match &self.content {
            Content::Orifices => vec![plain("letter"), under("effective_area", "in2"), under("effective_area", "mm2")],
            Content::Limits(table) => table.columns(),
            Content::Bubbles => vec![
                Column { under: Some("set_from"), name: None, unit: units::find("psig") },
                Column { under: Some("set_from"), name: None, unit: units::find("barg") },
                Column { under: Some("bubbles"), name: Some("to_f"), unit: units::find("1/min") },
                Column { under: Some("bubbles"), name: Some("above_f"), unit: units::find("1/min") },
            ],
            Content::GaugeGrades => vec![
                plain("grade"),
                Column { under: Some("gauge_error"), name: Some("middle"), unit: units::find("%") },
                Column { under: Some("gauge_error"), name: Some("ends"), unit: units::find("%") },
            ],
            Content::Ladder(ladder) => ladder.columns(),
            Content::Units => ["kind", "unit", "factor", "si_unit", "zero", "also"].map(plain).to_vec(),
        }
    }

    /// Whether the first column repeats itself over many rows and reads better as a heading over them.
    #[must_use]
    pub fn is_grouped(&self) -> bool {
        matches!(self.content, Content::Units)
    }

    /// The rows, each with a cell for every column.
    #[must_use]
    pub fn rows(&self) -> Vec<Row> {
        match &self.content {
            Content::Orifices => ORIFICES.iter().map(|(letter, inches)| self.row(orifice(letter, *inches))).collect(),
            Content::Limits(table) => table.rows.iter().map(|limit| table.row(limit)).collect(),
            Content::Bubbles => BUBBLES.iter().map(|row| self.row(bubbles(row))).collect(),
            Content::GaugeGrades => GAUGE_GRADES
                .iter()
                .map(|grade| self.row(vec![Cell::Choice(grade.name), share(grade.middle), share(grade.ends)]))
                .collect(),
            Content::Ladder(ladder) => ladder.rungs().into_iter().map(|cells| self.row(cells)).collect(),
            Content::Units => by_kind().map(|unit| self.unit(unit)).collect(),
        }
    }

    /// Where the table as a whole comes from: the source of the first relation that uses it.
    fn source(&self) -> &'static Source {
        /// The factors of units.
        const UNITS: Source = Source { document: "", status: Status::Derived };
        let relation = self.relations.first().and_then(|id| relations::find(id));
        relation.map_or(&UNITS, |relation| &relation.forms.of(System::Us).source)
    }

    fn row(&self, cells: Vec<Cell>) -> Row {
        let source = self.source();
        Row { cells, document: source.document, status: source.status }
    }

    fn unit(&self, unit: &'static Unit) -> Row {
        let kind = unit.usual_kind();
        let zero = unit.quantity(0.0, kind).si;
        let cells = vec![
            Cell::Kinds(&unit.kinds[..1]),
            Cell::Symbol(unit.symbol.to_owned()),
            Cell::Number(unit.factor(), FACTOR),
            Cell::Symbol(si_unit(kind)),
            if zero.abs() > 0.0 { Cell::Number(zero, FACTOR) } else { Cell::Nothing },
            if unit.kinds.len() > 1 { Cell::Kinds(&unit.kinds[1..]) } else { Cell::Nothing },
        ];
        Row { document: unit.source, ..self.row(cells) }
    }
}

/// Every unit, those that mean the same kind together.
fn by_kind() -> impl Iterator<Item = &'static Unit> {
    let is_first = |unit: &&Unit| units_of(unit.usual_kind()).next() == Some(*unit);
    UNITS.iter().filter(is_first).flat_map(|unit| units_of(unit.usual_kind()))
}

/// The units that mean a kind where the place does not say.
fn units_of(kind: Kind) -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().filter(move |unit| unit.usual_kind() == kind)
}

/// The symbol of the SI unit of a kind: that of the unit table, or one made of base units.
fn si_unit(kind: Kind) -> String {
    let is_base = |unit: &&Unit| {
        let one = unit.quantity(1.0, kind).si - unit.quantity(0.0, kind).si;
        unit.measures(kind) && unit.quantity(0.0, kind).si.abs() <= 0.0 && one.to_bits() == 1.0_f64.to_bits()
    };
    UNITS.iter().find(is_base).map_or_else(|| kind.dimension().in_base_units(), |unit| unit.symbol.to_owned())
}

fn orifice(letter: &'static str, inches: f64) -> Vec<Cell> {
    let area = Quantity::new(inches * SQUARE_INCH, Kind::Area);
    vec![Cell::Letter(letter), Cell::Number(inches, STATED), in_unit("mm2", area)]
}

fn bubbles(row: &(f64, f64, f64)) -> Vec<Cell> {
    let from = units::find("psig").map_or(0.0, |unit| unit.quantity(row.0, Kind::Gauge).si);
    let bar = in_unit("barg", Quantity::new(from, Kind::Gauge));
    vec![Cell::Number(row.0, STATED), bar, Cell::Number(row.1, STATED), Cell::Number(row.2, STATED)]
}

impl LimitTable {
    /// Whether the rows hold up to a pressure each.
    fn steps(&self) -> bool {
        self.rows.iter().any(|row| row.up_to != Stated::Nothing)
    }

    /// Whether a side states pressures anywhere.
    fn states(&self, side: fn(&Limit) -> Width) -> bool {
        self.rows.iter().any(|row| side(row).least != Stated::Nothing)
    }

    /// Whether a side states pressures in bar anywhere.
    fn states_bars(&self, side: fn(&Limit) -> Width) -> bool {
        self.rows.iter().any(|row| matches!(side(row).least, Stated::Bars(_)))
    }

    /// The sides that are shown, with their headings.
    fn sides(&self) -> impl Iterator<Item = (&'static str, fn(&Limit) -> Width)> {
        let low: fn(&Limit) -> Width = |row| row.low;
        let high: fn(&Limit) -> Width = |row| row.high;
        self.low.map(|heading| (heading, low)).into_iter().chain([(self.high, high)])
    }

    fn columns(&self) -> Vec<Column> {
        let mut all = vec![plain(self.of)];
        if self.steps() {
            all.extend(["psig", "kPag"].map(|unit| under("set_up_to", unit)));
        }
        for (heading, side) in self.sides() {
            all.push(under(heading, "%"));
            if self.states(side) {
                all.extend(["psi", "kPa"].map(|unit| under(heading, unit)));
            }
            if self.states_bars(side) {
                all.push(under(heading, "bar"));
            }
        }
        all
    }

    fn row(&self, limit: &'static Limit) -> Row {
        let mut cells = vec![Cell::Choice(limit.name)];
        if self.steps() {
            cells.extend(stated(limit.up_to));
        }
        for (heading, side) in self.sides() {
            let width = side(limit);
            // A pressure alone has no share beside it, and a least of nothing is left out.
            let none = (width.least != Stated::Nothing || heading == "least") && width.share.abs() < f64::EPSILON;
            cells.push(if none { Cell::Nothing } else { share(width.share) });
            if self.states(side) {
                cells.extend(stated(width.least));
            }
            if self.states_bars(side) {
                cells.push(match width.least {
                    Stated::Bars(bars) => Cell::Number(bars, STATED),
                    _ => Cell::Nothing,
                });
            }
        }
        Row { cells, document: limit.source.document, status: limit.source.status }
    }
}

/// A stated pressure in psi and in kilopascal; what is stated in bar alone stays in bar.
fn stated(stated: Stated) -> [Cell; 2] {
    match stated {
        Stated::Nothing | Stated::Bars(_) => [Cell::Nothing, Cell::Nothing],
        Stated::Twice(pounds, kilopascals) => [Cell::Number(pounds, STATED), Cell::Number(kilopascals, STATED)],
    }
}
