//! A preview on the own machine: a course is served while it is written, and checked and rendered again with each change.
//!
//! The pages are those that `publish` writes, byte for byte, under `/site/`. They are looked at within a frame page at
//! `/`, which tells what is wrong, lists the lessons, and loads the page in it again when the site has changed. Nothing is
//! read from the disk for a request: what can be asked for is what was rendered.

mod changes;
mod faults;
mod frame;
mod guard;
mod listen;
mod making;
mod outline;
mod server;
mod state;

use std::io;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::Sender;
use std::thread;

use course::{Course, Faults};
use pages::{RenderError, Words};
use tokio::runtime::{Builder, Runtime};

pub use listen::Port;
pub use outline::WORDS_A_MINUTE;

use changes::{Changes, Heard};
use making::Maker;
use server::Shared;

/// Reads, checks and proves the course.
pub type Check = dyn Fn() -> Result<Course, Faults> + Send;

/// Is told how it went, whenever that has changed.
pub type Tell = dyn Fn(&Outcome) + Send;

/// What to serve, and how.
pub struct Settings {
    /// The folder of the course, as it is to be named where faults are told.
    pub folder: PathBuf,
    /// The words of the pages and of the frame.
    pub words: Words,
    /// Where to listen.
    pub port: Port,
    /// How the course is read.
    pub check: Box<Check>,
    /// Who is told.
    pub tell: Box<Tell>,
}

/// How it went.
#[derive(Debug)]
pub enum Outcome<'o> {
    /// The site shows the course as it is now.
    Shown(&'o Course),
    /// The course has faults.
    Faults {
        /// They.
        faults: &'o Faults,
        /// Whether an earlier site is still shown.
        shown: bool,
    },
    /// A page could not be rendered.
    NotRendered(&'o RenderError),
}

/// Why there is no preview.
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

/// A running preview; dropped, it stops.
#[derive(Debug)]
pub struct Preview {
    address: SocketAddr,
    runtime: Option<Runtime>,
    stop: Sender<Heard>,
}

impl Preview {
    /// Takes the port, reads the course once, and serves it from then on. A course with faults is served too: the frame
    /// tells them, and shows the site once they are mended.
    ///
    /// # Errors
    /// [`StartError`], by its rule.
    pub fn start(settings: Settings) -> Result<Self, StartError> {
        if !pages::matches_core() {
            return Err(StartError::Engine);
        }
        let (listener, address) = listen::on(settings.port)?;
        let runtime = Builder::new_multi_thread().worker_threads(2).enable_all().build().map_err(StartError::Listen)?;
        // Before the first reading, so that no change falls between the two.
        let (mut changes, stop) = Changes::of(&settings.folder)?;
        let shared = Arc::new(Shared::new(settings.words.clone())?);
        let mut maker = Maker::new(settings, shared.clone());
        maker.make();
        let router = server::router(shared);
        runtime.spawn(async move { axum::serve(listen::for_tokio(listener)?, router).await });
        thread::spawn(move || {
            while changes.wait() {
                maker.make();
            }
        });
        Ok(Self { address, runtime: Some(runtime), stop })
    }

    /// Where the frame page is.
    #[must_use]
    pub fn address(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Serves until the user interrupts the program.
    ///
    /// # Errors
    /// Where the system does not tell of interrupts.
    pub fn until_interrupted(self) -> io::Result<()> {
        self.runtime.as_ref().map_or(Ok(()), |runtime| runtime.block_on(tokio::signal::ctrl_c()))
    }
}

impl Drop for Preview {
    fn drop(&mut self) {
        // The thread that renders may already have ended.
        let _ = self.stop.send(Heard::Stop);
        if let Some(runtime) = self.runtime.take() {
            // Open windows hold a connection each, for as long as they are open.
            runtime.shutdown_background();
        }
    }
}
