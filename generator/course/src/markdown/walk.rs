//! The walk over the events of one text: what goes out as it is, what is changed, and what is refused.

use std::mem::{replace, take};
use std::ops::Range;

use faults::Code;
use problems::template::is_path;
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Tag, TagEnd};

use super::checking::Checking;
use super::events::{Events, events, up_to};
use super::flow::Flow;
use super::headings::{self, Anchors};
use super::notes::Notes;
use super::page::Page;
use super::tables::Table;
use super::text::Mode;
use super::{blocks, characters, code, formulas, images, links, lookalikes, signals, tags};
use crate::course::{Block, Shown};

/// The deepest that a text nests.
const MOST_DEPTH: usize = 40;

/// The walk: the text that goes out, and what must be kept from one event to another.
pub(super) struct Walk<'f, 'a> {
    flow: Flow<'f, 'a>,
    table: Table,
    notes: Notes,
    anchors: Anchors,
    showing: Showing,
    in_raw_html: bool,
    too_deep: bool,
}

/// Where in shown source the walk is.
#[derive(Default)]
struct Showing {
    count: usize,
    open: bool,
}

impl Showing {
    /// The number of the piece that the walk is in, from one; 0 outside.
    fn piece(&self) -> usize {
        if self.open { self.count } else { 0 }
    }
}

impl<'f, 'a> Walk<'f, 'a> {
    pub(super) fn new(checking: Checking<'f, 'a>) -> Self {
        Self {
            flow: Flow::new(checking),
            table: Table::default(),
            notes: Notes::default(),
            anchors: Anchors::new(),
            showing: Showing::default(),
            in_raw_html: false,
            too_deep: false,
        }
    }

    /// Takes the whole text.
    pub(super) fn page(mut self) -> Page {
        let text = self.flow.checking.text;
        self.part(0..text.body().len());
        match text.mode {
            Mode::Recipe => self.flow.end_section(),
            _ => self.flow.cut(),
        }
        self.flow.end_explanation();
        let Flow { page, mentions, .. } = self.flow;
        Page { terms: mentions.into_ids(), ..page }
    }

    /// Takes the Markdown in a part of the text.
    fn part(&mut self, part: Range<usize>) {
        let body = self.flow.checking.text.body();
        let events = events(&body[part.clone()], part.start);
        characters::entities(&events, &mut self.flow.checking);
        let mut rest: Events<'_, 'a> = &events;
        while !rest.is_empty() {
            let used = self.take(rest);
            rest = &rest[used.clamp(1, rest.len())..];
        }
    }

    /// Takes the next event, with those that belong to it; says how many.
    fn take(&mut self, rest: Events) -> usize {
        if self.flow.sources.depth() > MOST_DEPTH {
            return self.too_deep(rest);
        }
        self.several(rest).unwrap_or_else(|| {
            let (event, range) = &rest[0];
            self.event(event, range);
            1
        })
    }

    /// Takes the events that the rest starts with, where they only mean something together; says how many.
    fn several(&mut self, rest: Events) -> Option<usize> {
        let flow = &mut self.flow;
        match rest {
            [(Event::Start(Tag::CodeBlock(kind)), range), ..] => Some(self.code(kind, range, rest)),
            [(Event::Start(Tag::Heading { level, .. }), range), ..] => self.heading(*level, range, rest),
            [(Event::Start(Tag::Image { .. }), _), ..] => Some(images::image(rest, flow)),
            [(Event::Start(Tag::Link { .. }), range), (Event::End(TagEnd::Link), _), ..] => {
                flow.checking.refuse(Code::LinkWithoutText, range);
                Some(2)
            }
            [(Event::Start(Tag::BlockQuote(_)), _), (Event::Start(Tag::Paragraph), _), (inner, _), ..] => match inner {
                Event::Start(Tag::Strong) => signals::signal(rest, flow),
                _ => {
                    lookalikes::plain_signal(rest, &mut flow.checking);
                    None
                }
            },
            [(Event::Start(Tag::Paragraph), _), (Event::Text(text), range), (Event::End(TagEnd::Paragraph), _), ..]
                if text.starts_with("{steps") =>
            {
                self.steps(text, range)
            }
            [(Event::Start(Tag::Paragraph), range), ..] => {
                if let Some(used) = images::alone(rest, flow) {
                    return Some(used);
                }
                lookalikes::lines(range, &mut flow.checking);
                None
            }
            _ => None,
        }
    }

