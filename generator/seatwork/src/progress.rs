//! Progress of what takes longer than half a second, on a terminal.

use std::io::IsTerminal;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// How long work may take before progress is shown.
const PATIENCE: Duration = Duration::from_millis(500);

/// A count that shows itself when it takes a while; several threads may count.
#[derive(Debug)]
pub(crate) struct Progress {
    /// What is done, in a word or two.
    doing: String,
    started: Instant,
    patience: Duration,
    /// Whether it can be seen.
    seen: bool,
    bar: OnceLock<ProgressBar>,
}

impl Progress {
    /// Nothing done yet.
    pub(crate) fn new(doing: &str) -> Self {
        Self::with(doing, PATIENCE, std::io::stderr().is_terminal())
    }

    fn with(doing: &str, patience: Duration, seen: bool) -> Self {
        Self { doing: doing.to_owned(), started: Instant::now(), patience, seen, bar: OnceLock::new() }
    }

    /// Says how many are done, and of how many.
    pub(crate) fn done(&self, count: usize, of: usize) {
        if !self.seen || self.started.elapsed() < self.patience {
            return;
        }
        let bar = self.bar.get_or_init(|| self.bar());
        bar.set_length(of as u64);
        // Threads report out of turn, and the count must not go back.
        if count as u64 > bar.position() {
            bar.set_position(count as u64);
        }
    }

    fn bar(&self) -> ProgressBar {
        let style = ProgressStyle::with_template("{msg:10} {bar:30} {pos} / {len}");
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
        bar.with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar())).with_message(self.doing.clone())
    }
}

/// Takes the bar away, however the work ends.
impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = self.bar.get() {
            bar.finish_and_clear();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_takes_a_while_is_shown_and_only_where_somebody_sees_it() {
        for (patience, seen, shows) in
            [(Duration::ZERO, true, true), (Duration::ZERO, false, false), (Duration::MAX, true, false)]
        {
            let progress = Progress::with("Reading", patience, seen);
            progress.done(2, 3);
            progress.done(1, 3);
            let bar = progress.bar.get();
            assert_eq!(bar.map(ProgressBar::position), shows.then_some(2), "{patience:?} {seen}");
            assert_eq!(bar.and_then(ProgressBar::length), shows.then_some(3));
        }
    }
}
