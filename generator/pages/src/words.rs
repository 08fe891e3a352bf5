//! The sentences of the product, by dotted key.

use std::collections::BTreeMap;

use serde_json::Value;

const ENGLISH: &str = include_str!("../../../theme/words/en.yaml");

/// The words of one language.
#[derive(Clone, Debug)]
pub struct Words {
    tree: Value,
    flat: BTreeMap<String, String>,
}

impl Words {
    /// The words of a language that the product speaks.
    #[must_use]
    pub fn of(language: &str) -> Option<Self> {
        match language {
            "en" => Self::read(ENGLISH),
            _ => None,
        }
    }

    fn read(yaml: &str) -> Option<Self> {
        let tree: Value = serde_yaml::from_str(yaml).ok()?;
        let mut flat = BTreeMap::new();
        flatten("", &tree, &mut flat);
        Some(Self { tree, flat })
    }

    /// The word under a key; the key itself where there is none, so that a missing word is seen. A test finds them.
    #[must_use]
    pub fn get<'a>(&'a self, key: &'a str) -> &'a str {
        self.flat.get(key).map_or(key, String::as_str)
    }

    /// The same with the words of a course: what is said of its own relations.
    #[must_use]
    pub fn with(&self, own: &BTreeMap<String, String>) -> Self {
        let mut words = self.clone();
        words.flat.extend(own.iter().map(|(key, word)| (key.clone(), word.clone())));
        words
    }

    /// What an input or output is called: in its own relation, where that says so, else in all of them.
    #[must_use]
    pub fn named<'a>(&'a self, group: &str, relation: &str, name: &'a str) -> &'a str {
        let own = self.flat.get(&format!("relations.{relation}.{group}.{name}"));
        own.or_else(|| self.flat.get(&format!("{group}.{name}"))).map_or(name, String::as_str)
    }

    /// The word under a key with its `{holes}` filled.
    #[must_use]
    pub fn fill(&self, key: &str, values: &[(&str, &str)]) -> String {
        let word = self.get(key).to_owned();
        values.iter().fold(word, |word, (name, value)| word.replace(&format!("{{{name}}}"), value))
    }

    /// Everything under a key.
    #[must_use]
    pub fn section(&self, key: &str) -> &Value {
        self.tree.get(key).unwrap_or(&Value::Null)
    }

    /// Every key with its word.
    pub fn all(&self) -> impl Iterator<Item = (&str, &str)> {
        self.flat.iter().map(|(key, word)| (key.as_str(), word.as_str()))
    }
}

impl course::Words for Words {
    fn text(&self, key: &str) -> Option<String> {
        self.flat.get(key).cloned()
    }
}

fn flatten(prefix: &str, value: &Value, into: &mut BTreeMap<String, String>) {
    let key = |name: &str| if prefix.is_empty() { name.to_owned() } else { format!("{prefix}.{name}") };
    match value {
        Value::Object(entries) => entries.iter().for_each(|(name, value)| flatten(&key(name), value, into)),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(index, value)| flatten(&key(&index.to_string()), value, into));
        }
        Value::String(text) => drop(into.insert(prefix.to_owned(), text.clone())),
        other => drop(into.insert(prefix.to_owned(), other.to_string())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_by_dotted_key_and_filled() {
        let words = Words::read("a:\n  b: \"{x} of {y}\"\n  c: [one, two]\n").expect("yaml");
        assert_eq!(words.fill("a.b", &[("x", "1"), ("y", "2")]), "1 of 2");
        assert_eq!(words.get("a.c.1"), "two");
        assert_eq!(words.get("a.missing"), "a.missing");
    }

    #[test]
    fn the_embedded_words_can_be_read() {
        assert!(Words::of("en").is_some_and(|words| words.all().count() > 100));
    }
}
