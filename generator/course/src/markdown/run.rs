//! Runs of text: pieces of one line of thought put together again, so that a term or a computed number may cross a line
//! end, and looked through once.

use std::ops::Range;

/// Text that is gathered, and where it came from.
#[derive(Default)]
pub(crate) struct Run {
    pub(super) text: String,
    /// Where each piece starts in the run, and its bytes in the Markdown.
    pieces: Vec<(usize, Range<usize>)>,
}

impl Run {
    pub(super) fn push(&mut self, text: &str, range: &Range<usize>) {
        self.pieces.push((self.text.len(), range.clone()));
        self.text.push_str(text);
    }

    /// Adds a part of another run, with where each piece of it came from.
    pub(super) fn append(&mut self, other: &Self, range: &Range<usize>) {
        let first = other.pieces.partition_point(|(start, _)| *start <= range.start).saturating_sub(1);
        for (index, (start, source)) in other.pieces.iter().enumerate().skip(first) {
            let end = other.pieces.get(index + 1).map_or(other.text.len(), |(next, _)| *next);
            let part = (*start).max(range.start)..end.min(range.end);
            if !part.is_empty() {
                let from = (source.start + (part.start - start)).min(source.end);
                self.push(&other.text[part], &(from..source.end));
            }
            if end >= range.end {
                break;
            }
        }
    }

    /// Empties it; its room is used again.
    pub(super) fn clear(&mut self) {
        self.text.clear();
        self.pieces.clear();
    }

    /// The byte of the Markdown that a byte of the run comes from.
    pub(super) fn source(&self, at: usize) -> usize {
        let piece = self.pieces.partition_point(|(start, _)| *start <= at).saturating_sub(1);
        self.pieces.get(piece).map_or(0, |(start, range)| (range.start + (at - start)).min(range.end))
    }

    /// The bytes of the Markdown that bytes of the run come from.
    pub(super) fn range(&self, range: &Range<usize>) -> Range<usize> {
        let start = self.source(range.start);
        start..self.source(range.end).max(start)
    }
}

/// How many words a text has. To compare every two neighbours takes less than to go from word to word.
pub(super) fn words(text: &str) -> usize {
    let gap = |byte: u8| byte.is_ascii_whitespace();
    let bytes = text.as_bytes();
    let starts = bytes.windows(2).filter(|pair| gap(pair[0]) && !gap(pair[1])).count();
    starts + usize::from(bytes.first().is_some_and(|first| !gap(*first)))
}
