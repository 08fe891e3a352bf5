//! Progress of what takes longer than half a second, on a terminal.

use std::io::IsTerminal;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};

/// How long work may take before progress is shown.
const PATIENCE: Duration = Duration::from_millis(500);

/// A count that shows itself when it takes a while; several threads may count.
#[derive(Debug)]
pub(crate) struct Progress {
    started: Instant,
    all: u64,
    bar: OnceLock<ProgressBar>,
}

impl Progress {
    /// Nothing done yet, of so many.
    pub(crate) fn new(all: usize) -> Self {
        Self { started: Instant::now(), all: all as u64, bar: OnceLock::new() }
    }

    /// So many done.
    pub(crate) fn done(&self, count: usize) {
        if self.started.elapsed() < PATIENCE || !std::io::stderr().is_terminal() {
            return;
        }
        let style =
            || ProgressStyle::with_template("{bar:30} {pos} / {len}").unwrap_or_else(|_| ProgressStyle::default_bar());
        self.bar.get_or_init(|| ProgressBar::new(self.all).with_style(style())).set_position(count as u64);
    }

    /// Takes the bar away.
    pub(crate) fn end(&self) {
        if let Some(bar) = self.bar.get() {
            bar.finish_and_clear();
        }
    }
}
