//! A fault in words.

use crate::Fault;

/// The words of the theme, by dotted key: `faults.markdown-raw-html.title`.
pub trait Words: Sync {
    /// The text under a key, if there is one.
    fn text(&self, key: &str) -> Option<String>;
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

impl<P> Fault<P> {
    /// The three parts of the message, with the placeholders filled.
    #[must_use]
    pub fn message(&self, words: &dyn Words) -> Message {
        let text = |key: &str| words.text(key).map(|text| self.fill(&text, words));
        let part = |name: &str| text(&format!("faults.{}.{name}", self.code));
        let habit = self.raw("habit").and_then(|habit| text(&format!("faults.habits.{habit}")));
        let near = || self.raw("nearest").filter(|name| !name.is_empty()).and_then(|_| part("fix_nearest"));
        Message {
            title: part("title").unwrap_or_else(|| self.code.to_string()),
            expected: part("expected").unwrap_or_default(),
            fix: habit.or_else(near).or_else(|| part("fix")).unwrap_or_default(),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Code;

    struct Two;

    impl Words for Two {
        fn text(&self, key: &str) -> Option<String> {
            let text = match key {
                "faults.id-taken.title" => "{key} is {kind:kinds}, {not} {",
                "faults.id-taken.fix" => "remove",
                "faults.id-taken.fix_nearest" => "write {nearest}",
                "kinds.gauge" => "a gauge pressure",
                _ => return None,
            };
            Some(text.to_owned())
        }
    }

    #[test]
    fn placeholders_are_filled_with_values_and_with_words() {
        let fault = Fault::at(Code::IdTaken, ()).with("key", "{kind}").with("kind", "gauge");
        assert_eq!(fault.message(&Two).title, "{kind} is a gauge pressure, {not} {");
        assert_eq!(fault.message(&Two).fix, "remove");
        assert_eq!(fault.near("sea", ["seat"]).message(&Two).fix, "write seat");
    }
}
