//! What teaches, explains and practises what in a course, worked out once.

use std::collections::BTreeMap;

use problems::recipe::Recipe;

use crate::course::{Block, Course, Lesson};

/// Who teaches, explains and practises what. A lesson is given by its place in the order of the course.
#[derive(Debug, Default)]
pub struct Coverage<'c> {
    /// Of each objective, the lesson that declares it.
    pub taught: BTreeMap<&'c str, usize>,
    /// Of each objective that is practised, the recipes that name it: the easier ones first, then by their ids.
    pub practised: BTreeMap<&'c str, Vec<&'c Recipe>>,
    /// Of each recipe that lessons show, those lessons in their order.
    pub shown: BTreeMap<&'c str, Vec<usize>>,
    /// Of each term that lessons use, those lessons in their order: the first explains it.
    pub used: BTreeMap<&'c str, Vec<usize>>,
    /// Of each relation that workings of recipes show, those recipes by their ids.
    pub worked: BTreeMap<&'c str, Vec<&'c Recipe>>,
}

impl<'c> Coverage<'c> {
    /// The coverage of a course.
    #[must_use]
    pub fn of(course: &'c Course) -> Self {
        let mut coverage = Self::default();
        for (place, lesson) in course.lessons.iter().enumerate() {
            coverage.lesson(place, lesson);
        }
        for file in &course.recipes {
            coverage.recipe(&file.recipe);
        }
        coverage.practised.values_mut().for_each(|recipes| recipes.sort_by_key(|recipe| recipe.level));
        coverage
    }

    fn lesson(&mut self, place: usize, lesson: &'c Lesson) {
        self.taught.extend(lesson.objectives.iter().map(|objective| (objective.id.as_str(), place)));
        for term in &lesson.terms {
            self.used.entry(term).or_default().push(place);
        }
        for block in &lesson.blocks {
            let Block::Practice(practice) = block else { continue };
            let shown = self.shown.entry(&practice.recipe).or_default();
            if shown.last() != Some(&place) {
                shown.push(place);
            }
        }
    }

    fn recipe(&mut self, recipe: &'c Recipe) {
        for objective in &recipe.objectives {
            self.practised.entry(objective).or_default().push(recipe);
        }
        for law in &recipe.laws {
            self.worked.entry(law.relation.id).or_default().push(recipe);
        }
    }

    /// The recipes for an objective, as [`Coverage::practised`] has them; none where nothing practises it.
    #[must_use]
    pub fn practising(&self, objective: &str) -> &[&'c Recipe] {
        self.practised.get(objective).map_or(&[], Vec::as_slice)
    }

    /// The lessons that show a recipe.
    #[must_use]
    pub fn showing(&self, recipe: &str) -> &[usize] {
        self.shown.get(recipe).map_or(&[], Vec::as_slice)
    }

    /// The lessons that use a term.
    #[must_use]
    pub fn using(&self, term: &str) -> &[usize] {
        self.used.get(term).map_or(&[], Vec::as_slice)
    }
}
