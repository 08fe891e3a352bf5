//! The course in the repository is read without a fault.

use std::path::Path;

use course::{Block, Words};

struct NoWords;

impl Words for NoWords {
    fn text(&self, _key: &str) -> Option<String> {
        None
    }
}

#[test]
fn the_course_in_the_repository_has_no_faults_and_no_warnings() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../content");
    let course = match course::read(&content, &NoWords) {
        Ok(course) => course,
        Err(faults) => {
            for fault in &faults.list {
                let place = fault.place.as_ref();
                let at = place.and_then(|place| faults.line_and_column(place));
                let marked = place.and_then(|place| faults.sources.get(&place.file)?.get(place.span.clone()));
                println!("{} {:?} {at:?} {marked:?} {:?}", fault.code, place.map(|place| &place.file), fault.values);
            }
            panic!("{} faults", faults.list.len());
        }
    };
    let warned: Vec<_> = course.warnings.list.iter().map(|warning| (warning.code, &warning.values)).collect();
    assert_eq!(warned, []);
    assert!(!course.lessons.is_empty() && !course.terms.is_empty() && !course.recipes.is_empty());
    for lesson in &course.lessons {
        assert!(lesson.words > 100 && !lesson.headings.is_empty() && !lesson.terms.is_empty(), "{}", lesson.id);
        assert!(lesson.blocks.iter().any(|block| matches!(block, Block::Practice(_))), "{}", lesson.id);
    }
}
