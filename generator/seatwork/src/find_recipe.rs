//! The recipe that is named on the command line.

use course::{Course, RecipeFile};
use pages::Words;

use crate::status::{End, Status};

/// The recipe of a course with an id, or with a title as it is on a printed sheet.
pub(crate) fn find_recipe<'c>(course: &'c Course, id: &str, words: &Words) -> Result<&'c RecipeFile, End> {
    let by_id = course.recipes.iter().find(|file| file.recipe.id == id);
    let by_title = || course.recipes.iter().find(|file| file.recipe.title.eq_ignore_ascii_case(id));
    by_id.or_else(by_title).ok_or_else(|| {
        let known: Vec<_> = course.recipes.iter().map(|file| file.recipe.id.as_str()).collect();
        End::new(Status::WrongUse, words.fill("command.unknown_recipe", &[("found", id), ("known", &known.join(", "))]))
    })
}
