//! The shape of a YAML text with the place of every key and value, for faults that the typed reading cannot place.

use std::borrow::Cow;
use std::ops::Range;

use saphyr_parser::{Event, Parser, ScalarStyle, ScanError, Span, StrInput};

/// The deepest that a file may nest; none of the formats comes near.
const MOST_DEPTH: usize = 24;

/// A value with its place: bytes of the YAML text.
#[derive(Debug)]
pub(crate) enum Node {
    /// A text, number or the like, as written.
    Scalar { text: String, plain: bool, span: Range<usize> },
    /// A list.
    List { items: Vec<Node>, span: Range<usize> },
    /// A mapping, with every key in the order of the text, repeated ones too.
    Map { entries: Vec<(Key, Node)>, span: Range<usize> },
}

/// A key of a mapping.
#[derive(Debug)]
pub(crate) struct Key {
    /// As written, without quotes.
    pub(crate) text: String,
    /// Its place.
    pub(crate) span: Range<usize>,
}

/// A step from a value into one that it holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Step {
    /// The value of a key.
    Key(String),
    /// An item, from zero.
    Index(usize),
}

/// Why the tree is missing.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum NoTree {
    /// It is not YAML, from this byte on.
    Syntax { at: usize, detail: String },
    /// It nests too deep.
    TooDeep { at: usize },
    /// It uses an anchor, an alias or a tag.
    Extra { span: Range<usize> },
    /// There is nothing in it.
    Empty,
}

impl Node {
    /// The bytes of the value, quotes included.
    pub(crate) fn span(&self) -> Range<usize> {
        match self {
            Self::Scalar { span, .. } | Self::List { span, .. } | Self::Map { span, .. } => span.clone(),
        }
    }

    /// The entries of a mapping; none of anything else.
    pub(crate) fn entries(&self) -> &[(Key, Node)] {
        match self {
            Self::Map { entries, .. } => entries,
            _ => &[],
        }
    }

    /// How many items a list has; none of anything else.
    pub(crate) fn len(&self) -> usize {
        match self {
            Self::List { items, .. } => items.len(),
            _ => 0,
        }
    }

    /// The text of a scalar.
    pub(crate) fn text(&self) -> Option<&str> {
        match self {
            Self::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// The value of a key.
    pub(crate) fn get(&self, key: &str) -> Option<&Node> {
        self.entries().iter().find(|(known, _)| known.text == key).map(|(_, value)| value)
    }

    /// The value at the end of a path.
    pub(crate) fn find(&self, path: &[Step]) -> Option<&Node> {
        path.iter().try_fold(self, |node, step| node.step(step))
    }

    /// The value nearest to the end of a path.
    pub(crate) fn nearest(&self, path: &[Step]) -> &Node {
        path.iter().try_fold(self, |node, step| node.step(step).ok_or(node)).unwrap_or_else(|nearest| nearest)
    }

    fn step(&self, step: &Step) -> Option<&Node> {
        match (self, step) {
            (Self::List { items, .. }, Step::Index(index)) => items.get(*index),
            (_, Step::Key(key)) => self.get(key),
            _ => None,
        }
    }

    /// The innermost value with these bytes; this one where there is none.
    pub(crate) fn at(&self, span: &Range<usize>) -> &Node {
        let mut found = self;
        self.walk(&mut |node| {
            if node.span() == *span {
                found = node;
            }
        });
        found
    }

    /// Every value, each before those that it holds.
    pub(crate) fn walk<'a>(&'a self, visit: &mut impl FnMut(&'a Node)) {
        visit(self);
        match self {
            Self::Scalar { .. } => (),
            Self::List { items, .. } => items.iter().for_each(|item| item.walk(visit)),
            Self::Map { entries, .. } => entries.iter().for_each(|(_, value)| value.walk(visit)),
        }
    }
}

/// Reads a text.
pub(crate) fn read(text: &str) -> Result<Node, NoTree> {
    let mut reader = Reader { parser: Parser::new_from_str(text), bytes: Bytes::new(text), text };
    let root = reader.document()?.ok_or(NoTree::Empty)?;
    Ok(root)
}

struct Reader<'a> {
    parser: Parser<'a, StrInput<'a>>,
    bytes: Bytes,
    text: &'a str,
}

impl<'a> Reader<'a> {
    /// The one document of the text.
    fn document(&mut self) -> Result<Option<Node>, NoTree> {
        loop {
            match self.next()? {
                (Event::StreamStart | Event::DocumentStart(_), _) => (),
                (Event::StreamEnd | Event::DocumentEnd, _) => return Ok(None),
                (event, span) => return self.node(event, span, 0).map(Some),
            }
        }
    }

    fn next(&mut self) -> Result<(Event<'a>, Range<usize>), NoTree> {
        match self.parser.next_event() {
            Some(Ok((event, span))) => Ok((event, self.bytes.range(span))),
            Some(Err(error)) => Err(self.syntax(&error)),
            None => Err(NoTree::Empty),
        }
    }

    fn syntax(&self, error: &ScanError) -> NoTree {
        NoTree::Syntax { at: self.bytes.at(error.marker().index()), detail: error.info().to_owned() }
    }

