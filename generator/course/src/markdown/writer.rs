//! The walk over the events of one text: what goes out as it is, what is changed, and what is refused.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use faults::Code;
use pulldown_cmark::{Event, HeadingLevel, Tag, TagEnd};

use super::run::{Run, words};
use super::shown::Showing;
use super::sources::Sources;
use super::{Events, MARKS, MOST_DEPTH, Mode, Page, Section, Shelf, Text};
use crate::course::Block;
use crate::fault::{Fault, Place};
use problems::template::{Piece, Template};

/// What is open around an event, as far as it changes what may stand there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Open {
    Paragraph,
    Heading,
    Quote,
    Signal,
    Link,
    /// Emphasis.
    Inline,
    Item,
    Table,
    TableHead,
    TableRow,
    TableCell,
    Note,
    Other,
}

/// Where a display formula waits for the words that explain it.
pub(super) type Waiting = Option<Place>;

/// The state of the walk.
pub(super) struct Writer<'f, 'a> {
    pub(super) shelf: &'a Shelf<'a>,
    pub(super) text: Text<'a>,
    pub(super) faults: &'f mut Vec<Fault>,
    pub(super) page: Page,
    /// The HTML since the last block of ours.
    pub(super) out: String,
    /// Text that is not yet looked through for terms and numbers.
    pub(super) run: Run,
    pub(super) sources: Sources,
    pub(super) open: Vec<Open>,
    /// A paragraph that has started and holds nothing so far.
    pub(super) paragraph_due: bool,
    pub(super) waiting: Waiting,
    /// Which terms have been linked to.
    pub(super) linked: Vec<bool>,
    pub(super) anchors: BTreeSet<String>,
    /// Notes in the order of their first mention, each with the shown source it belongs to.
    pub(super) notes: Vec<(usize, String)>,
    /// Where in shown source the walk is.
    pub(super) shown: Showing,
    /// The words before the note that is open, and its first line.
    pub(super) note: Option<(usize, Range<usize>)>,
    pub(super) figures: usize,
    /// The section of a recipe that is being read, with its holes.
    pub(super) section: Option<(String, Place)>,
    pub(super) holes: BTreeMap<String, Place>,
    pub(super) table_head: bool,
    pub(super) table_columns: Vec<pulldown_cmark::Alignment>,
    pub(super) table_cell: usize,
    in_raw_html: bool,
    too_deep: bool,
}

impl<'f, 'a> Writer<'f, 'a> {
    pub(super) fn new(shelf: &'a Shelf<'a>, text: Text<'a>, faults: &'f mut Vec<Fault>) -> Self {
        let mut linked = vec![false; shelf.terms.count()];
        if let Some(own) = text.own_term.and_then(|id| shelf.terms.find(id)) {
            linked[own] = true;
        }
        Self {
            shelf,
            text,
            faults,
            page: Page::default(),
            out: String::with_capacity(text.body().len() * 3 / 2),
            run: Run::default(),
            sources: Sources::default(),
            open: Vec::new(),
            paragraph_due: false,
            waiting: None,
            linked,
            // Ids that the page around the text has.
            anchors: ["main", "objectives"].map(str::to_owned).into(),
            notes: Vec::new(),
            shown: Showing::default(),
            note: None,
            figures: 0,
            section: None,
            holes: BTreeMap::new(),
            table_head: false,
            table_columns: Vec::new(),
            table_cell: 0,
            in_raw_html: false,
            too_deep: false,
        }
    }

    /// Takes the Markdown in a part of the text.
    pub(super) fn take_all(&mut self, part: Range<usize>) {
        let events = super::events(&self.text.body()[part.clone()], part.start);
        self.entities(&events);
        let mut rest: Events<'_, 'a> = &events;
        while !rest.is_empty() {
            let used = self.take(rest);
            rest = &rest[used.clamp(1, rest.len())..];
        }
    }

