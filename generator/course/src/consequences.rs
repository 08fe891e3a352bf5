//! What only follows from another fault of the course, and is held back so that the cause is told alone: an id that cannot
//! be one, a draw that cannot have its name, a block that does not end, a heading with a letter wrong.

use std::collections::{BTreeMap, BTreeSet};

use faults::{Code, nearest};

use crate::fault::{Fault, Place};
use crate::files::is_device_name;
use problems::template::is_name;

/// What names an id that a file gives.
const NAMES_AN_ID: [Code; 6] = [
    Code::LessonUnknown,
    Code::LessonNotInOrder,
    Code::ObjectiveUnknown,
    Code::TermUnknown,
    Code::RecipeUnknown,
    Code::CourseRepeatedLesson,
];

/// What names a draw.
const NAMES_A_DRAW: [Code; 3] = [Code::FormulaUnknownName, Code::RecipeUnknownHole, Code::RecipeDrawUnused];

/// What else the wrong kind of an answer, or of its unit, brings about in a part.
const OF_ANOTHER_KIND: [Code; 5] =
    [Code::RecipeRoundStep, Code::RecipeUsualRange, Code::RecipeWithin, Code::RecipeMistakeKind, Code::RecipeUnitKind];

/// Holds back what follows from other faults.
pub(crate) fn hold_back(faults: &mut Vec<Fault>, texts: &BTreeMap<String, String>) {
    better_ids(faults, texts);
    of_ids(faults);
    of_names(faults);
    of_blocks(faults, texts);
    of_headings(faults);
    of_kinds(faults);
    of_repeated_ids(faults);
    of_a_scenario(faults, texts);
    of_names_of_files(faults, texts);
}

/// A value of the scenario that is not used because its name has a letter wrong in the text, or because the text has the
/// number itself.
fn of_a_scenario(faults: &mut Vec<Fault>, texts: &BTreeMap<String, String>) {
    let mut used = BTreeSet::new();
    for unused in faults.iter().filter(|fault| fault.code == Code::ScenarioUnused) {
        let name = unused.raw("name").unwrap_or_default();
        let line = line_of(texts, &unused.place).unwrap_or_default();
        let value = line.split_once(':').map_or("", |(_, value)| value.trim().trim_matches('"'));
        let at = |fault: &&Fault| fault.place.file == unused.place.file;
        let meant = |fault: &Fault| match fault.code {
            Code::ScenarioUnknown => fault.raw("nearest") == Some(name),
            Code::NumberUnsourced => piece(texts, &fault.place) == Some(value),
            _ => false,
        };
        if faults.iter().filter(at).any(meant) {
            used.insert((unused.place.file.clone(), name.to_owned(), value.to_owned()));
        }
    }
    for (file, name, value) in &used {
        faults.retain(|fault| {
            !(fault.code == Code::ScenarioUnused && fault.place.file == *file && fault.raw("name") == Some(name))
        });
        let typed = |fault: &&mut Fault| fault.code == Code::NumberUnsourced && fault.place.file == *file;
        for fault in faults.iter_mut().filter(typed).filter(|fault| piece(texts, &fault.place) == Some(value)) {
            fault.values.push(("nearest", name.clone()));
        }
    }
}

fn piece<'t>(texts: &'t BTreeMap<String, String>, place: &Place) -> Option<&'t str> {
    texts.get(&place.file)?.get(place.span.clone())
}

/// A link to a file whose name does not work everywhere.
fn of_names_of_files(faults: &mut Vec<Fault>, texts: &BTreeMap<String, String>) {
    let bad = faults.iter().filter(|fault| fault.code == Code::CourseUnportableName);
    // The same is told of an address in a text, which need not be a file.
    let of_file = |fault: &Fault| fault.raw("name").filter(|name| fault.place.file.ends_with(name)).map(str::to_owned);
    let names: Vec<_> = bad.filter_map(of_file).collect();
    let names_one = |fault: &Fault| {
        let piece = piece(texts, &fault.place).unwrap_or_default();
        names.iter().any(|name| piece.contains(name.as_str()))
    };
    faults.retain(|fault| !(matches!(fault.code, Code::LinkBroken | Code::ImageMissing) && names_one(fault)));
}

/// Offers the name of its file for the id of a lesson, term or recipe that cannot be one.
fn better_ids(faults: &mut [Fault], texts: &BTreeMap<String, String>) {
    for fault in faults.iter_mut().filter(|fault| fault.code == Code::IdBadlyWritten) {
        let stem = fault.place.file.rsplit('/').next().and_then(|name| name.strip_suffix(".md"));
        let line = || line_of(texts, &fault.place).is_some_and(|line| line.starts_with("id:"));
        let Some(stem) = stem.filter(|stem| is_name(stem) && !is_device_name(stem) && line()).map(str::to_owned) else {
            continue;
        };
        fault.values.retain(|(name, _)| *name != "nearest");
        fault.values.push(("nearest", stem));
    }
}

fn line_of<'t>(texts: &'t BTreeMap<String, String>, place: &Place) -> Option<&'t str> {
    let text = texts.get(&place.file)?;
    let start = text.get(..place.span.start)?.rfind('\n').map_or(0, |at| at + 1);
    text[start..].lines().next()
}

