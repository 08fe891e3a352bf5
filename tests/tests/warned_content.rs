//! One warning a folder: what `proof` says of it, in words and as data, and that the course is published all the same.
//!
//! Each folder of `tests/warned-content` lies over the course without a fault, `tests/bad-content/base`, and brings one
//! warning into it. The name of the folder is the code of the warning, and after a dot what is special about it.

use std::collections::BTreeSet;
use std::fs;
use std::process::Output;

use seatwork_tests::{Scratch, command, top};
use serde_json::Value;

/// A scratch folder with the course of a case.
fn course(case: Option<&str>) -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&top().join("tests/bad-content/base"), "course");
    if let Some(case) = case {
        scratch.copy(&top().join("tests/warned-content").join(case), "course");
    }
    scratch
}

fn proof(scratch: &Scratch, more: &[&str]) -> Output {
    let mut command = command();
    command.env("SEATWORK_CACHE", scratch.path("cache")).current_dir(scratch.path(""));
    command.args(["proof", "--course", "course", "--seeds", "20"]).args(more).output().expect("command")
}

fn warnings(output: &Output) -> Vec<Value> {
    let report: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    report["warnings"].as_array().expect("list").clone()
}

#[test]
fn every_warning_is_told_in_words_and_as_data_and_hinders_nothing() {
    let folders = fs::read_dir(top().join("tests/warned-content")).expect("folder");
    let mut cases: Vec<_> =
        folders.map(|entry| entry.expect("entry").file_name().into_string().expect("name")).collect();
    cases.sort();
    let codes: BTreeSet<_> = cases.iter().map(|case| code(case)).collect();
    assert_eq!(codes, course::WARNINGS.iter().copied().collect());
    cases.iter().for_each(|case| check(case));
}

fn code(case: &str) -> &str {
    case.split('.').next().unwrap_or_default()
}

fn check(case: &str) {
    let scratch = course(Some(case));
    let output = proof(&scratch, &[]);
    let said = String::from_utf8(output.stderr).expect("text");
    assert_eq!(output.status.code(), Some(0), "{case}: {said}");
    assert_eq!((said.matches("warning[").count(), said.contains("error[")), (1, false), "{case}: {said}");
    let told = warnings(&proof(&scratch, &["--json"]));
    let [one] = told.as_slice() else { panic!("{case}: {told:?}") };
    assert_eq!((&one["code"], &one["severity"]), (&code(case).into(), &"warning".into()));
    let place = format!("course/{}", one["file"].as_str().expect("file"));
    let line = one["line"].as_u64().map(|line| format!("{place}:{line}:{}", one["column"]));
    assert!(said.contains(&line.unwrap_or(place)), "{case}: {one}");
    assert!(said.contains(one["fix"].as_str().expect("fix")), "{case}: {one}");
    assert!(scratch.publish().status.success(), "{case}");
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!(format!("warned_content__{case}"), said);
    });
}

#[test]
fn a_course_with_nothing_to_look_at_is_proven_in_silence() {
    let output = proof(&course(None), &["--json"]);
    assert_eq!(warnings(&output), Vec::<Value>::new());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn who_names_a_recipe_is_told_of_that_alone() {
    let scratch = course(Some("objective-unpractised"));
    let output = proof(&scratch, &["seat_force"]);
    assert!(output.status.success() && output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn recipes_that_no_lesson_shows_are_listed() {
    let scratch = course(Some("lesson-practises-ahead"));
    let report = String::from_utf8(proof(&scratch, &[]).stdout).expect("text");
    assert!(report.contains("practice pages alone: name_seat\n"), "{report}");
    let data: Value = serde_json::from_slice(&proof(&scratch, &["--json"]).stdout).expect("JSON");
    assert_eq!(data["unshown"], Value::from(vec!["name_seat"]));
}
