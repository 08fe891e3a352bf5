//! `file` blocks: a whole file of the course beside what it becomes.

use faults::Code;

use super::checking::Checking;
use super::inside::Inside;
use super::references::Whole;
use crate::course::{Block, Practice, Shown};
use crate::fault::Fault;
use crate::files::Sort;

/// What can be shown, by its key, with the code for an id that is not known.
const SORTS: [(&str, Sort, Code); 3] = [
    ("recipe", Sort::Recipe, Code::RecipeUnknown),
    ("term", Sort::Term, Code::TermUnknown),
    ("lesson", Sort::Lesson, Code::LessonUnknown),
];

/// Reads a `file` block.
pub(super) fn block(inside: &Inside, checking: &mut Checking) -> Option<Block> {
    inside.refuse_others(&SORTS.map(|(name, ..)| name), checking.faults);
    let named: Vec<_> = SORTS.iter().filter_map(|sort| Some((sort, inside.get(sort.0)?))).collect();
    let [((key, sort, unknown), id)] = named.as_slice() else {
        checking.tell(Fault::at(Code::BlockFileNamesOne, inside.yaml.place(&[])));
        return None;
    };
    let files = checking.references.files.iter().filter(|file| file.sort == *sort);
    let Some(file) = files.clone().find(|file| file.id == *id) else {
        checking.tell(inside.unknown_id(*unknown, key, id, files.map(|file| file.id)));
        return None;
    };
    let becomes = vec![becomes(file)];
    Some(Block::Shown(Shown { file: Some(file.file.to_owned()), source: file.text.replace('\r', ""), becomes }))
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
