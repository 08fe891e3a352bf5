//! Faults: what is wrong with a course, and where. The sentences are words; here are only codes, places and values.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::Words;

/// How many known names a message lists.
const MOST_NAMES: usize = 20;

/// A place in a file of the course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The file, relative to the folder of the course, with `/` between its parts.
    pub file: String,
    /// The bytes of its text, as [`Faults::sources`] holds it. Empty and at zero where the whole file is meant.
    pub span: Range<usize>,
}

impl Place {
    /// Bytes of a file.
    #[must_use]
    pub fn new(file: &str, span: Range<usize>) -> Self {
        Self { file: file.to_owned(), span }
    }

    /// A whole file or folder.
    #[must_use]
    pub fn whole(file: &str) -> Self {
        Self::new(file, 0..0)
    }
}

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The rule that is broken; words for it stand under `faults.<code>`.
    pub code: &'static str,
    /// Where; `None` where it is no single place.
    pub place: Option<Place>,
    /// Other places that belong to it, each with the key of its label under `faults.labels`.
    pub also: Vec<(Place, &'static str)>,
    /// What a message needs to know: the values of its placeholders.
    pub values: Vec<(&'static str, String)>,
}

impl Fault {
    /// A fault at a place.
    #[must_use]
    pub fn at(code: &'static str, place: Place) -> Self {
        Self { code, place: Some(place), also: Vec::new(), values: Vec::new() }
    }

    /// A fault that another crate found, with its values. Of what is known, the name that is near to what was found is
    /// offered, and none where none is near.
    #[must_use]
    pub(crate) fn from_values(code: &'static str, place: Place, values: Vec<(&'static str, String)>) -> Self {
        let mut fault = Self { values, ..Self::at(code, place) };
        let found = fault.raw("found").unwrap_or_default().to_owned();
        let known = fault.raw("known").unwrap_or_default().to_owned();
        fault.values.retain(|(name, _)| *name != "nearest");
        if let Some(near) = crate::nearest::nearest(&found, known.split(", ")) {
            fault.values.push(("nearest", near.to_owned()));
        }
        fault
    }

    /// Whether it is a warning: the course is published all the same.
    #[must_use]
    pub fn is_warning(&self) -> bool {
        crate::WARNINGS.contains(&self.code)
    }

    /// The value of a placeholder.
    #[must_use]
    pub fn raw(&self, name: &str) -> Option<&str> {
        self.values.iter().find(|(known, _)| *known == name).map(|(_, value)| value.as_str())
    }

    /// The same with the value of a placeholder.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.values.push((name, value.to_string()));
        self
    }

    /// The same with another place.
    #[must_use]
    pub fn also(mut self, place: Place, label: &'static str) -> Self {
        self.also.push((place, label));
        self
    }

    /// The same with the known name nearest to `found`, if one is near, and with all known names.
    #[must_use]
    pub fn near<'a>(self, found: &str, known: impl IntoIterator<Item = &'a str>) -> Self {
        let known: Vec<_> = known.into_iter().collect();
        let fault = match crate::nearest::nearest(found, known.iter().copied()) {
            Some(name) => self.with("nearest", name),
            None => self,
        };
        let more = if known.len() > MOST_NAMES { ", …" } else { "" };
        fault.with("known", known[..known.len().min(MOST_NAMES)].join(", ") + more)
    }

    /// The three parts of the message, with the placeholders filled.
    #[must_use]
    pub fn message(&self, words: &dyn Words) -> Message {
        let part = |name: &str| words.text(&format!("faults.{}.{name}", self.code)).map(|text| self.fill(&text, words));
        let near = self.raw("nearest").is_some_and(|value| !value.is_empty());
        let habit = self.raw("habit").and_then(|habit| words.text(&format!("faults.habits.{habit}")));
        let habit = habit.map(|text| self.fill(&text, words));
        Message {
            title: part("title").unwrap_or_else(|| self.code.to_owned()),
            expected: part("expected").unwrap_or_default(),
            fix: habit
                .or_else(|| near.then(|| part("fix_nearest")).flatten())
                .or_else(|| part("fix"))
                .unwrap_or_default(),
        }
    }

    /// Fills `{name}` with a value, and `{name:group}` with the word under `group` for that value.
    fn fill(&self, text: &str, words: &dyn Words) -> String {
        let mut out = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once('{') {
            out.push_str(before);
            match after.split_once('}').and_then(|(hole, tail)| Some((self.value(hole, words)?, tail))) {
                Some((value, tail)) => {
                    out.push_str(&value);
                    rest = tail;
                }
                None => {
                    out.push('{');
                    rest = after;
                }
            }
        }
        out + rest
    }

    fn value(&self, hole: &str, words: &dyn Words) -> Option<String> {
        let (name, group) = hole.split_once(':').map_or((hole, None), |(name, group)| (name, Some(group)));
        let value = self.raw(name)?;
        let word = group.and_then(|group| words.text(&format!("{group}.{value}")));
        Some(word.unwrap_or_else(|| value.to_owned()))
    }
}

