//! One warning a folder: what `proof` says of it, in words and as data, and that the course is published all the same.
//!
//! Each folder of `tests/warned-content` lies over the course without a fault, `tests/bad-content/base`, and brings one
//! warning into it. The name of the folder is the code of the warning, and after a dot what is special about it; its file `mend`
//! says what an author would change.

use std::collections::BTreeSet;
use std::process::Output;

use course::Code;
use seatwork_tests::{BadCase, Scratch, command, whole_course};
use serde_json::Value;

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
    let cases = BadCase::warned();
    let codes: BTreeSet<_> = cases.iter().map(BadCase::code).collect();
    assert_eq!(codes, Code::WARNINGS.iter().copied().collect());
    cases.iter().for_each(check);
}

fn check(case: &BadCase) {
    let scratch = case.broken();
    told(case, &scratch);
    case.mend(&scratch);
    let output = proof(&scratch, &[]);
    assert!(output.status.success() && output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
}

fn told(case: &BadCase, scratch: &Scratch) {
    let (case, code) = (&case.name, case.code());
    let output = proof(scratch, &[]);
    let said = String::from_utf8(output.stderr).expect("text");
    assert_eq!(output.status.code(), Some(0), "{case}: {said}");
    assert_eq!((said.matches("warning[").count(), said.contains("error[")), (1, false), "{case}: {said}");
    let told = warnings(&proof(scratch, &["--json"]));
    let [one] = told.as_slice() else { panic!("{case}: {told:?}") };
    assert_eq!((&one["code"], &one["severity"]), (&code.id().into(), &"warning".into()));
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
    let output = proof(&whole_course(), &["--json"]);
    assert_eq!(warnings(&output), Vec::<Value>::new());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn who_names_a_recipe_is_told_of_that_alone() {
    let scratch = BadCase::named(Code::ObjectiveUnpractised.id()).broken();
    let output = proof(&scratch, &["seat_force"]);
    assert!(output.status.success() && output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn recipes_that_no_lesson_shows_are_listed() {
    let scratch = BadCase::named(Code::LessonPractisesAhead.id()).broken();
    let report = String::from_utf8(proof(&scratch, &[]).stdout).expect("text");
    assert!(report.contains("practice pages alone: name_seat\n"), "{report}");
    let data: Value = serde_json::from_slice(&proof(&scratch, &["--json"]).stdout).expect("JSON");
    assert_eq!(data["unshown"], Value::from(vec!["name_seat"]));
}
