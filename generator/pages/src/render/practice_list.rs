//! What there is to practise, lesson by lesson: the sheets of practice and of progress go through it.

use course::{Lesson, Objective, addresses};
use serde::Serialize;

use super::recipe_list::ListedRecipe;
use super::renderer::Renderer;
use super::sheets::lesson_number;

/// A lesson with the recipes that practise it.
#[derive(Serialize)]
pub(super) struct PractisedLesson<'c> {
    id: &'c str,
    number: usize,
    title: &'c str,
    href: String,
    objective_ids: String,
    objectives: Vec<PractisedObjective<'c>>,
    /// The recipes whose first objective the lesson teaches.
    recipes: Vec<ListedRecipe<'c>>,
}

#[derive(Serialize)]
struct PractisedObjective<'c> {
    id: &'c str,
    text: &'c str,
    recipes: Vec<ListedRecipe<'c>>,
}

impl Renderer<'_> {
    /// The lessons in their order.
    pub(super) fn practised_lessons(&self) -> Vec<PractisedLesson<'_>> {
        self.course.lessons.iter().enumerate().map(|(place, lesson)| self.practised_lesson(place, lesson)).collect()
    }

    fn practised_lesson<'r>(&'r self, place: usize, lesson: &'r Lesson) -> PractisedLesson<'r> {
        let ids: Vec<&str> = lesson.objectives.iter().map(|objective| objective.id.as_str()).collect();
        let first = |recipe: &problems::Recipe| recipe.objectives.first().is_some_and(|id| ids.contains(&id.as_str()));
        PractisedLesson {
            id: &lesson.id,
            number: lesson_number(place),
            title: &lesson.title,
            href: self.href(&addresses::lesson(&lesson.id)),
            objective_ids: ids.join(" "),
            objectives: lesson.objectives.iter().map(|objective| self.practised_objective(objective)).collect(),
            recipes: self.recipes_where(first),
        }
    }

    fn practised_objective<'r>(&'r self, objective: &'r Objective) -> PractisedObjective<'r> {
        PractisedObjective {
            id: &objective.id,
            text: &objective.text,
            recipes: self.recipes_where(|recipe| recipe.objectives.contains(&objective.id)),
        }
    }
}
