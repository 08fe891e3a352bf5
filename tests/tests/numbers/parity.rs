//! One core, natively and built: the cases that are worked here go to `target/parity-cases.jsonl`, each with its answer,
//! and `tests/browser/parity.test.mjs` holds the built engine to every one of them, to the last bit.

mod cases;

use std::fs;

use cases::{Call, all_cases};
use problems::recipe::System;
use seatwork_tests::top;

#[test]
fn the_cases_are_left_for_the_built_engine() {
    let cases = all_cases();
    assert!(cases.len() > 10_000, "only {} cases", cases.len());
    let file = top().join("target/parity-cases.jsonl");
    fs::create_dir_all(file.parent().expect("target")).expect("target");
    let lines: String = cases.iter().map(|call| call.line() + "\n").collect();
    fs::write(file, lines).expect("cases for the browser");
}

#[test]
fn the_cases_reach_every_relation_and_both_systems() {
    let cases = all_cases();
    for relation in relief::relations() {
        let own = |call: &&Call| matches!(call, Call::Bits { relation: id, .. } if *id == relation.id);
        let has_result = |call: &&Call| u64::from_str_radix(call.natively().get(..16).unwrap_or_default(), 16).is_ok();
        let works = cases.iter().filter(own).filter(has_result).count();
        assert!(works >= 10, "{}: only {works} cases with a result", relation.id);
    }
    for system in System::BOTH {
        assert!(cases.iter().any(|call| matches!(call, Call::Mark { system: other, .. } if *other == system)));
    }
}
