//! What the preview shows at a moment.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::body::Bytes;
use course::Course;

use crate::faults::ShownFault;

/// The rendered files, by their place in the site. They are all that can be asked for.
pub(crate) type Files = BTreeMap<String, Bytes>;

/// A rendered site, with the course that it was made from.
pub(crate) struct Site {
    pub(crate) files: Files,
    pub(crate) course: Course,
}

/// What is wrong just now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// Nothing.
    #[default]
    None,
    /// The course has faults.
    Faults(Vec<ShownFault>),
    /// A page could not be rendered, and why.
    NotRendered(String),
}

/// What is shown: the last good site, and what keeps it from being the course as it is now.
#[derive(Clone, Default)]
pub(crate) struct State {
    pub(crate) site: Option<Arc<Site>>,
    pub(crate) trouble: Trouble,
    /// How often the site has changed.
    pub(crate) sites: u64,
    /// How often anything has changed.
    pub(crate) changes: u64,
}

impl State {
    /// The same with another site, or with the same one where its files are the same; nothing is wrong then.
    pub(crate) fn with_site(&self, site: Site) -> Self {
        let mut next = self.with_trouble(Trouble::None);
        if self.site.as_ref().is_none_or(|shown| shown.files != site.files) {
            next.site = Some(Arc::new(site));
            next.sites = self.sites + 1;
            next.changes = self.changes + 1;
        }
        next
    }

    /// The same site with something else wrong.
    pub(crate) fn with_trouble(&self, trouble: Trouble) -> Self {
        let changes = self.changes + u64::from(self.trouble != trouble);
        Self { trouble, changes, ..self.clone() }
    }

    /// What windows compare with what they show: the site, and all. Another run of the program is another one, though it
    /// counts from the start again.
    pub(crate) fn versions(&self) -> [String; 2] {
        [self.sites, self.changes].map(|count| format!("{}-{count}", std::process::id()))
    }
}
