//! Renders a course and replaces the old site with it.

use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

use course::Course;

use crate::engine::matches_core;
use crate::render::{Content, RenderError, SiteFiles};
use crate::site::{SiteError, SiteWriter, Written};
use crate::words::Words;

/// Why a site was not published.
#[derive(Debug, thiserror::Error)]
pub enum PublishError {
    /// The kept engine was built from other sources than the native core.
    #[error("engine")]
    Engine,
    /// A page could not be rendered.
    #[error(transparent)]
    Render(#[from] RenderError),
    /// The site could not be written; the old one is untouched.
    #[error(transparent)]
    Site(#[from] SiteError),
}

/// Renders a course and puts the site in the place of the old one at `target`, whole or not at all. `on_wait` is called
/// once where another publish must be waited for, `on_file` after each file with how many there are so far and in the
/// end; several threads call it.
///
/// # Errors
/// [`PublishError`], by its rule; the old site is untouched then.
pub fn publish(
    course: &Course,
    words: &Words,
    target: &Path,
    on_wait: &dyn Fn(),
    on_file: &(dyn Fn(usize, usize) + Sync),
) -> Result<Written, PublishError> {
    if !matches_core() {
        return Err(PublishError::Engine);
    }
    let files = SiteFiles::of(course, words)?;
    let writer = SiteWriter::begin(target, on_wait)?;
    let count = AtomicUsize::new(0);
    files.render::<PublishError>(course, words, &|name, content| {
        match content {
            Content::Bytes(bytes) => writer.file(name, bytes)?,
            Content::Handout(handout) => writer.copy(name, &handout.path, &handout.digest)?,
        }
        on_file(count.fetch_add(1, Ordering::Relaxed) + 1, files.count());
        Ok(())
    })?;
    Ok(writer.finish()?)
}
