//! A drawn problem as text for the terminal.

use pages::Words;
use problems::draw::Problem;
use problems::view::{FigureView, FormView, OptionView, PartView, ProblemView, RoundView};

use crate::out::say;
use crate::plain::plain;

/// Prints a problem, with its answers and working where they are asked for.
pub(super) fn print(problem: &Problem, answers: bool, words: &Words) {
    let view = problem.view(answers);
    say!("{}\n\n{}\n", problem.recipe.title, plain(&view.statement));
    for part in &view.parts {
        print_part(part, words);
    }
    print_answers(&view, words);
    if answers {
        say!("\n{}", plain(&problem.solution().working));
    }
}

fn print_part(part: &PartView, words: &Words) {
    let label = &part.label;
    match &part.form {
        FormView::Number { unit, round, limit, figure, .. } => {
            let unit = unit.as_deref().map(|unit| words.fill("pages.practice.in_unit", &[("unit", unit)]));
            let asked: Vec<_> = unit.into_iter().chain(round.as_ref().map(|round| rounded(round, words))).collect();
            say!("{label} {}", asked.join(", "));
            if let Some(limit) = limit {
                say!("{}", words.get(&format!("live.round.limit_{limit}")));
            }
            figure.iter().for_each(print_rows);
        }
        FormView::OneOf { options } | FormView::SeveralOf { options } => print_list(label, options),
        FormView::InOrder { items } => print_list(label, items),
        FormView::Match { items, partners } => {
            print_list(label, items);
            print_list(words.get("command.draw.partners"), partners);
        }
        FormView::PointAt { options, .. } => {
            say!("{label}");
            options.iter().for_each(|option| say!("  {:2} {}", option.number, plain(&option.html)));
        }
        FormView::TrueOrFalse { statement, reasons } => {
            say!("{label} {}", plain(statement));
            print_list(words.get("command.draw.reasons"), reasons);
        }
    }
}

/// How a number is to be rounded, in words.
fn rounded(round: &RoundView, words: &Words) -> String {
    let figures = |figures: u8| words.fill("command.draw.figures", &[("figures", &figures.to_string())]);
    let to = round.figures.map(figures).or_else(|| round.to.clone()).unwrap_or_default();
    let key = match round.side {
        "up" => "command.draw.round_up",
        "down" => "command.draw.round_down",
        "safe" => "command.draw.round_safe",
        _ => "command.draw.round_nearest",
    };
    words.fill(key, &[("to", &to)])
}

/// A figure as the list of what it shows, in columns as wide as their heads.
fn print_rows(figure: &FigureView) {
    let cell = |(head, text): (&String, &String)| format!("{text:>width$}", width = head.chars().count());
    for row in [&figure.heads].into_iter().chain(&figure.rows).filter(|row| !row.is_empty()) {
        say!("  {}", figure.heads.iter().zip(row).map(cell).collect::<Vec<_>>().join("  "));
    }
}

fn print_list(label: &str, options: &[OptionView]) {
    say!("{label}");
    options.iter().for_each(|option| say!("  - {}", plain(&option.html)));
}

fn print_answers(view: &ProblemView, words: &Words) {
    for answer in view.answers.iter().flatten() {
        let colon = if answer.label.ends_with('?') { "" } else { ":" };
        let shown = plain(&answer.shown).replace('\n', "; ");
        say!("\n{}. {}{colon} {shown}", words.get("command.answer"), answer.label);
    }
}
