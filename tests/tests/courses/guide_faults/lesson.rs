//! One lesson: its head, and a section for each code.

use std::fmt::Write as _;

use course::Code;
use pages::Words;
use seatwork_tests::BadCase;

use super::example::{Example, fenced};

/// The lesson that explains these codes, as Markdown.
pub(crate) fn lesson(id: &str, codes: &[Code], words: &Words) -> String {
    let word = |part: &str| words.get(&format!("guide.families.{id}.{part}")).to_owned();
    let mut text = format!(
        "---\nformat: 1\nid: {id}\ntitle: {}\nsummary: {}\nobjectives:\n  - id: read_and_fix_{id}\n    text: {}\n---\n",
        quoted(&word("title")),
        quoted(&word("summary")),
        quoted(&word("objective")),
    );
    let links: Vec<_> = codes.iter().map(|code| format!("[{code}](#{code})")).collect();
    write!(text, "{}\n\n{}\n", words.get("guide.faults.intro"), links.join(" ·\n")).expect("a text");
    let cases = [BadCase::all(), BadCase::warned()].concat();
    for code in codes {
        let why = words.get(&format!("faults.{code}.why")).to_owned();
        let shown = match cases.iter().find(|case| case.code() == *code) {
            Some(case) => Example::of(case).markdown(words),
            None => without_example(*code, words),
        };
        write!(text, "\n## {code}\n\n{why}\n\n{shown}\n").expect("a text");
    }
    text
}

/// What is said where no folder shows the fault: why, and the message with its values left open.
fn without_example(code: Code, words: &Words) -> String {
    let part = |part: &str| open(words.get(&format!("faults.{code}.{part}")));
    let lead = words.fill("guide.faults.no_case", &[("reason", &part("no_case"))]);
    let [title, expected, fix] = ["title", "expected", "fix"].map(part);
    let message = fenced(&format!("error[{code}]: {title}\n = note: {expected}\n = help: {fix}"));
    format!("{lead}\n\n{message}")
}

/// A sentence of a message without its values.
fn open(sentence: &str) -> String {
    let mut parts = sentence.split('{');
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |text, part| text + "…" + part.split_once('}').map_or(part, |(_, rest)| rest))
}

/// A text in the double quotes of YAML.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
