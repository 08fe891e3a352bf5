//! Puts the staged site at the target.

use std::fs::{self, File};
use std::io;
use std::path::Path;

use super::error::{Doing, SiteError};
use super::places::Places;
use super::target::Target;

/// What came of asking for an exchange in one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Exchange {
    /// Each folder now has the other's name.
    #[cfg_attr(
        not(any(target_os = "linux", target_os = "macos")),
        allow(dead_code, reason = "no other system answers so")
    )]
    Done,
    /// This system or this filesystem cannot do it; nothing has changed.
    Unsupported,
}

/// Exchanges the names of two folders in one step. A value, so that tests can do without it.
pub(super) type ExchangeFolders = fn(&Path, &Path) -> io::Result<Exchange>;

/// Asks the system for the exchange.
#[cfg(any(target_os = "linux", target_os = "macos"))]
pub(super) fn at_once(one: &Path, other: &Path) -> io::Result<Exchange> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;

    match renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE) {
        Ok(()) => Ok(Exchange::Done),
        Err(Errno::INVAL | Errno::NOSYS | Errno::NOTSUP) => Ok(Exchange::Unsupported),
        Err(error) => Err(error.into()),
    }
}

/// Other systems have no such exchange.
#[cfg(not(any(target_os = "linux", target_os = "macos")))]
pub(super) fn at_once(_one: &Path, _other: &Path) -> io::Result<Exchange> {
    Ok(Exchange::Unsupported)
}

/// Puts the whole staged site at the target; what was there is left in the work folder, to be removed.
pub(super) fn put_in_place(places: &Places, target: Target, exchange: ExchangeFolders) -> Result<(), SiteError> {
    if target == Target::Absent {
        return move_in(places);
    }
    match exchange(&places.next, &places.target).doing("replace", &places.target)? {
        Exchange::Done => Ok(()),
        Exchange::Unsupported => by_journal(places),
    }
}

type Step = fn(&Places) -> Result<(), SiteError>;

/// What is done without an exchange, in an order that `Places::settle` can take up after any step.
pub(super) const JOURNAL_STEPS: [Step; 3] = [open_journal, move_aside, move_in];

/// Where a step fails, dropping the work folder settles what the steps before it did.
fn by_journal(places: &Places) -> Result<(), SiteError> {
    JOURNAL_STEPS.iter().try_for_each(|step| step(places))
}

fn open_journal(places: &Places) -> Result<(), SiteError> {
    File::create_new(&places.journal).doing("create", &places.journal).map(drop)
}

fn move_aside(places: &Places) -> Result<(), SiteError> {
    fs::rename(&places.target, &places.old).doing("move aside", &places.target)
}

fn move_in(places: &Places) -> Result<(), SiteError> {
    fs::rename(&places.next, &places.target).doing("put a site at", &places.target)
}
