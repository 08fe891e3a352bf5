//! Renders a checked course into the files of a site, and writes them all or nothing.

mod alone;
mod csv_text;
mod engine;
mod guide;
mod paper;
mod publish;
mod render;
mod samples;
pub mod site;
mod theme;
mod words;

pub use engine::{core_digest, matches_core};
pub use guide::write_guide;
pub use paper::{Numbered, PAPER_MARK, Paper, numbers, paper};
pub use publish::{PublishError, publish};
pub use render::{Content, LazySite, RenderError, Sink};
pub use samples::{SAMPLES_MARK, samples};
pub use site::{SiteError, Written};
pub use theme::style_sheet;
pub use words::Words;
