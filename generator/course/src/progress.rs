//! How far the reading of a course has got, for those who wait for it.

use std::sync::atomic::{AtomicUsize, Ordering};

/// Who hears how many steps are done, and of how many; several threads report.
pub type Told<'t> = dyn Fn(usize, usize) + Sync + 't;

/// How often each text is taken up: read, its front matter read, its text rendered.
const TIMES: usize = 3;

/// The steps of one reading.
pub(crate) struct Progress<'t> {
    done: AtomicUsize,
    all: AtomicUsize,
    told: &'t Told<'t>,
}

impl<'t> Progress<'t> {
    /// None done yet, of a number that is not yet known.
    pub(crate) fn new(told: &'t Told<'t>) -> Self {
        Self { done: AtomicUsize::new(0), all: AtomicUsize::new(0), told }
    }

    /// Says how many texts there are.
    pub(crate) fn expect(&self, texts: usize) {
        self.all.store(texts * TIMES, Ordering::Relaxed);
    }

    /// Gives what was done, and counts it.
    pub(crate) fn done<T>(&self, what: T) -> T {
        (self.told)(self.done.fetch_add(1, Ordering::Relaxed) + 1, self.all.load(Ordering::Relaxed));
        what
    }
}
