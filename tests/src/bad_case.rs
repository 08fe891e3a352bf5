//! The courses with a fault or a warning, one a folder of `tests/bad-content` or `tests/warned-content`, and what mends
//! each.

use std::fs;
use std::path::PathBuf;

use faults::Code;

use crate::{Scratch, changes, top};

/// Where the courses with a fault are, and those with a warning.
const BAD: &str = "bad-content";
const WARNED: &str = "warned-content";

/// The course without a fault, which every case lies over.
const WHOLE: &str = "base";

/// What is made and not kept, and what mends the course, as lists of changes.
const MAKE: &str = "make";
const MEND: &str = "mend";

/// One folder: its name is the code of the fault, and after a dot what is special about it.
#[derive(Clone, Debug)]
pub struct BadCase {
    /// The name of the folder.
    pub name: String,
    /// The folder that it is in.
    among: &'static str,
}

impl BadCase {
    /// Every case of a fault, in the order of the names.
    ///
    /// # Panics
    /// Where the folder cannot be read.
    #[must_use]
    pub fn all() -> Vec<Self> {
        Self::among(BAD)
    }

    /// Every case of a warning, in the order of the names.
    ///
    /// # Panics
    /// Where the folder cannot be read.
    #[must_use]
    pub fn warned() -> Vec<Self> {
        Self::among(WARNED)
    }

    /// The case of this name, of a fault or of a warning.
    ///
    /// # Panics
    /// Where no folder has the name.
    #[must_use]
    pub fn named(name: &str) -> Self {
        let found = [Self::all(), Self::warned()].concat().into_iter().find(|case| case.name == name);
        found.unwrap_or_else(|| panic!("no case is called {name}"))
    }

    fn among(among: &'static str) -> Vec<Self> {
        let entries = fs::read_dir(folder(among)).expect("folder").map(|entry| entry.expect("entry").file_name());
        let mut names: Vec<_> = entries.map(|name| name.to_string_lossy().into_owned()).collect();
        names.retain(|name| name != WHOLE);
        names.sort();
        names.into_iter().map(|name| Self { name, among }).collect()
    }

    /// The code of its fault.
    ///
    /// # Panics
    /// Where the folder is not named after one.
    #[must_use]
    pub fn code(&self) -> Code {
        let id = self.name.split('.').next().unwrap_or_default();
        Code::find(id).unwrap_or_else(|| panic!("{}: no code has this name", self.name))
    }

    /// A scratch folder with the broken course at `course`.
    ///
    /// # Panics
    /// Where the case says what cannot be done.
    #[must_use]
    pub fn broken(&self) -> Scratch {
        let scratch = whole_course();
        scratch.copy(&self.folder(), "course");
        let lists = [MAKE, MEND].map(|list| scratch.path("course").join(list));
        lists.iter().filter(|list| list.exists()).for_each(|list| fs::remove_file(list).expect("removed"));
        if let Ok(list) = fs::read_to_string(self.folder().join(MAKE)) {
            changes::change(&scratch.path("course"), &folder(BAD).join(WHOLE), &list);
        }
        scratch
    }

    /// Mends the course that [`Self::broken`] made.
    ///
    /// # Panics
    /// Where nothing says what mends it, or that does not fit.
    pub fn mend(&self, scratch: &Scratch) {
        let list = fs::read_to_string(self.folder().join(MEND));
        let list = list.unwrap_or_else(|error| panic!("{}/{MEND}: {error}", self.name));
        changes::change(&scratch.path("course"), &folder(BAD).join(WHOLE), &list);
    }

    /// What the command says of the broken course, as the tests keep it.
    ///
    /// # Panics
    /// Where nothing is kept.
    #[must_use]
    pub fn said(&self) -> String {
        let kept =
            top().join(format!("tests/tests/courses/snapshots/{}__{}.snap", self.among.replace('-', "_"), self.name));
        let kept = fs::read_to_string(&kept).unwrap_or_else(|error| panic!("{}: {error}", kept.display()));
        kept.splitn(3, "---\n").nth(2).expect("a head and a text").to_owned()
    }

    fn folder(&self) -> PathBuf {
        folder(self.among).join(&self.name)
    }
}

/// A scratch folder with the course without a fault at `course`.
///
/// # Panics
/// Where it cannot be copied.
#[must_use]
pub fn whole_course() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&folder(BAD).join(WHOLE), "course");
    scratch
}

fn folder(among: &str) -> PathBuf {
    top().join("tests").join(among)
}
