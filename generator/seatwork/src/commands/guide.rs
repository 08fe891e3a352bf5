//! `guide`: the author's guide, written as a site. It is proven by the tests, with this very core.

use std::path::Path;

use pages::{Words, write_guide};

use crate::fault_report;
use crate::status::{End, Ended, Status};
use crate::write_site::write_site;

pub(crate) fn run(to: &Path, words: &Words) -> Ended {
    let unwritable = |error: std::io::Error| {
        End::new(Status::Unreadable, words.fill("command.guide_unwritable", &[("error", &error.to_string())]))
    };
    let folder = tempfile::tempdir().map_err(unwritable)?;
    write_guide(folder.path()).map_err(unwritable)?;
    write_site(&fault_report::read_course(folder.path(), words)?, to, words)
}
