//! Problems on paper and their key: the same from the same number, apart from each other, and made again from their numbers.

use std::fs;

use super::bench::Bench;

const ASKED: [&str; 6] = ["sheet", "seat_force", "--seed", "7", "--problems", "4"];

fn read(bench: &Bench, file: &str) -> String {
    fs::read_to_string(bench.0.path(file)).expect("file")
}

/// What follows a mark in a page, up to the next tag.
fn after<'p>(page: &'p str, mark: &str) -> &'p str {
    page.split(mark).nth(1).expect("mark").split('<').next().expect("text")
}

fn numbers(sheet: &str) -> &str {
    after(sheet, "class=\"numbers\">")
}

#[test]
fn a_sheet_asks_and_its_key_answers_in_another_file() {
    let bench = Bench::new();
    assert!(bench.done(&ASKED).contains("sheet-7-key.html"));
    let (sheet, key) = (read(&bench, "sheet-7.html"), read(&bench, "sheet-7-key.html"));
    assert_eq!((sheet.matches("<section").count(), key.matches("<section").count()), (4, 4));
    for page in [&sheet, &key] {
        assert!(!page.contains("<script") && !page.contains("src=") && page.contains("Training figures"));
    }
    let line = numbers(&sheet);
    assert_eq!((line.matches("seat_force ").count(), line.ends_with(" · us")), (4, true), "{line}");
    for number in line.split(" · ").filter_map(|each| each.strip_prefix("seat_force ")) {
        let drawn = bench.json(&["draw", "seat_force", "--seed", number, "--answers", "--json"]);
        let answer = drawn["answers"][0]["shown"].as_str().expect("answer");
        assert!(key.contains(answer) && !sheet.contains(answer), "{number}: {answer}");
        assert!(sheet.contains(drawn["givens"][0]["text"].as_str().expect("given")));
    }
    assert!(key.contains("This is what comes out when the bore is used as a radius."));
    let body = sheet.split("<body").nth(1).expect("body");
    assert!(!body.contains("used as a radius") && !body.contains("key"), "the sheet has nothing of the key");
}

#[test]
fn the_same_number_gives_the_same_sheet_and_no_problem_twice() {
    let bench = Bench::new();
    let made = || {
        bench.done(&ASKED);
        [read(&bench, "sheet-7.html"), read(&bench, "sheet-7-key.html")]
    };
    let first = made();
    assert_eq!(made(), first);
    let line = numbers(&first[0]).to_owned();
    let mut each: Vec<_> = line.split(" · ").collect();
    each.sort_unstable();
    each.dedup();
    assert_eq!(each.len(), 5, "{line}");
    bench.done(&["sheet", "seat_force", "--seed", "7", "--problems", "2"]);
    let shorter = read(&bench, "sheet-7.html");
    assert!(line.starts_with(numbers(&shorter).trim_end_matches(" · us")), "a longer sheet goes on from a shorter one");
    bench.done(&["sheet", "--seed", "8", "--objective", "work_seat_force", "--problems", "4"]);
    assert_ne!(numbers(&read(&bench, "sheet-8.html")), line);
}

#[test]
fn the_numbers_of_a_sheet_give_it_and_its_key_again() {
    let bench = Bench::new();
    bench.done(&[&ASKED[..], &["--units", "si"]].concat());
    let (sheet, key) = (read(&bench, "sheet-7.html"), read(&bench, "sheet-7-key.html"));
    let line = numbers(&sheet).to_owned();
    assert!(sheet.contains("barg") && !sheet.contains("psig"));
    for (name, typed) in [("a", line.clone()), ("b", line.replace(" · ", ", ")), ("c", line.replace('·', ""))] {
        bench.done(&["sheet", "--numbers", &typed, "--to", &format!("{name}.html")]);
        assert_eq!(
            (read(&bench, &format!("{name}.html")), read(&bench, &format!("{name}-key.html"))),
            (sheet.clone(), key.clone())
        );
    }
    let words: Vec<_> = line.split_whitespace().collect();
    bench.done(&[&["sheet", "--to", "d.html", "--numbers"], &words[..]].concat());
    assert_eq!(read(&bench, "d.html"), sheet);
    bench.done(&["sheet", "--numbers", &line, "--units", "us", "--to", "e.html"]);
    assert!(read(&bench, "e.html").contains("psig"));
}

#[test]
fn what_cannot_be_asked_is_told() {
    let bench = Bench::new();
    bench.fails(&["sheet", "no_such", "--seed", "1"], 2, "No recipe is called no_such");
    bench.fails(&["sheet", "--objective", "no_such", "--seed", "1"], 2, "work_seat_force");
    bench.fails(&["sheet", "seat_force"], 2, "--seed");
    bench.fails(&["sheet", "--numbers", "seat_force"], 2, "Behind seat_force comes");
    bench.fails(&["sheet", "--numbers", "seat_force 0123"], 2, "Behind seat_force comes");
    bench.fails(&["sheet", "--numbers", "12 seat_force"], 2, "The number 12 has no recipe before it");
    bench.fails(&["sheet", "--numbers", " · us"], 2, "has no numbers");
    bench.fails(&["sheet", "--numbers", &"seat_force 1 ".repeat(101)], 2, "at most 100");
    bench.0.write("sheet-1-key.html", "my notes");
    bench.fails(&["sheet", "seat_force", "--seed", "1"], 3, "left alone");
    assert_eq!(read(&bench, "sheet-1-key.html"), "my notes");
    assert!(!bench.0.path("sheet-1.html").exists(), "nothing is written where one of the two cannot be");
    bench.fails(&["sheet", "seat_force", "--seed", "1", "--to", "none/a.html"], 3, "could not be written");
}

#[test]
fn hostile_words_stay_text() {
    let bench = Bench::new();
    let title = "</style></title><script>alert(1)</script>\"}";
    bench.done(&[&ASKED[..], &["--title", title]].concat());
    for page in [read(&bench, "sheet-7.html"), read(&bench, "sheet-7-key.html")] {
        assert!(!page.contains("<script") && page.matches("</style>").count() == 1);
    }
}
