//! The rules that hold within a front matter and between files.

use std::collections::{BTreeMap, BTreeSet};

use faults::Code;
use problems::DecimalMark;
use problems::forms::SaidText;
use problems::recipe::System;
use problems::recipe::raw::RawRecipe;

use crate::fault::{Fault, Place};
use crate::folder::Read;
use crate::ids;
use crate::look;
use crate::markdown::Page;
use crate::raw::{FORMAT, RawCourse, RawLesson, RawTerm};
use crate::yaml::{Step, Yaml, key};

/// Checks the fields of `course.yaml` that need no other file.
pub(crate) fn course(yaml: &Yaml, raw: &RawCourse, faults: &mut Vec<Fault>) {
    format(yaml, raw.format, faults);
    ids::written(&raw.course_id, || yaml.place(&[key("course_id")]), faults);
    for (name, text) in [("title", &raw.title), ("owner", &raw.owner), ("safety", &raw.safety)] {
        title(yaml, name, text, faults);
    }
    look::check(yaml, raw, faults);
    let at = |code, name: &str| Fault::at(code, yaml.place(&[key(name)]));
    if System::find(&raw.units).is_none() {
        faults.push(at(Code::CourseUnits, "units").with("found", &raw.units));
    }
    if DecimalMark::find(&raw.decimal_mark).is_none() {
        faults.push(at(Code::CourseDecimalMark, "decimal_mark").with("found", &raw.decimal_mark));
    }
    let is_language = |text: &String| text.len() == 2 && text.bytes().all(|byte| byte.is_ascii_lowercase());
    if !matches!(raw.languages.as_slice(), [language] if is_language(language)) {
        faults.push(at(Code::CourseLanguages, "languages").with("found", raw.languages.join(", ")));
    }
    if raw.lessons.is_empty() {
        faults.push(at(Code::CourseWithoutLessons, "lessons"));
    }
}

/// Checks that a file is of the format that is read here.
pub(crate) fn format(yaml: &Yaml, format: u32, faults: &mut Vec<Fault>) {
    if format != FORMAT {
        let fault = Fault::at(Code::FormatUnknown, yaml.place(&[key("format")]));
        faults.push(fault.with("found", format).with("known", FORMAT));
    }
}

/// Checks that a text says something.
pub(crate) fn title(yaml: &Yaml, name: &str, text: &str, faults: &mut Vec<Fault>) {
    said(yaml, &[], name, text, faults);
}

/// The same for a text further inside.
pub(crate) fn said(yaml: &Yaml, path: &[Step], name: &str, text: &str, faults: &mut Vec<Fault>) {
    if text.trim().is_empty() {
        faults.push(Fault::at(Code::TextEmpty, yaml.key_place(path, name)).with("key", name));
    }
}

/// Checks that the texts of a recipe that learners see say something.
pub(crate) fn recipe_texts(yaml: &Yaml, raw: &RawRecipe, faults: &mut Vec<Fault>) {
    title(yaml, "title", &raw.title, faults);
    for (index, ask) in raw.ask.iter().enumerate() {
        let asked = vec![key("ask"), Step::Index(index)];
        said(yaml, &asked, "label", &ask.label, faults);
        ask.texts().iter().for_each(|said| ask_text(yaml, &asked, said, faults));
    }
}

/// Checks a text of a part: one in a list is found by the list, and by its key where it has one.
fn ask_text(yaml: &Yaml, asked: &[Step], said: &SaidText, faults: &mut Vec<Fault>) {
    if !said.text.trim().is_empty() {
        return;
    }
    let listed = said.listed.into_iter().flat_map(|(list, place)| [key(list), Step::Index(place)]);
    let path: Vec<_> = asked.iter().cloned().chain(listed).collect();
    let place = said.key.map_or_else(|| yaml.place(&path), |key| yaml.key_place(&path, key));
    let name = said.key.or(said.listed.map(|(list, _)| list)).unwrap_or_default();
    faults.push(Fault::at(Code::TextEmpty, place).with("key", name));
}

/// Checks that every heading that is linked to is there.
pub(crate) fn anchors(lessons: &[Read<RawLesson>], pages: &[Page], faults: &mut Vec<Fault>) {
    let all: BTreeMap<_, _> = lessons.iter().zip(pages).map(|(read, page)| (read.id.as_str(), page)).collect();
    for (own, page) in lessons.iter().zip(pages) {
        for used in &page.anchors {
            let Some(target) = all.get(used.lesson.as_deref().unwrap_or(&own.id)) else { continue };
            let known = target.headings.iter().map(|heading| heading.anchor.as_str());
            if !known.clone().any(|anchor| anchor == used.anchor) {
                let fault = Fault::at(Code::LinkAnchorUnknown, used.place.clone()).with("anchor", &used.anchor);
                let page = used.lesson.as_ref().map_or(String::new(), |lesson| format!("lesson:{lesson}"));
                let mut fault = fault.near(&used.anchor, known);
                let near = fault.values.iter_mut().find(|(name, _)| *name == "nearest");
                if let Some((_, near)) = near {
                    *near = format!("{page}#{near}");
                }
                faults.push(fault);
            }
        }
    }
}

