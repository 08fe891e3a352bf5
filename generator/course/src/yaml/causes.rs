//! What most often makes a text no YAML, or another YAML than was meant: recognised by how the lines look, since the
//! parsers tell where they gave up and not what went wrong.

use std::ops::Range;

use faults::Code;

use super::places::Yaml;
use crate::fault::Fault;

/// A line of a text, with its bytes.
#[derive(Clone, Copy)]
struct Line<'t> {
    start: usize,
    text: &'t str,
}

impl<'t> Line<'t> {
    fn indent(self) -> usize {
        self.text.len() - self.text.trim_start_matches(' ').len()
    }

    /// The text without its indent and without the dashes of list items.
    fn item(self) -> &'t str {
        self.text.trim_start().trim_start_matches("- ").trim()
    }

    /// The bytes of the line from a byte of it on.
    fn from(self, at: usize) -> Range<usize> {
        self.start + at..self.start + self.text.trim_end().len()
    }

    fn says_nothing(self) -> bool {
        let text = self.text.trim();
        text.is_empty() || text.starts_with('#')
    }
}

/// The fault behind a text that is not YAML from byte `at` on, if it is one that people often make.
pub(super) fn cause(yaml: &Yaml, at: usize) -> Option<Fault> {
    let end = yaml.text[at..].find('\n').map_or(yaml.text.len(), |length| at + length);
    let lines: Vec<_> = lines(&yaml.text[..end]).collect();
    // The parsers may notice a slip only in the line below it.
    let last: Vec<_> = lines.iter().rev().filter(|line| !line.says_nothing()).take(2).copied().collect();
    let lately = |look: fn(&Yaml, Line) -> Option<Fault>| last.iter().find_map(|line| look(yaml, *line));
    tab(yaml, &lines)
        .or_else(|| lately(inner_quotes))
        .or_else(|| unclosed(yaml, &lines))
        .or_else(|| lately(no_space))
        .or_else(|| lately(unquoted_formula))
        .or_else(|| lately(unquoted_text))
        .or_else(|| lately(no_colon))
        .or_else(|| uneven(yaml, &lines))
}

fn lines(text: &str) -> impl Iterator<Item = Line<'_>> {
    let mut from = 0;
    text.split_inclusive('\n').map(move |line| {
        let start = from;
        from += line.len();
        Line { start, text: line.trim_end_matches(['\n', '\r']) }
    })
}

/// A tab in the indent of the line.
fn tab(yaml: &Yaml, lines: &[Line]) -> Option<Fault> {
    let line = lines.last()?;
    let indent = line.text.len() - line.text.trim_start().len();
    let at = line.start + line.text[..indent].find('\t')?;
    Some(Fault::at(Code::YamlTab, yaml.place_of(at..at + 1)))
}

/// A blank that looks like a space but is none, before the first letter of a line or after the colon of a key. The typed
/// reading may take it for a part of a key.
pub(super) fn odd_blank(yaml: &Yaml) -> Option<Fault> {
    if yaml.text.is_ascii() {
        return None;
    }
    lines(yaml.text).find_map(|line| {
        let key = line.text.find(':').filter(|colon| problems::template::is_name(line.text[..*colon].trim()));
        let odd =
            |at: &usize| line.text[*at..].chars().next().is_some_and(|next| !next.is_ascii() && next.is_whitespace());
        let at = line.start + key.map(|colon| colon + 1).filter(odd).unwrap_or(line.indent());
        let blank = yaml.text[at..].chars().next().filter(|next| !next.is_ascii() && next.is_whitespace())?;
        let place = yaml.place_of(at..at + blank.len_utf8());
        Some(Fault::at(Code::YamlOddBlank, place).with("character", format!("U+{:04X}", u32::from(blank))))
    })
}

