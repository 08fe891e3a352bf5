//! What was tried and what failed, counted apart for each part, system and manner, with the first few draws that show it.

use std::collections::BTreeMap;

use problems::mark::Verdict;

/// How many draws of a row are shown.
const SHOWN: usize = 4;

/// What a row of the tally is about: recipe, part, system, manner.
type About = [String; 4];

#[derive(Default)]
struct Row {
    tried: u32,
    skipped: u32,
    failed: BTreeMap<&'static str, u32>,
    first: Vec<String>,
}

/// The counts.
#[derive(Default)]
pub(crate) struct Tally(BTreeMap<About, Row>);

impl Tally {
    fn row(&mut self, about: &About) -> &mut Row {
        self.0.entry(about.clone()).or_default()
    }

    /// Counts an answer that was marked as it should be.
    pub(crate) fn kept(&mut self, about: &About) {
        self.row(about).tried += 1;
    }

    /// Counts an answer that cannot be told from a sound one.
    pub(crate) fn skipped(&mut self, about: &About) {
        self.row(about).skipped += 1;
    }

    /// Counts an answer that was marked otherwise.
    pub(crate) fn failed(&mut self, about: &About, verdict: &Verdict, seed: u64, typed: &str) {
        let row = self.row(about);
        row.tried += 1;
        *row.failed.entry(verdict.id()).or_default() += 1;
        if row.first.len() < SHOWN {
            row.first.push(format!("{seed}: {typed}"));
        }
    }

    /// All of several tallies.
    pub(crate) fn together(tallies: Vec<Self>) -> Self {
        Self(tallies.into_iter().flat_map(|tally| tally.0).collect())
    }

    /// How many answers were tried.
    pub(crate) fn tried(&self) -> u32 {
        self.0.values().map(|row| row.tried).sum()
    }

    /// How many answers were left out.
    pub(crate) fn left_out(&self) -> u32 {
        self.0.values().map(|row| row.skipped).sum()
    }

    /// A line for each row with a failure.
    pub(crate) fn failures(&self) -> Vec<String> {
        let failed = self.0.iter().filter(|(_, row)| !row.failed.is_empty());
        failed.map(|(about, row)| format!("{}: {row}", about.join(" "))).collect()
    }

    /// A line for each row with an answer left out.
    pub(crate) fn omissions(&self) -> Vec<String> {
        let left_out = self.0.iter().filter(|(_, row)| row.skipped > 0);
        left_out
            .map(|(about, row)| format!("{}: {} of {} left out", about.join(" "), row.skipped, row.tried + row.skipped))
            .collect()
    }
}

impl std::fmt::Display for Row {
    fn fmt(&self, out: &mut std::fmt::Formatter) -> std::fmt::Result {
        let failed: u32 = self.failed.values().sum();
        let verdicts: Vec<_> = self.failed.iter().map(|(verdict, count)| format!("{verdict} {count}")).collect();
        write!(out, "{failed} of {} ({}); seed {}", self.tried, verdicts.join(", "), self.first.join("; "))
    }
}
