//! The sheet of a recipe: its problem, and the lessons that teach what it practises.

use course::{Course, Lesson, RecipeFile, addresses};
use serde::Serialize;

use crate::render::context::Page;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;
use crate::theme;

pub(super) const KIND: PageKind = PageKind {
    name: "practice",
    root: addresses::ROOT,
    order: Order::Within,
    navigation: Navigation::Left,
    entries: |course, _| entries(course),
    render: |renderer, page, place| renderer.recipe(page, place),
};

fn entries(course: &Course) -> Vec<Entry> {
    let entry = |file: &RecipeFile| Entry::new(&file.recipe.title, addresses::recipe(&file.recipe.id));
    course.recipes.iter().map(entry).collect()
}

#[derive(Serialize)]
struct Taught<'c> {
    title: &'c str,
    href: String,
}

impl Renderer<'_> {
    fn recipe(&self, mut page: Page, place: usize) -> Result<String, RenderError> {
        let recipe = &self.course.recipes[place].recipe;
        page.title = self.words.fill("pages.recipe_title", &[("title", &recipe.title)]);
        page.training_figures = true;
        page.load(theme::ENGINE);
        page.load_recipe(&recipe.id);
        page.load(theme::PROBLEM);
        page.load(theme::PRACTICE);
        let block = self.practice_block(recipe, None)?;
        self.page("recipe.html", &page, |context| {
            context.insert("title", &recipe.title);
            context.insert("level_text", &self.level_text(recipe.level));
            context.insert("lessons", &self.taught_in(&recipe.objectives));
            context.insert("body_html", &block);
        })
    }

    /// The lessons that teach one of some objectives.
    fn taught_in(&self, objectives: &[String]) -> Vec<Taught<'_>> {
        let teaches = |lesson: &&Lesson| lesson.objectives.iter().any(|objective| objectives.contains(&objective.id));
        let link = |lesson| Taught::by(lesson, self.href(&addresses::lesson(&lesson.id)));
        self.course.lessons.iter().filter(teaches).map(link).collect()
    }
}

impl<'c> Taught<'c> {
    fn by(lesson: &'c Lesson, href: String) -> Self {
        Self { title: &lesson.title, href }
    }
}
