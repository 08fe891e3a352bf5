//! `guide`: the author's guide, written as a site. It is proven by the tests, with this very core.

use std::path::Path;

use pages::{Words, write_guide};

use crate::faults;
use crate::publish::write;
use crate::status::{End, Ended, Status};

pub(crate) fn run(to: &Path, words: &Words) -> Ended {
    let unwritable = |error: std::io::Error| {
        End::new(Status::Unreadable, words.fill("command.guide_unwritable", &[("error", &error.to_string())]))
    };
    let folder = tempfile::tempdir().map_err(unwritable)?;
    write_guide(folder.path()).map_err(unwritable)?;
    write(&faults::read_course(folder.path(), words)?, to, words)
}
