//! Proof: what it tells of a recipe, what it remembers of it, and the page of samples.
//!
//! What it refuses is in `tests/bad-content/proof-*`, one fault a folder.

use std::fs;

use course::Code;
use seatwork_tests::BadCase;
use serde_json::Value;

use super::bench::Bench;

impl Bench {
    /// The name and bytes of the one entry that is remembered.
    fn entry(&self) -> (String, Vec<u8>) {
        let mut entries = self.0.files("cache/proof");
        assert_eq!(entries.len(), 1, "{:?}", entries.iter().map(|(name, _)| name).collect::<Vec<_>>());
        entries.remove(0)
    }

    /// Puts something in the place of the entry.
    fn put(&self, bytes: impl AsRef<[u8]>) {
        self.0.write(&format!("cache/proof/{}", self.entry().0), bytes);
    }
}

const FEW: [&str; 3] = ["proof", "--seeds", "100"];
const FEW_JSON: [&str; 4] = ["proof", "--seeds", "100", "--json"];

#[test]
fn a_recipe_is_reported_in_words() {
    let bench = Bench::new();
    insta::with_settings!({ omit_expression => true }, {
        insta::assert_snapshot!("report", bench.done(&["proof", "seat_force"]));
    });
}

#[test]
fn choices_tell_how_often_each_option_is_right() {
    let bench = Bench::new();
    bench.0.write("course/en/recipes/way.md", CHOICE);
    insta::with_settings!({ omit_expression => true }, {
        insta::assert_snapshot!("report_of_a_choice", bench.done(&["proof", "way"]));
    });
    let report = bench.json(&["proof", "way", "--json"]);
    let points = report["recipes"][0]["systems"][0]["points"].as_array().expect("list").clone();
    let codes: Vec<_> = points.iter().filter_map(|point| point["code"].as_str()).collect();
    assert_eq!(codes, ["few_problems", "seldom_right", "nearly_always_right"]);
}

/// A recipe whose least answer is twice its tolerance.
const GUESSED: &str = include_str!("proof/room.md");

#[test]
fn a_tolerance_that_is_much_of_an_answer_is_something_to_look_at() {
    let bench = Bench::new();
    bench.0.write("course/en/recipes/room.md", GUESSED);
    let report = bench.json(&["proof", "room", "--json"]);
    let system = &report["recipes"][0]["systems"][0];
    let widest = &system["parts"][0]["widest"];
    assert_eq!(widest["share"], 0.5);
    assert_eq!(system["points"][0]["code"], "wide_tolerance", "{}", system["points"]);
    assert_eq!(report["recipes"][0]["systems"][1]["points"], serde_json::json!([]));
    let seed = widest["seed"].to_string();
    assert!(bench.done(&["draw", "room", "--seed", &seed]).contains("The gap is 1"), "seed {seed}");
}

/// A recipe that asks in another unit than most quantities of the kind are shown in.
const ASKED: &str = include_str!("proof/leak.md");

#[test]
fn a_working_ends_in_the_unit_that_is_asked_for() {
    let bench = Bench::new();
    bench.0.write("course/en/recipes/leak.md", ASKED);
    for units in ["us", "si"] {
        let drawn = bench.done(&["draw", "leak", "--seed", "7", "--units", units, "--answers"]);
        let shown = drawn.split("Limit: ").nth(1).and_then(|rest| rest.lines().next()).expect("the answer");
        assert!(["20", "30", "40"].map(|number| format!("{number}\u{a0}cm³/h")).contains(&shown.to_owned()), "{drawn}");
        assert!(drawn.trim_end().ends_with(&format!("= {shown}")), "{drawn}");
    }
}

/// A recipe that asks in every form.
const EVERY_FORM: &str = include_str!("proof/every_form.md");

#[test]
fn every_form_is_proven_drawn_and_shown() {
    let bench = Bench::new();
    bench.0.write("course/en/recipes/every_form.md", EVERY_FORM);
    let drawn = bench.done(&["draw", "every_form", "--seed", "7", "--answers"]);
    insta::with_settings!({ omit_expression => true }, {
        insta::assert_snapshot!("report_of_every_form", bench.done(&["proof", "every_form"]));
        insta::assert_snapshot!("draw_of_every_form", drawn);
    });
    let forms =
        ["number", "number", "one_of", "several_of", "in_order", "match", "point_at", "true_or_false", "fill_table"];
    let json = bench.json(&["draw", "every_form", "--seed", "7", "--answers", "--json"]);
    let parts = json["parts"].as_array().expect("parts");
    assert_eq!(parts.iter().map(|part| part["form"].as_str().expect("form")).collect::<Vec<_>>(), forms);
    bench.done(&["draw", "every_form", "--samples", "2"]);
    let page = fs::read_to_string(bench.0.path("samples-every_form.html")).expect("page");
    assert_eq!(page.matches("<svg").count(), 4);
    let ids: Vec<_> = page.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let different: std::collections::BTreeSet<_> = ids.iter().collect();
    assert_eq!(ids.len(), different.len());
    for told in ["From opening to reseating.", "A trace shows pressures.", "It is on top.", "That part is not turned."]
    {
        assert!(page.contains(told), "{told}");
    }
}

