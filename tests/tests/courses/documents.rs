//! Documents that must agree with the code.

use std::fs;

use course::Code;
use seatwork_tests::top;

#[test]
fn the_guide_lists_every_diagnostic_code_and_no_other() {
    let guide = fs::read_to_string(top().join("DEVELOPERS.md")).expect("guide");
    let list = guide.split("## Diagnostic codes").nth(1).expect("section");
    let words = pages::Words::of("en").expect("words");
    let listed: Vec<_> =
        list.lines().filter_map(|line| line.strip_prefix("| `")?.split_once('`')).map(|(code, _)| code).collect();
    let known: Vec<_> = Code::all().map(Code::id).collect();
    let missing: Vec<_> = known.iter().filter(|code| !listed.contains(code)).collect();
    let wanted =
        |code: &&&str| format!("| `{code}` | {} |", words.get(&format!("faults.{code}.title")).replace('|', "\\|"));
    let lines: Vec<_> = missing.iter().map(wanted).collect();
    assert!(missing.is_empty(), "add to DEVELOPERS.md:\n{}", lines.join("\n"));
    let unknown: Vec<_> = listed.iter().filter(|code| !known.contains(code)).collect();
    assert!(unknown.is_empty(), "no such code: {unknown:?}");
}

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
