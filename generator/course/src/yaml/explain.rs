//! What is wrong with a YAML text: the accidents that YAML lets pass or explains badly, and the refusals of the typed
//! reading, each with its place.

use std::ops::Range;

use faults::Code;
use serde::de::{DeserializeOwned, IgnoredAny};

use super::causes;
use super::places::Yaml;
use super::refusal::{self, Reason, Refusal};
use super::tree::{NoTree, Node};
use crate::fault::Fault;
use crate::files::refused_character;

/// Plain scalars that mean a number that is none.
pub(super) const NOT_FINITE: [&str; 6] = [".nan", ".NaN", ".NAN", ".inf", ".Inf", ".INF"];

/// What the types that are read expect, by how each says it, and the word for it.
const SHAPES: [(&str, &str); 12] = [
    ("a string", "text"),
    ("a sequence", "list"),
    ("a boolean", "flag"),
    ("u8", "number"),
    ("u32", "number"),
    ("struct", "mapping"),
    ("a mapping", "mapping"),
    ("a range, or a mapping with us", "draw"),
    ("a range, or a mapping with choose", "side"),
    ("true, or a condition", "condition"),
    ("the name of a figure", "figure"),
    ("a text, or a mapping with us", "text_or_pair"),
];

/// Accidents seen in the tree: repeated keys, numbers that are none, anchors, escaped characters that are not text,
/// texts that a `#` cuts off, too deep a nest, nothing at all.
pub(super) fn accidents(yaml: &Yaml, faults: &mut Vec<Fault>) {
    if let Some(fault) = causes::odd_blank(yaml) {
        return faults.push(fault);
    }
    match yaml.built() {
        Ok(root) => root.walk(&mut |node| {
            repeated_keys(yaml, node, faults);
            not_finite(yaml, node, faults);
            no_text(yaml, node, faults);
            text_cut(yaml, node, faults);
        }),
        Err(NoTree::Extra { span }) => faults.push(Fault::at(Code::YamlAnchorOrTag, yaml.place_of(span.clone()))),
        Err(NoTree::TooDeep { at }) => {
            faults.push(Fault::at(Code::YamlTooDeep, yaml.place_of(character(yaml.text, *at))))
        }
        Err(NoTree::Empty) => faults.push(Fault::at(Code::YamlEmpty, yaml.place_of(0..0))),
        Err(NoTree::Syntax { .. }) => (),
    }
}

fn repeated_keys(yaml: &Yaml, node: &Node, faults: &mut Vec<Fault>) {
    for (index, (key, _)) in node.entries().iter().enumerate() {
        if let Some((first, _)) = node.entries()[..index].iter().find(|(earlier, _)| earlier.text == key.text) {
            let fault = Fault::at(Code::YamlRepeatedKey, yaml.place_of(key.span.clone())).with("key", &key.text);
            faults.push(fault.also(yaml.place_of(first.span.clone()), "first"));
        }
    }
}

fn not_finite(yaml: &Yaml, node: &Node, faults: &mut Vec<Fault>) {
    if let Node::Scalar { text, plain: true, span } = node
        && NOT_FINITE.contains(&text.trim_start_matches(['+', '-']))
    {
        faults.push(Fault::at(Code::YamlNotFinite, yaml.place_of(span.clone())).with("found", text));
    }
}

/// Whether a text may hold a `#` after a space that does not start a comment as people write them.
pub(super) fn may_cut_text(text: &str) -> bool {
    text.match_indices(" #").any(|(at, both)| text[at + both.len()..].starts_with(is_cut))
}

/// What follows a `#` that does not start a comment: people leave a space after one that does.
fn is_cut(next: char) -> bool {
    !next.is_whitespace() && next != '#'
}

/// A text without quotes that a `#` cuts off: `valve #3 and the pump` reads as `valve`.
fn text_cut(yaml: &Yaml, node: &Node, faults: &mut Vec<Fault>) {
    let Node::Scalar { text, plain: true, span } = node else { return };
    let line = yaml.text[span.end..].lines().next().unwrap_or_default();
    let cut = line.trim_start();
    if cut.len() < line.len() && cut.strip_prefix('#').is_some_and(|after| after.starts_with(is_cut)) {
        let start = span.end + (line.len() - cut.len());
        let place = yaml.place_of(start..start + cut.trim_end().len());
        faults.push(Fault::at(Code::YamlTextCut, place).with("left", text));
    }
}

/// Characters that a file may not hold, written as an escape.
fn no_text(yaml: &Yaml, node: &Node, faults: &mut Vec<Fault>) {
    let keys = node.entries().iter().map(|(key, _)| (key.text.as_str(), &key.span));
    let value = match node {
        Node::Scalar { text, span, .. } => Some((text.as_str(), span)),
        _ => None,
    };
    for (text, span) in keys.chain(value) {
        if let Some(character) = refused_character(text) {
            let fault = Fault::at(Code::CourseControlCharacter, yaml.place_of(span.clone()));
            faults.push(fault.with("character", character));
        }
    }
}

