//! The list of fault codes and the sources agree: no code is written as text beside it, and none is left that nothing uses.
//! The table for contributors is made of the list and of the words; `INSTA_UPDATE=always` writes it again.

use std::path::{Path, PathBuf};
use std::{env, fs};

use course::Code;
use pages::Words;
use seatwork_tests::top;

/// Where the list is, and the table that is made of it.
const LIST: &str = "exercises/faults/src/code.rs";
const TABLE: &str = "exercises/faults/CODES.md";

/// What comes above the table of the faults, and above that of the warnings.
const FAULTS: &str = "# Codes of faults

Made of `src/code.rs` and of the words under `faults` in `theme/words/en.yaml`; `INSTA_UPDATE=always cargo test -p seatwork-tests
--test courses fault_codes` writes it again.

| code | what is wrong |
| --- | --- |
";
const WARNINGS: &str = "
## Warnings

What an author should look at although the course is published.

| code | what to look at |
| --- | --- |
";

/// The Rust sources below a folder, the list left out.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("folder").map(|entry| entry.expect("entry").path());
    let below = entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] });
    below.filter(|path| path.extension().is_some_and(|kind| kind == "rs") && !path.ends_with(LIST)).collect()
}

fn texts(folders: &[&str]) -> Vec<(PathBuf, String)> {
    let files = folders.iter().flat_map(|folder| sources(&top().join(folder)));
    files.map(|file| (file.clone(), fs::read_to_string(file).expect("source"))).collect()
}

#[test]
fn no_code_is_written_as_text() {
    let all = texts(&["exercises", "generator", "tests/src", "tests/tests", "tests/bench", "tests/fuzz/fuzz_targets"]);
    assert!(all.len() > 200, "{} sources", all.len());
    for (file, text) in all {
        let written: Vec<_> = text.split('"').filter(|part| Code::find(part).is_some()).collect();
        assert!(written.is_empty(), "{}: {written:?}: write Code::…", file.display());
    }
}

#[test]
fn every_code_is_used() {
    let product = texts(&["exercises/problems/src", "generator/course/src"]);
    let used: String = product.into_iter().map(|(_, text)| text).collect();
    let is_used = |code: &Code| {
        let name = format!("Code::{code:?}");
        used.match_indices(&name).any(|(at, _)| !used[at + name.len()..].starts_with(char::is_alphanumeric))
    };
    assert_eq!(Code::all().filter(|code| !is_used(code)).collect::<Vec<_>>(), []);
}

fn table() -> String {
    let words = Words::of("en").expect("words");
    let row = |code: &Code| {
        let title = words.get(&format!("faults.{code}.title")).replace('|', "\\|");
        format!("| `{code}` | {title} |\n")
    };
    let rows = |codes: &[Code]| codes.iter().map(row).collect::<String>();
    [FAULTS, &rows(Code::FAULTS), WARNINGS, &rows(Code::WARNINGS)].concat()
}

#[test]
fn the_table_of_codes_is_what_the_list_and_the_words_make() {
    let (file, made) = (top().join(TABLE), table());
    if env::var("INSTA_UPDATE").is_ok_and(|update| update == "always") {
        fs::write(&file, &made).expect("table");
    }
    let kept = fs::read_to_string(&file).unwrap_or_default();
    assert!(kept == made, "{TABLE} is out of date: INSTA_UPDATE=always writes it again");
}