/// A fault in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// What is wrong.
    pub title: String,
    /// What was expected.
    pub expected: String,
    /// What to do.
    pub fix: String,
}

/// Everything that is wrong with a course, in the order of its files, with the texts that the places are in.
#[derive(Clone, Debug, Default)]
pub struct Faults {
    /// The faults.
    pub list: Vec<Fault>,
    /// The text of each file that a fault is in, without a byte order mark. A file that could not be read as text, or
    /// that is no file, has none.
    pub sources: BTreeMap<String, String>,
    /// Whether the course could not be read at all: the folder or a file could not be opened.
    pub unreadable: bool,
}

impl Faults {
    /// Brings the faults into the order of the files: `course.yaml` first, then by name, then by place.
    pub(crate) fn sort(&mut self) {
        self.list.sort_by(|one, other| order(one).cmp(&order(other)));
        self.list.dedup();
    }

    /// The line and column (both from one, the column in characters) of a place.
    #[must_use]
    pub fn line_and_column(&self, place: &Place) -> Option<(usize, usize)> {
        let text = self.sources.get(&place.file)?;
        let before = text.get(..place.span.start)?;
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Some((before.matches('\n').count() + 1, before[line_start..].chars().count() + 1))
    }
}

fn order(fault: &Fault) -> (bool, Option<(&str, usize, usize)>, &str) {
    let place = fault.place.as_ref();
    let elsewhere = place.is_some_and(|place| place.file != crate::files::COURSE_FILE);
    (elsewhere, place.map(|place| (place.file.as_str(), place.span.start, place.span.end)), fault.code)
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Two;

    impl Words for Two {
        fn text(&self, key: &str) -> Option<String> {
            let text = match key {
                "faults.a.title" => "{key} is {kind:kinds}, {not} {",
                "faults.a.fix" => "remove",
                "faults.a.fix_nearest" => "write {nearest}",
                "kinds.gauge" => "a gauge pressure",
                _ => return None,
            };
            Some(text.to_owned())
        }
    }

    #[test]
    fn placeholders_are_filled_with_values_and_with_words() {
        let fault = Fault::at("a", Place::whole("x")).with("key", "{kind}").with("kind", "gauge");
        assert_eq!(fault.message(&Two).title, "{kind} is a gauge pressure, {not} {");
        assert_eq!(fault.message(&Two).fix, "remove");
        assert_eq!(fault.near("sea", ["seat"]).message(&Two).fix, "write seat");
    }

    #[test]
    fn the_course_file_comes_first_then_files_by_name_and_place() {
        let place = |file: &str, at: usize| Fault::at("a", Place::new(file, at..at));
        let mut faults = Faults {
            list: vec![place("en/b", 2), place("en/b", 1), place("course.yaml", 9), place("a", 5)],
            ..Faults::default()
        };
        faults.sort();
        let order: Vec<_> = faults
            .list
            .iter()
            .filter_map(|fault| fault.place.clone())
            .map(|place| (place.file, place.span.start))
            .collect();
        assert_eq!(order, [("course.yaml".into(), 9), ("a".into(), 5), ("en/b".into(), 1), ("en/b".into(), 2)]);
    }
}
