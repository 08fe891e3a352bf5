//! Renders a checked course into the files of a site, and writes them all or nothing.

mod engine;
mod render;
pub mod site;
mod theme;
mod words;

use std::path::Path;

use course::Course;

pub use engine::matches_core;
pub use render::RenderError;
pub use site::{SiteError, Written};
pub use words::Words;

use render::Renderer;
use site::SiteWriter;

/// Why a site was not published.
#[derive(Debug, thiserror::Error)]
pub enum PublishError {
    /// The kept engine was built from other sources than the native core.
    #[error("engine")]
    Engine,
    /// A page could not be rendered.
    #[error(transparent)]
    Render(#[from] RenderError),
    /// The site could not be written; the old one stands.
    #[error(transparent)]
    Site(#[from] SiteError),
}

/// Renders a course and puts the site in the place of the old one at `target`, whole or not at all. `on_wait` is called
/// once where another publish must be waited for, `on_file` after each file with how many there are so far.
///
/// # Errors
/// [`PublishError`], by its rule; the old site is untouched then.
pub fn publish(
    course: &Course,
    words: &Words,
    target: &Path,
    on_wait: &dyn Fn(),
    on_file: &dyn Fn(usize),
) -> Result<Written, PublishError> {
    if !matches_core() {
        return Err(PublishError::Engine);
    }
    let renderer = Renderer::new(course, words)?;
    let mut writer = SiteWriter::begin(target, on_wait)?;
    let mut count = 0;
    renderer.render::<PublishError>(&mut |name, bytes| {
        writer.file(name, bytes)?;
        count += 1;
        on_file(count);
        Ok(())
    })?;
    Ok(writer.finish()?)
}
