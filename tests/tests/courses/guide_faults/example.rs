//! A wrong and a right example: where a broken course and the mended one differ.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use pages::Words;
use seatwork_tests::{BadCase, Scratch};
use similar::TextDiff;

/// The lines that are shown on each side of those that differ.
const AROUND: usize = 2;

/// The most lines and letters that are shown of a text: what is longer is a page by itself.
const MOST_LINES: usize = 18;
const MOST_LETTERS: usize = 110;

/// The first bytes that are shown of a file that is not text.
const FIRST_BYTES: usize = 12;

/// From how many bytes on only the size of a text is shown.
const MANY_BYTES: usize = 1_000_000;

/// What is shown for what is left out.
const LEFT_OUT: &str = "…";

/// A case with what differs.
pub(crate) struct Example {
    differences: Vec<Difference>,
    said: String,
}

/// One file that differs, by its path in the course: what of it is shown before and after.
struct Difference {
    file: String,
    wrong: Shown,
    right: Shown,
}

/// What is shown of a file.
enum Shown {
    /// Some of its lines.
    Lines(String),
    /// All of it.
    Whole(String),
    /// Only that it has this name: it was renamed.
    Name,
    /// That it is not there.
    Without,
    /// Nothing: it is there by another name, which is said of that one.
    Unsaid,
}

impl Example {
    /// Breaks a course, mends it and looks at both.
    pub(crate) fn of(case: &BadCase) -> Self {
        let scratch = case.broken();
        let before = files(&scratch);
        case.mend(&scratch);
        let after = files(&scratch);
        let names: BTreeSet<_> = before.keys().chain(after.keys()).collect();
        let differing = names.into_iter().filter(|name| before.get(*name) != after.get(*name));
        let differences = differing.map(|name| difference(name, &before, &after)).collect();
        // Proof tells a fault once for each system of units; one shows what it is.
        let said = case.said().split("\n\n").next().unwrap_or_default().chars().map(visible).collect();
        Self { differences, said }
    }

    /// It as Markdown: what is wrong, what the command says, what is right.
    pub(crate) fn markdown(&self, words: &Words) -> String {
        let side = |side: &str, shown: fn(&Difference) -> &Shown| -> Vec<String> {
            let all = self.differences.iter();
            all.filter_map(|difference| show(side, &difference.file, shown(difference), words)).collect()
        };
        let says = format!("{}\n\n{}", words.get("guide.faults.says"), fenced(&self.said));
        let (wrong, right) =
            (side("wrong", |difference| &difference.wrong), side("right", |difference| &difference.right));
        [wrong, vec![says], right].concat().join("\n\n")
    }
}

fn show(side: &str, file: &str, shown: &Shown, words: &Words) -> Option<String> {
    let (form, lines) = match shown {
        Shown::Lines(lines) => ("lines", Some(lines)),
        Shown::Whole(lines) => ("whole", Some(lines)),
        Shown::Name => ("name", None),
        Shown::Without => ("without", None),
        Shown::Unsaid => return None,
    };
    let lead = words.fill(&format!("guide.faults.{side}.{form}"), &[("file", file)]);
    Some(lines.map_or(lead.clone(), |lines| format!("{lead}\n\n{}", fenced(lines))))
}

/// Every file of the course with what it holds; a link with where it leads.
fn files(scratch: &Scratch) -> BTreeMap<String, Vec<u8>> {
    let content = |name: &str, bytes| match fs::read_link(scratch.path("course").join(name)) {
        Ok(target) => format!("{name} -> {}", target.display()).into_bytes(),
        Err(_) => bytes,
    };
    scratch.files("course").into_iter().map(|(name, bytes)| (name.clone(), content(&name, bytes))).collect()
}

type Files = BTreeMap<String, Vec<u8>>;

