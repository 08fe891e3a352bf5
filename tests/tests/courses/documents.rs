//! Documents that must agree with the code.

use std::fs;

use seatwork_tests::top;

#[test]
fn the_readme_opens_with_the_job_and_its_two_commands_exist() {
    let readme = fs::read_to_string(top().join("README.md")).expect("README");
    let mut paragraphs = readme.split("\n\n").skip(1);
    assert!(paragraphs.next().is_some_and(|job| job.len() > 300 && !job.starts_with(['#', '!', '`'])));
    assert!(paragraphs.next().is_some_and(|picture| picture.starts_with("![")));
    assert!(readme.contains("cargo run --release -- publish") && top().join("tests/run").exists());
    let picture = readme.split("](").nth(1).and_then(|rest| rest.split(')').next()).expect("picture");
    assert!(top().join(picture).exists(), "{picture}");
}