/// Checks what lessons teach, and that recipes practise only that.
pub(crate) fn objectives(lessons: &[Read<RawLesson>], recipes: &[Read<RawRecipe>], faults: &mut Vec<Fault>) {
    let mut known = Vec::new();
    for read in lessons {
        let Some(raw) = &read.raw else { continue };
        format(&read.yaml, raw.format, faults);
        title(&read.yaml, "title", &raw.title, faults);
        title(&read.yaml, "summary", &raw.summary, faults);
        if raw.objectives.is_empty() {
            faults.push(Fault::at(Code::LessonWithoutObjectives, read.yaml.key_place(&[], "objectives")));
        }
        for (index, objective) in raw.objectives.iter().enumerate() {
            let place = move || read.yaml.place(&[key("objectives"), Step::Index(index), key("id")]);
            known.push((objective.id.as_str(), place));
            said(&read.yaml, &[key("objectives"), Step::Index(index)], "text", &objective.text, faults);
        }
    }
    ids::all(known.iter().copied(), faults);
    let ids: BTreeSet<_> = known.iter().map(|(id, _)| *id).collect();
    let broken = lessons.iter().any(|read| read.raw.is_none());
    for read in recipes {
        let Some(raw) = &read.raw else { continue };
        if raw.objectives.is_empty() {
            faults.push(Fault::at(Code::RecipeWithoutObjectives, read.yaml.key_place(&[], "objectives")));
        }
        let unknown = raw.objectives.iter().enumerate().filter(|(_, id)| !broken && !ids.contains(id.as_str()));
        for (index, id) in unknown {
            let place = read.yaml.place(&[key("objectives"), Step::Index(index)]);
            faults.push(Fault::at(Code::ObjectiveUnknown, place).with("id", id).near(id, ids.iter().copied()));
        }
    }
}

/// Checks the front matter of the terms.
pub(crate) fn terms(terms: &[Read<RawTerm>], faults: &mut Vec<Fault>) {
    for read in terms {
        let Some(raw) = &read.raw else { continue };
        format(&read.yaml, raw.format, faults);
        for (name, text) in [("term", &raw.term), ("definition", &raw.definition), ("source", &raw.source)] {
            title(&read.yaml, name, text, faults);
        }
        for (index, id) in raw.confused_with.iter().enumerate() {
            let ids = || terms.iter().map(|other| other.id.as_str()).filter(|other| *other != read.id);
            if !ids().any(|other| other == id) {
                let place = read.yaml.place(&[key("confused_with"), Step::Index(index)]);
                faults.push(Fault::at(Code::TermUnknown, place).with("id", id).near(id, ids()));
            }
        }
    }
}

/// Checks that no wording belongs to two terms: a text could link to either.
pub(crate) fn wordings(terms: &[Read<RawTerm>], faults: &mut Vec<Fault>) {
    let mut known: BTreeMap<String, Place> = BTreeMap::new();
    for read in terms {
        let Some(raw) = &read.raw else { continue };
        let also = raw.also.iter().enumerate().map(|(index, text)| (text, vec![key("also"), Step::Index(index)]));
        for (text, path) in std::iter::once((&raw.term, vec![key("term")])).chain(also) {
            let place = read.yaml.place(&path);
            if text.trim().is_empty() {
                faults.push(Fault::at(Code::TextEmpty, place).with("key", "also"));
            } else if let Some(first) = known.insert(text.to_lowercase(), place.clone()) {
                faults.push(Fault::at(Code::TermRepeatedWording, place).with("wording", text).also(first, "first"));
            }
        }
    }
}

/// Checks the order of the lessons against those that there are, and gives the place of each.
pub(crate) fn order(
    yaml: &Yaml,
    raw: Option<&RawCourse>,
    lessons: &[Read<RawLesson>],
    faults: &mut Vec<Fault>,
) -> BTreeMap<String, usize> {
    let Some(raw) = raw else { return BTreeMap::new() };
    let known: BTreeSet<_> = lessons.iter().map(|read| read.id.as_str()).collect();
    let place = |index: usize| yaml.place(&[key("lessons"), Step::Index(index)]);
    let mut order = BTreeMap::new();
    for (index, id) in raw.lessons.iter().enumerate() {
        if !known.contains(id.as_str()) {
            faults.push(Fault::at(Code::LessonUnknown, place(index)).with("id", id).near(id, known.iter().copied()));
        }
        match order.get(id) {
            Some(first) => {
                let fault = Fault::at(Code::CourseRepeatedLesson, place(index)).with("id", id);
                faults.push(fault.also(place(*first), "first"));
            }
            None => {
                order.insert(id.clone(), index);
            }
        }
    }
    for read in lessons.iter().filter(|read| !order.contains_key(&read.id)) {
        let fault = Fault::at(Code::LessonNotInOrder, read.id_place()).with("id", &read.id);
        faults.push(fault.also(yaml.key_place(&[], "lessons"), "order"));
    }
    order
}
