//! A preview while it runs.

use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::sync::mpsc::Sender;
use std::thread;

use tokio::runtime::{Builder, Runtime};

use crate::changes::{Changes, Heard};
use crate::error::StartError;
use crate::listen;
use crate::making::Maker;
use crate::server;
use crate::settings::Settings;
use crate::shared::Shared;

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
        let runtime = runtime().map_err(StartError::Listen)?;
        // Before the first reading, so that no change falls between the two.
        let (mut changes, stop) = Changes::of(&settings.folder)?;
        let shared = Arc::new(Shared::new(settings.words.clone())?);
        let mut maker = Maker::new(settings, shared.clone());
        maker.make();
        let router = server::router(shared);
        runtime.spawn(async move { axum::serve(listen::for_tokio(listener)?, router).await });
        thread::spawn(move || follow(&mut changes, &mut maker));
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

fn runtime() -> io::Result<Runtime> {
    Builder::new_multi_thread().worker_threads(2).enable_all().build()
}

/// Makes a state after each change.
fn follow(changes: &mut Changes, maker: &mut Maker) {
    while changes.wait() {
        maker.make();
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
