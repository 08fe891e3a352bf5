//! What the preview shows at a moment.

use std::sync::Arc;

use pages::LazySite;

use crate::fault_view::ShownFault;

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
    pub(crate) site: Option<Arc<LazySite>>,
    pub(crate) trouble: Trouble,
    /// How often the site has changed.
    pub(crate) sites: u64,
    /// How often anything has changed.
    pub(crate) changes: u64,
}

impl State {
    /// The same with another site; nothing is wrong then.
    pub(crate) fn with_site(&self, site: LazySite) -> Self {
        let site = Some(Arc::new(site));
        Self { site, trouble: Trouble::None, sites: self.sites + 1, changes: self.changes + 1 }
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
