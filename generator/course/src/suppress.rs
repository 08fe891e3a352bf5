//! What only follows from a file that was not read, from front matter that could not be read, or from a file in the wrong
//! folder: told beside its cause, it would be mended in the wrong place.

use std::collections::{BTreeMap, BTreeSet};

use faults::Code;

use crate::consequences;
use crate::fault::{Fault, Place};

/// What is missing where a file was not read.
const FOLLOWING: [Code; 5] =
    [Code::LessonUnknown, Code::ObjectiveUnknown, Code::TermUnknown, Code::RecipeUnknown, Code::ImageMissing];

/// What is missing where front matter was not read: the names that it gives.
const NAMES_OF_FRONT_MATTER: [Code; 5] = [
    Code::ScenarioUnknown,
    Code::FormulaUnknownName,
    Code::WorkUnreadable,
    Code::RecipeUnknownHole,
    Code::RecipeUnknownSteps,
];

/// A key that only the files of one folder have.
const TELLING_KEYS: [(&str, &str); 4] =
    [("\nask:", "recipes"), ("\nterm:", "terms"), ("\nsummary:", "lessons"), ("\nareas:", "pictures")];

/// The files that were not read.
#[derive(Default)]
pub(crate) struct Unread {
    /// Whether some were passed over, for example in a folder with another name, so that their content is not known.
    pub(crate) passed_over: bool,
    /// Those whose text could not be read.
    pub(crate) files: Vec<String>,
}

/// Leaves out what may only follow from files that were not read. If it does not, it is told once all are read.
pub(crate) fn without_what_follows(faults: &mut Vec<Fault>, unread: &Unread, texts: &BTreeMap<String, String>) {
    let Unread { passed_over, files } = unread;
    faults.retain(|fault| !(FOLLOWING.contains(&fault.code) && (*passed_over || follows(fault, files))));
    let broken: BTreeSet<_> =
        faults.iter().filter(|fault| is_in_front(fault, texts)).map(|fault| fault.place.file.clone()).collect();
    faults.retain(|fault| !(NAMES_OF_FRONT_MATTER.contains(&fault.code) && broken.contains(&fault.place.file)));
    misplaced(faults, texts);
    consequences::hold_back(faults, texts);
}

/// The front matter of a text, with the line above its end.
fn front_matter(text: &str) -> &str {
    let start = text.find('\n').unwrap_or(text.len());
    let end = text[start..].find("\n---").map_or(text.len(), |length| start + length);
    &text[..end]
}

/// Whether a fault is one of the YAML at the head of a file.
fn is_in_front(fault: &Fault, texts: &BTreeMap<String, String>) -> bool {
    let front = || texts.get(&fault.place.file).map(|text| front_matter(text));
    fault.code.id().starts_with("yaml-") && front().is_some_and(|front| fault.place.span.start <= front.len())
}

/// Of a file in the wrong folder, keeps only the fault that says so.
fn misplaced(faults: &mut Vec<Fault>, texts: &BTreeMap<String, String>) {
    let files: BTreeSet<_> = faults.iter().map(|fault| fault.place.file.clone()).collect();
    for file in files {
        let Some(here) = file.split('/').nth(1) else { continue };
        let Some(front) = texts.get(&file).map(|text| front_matter(text)).filter(|front| front.starts_with("---"))
        else {
            continue;
        };
        let belongs = TELLING_KEYS.iter().filter(|(key, _)| front.contains(key)).map(|(_, folder)| *folder);
        let [folder] = belongs.collect::<Vec<_>>()[..] else { continue };
        if folder == here || !TELLING_KEYS.iter().any(|(_, known)| *known == here) {
            continue;
        }
        let id = file.rsplit('/').next().and_then(|name| name.strip_suffix(".md")).unwrap_or_default().to_owned();
        faults.retain(|fault| {
            let about = FOLLOWING.contains(&fault.code) && fault.raw("id") == Some(id.as_str());
            !about && fault.place.file != file
        });
        let fault = Fault::at(Code::CourseWrongFolder, Place::new(&file, 0..3));
        faults.push(fault.with("folder", folder).with("what", folder));
    }
}

/// Whether a fault names what an unread file has: its id, which its name most often is, or an objective.
fn follows(fault: &Fault, unread: &[String]) -> bool {
    let id = fault.values.iter().find(|(name, _)| *name == "id").map(|(_, id)| format!("/{id}.md"));
    match fault.code {
        Code::ObjectiveUnknown => unread.iter().any(|file| file.contains("/lessons/")),
        _ => id.is_some_and(|end| unread.iter().any(|file| file.ends_with(&end))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Place;

    #[test]
    fn what_follows_is_told_only_where_all_was_read() {
        let left = |codes: &[Code], passed_over: bool, files: &[&str]| {
            let fault = |code: &Code| Fault::at(*code, Place::whole("f")).with("id", "outlet");
            let mut faults: Vec<_> = codes.iter().map(fault).collect();
            let files = files.iter().map(|file| (*file).to_owned()).collect();
            without_what_follows(&mut faults, &Unread { passed_over, files }, &BTreeMap::new());
            faults.iter().map(|fault| fault.code).collect::<Vec<_>>()
        };
        let unknown = [Code::LessonUnknown, Code::ObjectiveUnknown];
        assert!(left(&unknown, false, &["en/lessons/outlet.md"]).is_empty());
        assert_eq!(left(&unknown, false, &["en/lessons/other.md"]), [Code::LessonUnknown]);
        assert_eq!(left(&unknown, false, &["en/terms/other.md"]), unknown);
        assert_eq!(
            left(&[Code::LessonUnknown, Code::CourseUnexpectedFolder], true, &[]),
            [Code::CourseUnexpectedFolder]
        );
    }
}
