//! The hostile strings, and how a text is written into YAML.

use std::collections::BTreeMap;
use std::fs;

use seatwork_tests::top;
use serde::Deserialize;

/// One string.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    /// What it tries, for who reads the file.
    #[serde(rename = "tries")]
    _tries: String,
    /// What is written, so many times.
    text: String,
    #[serde(default = "once")]
    times: usize,
}

fn once() -> usize {
    1
}

/// Every string of `tests/hostile/strings.json`.
pub(crate) fn hostile_texts() -> Vec<String> {
    let file = fs::read_to_string(top().join("tests/hostile/strings.json")).expect("strings");
    let groups: BTreeMap<String, Vec<Entry>> = serde_json::from_str(&file).expect("groups of strings");
    groups.into_values().flatten().map(|entry| entry.text.repeat(entry.times)).collect()
}

/// A text between double quotes of YAML, in letters that every editor shows.
pub(crate) fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for next in text.chars() {
        match next {
            '"' | '\\' => out.extend(['\\', next]),
            ' '..='~' => out.push(next),
            other => out.push_str(&format!("\\U{:08X}", u32::from(other))),
        }
    }
    out + "\""
}