/// Two kinds of odd choices: one that is nearly always right, and one that is never drawn.
const CHOICE: &str = r#"---
format: 1
id: way
title: High or low
objectives: [work_seat_force]
level: 1
draw:
  found: "71 psig .. 99 psig by 1 psi"
ask:
  - id: high
    form: one_of
    label: "Is that high?"
    options:
      - { text: "yes", right: "found >= 98.5 psig" }
      - { text: "no", right: "found < 98.5 psig" }
      - { text: "nobody can know" }
---
## Question
The pressure is {found}. Is that high?
"#;

#[test]
fn the_spread_is_that_of_the_drawn_answers() {
    let bench = Bench::new();
    let report = bench.json(&["proof", "--seeds", "500", "--json"]);
    let system = &report["recipes"][0]["systems"][0];
    assert_eq!((&system["system"], &system["draws"]), (&"us".into(), &500.into()));
    assert_eq!(system["problems"]["draws"], 10_000);
    let number = |path: &str| system.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path}"));
    assert!((number("/problems/different") + number("/problems/repeats") - 10_000.0).abs() < 0.5);
    // Nine seats and sixteen pressures.
    assert!((number("/problems/different") - 144.0).abs() < 0.5);
    let names = ["least", "lower_quartile", "median", "upper_quartile", "greatest"];
    let spread = names.map(|name| number(&format!("/parts/0/answers/{name}")));
    assert!(spread.is_sorted() && spread[0] >= 58.9 && spread[4] <= 1060.3, "{spread:?}");
    // A bore taken for a radius gives four times the force: three answers away, each a hundred tolerances of 1 %.
    assert!((number("/parts/0/hardest/tolerances") - 300.0).abs() < 1e-3);
}

#[test]
fn an_unchanged_recipe_is_not_drawn_again() {
    let bench = Bench::new();
    let first = bench.done(&FEW_JSON);
    let (name, bytes) = bench.entry();
    // What is remembered is told, so a changed entry shows that nothing was drawn.
    let changed = String::from_utf8(bytes.clone()).expect("text").replace("\"draws\":100,", "\"draws\":77,");
    bench.put(&changed);
    assert_eq!(bench.json(&FEW_JSON)["recipes"][0]["systems"][0]["draws"], 77);
    let [.., json] = FEW_JSON;
    assert_eq!(bench.done(&[&FEW[..], &["--afresh", json]].concat()), first);
    assert_eq!(bench.entry(), (name, bytes));
}

#[test]
fn publish_takes_what_proof_found_and_remembers_what_it_finds_itself() {
    let bench = Bench::new();
    let publish = ["publish", "--to", "site"];
    bench.done(&["proof"]);
    let entry = bench.entry();
    bench.done(&publish);
    assert_eq!(bench.entry(), entry);
    fs::remove_dir_all(bench.0.path("cache")).expect("cache");
    bench.done(&publish);
    assert_ne!(bench.entry().0, entry.0);
    assert_ne!(bench.done(&["proof"]), "");
    assert_eq!(bench.0.files("cache/proof").len(), 2);
}

#[test]
fn a_changed_recipe_or_another_number_of_seeds_is_drawn() {
    let bench = Bench::new();
    let first = bench.done(&FEW);
    bench.done(&["proof", "--seeds", "101"]);
    assert_eq!(bench.0.files("cache/proof").len(), 2);
    let path = bench.0.path("course/en/recipes/seat_force.md");
    let recipe = fs::read_to_string(&path).expect("recipe");
    fs::write(&path, recipe.replace("3 in by 1/4 in", "3 1/4 in by 1/4 in")).expect("recipe");
    assert_ne!(bench.done(&FEW), first);
    assert_eq!(bench.0.files("cache/proof").len(), 3);
}