fn difference(name: &str, before: &Files, after: &Files) -> Difference {
    let file = name.to_owned();
    match (before.get(name), after.get(name)) {
        (Some(wrong), Some(right)) if is_text(name) => {
            let (wrong, right) = lines(&String::from_utf8_lossy(wrong), &String::from_utf8_lossy(right));
            Difference { file, wrong: Shown::Lines(wrong), right: Shown::Lines(right) }
        }
        _ => Difference { file, wrong: one_side(name, before, after), right: one_side(name, after, before) },
    }
}

/// What one side shows of a file that is not on both, or is not text.
fn one_side(name: &str, own: &Files, other: &Files) -> Shown {
    // A file that went away on one side and came on the other, as it was, got another name.
    let elsewhere = |one: &Files, other: &Files| {
        let bytes = one.get(name).filter(|_| !other.contains_key(name));
        bytes.is_some_and(|bytes| other.iter().any(|(file, same)| !one.contains_key(file) && same == bytes))
    };
    match own.get(name) {
        Some(_) if elsewhere(own, other) => Shown::Name,
        Some(bytes) => Shown::Whole(whole(name, bytes)),
        None if elsewhere(other, own) => Shown::Unsaid,
        None => Shown::Without,
    }
}

fn is_text(name: &str) -> bool {
    Path::new(name)
        .extension()
        .is_some_and(|extension| ["md", "yaml", "txt", "svg"].iter().any(|known| extension == *known))
}

/// A whole file: its lines, or how long it is and how it starts.
fn whole(name: &str, bytes: &[u8]) -> String {
    let first: Vec<_> = bytes.iter().take(FIRST_BYTES).map(|byte| format!("{byte:02X}")).collect();
    match (is_text(name), bytes.len()) {
        (true, ..MANY_BYTES) => clipped(String::from_utf8_lossy(bytes).lines()),
        (true, count) => format!("{count} bytes"),
        (false, count) => format!("{count} bytes: {} {LEFT_OUT}", first.join(" ")),
    }
}

/// The lines that differ between two texts, with a few around.
fn lines(wrong: &str, right: &str) -> (String, String) {
    let (all_wrong, all_right): (Vec<_>, Vec<_>) = (wrong.lines().collect(), right.lines().collect());
    let mut shown = (Vec::new(), Vec::new());
    for group in TextDiff::from_slices(&all_wrong, &all_right).grouped_ops(AROUND) {
        let ends = group.first().zip(group.last());
        let Some((first, last)) = ends else { continue };
        if !shown.0.is_empty() {
            shown.0.push(LEFT_OUT);
            shown.1.push(LEFT_OUT);
        }
        shown.0.extend(&all_wrong[first.old_range().start..last.old_range().end]);
        shown.1.extend(&all_right[first.new_range().start..last.new_range().end]);
    }
    (clipped(shown.0.into_iter()), clipped(shown.1.into_iter()))
}

/// As many lines and letters as can be read at a glance; characters that no text may hold, as the signs for them.
fn clipped<'t>(lines: impl Iterator<Item = &'t str>) -> String {
    let mut shown: Vec<_> = lines.map(|line| clip(line).chars().map(visible).collect::<String>()).collect();
    if shown.len() > MOST_LINES {
        shown.truncate(MOST_LINES - 1);
        shown.push(LEFT_OUT.to_owned());
    }
    shown.join("\n")
}

fn clip(line: &str) -> String {
    match line.char_indices().nth(MOST_LETTERS) {
        Some((end, _)) => format!("{}{LEFT_OUT}", &line[..end]),
        None => line.to_owned(),
    }
}

fn visible(letter: char) -> char {
    match u32::from(letter) {
        code @ 0..0x20 if !matches!(letter, '\t' | '\n') => char::from_u32(0x2400 + code).unwrap_or(letter),
        0x202a..=0x202e | 0x2066..=0x2069 => char::REPLACEMENT_CHARACTER,
        _ => letter,
    }
}

/// A text as a block of code, in a fence that nothing in it ends.
pub(crate) fn fenced(text: &str) -> String {
    let longest = text.split(|letter| letter != '`').map(str::len).max().unwrap_or_default();
    let fence = "`".repeat(longest.max(2) + 1);
    format!("{fence}text\n{text}\n{fence}")
}
