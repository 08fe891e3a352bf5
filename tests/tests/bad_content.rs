//! One fault a folder: what the command says of it, and that it leaves the old site alone.
//!
//! Each folder of `tests/bad-content` lies over `base`, a course without a fault, and brings one fault into it. The name
//! of the folder is the code of the fault, and after a dot what is special about it. A file called `make` says what is
//! better made than kept: `bytes FILE HEX`, `large FILE MEGABYTES`, `link FILE TARGET`, `remove FILE`.

use std::fs;
use std::path::{Path, PathBuf};

use seatwork_tests::{Scratch, top};

const MAKE: &str = "make";

fn folder() -> PathBuf {
    top().join("tests/bad-content")
}

/// A scratch folder with the course without a fault, and the site published from it.
fn base() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&folder().join("base"), "course");
    let output = scratch.publish();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    scratch
}

#[test]
fn every_bad_course_is_refused_in_words() {
    let base = base();
    let mut cases: Vec<_> = fs::read_dir(folder()).expect("folder").map(|entry| entry.expect("entry").path()).collect();
    cases.sort();
    cases.retain(|path| !path.ends_with("base"));
    assert!(cases.len() > 50, "only {} cases", cases.len());
    for case in cases {
        let name = case.file_name().expect("name").to_string_lossy().into_owned();
        check(&base, &case, &name);
    }
}

fn check(base: &Scratch, case: &Path, name: &str) {
    let scratch = Scratch::new();
    scratch.copy(&base.path("course"), "course");
    scratch.copy(&base.path("site"), "site");
    scratch.copy(case, "course");
    make(&scratch);
    let before = scratch.files("site");
    let output = scratch.publish();
    let said = String::from_utf8(output.stderr).expect("text");
    let said = said.replace(&scratch.path("").display().to_string(), "");
    let code = name.split('.').next().unwrap_or_default();
    assert_eq!(output.status.code(), Some(1), "{name}: {said}");
    let (all, of_this_code) = (said.matches("error[").count(), said.matches(&format!("error[{code}]")).count());
    // Proof tells a fault once for each system of units.
    assert!(of_this_code == all && (all == 1 || code.starts_with("proof-") && all == 2), "{name}: {said}");
    assert_eq!(scratch.files("site"), before, "{name}");
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!(format!("bad_content__{name}"), said);
    });
}

/// Makes what the case's `make` says.
fn make(scratch: &Scratch) {
    let path = scratch.path("course").join(MAKE);
    let Ok(lines) = fs::read_to_string(&path) else { return };
    fs::remove_file(path).expect("removed");
    for line in lines.lines() {
        let words: Vec<_> = line.split(' ').collect();
        match words.as_slice() {
            ["bytes", file, hex] => scratch.write(&format!("course/{file}"), bytes(hex)),
            ["large", file, megabytes] => {
                scratch.write(&format!("course/{file}"), "");
                let length = megabytes.parse::<u64>().expect("megabytes") * 1_000_000;
                let open = fs::OpenOptions::new().write(true).open(scratch.path("course").join(file));
                open.expect("file").set_len(length).expect("length");
            }
            ["link", file, target] => link(target, &scratch.path("course").join(file)),
            ["remove", file] => fs::remove_file(scratch.path("course").join(file)).expect("removed"),
            other => panic!("{other:?}"),
        }
    }
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