#[test]
fn a_broken_or_foreign_entry_is_replaced() {
    let bench = Bench::new();
    let first = bench.done(&FEW);
    let (name, bytes) = bench.entry();
    let text = String::from_utf8(bytes.clone()).expect("text");
    let foreign_key = text.replacen(&name[..8], "00000000", 1);
    let foreign_recipe = text.replace("seat_force", "other_one");
    let cut = text[..text.len() / 2].to_owned();
    for broken in [String::new(), "{}".into(), "\u{0}".into(), cut, foreign_key, foreign_recipe, "[".repeat(100_000)] {
        bench.put(&broken);
        assert_eq!(bench.done(&FEW), first, "{}", &broken[..broken.len().min(60)]);
        assert_eq!(bench.entry(), (name.clone(), bytes.clone()));
    }
}

#[test]
fn a_folder_that_cannot_be_written_is_no_error() {
    let bench = Bench::new();
    bench.0.write("cache", "a file where the folder should be");
    assert!(bench.done(&FEW).contains("seat_force"));
    assert_eq!(fs::read(bench.0.path("cache")).expect("file"), b"a file where the folder should be");
}

#[test]
fn what_failed_is_not_remembered() {
    let bench = Bench(BadCase::named(Code::ProofMistakeHidden.id()).broken());
    bench.fails(&FEW, 1, Code::ProofMistakeHidden.id());
    bench.fails(&FEW, 1, "seed 1)");
    assert!(bench.0.files("cache").is_empty());
}

#[test]
fn only_the_recipes_named_are_proven() {
    let bench = Bench::new();
    bench.0.write("course/en/recipes/way.md", CHOICE);
    let ids = |report: Value| -> Vec<_> {
        report["recipes"].as_array().expect("list").iter().map(|recipe| recipe["recipe"].clone()).collect()
    };
    assert_eq!(ids(bench.json(&["proof", "way", "--seeds", "20", "--json"])), ["way"]);
    assert_eq!(ids(bench.json(&["proof", "--seeds", "20", "--json"])), ["seat_force", "way"]);
    bench.fails(&["proof", "no_such"], 2, "seat_force, way");
}

#[test]
fn a_page_of_samples_shows_answers_and_mistakes_and_stands_alone() {
    let bench = Bench::new();
    assert!(bench.done(&["draw", "seat_force", "--samples", "12"]).contains("samples-seat_force.html"));
    let page = fs::read_to_string(bench.0.path("samples-seat_force.html")).expect("page");
    let body = page.split("<body").nth(1).expect("body");
    let first = body.split("<p").nth(1).expect("paragraph");
    assert!(first.contains("For the instructor, not for learners."), "{first}");
    assert_eq!(body.matches("class=\"sample\"").count(), 12);
    assert_eq!(body.matches("This is what comes out when the bore is used as a radius.").count(), 12);
    assert!(!page.contains("<script") && !page.contains("src=") && !page.contains("http-equiv=\"refresh\""));
    for seed in ["1", "12"] {
        let drawn = bench.json(&["draw", "seat_force", "--seed", seed, "--answers", "--json"]);
        let answer = drawn["answers"][0]["shown"].as_str().expect("answer");
        let sample = body.split(&format!("id=\"seed-{seed}\"")).nth(1).expect("sample");
        assert!(sample.split("</section>").next().is_some_and(|sample| sample.contains(answer)), "{seed}: {answer}");
    }
}

#[test]
fn a_page_of_samples_is_drawn_in_either_system_and_again() {
    let bench = Bench::new();
    let page = |units: &str| {
        bench.done(&["draw", "seat_force", "--samples", "3", "--units", units, "--to", "page.html"]);
        fs::read_to_string(bench.0.path("page.html")).expect("page")
    };
    let us = page("us");
    assert!(us.contains("psig") && !us.contains("barg"));
    assert!(page("si").contains("barg"));
    assert_eq!(page("us"), us);
}

#[test]
fn no_other_file_is_written_over_with_samples() {
    let bench = Bench::new();
    for other in ["", "<!doctype html>", "<!-- seatwork samples"] {
        bench.0.write("notes.html", other);
        bench.fails(&["draw", "seat_force", "--samples", "2", "--to", "notes.html"], 3, "left alone");
        assert_eq!(fs::read_to_string(bench.0.path("notes.html")).expect("file"), other);
    }
    bench.fails(&["draw", "seat_force", "--samples", "2", "--to", "course"], 3, "could not be written");
    bench.fails(&["draw", "seat_force", "--samples", "2", "--to", "none/page.html"], 3, "could not be written");
    bench.fails(&["draw", "seat_force"], 2, "--seed");
}
