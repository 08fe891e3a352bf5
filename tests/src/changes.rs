//! Lists of changes to a course: what breaks the courses of `tests/bad-content`, and what mends them.
//!
//! One change a line, most with a file of the course, relative to its folder:
//!
//! - `edit FILE`, and lines that follow: ` ` before a line that stays, `-` before one that goes, `+` before one that
//!   comes. The lines that stay and go are in the file once, one below the other.
//! - `restore FILE` as the course without a fault has it, `copy FILE to FILE`, `rename FILE to FILE`, `remove FILE`
//! - `bytes FILE HEX`, `large FILE MEGABYTES`, `link FILE TARGET`, `repeat FILE TIMES TEXT`: what is better made than kept

use std::fs;
use std::iter::Peekable;
use std::path::Path;
use std::str::Lines;

/// Changes the course in a folder as a list says; `whole` is the course without a fault.
///
/// # Panics
/// Where a change is not one of the known ones, or does not fit the course.
pub(crate) fn change(course: &Path, whole: &Path, list: &str) {
    let mut lines = list.lines().peekable();
    while let Some(line) = lines.next() {
        let (verb, rest) = line.split_once(' ').unwrap_or_else(|| panic!("{line:?}"));
        match verb {
            "edit" => edit(&course.join(rest), &mut lines),
            "restore" => put(&course.join(rest), fs::read(whole.join(rest)).expect(rest)),
            "remove" => remove(&course.join(rest)),
            "copy" | "rename" => {
                let (from, to) = rest.split_once(" to ").unwrap_or_else(|| panic!("{line:?}"));
                put(&course.join(to), fs::read(course.join(from)).expect(from));
                if verb == "rename" {
                    remove(&course.join(from));
                }
            }
            _ => {
                let (file, what) = rest.split_once(' ').unwrap_or_else(|| panic!("{line:?}"));
                make(verb, &course.join(file), what);
            }
        }
    }
}

/// Makes what no folder should keep.
fn make(verb: &str, path: &Path, what: &str) {
    match verb {
        "bytes" => put(path, bytes(what)),
        "large" => {
            put(path, Vec::new());
            let length = what.parse::<u64>().expect("megabytes") * 1_000_000;
            fs::OpenOptions::new().write(true).open(path).and_then(|open| open.set_len(length)).expect("length");
        }
        "link" => link(what, path),
        "repeat" => {
            let (times, text) = what.split_once(' ').expect("a number and a text");
            let times = times.parse().expect("a number");
            replace(path, text, &text.repeat(times));
        }
        _ => panic!("no change is called {verb}"),
    }
}

fn put(path: &Path, bytes: Vec<u8>) {
    fs::create_dir_all(path.parent().expect("folder")).expect("folder");
    fs::write(path, bytes).expect("file");
}

fn remove(path: &Path) {
    let removed = if path.is_dir() { fs::remove_dir_all(path) } else { fs::remove_file(path) };
    removed.unwrap_or_else(|error| panic!("{}: {error}", path.display()));
}

fn edit(path: &Path, lines: &mut Peekable<Lines>) {
    let (mut old, mut new) = (String::from("\n"), String::from("\n"));
    while let Some(line) = lines.next_if(|line| line.starts_with([' ', '-', '+'])) {
        let (mark, text) = line.split_at(1);
        for (_, whole) in [("+", &mut old), ("-", &mut new)].into_iter().filter(|(not, _)| *not != mark) {
            whole.push_str(text);
            whole.push('\n');
        }
    }
    replace(path, &old, &new);
}

/// Replaces a text that is in a file once; the first line counts as one after a line end.
fn replace(path: &Path, old: &str, new: &str) {
    let text = format!("\n{}", fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display())));
    assert_eq!(text.matches(old).count(), 1, "{}: {old}", path.display());
    fs::write(path, &text.replacen(old, new, 1)[1..]).expect("file");
}

fn bytes(hex: &str) -> Vec<u8> {
    let digits: Vec<_> =
        hex.chars().map(|digit| u8::try_from(digit.to_digit(16).expect("digit")).expect("digit")).collect();
    digits.chunks(2).map(|pair| pair[0] * 16 + pair[1]).collect()
}

#[cfg(unix)]
fn link(target: &str, path: &Path) {
    std::os::unix::fs::symlink(target, path).expect("link");
}

#[cfg(windows)]
fn link(target: &str, path: &Path) {
    std::os::windows::fs::symlink_file(target, path).expect("link");
}
