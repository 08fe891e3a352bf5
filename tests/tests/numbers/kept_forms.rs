//! Compiled recipes of other versions are refused, and say which they are. Nothing was ever issued from an older one.

use problems::{ReadError, Recipe};
use seatwork_tests::top;

/// Any recipe of the course, as it is stored, with other versions.
fn of_version(format: u32, rules: u32) -> String {
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    let mut recipe = course.recipes[0].recipe.clone();
    (recipe.format, recipe.rules) = (format, rules);
    recipe.write()
}

#[test]
fn an_older_or_a_newer_form_is_refused_and_says_which() {
    assert!(matches!(Recipe::read(&of_version(2, 3)), Err(ReadError::Older { format: 2, rules: 3 })));
    assert!(matches!(Recipe::read(&of_version(3, 2)), Err(ReadError::Older { format: 3, rules: 2 })));
    assert!(matches!(Recipe::read(&of_version(99, 3)), Err(ReadError::Newer { format: 99, rules: 3 })));
    assert!(Recipe::read(&of_version(problems::recipe::FORMAT, problems::recipe::RULES)).is_ok());
}

/// Reading is not derived from the types that are written.
#[test]
fn what_is_written_is_read_back() {
    let words = pages::Words::of("en").expect("words");
    for folder in ["content", "content/guide"] {
        let course = course::read(&top().join(folder), &words).expect("the course is sound");
        for file in &course.recipes {
            assert_eq!(Recipe::read(&file.recipe.write()).as_ref(), Ok(&file.recipe), "{}", file.recipe.id);
        }
    }
}
