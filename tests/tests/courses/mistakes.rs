//! What instructors get wrong on their first days, and what they wish for: each made on a copy of a course and shown to
//! `proof`, as `tests/mistakes/*.yaml` has them.
//!
//! A mistake that *must be told* has its first message at the right line and piece, and what the message says mends it.
//! Where the message says what to write, that is done by the letter ([`as_told`]); otherwise the label has the repair, or it
//! is to take the mistake back. What *may pass* gives no fault, and the warnings that are listed. *A wish* is what the
//! program does not know yet: the label has what it says today, so that it changes when the wish is fulfilled.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use seatwork_tests::{Scratch, changes, command, top};
use serde::Deserialize;
use serde_json::Value;

/// How many seeds prove a recipe here: mistakes of numbers show early.
const SEEDS: &str = "300";

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Mistake {
    name: String,
    make: String,
    must_be_told: Option<Told>,
    /// The codes of the warnings that come with it.
    may_pass: Option<Vec<String>>,
    /// The code of what is said today; empty where nothing is.
    a_wish: Option<String>,
    /// What mends it: `as told`, or changes to the course. Where nothing is said, it is taken back.
    mend: Option<String>,
}

/// The first message.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Told {
    code: String,
    /// The file, and the line where it is text.
    at: String,
    /// What is marked, where it is a piece of a line.
    piece: Option<String>,
}

#[test]
fn each_mistake_is_told_where_it_is_and_mended_by_what_the_message_says() {
    let mistakes = mistakes();
    assert!(mistakes.len() >= 210, "only {} mistakes", mistakes.len());
    let cache = Scratch::new();
    let wrong = course::on_threads(&mistakes, 1, |mistake| check(mistake, &cache.path("")).err());
    let wrong: Vec<_> = wrong.into_iter().flatten().collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), mistakes.len(), wrong.join("\n"));
}

#[test]
fn the_course_of_the_mistakes_has_neither_faults_nor_warnings() {
    let (scratch, cache) = (whole(), Scratch::new());
    let proof = Proof::of(&scratch, &cache.path(""));
    assert!(proof.faults.is_empty() && proof.warnings.is_empty(), "{proof:?}");
}

#[test]
fn no_two_mistakes_have_one_name_and_each_has_one_label() {
    let mut names = BTreeMap::new();
    for mistake in mistakes() {
        let labels = [mistake.must_be_told.is_some(), mistake.may_pass.is_some(), mistake.a_wish.is_some()];
        assert_eq!(labels.iter().filter(|label| **label).count(), 1, "{}", mistake.name);
        assert!(names.insert(mistake.name.clone(), ()).is_none(), "{}", mistake.name);
    }
}

fn mistakes() -> Vec<Mistake> {
    let entries = fs::read_dir(folder()).expect("folder").map(|entry| entry.expect("entry").path());
    let mut files: Vec<_> = entries.filter(|path| path.extension().is_some_and(|end| end == "yaml")).collect();
    files.sort();
    files.iter().flat_map(|file| read(file)).collect()
}

fn read(file: &Path) -> Vec<Mistake> {
    let text = fs::read_to_string(file).expect("text");
    serde_yaml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

fn folder() -> PathBuf {
    top().join("tests/mistakes")
}

/// A copy of the course without a mistake.
fn whole() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&folder().join("course"), "course");
    scratch
}

/// What `proof` says of a course.
#[derive(Debug)]
struct Proof {
    faults: Vec<Value>,
    warnings: Vec<Value>,
}

impl Proof {
    fn of(scratch: &Scratch, cache: &Path) -> Self {
        let mut command = command();
        command.env("SEATWORK_CACHE", cache).current_dir(scratch.path(""));
        let output =
            command.args(["proof", "--json", "--course", "course", "--seeds", SEEDS]).output().expect("command");
        let said: Value = serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|error| panic!("{error}: {}", String::from_utf8_lossy(&output.stderr)));
        let list = |name: &str| said[name].as_array().cloned().unwrap_or_default();
        let proof = Self { faults: list("faults"), warnings: list("warnings") };
        assert_eq!(output.status.success(), proof.faults.is_empty(), "{said}");
        proof
    }

    /// The warning with a code. Warnings hinder nothing, so that none of them comes first.
    fn warned_of(&self, code: &str) -> Option<&Value> {
        self.warnings.iter().find(|warning| warning["code"] == code)
    }

    fn warned(&self) -> Vec<&str> {
        self.warnings.iter().map(|warning| warning["code"].as_str().unwrap_or_default()).collect()
    }
}