    fn event(&mut self, event: &Event, range: &Range<usize>) {
        let flow = &mut self.flow;
        match event {
            Event::Start(tag) => self.start(tag, range),
            Event::End(tag) => self.end(*tag),
            Event::Text(_) if self.in_raw_html => (),
            Event::Text(text) => flow.text(text, range),
            Event::SoftBreak => flow.text(" ", range),
            Event::Html(_) | Event::TaskListMarker(_) => (),
            Event::InlineHtml(html) => self.raw_html(html, range),
            Event::Code(code) => code::in_line(code, range, flow),
            Event::InlineMath(latex) => formulas::inline(latex, range, flow),
            Event::DisplayMath(latex) => formulas::display(latex, range, flow),
            Event::FootnoteReference(name) => self.notes.reference(name, self.showing.piece(), flow),
            Event::HardBreak => {
                flow.inline("<br />\n");
                flow.sources.read_space(range);
            }
            Event::Rule => flow.between("<hr />\n"),
        }
    }

    fn start(&mut self, tag: &Tag, range: &Range<usize>) {
        let flow = &mut self.flow;
        flow.flush();
        match tag {
            Tag::Paragraph => flow.html.start_paragraph(),
            Tag::Heading { level, .. } => headings::start(*level, flow),
            Tag::HtmlBlock => self.raw_html_block(range),
            Tag::Link { .. } => links::start(tag, range, flow),
            Tag::Table(_) | Tag::TableHead | Tag::TableRow | Tag::TableCell => self.table.start(tag, range, flow),
            Tag::FootnoteDefinition(name) => self.notes.start(name, self.showing.piece(), range, flow),
            Tag::Emphasis => flow.html.inline("<em>"),
            Tag::Strong => flow.html.inline("<strong>"),
            _ => flow.html.between(&tags::block_start(tag)),
        }
        self.flow.enter(tags::opened(tag), range);
    }

    fn end(&mut self, tag: TagEnd) {
        let flow = &mut self.flow;
        flow.flush();
        let opened = flow.leave();
        match tag {
            TagEnd::Paragraph => flow.html.end_paragraph(),
            TagEnd::HtmlBlock => self.in_raw_html = false,
            TagEnd::Table | TagEnd::TableHead | TagEnd::TableRow | TagEnd::TableCell => self.table.end(tag, flow),
            TagEnd::FootnoteDefinition => self.notes.end(flow),
            TagEnd::Link => {
                let behind = take(&mut flow.behind_link);
                flow.html.between(&format!("</a>{behind}"));
            }
            _ => flow.html.between(&tags::end(tag, opened)),
        }
    }

    fn heading(&mut self, level: HeadingLevel, range: &Range<usize>, rest: Events) -> Option<usize> {
        let flow = &mut self.flow;
        flow.flush();
        let (inside, used) = up_to(rest, |tag| matches!(tag, TagEnd::Heading(_)));
        let (words, text) = (headings::words(inside), flow.checking.text);
        let place = range.start..range.start + text.body()[range.clone()].trim_end().len();
        match text.mode {
            Mode::Lesson => {
                flow.end_explanation();
                self.anchors.heading(level, words, &place, flow);
                return None;
            }
            Mode::Recipe if level == HeadingLevel::H2 => {
                flow.end_section();
                flow.sections.start(words, text.place(&place));
            }
            _ => flow.checking.refuse(Code::HeadingNotHere, &place),
        }
        Some(used)
    }

