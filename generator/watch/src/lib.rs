//! A preview on this computer: a course is served while it is written, and checked again with each change.
//!
//! The pages are those that `publish` writes, byte for byte, under `/site/`; each is rendered when it is asked for. They
//! are shown within a frame page at `/`, which says what is wrong, lists the lessons, and loads the page in it again when
//! the site has changed. Nothing is read from the disk for a request: an address names a file of the site, or nothing.

mod areas;
mod changes;
mod error;
mod fault_view;
mod frame;
mod guard;
mod listen;
mod making;
mod outline;
mod preview;
mod server;
mod settings;
mod shared;
mod state;

pub use error::StartError;
pub use listen::Port;
pub use outline::WORDS_A_MINUTE;
pub use preview::Preview;
pub use settings::{Check, Outcome, Settings, Tell};
