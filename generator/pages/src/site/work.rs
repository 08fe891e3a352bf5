//! The work folder, held by one build at a time.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io;
use std::path::Path;

use super::error::{Doing, SiteError};
use super::places::Places;
use super::target::must_be_folder;

/// How often the lock is looked for again after another build has removed it. Each time means that another build has
/// come to its end, so this many in a row does not happen; a folder that is not ours does.
const TRIES: u32 = 1000;

/// The right to work in the work folder. Dropping it settles and clears the folder and gives the right up.
#[derive(Debug)]
pub(super) struct Work {
    pub(super) places: Places,
    /// Held locked; closing it frees the lock, and so does the death of the program.
    _lock: File,
}

impl Work {
    /// Takes the work folder, waiting for another build if need be, and settles what was left in it.
    pub(super) fn enter(places: Places, on_wait: &dyn Fn()) -> Result<Self, SiteError> {
        if let Some(parent) = places.folder.parent() {
            fs::create_dir_all(parent).doing("create", parent)?;
        }
        let lock = take_lock(&places, on_wait)?;
        let work = Self { places, _lock: lock };
        work.places.settle()?;
        Ok(work)
    }

    /// Removes the work folder. Another build may already be waiting for the lock that goes with it, and sees by
    /// `is_still_at` that it has to take a new one. Elsewhere than on Unix that cannot be seen, and the lock stays.
    fn remove(&self) {
        if cfg!(unix) && fs::remove_file(&self.places.lock).is_ok() {
            // Fails if another build has come in, whose folder it now is.
            let _ = fs::remove_dir(&self.places.folder);
        }
    }
}

impl Drop for Work {
    fn drop(&mut self) {
        // What cannot be settled now is left for the next build, which says why if it cannot either.
        if self.places.settle().is_ok() {
            self.remove();
        }
    }
}

fn take_lock(places: &Places, on_wait: &dyn Fn()) -> Result<File, SiteError> {
    let mut waited = false;
    for _ in 0..TRIES {
        let Some(file) = open_lock(places)? else { continue };
        lock(&file, &mut || {
            if !waited {
                on_wait();
            }
            waited = true;
        })
        .doing("lock", &places.lock)?;
        if is_still_at(&file, &places.lock).doing("look at", &places.lock)? {
            return Ok(file);
        }
    }
    Err(SiteError::NotOurs { path: places.folder.clone() })
}

/// Opens the lock, and makes it if the work folder holds nothing of value; nothing if another build came in between.
fn open_lock(places: &Places) -> Result<Option<File>, SiteError> {
    match fs::create_dir(&places.folder) {
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
        other => other.doing("create", &places.folder)?,
    }
    let Some(metadata) = unless_changed(fs::symlink_metadata(&places.folder)).doing("look at", &places.folder)? else {
        return Ok(None);
    };
    must_be_folder(&places.folder, &metadata)?;
    // Written to by nobody: some network filesystems only lock a file that is open for writing.
    let mut options = OpenOptions::new();
    options.read(true).write(true);
    let found = unless_changed(options.open(&places.lock)).doing("open", &places.lock)?;
    // A build makes the lock first and removes it last. Where it is missing but the rest is not, a build has either
    // just come in, and its lock is there at the next try, or this folder is somebody else's.
    if found.is_some() || places.hold_something()? {
        return Ok(found);
    }
    unless_changed(options.create_new(true).open(&places.lock)).doing("create", &places.lock)
}

/// Nothing where another build has just made or removed what this one looked for.
fn unless_changed<T>(result: io::Result<T>) -> io::Result<Option<T>> {
    match result {
        Err(error) if matches!(error.kind(), io::ErrorKind::NotFound | io::ErrorKind::AlreadyExists) => Ok(None),
        other => other.map(Some),
    }
}

fn lock(file: &File, on_wait: &mut dyn FnMut()) -> io::Result<()> {
    match file.try_lock() {
        Ok(()) => return Ok(()),
        Err(TryLockError::WouldBlock) => on_wait(),
        Err(TryLockError::Error(error)) => return Err(error),
    }
    loop {
        match file.lock() {
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            other => return other,
        }
    }
}

/// Whether the file that was opened and locked is still the one at the path.
#[cfg(unix)]
fn is_still_at(file: &File, path: &Path) -> io::Result<bool> {
    use std::os::unix::fs::MetadataExt;

    let identity = |metadata: fs::Metadata| (metadata.dev(), metadata.ino());
    let opened = identity(file.metadata()?);
    Ok(unless_changed(fs::symlink_metadata(path))?.map(identity) == Some(opened))
}

/// The lock is never removed here (see `Work::remove`).
#[cfg(not(unix))]
fn is_still_at(_file: &File, _path: &Path) -> io::Result<bool> {
    Ok(true)
}