    /// Takes the next event, with those that belong to it; says how many.
    pub(super) fn take(&mut self, rest: Events<'_, 'a>) -> usize {
        if self.open.len() > MOST_DEPTH {
            return self.too_deep(rest);
        }
        if let Some(used) = self.take_several(rest) {
            return used;
        }
        let (event, range) = &rest[0];
        match event {
            Event::Start(tag) => self.start(tag, range),
            Event::End(tag) => self.end(*tag),
            Event::Text(_) if self.in_raw_html => (),
            Event::Text(text) => self.run.push(text, range),
            Event::SoftBreak => self.run.push(" ", range),
            Event::Html(_) | Event::InlineHtml(_) => self.raw_html(event, range),
            Event::Code(code) => self.code_in_line(code, range),
            Event::InlineMath(latex) => {
                self.inline_math(latex, range);
                self.read_latex(latex, range);
            }
            Event::DisplayMath(latex) => {
                self.display_math(latex, range);
                self.read_latex(latex, range);
            }
            Event::FootnoteReference(name) => self.note_reference(name),
            Event::HardBreak => self.hard_break(range),
            Event::Rule => self.block("<hr />\n"),
            Event::TaskListMarker(_) => (),
        }
        1
    }

    fn start(&mut self, tag: &Tag<'a>, range: &Range<usize>) {
        let open = match tag {
            Tag::Paragraph => Open::Paragraph,
            Tag::Heading { .. } => Open::Heading,
            Tag::BlockQuote(_) => Open::Quote,
            Tag::Link { .. } => Open::Link,
            Tag::Emphasis | Tag::Strong => Open::Inline,
            Tag::Item => Open::Item,
            Tag::Table(_) => Open::Table,
            Tag::TableHead => Open::TableHead,
            Tag::TableRow => Open::TableRow,
            Tag::TableCell => Open::TableCell,
            Tag::FootnoteDefinition(_) => Open::Note,
            _ => Open::Other,
        };
        self.flush_run();
        match tag {
            Tag::Paragraph => self.paragraph_due = true,
            Tag::Heading { level, .. } => self.heading_start(*level),
            Tag::HtmlBlock => self.raw_html_block(range),
            Tag::Link { .. } => self.start_link(tag, range),
            Tag::Table(_) | Tag::TableHead | Tag::TableRow | Tag::TableCell => self.start_table(tag, range),
            Tag::FootnoteDefinition(name) => self.start_note(name, range),
            Tag::BlockQuote(_) => self.block("<blockquote>\n"),
            Tag::List(None) => self.block("<ul>\n"),
            Tag::List(Some(1)) => self.block("<ol>\n"),
            Tag::List(Some(first)) => self.block(&format!("<ol start=\"{first}\">\n")),
            Tag::Item => self.block("<li>"),
            Tag::Emphasis => self.inline("<em>"),
            Tag::Strong => self.inline("<strong>"),
            _ => (),
        }
        self.enter(open, range);
    }

    fn end(&mut self, tag: TagEnd) {
        self.flush_run();
        let open = self.leave();
        match tag {
            TagEnd::Paragraph if self.paragraph_due => self.paragraph_due = false,
            TagEnd::Paragraph => self.block("</p>\n"),
            TagEnd::Heading(level) => self.block(&format!("</{level}>\n")),
            TagEnd::HtmlBlock => self.in_raw_html = false,
            TagEnd::Table | TagEnd::TableHead | TagEnd::TableRow | TagEnd::TableCell => self.end_table(tag),
            TagEnd::FootnoteDefinition => self.end_note(),
            TagEnd::BlockQuote(_) if open == Some(Open::Signal) => self.block("</div></aside>\n"),
            TagEnd::BlockQuote(_) => self.block("</blockquote>\n"),
            TagEnd::List(ordered) => self.block(if ordered { "</ol>\n" } else { "</ul>\n" }),
            TagEnd::Item => self.block("</li>\n"),
            TagEnd::Emphasis => self.block("</em>"),
            TagEnd::Strong => self.block("</strong>"),
            TagEnd::Link => self.block("</a>"),
            _ => (),
        }
    }

    fn code_in_line(&mut self, code: &str, range: &Range<usize>) {
        self.page.words += words(code);
        self.inline("<code>");
        self.write_text(code);
        self.out.push_str("</code>");
        self.read_other(range);
    }

    fn hard_break(&mut self, range: &Range<usize>) {
        self.inline("<br />\n");
        self.read_space(range);
    }

    /// Writes the start of a heading, with the anchor that was noted for it.
    fn heading_start(&mut self, level: HeadingLevel) {
        let anchor = self.page.headings.last().map_or("", |heading| &heading.anchor);
        self.out.push_str(&format!("<{level} id=\"{anchor}\">"));
    }

    /// Writes HTML within a paragraph, which it opens where it is due.
    pub(super) fn inline(&mut self, html: &str) {
        self.flush_run();
        self.write_html(html);
    }

    /// Writes HTML that stands between paragraphs, or ends what is open.
    pub(super) fn block(&mut self, html: &str) {
        self.flush_run();
        self.out.push_str(html);
    }

