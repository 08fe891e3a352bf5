//! The terms of a course as texts find them: one pass over a run of text for all wordings at once.

use super::beginnings::Beginnings;
use crate::addresses;
use aho_corasick::{AhoCorasick, AhoCorasickKind, Anchored, Input, MatchKind, StartKind};
use problems::template::escape;

/// A term as far as texts need it.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct Entry {
    pub(crate) id: String,
    /// `term` and all of `also`.
    pub(crate) wordings: Vec<String>,
    pub(crate) definition: String,
}

/// All terms.
pub(crate) struct Terms {
    /// The ids, and the start of a link to each.
    links: Vec<(String, String)>,
    /// The term of each pattern.
    owners: Vec<usize>,
    beginnings: Beginnings,
    finder: Option<AhoCorasick>,
}

impl Terms {
    /// Terms of a language, with the links that texts have to them.
    pub(crate) fn new(entries: &[Entry], language: &str) -> Self {
        let list = addresses::from_page(language, addresses::TERMS);
        let link = |entry: &Entry| {
            let (id, definition) = (&entry.id, escape(&entry.definition));
            (id.clone(), format!("<a class=\"term\" href=\"{list}#{id}\" data-definition=\"{definition}\">"))
        };
        let patterns: Vec<_> = entries
            .iter()
            .enumerate()
            .flat_map(|(index, entry)| entry.wordings.iter().map(move |wording| (index, wording.as_str())))
            .filter(|(_, wording)| !wording.is_empty())
            .collect();
        let wordings = || patterns.iter().map(|(_, wording)| *wording);
        let finder = AhoCorasick::builder()
            .ascii_case_insensitive(true)
            .match_kind(MatchKind::LeftmostLongest)
            .start_kind(StartKind::Anchored)
            .kind((patterns.len() < 500).then_some(AhoCorasickKind::DFA))
            .build(wordings());
        Self {
            links: entries.iter().map(link).collect(),
            owners: patterns.iter().map(|(index, _)| *index).collect(),
            beginnings: wordings().collect(),
            finder: finder.ok().filter(|_| !patterns.is_empty()),
        }
    }

    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.links.len()
    }

    /// The place of a term among the terms.
    pub(crate) fn find(&self, id: &str) -> Option<usize> {
        self.links.iter().position(|(known, _)| known == id)
    }

    /// The ids, in order.
    pub(crate) fn ids(&self) -> impl Iterator<Item = &str> {
        self.links.iter().map(|(id, _)| id.as_str())
    }

    /// The start of a link to a term.
    pub(crate) fn link(&self, index: usize) -> &str {
        &self.links[index].1
    }

    /// The id of a term.
    pub(crate) fn id(&self, index: usize) -> &str {
        &self.links[index].0
    }

    /// Where a text mentions terms as whole words, also in a simple plural.
    pub(crate) fn mentions<'t>(&'t self, text: &'t str) -> impl Iterator<Item = (usize, std::ops::Range<usize>)> + 't {
        let mut from = 0;
        std::iter::from_fn(move || {
            let finder = self.finder.as_ref()?;
            while let Some(start) = self.beginnings.next(text.as_bytes(), from) {
                from = start + 1;
                if starts_word(text, start)
                    && let Some(found) = finder.find(Input::new(text).range(start..).anchored(Anchored::Yes))
                    && let Some(end) = word_end(text, found.end())
                {
                    from = end;
                    return Some((self.owners[found.pattern().as_usize()], start..end));
                }
            }
            None
        })
    }
}

/// Whether a word goes on with a character.
fn continues(next: char) -> bool {
    next.is_alphanumeric() || matches!(next, '_' | '-' | '’')
}

/// Whether a word may start at a byte: none goes on there.
fn starts_word(text: &str, start: usize) -> bool {
    text.is_char_boundary(start) && !text[..start].ends_with(continues)
}

/// The end of the word that ends at a byte, with a plural s, if nothing else of a word follows.
fn word_end(text: &str, end: usize) -> Option<usize> {
    let after = |end: usize| !text[end..].starts_with(continues);
    if after(end) {
        return Some(end);
    }
    let plural = text[end..].starts_with('s') && after(end + 1);
    plural.then_some(end + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn terms() -> Terms {
        let entry = |id: &str, wordings: &[&str]| Entry {
            id: id.to_owned(),
            wordings: wordings.iter().map(|&wording| wording.to_owned()).collect(),
            definition: "a \"b\" <c>".to_owned(),
        };
        Terms::new(
            &[entry("seat", &["seat", "nozzle seat"]), entry("lift", &["lift"]), entry("full_lift", &["full lift"])],
            "en",
        )
    }

    #[test]
    fn whole_words_are_found_the_longest_first_also_in_the_plural() {
        let terms = terms();
        let text = "Seats, reseats, a nozzle seat at full lift; lifted, uplift, seat-bore, seats’, lift";
        let found: Vec<_> = terms.mentions(text).map(|(term, range)| (terms.id(term), &text[range])).collect();
        assert_eq!(found, [("seat", "Seats"), ("seat", "nozzle seat"), ("full_lift", "full lift"), ("lift", "lift")]);
    }

    #[test]
    fn links_carry_the_definition_as_text() {
        let link = terms().link(0).to_owned();
        assert_eq!(
            link,
            "<a class=\"term\" href=\"../../en/terms/index.html#seat\" data-definition=\"a &quot;b&quot; &lt;c&gt;\">"
        );
    }

    #[test]
    fn no_terms_find_nothing() {
        assert_eq!(Terms::new(&[], "en").mentions("seat").count(), 0);
    }
}
