//! One core, three ways: natively, in the built engine under an interpreter, and (from the file that this leaves in
//! `target/parity-cases.jsonl`) in the browser. Every answer is the same to the last bit.
//!
//! `SEATWORK_ENGINE` names a folder with another built engine than the kept one.

#[path = "parity/cases.rs"]
mod cases;
#[path = "parity/interpreter.rs"]
mod interpreter;

use std::fs;
use std::path::PathBuf;

use cases::{Call, all_cases};
use interpreter::Interpreter;
use problems::recipe::System;
use seatwork_tests::top;

fn engine() -> PathBuf {
    std::env::var_os("SEATWORK_ENGINE").map_or_else(|| top().join("exercises/engine/prebuilt"), PathBuf::from)
}

#[test]
fn the_built_engine_answers_as_the_native_core() {
    let mut wasm = Interpreter::new(&fs::read(engine().join("engine.wasm")).expect("built engine"));
    let mut lines = String::new();
    let (mut count, mut different) = (0, Vec::new());
    for call in all_cases() {
        let expected = call.natively();
        let found = call.in_wasm(&mut wasm);
        if found != expected {
            different.push(format!("{call:?}\n  native {expected:?}\n  wasm   {found:?}"));
        }
        lines.push_str(&call.line(&expected));
        lines.push('\n');
        count += 1;
    }
    assert!(different.is_empty(), "{} of {count} differ, first: {}", different.len(), different[0]);
    assert!(count > 10_000, "only {count} cases");
    let file = top().join("target/parity-cases.jsonl");
    fs::create_dir_all(file.parent().expect("target")).expect("target");
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
