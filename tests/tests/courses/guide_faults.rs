//! The lessons of the author's guide that explain every fault, made of the folders that the tests use: each code with the
//! reason of its rule, wrong lines, what the command says of them, and right lines.
//!
//! They are kept in `content/guide`. After a change of a case or of a word, `INSTA_UPDATE=always` writes them again: in a run
//! of its own, after the one that writes the snapshots that they quote.

mod example;
mod lesson;

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::{env, fs};

use course::Code;
use lesson::lesson;
use seatwork_tests::{families, top};

/// How the names of these lessons start, so that one that is no longer made is found.
const PREFIX: &str = "faults_";

fn folder() -> PathBuf {
    top().join("content/guide/en/lessons")
}

/// Every lesson by its file, as it is made now.
fn made() -> BTreeMap<String, String> {
    let words = pages::Words::of("en").expect("words");
    let lessons = families().into_iter();
    lessons.map(|(id, codes)| (format!("{id}.md"), lesson(id, &codes, &words))).collect()
}

fn kept() -> BTreeMap<String, String> {
    let entries = fs::read_dir(folder()).expect("folder").map(|entry| entry.expect("entry"));
    let named = entries.map(|entry| (entry.file_name().to_string_lossy().into_owned(), entry.path()));
    let ours = named.filter(|(name, _)| name.starts_with(PREFIX));
    ours.map(|(name, path)| (name, fs::read_to_string(path).expect("lesson"))).collect()
}

#[test]
fn the_kept_lessons_are_those_that_the_cases_make() {
    let made = made();
    if env::var("INSTA_UPDATE").is_ok_and(|update| update == "always") {
        kept().keys().for_each(|name| fs::remove_file(folder().join(name)).expect("removed"));
        made.iter().for_each(|(name, text)| fs::write(folder().join(name), text).expect("lesson"));
    }
    let kept = kept();
    assert!(made.keys().eq(kept.keys()), "{:?} instead of {:?}", kept.keys(), made.keys());
    for (name, text) in &made {
        assert!(kept.get(name) == Some(text), "{name} is out of date: INSTA_UPDATE=always writes it again");
    }
}

/// A message can point at the explanation of its code, and a reader finds it by its name.
#[test]
fn every_code_has_a_heading_of_its_own() {
    let made = made();
    for code in Code::all() {
        let heading = format!("\n## {code}\n");
        assert_eq!(made.values().filter(|text| text.contains(&heading)).count(), 1, "{code}");
    }
}
