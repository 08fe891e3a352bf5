//! What a lesson says of itself before its text, with its numbers put in.

use crate::fault::Fault;
use crate::folder::Read;
use crate::markdown::{Lines, Page, References};
use crate::raw::RawLesson;
use crate::scenario::Scenario;
use crate::yaml::{Step, key};

/// The front matter of a lesson as it is read on pages.
#[derive(Clone)]
pub(crate) struct Front {
    pub(crate) title: String,
    pub(crate) summary: String,
    /// The texts of the objectives, in order.
    pub(crate) objectives: Vec<String>,
}

impl Front {
    /// Puts the numbers of the scenario in, and checks that there is no other number with a unit; then that each value
    /// of the scenario was used, here or in the page.
    pub(crate) fn read(
        read: &Read<RawLesson>,
        scenario: &Scenario,
        references: &References,
        page: &mut Page,
        faults: &mut Vec<Fault>,
    ) -> Option<Self> {
        let raw = read.raw.as_ref()?;
        let mut lines = Lines { references, scenario, page, faults };
        let mut line = |text: &str, path: &[Step]| lines.line(text, |range| read.yaml.place_in(path, range));
        let front = Self {
            title: line(&raw.title, &[key("title")]),
            summary: line(&raw.summary, &[key("summary")]),
            objectives: raw
                .objectives
                .iter()
                .enumerate()
                .map(|(index, objective)| line(&objective.text, &[key("objectives"), Step::Index(index), key("text")]))
                .collect(),
        };
        scenario.unused(&read.yaml, &page.given, faults);
        Some(front)
    }
}
