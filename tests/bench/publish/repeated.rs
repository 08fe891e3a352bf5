//! The course of the repository with its lessons many times over, each time under names of their own. Terms and recipes
//! are there once, and practise what the first lessons teach.

use std::fs;
use std::path::Path;

use seatwork_tests::{Scratch, top};

/// Copies the course of the repository into a folder of a scratch folder, with its lessons so many times; gives the ids of
/// all lessons.
pub(crate) fn make(scratch: &Scratch, folder: &str, times: usize) -> Vec<String> {
    scratch.copy(&top().join("content"), folder);
    let folder = scratch.path(folder);
    fs::remove_dir_all(folder.join("guide")).expect("the guide, which is a course of its own");
    let yaml = fs::read_to_string(folder.join("course.yaml")).expect("course");
    let (head, order) = yaml.split_once("lessons:\n").expect("the order of the lessons");
    let first: Vec<_> = order.lines().filter_map(|line| line.trim().strip_prefix("- ")).collect();
    let all: Vec<_> = (0..times).flat_map(|round| first.iter().map(move |id| named(id, round))).collect();
    fs::write(folder.join("course.yaml"), format!("{head}lessons: [{}]\n", all.join(", "))).expect("course");
    for id in &first {
        let text = fs::read_to_string(lesson(&folder, id)).expect("lesson");
        for round in 1..times {
            fs::write(lesson(&folder, &named(id, round)), renamed(&text, &first, round)).expect("lesson");
        }
    }
    all
}

fn lesson(folder: &Path, id: &str) -> std::path::PathBuf {
    folder.join(format!("en/lessons/{id}.md"))
}

/// The name of what the first round calls so.
fn named(id: &str, round: usize) -> String {
    if round == 0 { id.to_owned() } else { format!("{id}_{round}") }
}

/// A lesson with the names of its round: its own, those of its objectives, and those of the lessons it links to.
fn renamed(text: &str, lessons: &[&str], round: usize) -> String {
    let (matter, body) = text.split_once("\n---\n").expect("front matter");
    let line = |line: &str| match line.trim_start_matches([' ', '-']).strip_prefix("id: ") {
        Some(id) => line.replace(id, &named(id, round)),
        None => line.to_owned(),
    };
    let matter = matter.lines().map(line).collect::<Vec<_>>().join("\n");
    let links = lessons.iter().flat_map(|id| [")", "#"].map(|end| (id, end)));
    let body = links.fold(body.to_owned(), |body, (id, end)| {
        body.replace(&format!("lesson:{id}{end}"), &format!("lesson:{}{end}", named(id, round)))
    });
    format!("{matter}\n---\n{body}")
}