/// Tells why the text could not be read as a type. The typed reading stops where a value does not fit, even if only
/// because what follows is not YAML: then the latter counts.
pub(super) fn explain<T: DeserializeOwned>(yaml: &Yaml, error: &serde_yaml::Error, faults: &mut Vec<Fault>) {
    let at = error.location().map_or(0, |location| yaml.text.floor_char_boundary(location.index()));
    let message = error.to_string();
    match yaml.built() {
        Ok(root) => match refusal::of::<T>(root) {
            Some(Refusal { reason, span }) => faults.extend(refused(yaml, root, reason, span, (at, &message))),
            None => faults.push(syntax(yaml, at, &message)),
        },
        Err(NoTree::Syntax { at: other, detail }) if is_about_values(yaml.text, &message) => {
            faults.push(syntax(yaml, yaml.text.floor_char_boundary(*other), detail));
        }
        Err(_) => faults.push(syntax(yaml, at, &message)),
    }
}

/// Whether the typed reading understood the YAML as far as it went, but not what it says: reading it as anything tells
/// something else.
fn is_about_values(text: &str, message: &str) -> bool {
    serde_yaml::from_str::<IgnoredAny>(text).err().is_none_or(|error| error.to_string() != message)
}

/// The faults of a refusal in its parts.
fn refused(
    yaml: &Yaml,
    root: &Node,
    reason: Reason,
    span: Option<Range<usize>>,
    (at, message): (usize, &str),
) -> Vec<Fault> {
    let span = span.unwrap_or_else(|| root.span());
    let map = root.at(&span);
    match reason {
        Reason::Shape { found, expected } => vec![wrong_shape(yaml, span, found, &expected)],
        Reason::MissingKey(key) => {
            let place = map.entries().first().map_or(span, |(key, _)| key.span.clone());
            vec![Fault::at(Code::YamlMissingKey, yaml.place_of(place)).with("key", key)]
        }
        Reason::UnknownKey { key, known } => unknown_keys(yaml, map, &key, known),
        Reason::Other => vec![syntax(yaml, at, message)],
    }
}

/// Every unknown key of the mapping in which the first was found.
fn unknown_keys(yaml: &Yaml, map: &Node, first: &str, known: &[&str]) -> Vec<Fault> {
    let fault = |name: &str, span: Range<usize>| {
        let fault = Fault::at(Code::YamlUnknownKey, yaml.place_of(span)).with("key", name);
        fault.near(name, known.iter().copied())
    };
    let unknown = map.entries().iter().filter(|(key, _)| !known.contains(&key.text.as_str()));
    let faults: Vec<_> = unknown.map(|(key, _)| fault(&key.text, key.span.clone())).collect();
    if faults.is_empty() { vec![fault(first, map.span())] } else { faults }
}

fn wrong_shape(yaml: &Yaml, mut place: Range<usize>, found: &str, expected: &str) -> Fault {
    let line_end = yaml.text[place.start..].find('\n').map_or(yaml.text.len(), |length| place.start + length);
    place.end = place.end.min(line_end).max(place.start);
    let shape = SHAPES.iter().find(|(start, _)| expected.starts_with(start)).map_or("something", |(_, word)| word);
    let written = yaml.text[place.clone()].trim_end();
    if shape == "text" && written.starts_with('{') {
        // A text that begins with a hole.
        return Fault::at(Code::YamlUnquotedText, yaml.place_of(place.clone())).with("quoted", causes::quoted(written));
    }
    Fault::at(Code::YamlWrongShape, yaml.place_of(place)).with("expected", shape).with("found", found)
}

/// A text that is not YAML. The most frequent causes are recognised.
fn syntax(yaml: &Yaml, at: usize, message: &str) -> Fault {
    let at = at.min(yaml.text.trim_end().len());
    causes::cause(yaml, at).unwrap_or_else(|| {
        let detail = message.split(" at line ").next().unwrap_or(message);
        Fault::at(Code::YamlSyntax, yaml.place_of(character(yaml.text, at))).with("detail", detail)
    })
}

/// The bytes of the character at a byte; none at the end of its line.
fn character(text: &str, at: usize) -> Range<usize> {
    let next = text[at..].chars().next().filter(|next| !matches!(next, '\n' | '\r'));
    at..at + next.map_or(0, char::len_utf8)
}

#[cfg(test)]
mod tests {
    use serde::Deserialize;

    use super::*;

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    #[expect(dead_code, reason = "only read into")]
    struct Lesson {
        title: String,
        #[serde(default)]
        level: u8,
        #[serde(default)]
        objectives: Vec<Objective>,
    }

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    #[expect(dead_code, reason = "only read into")]
    struct Objective {
        id: String,
        text: String,
    }

