//! `proof` as a user runs it, with nothing but its defaults: the course, the guide and a course just started pass it, with
//! no refusal and no warning.

use std::path::Path;

use seatwork_tests::{Scratch, command, top};

/// Proves a course with the defaults of the command, which has a default for the course, too.
fn prove(folder: &Path, course: Option<&str>) {
    let course = course.map(|course| ["--course", course]);
    let output = command().current_dir(folder).arg("proof").args(course.iter().flatten()).output().expect("command");
    let text = [&output.stdout, &output.stderr].map(|bytes| String::from_utf8_lossy(bytes).into_owned()).concat();
    assert!(output.status.success(), "{course:?}: {text}");
    assert!(!text.to_lowercase().contains("warning"), "{course:?}: {text}");
    assert!(text.contains("recipes proven"), "{course:?}: {text}");
}

#[test]
fn the_course_is_proven() {
    prove(&top(), None);
}

#[test]
fn the_guide_is_proven() {
    prove(&top(), Some("content/guide"));
}

#[test]
fn a_course_just_started_is_proven() {
    let scratch = Scratch::new();
    let started = command().current_dir(scratch.path("")).args(["start", "begun"]).output().expect("command");
    assert!(started.status.success(), "{}", String::from_utf8_lossy(&started.stderr));
    prove(&scratch.path(""), Some("begun"));
}
