//! The course in the repository is read without a fault.

use std::fs;
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
                let place = &fault.place;
                let at = faults.line_and_column(place);
                let marked = faults.sources.get(&place.file).and_then(|text| text.get(place.span.clone()));
                println!("{} {:?} {at:?} {marked:?} {:?}", fault.code, place.file, fault.values);
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

/// What pages show of a course.
fn shown(folder: &Path) -> (String, Vec<String>) {
    let course = course::read(folder, &NoWords).map_err(|faults| faults.list).expect("no faults");
    let recipes = course.recipes.iter().map(|file| file.recipe.write()).collect();
    (format!("{:#?}{:#?}{}", course.lessons, course.terms, course.safety), recipes)
}

#[test]
fn the_course_is_the_same_whatever_the_line_ends_and_with_byte_order_marks() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../content");
    let scratch = tempfile::tempdir().expect("folder");
    for entry in walkdir::WalkDir::new(&content).into_iter().filter_map(Result::ok) {
        let path = scratch.path().join(entry.path().strip_prefix(&content).expect("inside"));
        if entry.file_type().is_dir() {
            fs::create_dir_all(path).expect("folder");
        } else if let Ok(text) = fs::read_to_string(entry.path()) {
            fs::write(path, format!("\u{feff}{}", text.replace('\n', "\r\n"))).expect("file");
        } else {
            fs::copy(entry.path(), path).expect("file");
        }
    }
    let (own, other) = (shown(&content), shown(scratch.path()));
    for (one, two) in own.0.lines().zip(other.0.lines()) {
        assert_eq!(one, two);
    }
    assert_eq!(own, other);
}
