//! The author's guide: a course of its own that publishes and proves like any other, and says what is so.

use std::fs;
use std::path::PathBuf;
use std::process::Output;

use course::Code;
use seatwork_tests::{BadCase, Scratch, command, top};

/// The most that a page of the guide weighs, without the scripts that all pages share (bytes).
const MOST_BYTES: usize = 60_000;

fn guide() -> PathBuf {
    top().join("content/guide")
}

fn lesson(id: &str) -> String {
    fs::read_to_string(guide().join(format!("en/lessons/{id}.md"))).expect("lesson")
}

fn run(words: &[&str]) -> Output {
    let output = command().args(words).output().expect("command");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    output
}

/// The site of the guide, as `publish` writes it from its folder.
fn published() -> Scratch {
    let scratch = Scratch::new();
    let (course, site) = (guide().display().to_string(), scratch.path("site").display().to_string());
    run(&["publish", "--course", &course, "--to", &site]);
    scratch
}

#[test]
fn the_program_carries_the_guide_that_stands_in_the_folder() {
    let scratch = published();
    run(&["guide", &scratch.path("carried").display().to_string()]);
    let names = |files: &[(String, Vec<u8>)]| files.iter().map(|(name, _)| name.clone()).collect::<Vec<_>>();
    let (from_folder, carried) = (scratch.files("site"), scratch.files("carried"));
    assert_eq!(names(&carried), names(&from_folder));
    assert!(carried == from_folder, "build the command again: the guide has changed");
}

#[test]
fn no_page_of_the_guide_is_heavy() {
    let pages = published().files("site");
    // The sheets of relations are the same in every course.
    let pages = pages.iter().filter(|(name, _)| name.ends_with(".html") && !name.starts_with("en/relations/"));
    let heavy: Vec<_> = pages.filter(|(_, bytes)| bytes.len() > MOST_BYTES).map(|(name, _)| name).collect();
    assert_eq!(heavy, Vec::<&String>::new());
}

#[test]
fn proof_has_nothing_to_look_at_in_the_guide() {
    let said = String::from_utf8(run(&["proof", "--course", &guide().display().to_string()]).stdout).expect("text");
    let words = pages::Words::of("en").expect("words");
    for point in problems::proof::POINTS {
        let key = format!("command.proof.points.{point}");
        let word = words.get(&key);
        let end = word.rsplit('}').next().expect("the end of a sentence");
        assert!(!said.contains(end), "{point}: {said}");
    }
}

/// The guide shows a message and a report: the ones that the command really gives.
#[test]
fn what_the_guide_quotes_is_what_the_command_says() {
    let quoted = lesson("when_it_says_no");
    let kept = BadCase::named(Code::RecipeUnknown.id()).said();
    let message = kept.split("\n\n").next().expect("message");
    assert!(quoted.contains(message), "put into when_it_says_no.md:\n{message}");
    let said = run(&["proof", "rise_to_full_lift", "--course", &guide().display().to_string()]).stdout;
    let said = String::from_utf8(said).expect("text");
    let customary = said.split("\n  SI:").next().expect("report");
    assert!(quoted.contains(customary), "put into when_it_says_no.md:\n{customary}");
}

#[test]
fn the_guide_shows_every_form_and_names_every_figure() {
    let developers = fs::read_to_string(top().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let table = developers.split("| form | asks for | keys |").nth(1).and_then(|rest| rest.split("\n\n").next());
    let forms: Vec<_> = table.expect("table").split("\n| `").skip(1).filter_map(|row| row.split('`').next()).collect();
    assert_eq!(forms.len(), 9);
    let recipes = fs::read_dir(guide().join("en/recipes")).expect("folder");
    let recipes: String =
        recipes.map(|entry| fs::read_to_string(entry.expect("entry").path()).expect("text")).collect();
    for form in forms.iter().filter(|form| **form != "number") {
        assert!(recipes.contains(&format!("form: {form}\n")), "{form}");
    }
    let figures = lesson("numbers_and_figures");
    for figure in figures::FIGURES {
        assert!(figures.contains(&format!("| `{}` |", figure.id)), "{}", figure.id);
    }
}

/// How many words lie between nothing and a problem of one's own, with those of the file that is shown.
const MOST_WORDS: usize = 1200;

#[test]
fn the_way_to_a_problem_of_ones_own_is_short() {
    let shown = fs::read_to_string(guide().join("en/recipes/rise_to_full_lift.md")).expect("recipe");
    assert!(lesson("first_recipe").contains("```file\nrecipe: rise_to_full_lift\n```"));
    let read = [lesson("first_hour"), lesson("first_recipe"), shown];
    let words: usize = read.iter().map(|text| text.split_whitespace().count()).sum();
    assert!(words <= MOST_WORDS, "{words} words");
    let order = fs::read_to_string(guide().join("course.yaml")).expect("course.yaml");
    assert!(order.contains("lessons:\n  - first_hour\n  - first_recipe\n"), "nothing comes between");
}

/// What the beginning tells to type and to write, done in that order.
#[test]
fn who_does_what_the_beginning_says_has_a_problem_of_their_own() {
    let scratch = Scratch::new();
    let course = scratch.path("my-course");
    let told = lesson("first_hour") + &lesson("first_recipe");
    let type_in = |folder: &std::path::Path, line: &str| {
        assert!(told.contains(line), "{line}");
        let words: Vec<_> = line.split(' ').skip(1).collect();
        let mut command = command();
        command.env("SEATWORK_CACHE", scratch.path("cache")).current_dir(folder);
        let output = command.args(words).output().expect("command");
        assert!(output.status.success(), "{line}: {}", String::from_utf8_lossy(&output.stderr));
    };
    type_in(&scratch.path(""), "seatwork start my-course");
    let recipe = fs::read_to_string(guide().join("en/recipes/rise_to_full_lift.md")).expect("recipe");
    let recipe = recipe.replace("id: rise_to_full_lift", "id: my_rise");
    assert!(told.contains("`id: my_rise`") && told.contains("`objectives: [work_disc_force]`"));
    let recipe = recipe.replace("objectives: [write_a_recipe]", "objectives: [work_disc_force]");
    fs::write(course.join("en/recipes/my_rise.md"), recipe).expect("recipe");
    let first = course.join("en/lessons/valve_on_the_line.md");
    let text = fs::read_to_string(&first).expect("lesson") + "\n```practice\nrecipe: my_rise\n```\n";
    fs::write(&first, text).expect("lesson");
    type_in(&course, "seatwork proof my_rise");
    type_in(&course, "seatwork draw my_rise --samples 12");
    type_in(&course, "seatwork publish --to ../my-site");
    assert!(scratch.path("my-site/en/practice/my_rise.html").is_file());
}
