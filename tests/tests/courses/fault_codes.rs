//! The list of fault codes and the sources agree: no code is written as text beside it, and none is left that nothing uses.

use std::fs;
use std::path::{Path, PathBuf};

use course::Code;
use seatwork_tests::top;

/// Where the list is.
const LIST: &str = "exercises/faults/src/code.rs";

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
