//! Writes a site all or nothing.
//!
//! Files are staged in a work folder beside the target (`.<name>-work/next`), and [`SiteWriter::finish`] exchanges the
//! staged folder with the target. Whenever the program dies, the target holds the whole old site or the whole new one.
//!
//! - Linux and macOS exchange two folders in one step, so that the target is never missing, not even for a moment.
//! - Where the system or the filesystem cannot do that, a journal is kept: the old site is moved aside and the new one
//!   moved in. A program that dies between those two moves leaves no site at the target; the next
//!   [`SiteWriter::begin`] puts it there.
//! - A target that does not exist yet needs neither: the staged folder is renamed.
//!
//! Only a folder that this writer made, or an empty one, is ever replaced (see [`MARKER_NAME`]), and only while it holds
//! nothing but what was written there: a file that somebody has put into a site is not lost with the next build. A lock in
//! the work folder keeps two builds apart; the system frees it when a program dies.
//!
//! The guarantee is against the death of the program, not against the loss of power: nothing is forced onto the disk,
//! because that makes a build of some thousand files many times slower and a site can always be built again.

mod error;
mod exchange;
mod names;
mod places;
mod target;
#[cfg(test)]
mod tests;
mod work;

use std::fs::{self, File, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

pub use error::{NameFault, SiteError};
pub use target::{GIT_IGNORE_NAME, GIT_IGNORE_TEXT, MARKER_NAME, MARKER_TEXT};

use error::Doing;
use exchange::ExchangeFolders;
use names::Names;
use places::Places;
use work::Work;

/// A site being staged.
///
/// Dropped without [`SiteWriter::finish`], it removes what it staged and leaves the target alone.
#[must_use = "a site that is not finished is thrown away"]
#[derive(Debug)]
pub struct SiteWriter {
    work: Work,
    staged: Mutex<Staged>,
    exchange: ExchangeFolders,
}

/// What has been staged so far.
#[derive(Debug, Default)]
struct Staged {
    names: Names,
    written: Written,
    incomplete: bool,
}

impl Staged {
    fn count(&mut self, bytes: u64) {
        self.written.files += 1;
        self.written.bytes += bytes;
    }
}

/// What a finished site holds, the writer's own two small files included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Written {
    /// Number of files.
    pub files: usize,
    /// Sum of their lengths, in bytes.
    pub bytes: u64,
}

impl SiteWriter {
    /// Starts a site for `target`; folders above it are made where they are missing.
    ///
    /// What an earlier, killed build left behind is finished or removed first. If another build of the same target is
    /// running, `on_wait` is called once and the call returns when that build is over.
    ///
    /// # Errors
    ///
    /// [`SiteError::NoName`], [`SiteError::Symlink`], [`SiteError::NotAFolder`], [`SiteError::NotOurs`] or
    /// [`SiteError::Added`] if the target may not be replaced, [`SiteError::Io`] if the system refuses something.
    pub fn begin(target: &Path, on_wait: &dyn Fn()) -> Result<Self, SiteError> {
        Self::begin_with(target, on_wait, exchange::at_once)
    }

    fn begin_with(target: &Path, on_wait: &dyn Fn(), exchange: ExchangeFolders) -> Result<Self, SiteError> {
        let places = Places::of(target)?;
        // Before anything is made or settled, so that a refusal changes nothing; `finish` looks again.
        target::look(&places.target)?;
        let work = Work::enter(places, on_wait)?;
        fs::create_dir(&work.places.next).doing("create", &work.places.next)?;
        let writer = Self { work, staged: Mutex::default(), exchange };
        // Written last: it names all files.
        writer.claim(MARKER_NAME)?;
        writer.file(GIT_IGNORE_NAME, GIT_IGNORE_TEXT.as_bytes())?;
        Ok(writer)
    }

    /// Stages one file under a relative name with `/` between its parts; folders are made as needed. Several threads may
    /// do so at once.
    ///
    /// # Errors
    ///
    /// [`SiteError::BadName`] for a name that would leave the site or that some system cannot hold,
    /// [`SiteError::RepeatedName`] for one that was used before (capital and small letters count as the same), and
    /// [`SiteError::Io`]. After an error the site is incomplete and can no longer be finished.
    pub fn file(&self, relative: &str, bytes: &[u8]) -> Result<(), SiteError> {
        self.stage(relative, &|path| write(path, bytes))
    }

    /// Stages a copy of a file in pieces, however large it is. It must still hold what has this SHA-256.
    ///
    /// # Errors
    /// As [`SiteWriter::file`], and [`SiteError::Changed`] where the file now holds something else.
    pub fn copy(&self, relative: &str, from: &Path, digest: &[u8; 32]) -> Result<(), SiteError> {
        self.stage(relative, &|path| copied(path, from, digest))
    }

    /// Stages a file that `write` puts at its path; it gives the number of bytes.
    fn stage(&self, relative: &str, write: &dyn Fn(&Path) -> Result<u64, SiteError>) -> Result<(), SiteError> {
        let result = self.claim(relative).and_then(|path| write(&path));
        let mut staged = self.staged();
        match &result {
            Ok(bytes) => staged.count(*bytes),
            Err(_) => staged.incomplete = true,
        }
        result.map(drop)
    }

    /// Takes a name and gives its path. New folders in it are made before another thread can take a name in them.
    fn claim(&self, relative: &str) -> Result<PathBuf, SiteError> {
        let next = &self.work.places.next;
        let mut staged = self.staged();
        for folder in staged.names.claim(relative)? {
            let path = next.join(folder);
            fs::create_dir(&path).doing("create", &path)?;
        }
        Ok(next.join(relative))
    }

    fn staged(&self) -> MutexGuard<'_, Staged> {
        self.staged.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Puts the staged site at the target and removes the old one.
    ///
    /// # Errors
    ///
    /// [`SiteError::Incomplete`] if staging a file had failed, the errors of [`SiteWriter::begin`] if the target has become
    /// something that may not be replaced, and [`SiteError::Io`]. A whole site is still there then: the old one, or where
    /// the exchange takes two moves and only the second was refused at first, perhaps the new one.
    pub fn finish(self) -> Result<Written, SiteError> {
        let mut staged = self.staged.into_inner().unwrap_or_else(PoisonError::into_inner);
        if staged.incomplete {
            return Err(SiteError::Incomplete { path: self.work.places.target.clone() });
        }
        let marker = target::marker(staged.names.files());
        staged.count(write(&self.work.places.next.join(MARKER_NAME), marker.as_bytes())?);
        let state = target::look(&self.work.places.target)?;
        exchange::put_in_place(&self.work.places, state, self.exchange)?;
        // Dropping the work folder removes the old site. If that fails, the new one is in place all the same, and the next
        // build tries again.
        Ok(staged.written)
    }
}

fn write(path: &Path, bytes: &[u8]) -> Result<u64, SiteError> {
    create(path)?.write_all(bytes).doing("write", path)?;
    Ok(bytes.len() as u64)
}

fn copied(path: &Path, from: &Path, digest: &[u8; 32]) -> Result<u64, SiteError> {
    let mut source = File::open(from).doing("open", from)?;
    let (found, bytes) = course::copy(&mut source, &mut create(path)?).doing("write", path)?;
    if found != *digest {
        return Err(SiteError::Changed { path: from.to_path_buf() });
    }
    Ok(bytes)
}

/// Makes a file; `create_new` also finds names that this very filesystem takes for the same one.
fn create(path: &Path) -> Result<File, SiteError> {
    OpenOptions::new().write(true).create_new(true).open(path).doing("create", path)
}
