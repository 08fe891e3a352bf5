//! What is wrong with a formula as it is written.

use core::ops::Range;

/// What is wrong with a formula, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormulaFault {
    /// The rule that it breaks.
    pub code: &'static str,
    /// The bytes in the formula's text.
    pub span: Range<usize>,
    /// What a message needs to know.
    pub values: Vec<(&'static str, String)>,
}

impl FormulaFault {
    pub(super) fn new(code: &'static str, span: Range<usize>) -> Self {
        Self { code, span, values: Vec::new() }
    }

    pub(super) fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.values.push((name, value.to_string()));
        self
    }

    /// Adds the known names, the one nearest to what was found first.
    pub(super) fn nearest<'a>(self, found: &str, known: impl Iterator<Item = &'a str>) -> Self {
        let mut known: Vec<_> = known.collect();
        known.sort_by_key(|name| distance(found, name));
        let nearest = known.first().copied().unwrap_or_default().to_owned();
        self.with("nearest", nearest).with("known", known.join(", "))
    }
}

/// How many letters must change to make one name the other.
fn distance(one: &str, other: &str) -> usize {
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (i, a) in one.bytes().enumerate() {
        let mut corner = i;
        row[0] = i + 1;
        for (j, b) in other.bytes().enumerate() {
            let best = (corner + usize::from(a != b)).min(row[j] + 1).min(row[j + 1] + 1);
            corner = row[j + 1];
            row[j + 1] = best;
        }
    }
    row[other.len()]
}
