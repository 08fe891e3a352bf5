//! Renders a checked course into the files of a site, and writes them all or nothing.

mod csv_text;
mod engine;
mod guide;
mod render;
mod samples;
pub mod site;
mod theme;
mod words;

use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

use course::Course;

pub use engine::{core_digest, matches_core};
pub use guide::write_guide;
pub use render::{RenderError, Sink};
pub use samples::{SAMPLES_MARK, samples};
pub use site::{SiteError, Written};
pub use theme::style_sheet;
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
    let renderer = Renderer::new(course, words)?;
    let writer = SiteWriter::begin(target, on_wait)?;
    let (count, all) = (AtomicUsize::new(0), renderer.files());
    renderer.render::<PublishError>(&|name, bytes| {
        writer.file(name, bytes)?;
        on_file(count.fetch_add(1, Ordering::Relaxed) + 1, all);
        Ok(())
    })?;
    Ok(writer.finish()?)
}

/// Renders every file of a course's site into a sink, the same bytes that [`publish`] writes.
///
/// # Errors
/// [`RenderError`], or what the sink refuses.
pub fn render<E: From<RenderError> + Send>(course: &Course, words: &Words, sink: &Sink<E>) -> Result<(), E> {
    Renderer::new(course, words)?.render(sink)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_many_files_are_announced_as_are_rendered() {
        let words = Words::of("en").expect("words");
        let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../content");
        let course = course::read(&content, &words).map_err(|faults| faults.list).expect("course");
        let renderer = Renderer::new(&course, &words).expect("templates");
        let count = AtomicUsize::new(0);
        let counted: Result<(), RenderError> = renderer.render(&|_, _| {
            count.fetch_add(1, Ordering::Relaxed);
            Ok(())
        });
        counted.expect("rendered");
        assert_eq!(count.into_inner(), renderer.files());
    }
}
