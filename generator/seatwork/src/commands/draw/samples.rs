//! `draw --samples`: a page of samples for the instructor who writes a recipe.

use std::fs;
use std::path::Path;

use course::Course;
use pages::{SAMPLES_MARK, Words, samples};
use problems::Recipe;

use crate::course_folder::beside;
use crate::marked_file::is_free;
use crate::options::DrawOptions;
use crate::out::say;
use crate::status::{End, Ended, Status};

pub(super) fn run(
    (folder, course): (&Path, &Course),
    recipe: &Recipe,
    count: u64,
    options: &DrawOptions,
    words: &Words,
) -> Ended {
    let to = options.to.clone().unwrap_or_else(|| beside(folder, &format!("samples-{}.html", recipe.id)));
    let file = to.display().to_string();
    let unwritable = |error: std::io::Error| {
        let values = [("file", file.as_str()), ("error", &error.to_string())];
        End::new(Status::Unreadable, words.fill("command.samples.unwritable", &values))
    };
    if !is_free(&to, SAMPLES_MARK).map_err(unwritable)? {
        return Err(End::new(Status::Unreadable, words.fill("command.samples.not_ours", &[("file", &file)])));
    }
    let system = options.units.map_or(course.units, Into::into);
    let html =
        samples(course, recipe, words, system, count).map_err(|error| End::new(Status::Faults, error.to_string()))?;
    fs::write(&to, html).map_err(unwritable)?;
    say!("{}", words.fill("command.samples.written", &[("file", &file), ("count", &count.to_string())]));
    Ok(Status::Done)
}
