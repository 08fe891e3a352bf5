//! Where the parts of a build lie, and how a killed build is settled.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

use super::error::{Doing, SiteError, if_present};

/// The target and the work folder beside it.
#[derive(Debug)]
pub(super) struct Places {
    /// Where the site will be.
    pub(super) target: PathBuf,
    /// The work folder. It lies beside the target, so that a rename between the two stays on one filesystem.
    pub(super) folder: PathBuf,
    /// The lock that keeps two builds apart.
    pub(super) lock: PathBuf,
    /// The site being staged.
    pub(super) next: PathBuf,
    /// Where the system cannot exchange in one step: the old site, moved aside.
    pub(super) old: PathBuf,
    /// Exists while the old site is moved aside, and says that `next` is whole. It holds nothing: that it exists is
    /// the whole record, so it cannot be half written.
    pub(super) journal: PathBuf,
}

impl Places {
    /// The places for a target; an error if it has no name of its own.
    pub(super) fn of(target: &Path) -> Result<Self, SiteError> {
        let name = target.file_name().ok_or_else(|| SiteError::NoName { path: target.to_path_buf() })?;
        let mut work = OsString::from(".");
        work.push(name);
        work.push("-work");
        let folder = target.with_file_name(work);
        let inside = |name| folder.join(name);
        Ok(Self {
            // Without the `/` that may end it, because a name that ends so means what a link points at.
            target: target.with_file_name(name),
            lock: inside("lock"),
            next: inside("next"),
            old: inside("old"),
            journal: inside("journal"),
            folder,
        })
    }

    /// Whether the work folder holds something that a build would remove.
    pub(super) fn hold_something(&self) -> Result<bool, SiteError> {
        Ok(exists(&self.next)? || exists(&self.old)? || exists(&self.journal)?)
    }

    /// Ends what a build left, whatever point it was killed at: the target holds a whole site again, if it ever did,
    /// and nothing but the lock is left in the work folder.
    ///
    /// Needs the lock. It may be killed at any point as well: the journal goes only when the target is there, and the
    /// folders only when the journal is gone.
    pub(super) fn settle(&self) -> Result<(), SiteError> {
        if exists(&self.journal)? {
            if !exists(&self.target)? {
                self.stand_in()?;
            }
            fs::remove_file(&self.journal).doing("remove", &self.journal)?;
        }
        remove_folder(&self.old)?;
        remove_folder(&self.next)
    }

    /// Puts the new site at the empty target, or the old one if that cannot be done. Finding neither is not a fault: then
    /// somebody has removed them, and this build starts from nothing.
    fn stand_in(&self) -> Result<(), SiteError> {
        let moved = fs::rename(&self.next, &self.target).or_else(|_| fs::rename(&self.old, &self.target));
        if_present(moved).doing("put a site at", &self.target).map(drop)
    }
}

/// Whether something has this name, a link that leads nowhere included.
pub(super) fn exists(path: &Path) -> Result<bool, SiteError> {
    Ok(if_present(fs::symlink_metadata(path)).doing("look at", path)?.is_some())
}

fn remove_folder(path: &Path) -> Result<(), SiteError> {
    if_present(fs::remove_dir_all(path)).doing("remove", path).map(drop)
}
