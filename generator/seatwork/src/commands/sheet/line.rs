//! The line of numbers at the foot of a sheet, as somebody types it: `spring_rate_for_rise 48213 · seat_force 10001 · us`.

use course::Course;
use pages::{Numbered, Words};
use problems::System;

use crate::find_recipe::find_recipe;
use crate::options::MOST_ON_PAPER;
use crate::status::{End, Status};

/// The problems of a line, and the system of units that it names. What is between them does not matter.
pub(super) fn read<'c>(
    course: &'c Course,
    line: &str,
    words: &Words,
) -> Result<(Vec<Numbered<'c>>, Option<System>), End> {
    let wrong = |key: &str, values: &[(&str, &str)]| End::new(Status::WrongUse, words.fill(key, values));
    let (mut problems, mut system) = (Vec::new(), None);
    let mut rest = line.split(is_between).filter(|word| !word.is_empty());
    while let Some(word) = rest.next() {
        if word.starts_with(|first: char| first.is_ascii_digit()) {
            return Err(wrong("command.sheet.lone_number", &[("found", word)]));
        }
        let is_recipe = course.recipes.iter().any(|file| file.recipe.id == word);
        if let Some(named) = System::find(word).filter(|_| !is_recipe) {
            system = Some(named);
            continue;
        }
        let recipe = &find_recipe(course, word, words)?.recipe;
        let number = rest.next().unwrap_or_default();
        if !is_number(number) {
            return Err(wrong("command.sheet.no_number", &[("recipe", word)]));
        }
        problems.push(Numbered { recipe, number: number.to_owned() });
    }
    match problems.len() {
        0 => Err(wrong("command.sheet.no_numbers", &[])),
        found if found > usize::from(MOST_ON_PAPER) => {
            Err(wrong("command.sheet.too_many", &[("found", &found.to_string()), ("most", &MOST_ON_PAPER.to_string())]))
        }
        _ => Ok((problems, system)),
    }
}

/// What separates the names and numbers of a line, however it was copied.
fn is_between(next: char) -> bool {
    next.is_whitespace() || "·•,;:|\"'".contains(next)
}

/// What the page takes for the number of a problem.
fn is_number(text: &str) -> bool {
    (1..=18).contains(&text.len()) && text.bytes().all(|next| next.is_ascii_digit()) && !text.starts_with('0')
}

#[cfg(test)]
mod tests {
    use super::is_number;

    #[test]
    fn numbers_are_those_that_pages_take() {
        for (text, expected) in
            [("48213", true), ("1", true), ("0", false), ("007", false), ("12a", false), ("", false)]
        {
            assert_eq!(is_number(text), expected, "{text}");
        }
        assert!(!is_number(&"1".repeat(19)));
    }
}
