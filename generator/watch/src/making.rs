//! From the folder to what is shown: the course is read and checked.

use std::path::PathBuf;
use std::sync::Arc;

use course::{Course, Faults};
use pages::{LazySite, Words};

use crate::fault_view;
use crate::settings::{Check, Outcome, Settings, Tell};
use crate::shared::Shared;
use crate::state::{State, Trouble};

/// What makes each state from the one before.
pub(crate) struct Maker {
    folder: PathBuf,
    words: Words,
    check: Box<Check>,
    tell: Box<Tell>,
    shared: Arc<Shared>,
    /// Whether anything was reported yet.
    told: bool,
}

impl Maker {
    pub(crate) fn new(settings: Settings, shared: Arc<Shared>) -> Self {
        let Settings { folder, words, check, tell, port: _ } = settings;
        Self { folder, words, check, tell, shared, told: false }
    }

    /// Reads the course as it is now, shows what comes of it, and reports it if it differs from before.
    pub(crate) fn make(&mut self) {
        let old = self.shared.state();
        match (self.check)() {
            Ok(course) => self.sound(&old, course),
            Err(faults) => self.faulty(&old, &faults),
        }
    }

    /// Shows what is wrong with a course.
    fn faulty(&mut self, old: &State, faults: &Faults) {
        let trouble = Trouble::Faults(fault_view::shown(&self.folder, faults, &self.words));
        if self.take(old, old.with_trouble(trouble)) {
            (self.tell)(&Outcome::Faults { faults, shown: old.site.is_some() });
        }
    }

    /// Shows a course without a fault. The same course has the same site.
    fn sound(&mut self, old: &State, course: Course) {
        let next = match &old.site {
            Some(site) if *site.course() == course => Ok(old.with_trouble(Trouble::None)),
            _ => LazySite::new(course, self.words.clone()).map(|site| old.with_site(site)),
        };
        match next {
            Ok(next) => self.shown(old, next),
            Err(error) => {
                if self.take(old, old.with_trouble(Trouble::NotRendered(error.to_string()))) {
                    (self.tell)(&Outcome::NotRendered(&error));
                }
            }
        }
    }

    fn shown(&mut self, old: &State, next: State) {
        let site = next.site.clone();
        if let (true, Some(site)) = (self.take(old, next), site) {
            (self.tell)(&Outcome::Shown(site.course()));
        }
    }

    /// Shows a state; whether it is news.
    fn take(&mut self, old: &State, next: State) -> bool {
        let news = !self.told || next.changes != old.changes;
        self.told = true;
        self.shared.show(next);
        news
    }
}
