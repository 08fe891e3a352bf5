//! The course is found wherever a command is typed, and nothing is written into it.

use std::path::Path;
use std::process::Output;

use seatwork_tests::{Scratch, command};

/// A scratch folder with the course that `start` writes, at `brewery`.
fn started() -> Scratch {
    let scratch = Scratch::new();
    done(&run(&scratch, "", &["start", "brewery"]));
    scratch
}

fn run(scratch: &Scratch, within: &str, words: &[&str]) -> Output {
    let folder = if within.is_empty() { scratch.path("") } else { scratch.path(within) };
    typed(&folder, &scratch.path("cache"), words)
}

fn typed(folder: &Path, cache: &Path, words: &[&str]) -> Output {
    command().env("SEATWORK_CACHE", cache).current_dir(folder).args(words).output().expect("command")
}

fn done(output: &Output) -> String {
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

const QUICK: [&str; 3] = ["disc_force", "--seeds", "20"];

#[test]
fn a_course_is_found_around_below_and_by_its_name() {
    let scratch = started();
    let places: [(&str, &[&str]); 6] = [
        ("", &[]),
        ("brewery", &[]),
        ("brewery/en/recipes", &[]),
        ("", &["brewery"]),
        ("brewery/en", &["../../brewery"]),
        ("", &["--course", "brewery"]),
    ];
    for (within, more) in places {
        let words: Vec<_> = ["proof"].iter().chain(&QUICK).chain(more).copied().collect();
        let said = done(&run(&scratch, within, &words));
        assert!(said.starts_with("disc_force\n"), "{within} {more:?}: {said}");
    }
}

#[test]
fn of_several_courses_one_has_to_be_named() {
    let scratch = started();
    done(&run(&scratch, "", &["start", "boiler"]));
    let output = run(&scratch, "", &["proof"]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("boiler, brewery"), "{said}");
}

#[test]
fn who_stands_in_the_course_gets_the_site_and_the_samples_beside_it() {
    let scratch = started();
    let before = scratch.files("brewery");
    done(&run(&scratch, "brewery", &["draw", "disc_force", "--samples", "2"]));
    assert!(scratch.path("samples-disc_force.html").is_file());
    done(&run(&scratch, "brewery/en", &["publish"]));
    assert!(scratch.path("site/index.html").is_file());
    assert!(scratch.files("brewery") == before, "the course has other files");
}

#[test]
fn schemas_never_stand_among_the_files_of_a_course() {
    let scratch = started();
    let names = || scratch.files("brewery").into_iter().map(|(name, _)| name).collect::<Vec<_>>();
    let before = names();
    for (within, words) in
        [("", vec!["schema", "brewery"]), ("brewery", vec!["schema"]), ("brewery", vec!["schema", "."])]
    {
        done(&run(&scratch, within, &words));
        assert_eq!(names(), before, "{words:?}");
    }
    done(&run(&scratch, "", &["proof", "brewery", "disc_force", "--seeds", "20"]));
}

#[test]
fn the_answers_of_a_draw_have_what_each_mistake_comes_out_as() {
    let scratch = started();
    for words in [["draw", "disc_force", "brewery"], ["draw", "brewery", "disc_force"]] {
        let words: Vec<_> = words.into_iter().chain(["--seed", "1", "--answers"]).collect();
        let said = done(&run(&scratch, "", &words));
        let (_, mistakes) = said.split_once("Mistakes that the recipe names:\n").expect("mistakes");
        assert!(mistakes.lines().all(|line| line.contains(": ")) && mistakes.lines().count() > 0, "{said}");
    }
}
