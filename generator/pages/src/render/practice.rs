//! The sheets of practice: what to choose from, a page for each recipe, and progress.

use course::{Lesson, Objective};
use serde::Serialize;

use super::context::{Link, Page};
use super::lessons::{ROOT, scripts};
use super::{RenderError, Renderer, Sheet};
use crate::theme;

/// Where one chooses what to practise.
pub(super) const PRACTICE: &str = "practice/index.html";
/// Where one sees how it went.
pub(super) const PROGRESS: &str = "practice/progress.html";

/// The sheets of practice, in their order after the lessons: the key of the title and the address without the language.
pub(super) const SHEETS: [(&str, &str); 2] = [("pages.nav.practice", PRACTICE), ("pages.progress.title", PROGRESS)];

/// The levels of recipes.
pub(super) const LEVELS: [u8; 3] = [1, 2, 3];

#[derive(Serialize)]
struct LessonContext<'c> {
    id: &'c str,
    number: usize,
    title: &'c str,
    href: String,
    objective_ids: String,
    objectives: Vec<ObjectiveContext<'c>>,
    /// The recipes whose first objective the lesson teaches.
    recipes: Vec<RecipeContext<'c>>,
}

#[derive(Serialize)]
struct ObjectiveContext<'c> {
    id: &'c str,
    text: &'c str,
    recipes: Vec<RecipeContext<'c>>,
}

#[derive(Serialize)]
pub(super) struct RecipeContext<'c> {
    id: &'c str,
    title: &'c str,
    level: u8,
    level_text: String,
    objective_ids: String,
    /// Whether the recipe says where to start.
    starts: bool,
}

/// A row of the list of sheets.
#[derive(Serialize)]
pub(super) struct IndexSheet<'w> {
    number: usize,
    title: &'w str,
    summary: &'w str,
    href: String,
}

/// A level as pages name it.
#[derive(Serialize)]
pub(super) struct LevelContext {
    number: u8,
    text: String,
}

#[derive(Serialize)]
struct Taught<'c> {
    title: &'c str,
    href: String,
}

