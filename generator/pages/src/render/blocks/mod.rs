//! The blocks of a lesson. Each sort that is more than ready HTML has a file.

mod figure;
mod media;
mod practice;
mod standing;
mod work;

use std::borrow::Cow;

use course::{Block, PLACEHOLDER, Shown, addresses};
use tera::Context;

use super::error::RenderError;
use super::renderer::{Renderer, objectives};

impl Renderer<'_> {
    /// Renders blocks, in their order.
    pub(super) fn blocks<'b>(&'b self, blocks: &'b [Block]) -> Result<Vec<Cow<'b, str>>, RenderError> {
        blocks.iter().map(|block| self.block(block)).collect()
    }

    /// Renders the blocks of a lesson, each figure in its place.
    pub(super) fn lesson_blocks<'b>(&'b self, blocks: &'b [Block]) -> Result<Vec<Cow<'b, str>>, RenderError> {
        Ok(standing::set(blocks, self.blocks(blocks)?))
    }

    fn block<'b>(&'b self, block: &'b Block) -> Result<Cow<'b, str>, RenderError> {
        Ok(match block {
            Block::Html(text) => text.into(),
            Block::Practice(practice) => self.practice_in_lesson(&practice.recipe)?.into(),
            Block::Work(work) => self.work_block(work)?.into(),
            Block::Figure(figure) => self.figure(figure)?.into(),
            Block::Picture(picture) => format!("<div class=\"figure picture\">{}</div>\n", picture.html).into(),
            Block::Media(media) => self.media(media)?.into(),
            Block::Shown(shown) => self.beside_source(shown)?.into(),
            Block::Term(id) => self.term_alone(id)?.into(),
            Block::Head(id) => self.head_alone(id)?.into(),
        })
    }

    /// Source beside what it becomes.
    fn beside_source(&self, shown: &Shown) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("file", &shown.file);
        context.insert("source", &shown.source);
        context.insert("becomes_html", &PLACEHOLDER);
        let frame = self.template("shown.html", &context)?;
        Ok(frame.replace(PLACEHOLDER, &self.blocks(&shown.becomes)?.concat()))
    }

    /// A term, as the list of terms has it.
    fn term_alone(&self, id: &str) -> Result<String, RenderError> {
        let Some(term) = self.course.terms.iter().find(|term| term.id == id) else { return Ok(String::new()) };
        let mut context = Context::new();
        context.insert("term", &self.term_entry(term));
        context.insert("list", &self.href(addresses::TERMS));
        self.template("term-alone.html", &context)
    }

    /// The head of another lesson.
    fn head_alone(&self, id: &str) -> Result<String, RenderError> {
        let Some(lesson) = self.find_lesson(id) else { return Ok(String::new()) };
        let mut context = Context::new();
        context.insert("title", &lesson.title);
        context.insert("summary", &lesson.summary);
        context.insert("objectives", &objectives(lesson));
        self.template("head.html", &context)
    }
}