/// The quotation mark or bracket with which a value begins, and which nothing closes: not on its line, or for a bracket not
/// before the text breaks off. A mark that closes too early, at an apostrophe, is reported as that.
fn unclosed(yaml: &Yaml, lines: &[Line]) -> Option<Fault> {
    let end = lines.last()?;
    let text = &yaml.text[..end.start + end.text.len()];
    lines.iter().find_map(|line| {
        let value = value_of(line.text)?;
        let (rest, opened) = (&line.text[value..], line.start + value);
        let quotes = rest.matches('"').count() - rest.matches("\\\"").count();
        if rest.starts_with(['[', '{']) && !quotes.is_multiple_of(2) {
            let inner = opened + rest.rfind('"')?;
            return Some(Fault::at(Code::YamlUnclosed, yaml.place_of(inner..inner + 1)).with("mark", "\""));
        }
        let open = match rest.chars().next()? {
            '"' => !quotes.is_multiple_of(2),
            '\'' => !rest.matches('\'').count().is_multiple_of(2),
            '[' => text[opened..].matches('[').count() > text[opened..].matches(']').count(),
            '{' => text[opened..].matches('{').count() > text[opened..].matches('}').count(),
            _ => false,
        };
        if !open {
            return None;
        }
        let inner = rest.trim_end().strip_prefix('\'').and_then(|rest| rest.strip_suffix('\''));
        Some(match inner.filter(|inner| inner.contains('\'')) {
            Some(inner) => {
                let place = yaml.place_of(opened..opened + inner.len() + 2);
                Fault::at(Code::YamlApostrophe, place).with("quoted", quoted(inner))
            }
            None => {
                Fault::at(Code::YamlUnclosed, yaml.place_of(opened..opened + 1)).with("mark", &text[opened..=opened])
            }
        })
    })
}

/// Where the value of a line begins: after its key, or after the dash of an item.
fn value_of(line: &str) -> Option<usize> {
    let item = line.trim_start().trim_start_matches("- ");
    let value = match item.split_once(": ") {
        Some((key, value)) if !key.contains(['"', '\'', '[', '{']) => value,
        _ => item,
    };
    let value = value.trim_start();
    (!value.is_empty()).then(|| line.len() - value.len())
}

/// A key without a blank after its colon, or an item without one after its dash.
fn no_space(yaml: &Yaml, line: Line) -> Option<Fault> {
    let told = |at: usize, mark: &str| {
        let place = yaml.place_of(line.start + at..line.start + at + 1);
        Fault::at(Code::YamlNoSpace, place).with("mark", mark)
    };
    let indent = line.indent();
    let dash = line.text[indent..].strip_prefix('-');
    if dash.is_some_and(|rest| rest.starts_with(|next: char| next.is_alphabetic()) && rest.contains(": ")) {
        return Some(told(indent, "-"));
    }
    let item = line.item();
    let (key, value) = item.split_once(':')?;
    let is_key = problems::template::is_name(key) && value.starts_with(|next: char| !next.is_whitespace());
    is_key.then(|| told(line.text.find(item).unwrap_or(indent) + key.len(), ":"))
}

/// A formula without quotes in a line such as `answer: bore_area(bore: seat)`, in which YAML takes the second colon for a
/// key of its own.
fn unquoted_formula(yaml: &Yaml, line: Line) -> Option<Fault> {
    let item = line.item();
    let (key, value) = item.split_once(':').unwrap_or((item, item));
    let value = if key.contains('(') { item } else { value.trim() };
    let is_call = value.split_once('(').is_some_and(|(name, inside)| {
        let name = name.rsplit(|next: char| !(next.is_alphanumeric() || next == '_')).next().unwrap_or_default();
        !name.is_empty() && inside.contains(": ")
    });
    let quoted = value.starts_with(['"', '\'', '{', '[']);
    let start = line.start + line.text.rfind(value)?;
    let fault = || Fault::at(Code::YamlUnquotedFormula, yaml.place_of(start..start + value.len()));
    // Those of a word processor are no quotes: what is written in their place holds none of them.
    let formula = value.trim_matches(['“', '”', '„', '‘', '’']);
    (is_call && !quoted).then(|| fault().with("key", key.trim()).with("formula", formula))
}

