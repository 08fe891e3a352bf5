//! Lists of changes to a course: what breaks the courses of `tests/bad-content`, and what mends them.
//!
//! One change a line, most with a file of the course, relative to its folder:
//!
//! - `edit FILE`, and lines that follow: ` ` before a line that stays, `-` before one that goes, `+` before one that
//!   comes. The lines that stay and go are in the file once, one below the other.
//! - `restore FILE` as the course without a fault has it, `copy FILE to FILE`, `rename FILE to FILE`, `remove FILE`
//! - `write FILE`, and the lines of the file, each after a `+`
//! - `crlf FILE` ends its lines as Windows does, `begin FILE HEX` puts bytes before it, `swap FILE HEX TEXT` puts bytes in the
//!   place of a text that is in it once or first
//! - `bytes FILE HEX`, `large FILE MEGABYTES`, `link FILE TARGET`, `repeat FILE TIMES TEXT`: what is better made than kept

use std::fs;
use std::iter::Peekable;
use std::path::Path;
use std::str::Lines;

/// Changes the course in a folder as a list says; `whole` is the course without a fault.
///
/// # Panics
/// Where a change is not one of the known ones, or does not fit the course.
pub fn change(course: &Path, whole: &Path, list: &str) {
    let mut lines = list.lines().peekable();
    while let Some(line) = lines.next() {
        let (verb, rest) = line.split_once(' ').unwrap_or_else(|| panic!("{line:?}"));
        match verb {
            "edit" => edit(&course.join(rest), &mut lines),
            "write" => put(&course.join(rest), written(&mut lines).into_bytes()),
            "crlf" => alter(&course.join(rest), |bytes| text(&bytes).replace('\n', "\r\n").into_bytes()),
            "restore" => put(&course.join(rest), fs::read(whole.join(rest)).expect(rest)),
            "remove" => remove(&course.join(rest)),
            "copy" | "rename" => {
                let (from, to) = rest.split_once(" to ").unwrap_or_else(|| panic!("{line:?}"));
                let [from, to] = [from, to].map(|path| course.join(path));
                fs::create_dir_all(to.parent().expect("folder")).expect("folder");
                let done = if verb == "rename" { fs::rename(from, to) } else { fs::copy(from, to).map(drop) };
                done.unwrap_or_else(|error| panic!("{line:?}: {error}"));
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
        "begin" => alter(path, |old| [bytes(what), old].concat()),
        "swap" => {
            let (hex, old) = what.split_once(' ').expect("bytes and a text");
            alter(path, |all| swapped(&all, old.as_bytes(), &bytes(hex)));
        }
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

/// The lines of a file to write.
fn written(lines: &mut Peekable<Lines>) -> String {
    let mut whole = String::new();
    while let Some(line) = lines.next_if(|line| line.starts_with('+')) {
        whole.push_str(&line[1..]);
        whole.push('\n');
    }
    whole
}

fn alter(path: &Path, change: impl FnOnce(Vec<u8>) -> Vec<u8>) {
    let old = fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    put(path, change(old));
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("text")
}

fn swapped(all: &[u8], old: &[u8], new: &[u8]) -> Vec<u8> {
    let at = all.windows(old.len()).position(|window| window == old).expect("what is swapped");
    [&all[..at], new, &all[at + old.len()..]].concat()
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
