//! Whether what stands at the target may be replaced.

use std::fs;
use std::path::Path;

use super::error::{Doing, SiteError, if_present};

/// The file that marks a folder as a site written by this program, and therefore as one that may be replaced.
pub const MARKER_NAME: &str = ".seatwork-site";
/// What the marker says.
pub const MARKER_TEXT: &str = "format: 1\n";
/// A file in every site that keeps the rest of the site out of the instructor's version control.
pub const GIT_IGNORE_NAME: &str = ".gitignore";
/// What it says: everything but this file.
pub const GIT_IGNORE_TEXT: &str = "*\n!.gitignore\n";

/// What stands at a target that may be used.
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
    if says(&target.join(MARKER_NAME), MARKER_TEXT)? || holds_nothing_else(target)? {
        Ok(Target::Ours)
    } else {
        Err(SiteError::NotOurs { path: target.to_path_buf() })
    }
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
    let metadata = if_present(fs::symlink_metadata(path)).doing("look at", path)?;
    if !metadata.is_some_and(|metadata| metadata.is_file()) {
        return Ok(false);
    }
    let bytes = fs::read(path).doing("read", path)?;
    Ok(String::from_utf8(bytes).is_ok_and(|found| found.replace("\r\n", "\n") == text))
}