/// A text in quotation marks that has such marks in it: YAML ends it at the second.
fn inner_quotes(yaml: &Yaml, line: Line) -> Option<Fault> {
    let value = value_of(line.text)?;
    let text = line.text[value..].trim_end();
    let inner = text.strip_prefix('"')?.strip_suffix('"')?;
    let ends_early = inner.contains('"') && !inner.contains("\\\"") && !inner.contains("\", \"");
    let place = || yaml.place_of(line.from(value));
    ends_early.then(|| Fault::at(Code::YamlInnerQuotes, place()).with("quoted", quoted(inner)))
}

/// A key and its value without a colon.
fn no_colon(yaml: &Yaml, line: Line) -> Option<Fault> {
    let (key, value) = line.item().split_once([' ', '\t'])?;
    let plain = problems::template::is_name(key) && !value.contains([':', '"', '\'', '{', '[']) && !value.is_empty();
    let place = || yaml.place_of(line.from(line.text.len() - line.text.trim_start().trim_start_matches("- ").len()));
    plain.then(|| Fault::at(Code::YamlWrongShape, place()).with("expected", "mapping").with("found", "text"))
}

/// A text without quotes that YAML takes apart: at a colon, or because it begins with a sign that has a meaning there.
fn unquoted_text(yaml: &Yaml, line: Line) -> Option<Fault> {
    let value = value_of(line.text)?;
    let text = line.text[value..].trim_end();
    let apart = match text.chars().next()? {
        '"' | '\'' | '|' | '>' => false,
        '[' => text.rfind(']').is_some_and(|end| end + 1 < text.len()),
        '{' => text.find('}').is_some_and(|end| end + 1 < text.len()),
        '%' | '@' | '`' | ',' => true,
        _ => text.contains(": "),
    };
    let place = || yaml.place_of(line.from(value));
    apart.then(|| Fault::at(Code::YamlUnquotedText, place()).with("quoted", quoted(text)))
}

/// A text in quotation marks that it does not contain itself.
pub(crate) fn quoted(text: &str) -> String {
    match text.contains('"') {
        true => format!("'{}'", text.replace('\'', "''")),
        false => format!("\"{text}\""),
    }
}

/// A key or an item that is indented like nothing above it that it could belong to.
fn uneven(yaml: &Yaml, lines: &[Line]) -> Option<Fault> {
    let mut levels: Vec<usize> = Vec::new();
    let mut opens = true;
    let mut items: Option<usize> = None;
    for line in lines.iter().filter(|line| !line.says_nothing()) {
        let (indent, item) = (line.indent(), line.item());
        let is_item = line.text[indent..].starts_with("- ");
        if let Some(above) = items.filter(|above| is_item && indent < *above && !levels.contains(&(indent + 1))) {
            // An item that stands where only a key could.
            if !lines.iter().any(|other| {
                other.start < line.start && other.indent() == indent && other.text[indent..].starts_with("- ")
            }) {
                let fault = Fault::at(Code::YamlUneven, yaml.place_of(line.start..line.start + indent));
                return Some(fault.with("found", indent).with("wanted", above));
            }
        }
        items = if is_item { Some(indent) } else { items.filter(|above| indent > *above) };
        if !(item.contains(':') || line.text[indent..].starts_with('-')) {
            continue;
        }
        let deepest = levels.last().copied().unwrap_or(0);
        levels.retain(|level| *level <= indent);
        let fits = levels.last() == Some(&indent) || (opens && levels.last().copied().unwrap_or(0) == deepest);
        if !fits {
            let near =
                [deepest].into_iter().chain(levels.last().copied()).min_by_key(|level| level.abs_diff(indent))?;
            let fault = Fault::at(Code::YamlUneven, yaml.place_of(line.start..line.start + indent));
            return Some(fault.with("found", indent).with("wanted", near));
        }
        // An item holds its keys where its own text begins.
        let inner = line.text.len() - line.text.trim_start().trim_start_matches("- ").len();
        levels.extend([indent, inner]);
        levels.dedup();
        opens = line.text.trim_end().ends_with([':', '-', '|', '>']);
    }
    None
}
