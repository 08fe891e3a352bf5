//! `tests/changed`, which says what `tests/run changed` runs: it names what exists, and what it does not know touches
//! everything.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use seatwork_tests::top;

/// What it prints for some files, line by line.
fn touched(files: &[String]) -> Vec<String> {
    let mut script = Command::new(top().join("tests/changed"));
    let mut running = script.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect("script");
    let mut input = running.stdin.take().expect("input");
    files.iter().for_each(|file| writeln!(input, "{file}").expect("written"));
    drop(input);
    let output = running.wait_with_output().expect("script");
    assert!(output.status.success());
    String::from_utf8(output.stdout).expect("text").lines().map(str::to_owned).collect()
}

/// The names of what is in a folder, with an ending that is left out.
fn names(folder: &str, ending: &str) -> Vec<String> {
    let entries = fs::read_dir(top().join(folder)).expect("folder");
    let names = entries.map(|entry| entry.expect("entry").file_name().to_string_lossy().into_owned());
    names.filter_map(|name| name.strip_suffix(ending).map(str::to_owned)).collect()
}

fn programs() -> Vec<String> {
    names("tests/tests", "")
        .into_iter()
        .filter(|name| top().join("tests/tests").join(name).join("main.rs").exists())
        .collect()
}

#[test]
fn what_is_not_known_touches_everything_whatever_else_has_changed() {
    let unknown =
        ["Cargo.lock", "Cargo.toml", "tests/run", "tests/src/new.rs", "exercises/new/src/lib.rs", "new", ".ci/run"];
    for file in unknown {
        assert_eq!(touched(&["README.md".to_owned(), file.to_owned()]), ["everything"], "{file}");
    }
    assert!(touched(&[]).is_empty());
}

#[test]
fn every_module_and_every_test_of_the_browser_is_touched_by_its_own_file() {
    let browser = names("tests/browser", ".test.mjs");
    let files = browser.iter().map(|name| format!("tests/browser/{name}.test.mjs"));
    let found = touched(&files.collect::<Vec<_>>());
    assert!(browser.iter().all(|name| found.contains(&format!("browser {name}.test.mjs"))), "{found:?}");
    for program in programs() {
        let modules: Vec<_> = names(&format!("tests/tests/{program}"), ".rs");
        let (main, modules): (Vec<_>, Vec<_>) = modules.into_iter().partition(|name| name == "main");
        let file = |name: &String| format!("tests/tests/{program}/{name}.rs");
        let found = touched(&modules.iter().map(file).collect::<Vec<_>>());
        let missing = modules.iter().find(|name| !found.contains(&format!("test {program} {name}::")));
        assert_eq!(missing, None);
        assert!(touched(&main.iter().map(file).collect::<Vec<_>>()).contains(&format!("test {program}")));
    }
}

#[test]
fn what_it_names_is_there() {
    let script = fs::read_to_string(top().join("tests/changed")).expect("script");
    let words: Vec<_> = script.split([' ', '\'', '\n', ';', ')']).collect();
    let programs = programs();
    for pair in words.windows(2).filter(|pair| pair[1].ends_with("::")) {
        let module = top().join("tests/tests").join(pair[0]).join(format!("{}.rs", pair[1].trim_end_matches(':')));
        assert!(programs.iter().any(|program| program == pair[0]) && module.exists(), "{pair:?}");
    }
    for file in words.iter().filter(|word| word.ends_with(".test.mjs") && !word.contains('*')) {
        assert!(top().join("tests/browser").join(file).exists(), "{file}");
    }
    let paths = words
        .iter()
        .filter(|word| word.contains('/') && !word.contains(['$', '"', '<']) && !word.starts_with(['.', '/']));
    for path in paths.filter(|path| path.ends_with("/*") || path.ends_with(".rs")) {
        let folders = path.trim_end_matches("/*");
        assert!(folders.contains('*') || top().join(folders).exists(), "{path}");
    }
}

/// A change of the preview leaves out most of the tests, since nothing else is built of it.
#[test]
fn nothing_but_the_command_and_its_tests_is_built_of_the_preview() {
    let manifests = ["exercises", "generator"].into_iter().flat_map(|folder| {
        names(folder, "").into_iter().map(move |name| Path::new(folder).join(name).join("Cargo.toml"))
    });
    let uses = |path: &Path| fs::read_to_string(top().join(path)).is_ok_and(|text| text.contains("watch.workspace"));
    let users: Vec<_> = manifests.filter(|path| uses(path)).collect();
    assert_eq!(users, [Path::new("generator/seatwork/Cargo.toml")]);
    for file in names("tests/tests/numbers", ".rs") {
        let text = fs::read_to_string(top().join(format!("tests/tests/numbers/{file}.rs"))).expect("source");
        assert!(!text.contains("use watch"), "{file}");
    }
}
