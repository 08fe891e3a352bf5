//! Headings of a lesson, and the anchors by which they are linked to.

use std::collections::BTreeSet;
use std::ops::Range;

use faults::Code;
use pulldown_cmark::{Event, HeadingLevel};

use super::events::Events;
use super::flow::Flow;
use crate::course::Heading;

/// Ids that the page around a text has.
const OF_THE_PAGE: [&str; 2] = ["main", "objectives"];

/// The ids of a page.
pub(super) struct Anchors(BTreeSet<String>);

impl Anchors {
    /// Those that every page has.
    pub(super) fn new() -> Self {
        Self(OF_THE_PAGE.map(str::to_owned).into())
    }

    /// An id of the page that no other part has.
    fn free(&mut self, wanted: &str) -> String {
        let numbered = |number: usize| if number == 1 { wanted.to_owned() } else { format!("{wanted}-{number}") };
        let free = (1..).map(numbered).find(|anchor| !self.0.contains(anchor)).unwrap_or_default();
        self.0.insert(free.clone());
        free
    }

    /// Notes a heading of a lesson; its words are still to be written.
    pub(super) fn heading(&mut self, level: HeadingLevel, text: String, range: &Range<usize>, flow: &mut Flow) {
        let level = level as u8;
        let before = flow.page.headings.last().map_or(1, |heading| heading.level);
        let checking = &mut flow.checking;
        if level == 1 {
            checking.tell(checking.text.fault(Code::HeadingOfFirstLevel, range).with("written", format!("## {text}")));
        } else if level > before + 1 {
            let marks = "#".repeat(usize::from(before) + 1);
            let fault = checking.text.fault(Code::HeadingSkipsLevel, range).with("written", format!("{marks} {text}"));
            checking.tell(fault);
        }
        let anchor = self.free(&slug(&text));
        flow.page.headings.push(Heading { level, anchor, text });
    }
}

/// Writes the start of the heading that was noted last.
pub(super) fn start(level: HeadingLevel, flow: &mut Flow) {
    let anchor = flow.page.headings.last().map_or("", |heading| &heading.anchor);
    flow.html.between(&format!("<{level} id=\"{anchor}\">"));
}

/// The plain words of a heading.
pub(super) fn words(events: Events) -> String {
    events.iter().filter_map(|(event, _)| word(event)).collect()
}

fn word<'e>(event: &'e Event) -> Option<&'e str> {
    match event {
        Event::Text(text) | Event::Code(text) | Event::InlineMath(text) => Some(text),
        Event::SoftBreak | Event::HardBreak => Some(" "),
        _ => None,
    }
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
    fn no_two_parts_of_a_page_have_the_same_id() {
        let mut anchors = Anchors::new();
        assert_eq!(["lift", "lift", "main"].map(|wanted| anchors.free(wanted)), ["lift", "lift-2", "main-2"]);
    }
}
