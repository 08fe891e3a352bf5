//! One core, three ways: natively, in the built engine under an interpreter, and (from the file that this leaves in
//! `target/parity-cases.jsonl`) in the browser. Every answer is the same to the last bit.
//!
//! `SEATWORK_ENGINE` names a folder with another built engine than the kept one.

mod cases;
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

/// A case as the browser reads it, and how it differs in the built engine, where it does.
struct Tried {
    line: String,
    differs: Option<String>,
}

/// Every so-many-th case, from the one at `first` on.
fn tried(engine: &[u8], first: usize, of: usize) -> Vec<Tried> {
    let mut wasm = Interpreter::new(engine);
    let mut tried = |call: Call| {
        let (expected, found) = (call.natively(), call.in_wasm(&mut wasm));
        let differs = (found != expected).then(|| format!("{call:?}\n  native {expected:?}\n  wasm   {found:?}"));
        Tried { line: call.line(&expected), differs }
    };
    all_cases().into_iter().skip(first).step_by(of).map(&mut tried).collect()
}

#[test]
fn the_built_engine_answers_as_the_native_core() {
    let engine = fs::read(engine().join("engine.wasm")).expect("built engine");
    // A part of the cases for each thread, with an engine of its own.
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let parts: Vec<_> = (0..threads).collect();
    let tried = course::on_threads(&parts, 1, |part| tried(&engine, *part, threads));
    let tried: Vec<_> = tried.into_iter().flatten().collect();
    let different: Vec<_> = tried.iter().filter_map(|each| each.differs.as_ref()).collect();
    assert!(different.is_empty(), "{} of {} differ, first: {}", different.len(), tried.len(), different[0]);
    assert!(tried.len() > 10_000, "only {} cases", tried.len());
    let file = top().join("target/parity-cases.jsonl");
    fs::create_dir_all(file.parent().expect("target")).expect("target");
    let lines: String = tried.iter().flat_map(|each| [each.line.as_str(), "\n"]).collect();
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
