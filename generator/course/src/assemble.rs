//! The course put together from the front matter and the pages of its files.

use std::collections::{BTreeMap, BTreeSet};
use std::mem::take;

use faults::Code;
use problems::DecimalMark;
use problems::own::raw::RawRelation;
use problems::recipe::raw::RawRecipe;
use problems::recipe::{Compiled, System};
use relief::Relation;

use crate::course::{AreasFile, Course, Image, Lesson, Logo, Objective, OwnRelation, RecipeFile, Term};
use crate::fault::{Fault, Faults};
use crate::folder::{Folder, Read};
use crate::front::Front;
use crate::handouts::Handout;
use crate::lexicon::ThemeLexicon;
use crate::markdown::{Page, Practised};
use crate::raw::{RawCourse, RawLesson, RawObjective, RawTerm};
use crate::reading::Reading;
use crate::relation::Relations;
use crate::rendering::{Pages, decimal_sign};
use crate::threads::with_faults;
use crate::{Words, areas, check, look, recipe, warn};

/// The course, as far as its parts are there.
pub(crate) fn assembled(
    folder: &Folder,
    raw: Option<&RawCourse>,
    mut pages: Pages,
    order: &BTreeMap<String, usize>,
    words: &dyn Words,
    relations: Relations,
    reading: &mut Reading,
) -> Option<Course> {
    let practised = practised(folder, &mut pages.lessons);
    let used: BTreeSet<_> = pages.all().flat_map(|page| &page.handouts).cloned().collect();
    let mut course = put_together(folder, raw, pages, order, words, relations, reading)?;
    if reading.faults.is_empty() {
        course.warnings.list = warn::warnings(&course, folder, &practised, (&used, words));
    }
    Some(course)
}

fn put_together(
    folder: &Folder,
    raw: Option<&RawCourse>,
    pages: Pages,
    order: &BTreeMap<String, usize>,
    words: &dyn Words,
    relations: Relations,
    reading: &mut Reading,
) -> Option<Course> {
    let handouts = handouts(folder, &pages, reading);
    let (pictures, areas): (Vec<_>, Vec<_>) =
        areas::pictures(folder, &mut reading.faults).into_iter().map(|checked| (checked.picture, checked.file)).unzip();
    let images = images(folder, raw, &pages, &areas);
    let lexicon = ThemeLexicon::new(words, DecimalMark::of(decimal_sign(raw)))
        .with(&relations.all, &relations.words)
        .with_pictures(pictures);
    let recipes = recipes(folder, &pages.recipes, &lexicon, reading);
    follow_from_pictures(areas.len() < folder.pictures.len(), reading);
    let lessons = lessons(folder, pages.lessons, pages.fronts, order);
    let terms = terms(folder, pages.terms, &lessons);
    let own = own(folder, pages.relations, &relations);
    let raw = raw?;
    Some(Course {
        id: raw.course_id.clone(),
        title: raw.title.clone(),
        owner: raw.owner.clone(),
        revision: raw.revision.clone(),
        imprint: look::imprint(raw),
        logo: logo(folder, raw),
        colours: colours(raw),
        language: folder.language.to_owned(),
        units: System::find(&raw.units)?,
        decimal_mark: raw.decimal_mark.chars().next()?,
        safety: raw.safety.clone(),
        recipes: in_teaching_order(recipes, &lessons),
        lessons,
        terms,
        relations: own,
        words: relations.words,
        images,
        handouts,
        pictures: areas,
        warnings: Faults::default(),
    })
}

/// Leaves out what recipes lack because a picture is at fault itself.
fn follow_from_pictures(is_broken: bool, reading: &mut Reading) {
    let follows = |code: Code| matches!(code, Code::RecipeFigureUnfit | Code::RecipePartUnknown);
    reading.faults.retain(|fault| !(is_broken && follows(fault.code)));
}

/// The relations that compile, each after those that it calls.
fn own(folder: &Folder, pages: Vec<Page>, relations: &Relations) -> Vec<OwnRelation> {
    let read: Vec<_> = folder.relations.iter().zip(pages).collect();
    let mut bodies: BTreeMap<&str, (&Read<RawRelation>, Page)> =
        read.into_iter().map(|both| (both.0.id.as_str(), both)).collect();
    let own = |relation: &&'static Relation| {
        let (read, page) = bodies.remove(relation.id)?;
        let checked = read.raw.as_ref()?.check.as_ref();
        Some(OwnRelation {
            relation,
            body_html: page.into_html(),
            checked: checked.map(|check| (check.source.clone(), check.checked_by.clone())),
            file: read.source.file.clone(),
        })
    };
    relations.all.iter().filter_map(own).collect()
}

