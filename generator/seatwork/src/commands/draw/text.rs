//! A drawn problem as text for the terminal.

use pages::Words;
use problems::draw::Problem;
use problems::view::{Outline, PartView, ProblemView};

use crate::out::say;
use crate::plain::plain;

/// Prints a problem, with its answers and working where they are asked for.
pub(super) fn print(problem: &Problem, answers: bool, words: &Words) {
    let view = problem.view(answers, "");
    say!("{}\n\n{}\n", problem.recipe.title, plain(&view.statement));
    for part in &view.parts {
        print_part(part, words);
    }
    print_answers(&view, words);
    if answers {
        say!("\n{}", plain(&problem.solution().working));
        print_mistakes(problem, words);
    }
}

/// What each mistake that the recipe names comes out as.
fn print_mistakes(problem: &Problem, words: &Words) {
    let named = problem.review().into_iter().flat_map(|part| {
        let label = part.label.clone();
        part.reviewed.mistakes.into_iter().map(move |mistake| (label.clone(), mistake))
    });
    for (index, (label, mistake)) in named.enumerate() {
        if index == 0 {
            say!("\n{}", words.get("command.draw.mistakes"));
        }
        let shown = mistake.shown.map_or_else(|| words.get("command.samples.no_value").to_owned(), |html| plain(&html));
        say!(
            "  {}",
            words.fill("command.draw.mistake", &[("label", &label), ("name", &mistake.name), ("shown", &shown)])
        );
    }
}

/// A part: its label with what belongs beside it, and below it the rest of what is asked.
fn print_part(part: &PartView, words: &Words) {
    let mut outline = part.form.outline().into_iter().peekable();
    let mut label = part.label.clone();
    while let Some(beside) = outline.next_if(|piece| matches!(piece, Outline::Unit(_) | Outline::Statement(_))) {
        label.push(' ');
        label.push_str(&line(&beside, words));
    }
    say!("{label}");
    outline.for_each(|piece| print_piece(&piece, words));
}

/// What is read in one line.
fn line(piece: &Outline, words: &Words) -> String {
    match piece {
        Outline::Unit(unit) => words.fill("pages.practice.in_unit", &[("unit", unit)]),
        Outline::Statement(html) => plain(html),
        Outline::Sentence(key, values) => {
            let values: Vec<_> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
            words.fill(key, &values)
        }
        Outline::Options(..) | Outline::Numbered(_) | Outline::Rows(..) => String::new(),
    }
}

fn print_piece(piece: &Outline, words: &Words) {
    match piece {
        Outline::Unit(_) | Outline::Statement(_) | Outline::Sentence(..) => say!("{}", line(piece, words)),
        Outline::Options(above, options) => {
            above.iter().for_each(|key| say!("{}", words.get(key)));
            options.iter().for_each(|option| say!("  - {}", plain(&option.html)));
        }
        Outline::Numbered(parts) => parts.iter().for_each(|(number, html)| say!("  {number:2} {}", plain(html))),
        Outline::Rows(heads, rows) => print_rows(heads, rows),
    }
}

/// A table, in columns as wide as what they hold.
fn print_rows(heads: &[String], rows: &[Vec<String>]) {
    let texts = |row: &[String]| row.iter().map(|cell| plain(cell)).collect::<Vec<_>>();
    let all: Vec<_> = [heads].into_iter().chain(rows.iter().map(Vec::as_slice)).map(texts).collect();
    let lengths = |place: usize| all.iter().filter_map(move |row| row.get(place)).map(|cell| cell.chars().count());
    let width = |place: usize| lengths(place).max().unwrap_or(0);
    for row in all.iter().filter(|row| !row.is_empty()) {
        let cell = |(place, text): (usize, &String)| format!("{text:>width$}", width = width(place));
        say!("  {}", row.iter().enumerate().map(cell).collect::<Vec<_>>().join("  "));
    }
}

fn print_answers(view: &ProblemView, words: &Words) {
    for answer in view.answers.iter().flatten() {
        let colon = if answer.label.ends_with('?') { "" } else { ":" };
        let shown = plain(&answer.shown).replace('\n', "; ");
        say!("\n{}. {}{colon} {shown}", words.get("command.answer"), answer.label);
    }
}
