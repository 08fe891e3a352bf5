//! What can keep a preview from starting.

use std::io;

/// What keeps a preview from starting.
#[derive(Debug, thiserror::Error)]
pub enum StartError {
    /// The kept engine was built from other sources than the native core.
    #[error("engine")]
    Engine,
    /// The port that was asked for is in use.
    #[error("port {0} is in use")]
    PortTaken(u16),
    /// None was asked for, and all that were tried are in use.
    #[error("the ports {first} to {last} are in use")]
    NoPortFree {
        /// The first of them.
        first: u16,
        /// The last of them.
        last: u16,
    },
    /// The system does not let the program listen.
    #[error("cannot listen: {0}")]
    Listen(io::Error),
    /// Changes of the folder cannot be followed.
    #[error("cannot follow changes: {0}")]
    Changes(#[from] notify::Error),
    /// The frame page cannot be made.
    #[error("template: {0}")]
    Template(#[from] tera::Error),
}