    /// As [`Writer::inline`], for what the run itself gives.
    pub(super) fn write_html(&mut self, html: &str) {
        self.open_paragraph();
        self.out.push_str(html);
    }

    /// Writes text of the run.
    pub(super) fn write_text(&mut self, text: &str) {
        self.open_paragraph();
        // Most texts hold none, and to see that takes less than to look for the first.
        if !text.bytes().fold(false, |found, byte| found | matches!(byte, b'&' | b'<' | b'>')) {
            return self.out.push_str(text);
        }
        let mut rest = text;
        while let Some(at) = rest.bytes().position(|byte| matches!(byte, b'&' | b'<' | b'>')) {
            self.out.push_str(&rest[..at]);
            self.out.push_str(match rest.as_bytes()[at] {
                b'&' => "&amp;",
                b'<' => "&lt;",
                _ => "&gt;",
            });
            rest = &rest[at + 1..];
        }
        self.out.push_str(rest);
    }

    fn open_paragraph(&mut self) {
        if std::mem::take(&mut self.paragraph_due) {
            self.out.push_str("<p>");
        }
    }

    pub(super) fn fault(&mut self, code: Code, range: &Range<usize>) -> &mut Fault {
        let place = self.text.place(range);
        self.faults.push(Fault::at(code, place));
        let last = self.faults.len() - 1;
        &mut self.faults[last]
    }

    fn raw_html_block(&mut self, range: &Range<usize>) {
        self.in_raw_html = true;
        let text = &self.text.body()[range.clone()];
        let shown = range.start..range.start + text.trim_end().len();
        self.fault(Code::MarkdownRawHtml, &shown);
    }

    /// Each tag within a line is an event; the closing ones need no fault of their own, unless they stand alone.
    fn raw_html(&mut self, event: &Event, range: &Range<usize>) {
        if let Event::InlineHtml(html) = event
            && !(html.starts_with("</") && self.faults.iter().any(|fault| fault.code == Code::MarkdownRawHtml))
        {
            self.flush_run();
            self.fault(Code::MarkdownRawHtml, range);
        }
    }

    fn too_deep(&mut self, rest: Events<'_, 'a>) -> usize {
        if !self.too_deep {
            self.too_deep = true;
            let at = rest[0].1.start;
            self.fault(Code::MarkdownTooDeep, &(at..at));
        }
        rest.len()
    }

    /// Ends the HTML so far and puts a block of ours behind it.
    pub(super) fn push_block(&mut self, block: Block) {
        self.cut();
        self.page.blocks.push(block);
    }

    pub(super) fn cut(&mut self) {
        let html = self.take_html();
        if !html.is_empty() {
            self.page.blocks.push(Block::Html(html));
        }
    }

    fn take_html(&mut self) -> String {
        self.flush_run();
        std::mem::take(&mut self.out)
    }

    /// Ends the section of a recipe.
    pub(super) fn end_section(&mut self) {
        let html = self.take_html();
        let holes = std::mem::take(&mut self.holes);
        if let Some((title, place)) = self.section.take() {
            self.page.sections.push(Section { title, place, template: template(&html), holes });
        } else if !html.trim().is_empty() {
            let body = self.text.body();
            let start = body.len() - body.trim_start().len();
            let end = start + body[start..].lines().next().map_or(0, str::len);
            self.fault(Code::RecipeTextBeforeSection, &(start..end));
        }
    }

    pub(super) fn finish(mut self) -> Page {
        if self.text.mode == Mode::Recipe {
            self.end_section();
        } else {
            self.cut();
        }
        self.unexplained();
        self.page
    }
}

/// Cuts HTML at the marks of its holes.
fn template(html: &str) -> Template {
    let mut pieces = Vec::new();
    let mut rest = html.trim_end();
    while let Some((before, after)) = rest.split_once(MARKS[0]) {
        let (hole, tail) = after.split_once(MARKS[1]).unwrap_or((after, ""));
        pieces.push(Piece::Html(before.to_owned()));
        pieces.push(match hole.strip_prefix("steps:") {
            Some(part) => Piece::Steps(part.to_owned()),
            None => Piece::Hole(hole.to_owned()),
        });
        rest = tail;
    }
    pieces.push(Piece::Html(rest.to_owned()));
    pieces.retain(|piece| !matches!(piece, Piece::Html(html) if html.is_empty()));
    Template(pieces)
}
