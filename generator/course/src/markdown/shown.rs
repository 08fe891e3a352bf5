//! Source beside what it becomes: a piece of lesson Markdown, or a whole file of the course.

use std::ops::Range;

use faults::Code;

use super::Whole;
use super::blocks::Inside;
use super::writer::Writer;
use crate::course::{Block, Practice, Shown};
use crate::fault::Fault;
use crate::files::Sort;

/// What a `file` block can name, by its key, with the code for an id that is not known.
const SORTS: [(&str, Sort, Code); 3] = [
    ("recipe", Sort::Recipe, Code::RecipeUnknown),
    ("term", Sort::Term, Code::TermUnknown),
    ("lesson", Sort::Lesson, Code::LessonUnknown),
];

/// Where in shown source the walk is. Notes of a piece are its own.
#[derive(Debug, Default)]
pub(super) struct Showing {
    count: usize,
    open: bool,
}

impl Showing {
    /// Whether the walk is in a shown piece.
    pub(super) fn is_open(&self) -> bool {
        self.open
    }

    /// The number of the piece that the walk is in, from one; 0 outside.
    pub(super) fn number(&self) -> usize {
        if self.open { self.count } else { 0 }
    }
}

impl Writer<'_, '_> {
    /// A piece of lesson Markdown, read like any other text of the lesson. Terms are linked in it as in a lesson that
    /// starts there.
    pub(super) fn shown_block(&mut self, first_line: &Range<usize>, inside: Range<usize>) {
        let source = self.text.body()[inside.clone()].replace('\r', "");
        if source.trim().is_empty() {
            self.fault(Code::TextEmpty, first_line).values.push(("key", "shown".to_owned()));
            return;
        }
        self.cut();
        let before = std::mem::take(&mut self.page.blocks);
        let unlinked = vec![false; self.linked.len()];
        let linked = std::mem::replace(&mut self.linked, unlinked);
        self.shown = Showing { count: self.shown.count + 1, open: true };
        self.take_all(inside);
        self.unexplained();
        self.cut();
        self.shown.open = false;
        self.linked = linked;
        let becomes = std::mem::replace(&mut self.page.blocks, before);
        self.page.blocks.push(Block::Shown(Shown { file: None, source, becomes }));
    }

    /// A file of the course by its id.
    pub(super) fn file_block(&mut self, inside: &Inside) -> Option<Block> {
        let names = || SORTS.iter().map(|(name, ..)| *name);
        for (name, _) in inside.others(&["recipe", "term", "lesson"]) {
            self.faults.push(inside.at_key(Code::YamlUnknownKey, name).with("key", name).near(name, names()));
        }
        let named: Vec<_> = SORTS.iter().filter_map(|sort| Some((sort, inside.get(sort.0)?))).collect();
        let [((key, sort, unknown), id)] = named.as_slice() else {
            self.faults.push(Fault::at(Code::BlockFileNamesOne, inside.yaml.place(&[])));
            return None;
        };
        let files = self.shelf.files.iter().filter(|file| file.sort == *sort);
        let Some(file) = files.clone().find(|file| file.id == *id) else {
            let known = files.map(|file| file.id);
            self.faults.push(inside.at_value(*unknown, key).with("id", id).near(id, known));
            return None;
        };
        let becomes = vec![becomes(file)];
        Some(Block::Shown(Shown { file: Some(file.file.to_owned()), source: file.text.replace('\r', ""), becomes }))
    }
}

/// What a file becomes in a page.
fn becomes(file: &Whole) -> Block {
    let id = file.id.to_owned();
    match file.sort {
        Sort::Recipe => Block::Practice(Practice { recipe: id }),
        Sort::Term => Block::Term(id),
        _ => Block::Head(id),
    }
}
