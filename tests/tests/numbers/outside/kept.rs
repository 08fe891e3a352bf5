//! The kept cases: a row of the table, and what the relations make of it.

use std::fs;

use relief::{Argument, Form, Outputs, Quantity, RelationError, find};
use seatwork_tests::top;

const ATMOSPHERE: f64 = 101_325.0;
/// The density that the other library counts specific gravity from.
const WATER: f64 = 999.010_753_951_848_3;
const SQUARE_MILLIMETRE: f64 = 1e-6;

/// One case of the other library.
#[derive(Debug)]
pub(crate) struct Row {
    /// Its number.
    pub(crate) case: String,
    /// The function of the other library.
    pub(crate) function: String,
    /// What it was given.
    pub(crate) text: String,
    /// What it gave.
    pub(crate) output: String,
    /// What is to be known about it.
    pub(crate) note: String,
}

impl Row {
    /// The output as a number.
    pub(crate) fn value(&self) -> Result<f64, std::num::ParseFloatError> {
        self.output.parse()
    }

    /// What was given under a name, without its unit.
    fn given(&self, name: &str) -> Option<&str> {
        let given = self.text.split("; ").find_map(|given| given.strip_prefix(name)?.strip_prefix('='))?;
        given.split(' ').next().map(|value| value.trim_matches('\''))
    }

    fn number(&self, name: &str) -> Option<f64> {
        self.given(name).map(|text| text.parse().unwrap_or_else(|_| panic!("case {}: {name}={text}", self.case)))
    }

    fn need(&self, name: &str) -> f64 {
        self.number(name).unwrap_or_else(|| panic!("case {}: no {name}", self.case))
    }
}

/// Every row of the table.
pub(crate) fn rows() -> Vec<Row> {
    let text = fs::read_to_string(top().join("tests/outside/fluids.csv")).expect("kept cases");
    text.lines().skip(1).map(row).collect()
}

fn row(line: &str) -> Row {
    let [case, _, _, function, inputs, output, _, note] =
        line.splitn(8, ',').collect::<Vec<_>>().try_into().unwrap_or_else(|_| panic!("not eight columns: {line}"));
    Row {
        case: case.into(),
        function: function.into(),
        text: inputs.into(),
        output: output.into(),
        note: note.trim_matches('"').into(),
    }
}