    /// Code, marked text and values of every fault.
    fn faults(text: &str) -> Vec<(Code, String, String)> {
        let mut faults = Vec::new();
        let read = Yaml::new("f", text, 0).read::<Lesson>(&mut faults);
        assert_eq!(read.is_none(), !faults.is_empty(), "{text}");
        let marked = |fault: &Fault| text[fault.place.span.clone()].to_owned();
        let values = |fault: &Fault| fault.values.iter().map(|(name, value)| format!("{name}={value};")).collect();
        faults.iter().map(|fault| (fault.code, marked(fault), values(fault))).collect()
    }

    fn one(text: &str, code: Code, marked: &str, values: &str) {
        let found = faults(text);
        assert!(
            found.len() == 1 && found[0].0 == code && found[0].1 == marked && found[0].2 == values,
            "{text}: {found:?}"
        );
    }

    #[test]
    fn good_text_has_no_faults() {
        assert_eq!(faults("title: \"a & b\"\r\nlevel: 2\r\nobjectives:\r\n  - { id: a, text: b }\r\n"), []);
    }

    #[test]
    fn all_unknown_keys_of_a_mapping_are_told_with_the_nearest_known_one() {
        let found = faults("titel: é\nlevel: 1\nsumary: b\n");
        assert_eq!(found.iter().map(|fault| fault.1.as_str()).collect::<Vec<_>>(), ["titel", "sumary"]);
        assert!(found[0].2.contains("nearest=title;"), "{found:?}");
        one(
            "title: a\nobjectives:\n  - { id: a, text: b, tex: c }",
            Code::YamlUnknownKey,
            "tex",
            "key=tex;nearest=text;known=id, text;",
        );
    }

    #[test]
    fn missing_keys_are_told_at_the_first_key_of_their_mapping() {
        one("level: 1", Code::YamlMissingKey, "level", "key=title;");
        one("title: é\nobjectives:\n  - { id: a }", Code::YamlMissingKey, "id", "key=text;");
    }

    #[test]
    fn wrong_shapes_are_told_in_words_of_ours() {
        one("title: [x]", Code::YamlWrongShape, "[x]", "expected=text;found=list;");
        one("title: a\nlevel: high", Code::YamlWrongShape, "high", "expected=number;found=text;");
        one("title: a\nlevel: 300", Code::YamlWrongShape, "300", "expected=number;found=number;");
        one("- a", Code::YamlWrongShape, "- a", "expected=mapping;found=list;");
        one("title: a\nlevel: 1.5", Code::YamlWrongShape, "1.5", "expected=number;found=decimal;");
        one("title: a\nlevel:", Code::YamlWrongShape, "", "expected=number;found=nothing;");
        one("title: a\nlevel: true", Code::YamlWrongShape, "true", "expected=number;found=flag;");
    }

    /// An author's words must not be taken for those in which a library tells what is wrong.
    #[test]
    fn no_text_of_an_author_is_taken_for_a_reason() {
        for text in [
            "\"2, expected 3\"",
            "\"unknown field `title`, expected `level`\"",
            "\"missing field `title`\"",
            "\"invalid type: map, expected a string\"",
        ] {
            one(&format!("title: a\nlevel: {text}"), Code::YamlWrongShape, text, "expected=number;found=text;");
        }
    }

    #[test]
    fn accidents_are_recognised() {
        one("title: a\nlevel: 1\ntitle: b", Code::YamlRepeatedKey, "title", "key=title;");
        one("title: .nan", Code::YamlNotFinite, ".nan", "found=.nan;");
        one("title: \"a\\u202Eb\"", Code::CourseControlCharacter, "\"a\\u202Eb\"", "character=U+202E;");
        one("title: a\n\"\\0\": b", Code::CourseControlCharacter, "\"\\0\"", "character=U+0000;");
        one("title: &x a", Code::YamlAnchorOrTag, "&x a", "");
        one("title: a\n\tlevel: 1", Code::YamlTab, "\t", "");
        one("", Code::YamlEmpty, "", "");
        one("title: bore(bore: x)", Code::YamlUnquotedFormula, "bore(bore: x)", "key=title;formula=bore(bore: x);");
        one(
            "title: 2 * bore(bore: x) / 3",
            Code::YamlUnquotedFormula,
            "2 * bore(bore: x) / 3",
            "key=title;formula=2 * bore(bore: x) / 3;",
        );
        one("title: Keep clear of valve #3 here", Code::YamlTextCut, "#3 here", "left=Keep clear of valve;");
        assert_eq!(faults("title: a # b\nlevel: 1 # of 3\n#title\nobjectives: [{ id: a, text: \"b #3\" }]"), []);
        one("title: \"a\nlevel: 1", Code::YamlUnclosed, "\"", "mark=\";");
        one("title: 'a\nlevel: 1", Code::YamlUnclosed, "'", "mark=';");
        one("title: a\nobjectives: [\n  { id: a, text: b }\nlevel: 1", Code::YamlUnclosed, "[", "mark=[;");
        one("title: \"it\" is", Code::YamlSyntax, "i", "detail=did not find expected key;");
    }
}
