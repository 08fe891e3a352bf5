//! Recipes as pages list them: with their level in words, the easier ones first.

use problems::Recipe;
use serde::Serialize;

use super::renderer::Renderer;

/// The levels of recipes.
pub(super) const LEVELS: [u8; 3] = [1, 2, 3];

/// A recipe in a list.
#[derive(Serialize)]
pub(super) struct ListedRecipe<'c> {
    id: &'c str,
    title: &'c str,
    level: u8,
    level_text: String,
    objective_ids: String,
    /// Whether the recipe says where to start.
    starts: bool,
}

/// A level as pages name it.
#[derive(Serialize)]
pub(super) struct Level {
    number: u8,
    text: String,
}

impl Renderer<'_> {
    /// The recipes for which something holds, the easier ones first.
    pub(super) fn recipes_where(&self, holds: impl Fn(&Recipe) -> bool) -> Vec<ListedRecipe<'_>> {
        let all = self.course.recipes.iter().map(|file| &file.recipe);
        let mut found: Vec<_> = all.filter(|recipe| holds(recipe)).collect();
        found.sort_by_key(|recipe| recipe.level);
        found.into_iter().map(|recipe| self.listed(recipe)).collect()
    }

    fn listed<'r>(&self, recipe: &'r Recipe) -> ListedRecipe<'r> {
        ListedRecipe {
            id: &recipe.id,
            title: &recipe.title,
            level: recipe.level,
            level_text: self.level_text(recipe.level),
            objective_ids: recipe.objectives.join(" "),
            starts: recipe.start.is_some(),
        }
    }

    /// Every level.
    pub(super) fn levels(&self) -> Vec<Level> {
        LEVELS.iter().map(|number| Level { number: *number, text: self.level_text(*number) }).collect()
    }

    /// A level with its words: `level 2, a few steps`.
    pub(super) fn level_text(&self, level: u8) -> String {
        let number = level.to_string();
        let word = self.words.get(&format!("pages.practice.levels.{level}")).to_owned();
        self.words.fill("pages.practice.level", &[("level", &number), ("level_word", &word)])
    }
}
