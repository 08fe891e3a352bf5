//! Whatever is put in: no panic, no hang, and never more than 64 MB in use for an input of up to a megabyte. The corpus
//! that fuzzing keeps (`tests/fuzz/`), and texts made to be as bad as they can. A program of its own, since it counts the
//! memory of the whole process.

#[path = "../fuzz/hostile.rs"]
#[expect(unreachable_pub, reason = "the fuzz targets take it as a library")]
mod hostile;

use std::fs;

use hostile::{MOST, peak};
use peak_alloc::PeakAlloc;
use seatwork_tests::top;
use serde_json::json;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

const MEGABYTE: usize = 1 << 20;

type Entry = (&'static str, fn(&str));

const ENTRIES: [Entry; 4] = [
    ("answer_reader", hostile::answer_reader),
    ("formula", hostile::formula),
    ("recipe_reader", hostile::recipe_reader),
    ("compiled_form", hostile::compiled_form),
];

/// One test for all, since the allocator counts what all threads hold.
#[test]
fn nothing_that_is_put_in_does_harm() {
    let mut count = 0;
    for (name, run) in ENTRIES {
        let folder = top().join("tests/fuzz/corpus").join(name);
        for entry in fs::read_dir(folder).expect("corpus") {
            let text = fs::read_to_string(entry.expect("entry").path()).expect("text");
            try_one(name, run, &text, &text);
            count += 1;
        }
        for (what, text) in bad_texts() {
            try_one(name, run, &text, what);
        }
    }
    assert!(count > 100, "{count} texts in the corpus");
    whatever_is_typed();
}

/// Each bad text as the answer to every part of each form that is kept.
fn whatever_is_typed() {
    let fill = |piece: &str| piece.repeat(MEGABYTE / piece.len());
    let bad =
        bad_texts().into_iter().chain([("places", fill("0 ")), ("pairs", fill("0=1 ")), ("truths", fill("true 0 "))]);
    let bad: Vec<_> = bad.collect();
    for entry in fs::read_dir(top().join("tests/fuzz/corpus/compiled_form")).expect("corpus") {
        let form = fs::read_to_string(entry.expect("entry").path()).expect("text");
        for (what, text) in &bad {
            let most = peak(&MEMORY, || hostile::typed(&form, text));
            assert!(most <= MOST, "typed: {what}: {most} bytes in use");
        }
    }
}

fn try_one(name: &str, run: fn(&str), text: &str, what: &str) {
    let most = peak(&MEMORY, || run(text));
    assert!(most <= MOST, "{name}: {what}: {most} bytes in use");
}

/// Texts of about a megabyte.
fn bad_texts() -> Vec<(&'static str, String)> {
    let fill = |piece: &str| piece.repeat(MEGABYTE / piece.len());
    let recipe = |part: &str, piece: &str| {
        let head = "format: 1\nid: a\ntitle: a\nobjectives: []\nlevel: 1\n";
        let body = piece.repeat((MEGABYTE - head.len()) / piece.len());
        format!("{head}{part}{body}\n")
    };
    let compiled = fs::read_to_string(top().join("tests/fuzz/corpus/compiled_form/seat_force")).expect("corpus");
    let nested = format!("{}1 psi{}", "(".repeat(MEGABYTE / 2), ")".repeat(MEGABYTE / 2));
    let long_draws = (0..20_000).map(|count| format!("  a{count}: 1 in .. 3 in by 1/4 in\n")).collect::<String>();
    vec![
        ("digits", fill("9")),
        ("points", fill("1.")),
        ("commas", fill("1,")),
        ("brackets", nested),
        ("open brackets", fill("(")),
        ("signs", fill("- ")),
        ("a sum", format!("1{}", fill(" + 1"))),
        ("a product", format!("1 in{}", fill(" * 1"))),
        ("comparisons", format!("1 > 0{}", fill(" and 1 > 0"))),
        ("calls", fill("bore_area(bore: ")),
        ("numbers that are not separated", fill("0.3t ")),
        ("letters", fill("a")),
        ("wide letters", fill("½")),
        ("nothing", fill("\0")),
        ("lists in YAML", fill("[")),
        ("lists in lists in YAML", fill("- ")),
        ("mappings in YAML", fill("{a: ")),
        ("anchors in YAML", format!("a: &a [x]\nb: [{}]\n", fill("*a,"))),
        ("lists in JSON", fill("[")),
        ("mappings in JSON", fill("{\"format\":")),
        ("parts", recipe("ask:\n", "  - { id: a, label: a, answer: \"1\" }\n")),
        (
            "options",
            recipe(
                "ask:\n  - id: a\n    form: one_of\n    label: a\n    options:\n",
                "      - { text: a, right: \"1 > 2\" }\n",
            ),
        ),
        ("conditions", recipe("ask: []\nrequire:\n", "  - \"1 in > 2 in\"\n")),
        ("draws", format!("format: 1\nid: a\ntitle: a\nobjectives: []\nlevel: 1\nask: []\ndraw:\n{long_draws}")),
        ("a choice of many", recipe("ask: []\ndraw:\n  a:\n    choose:\n", "      - 1 in\n")),
        ("a long sum", format!("1{}", " + 1".repeat(999))),
        ("a choice with a long name, shown often", shown_often()),
        ("a compiled form whose choice is long and shown often", compiled_shown_often(50_000, 6_000)),
        ("a compiled form whose choice is short and shown often", compiled_shown_often(20, 12_000)),
        ("small mappings in JSON", format!("[{}0]", "{\"\":0},".repeat(MEGABYTE / 7))),
        ("small mappings in JSON, fewer", format!("[{}0]", "{\"\":0},".repeat(28_000))),
        ("a compiled form cut short", compiled[..compiled.len() / 2].to_owned()),
        ("a compiled form with a long name", compiled.replace("seat_force", &fill("seat"))),
    ]
}

/// A recipe in which what is drawn is long, and is in a label again and again.
fn shown_often() -> String {
    let head = "format: 1\nid: a\ntitle: a\nobjectives: []\nlevel: 1\ndraw:\n  a: { choose: [";
    let ask = format!("ask:\n  - {{ id: b, label: \"{}\", answer: \"1\" }}\n", "{a}".repeat(15_000));
    format!("{head}{}] }}\n{ask}", "x".repeat(50_000))
}

/// A compiled form with a choice whose text has so many letters and is shown so many times.
fn compiled_shown_often(letters: usize, times: usize) -> String {
    let option = json!({ "choice": { "name": "single", "text": "x".repeat(letters) } });
    let source = json!({ "choose": [option] });
    json!({
        "format": 2, "rules": 2, "id": "a", "title": "a", "level": 1, "objectives": [], "require": [], "must_hold": [],
        "draws": [{ "name": "a", "source": { "us": source, "si": source } }], "asks": [], "start": null,
        "question": vec![json!({ "hole": "a" }); times], "working": [], "laws": [], "words": [],
    })
    .to_string()
}
