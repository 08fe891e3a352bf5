//! What was published before, and from what: a course that has not changed is not rendered again.
//!
//! An entry says from which files of the course, and by which program, a site was made, and in which state it was left:
//! every file with its length and the time it was last written to. If all of that still holds, the site is what would be
//! written. If a file of the site was changed or removed, the whole site is written again.

use std::env;
use std::fs::{self, Metadata};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use course::{FEWEST_FILES, on_threads};
use serde::{Deserialize, Serialize};
use walkdir::WalkDir;

use crate::caches;

/// One publish, before it and after it.
pub(crate) struct Published {
    target: PathBuf,
    /// Where the entry of the target is, and the digest of what the site is made from; `None` where nothing is kept.
    entry: Option<(PathBuf, String)>,
}

/// What is kept of a publish.
#[derive(PartialEq, Eq, Serialize, Deserialize)]
struct Entry {
    /// Digest of the course and the program.
    made_from: String,
    /// How many files the site has.
    files: usize,
    /// Digest of their names, lengths and times.
    state: String,
}

impl Published {
    /// Looks at the course and at what is kept of its site.
    pub(crate) fn look(course: &Path, target: &Path) -> Self {
        let entry = || {
            let absolute = std::path::absolute(target).ok()?;
            let name = caches::digest([b"seatwork publish 1".as_slice(), absolute.as_os_str().as_encoded_bytes()]);
            Some((caches::folder("publish")?.join(format!("{name}.json")), made_from(course)?))
        };
        Self { target: target.to_owned(), entry: entry() }
    }

    /// How many files the site has, if it is what would be written.
    pub(crate) fn still_stands(&self) -> Option<usize> {
        let (path, made_from) = self.entry.as_ref()?;
        let kept: Entry = serde_json::from_slice(&fs::read(path).ok()?).ok()?;
        (kept.made_from == *made_from && kept == state(&self.target, made_from)?).then_some(kept.files)
    }

    /// Keeps what was published. What cannot be kept is published again the next time.
    pub(crate) fn keep(&self) {
        let Some((path, made_from)) = &self.entry else { return };
        let entry = state(&self.target, made_from).and_then(|entry| serde_json::to_vec(&entry).ok());
        if entry.is_none_or(|entry| caches::write(path, &entry).is_err()) {
            drop(fs::remove_file(path));
        }
    }
}

/// Digest of every file of the course and of the program; `None` where something is not a plain file or cannot be
/// read; the reader of courses then says so.
fn made_from(course: &Path) -> Option<String> {
    let program = env::current_exe().ok()?;
    let program = format!("{} {:?}", program.display(), age(&program.metadata().ok()?)?);
    let files = files(course)?;
    let digests = on_threads(&files, FEWEST_FILES, |(name, path)| {
        Some(caches::digest([name.as_bytes(), fs::read(path).ok()?.as_slice()]))
    });
    let digests = digests.into_iter().collect::<Option<Vec<_>>>()?;
    Some(caches::digest(digests.iter().map(String::as_bytes).chain([program.as_bytes()])))
}

/// The site as it is now.
fn state(target: &Path, made_from: &str) -> Option<Entry> {
    let files = files(target)?;
    let each = |(name, path): &(String, PathBuf)| Some(format!("{name} {:?}", age(&fs::metadata(path).ok()?)?));
    let all = on_threads(&files, FEWEST_FILES, each).into_iter().collect::<Option<Vec<_>>>()?;
    let state = caches::digest(all.iter().map(String::as_bytes));
    Some(Entry { made_from: made_from.to_owned(), files: all.len(), state })
}

/// The length of a file, and when it was last written to.
fn age(metadata: &Metadata) -> Option<(u64, u128)> {
    Some((metadata.len(), metadata.modified().ok()?.duration_since(UNIX_EPOCH).ok()?.as_nanos()))
}

/// Every file of a folder by its name within it, in order; `None` where there is anything but plain files and folders.
fn files(folder: &Path) -> Option<Vec<(String, PathBuf)>> {
    let mut all = Vec::new();
    for entry in WalkDir::new(folder).sort_by_file_name() {
        let entry = entry.ok()?;
        let kind = entry.file_type();
        if kind.is_dir() {
            continue;
        }
        if !kind.is_file() {
            return None;
        }
        let name = entry.path().strip_prefix(folder).ok()?.to_str()?.to_owned();
        all.push((name, entry.into_path()));
    }
    Some(all)
}
