//! Lessons and terms put together from their front matter and their pages.

use std::collections::BTreeMap;

use crate::course::{Lesson, Objective, Term};
use crate::front::Front;
use crate::markdown::Page;
use crate::raw::{RawLesson, RawObjective, RawTerm};
use crate::read::{Folder, Read};

/// The lessons, in the order of the course.
pub(crate) fn lessons(
    folder: &Folder,
    pages: Vec<Page>,
    fronts: Vec<Option<Front>>,
    order: &BTreeMap<String, usize>,
) -> Vec<Lesson> {
    let read = folder.lessons.iter().zip(pages).zip(fronts);
    let mut lessons: Vec<_> = read.filter_map(|((read, page), front)| lesson(read, page, front?)).collect();
    lessons.sort_by_key(|lesson| order.get(&lesson.id));
    lessons
}

fn lesson(read: &Read<RawLesson>, page: Page, front: Front) -> Option<Lesson> {
    let raw = read.raw.as_ref()?;
    let objective = |(objective, text): (&RawObjective, String)| Objective { id: objective.id.clone(), text };
    Some(Lesson {
        id: raw.id.clone(),
        title: front.title,
        summary: front.summary,
        objectives: raw.objectives.iter().zip(front.objectives).map(objective).collect(),
        blocks: page.blocks,
        headings: page.headings,
        words: page.words,
        terms: page.terms,
        file: read.source.file.clone(),
    })
}

/// The terms, in the order of their names, each with the lessons that mention it.
pub(crate) fn terms(folder: &Folder, pages: Vec<Page>, lessons: &[Lesson]) -> Vec<Term> {
    let mut users: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for lesson in lessons {
        lesson.terms.iter().for_each(|term| users.entry(term).or_default().push(lesson.id.clone()));
    }
    let used = |read: &Read<RawTerm>| users.get(read.id.as_str()).cloned().unwrap_or_default();
    let terms = folder.terms.iter().zip(pages).filter_map(|(read, page)| term(read, page, used(read)));
    let mut terms: Vec<_> = terms.collect();
    terms.sort_by_cached_key(|term| (term.term.to_lowercase(), term.id.clone()));
    terms
}

fn term(read: &Read<RawTerm>, page: Page, lessons: Vec<String>) -> Option<Term> {
    let raw = read.raw.as_ref()?;
    Some(Term {
        id: raw.id.clone(),
        term: raw.term.clone(),
        also: raw.also.clone(),
        not: raw.not.clone(),
        definition: raw.definition.clone(),
        definition_html: problems::template::escape(&raw.definition),
        body_html: page.into_html(),
        source: raw.source.clone(),
        lessons,
        file: read.source.file.clone(),
    })
}