/// What refers to an id that cannot be one, or would offer it.
fn of_ids(faults: &mut Vec<Fault>) {
    let bad = faults.iter().filter(|fault| fault.code == Code::IdBadlyWritten);
    let ids: BTreeSet<_> =
        bad.flat_map(|fault| [fault.raw("id"), fault.raw("nearest")]).flatten().map(str::to_owned).collect();
    let is_bad = |id: Option<&str>| id.is_some_and(|id| ids.contains(id));
    faults.retain(|fault| {
        !(NAMES_AN_ID.contains(&fault.code) && (is_bad(fault.raw("id")) || is_bad(fault.raw("nearest"))))
    });
}

/// Names that are not known where a draw or a part of the same recipe cannot have its name.
fn of_names(faults: &mut Vec<Fault>) {
    let files = files_with(faults, Code::RecipeName);
    faults.retain(|fault| !(NAMES_A_DRAW.contains(&fault.code) && files.contains(&fault.place.file)));
}

/// All that comes after a block that does not end, and what looks as if the text did not use it.
fn of_blocks(faults: &mut Vec<Fault>, texts: &BTreeMap<String, String>) {
    let open = faults.iter().filter(|fault| fault.code == Code::BlockUnclosed);
    let open: BTreeMap<_, _> = open.map(|fault| (fault.place.file.clone(), fault.place.span.start)).collect();
    faults.retain(|fault| {
        let own = open.get(&fault.place.file);
        let follows = own.is_some_and(|at| fault.place.span.start > *at || fault.code == Code::ScenarioUnused);
        // A link within a text leads to a heading of that text; any other may lead to one that an open block took in.
        let is_within = piece(texts, &fault.place).is_some_and(|piece| piece.starts_with('#'));
        let links_there = fault.code == Code::LinkAnchorUnknown && (own.is_some() || !open.is_empty() && !is_within);
        !(follows || links_there) || fault.code == Code::BlockUnclosed && own == Some(&fault.place.span.start)
    });
    debug_assert!(open.keys().all(|file| texts.contains_key(file)), "a block is in a text");
}

/// A section that is missing where another one in the recipe nearly has its name, and the other way round.
fn of_headings(faults: &mut Vec<Fault>) {
    let nearly = |fault: &&Fault| fault.raw("nearest").is_some_and(|near| near == "Question");
    let misnamed = faults.iter().filter(|fault| fault.code == Code::RecipeUnknownSection).filter(nearly);
    let loose = faults.iter().filter(|fault| fault.code == Code::RecipeTextBeforeSection);
    let asked: BTreeSet<_> = misnamed.chain(loose).map(|fault| fault.place.file.clone()).collect();
    faults.retain(|fault| !(fault.code == Code::RecipeNoQuestion && asked.contains(&fault.place.file)));
    for file in files_with(faults, Code::RecipeStrayMistake) {
        of_a_mistake(faults, &file);
    }
}

/// Of one mistake without its section and one section without its mistake, tells only the section, which has the name wrong.
fn of_a_mistake(faults: &mut Vec<Fault>, file: &str) {
    let found = |code: Code, faults: &[Fault]| {
        let own = faults.iter().filter(|fault| fault.code == code && fault.place.file == file);
        own.filter_map(|fault| fault.raw("found")).map(str::to_owned).collect::<Vec<_>>()
    };
    let (stray, bare) = (found(Code::RecipeStrayMistake, faults), found(Code::RecipeMistakeUnexplained, faults));
    let [bare] = bare.as_slice() else { return };
    let Some(meant) = nearest(bare, stray.iter().map(String::as_str)).or(stray.first().map(String::as_str)) else {
        return;
    };
    faults.retain(|fault| !(fault.code == Code::RecipeMistakeUnexplained && fault.place.file == file));
    let section = |fault: &&mut Fault| {
        fault.code == Code::RecipeStrayMistake && fault.place.file == file && fault.raw("found") == Some(meant)
    };
    if let Some(section) = faults.iter_mut().find(section) {
        section.values.push(("nearest", bare.clone()));
    }
}

/// In one recipe, what else does not fit where the unit of an answer does not.
fn of_kinds(faults: &mut Vec<Fault>) {
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    for fault in faults.iter().filter(|fault| fault.code == Code::RecipeUnitKind) {
        let at = first.entry(fault.place.file.clone()).or_insert(usize::MAX);
        *at = fault.place.span.start.min(*at);
    }
    faults.retain(|fault| {
        let cause = first.get(&fault.place.file);
        !(OF_ANOTHER_KIND.contains(&fault.code) && cause.is_some_and(|at| *at != fault.place.span.start))
    });
}

/// Ids that are not known where a file gives an id that another one has.
fn of_repeated_ids(faults: &mut Vec<Fault>) {
    let files = files_with(faults, Code::CourseRepeatedId);
    let (lessons, recipes) = (has(&files, "/lessons/"), has(&files, "/recipes/"));
    faults.retain(|fault| {
        !(lessons && matches!(fault.code, Code::ObjectiveUnknown | Code::LessonUnknown)
            || recipes && fault.code == Code::RecipeUnknown)
    });
}

fn has(files: &BTreeSet<String>, folder: &str) -> bool {
    files.iter().any(|file| file.contains(folder))
}

fn files_with(faults: &[Fault], code: Code) -> BTreeSet<String> {
    faults.iter().filter(|fault| fault.code == code).map(|fault| fault.place.file.clone()).collect()
}
