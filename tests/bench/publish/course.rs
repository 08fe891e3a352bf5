//! A made course: lessons of 12 kB with four practice blocks each, and the terms and recipes of the course in
//! the repository that they use.

use std::fmt;
use std::fs;
use std::path::Path;

/// How many lessons.
pub(crate) const LESSONS: usize = 1000;

/// The recipes that the lessons practise.
pub(crate) const RECIPES: [&str; 5] =
    ["spring_rate_for_rise", "full_open_then_rise", "overpressure_and_mawp", "blowdown_of_set", "turns_for_new_set"];

/// The text of every lesson, with `@names@` where one differs from the next.
const TEXT: &str = include_str!("lesson.md");

/// What is in the lessons where a number is worked out, if none is to be.
const NO_NUMBER: &str =
    "a number that is worked out by hand on the sheet beside the valve and then entered in the record";

/// What the lessons hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Prose with headings, lists, tables, formulas, links and mentions of terms.
    Prose,
    /// The same with numbers that are worked out.
    Numbers,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Prose => write!(f, "prose"),
            Self::Numbers => write!(f, "with {} worked numbers a lesson", TEXT.matches("{=").count()),
        }
    }
}

impl Kind {
    /// The text of every lesson, with `@names@`.
    fn text(self) -> String {
        if self == Self::Numbers {
            return TEXT.to_owned();
        }
        let mut parts = TEXT.split("{=");
        let first = parts.next().unwrap_or_default().to_owned();
        parts.fold(first, |text, part| text + NO_NUMBER + part.split_once('}').expect("end of a number").1)
    }
}

/// Writes the course into an empty folder, with so many lessons.
pub(crate) fn make(folder: &Path, kind: Kind, lessons: usize) {
    let text = format!("{FRONT}{}", kind.text());
    let content = seatwork_tests::top().join("content");
    for sort in ["lessons", "terms", "recipes"] {
        fs::create_dir_all(folder.join("en").join(sort)).expect("folder");
    }
    let ids: Vec<_> = (0..lessons).map(id).collect();
    fs::write(folder.join("course.yaml"), COURSE.replace("@lessons@", &ids.join(", "))).expect("course");
    for number in 0..lessons {
        fs::write(folder.join(format!("en/lessons/{}.md", id(number))), lesson(&text, number, lessons))
            .expect("lesson");
    }
    for entry in fs::read_dir(content.join("en/terms")).expect("terms") {
        let path = entry.expect("term").path();
        copy(&path, &folder.join("en/terms").join(path.file_name().expect("name")));
    }
    for recipe in RECIPES {
        let name = format!("en/recipes/{recipe}.md");
        copy(&content.join(&name), &folder.join(&name));
    }
}

/// Copies a term or recipe of the repository, with lessons and objectives of the made course in it.
pub(crate) fn copy(from: &Path, to: &Path) {
    let text = fs::read_to_string(from).expect("text");
    let line = |line: &str| match line.strip_prefix("objectives:") {
        Some(_) => "objectives: [balance_0000]\n".to_owned(),
        None => with_own_lesson(line),
    };
    fs::write(to, text.split_inclusive('\n').map(line).collect::<String>()).expect("copy");
}

fn with_own_lesson(line: &str) -> String {
    let Some((before, link)) = line.split_once("(lesson:") else { return line.to_owned() };
    let after = link.split_once(')').map_or("", |(_, after)| after);
    format!("{before}(lesson:{}){after}", id(0))
}

/// The id of a lesson.
pub(crate) fn id(number: usize) -> String {
    format!("relief_valve_{number:04}")
}

/// One lesson of so many: its front matter and its text, with numbers of its own.
fn lesson(text: &str, number: usize, of: usize) -> String {
    let opening = 60 + number % 37 * 5;
    let lift = 8 + number % 11;
    let neighbour = |other: usize| id(other % of);
    let recipe = |place: usize| RECIPES[(number + place) % RECIPES.len()].to_owned();
    let values = [
        ("number", format!("{number:04}")),
        ("tag", format!("RV-{}", 100 + number)),
        ("set", format!("P-{}", 1 + number % 9)),
        ("opening", opening.to_string()),
        ("full_open", (opening + 6 + number % 13).to_string()),
        ("reseat", (opening - 4 - number % 5).to_string()),
        ("mawp", (opening + 2).to_string()),
        ("bore", format!("{}.{}", 1 + number % 3, number % 10)),
        ("rate", (200 + number % 29 * 10).to_string()),
        ("lift", format!("0.{lift:02}")),
        ("half", format!("0.{:03}", lift * 5)),
        ("before", neighbour(number + of - 1)),
        ("after", neighbour(number + 1)),
        ("first", recipe(0)),
        ("second", recipe(1)),
        ("third", recipe(2)),
        ("fourth", recipe(3)),
    ];
    values.iter().fold(text.to_owned(), |text, (name, value)| text.replace(&format!("@{name}@"), value))
}

const COURSE: &str = r#"format: 1
course_id: tarn_hollow_benchmark
title: "A thousand relief valves at Tarn Hollow"
owner: "Tarn Hollow training site (fictional)"
languages: [en]
units: us
decimal_mark: "."
safety: "This course teaches and does not certify: the manufacturer's instructions, the local code and licensed people decide."
lessons: [@lessons@]
"#;

const FRONT: &str = r#"---
format: 1
id: relief_valve_@number@
title: "Relief valve @tag@: how it opens, lifts and closes"
summary: "Two forces meet at the disc of @tag@. Why the pressure must keep rising to lift the disc further, and what a turn of the screw does."
objectives:
  - id: balance_@number@
    text: "Explain opening and lift of @tag@ as a balance of two forces, and predict its full-open pressure."
  - id: distances_@number@
    text: "Tell opening accumulation, overpressure and accumulation over MAWP apart for @tag@."
  - id: screw_@number@
    text: "Work out what a turn of the adjusting screw of @tag@ does, and say what limits it."
scenario:
  opening: @opening@ psig
  full_open: @full_open@ psig
  reseat: @reseat@ psig
  mawp: @mawp@ psig
  bore: @bore@ in
  small_bore: 1 1/2 in
  large_bore: 2 in
  rate: @rate@ lbf/in
  lift: @lift@ in
  half: @half@ in
  pitch: 1/16 in
---
"#;