/// The pictures that texts and recipes use.
fn images(folder: &Folder, raw: Option<&RawCourse>, pages: &Pages, areas: &[AreasFile]) -> Vec<Image> {
    let logo = raw.and_then(|raw| raw.logo.as_ref());
    let used: BTreeSet<_> =
        pages.all().flat_map(|page| &page.images).chain(areas.iter().map(|file| &file.shows)).chain(logo).collect();
    folder.images.values().flatten().filter(|image| used.contains(&image.file)).cloned().collect()
}

/// The logo, with its size.
fn logo(folder: &Folder, raw: &RawCourse) -> Option<Logo> {
    let file = raw.logo.as_ref()?;
    let image = folder.images.get(file)?.as_ref()?;
    Some(Logo { file: file.clone(), size: (image.size.width, image.size.height) })
}

/// The colours for paper and for blueprint.
fn colours(raw: &RawCourse) -> Option<[String; 2]> {
    let mut colours = look::colours(raw).map(|(_, text)| text.to_lowercase());
    Some([colours.next()?, colours.next()?])
}

/// The files to hand out that texts use.
fn handouts(folder: &Folder, pages: &Pages, reading: &mut Reading) -> Vec<Handout> {
    let used: BTreeSet<_> = pages.all().flat_map(|page| &page.handouts).collect();
    reading.handouts(folder.handouts.iter().filter(|offer| used.contains(&offer.file)))
}

/// What each lesson shows of the recipes, by the id of the lesson.
fn practised(folder: &Folder, pages: &mut [Page]) -> BTreeMap<String, Vec<Practised>> {
    folder.lessons.iter().zip(pages).map(|(read, page)| (read.id.clone(), take(&mut page.practised))).collect()
}

/// The recipes that compile.
fn recipes(folder: &Folder, pages: &[Page], lexicon: &ThemeLexicon, reading: &mut Reading) -> Vec<RecipeFile> {
    let read: Vec<_> = folder.recipes.iter().zip(pages).collect();
    let recipe = |(read, page): &(&Read<RawRecipe>, &Page), faults: &mut Vec<Fault>| {
        let raw = read.raw.as_ref()?;
        check::recipe_texts(&read.yaml, raw, faults);
        let Compiled { recipe, text: compiled } = recipe::build(&read.yaml, raw, &page.sections, lexicon, faults)?;
        Some(RecipeFile { recipe, compiled, file: read.source.file.clone(), text: read.source.text.clone() })
    };
    with_faults(&read, &mut reading.faults, recipe).into_iter().flatten().collect()
}

/// The recipes as the lessons teach what they practise, the easier ones first.
fn in_teaching_order(mut recipes: Vec<RecipeFile>, lessons: &[Lesson]) -> Vec<RecipeFile> {
    let objectives = |(place, lesson): (usize, &'_ Lesson)| {
        lesson.objectives.iter().map(|objective| (objective.id.clone(), place)).collect::<Vec<_>>()
    };
    let taught: BTreeMap<_, _> = lessons.iter().enumerate().flat_map(objectives).collect();
    let place = |file: &RecipeFile| {
        // A recipe that practises several comes once the last of them is taught.
        let last = file.recipe.objectives.iter().filter_map(|id| taught.get(id)).max();
        (last.copied().unwrap_or(usize::MAX), file.recipe.level)
    };
    recipes.sort_by_cached_key(|file| (place(file), file.recipe.id.clone()));
    recipes
}

/// The lessons, in the order of the course.
fn lessons(
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
fn terms(folder: &Folder, pages: Vec<Page>, lessons: &[Lesson]) -> Vec<Term> {
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
        confused_with: raw.confused_with.clone(),
        definition: raw.definition.clone(),
        definition_html: problems::template::escape(&raw.definition),
        body_html: page.into_html(),
        source: raw.source.clone(),
        lessons,
        file: read.source.file.clone(),
    })
}
