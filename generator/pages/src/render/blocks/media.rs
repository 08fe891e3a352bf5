//! Sound and film, with what is said in them.

use course::{Cue, Media, Medium, addresses};
use serde::Serialize;
use tera::Context;

use crate::render::error::RenderError;
use crate::render::renderer::Renderer;

/// Words that are said, and when (milliseconds).
#[derive(Serialize)]
struct Line<'m> {
    from: u64,
    to: u64,
    /// When they begin, as people read it.
    at: String,
    text: &'m str,
}

impl<'m> Line<'m> {
    fn of(cue: &'m Cue) -> Self {
        let seconds = cue.from / 1000;
        Self { from: cue.from, to: cue.to, at: format!("{}:{:02}", seconds / 60, seconds % 60), text: &cue.text }
    }
}

impl Renderer<'_> {
    pub(super) fn media(&self, media: &Media) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("id", &media.anchor);
        context.insert("title", &media.title);
        context.insert("note", &media.note);
        context.insert("href", &format!("{}{}", addresses::ROOT, media.file));
        context.insert("name", media.file.rsplit('/').next().unwrap_or_default());
        context.insert("is_film", &(media.medium == Medium::Film));
        context.insert("lines", &media.cues.iter().map(Line::of).collect::<Vec<_>>());
        self.template("media.html", &context)
    }
}
