//! What was proven before, by digest: an unchanged recipe is not drawn again.
//!
//! The key is SHA-256 of all that a report depends on: the compiled recipe, the versions of its form and of the marking
//! rules, how much was drawn, and the core that drew it. The entries are one file each. Nothing here is an error: without
//! a folder, or with a broken entry, the recipe is proven again.

use std::fs;
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::SystemTime;

use crate::caches;
use problems::proof::{Effort, Report};
use problems::recipe::{FORMAT, RULES};
use serde::{Deserialize, Serialize};

/// How many entries are kept: those written last.
const MOST_ENTRIES: usize = 2_000;

/// The longest entry that is read, in bytes; ours have a few thousand.
const LONGEST_ENTRY: u64 = 1_000_000;

/// The memory of `proof`.
pub(crate) struct Cache {
    folder: Option<PathBuf>,
    force: bool,
    written: AtomicBool,
}

/// An entry, with its own key: one that was renamed or cut short does not count.
#[derive(Serialize, Deserialize)]
struct Entry {
    key: String,
    report: Report,
}

/// The key of a report.
pub(crate) fn key(compiled: &str, effort: Effort) -> String {
    let numbers = [u64::from(FORMAT), u64::from(RULES), effort.from, effort.seeds, effort.problems]
        .map(|number| number.to_string());
    let parts = ["seatwork proof 3", compiled, pages::core_digest()];
    caches::digest(parts.into_iter().chain(numbers.iter().map(String::as_str)).map(str::as_bytes))
}

impl Cache {
    /// The user's own; entries are not read where all is to be proven again.
    pub(crate) fn new(force: bool) -> Self {
        Self { folder: caches::folder("proof"), force, written: AtomicBool::new(false) }
    }

    /// What is remembered under a key of a recipe.
    pub(crate) fn get(&self, key: &str, recipe: &str) -> Option<Report> {
        if self.force {
            return None;
        }
        let path = self.path(key)?;
        if fs::metadata(&path).ok()?.len() > LONGEST_ENTRY {
            return None;
        }
        let entry: Entry = serde_json::from_str(&fs::read_to_string(path).ok()?).ok()?;
        (entry.key == key && entry.report.recipe == recipe).then_some(entry.report)
    }

    /// Remembers a report. What cannot be written is not remembered.
    pub(crate) fn put(&self, key: &str, report: &Report) {
        let Some(path) = self.path(key) else { return };
        let entry = Entry { key: key.to_owned(), report: report.clone() };
        let written = serde_json::to_vec(&entry).is_ok_and(|bytes| caches::write(&path, &bytes).is_ok());
        self.written.fetch_or(written, Ordering::Relaxed);
    }

    /// Takes away the oldest entries where there are too many.
    pub(crate) fn tidy(&self) {
        let Some(folder) = self.folder.as_ref().filter(|_| self.written.load(Ordering::Relaxed)) else { return };
        for path in oldest(folder, MOST_ENTRIES) {
            // Another run may have taken it away first.
            drop(fs::remove_file(path));
        }
    }

    fn path(&self, key: &str) -> Option<PathBuf> {
        Some(self.folder.as_ref()?.join(format!("{key}.json")))
    }
}

/// The entries beyond the newest `most`. Files with other names are not ours to take away.
fn oldest(folder: &std::path::Path, most: usize) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut known: Vec<(SystemTime, PathBuf)> = entries
        .filter_map(Result::ok)
        .filter(|entry| is_entry(&entry.file_name().to_string_lossy()))
        .filter_map(|entry| Some((entry.metadata().ok()?.modified().ok()?, entry.path())))
        .collect();
    known.sort();
    let beyond = known.len().saturating_sub(most);
    known.into_iter().take(beyond).map(|(_, path)| path).collect()
}

fn is_entry(name: &str) -> bool {
    let digest = name.strip_suffix(".json").unwrap_or_default();
    digest.len() == 64 && digest.bytes().all(|byte| byte.is_ascii_hexdigit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_key_follows_all_that_a_report_depends_on() {
        let one = key("{}", Effort::QUICK);
        assert_eq!(one, key("{}", Effort::QUICK));
        assert_ne!(one, key("{ }", Effort::QUICK));
        assert_ne!(one, key("{}", Effort::full(Effort::QUICK.seeds)));
        assert!(is_entry(&format!("{one}.json")));
    }

    #[test]
    fn the_oldest_entries_go_first_and_no_other_file() {
        let folder = tempfile::tempdir().expect("folder");
        for index in 0..5 {
            let path = folder.path().join(format!("{index:064}.json"));
            fs::write(&path, "").expect("file");
            let file = fs::File::options().write(true).open(path).expect("file");
            file.set_modified(SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(index)).expect("time");
        }
        fs::write(folder.path().join("other.json"), "").expect("file");
        let names: Vec<_> =
            oldest(folder.path(), 3).iter().map(|path| path.file_name().map(ToOwned::to_owned)).collect();
        assert_eq!(names, [0, 1].map(|index| Some(format!("{index:064}.json").into())));
    }
}
