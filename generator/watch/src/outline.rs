//! The lessons and recipes of a course, as the frame lists them.

use course::{Block, Course, Lesson, addresses};
use pages::Words;
use problems::{Recipe, System};
use serde::Serialize;

/// How many words a minute a reader is taken to read (words/min): common practice, no source.
pub const WORDS_A_MINUTE: usize = 200;

/// What the frame lists.
#[derive(Serialize)]
pub(crate) struct Outline<'c> {
    title: &'c str,
    language: &'c str,
    summary: String,
    lessons: Vec<LessonRow<'c>>,
    recipes: Vec<RecipeRow<'c>>,
}

#[derive(Serialize)]
struct LessonRow<'c> {
    id: &'c str,
    title: &'c str,
    href: String,
    length: String,
    objectives: Vec<&'c str>,
    recipes: Vec<RecipeLink<'c>>,
}

#[derive(Serialize)]
struct RecipeLink<'c> {
    title: &'c str,
    href: String,
}

#[derive(Serialize)]
struct RecipeRow<'c> {
    title: &'c str,
    href: String,
    samples: Vec<Samples>,
}

/// The page of samples in a system of units.
#[derive(Serialize)]
struct Samples {
    text: String,
    href: String,
}

impl<'c> Outline<'c> {
    pub(crate) fn new(course: &'c Course, words: &Words) -> Self {
        let all = course.lessons.iter().map(|lesson| lesson.words).sum();
        Self {
            title: &course.title,
            language: &course.language,
            summary: length("watch.summary", all, words),
            lessons: course.lessons.iter().map(|lesson| row(course, lesson, words)).collect(),
            recipes: course.recipes.iter().map(|file| recipe_row(course, &file.recipe, words)).collect(),
        }
    }
}

fn recipe_row<'c>(course: &Course, recipe: &'c Recipe, words: &Words) -> RecipeRow<'c> {
    RecipeRow {
        title: &recipe.title,
        href: recipe_address(course, &recipe.id),
        samples: System::BOTH.map(|system| samples(&recipe.id, system, words)).into(),
    }
}

fn row<'c>(course: &'c Course, lesson: &'c Lesson, words: &Words) -> LessonRow<'c> {
    LessonRow {
        id: &lesson.id,
        title: &lesson.title,
        href: address(course, &addresses::lesson(&lesson.id)),
        length: length("watch.length", lesson.words, words),
        objectives: lesson.objectives.iter().map(|objective| objective.text.as_str()).collect(),
        recipes: recipes_in(lesson).into_iter().filter_map(|id| link(course, id)).collect(),
    }
}

/// The recipes that a lesson has problems from, each once, in the order of the text.
fn recipes_in(lesson: &Lesson) -> Vec<&str> {
    let mut ids: Vec<&str> = Vec::new();
    for block in &lesson.blocks {
        if let Block::Practice(practice) = block
            && !ids.contains(&practice.recipe.as_str())
        {
            ids.push(&practice.recipe);
        }
    }
    ids
}

fn link<'c>(course: &'c Course, id: &str) -> Option<RecipeLink<'c>> {
    let recipe = &course.recipes.iter().find(|file| file.recipe.id == id)?.recipe;
    Some(RecipeLink { title: &recipe.title, href: recipe_address(course, id) })
}

fn recipe_address(course: &Course, id: &str) -> String {
    address(course, &addresses::recipe(id))
}

/// Where the preview serves a page.
fn address(course: &Course, page: &str) -> String {
    format!("/site/{}", addresses::from_top(&course.language, page))
}

fn samples(id: &str, system: System, words: &Words) -> Samples {
    let units = words.get(&format!("live.units.{}", system.id())).to_owned();
    let text = words.fill("watch.samples", &[("units", &units)]);
    Samples { text, href: format!("/samples/{}/{id}.html", system.id()) }
}

/// How many words, and how many minutes they take, begun ones counted whole.
fn length(key: &str, count: usize, words: &Words) -> String {
    let minutes = count.div_ceil(WORDS_A_MINUTE).to_string();
    let values = [("words", count.to_string()), ("minutes", minutes), ("words_a_minute", WORDS_A_MINUTE.to_string())];
    let values: Vec<_> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    words.fill(key, &values)
}
