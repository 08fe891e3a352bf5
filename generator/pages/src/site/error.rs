//! What can keep a site from being written.

use std::io;
use std::path::{Path, PathBuf};

use thiserror::Error;

/// Why a site was not written.
#[derive(Debug, Error)]
pub enum SiteError {
    /// The folder holds something, but not the mark of a site written by this program.
    #[error(
        "{} holds files that no build put there, so it is not replaced; name an empty or a new folder",
        path.display()
    )]
    NotOurs {
        /// The folder left alone.
        path: PathBuf,
    },
    /// The folder is a site, and somebody has put files of their own into it.
    #[error(
        "{} holds files that no build put there: {first}{}. They would be lost. Move them out, or name another folder",
        path.display(), and_more(*more)
    )]
    Added {
        /// The folder left alone.
        path: PathBuf,
        /// The first of these files, relative to the folder.
        first: String,
        /// How many more there are.
        more: usize,
    },
    /// Something that is not a folder is where a folder is needed.
    #[error("{} is not a folder", path.display())]
    NotAFolder {
        /// What is there.
        path: PathBuf,
    },
    /// A symbolic link is where a folder is needed; replacing what it points at could surprise.
    #[error("{} is a symbolic link; name the folder itself", path.display())]
    Symlink {
        /// The link.
        path: PathBuf,
    },
    /// The target has no name of its own, such as `..` or the root of a drive, so nothing can be put in its place.
    #[error("{} cannot be replaced as a whole; name a folder inside it", path.display())]
    NoName {
        /// The target as given.
        path: PathBuf,
    },
    /// A file name that would leave the site, or that some system cannot hold.
    #[error("`{name}` cannot be a file name in a site: {why}")]
    BadName {
        /// The relative name as given.
        name: String,
        /// What is wrong with it.
        why: NameFault,
    },
    /// A name that is used twice, where capital and small letters count as the same.
    #[error("`{name}` and `{earlier}` would be one and the same on some systems")]
    RepeatedName {
        /// The name refused, or the folder in it.
        name: String,
        /// The name that was there before.
        earlier: String,
    },
    /// A file could not be staged earlier on, so the site is not whole.
    #[error("the site for {} is not whole and was thrown away", path.display())]
    Incomplete {
        /// The target.
        path: PathBuf,
    },
    /// A file to hand out has changed since the course was read.
    #[error("{} was changed while it was being published; publish again", path.display())]
    Changed {
        /// The file.
        path: PathBuf,
    },
    /// The system refused.
    #[error("could not {doing} {}: {source}{}", path.display(), what_to_do(source))]
    Io {
        /// What it was about.
        path: PathBuf,
        /// What was tried, a verb that fits "could not ...".
        doing: &'static str,
        /// What the system said.
        source: io::Error,
    },
}

/// What helps where a disk or stick is full, or where Windows refuses what another program has open.
fn what_to_do(source: &io::Error) -> &'static str {
    match source.kind() {
        io::ErrorKind::PermissionDenied if cfg!(windows) => {
            ". Close the windows and programs in which its files are open, and try again"
        }
        io::ErrorKind::StorageFull => {
            ". There must be room for the new site beside the old one, which stands until the new one is whole. \
             Make room, or publish to another disk and copy the site"
        }
        _ => "",
    }
}

fn and_more(more: usize) -> String {
    if more == 0 { String::new() } else { format!(" and {more} more") }
}

/// What is wrong with a file name.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
pub enum NameFault {
    /// The name, or one of its parts, is empty.
    #[error("it, or a part of it, is empty")]
    Empty,
    /// It begins at the root.
    #[error("it does not begin in the site's folder")]
    Absolute,
    /// It has a part `.` or `..`.
    #[error("it has a part `.` or `..`")]
    Dots,
    /// It has a character that some system keeps for itself, or stores in another form.
    #[error("it has the character {0:?}, which some systems do not allow or store in another way")]
    Character(char),
    /// A part ends in a full stop or a space, which Windows drops.
    #[error("a part of it ends in a full stop or a space, which some systems drop")]
    Ending,
    /// A part is the name of a device on Windows, such as `con` or `nul.txt`.
    #[error("a part of it is the name of a device on some systems")]
    Device,
    /// It is longer than [`course::LONGEST_PATH`].
    #[error("it is longer than {longest} characters", longest = course::LONGEST_PATH)]
    Length,
}

/// Says what was being done when the system refused.
pub(super) trait Doing<T> {
    /// Turns an error of the system into a [`SiteError::Io`].
    fn doing(self, doing: &'static str, path: &Path) -> Result<T, SiteError>;
}

impl<T> Doing<T> for io::Result<T> {
    fn doing(self, doing: &'static str, path: &Path) -> Result<T, SiteError> {
        self.map_err(|source| SiteError::Io { path: path.to_path_buf(), doing, source })
    }
}

/// Nothing where there is nothing of that name.
pub(super) fn if_present<T>(result: io::Result<T>) -> io::Result<Option<T>> {
    match result {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        other => other.map(Some),
    }
}
