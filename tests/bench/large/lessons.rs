//! The course of the repository with each of its lessons many times over.

use std::fs;
use std::path::{Path, PathBuf};

use seatwork_tests::top;

/// How many lessons the course has.
pub(crate) const COURSE: usize = 10;

/// The lessons that were made.
pub(crate) struct Lessons {
    folder: PathBuf,
    /// The ids, in their order.
    ids: Vec<String>,
}

impl Lessons {
    /// Copies the course into a new folder, its lessons so many times. The first copies keep their names, so that recipes
    /// find their objectives; the later ones link to each other.
    pub(crate) fn make(folder: &Path, times: usize) -> Self {
        let content = top().join("content");
        for sort in ["lessons", "terms", "recipes"] {
            fs::create_dir_all(folder.join("en").join(sort)).expect("folder");
        }
        for sort in ["terms", "recipes"] {
            for file in entries(&content.join("en").join(sort)) {
                fs::copy(&file, folder.join("en").join(sort).join(file.file_name().expect("name"))).expect("copy");
            }
        }
        let course = fs::read_to_string(content.join("course.yaml")).expect("course");
        let (head, order) = course.split_once("lessons:\n").expect("order");
        let originals: Vec<_> = order.lines().map(|line| line.trim_start_matches("  - ").to_owned()).collect();
        assert_eq!(originals.len(), COURSE);
        let mut lessons = Self { folder: folder.join("en/lessons"), ids: Vec::new() };
        for time in 0..times {
            lessons.ids.extend(originals.iter().map(|id| numbered(id, time)));
        }
        fs::write(folder.join("course.yaml"), format!("{head}lessons: [{}]\n", lessons.ids.join(", ")))
            .expect("course");
        for id in &originals {
            let text = fs::read_to_string(content.join(format!("en/lessons/{id}.md"))).expect("lesson");
            for time in 0..times {
                fs::write(lessons.file(&numbered(id, time)), copy(&text, time)).expect("lesson");
            }
        }
        lessons
    }

    /// Changes the title of a lesson in the middle.
    pub(crate) fn change(&self, round: usize) {
        let file = self.file(&self.ids[self.ids.len() / 2]);
        let text = fs::read_to_string(&file).expect("lesson");
        let title = |line: &str| match line.starts_with("title: ") {
            true => format!("title: \"Changed for the {}th time\"\n", round + 1),
            false => line.to_owned(),
        };
        fs::write(file, text.split_inclusive('\n').map(title).collect::<String>()).expect("lesson");
    }

    /// All files, in the order of the lessons.
    pub(crate) fn files(&self) -> impl Iterator<Item = PathBuf> {
        self.ids.iter().map(|id| self.file(id))
    }

    fn file(&self, id: &str) -> PathBuf {
        self.folder.join(format!("{id}.md"))
    }
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder).expect("folder").map(|entry| entry.expect("file").path()).collect()
}

/// An id for one of the times: the first keeps it.
fn numbered(id: &str, time: usize) -> String {
    if time == 0 { id.to_owned() } else { format!("{id}_{time:04}") }
}

/// A lesson for one of the times: its id, its objectives and its links to lessons have the number.
fn copy(text: &str, time: usize) -> String {
    let (matter, body) = text.trim_start_matches("---\n").split_once("\n---\n").expect("front matter");
    let matter = matter.lines().map(|line| match line.split_once("id: ") {
        Some((before @ ("" | "  - "), id)) => format!("{before}id: {}\n", numbered(id, time)),
        _ => format!("{line}\n"),
    });
    let mut parts = body.split("(lesson:");
    let first = parts.next().unwrap_or_default().to_owned();
    let body = parts.fold(first, |body, part| {
        let (id, rest) = part.split_at(part.find(['#', ')']).expect("end of a link"));
        format!("{body}(lesson:{}{rest}", numbered(id, time))
    });
    format!("---\n{}---\n{body}", matter.collect::<String>())
}
