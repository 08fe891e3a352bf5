//! The work folder, held by one build at a time.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io;
use std::path::Path;
use std::thread;
use std::time::Duration;

use same_file::Handle;

use super::error::{Doing, SiteError};
use super::places::Places;
use super::target::must_be_folder;

/// How often the lock is looked for again after another build has removed it. Each time means that another build has
/// come to its end, so this many in a row does not happen; a folder that is not ours does.
const TRIES: u32 = 1000;
/// How often, and how far apart, a refusal is met that may be a lock on its way out (see [`is_going`]): for three seconds.
const REFUSALS: u32 = 300;
const PAUSE: Duration = Duration::from_millis(10);

/// The right to work in the work folder. Dropping it settles and clears the folder and gives the right up.
#[derive(Debug)]
pub(super) struct Work {
    pub(super) places: Places,
    /// Held locked; closing it frees the lock, and so does the death of the program. Taken when the work is over.
    lock: Option<File>,
}

impl Work {
    /// Takes the work folder, waiting for another build if need be, and settles what was left in it.
    pub(super) fn enter(places: Places, on_wait: &dyn Fn()) -> Result<Self, SiteError> {
        if let Some(parent) = places.folder.parent() {
            fs::create_dir_all(parent).doing("create", parent)?;
        }
        let lock = take_lock(&places, on_wait)?;
        let work = Self { places, lock: Some(lock) };
        work.places.settle()?;
        Ok(work)
    }

    /// Removes the work folder. Another build may already be waiting for the lock that goes with it, and sees by
    /// `is_still_at` that it has to take a new one. Windows keeps the name of a removed file until nobody has it open,
    /// so our own handle is closed before the folder goes.
    fn remove(&mut self) {
        if fs::remove_file(&self.places.lock).is_ok() {
            drop(self.lock.take());
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
    let (mut waited, mut refusals) = (false, 0);
    let mut wait = || {
        if !waited {
            on_wait();
        }
        waited = true;
    };
    for _ in 0..TRIES {
        match try_to_take(places, &mut wait) {
            Ok(Some(file)) => return Ok(file),
            Err(error) if refusals == REFUSALS || !is_going(&error) => return Err(error),
            Ok(None) => continue,
            Err(_) => refusals += 1,
        }
        thread::sleep(PAUSE);
    }
    Err(SiteError::NotOurs { path: places.folder.clone() })
}

/// The lock, held; nothing if another build came in between or has just gone.
fn try_to_take(places: &Places, on_wait: &mut dyn FnMut()) -> Result<Option<File>, SiteError> {
    let Some(file) = open_lock(places)? else { return Ok(None) };
    lock(&file, on_wait).doing("lock", &places.lock)?;
    let ours = is_still_at(&file, &places.lock).doing("look at", &places.lock)?;
    Ok(ours.then_some(file))
}

/// Whether a refusal may come from a lock, or its folder, that another build has removed and that somebody still has open:
/// Windows says of one that access is denied.
fn is_going(error: &SiteError) -> bool {
    let refused = |source: &io::Error| source.kind() == io::ErrorKind::PermissionDenied;
    cfg!(windows) && matches!(error, SiteError::Io { source, .. } if refused(source))
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
fn is_still_at(file: &File, path: &Path) -> io::Result<bool> {
    let opened = Handle::from_file(file.try_clone()?)?;
    Ok(unless_changed(Handle::from_path(path))? == Some(opened))
}
