//! What the sheets of coverage share: lessons by their sheets, and recipes with their forms and where they are shown.

use course::Coverage;
use problems::Recipe;
use serde::Serialize;

use super::renderer::Renderer;
use super::sheets::lesson_number;

/// A lesson by its sheet.
#[derive(Clone, Copy, Serialize)]
pub(super) struct OnSheet<'c> {
    id: &'c str,
    number: usize,
    title: &'c str,
}

/// A recipe in a cell.
#[derive(Serialize)]
pub(super) struct RecipeCell<'c> {
    id: &'c str,
    title: &'c str,
    forms: String,
    /// The sheets of the lessons that show it.
    shown: Vec<usize>,
}

impl Renderer<'_> {
    /// The lesson at a place in the course.
    pub(super) fn on_sheet(&self, place: usize) -> OnSheet<'_> {
        let lesson = &self.course.lessons[place];
        OnSheet { id: &lesson.id, number: lesson_number(place), title: &lesson.title }
    }

    /// A recipe with the forms of its parts, each once.
    pub(super) fn recipe_cell<'r>(&self, recipe: &'r Recipe, coverage: &Coverage) -> RecipeCell<'r> {
        let mut forms: Vec<&str> = Vec::new();
        for form in recipe.asks.iter().map(|ask| ask.form.id()) {
            if !forms.contains(&form) {
                forms.push(form);
            }
        }
        let word = |form: &&str| self.words.get(&format!("pages.coverage.forms.{form}")).to_owned();
        RecipeCell {
            id: &recipe.id,
            title: &recipe.title,
            forms: forms.iter().map(word).collect::<Vec<_>>().join(", "),
            shown: coverage.showing(&recipe.id).iter().map(|place| lesson_number(*place)).collect(),
        }
    }
}
