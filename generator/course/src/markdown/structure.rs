//! Events that only mean something together: headings, signal panels, code and the blocks of ours, pictures, the steps of
//! a recipe.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Tag, TagEnd};

use super::writer::{Open, Writer};
use super::{Events, MARKS, Mode, SIGNALS};
use crate::course::Heading;
use crate::fault::Fault;
use problems::template::{escape, is_path};

impl<'a> Writer<'_, 'a> {
    /// Takes the events that the rest starts with, where they belong together; says how many.
    pub(super) fn take_several(&mut self, rest: Events<'_, 'a>) -> Option<usize> {
        match rest {
            [(Event::Start(Tag::CodeBlock(kind)), range), ..] => Some(self.code(kind, range, rest)),
            [(Event::Start(Tag::Heading { level, .. }), range), ..] => self.heading(*level, range, rest),
            [(Event::Start(Tag::Image { .. }), _), ..] => Some(self.image(rest)),
            [(Event::Start(Tag::Link { .. }), range), (Event::End(TagEnd::Link), _), ..] => {
                self.fault(Code::LinkWithoutText, range);
                Some(2)
            }
            [
                (Event::Start(Tag::BlockQuote(_)), _),
                (Event::Start(Tag::Paragraph), _),
                (Event::Start(Tag::Strong), _),
                ..,
            ] => self.signal(rest),
            [(Event::Start(Tag::BlockQuote(_)), _), (Event::Start(Tag::Paragraph), _), ..] => {
                self.plain_signal(rest);
                None
            }
            [(Event::Start(Tag::Paragraph), _), (Event::Text(text), range), (Event::End(TagEnd::Paragraph), _), ..]
                if text.starts_with("{steps") =>
            {
                self.steps(text, range)
            }
            [(Event::Start(Tag::Paragraph), range), ..] => {
                self.lookalikes(range);
                None
            }
            _ => None,
        }
    }

    /// A block of code, which may be one of ours.
    fn code(&mut self, kind: &CodeBlockKind<'a>, range: &Range<usize>, rest: Events<'_, 'a>) -> usize {
        let end = rest.iter().position(|(event, _)| matches!(event, Event::End(TagEnd::CodeBlock)));
        let used = end.map_or(rest.len(), |end| end + 1);
        self.flush_run();
        self.settle();
        let name = match kind {
            CodeBlockKind::Fenced(info) => info.split_whitespace().next().unwrap_or_default(),
            CodeBlockKind::Indented => "",
        };
        let inside = rest[1..used - 1].iter().map(|(_, range)| range.clone());
        let inside = inside.reduce(|one, other| one.start..other.end).unwrap_or_else(|| {
            // Nothing stands inside: the place is the line behind the first.
            let first = self.text.body()[range.clone()].find('\n').map_or(range.end, |length| range.start + length + 1);
            first..first
        });
        if !self.our_block(name, range, inside) {
            let class = if name.is_empty() { String::new() } else { format!(" class=\"language-{}\"", escape(name)) };
            self.block(&format!("<pre><code{class}>"));
            for (event, _) in &rest[..used] {
                if let Event::Text(text) = event {
                    self.write_text(text);
                }
            }
            self.block("</code></pre>\n");
        }
        used
    }

    fn heading(&mut self, level: HeadingLevel, range: &Range<usize>, rest: Events<'_, 'a>) -> Option<usize> {
        self.flush_run();
        let end = rest
            .iter()
            .position(|(event, _)| matches!(event, Event::End(TagEnd::Heading(_))))
            .unwrap_or(rest.len() - 1);
        let text: String = rest[..end].iter().filter_map(|(event, _)| plain(event)).collect();
        let shown = range.start..range.start + self.text.body()[range.clone()].trim_end().len();
        match self.text.mode {
            Mode::Lesson => {
                self.unexplained();
                self.lesson_heading(level, text, &shown);
                return None;
            }
            Mode::Recipe if level == HeadingLevel::H2 => {
                self.end_section();
                self.section = Some((text, self.text.place(&shown)));
            }
            _ => {
                self.fault(Code::HeadingNotHere, &shown);
            }
        }
        Some(end + 1)
    }

    /// Notes a heading of a lesson and writes its start; its words follow.
    fn lesson_heading(&mut self, level: HeadingLevel, text: String, range: &Range<usize>) {
        let level = level as u8;
        let before = self.page.headings.last().map_or(1, |heading| heading.level);
        if level == 1 {
            self.fault(Code::HeadingOfFirstLevel, range);
        } else if level > before + 1 {
            let marks = "#".repeat(usize::from(before) + 1);
            self.fault(Code::HeadingSkipsLevel, range).values.push(("marks", marks));
        }
        let anchor = self.anchor(&slug(&text));
        self.page.headings.push(Heading { level, anchor, text });
    }

    /// An id of the page that no other part has.
    pub(super) fn anchor(&mut self, wanted: &str) -> String {
        let numbered = |number: usize| if number == 1 { wanted.to_owned() } else { format!("{wanted}-{number}") };
        let free = (1..).map(numbered).find(|anchor| !self.anchors.contains(anchor)).unwrap_or_default();
        self.anchors.insert(free.clone());
        free
    }

    /// A quotation that starts with a bold word in capitals: a signal panel.
    fn signal(&mut self, rest: Events<'_, 'a>) -> Option<usize> {
        let [_, _, _, (Event::Text(word), range), (Event::End(TagEnd::Strong), _), after @ ..] = rest else {
            return None;
        };
        let wanted = word.trim().trim_end_matches([':', '!', '.']).to_uppercase();
        if !in_capitals(word) && !SIGNALS.contains(&wanted.as_str()) {
            return None;
        }
        self.flush_run();
        let Some(kind) = SIGNALS.iter().position(|known| *known == word.trim()) else {
            let fault = Fault::at(Code::SignalWordUnknown, self.text.place(range)).with("word", word);
            self.faults.push(fault.near(&wanted, SIGNALS));
            return None;
        };
        let (class, shown) = (SIGNALS[kind].to_lowercase(), escape(&self.shelf.signals[kind]));
        self.block(&format!(
            "<aside class=\"signal signal-{class}\" role=\"note\"><p class=\"signal-word\">{shown}</p><div class=\"signal-text\">\n"
        ));
        self.enter(Open::Signal, &rest[0].1);
        match after {
            [(Event::End(TagEnd::Paragraph), _), (Event::End(TagEnd::BlockQuote(_)), _), ..] => {
                self.fault(Code::SignalWithoutText, range);
                Some(6)
            }
            [(Event::End(TagEnd::Paragraph), _), ..] => Some(6),
            _ => {
                self.enter(Open::Paragraph, &rest[1].1);
                self.paragraph_due = true;
                // A colon behind the word goes with it: the panel has the word on a line of its own.
                let [(Event::Text(text), range), ..] = after else { return Some(5) };
                let Some(text) = text.strip_prefix(':') else { return Some(5) };
                self.run.push(text.trim_start(), &(range.end - text.trim_start().len()..range.end));
                Some(6)
            }
        }
    }

    /// `{steps: part}` alone in a paragraph of a recipe.
    fn steps(&mut self, text: &str, range: &Range<usize>) -> Option<usize> {
        let part = text.trim().strip_prefix("{steps:")?.strip_suffix('}')?.trim();
        if self.text.mode != Mode::Recipe || !is_path(part) {
            return None;
        }
        let hole = format!("steps:{part}");
        self.holes.entry(hole.clone()).or_insert_with(|| self.text.place(range));
        self.block(&format!("{}{hole}{}\n", MARKS[0], MARKS[1]));
        Some(3)
    }
}

/// What an event adds to the plain words of a heading.
fn plain<'e>(event: &'e Event) -> Option<&'e str> {
    match event {
        Event::Text(text) | Event::Code(text) | Event::InlineMath(text) => Some(text),
        Event::SoftBreak | Event::HardBreak => Some(" "),
        _ => None,
    }
}

pub(super) fn in_capitals(word: &str) -> bool {
    word.chars().filter(|next| next.is_uppercase()).count() >= 3 && !word.contains(char::is_lowercase)
}

/// The words of a heading as an id: lower case, with hyphens.
fn slug(text: &str) -> String {
    let words = text.split(|next: char| !next.is_alphanumeric()).filter(|word| !word.is_empty());
    let slug = words.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    if slug.is_empty() { "section".to_owned() } else { slug }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn anchors_are_words_with_hyphens() {
        assert_eq!(slug("Worked example: RV-12"), "worked-example-rv-12");
        assert_eq!(slug("¿?"), "section");
    }

    #[test]
    fn signal_words_are_in_capitals() {
        assert!(in_capitals("WARNING") && in_capitals("IMPORTANT!"));
        assert!(!in_capitals("Warning") && !in_capitals("No"));
    }
}