    /// The node that starts with an event. The depth is bounded, so the stack is too.
    fn node(&mut self, event: Event<'a>, span: Range<usize>, depth: usize) -> Result<Node, NoTree> {
        if depth > MOST_DEPTH {
            return Err(NoTree::TooDeep { at: span.start });
        }
        match event {
            Event::Scalar(text, style, 0, None) => Ok(self.scalar(text, style, span)),
            Event::SequenceStart(0, None) => self.list(span.start, depth),
            Event::MappingStart(0, None) => self.map(span.start, depth),
            _ => Err(NoTree::Extra { span }),
        }
    }

    fn scalar(&self, text: Cow<'a, str>, style: ScalarStyle, span: Range<usize>) -> Node {
        let raw = &self.text[span.clone()];
        let end = span.start + raw.trim_end().len();
        Node::Scalar { text: text.into_owned(), plain: style == ScalarStyle::Plain, span: span.start..end }
    }

    fn list(&mut self, start: usize, depth: usize) -> Result<Node, NoTree> {
        let mut items = Vec::new();
        loop {
            match self.next()? {
                (Event::SequenceEnd, span) => {
                    return Ok(Node::List { items, span: start..self.trimmed(start, span.end) });
                }
                (event, span) => items.push(self.node(event, span, depth + 1)?),
            }
        }
    }

    fn map(&mut self, start: usize, depth: usize) -> Result<Node, NoTree> {
        let mut entries = Vec::new();
        loop {
            match self.next()? {
                (Event::MappingEnd, span) => {
                    return Ok(Node::Map { entries, span: start..self.trimmed(start, span.end) });
                }
                (event, span) => {
                    let key = self.node(event, span, depth + 1)?;
                    let (event, span) = self.next()?;
                    let value = self.node(event, span, depth + 1)?;
                    let key = Key { text: key.text().unwrap_or_default().to_owned(), span: key.span() };
                    entries.push((key, value));
                }
            }
        }
    }

    /// A block ends where the next begins; what counts is its last letter.
    fn trimmed(&self, start: usize, end: usize) -> usize {
        start + self.text.get(start..end).map_or(0, |text| text.trim_end().len())
    }
}

/// Bytes of a text by characters, in which the parser counts.
struct Bytes {
    length: usize,
    /// Left out where every character is one byte.
    offsets: Option<Vec<usize>>,
}

impl Bytes {
    fn new(text: &str) -> Self {
        let offsets = (!text.is_ascii()).then(|| text.char_indices().map(|(at, _)| at).collect());
        Self { length: text.len(), offsets }
    }

    fn at(&self, character: usize) -> usize {
        match &self.offsets {
            None => character.min(self.length),
            Some(offsets) => offsets.get(character).copied().unwrap_or(self.length),
        }
    }

    fn range(&self, span: Span) -> Range<usize> {
        let start = self.at(span.start.index());
        start..self.at(span.end.index()).max(start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(key: &str) -> Step {
        Step::Key(key.to_owned())
    }

    fn at<'a>(text: &'a str, path: &[Step]) -> &'a str {
        &text[read(text).expect("a tree").find(path).expect("the path").span()]
    }

    #[test]
    fn places_are_bytes_of_the_text_also_after_long_letters_and_with_carriage_returns() {
        let text = "title: \"Größe – ½\"\r\nask:\r\n  - id: rate # note\r\n    unit: { us: lbf/in, si: 'N/mm' }\r\n";
        assert_eq!(at(text, &[key("title")]), "\"Größe – ½\"");
        assert_eq!(at(text, &[key("ask"), Step::Index(0), key("id")]), "rate");
        assert_eq!(at(text, &[key("ask"), Step::Index(0), key("unit"), key("si")]), "'N/mm'");
        assert_eq!(at(text, &[key("ask"), Step::Index(0), key("unit")]), "{ us: lbf/in, si: 'N/mm' }");
    }

    #[test]
    fn the_nearest_value_stands_for_one_that_is_missing() {
        let text = "a: { b: 1 }";
        let root = read(text).expect("a tree");
        assert_eq!(&text[root.nearest(&[key("a"), key("c"), Step::Index(3)]).span()], "{ b: 1 }");
    }

    #[test]
    fn repeated_keys_are_kept() {
        assert_eq!(read("a: 1\na: 2\n").expect("a tree").entries().len(), 2);
    }

    #[test]
    fn what_is_no_plain_tree_is_refused() {
        assert_eq!(read("").err(), Some(NoTree::Empty));
        assert_eq!(read("# only a comment\n").err(), Some(NoTree::Empty));
        assert!(matches!(read("a: &x 1\nb: *x\n").err(), Some(NoTree::Extra { .. })));
        assert!(matches!(read(&"[".repeat(10_000)).err(), Some(NoTree::TooDeep { .. } | NoTree::Syntax { .. })));
        assert!(matches!(read(&"- ".repeat(10_000)).err(), Some(NoTree::TooDeep { .. } | NoTree::Syntax { .. })));
        assert!(matches!(read("answer: f(a: b)").err(), Some(NoTree::Syntax { .. })));
    }
}
