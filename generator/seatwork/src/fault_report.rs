//! Faults of a course on the terminal: every one with its place, what was expected and what to do.

use std::io::IsTerminal;
use std::path::Path;

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use course::{Course, Fault, Faults, Place};
use pages::Words;
use serde_json::{Value, json};

use crate::course_folder::as_typed;
use crate::progress::Progress;
use crate::status::{End, Status};

/// Reads a course, or ends with all its faults.
pub(crate) fn read_course(dir: &Path, words: &Words) -> Result<Course, End> {
    read(dir, words).map_err(|faults| end(dir, &faults, words))
}

/// Reads a course, telling how far it has come.
pub(crate) fn read(dir: &Path, words: &Words) -> Result<Course, Faults> {
    let progress = Progress::new(words.get("command.progress.reading"));
    course::read_telling(dir, words, &|count, of| progress.done(count, of))
}

/// The end that faults make: their text, and the status.
pub(crate) fn end(dir: &Path, faults: &Faults, words: &Words) -> End {
    let text = text(dir, faults, words) + &counted(["command.one_fault", "command.faults"], faults, words);
    End::new(if faults.unreadable { Status::Unreadable } else { Status::Faults }, text)
}

/// Prints what an author should look at, beside what was asked for.
pub(crate) fn warn(dir: &Path, warnings: &Faults, words: &Words) {
    if !warnings.list.is_empty() {
        let count = counted(["command.one_warning", "command.warnings"], warnings, words);
        eprintln!("{}{count}", text(dir, warnings, words));
    }
}

/// Faults or warnings as data: code, severity, place (line and column from one), the piece that is marked, and words.
pub(crate) fn as_json(dir: &Path, faults: &Faults, words: &Words) -> Value {
    faults.list.iter().map(|fault| one_as_json(dir, fault, faults, words)).collect()
}

fn one_as_json(dir: &Path, fault: &Fault, faults: &Faults, words: &Words) -> Value {
    let message = typed(dir, fault, words).message(words);
    let source = faults.sources.get(&fault.place.file);
    let at = faults.line_and_column(&fault.place);
    json!({
        "code": fault.code.id(),
        "severity": if fault.is_warning() { "warning" } else { "error" },
        "file": fault.place.file,
        "line": at.map(|(line, _)| line),
        "column": at.map(|(_, column)| column),
        "piece": source.and_then(|source| source.get(fault.place.span.clone())),
        "title": message.title,
        "expected": message.expected,
        "fix": message.fix,
    })
}

/// All faults in words, each with a blank line after it.
pub(crate) fn text(dir: &Path, faults: &Faults, words: &Words) -> String {
    let renderer = if is_plain() { Renderer::plain() } else { Renderer::styled() };
    let text = |fault| format!("{}\n\n", renderer.render(&report(dir, fault, faults, words)));
    faults.list.iter().map(text).collect()
}

/// How many faults there are, in the word for one or for more.
pub(crate) fn counted([one, more]: [&str; 2], faults: &Faults, words: &Words) -> String {
    let count = faults.list.len();
    words.fill(if count == 1 { one } else { more }, &[("count", &count.to_string())])
}

/// Colours are left out where they cannot be seen or are not wanted (<https://no-color.org>).
fn is_plain() -> bool {
    std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty()) || !std::io::stderr().is_terminal()
}

/// A fault with what belongs to a command that it names: the course, and the system of units of the draw.
fn typed(dir: &Path, fault: &Fault, words: &Words) -> Fault {
    let units = fault.raw("system").map_or(String::new(), |system| format!(" --units {system}"));
    fault.clone().with("typed", as_typed(dir, words) + &units)
}

fn report<'a>(dir: &Path, fault: &'a Fault, faults: &'a Faults, words: &Words) -> Vec<Group<'a>> {
    let message = typed(dir, fault, words).message(words);
    let level = if fault.is_warning() { Level::WARNING } else { Level::ERROR };
    let group = Group::with_title(level.primary_title(message.title).id(fault.code.id()));
    let group = with_places(group, dir, fault, faults, words);
    let notes = [(Level::NOTE, message.expected), (Level::HELP, message.fix)];
    let said = notes.into_iter().filter(|(_, text)| !text.is_empty());
    vec![said.fold(group, |group, (level, text)| group.element(level.message(text)))]
}

/// The place of a fault, and then those that belong to it.
fn with_places<'a>(group: Group<'a>, dir: &Path, fault: &'a Fault, faults: &'a Faults, words: &Words) -> Group<'a> {
    let place = &fault.place;
    let group = match faults.sources.get(&place.file) {
        Some(source) => group.element(snippet(dir, place, source, AnnotationKind::Primary, None)),
        None => group.element(Origin::path(shown_path(dir, &place.file))),
    };
    fault.also.iter().fold(group, |group, (place, label)| match faults.sources.get(&place.file) {
        Some(source) => {
            let label = words.get(&format!("faults.labels.{label}")).to_owned();
            group.element(snippet(dir, place, source, AnnotationKind::Context, Some(label)))
        }
        None => group,
    })
}

fn snippet<'a>(
    dir: &Path,
    place: &Place,
    source: &'a str,
    kind: AnnotationKind,
    label: Option<String>,
) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let end = place.span.end.min(source.len());
    let annotation = kind.span(place.span.start.min(end)..end);
    let annotation = match label {
        Some(label) => annotation.label(label),
        None => annotation,
    };
    Snippet::source(source).path(shown_path(dir, &place.file)).annotation(annotation)
}

fn shown_path(dir: &Path, file: &str) -> String {
    format!("{}/{file}", dir.display())
}
