//! Whether what is at the target may be replaced.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use course::is_of_systems;

use super::error::{Doing, SiteError, if_present};

/// The file that marks a folder as a site written by this program, and therefore as one that may be replaced.
pub const MARKER_NAME: &str = ".seatwork-site";
/// What the marker begins with. Then come the names of all files of the site, a line each.
pub const MARKER_TEXT: &str = "format: 1\n";
/// A file in every site that keeps the rest of the site out of the instructor's version control.
pub const GIT_IGNORE_NAME: &str = ".gitignore";
/// What it says: everything but this file.
pub const GIT_IGNORE_TEXT: &str = "*\n!.gitignore\n";

/// What is at a target that may be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Target {
    /// Nothing.
    Absent,
    /// A folder that may be replaced.
    Ours,
}

/// Looks at the target; an error if it may not be replaced.
pub(super) fn look(target: &Path) -> Result<Target, SiteError> {
    let Some(metadata) = if_present(fs::symlink_metadata(target)).doing("look at", target)? else {
        return Ok(Target::Absent);
    };
    must_be_folder(target, &metadata)?;
    let path = || target.to_path_buf();
    match listed(target)? {
        Some(names) => match added(target, &names)?.as_slice() {
            [] => Ok(Target::Ours),
            [first, rest @ ..] => Err(SiteError::Added { path: path(), first: first.clone(), more: rest.len() }),
        },
        None if holds_nothing_else(target)? => Ok(Target::Ours),
        None => Err(SiteError::NotOurs { path: path() }),
    }
}

/// The text of the marker of a site with these files.
pub(super) fn marker<'n>(names: impl Iterator<Item = &'n str>) -> String {
    names.fold(MARKER_TEXT.to_owned(), |text, name| text + name + "\n")
}

/// The names of the files of a site; nothing where a folder is none.
fn listed(folder: &Path) -> Result<Option<BTreeSet<String>>, SiteError> {
    let text = plain_text(&folder.join(MARKER_NAME))?;
    let names = text.as_deref().and_then(|text| text.strip_prefix(MARKER_TEXT));
    Ok(names.map(|names| names.lines().map(str::to_owned).collect()))
}

/// The files in a site that no build put there, in order. Where the marker of a site names none, nobody can say.
fn added(site: &Path, names: &BTreeSet<String>) -> Result<Vec<String>, SiteError> {
    let (mut folders, mut found) = (vec![(site.to_path_buf(), String::new())], Vec::new());
    while let Some((folder, above)) = folders.pop().filter(|_| !names.is_empty()) {
        for entry in fs::read_dir(&folder).doing("read", &folder)? {
            let entry = entry.doing("read", &folder)?;
            let file_name = entry.file_name().to_string_lossy().into_owned();
            let name = format!("{above}{file_name}");
            let known = name == MARKER_NAME || names.contains(&name) || is_of_systems(&file_name);
            if entry.file_type().doing("look at", &entry.path())?.is_dir() {
                folders.push((entry.path(), name + "/"));
            } else if !known {
                found.push(name);
            }
        }
    }
    found.sort_unstable();
    Ok(found)
}

/// Refuses links and whatever else is not a folder.
pub(super) fn must_be_folder(path: &Path, metadata: &fs::Metadata) -> Result<(), SiteError> {
    let path = path.to_path_buf();
    if metadata.is_symlink() {
        Err(SiteError::Symlink { path })
    } else if metadata.is_dir() {
        Ok(())
    } else {
        Err(SiteError::NotAFolder { path })
    }
}

/// Whether a folder is empty, or holds our `.gitignore` alone, as one does that has just been checked out.
fn holds_nothing_else(folder: &Path) -> Result<bool, SiteError> {
    for entry in fs::read_dir(folder).doing("read", folder)? {
        let entry = entry.doing("read", folder)?;
        if entry.file_name() != GIT_IGNORE_NAME || !says(&entry.path(), GIT_IGNORE_TEXT)? {
            return Ok(false);
        }
    }
    Ok(true)
}

/// Whether a plain file holds this text; version control may have changed its line ends.
fn says(path: &Path, text: &str) -> Result<bool, SiteError> {
    Ok(plain_text(path)?.is_some_and(|found| found == text))
}

/// The text of a plain file, with line ends of one sort.
fn plain_text(path: &Path) -> Result<Option<String>, SiteError> {
    let metadata = if_present(fs::symlink_metadata(path)).doing("look at", path)?;
    if !metadata.is_some_and(|metadata| metadata.is_file()) {
        return Ok(None);
    }
    let bytes = fs::read(path).doing("read", path)?;
    Ok(String::from_utf8(bytes).ok().map(|found| found.replace("\r\n", "\n")))
}
