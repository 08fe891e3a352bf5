//! How the command ends.

use std::process::{ExitCode, Termination};

/// The exit status.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Status {
    /// Done.
    Done,
    /// The content has faults.
    Faults,
    /// The command was used wrongly.
    WrongUse,
    /// Something could not be read or written.
    Unreadable,
}

impl Termination for Status {
    fn report(self) -> ExitCode {
        ExitCode::from(match self {
            Self::Done => 0,
            Self::Faults => 1,
            Self::WrongUse => 2,
            Self::Unreadable => 3,
        })
    }
}

/// An end before the work was done, with what to say of it.
#[derive(Debug)]
pub(crate) struct End {
    pub(crate) status: Status,
    pub(crate) message: String,
}

impl End {
    pub(crate) fn new(status: Status, message: impl Into<String>) -> Self {
        Self { status, message: message.into() }
    }
}

/// What a command gives.
pub(crate) type Ended = Result<Status, End>;
