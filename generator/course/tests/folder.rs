//! Whole folders: what is read whatever its line ends, that all faults of all files are told in order, and that no edit
//! brings the reader down.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use course::Code;
use course::{Faults, Words};
use tempfile::TempDir;

struct NoWords;

impl Words for NoWords {
    fn text(&self, _key: &str) -> Option<String> {
        None
    }
}

/// The files of the smallest course without a fault, with their relative paths.
fn base() -> Vec<(PathBuf, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/bad-content/base");
    let mut files = Vec::new();
    collect(&folder, Path::new(""), &mut files);
    files.sort();
    files
}

fn collect(folder: &Path, prefix: &Path, files: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(folder).expect("folder") {
        let (path, name) = entry.map(|entry| (entry.path(), prefix.join(entry.file_name()))).expect("entry");
        if path.is_dir() {
            collect(&path, &name, files);
        } else {
            files.push((name, fs::read_to_string(path).expect("text")));
        }
    }
}

fn written(files: &[(PathBuf, String)]) -> TempDir {
    let folder = tempfile::tempdir().expect("folder");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("parent")).expect("folder");
        fs::write(path, text).expect("file");
    }
    folder
}

fn faults(files: &[(PathBuf, String)]) -> Faults {
    course::read(written(files).path(), &NoWords).err().unwrap_or_default()
}

/// Code, file, line and column of every fault.
fn told(faults: &Faults) -> Vec<String> {
    let line = |fault: &course::Fault| {
        let place = &fault.place;
        let (line, column) = faults.line_and_column(place).expect("text");
        format!("{} {}:{line}:{column}", fault.code, place.file)
    };
    faults.list.iter().map(line).collect()
}

#[test]
fn line_ends_and_byte_order_marks_of_any_system_are_read() {
    let mut files = base();
    for (_, text) in &mut files {
        *text = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    }
    assert_eq!(told(&faults(&files)), Vec::<String>::new());
    for (_, text) in &mut files {
        *text = text.replace("term: seat", "term: seat\r\nnote: é").replace("rests on the", "rests <b> on the");
    }
    let expected = ["markdown-raw-html en/lessons/parts.md:11:16", "yaml-unknown-key en/terms/seat.md:5:1"];
    assert_eq!(told(&faults(&files)), expected);
}

#[test]
fn all_faults_of_all_files_are_told_in_the_order_of_the_files() {
    let mut files = base();
    for (name, text) in &mut files {
        match name.file_name().and_then(|name| name.to_str()) {
            Some("course.yaml") => *text = text.replace("units: us", "units: both").replace("[parts]", "[part, parts]"),
            Some("parts.md") => {
                *text = text.replace("The disc", "The <i>disc</i> [x](term:seet)\n\n#### Deep\n\nThe disc")
            }
            Some("seat.md") => *text = text.replace("confused_with: [disc]", "confused_with: [disk]"),
            Some("seat_force.md") => *text = text.replace("unit: { us: lbf, si: N }", "unit: { us: psi, si: N }"),
            _ => (),
        }
    }
    let expected = [
        "course-units course.yaml:6:8",
        "lesson-unknown course.yaml:9:11",
        "markdown-raw-html en/lessons/parts.md:11:5",
        "term-unknown en/lessons/parts.md:11:21",
        "heading-skips-level en/lessons/parts.md:13:1",
        "recipe-unit-kind en/recipes/seat_force.md:14:17",
        "term-unknown en/terms/seat.md:5:17",
    ];
    assert_eq!(told(&faults(&files)), expected);
}

#[test]
fn a_course_within_a_course_is_left_alone() {
    let mut files = base();
    files.push(("guide/course.yaml".into(), "not even YAML: [".to_owned()));
    files.push(("guide/en/lessons/a.md".into(), String::new()));
    assert_eq!(told(&faults(&files)), Vec::<String>::new());
    files.retain(|(name, _)| !name.ends_with("guide/course.yaml"));
    let faults = faults(&files);
    assert_eq!(faults.list.iter().map(|fault| fault.code).collect::<Vec<_>>(), [Code::CourseUnexpectedFolder]);
}

#[test]
fn a_folder_that_is_not_there_is_not_a_fault_of_the_content() {
    let faults = course::read(Path::new("/nowhere/at/all"), &NoWords).expect_err("faults");
    assert!(faults.unreadable && faults.list[0].code == Code::CourseFolderMissing);
}

/// Every file cut off, and with a piece taken out or doubled, at many places: whatever is wrong then is told, and every
/// place lies within its text.
#[test]
fn no_edit_brings_the_reader_down() {
    let files = base();
    for index in 0..files.len() {
        let text = files[index].1.clone();
        for at in (0..text.len()).step_by(23).filter(|at| text.is_char_boundary(*at) && text.is_char_boundary(at + 3)) {
            let edits = [
                text[..at].to_owned(),
                format!("{}{}", &text[..at], &text[at + 3..]),
                format!("{}{}", &text[..at + 3], &text[at..]),
                format!("{}\u{e9}{{= [^\"\n{}", &text[..at], &text[at..]),
            ];
            for edit in edits {
                let mut files = files.clone();
                files[index].1 = edit;
                let faults = faults(&files);
                for place in faults.list.iter().map(|fault| &fault.place) {
                    let text = faults.sources.get(&place.file);
                    assert!(text.is_none_or(|text| text.get(place.span.clone()).is_some()), "{place:?}: {text:?}");
                }
            }
        }
    }
}

/// As file systems of several kinds give them: an accent as one character and as two, a space at the end, capitals.
#[cfg(unix)]
#[test]
fn names_that_do_not_work_everywhere_are_told_and_what_systems_leave_is_passed_over() {
    let drawing = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1\" height=\"1\"/>";
    let file = |name: &str| (PathBuf::from(name), drawing.to_owned());
    let mut files = base();
    files.extend(["en/lessons/Thumbs.db", "en/images/desktop.ini", "en/.DS_Store", "en/terms/seat.md~"].map(file));
    assert_eq!(faults(&files).list, []);
    let long = format!("en/images/{}.svg", "x".repeat(96));
    let deep = format!("en/lessons/images/rings/{}.png", "x".repeat(94));
    let names = [
        (Code::CourseUnportableName, "en/images/sch\u{fc}tz.png"),
        (Code::CourseUnportableName, "en/images/schu\u{308}tz.png"),
        (Code::CourseUnportableName, "en/images/cap.png "),
        (Code::CourseUnportableName, "en/images/cap."),
        (Code::CourseUnportableName, r"en/images/a\cap.png"),
        (Code::CourseUnportableName, "en/images/C:cap.png"),
        (Code::CourseReservedName, "en/images/aux.png"),
        (Code::CourseNamesDifferByCase, "en/images/rings.svg"),
        (Code::CoursePathTooLong, &deep),
    ];
    files.extend(names.map(|(_, name)| file(name)));
    files.extend(["en/images/Rings.svg", &long].map(file));
    let list = faults(&files).list;
    let told: BTreeSet<_> = list.iter().map(|fault| (fault.code, fault.place.file.as_str())).collect();
    assert_eq!(told, names.into_iter().collect());
}
