//! Files depend on one another in layers: no crate has a circle of more than three files.
//!
//! A file depends on another where it names something of it in an import or in a path. What a file only passes on it does
//! not need; who takes it from there needs the file that has it.

mod circles;
mod imports;
mod modules;

use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;

use seatwork_tests::top;

use circles::circles;
use modules::Modules;

/// The most files that may need each other.
const MOST: usize = 3;

/// The sources of every crate of the workspace, by the name of its folder.
fn crates() -> Vec<(String, PathBuf)> {
    let manifest = fs::read_to_string(top().join("Cargo.toml")).expect("manifest");
    let members = manifest.split("members = [").nth(1).and_then(|rest| rest.split(']').next()).expect("members");
    let folders = members.split('"').skip(1).step_by(2);
    folders.map(|folder| (folder.to_owned(), top().join(folder).join("src"))).collect()
}

#[test]
fn no_more_than_three_files_of_a_crate_need_each_other() {
    let crates = crates();
    assert!(crates.len() > 8, "{crates:?}");
    let mut found = String::new();
    for (name, sources) in crates {
        let needs = Modules::read(&sources).needs();
        for circle in circles(&needs).into_iter().filter(|circle| circle.len() > MOST) {
            writeln!(found, "{name}: {} files", circle.len()).expect("text");
            for file in &circle {
                let inside: Vec<_> = needs[file].iter().filter(|other| circle.contains(other)).cloned().collect();
                writeln!(found, "  {file} needs {}", inside.join(", ")).expect("text");
            }
        }
    }
    assert!(found.is_empty(), "{found}");
}

#[test]
fn needs_are_seen_in_imports_and_paths_and_followed_to_their_home() {
    let modules = Modules::of([
        (
            "",
            "mod a; mod b; mod c; pub use a::{One, Two as Other}; pub use std::fmt; pub struct Own; fn f(_: b::Three) {}",
        ),
        ("a", "use crate::{b::{self, Three}, Own}; pub struct One; pub struct Two;"),
        (
            "b",
            "use super::{One, fmt}; pub struct Three; fn f() { crate::c::d::g(); } #[cfg(test)] mod tests { use crate::c::Four; }",
        ),
        ("c", "pub mod d; fn f() { d::g(); println!(\"{}\", crate::Other); }"),
        ("c::d", "fn g(own: super::super::Own) {}"),
    ]);
    let needs = modules.needs();
    let of = |name: &str| needs[name].iter().map(String::as_str).collect::<Vec<_>>();
    assert_eq!(of("crate"), ["crate::b"]);
    assert_eq!(of("crate::a"), ["crate", "crate::b"]);
    assert_eq!(of("crate::b"), ["crate::a", "crate::c::d"]);
    assert_eq!(of("crate::c"), ["crate::a", "crate::c::d"]);
    assert_eq!(of("crate::c::d"), ["crate"]);
    assert_eq!(circles(&needs), [["crate", "crate::a", "crate::b", "crate::c::d"]]);
}
