//! The relations against another library that works the same standards, written by other people: kept cases of it in
//! `tests/outside/fluids.csv`, and a fresh grid each day that `tests/outside/fluids-live.py` leaves in
//! `target/outside-cases.jsonl`, or where `SEATWORK_OUTSIDE` says.

mod kept;
mod live;

use std::collections::{BTreeMap, BTreeSet};

use kept::{Row, rows, worked};
use live::{Line, file, lines};

/// Closed formulas with the same constants: what the last bits of another order of operations may make.
const CLOSE: f64 = 1e-9;

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= CLOSE * expected.abs()
}

/// What no relation covers, because it is read off a digitised figure or table: by function, and two areas for which the
/// library looks Kw up in such a figure. Superheat factors are taken as given where an area of steam asks for one.
const SKIPPED_FUNCTIONS: &[(&str, usize)] = &[("API520_W", 6), ("API520_B", 14), ("API520_SH", 10)];
const SKIPPED_CASES: &[&str] = &["133", "143"];
/// How many of the kept cases a relation covers.
const COVERED: usize = 47;

fn is_skipped(row: &Row) -> bool {
    SKIPPED_FUNCTIONS.iter().any(|(function, _)| row.function == *function)
        || SKIPPED_CASES.contains(&row.case.as_str())
}

#[test]
fn every_kept_case_that_a_relation_covers_agrees() {
    let all = rows();
    let mut wrong = Vec::new();
    for row in all.iter().filter(|row| !is_skipped(row)) {
        let found = worked(row, &all);
        let agrees = match (&found, row.value()) {
            (kept::Found::Number(found), Ok(expected)) => close(*found, expected),
            (kept::Found::Named(area, letter), _) => {
                row.output.split_once(" = ").is_some_and(|(expected, millimetres)| {
                    *letter == expected && close(*area, millimetres.parse().expect("area"))
                })
            }
            (kept::Found::Answer(answer), _) => *answer == row.output,
            (kept::Found::Number(_), Err(_)) => false,
        };
        if !agrees {
            wrong
                .push(format!("case {}: {}({}) gives {found:?}, not {}", row.case, row.function, row.text, row.output));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_is_skipped_is_named_and_counted() {
    let all = rows();
    let mut skipped = BTreeMap::new();
    for row in all.iter().filter(|row| !SKIPPED_CASES.contains(&row.case.as_str()) && is_skipped(row)) {
        *skipped.entry(row.function.as_str()).or_insert(0) += 1;
    }
    assert_eq!(skipped, SKIPPED_FUNCTIONS.iter().copied().collect());
    let named = all.iter().filter(|row| SKIPPED_CASES.contains(&row.case.as_str()));
    assert!(named.clone().all(|row| row.note.contains("looked up by library from figure")));
    assert_eq!(named.count(), SKIPPED_CASES.len());
    let covered = all.iter().filter(|row| !is_skipped(row)).count();
    assert_eq!(covered, COVERED);
    assert_eq!(
        covered + SKIPPED_CASES.len() + SKIPPED_FUNCTIONS.iter().map(|(_, count)| count).sum::<usize>(),
        all.len()
    );
}

/// What the fresh grid must reach.
const REACHED: &[&str] = &[
    "critical_ratio",
    "full_open_when_hot",
    "gas_area",
    "gas_coefficient",
    "liquid_area",
    "liquid_capacity",
    "napier_factor",
    "opening_after_load_loss",
    "opening_after_shortening",
    "opening_when_hot",
    "solid_length",
    "spring_index",
    "spring_rate",
    "spring_stress",
    "standard_orifice",
    "steam_area",
    "subcritical_factor",
    "subcritical_gas_area",
    "travel_margin",
    "viscosity_factor",
    "wahl_factor",
];
const LEAST_POINTS: usize = 2000;

#[test]
fn the_fresh_grid_agrees() {
    let Some(lines) = lines() else {
        let file = file();
        assert!(std::env::var_os("CI").is_none(), "{} is missing", file.display());
        eprintln!("not compared: {} is missing; tests/outside/fluids-live.py makes it", file.display());
        return;
    };
    let wrong: Vec<_> = lines.iter().filter_map(fault).collect();
    assert!(wrong.is_empty(), "{} of {} differ, first: {}", wrong.len(), lines.len(), wrong[0]);
    let points: Vec<_> = lines.iter().filter(|line| line.expected.is_some()).collect();
    assert!(points.len() >= LEAST_POINTS, "only {} points", points.len());
    let reached: BTreeSet<_> = points.iter().map(|line| line.relation.as_str()).collect();
    assert_eq!(reached, REACHED.iter().copied().collect());
}

/// Says where a line and its relation differ.
fn fault(line: &Line) -> Option<String> {
    let found = line.work();
    let agrees = match (&found, line.expected) {
        (Ok(outputs), Some(expected)) => {
            close(outputs.first().si, expected) && line.named.as_deref() == live::name(outputs)
        }
        (Err(error), None) => Some(error.id()) == line.refused.as_deref(),
        _ => false,
    };
    (!agrees).then(|| format!("{line:?}\n  gives {found:?}"))
}
