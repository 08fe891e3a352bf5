//! A YAML text in a file, and where its keys and values are.

use std::ops::Range;
use std::sync::{Arc, OnceLock};

use super::tree::{self, NoTree, Node, Step};
use crate::fault::Place;

/// A YAML text inside a file.
#[derive(Debug)]
pub(crate) struct Yaml<'a> {
    file: &'a str,
    pub(super) text: &'a str,
    /// Where the text starts in the file.
    pub(super) base: usize,
    tree: Tree,
}

/// The tree of a YAML text, once somebody has looked at it.
pub(crate) type Tree = Arc<OnceLock<Result<Node, NoTree>>>;

impl<'a> Yaml<'a> {
    /// The text that starts at byte `base` of a file.
    pub(crate) fn new(file: &'a str, text: &'a str, base: usize) -> Self {
        Self::known(file, text, base, Tree::default())
    }

    /// The same for a text whose tree may be known.
    pub(crate) fn known(file: &'a str, text: &'a str, base: usize, tree: Tree) -> Self {
        Self { file, text, base, tree }
    }

    /// The tree, to be kept beside the text.
    pub(crate) fn kept_tree(&self) -> Tree {
        self.tree.clone()
    }

    /// The tree of the text, where it has one.
    pub(crate) fn tree(&self) -> Option<&Node> {
        self.built().as_ref().ok()
    }

    pub(super) fn built(&self) -> &Result<Node, NoTree> {
        self.tree.get_or_init(|| tree::read(self.text))
    }

    /// Bytes of the text as a place in the file.
    pub(crate) fn place_of(&self, range: Range<usize>) -> Place {
        Place::new(self.file, self.base + range.start..self.base + range.end)
    }

    /// The place of a value, or of the nearest value on its path.
    pub(crate) fn place(&self, path: &[Step]) -> Place {
        let range = self.tree().map_or(0..0, |root| {
            let nearest = root.nearest(path);
            if nearest.entries().is_empty() { nearest.span() } else { self.heading(root, path) }
        });
        self.place_of(range)
    }

    /// The place of a mapping: the key that holds it, or its own first key.
    fn heading(&self, root: &Node, path: &[Step]) -> Range<usize> {
        let nearest = root.nearest(path);
        let holder = path.iter().scan(root, |node, step| {
            let here = *node;
            *node = here.find(std::slice::from_ref(step))?;
            Some((here, *node))
        });
        let held_by = holder.filter(|(_, held)| std::ptr::eq(*held, nearest)).last().map(|(here, _)| here);
        let key = held_by.and_then(|here| here.entries().iter().find(|(_, value)| std::ptr::eq(value, nearest)));
        key.or(nearest.entries().first()).map_or_else(|| nearest.span(), |(key, _)| key.span.clone())
    }

    /// The place of a value that is known to be in the text. A value that occurs once needs no tree.
    pub(crate) fn place_of_value(&self, path: &[Step], value: &str) -> Place {
        let mut found = self.text.match_indices(value);
        match (found.next(), found.next()) {
            (Some((at, _)), None) if !value.is_empty() => self.place_of(at..at + value.len()),
            _ => self.place(path),
        }
    }

    /// The place of a key.
    pub(crate) fn key_place(&self, path: &[Step], key: &str) -> Place {
        let map = self.tree().and_then(|root| root.find(path));
        let entry = map.and_then(|map| map.entries().iter().find(|(known, _)| known.text == key));
        entry.map_or_else(|| self.place(path), |(key, _)| self.place_of(key.span.clone()))
    }

    /// The place of bytes inside the text of a scalar. Where the text is not written as it reads (escapes, folded lines),
    /// it is the whole scalar.
    pub(crate) fn place_in(&self, path: &[Step], inner: Range<usize>) -> Place {
        let scalar = self.tree().and_then(|root| root.find(path));
        let found = scalar.and_then(|node| {
            let text = node.text()?;
            let start = node.span().start + self.text[node.span()].find(text)?;
            (inner.start <= inner.end && inner.end <= text.len()).then(|| start + inner.start..start + inner.end)
        });
        found.map_or_else(|| self.place(path), |range| self.place_of(range))
    }
}

/// A step to the value of a key.
pub(crate) fn key(key: &str) -> Step {
    Step::Key(key.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_bytes_of_the_file() {
        let source = "---\nid: a\nask: { answer: \"bore(x: 1 in)\", label: 'it''s' }\n---\n";
        let yaml = Yaml::new("f.md", &source[4..source.len() - 4], 4);
        let text = |place: Place| &source[place.span];
        assert_eq!(text(yaml.place(&[key("id")])), "a");
        assert_eq!(text(yaml.key_place(&[key("ask")], "answer")), "answer");
        assert_eq!(text(yaml.place_in(&[key("ask"), key("answer")], 8..12)), "1 in");
        assert_eq!(text(yaml.place_in(&[key("ask"), key("label")], 0..2)), "'it''s'");
        assert_eq!(text(yaml.place(&[key("ask"), key("unit")])), "ask");
        assert_eq!(text(yaml.place(&[key("draw")])), "id");
    }
}