fn check(mistake: &Mistake, cache: &Path) -> Result<(), String> {
    let scratch = whole();
    let course = scratch.path("course");
    changes::change(&course, &folder().join("course"), &mistake.make);
    let proof = Proof::of(&scratch, cache);
    let first = proof.faults.first();
    let differs = |wanted: &str| Err(format!("{}: {wanted}, but {first:#?}, {:?}", mistake.name, proof.warned()));
    match (&mistake.must_be_told, &mistake.may_pass, &mistake.a_wish) {
        (Some(told), ..) => match first.or_else(|| proof.warned_of(&told.code)) {
            Some(first) if fits(told, first) => mended(mistake, first, &scratch, cache),
            _ => differs(&format!("{told:?}")),
        },
        (_, Some(warned), _) if first.is_none() && proof.warned() == *warned => Ok(()),
        (_, _, Some(today)) if first.map_or("", |first| first["code"].as_str().unwrap_or_default()) == today => Ok(()),
        _ => differs("another label"),
    }
}

/// Whether a message is the one of a label.
fn fits(told: &Told, message: &Value) -> bool {
    let file = message["file"].as_str().unwrap_or_default();
    let at = message["line"].as_u64().map_or(file.to_owned(), |line| format!("{file}:{line}"));
    let piece = told.piece.as_deref().is_none_or(|piece| message["piece"] == piece);
    message["code"] == told.code.as_str() && at == told.at && piece
}

fn mended(mistake: &Mistake, message: &Value, scratch: &Scratch, cache: &Path) -> Result<(), String> {
    let course = scratch.path("course");
    match mistake.mend.as_deref() {
        None => {
            fs::remove_dir_all(&course).expect("removed");
            scratch.copy(&folder().join("course"), "course");
        }
        Some("as told") => as_told(message, &course).ok_or_else(|| format!("{}: {message:#}", mistake.name))?,
        Some(list) => changes::change(&course, &folder().join("course"), list),
    }
    let proof = Proof::of(scratch, cache);
    match proof.faults.as_slice() {
        [] => Ok(()),
        left => Err(format!("{}: what the message says does not mend it: {:#}", mistake.name, left[0])),
    }
}

/// Does what a message says to write, to rename or to indent.
fn as_told(message: &Value, course: &Path) -> Option<()> {
    let fix = message["fix"].as_str()?;
    if let Some((from, to)) = fix.strip_prefix("Rename ").and_then(|names| names.split_once(" to ")) {
        let to = to.split(", and").next()?.trim_end_matches('.');
        return fs::rename(course.join(from), course.join(to)).ok();
    }
    let path = course.join(message["file"].as_str()?);
    let text = fs::read_to_string(&path).ok()?;
    let text = text.trim_start_matches('\u{feff}');
    let at = place(text, message)?;
    let (before, piece, after) = (&text[..at], message["piece"].as_str()?, &text[at..]);
    let after = after.strip_prefix(piece)?;
    let whole = match fix.split_once("Write ``` on a line of its own below the line ") {
        Some((_, last)) => {
            let end = after.find(last)? + last.len();
            format!("{before}{piece}{}\n```{}", &after[..end], &after[end..])
        }
        None if fix.starts_with("Put a space after ") => format!("{before}{piece} {after}"),
        None => match fix.strip_prefix("Indent it by ").and_then(|rest| rest.split_once(" spaces")) {
            Some((count, _)) => format!("{before}{}{after}", " ".repeat(count.parse().ok()?)),
            None => format!("{before}{}{after}", written(fix, before)?),
        },
    };
    fs::write(path, whole).ok()
}

/// What a message says to write in the place of the piece that it marks.
fn written<'f>(fix: &'f str, before: &str) -> Option<&'f str> {
    let new = fix
        .strip_prefix("Write ")
        .filter(|new| !["a ", "it", "one of ", "the "].iter().any(|word| new.starts_with(word)))?;
    let new = new.strip_suffix(", here and where it is used.").unwrap_or(new);
    let new = new.strip_suffix('.').unwrap_or(new);
    // The key is named with its value, and only the value is marked.
    let key = before.rsplit('\n').next()?.trim_start();
    Some(new.strip_prefix(key).filter(|_| key.ends_with(": ")).unwrap_or(new))
}

/// The byte where a message's place begins.
fn place(text: &str, message: &Value) -> Option<usize> {
    let [line, column] = ["line", "column"].map(|name| usize::try_from(message[name].as_u64()?).ok());
    let start: usize = text.split_inclusive('\n').take(line? - 1).map(str::len).sum();
    let within: usize = text[start..].chars().take(column? - 1).map(char::len_utf8).sum();
    Some(start + within)
}