impl Renderer<'_> {
    /// The sheet on which one chooses and practises.
    pub(super) fn practising(&self) -> Result<String, RenderError> {
        let mut page = self.practice_page(self.words.get("pages.nav.practice").to_owned(), 0);
        page.scripts.extend(scripts(ROOT, theme::ENGINE));
        page.scripts.extend(scripts(ROOT, theme::PROBLEM));
        page.scripts.extend(scripts(ROOT, theme::SESSION));
        page.training_figures = true;
        self.page("practising.html", &page, |context| {
            context.insert("lessons", &self.practice_lessons());
            context.insert("levels", &self.levels());
        })
    }

    /// The sheet of progress.
    pub(super) fn progress(&self) -> Result<String, RenderError> {
        let mut page = self.practice_page(self.words.get("pages.progress.title").to_owned(), 1);
        page.scripts.extend(scripts(ROOT, theme::PROGRESS));
        self.page("progress.html", &page, |context| {
            context.insert("lessons", &self.practice_lessons());
            context.insert("levels", &self.levels());
        })
    }

    /// The page of the recipe at a place in the course.
    pub(super) fn recipe_page(&self, place: usize) -> Result<(String, String), RenderError> {
        let recipe = &self.course.recipes[place].recipe;
        let block = self.practice_block(recipe, None)?;
        let title = self.words.fill("pages.recipe_title", &[("title", &recipe.title)]);
        let mut page = self.practice_page(title, 0);
        page.scripts.extend(scripts(ROOT, theme::ENGINE));
        page.scripts.push(format!("{ROOT}recipes/{}.js", recipe.id));
        page.scripts.extend(scripts(ROOT, theme::PROBLEM));
        page.scripts.extend(scripts(ROOT, theme::PRACTICE));
        page.sheet = self.recipe_sheet(place);
        page.training_figures = true;
        let taught: Vec<_> = self.lessons_of(&recipe.objectives).map(|lesson| self.taught(lesson)).collect();
        let html = self.page("recipe.html", &page, |context| {
            context.insert("title", &recipe.title);
            context.insert("level_text", &self.level_text(recipe.level));
            context.insert("lessons", &taught);
            context.insert("body_html", &block);
        })?;
        Ok((self.address(&format!("practice/{}.html", recipe.id)), html))
    }

    /// The sheets of practice as the cover lists them.
    pub(super) fn index_practice(&self) -> Vec<IndexSheet<'_>> {
        let summaries = [self.words.get("pages.practising.summary"), self.words.get("pages.progress.summary")];
        let row = |(place, ((title, address), summary))| IndexSheet {
            number: self.course.lessons.len() + 2 + place,
            title: self.words.get(title),
            summary,
            href: self.address(address),
        };
        SHEETS.into_iter().zip(summaries).enumerate().map(row).collect()
    }

    /// A page in the folder of practice, at a place after the lessons.
    fn practice_page(&self, title: String, after: usize) -> Page {
        self.blank_page(title, "practice", ROOT, self.course.lessons.len() + 1 + after)
    }

    /// The pages of recipes are sheets within the sheet of practice: 5-1, 5-2 and so on.
    fn recipe_sheet(&self, place: usize) -> Sheet {
        let recipes = &self.course.recipes;
        let one = |place: usize| recipes.get(place).map(|file| (file.recipe.title.as_str(), file.recipe.id.as_str()));
        self.sheet_within(self.course.lessons.len() + 1, "pages.nav.practice", place, one)
    }

    /// The place of a sheet within another one, which lists it in the same folder: the list and its neighbours around
    /// it. `one` gives the title and the id of the sheet at a place.
    pub(super) fn sheet_within<'t>(
        &self,
        list: usize,
        title: &str,
        place: usize,
        one: impl Fn(usize) -> Option<(&'t str, &'t str)>,
    ) -> Sheet {
        let whole = self.sheet(list, ROOT);
        let numbered = |place: usize| format!("{}-{}", whole.number, place + 1);
        let link = |place: usize| {
            let (title, id) = one(place)?;
            Some(Link { title: title.to_owned(), href: format!("{id}.html"), number: numbered(place) })
        };
        let list = Link {
            title: self.words.get(title).to_owned(),
            href: "index.html".to_owned(),
            number: whole.number.clone(),
        };
        Sheet {
            number: numbered(place),
            of: whole.of,
            previous: place.checked_sub(1).and_then(link).or(Some(list)),
            next: link(place + 1).or(whole.next),
        }
    }

    fn practice_lessons(&self) -> Vec<LessonContext<'_>> {
        self.course.lessons.iter().enumerate().map(|(index, lesson)| self.practice_lesson(index, lesson)).collect()
    }

    fn practice_lesson<'c>(&'c self, index: usize, lesson: &'c Lesson) -> LessonContext<'c> {
        let ids: Vec<&str> = lesson.objectives.iter().map(|objective| objective.id.as_str()).collect();
        let first = |recipe: &problems::Recipe| recipe.objectives.first().is_some_and(|id| ids.contains(&id.as_str()));
        LessonContext {
            id: &lesson.id,
            number: index + 2,
            title: &lesson.title,
            href: self.lesson_address(lesson),
            objective_ids: ids.join(" "),
            objectives: lesson.objectives.iter().map(|objective| self.practice_objective(objective)).collect(),
            recipes: self.recipes_where(first),
        }
    }

    fn practice_objective<'c>(&'c self, objective: &'c Objective) -> ObjectiveContext<'c> {
        ObjectiveContext {
            id: &objective.id,
            text: &objective.text,
            recipes: self.recipes_where(|recipe| recipe.objectives.contains(&objective.id)),
        }
    }

    /// The recipes for which something holds, the easier ones first.
    pub(super) fn recipes_where(&self, holds: impl Fn(&problems::Recipe) -> bool) -> Vec<RecipeContext<'_>> {
        let mut found: Vec<_> =
            self.course.recipes.iter().map(|file| &file.recipe).filter(|recipe| holds(recipe)).collect();
        found.sort_by_key(|recipe| recipe.level);
        found.into_iter().map(|recipe| self.listed(recipe)).collect()
    }

    fn listed<'c>(&'c self, recipe: &'c problems::Recipe) -> RecipeContext<'c> {
        RecipeContext {
            id: &recipe.id,
            title: &recipe.title,
            level: recipe.level,
            level_text: self.level_text(recipe.level),
            objective_ids: recipe.objectives.join(" "),
            starts: recipe.start.is_some(),
        }
    }

    fn lessons_of<'c>(&'c self, objectives: &'c [String]) -> impl Iterator<Item = &'c Lesson> {
        let teaches = |lesson: &&Lesson| lesson.objectives.iter().any(|objective| objectives.contains(&objective.id));
        self.course.lessons.iter().filter(teaches)
    }

    fn taught<'c>(&self, lesson: &'c Lesson) -> Taught<'c> {
        Taught { title: &lesson.title, href: self.lesson_address(lesson) }
    }

    /// The way to a lesson from a page of practice.
    fn lesson_address(&self, lesson: &Lesson) -> String {
        format!("{ROOT}{}", self.address(&format!("lessons/{}.html", lesson.id)))
    }

    pub(super) fn levels(&self) -> Vec<LevelContext> {
        LEVELS.iter().map(|number| LevelContext { number: *number, text: self.level_text(*number) }).collect()
    }

    /// A level with its words: `level 2, a few steps`.
    pub(super) fn level_text(&self, level: u8) -> String {
        let number = level.to_string();
        let word = self.words.get(&format!("pages.practice.levels.{level}")).to_owned();
        self.words.fill("pages.practice.level", &[("level", &number), ("level_word", &word)])
    }
}
