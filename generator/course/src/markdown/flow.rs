//! A text as it flows: what is read goes out as HTML, with its terms linked and its numbers worked out.

use std::mem::take;
use std::ops::Range;

use problems::template::escape;

use super::braces::{self, Brace};
use super::checking::Checking;
use super::computed::{self, mark_of};
use super::explained::Waiting;
use super::html::Html;
use super::lookalikes;
use super::mentions::Mentions;
use super::open::Open;
use super::page::Page;
use super::run::{Run, words};
use super::sections::Sections;
use super::sources::Sources;
use super::text::Mode;

/// A text as it is written. Text is gathered in a run and looked through as a whole, before anything else is written.
pub(super) struct Flow<'f, 'a> {
    pub(super) checking: Checking<'f, 'a>,
    pub(super) page: Page,
    pub(super) html: Html,
    pub(super) sources: Sources,
    pub(super) mentions: Mentions<'a>,
    pub(super) sections: Sections,
    pub(super) waiting: Waiting,
    /// What stands behind the link that is open: the form and size of the file that it leads to.
    pub(super) behind_link: String,
    run: Run,
}

impl<'f, 'a> Flow<'f, 'a> {
    pub(super) fn new(checking: Checking<'f, 'a>) -> Self {
        Self {
            page: Page::default(),
            html: Html::with_room(checking.text.body().len() * 3 / 2),
            sources: Sources::default(),
            mentions: Mentions::new(&checking.references.terms, checking.text.own_term),
            sections: Sections::default(),
            waiting: Waiting::default(),
            behind_link: String::new(),
            run: Run::default(),
            checking,
        }
    }

    /// Takes text.
    pub(super) fn text(&mut self, text: &str, range: &Range<usize>) {
        self.run.push(text, range);
    }

    /// Writes HTML within a paragraph, which it opens where it is due.
    pub(super) fn inline(&mut self, html: &str) {
        self.flush();
        self.html.inline(html);
    }

    /// Writes HTML between paragraphs, or the end of what is open.
    pub(super) fn between(&mut self, html: &str) {
        self.flush();
        self.html.between(html);
    }

    /// Opens a part of the text: these bytes of the Markdown.
    pub(super) fn enter(&mut self, open: Open, range: &Range<usize>) {
        self.sources.enter(open, range, &mut self.checking);
    }

    /// Closes the part that was opened last.
    pub(super) fn leave(&mut self) -> Option<Open> {
        self.sources.leave(&mut self.checking)
    }

    /// Something other than an explanation begins.
    pub(super) fn end_explanation(&mut self) {
        self.waiting.end(&mut self.checking);
    }

    /// The HTML since the last time.
    pub(super) fn take_html(&mut self) -> String {
        self.flush();
        self.html.take()
    }

    /// Puts the HTML so far into the page, so that one of our blocks can follow.
    pub(super) fn cut(&mut self) {
        let html = self.take_html();
        self.page.push_html(html);
    }

    /// Ends the section of a recipe.
    pub(super) fn end_section(&mut self) {
        let html = self.take_html();
        self.page.sections.extend(self.sections.end(&html, &mut self.checking));
    }

    /// Writes the text gathered so far.
    pub(super) fn flush(&mut self) {
        if self.run.text.is_empty() {
            return;
        }
        let mut run = take(&mut self.run);
        if !(self.html.is_paragraph_due() && run.text.trim().is_empty()) {
            self.write(&run);
        }
        run.clear();
        self.run = run;
    }

    fn write(&mut self, run: &Run) {
        self.page.words += words(&run.text);
        if !self.sources.is_in(Open::Heading) {
            self.waiting.explain(&run.text);
        }
        lookalikes::run(run, &mut self.checking);
        let body = self.checking.text.body().as_bytes();
        let escaped = |open: usize| run.source(open).checked_sub(1).is_some_and(|before| body[before] == b'\\');
        let mut from = 0;
        while let Some(brace) = braces::next(&run.text, from, self.checking.text.mode, escaped) {
            let whole = brace.whole();
            self.plain(run, from..whole.start);
            self.brace(&brace, run);
            from = whole.end;
        }
        self.plain(run, from..run.text.len());
    }

    /// Writes what the braces mean.
    fn brace(&mut self, brace: &Brace, run: &Run) {
        match brace {
            Brace::Computed(inner) => self.computed(run, inner),
            Brace::Name(inner) if self.checking.text.mode == Mode::Lesson => self.given(run, inner),
            Brace::Name(inner) => self.hole(run, inner),
            Brace::Unreadable(range, code) => self.checking.refuse(*code, &run.range(range)),
        }
    }

    /// Writes the number that is worked out between `{=` and `}`.
    fn computed(&mut self, run: &Run, inner: &Range<usize>) {
        let formula = &run.text[inner.clone()];
        let Checking { text, references, faults } = &mut self.checking;
        self.page.use_named(text.scenario, formula);
        match computed::number(formula, text.scenario, references.mark()) {
            Ok(shown) => {
                self.html.inline(&format!("<span class=\"computed\">{}</span>", escape(&shown)));
                self.sources.read_mark(mark_of(formula), &run.range(inner));
            }
            Err(found) => {
                let place =
                    |span: Range<usize>| text.place(&run.range(&(inner.start + span.start..inner.start + span.end)));
                faults.extend(found.into_iter().map(|fault| fault.map(place)));
            }
        }
    }

    /// Writes the value of the scenario whose name is in braces.
    fn given(&mut self, run: &Run, inner: &Range<usize>) {
        let name = &run.text[inner.clone()];
        let range = run.range(&(inner.start - 1..inner.end + 1));
        let text = self.checking.text;
        match text.scenario.find(name) {
            Some(place) => {
                self.page.use_given(place);
                let given = text.scenario.given(place);
                self.html.inline("<span class=\"scenario\">");
                self.html.between(&escape(&given.shown));
                self.html.between("</span>");
                self.sources.read_mark(computed::mark_of_given(given), &range);
            }
            None => self.checking.faults.extend(computed::unknown(text.scenario, name, text.place(&range))),
        }
    }

    fn hole(&mut self, run: &Run, inner: &Range<usize>) {
        let text = self.checking.text;
        let place = || text.place(&run.range(&(inner.start - 1..inner.end + 1)));
        let hole = self.sections.hole(&run.text[inner.clone()], place);
        self.html.inline(&hole);
    }

    /// Writes text with nothing special in it but terms.
    fn plain(&mut self, run: &Run, range: Range<usize>) {
        let text = &run.text[range.clone()];
        if text.is_empty() {
            return;
        }
        self.sources.read_along(run, &range);
        let terms = self.mentions.terms;
        let mut written = 0;
        if self.links_terms() {
            for (term, range) in terms.mentions(text) {
                if self.mentions.note(term) {
                    self.html.text(&text[written..range.start]);
                    self.html.inline(terms.link(term));
                    self.html.text(&text[range.clone()]);
                    self.html.between("</a>");
                    written = range.end;
                }
            }
        }
        if written < text.len() {
            self.html.text(&text[written..]);
        }
    }

    /// Whether terms are linked here: not in recipes, links and headings, and not once all are linked.
    fn links_terms(&self) -> bool {
        self.checking.text.mode != Mode::Recipe
            && self.mentions.are_left()
            && !self.sources.is_in(Open::Link)
            && !self.sources.is_in(Open::Heading)
    }
}