    /// A block of code, which may be one of ours.
    fn code(&mut self, kind: &CodeBlockKind, range: &Range<usize>, rest: Events) -> usize {
        let (events, used) = up_to(rest, |tag| *tag == TagEnd::CodeBlock);
        self.flow.flush();
        let checking = &mut self.flow.checking;
        self.flow.sources.settle(checking);
        let inside = code::inside(events, range, checking.text.body());
        let name = code::name(kind);
        if blocks::is_ours(name, range, &inside, checking) {
            self.our_block(name, range, inside);
        } else {
            code::block(name, events, &mut self.flow);
        }
        used
    }

    fn our_block(&mut self, name: &str, range: &Range<usize>, inside: Range<usize>) {
        self.flow.end_explanation();
        let is_shown = name == blocks::SHOWN;
        let Flow { checking, page, sources, .. } = &mut self.flow;
        let text = checking.text;
        if text.mode != Mode::Lesson || sources.depth() > 0 || is_shown && self.showing.open {
            let fault = text.fault(Code::BlockNotHere, &text.first_line(range));
            checking.tell(fault.with("name", name));
        } else if is_shown {
            self.shown(range, inside);
        } else if let Some(fault) = blocks::unclosed(range, &inside, checking) {
            checking.tell(fault);
        } else if let Some(block) = blocks::of_yaml(name, range, &inside, page, checking) {
            self.flow.cut();
            self.flow.page.blocks.push(block);
        }
    }

    /// A piece of lesson Markdown beside what it becomes. It is read like any other text of the lesson, with notes of its
    /// own; terms are linked in it as in a lesson that starts there.
    fn shown(&mut self, range: &Range<usize>, inside: Range<usize>) {
        let text = self.flow.checking.text;
        let source = text.body()[inside.clone()].replace('\r', "");
        if source.trim().is_empty() {
            let fault = text.fault(Code::TextEmpty, &text.first_line(range));
            return self.flow.checking.tell(fault.with("key", blocks::SHOWN));
        }
        self.flow.cut();
        let before = take(&mut self.flow.page.blocks);
        let linked = self.flow.mentions.start_anew();
        self.showing = Showing { count: self.showing.count + 1, open: true };
        self.part(inside);
        self.flow.end_explanation();
        self.flow.cut();
        self.showing.open = false;
        self.flow.mentions.go_on(linked);
        let becomes = replace(&mut self.flow.page.blocks, before);
        self.flow.page.blocks.push(Block::Shown(Shown { file: None, source, becomes }));
    }

    /// `{steps: part}` alone in a paragraph of a recipe.
    fn steps(&mut self, text: &str, range: &Range<usize>) -> Option<usize> {
        let part = text.trim().strip_prefix("{steps:")?.strip_suffix('}')?.trim();
        let text = self.flow.checking.text;
        if text.mode != Mode::Recipe || !is_path(part) {
            return None;
        }
        let hole = self.flow.sections.hole(&format!("steps:{part}"), || text.place(range));
        self.flow.between(&format!("{hole}\n"));
        Some(3)
    }

    fn raw_html_block(&mut self, range: &Range<usize>) {
        self.in_raw_html = true;
        let checking = &mut self.flow.checking;
        let shown = range.start..range.start + checking.text.body()[range.clone()].trim_end().len();
        checking.refuse(Code::MarkdownRawHtml, &shown);
    }

    /// Each tag within a line is an event; a closing tag is only a fault where no opening one was.
    fn raw_html(&mut self, html: &str, range: &Range<usize>) {
        if !(html.starts_with("</") && self.flow.checking.has(Code::MarkdownRawHtml)) {
            self.flow.flush();
            self.flow.checking.refuse(Code::MarkdownRawHtml, range);
        }
    }

    /// Leaves out what nests deeper than anybody writes.
    fn too_deep(&mut self, rest: Events) -> usize {
        if !replace(&mut self.too_deep, true) {
            let at = rest[0].1.start;
            self.flow.checking.refuse(Code::MarkdownTooDeep, &(at..at));
        }
        rest.len()
    }
}