/// What the relations give for a row.
#[derive(Debug)]
pub(crate) enum Found {
    /// A number in the unit of the table.
    Number(f64),
    /// An area in square millimetre and a letter.
    Named(f64, &'static str),
    /// Yes or no, as the table writes it.
    Answer(&'static str),
}

/// What the relations give for a row of one of the covered functions.
pub(crate) fn worked(row: &Row, all: &[Row]) -> Found {
    match row.function.as_str() {
        "API520_Kv" => viscosity_factor(row),
        "API520_C" => Found::Number(first("gas_coefficient", &[("k", row.need("k"))])),
        "API520_F2" => {
            let ratio = row.need("P2") / row.need("P1");
            Found::Number(first("subcritical_factor", &[("k", row.need("k")), ("ratio", ratio)]))
        }
        "P_critical_flow" => Found::Number(row.need("P") * first("critical_ratio", &[("k", row.need("k"))])),
        "is_critical_flow" => is_critical(row),
        "API520_N" => Found::Number(first("napier_factor", &[("relieving", row.need("P1"))])),
        "API520_A_g" => gas_area(row),
        "API520_A_steam" => steam_area(row, all),
        "API520_A_l" => liquid_area(row),
        "API520_round_size" => orifice(row),
        other => panic!("case {}: {other} is neither covered nor skipped", row.case),
    }
}

fn work(relation: &str, given: &[(&str, f64)], choices: &[(&str, &'static str)]) -> Result<Outputs, RelationError> {
    let relation = find(relation).expect(relation);
    let quantity = |(name, si): &(&'_ str, f64)| {
        let (_, input) = relation.input(name).unwrap_or_else(|| panic!("{}: {name}", relation.id));
        let Form::Quantity(kind, _) = input.form else { panic!("{}: {name}", relation.id) };
        (input.name, Argument::Quantity(Quantity::new(*si, kind)))
    };
    let choices = choices.iter().map(|(name, choice)| (*name, Argument::Choice(choice)));
    relation.evaluate(&given.iter().map(quantity).chain(choices).collect::<Vec<_>>())
}

fn first(relation: &str, given: &[(&str, f64)]) -> f64 {
    work(relation, given, &[]).unwrap_or_else(|error| panic!("{relation}: {error}")).first().si
}

fn area(relation: &str, given: &[(&str, f64)]) -> Found {
    Found::Number(first(relation, given) / SQUARE_MILLIMETRE)
}

fn viscosity_factor(row: &Row) -> Found {
    let edition = match row.given("edition") {
        Some("7E") => "7",
        Some("10E") => "10",
        other => panic!("case {}: edition {other:?}", row.case),
    };
    let found = work("viscosity_factor", &[("reynolds", row.need("Re"))], &[("edition", edition)]);
    Found::Number(found.expect("lawful").first().si)
}

/// Whether the flow is critical shows in which of the two relations refuses it.
fn is_critical(row: &Row) -> Found {
    let state = [
        ("mass", 1.0),
        ("temperature", 300.0),
        ("molar_mass", 0.03),
        ("k", row.need("k")),
        ("relieving", row.need("P1")),
        ("back", row.need("P2")),
    ];
    let subcritical = [&state[..], &[("f2", 0.8)]].concat();
    match (work("gas_area", &state, &[]), work("subcritical_gas_area", &subcritical, &[])) {
        (Ok(_), Err(RelationError::Critical { instead: "gas_area" })) => Found::Answer("True"),
        (Err(RelationError::Subcritical { instead: "subcritical_gas_area" }), Ok(_)) => Found::Answer("False"),
        other => panic!("case {}: {other:?}", row.case),
    }
}

fn gas_area(row: &Row) -> Found {
    let mut given = vec![
        ("mass", row.need("m")),
        ("temperature", row.need("T")),
        ("compressibility", row.need("Z")),
        ("molar_mass", row.need("MW") * 1e-3),
        ("k", row.need("k")),
        ("relieving", row.need("P1")),
    ];
    given.extend(row.number("P2").map(|back| ("back", back)));
    if row.note != "subcritical" {
        return area("gas_area", &given);
    }
    let ratio = row.need("P2") / row.need("P1");
    given.push(("f2", first("subcritical_factor", &[("k", row.need("k")), ("ratio", ratio)])));
    area("subcritical_gas_area", &given)
}

/// The superheat factor is a table of the other library, so it is taken from there.
fn steam_area(row: &Row, all: &[Row]) -> Found {
    let relieving = row.need("P1");
    let given = [
        ("mass", row.need("m")),
        ("relieving", relieving),
        ("kn", first("napier_factor", &[("relieving", relieving)])),
        ("ksh", superheat(row, all)),
    ];
    area("steam_area", &given)
}

fn superheat(steam: &Row, all: &[Row]) -> f64 {
    // Below this the tenth edition has no superheat.
    if steam.given("edition") == Some("10E") && steam.need("T") < 478.15 {
        return 1.0;
    }
    let same = |row: &&Row| {
        row.function == "API520_SH"
            && row.number("T1") == steam.number("T")
            && row.number("P1") == steam.number("P1")
            && row.given("edition") == steam.given("edition")
    };
    let row = all.iter().find(same).unwrap_or_else(|| panic!("case {}: no superheat factor", steam.case));
    row.value().expect("factor")
}

/// The other library has absolute pressures and a density, the relation gauge pressures and a specific gravity.
fn liquid_area(row: &Row) -> Found {
    let density = row.need("rho");
    let given = [
        ("flow", row.need("m") / density),
        ("gravity", density / WATER),
        ("relieving", row.need("P1") - ATMOSPHERE),
        ("back", row.need("P2") - ATMOSPHERE),
        ("kd", row.need("Kd")),
        ("kw", row.need("Kw")),
        ("kc", row.need("Kc")),
        ("kv", row.need("Kv")),
    ];
    area("liquid_area", &given)
}

fn orifice(row: &Row) -> Found {
    match work("standard_orifice", &[("area", row.need("A"))], &[]) {
        Ok(Outputs::Named(area, letter)) => Found::Named(area.si / SQUARE_MILLIMETRE, letter),
        other => panic!("case {}: {other:?}", row.case),
    }
}
