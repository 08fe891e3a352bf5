//! What requests are answered from.

use std::sync::Arc;

use pages::Words;
use tera::TeraResult;
use tokio::sync::watch::{Receiver, Sender};

use crate::frame::Frame;
use crate::state::State;

/// What is shown, and the frame to show it in.
pub(crate) struct Shared {
    states: Sender<Arc<State>>,
    pub(crate) frame: Frame,
}

impl Shared {
    pub(crate) fn new(words: Words) -> TeraResult<Self> {
        Ok(Self { states: Sender::new(Arc::default()), frame: Frame::new(words)? })
    }

    /// What is shown now.
    pub(crate) fn state(&self) -> Arc<State> {
        self.states.borrow().clone()
    }

    /// Shows something else from now on; windows hear of it.
    pub(crate) fn show(&self, state: State) {
        self.states.send_replace(Arc::new(state));
    }

    pub(crate) fn words(&self) -> &Words {
        self.frame.words()
    }

    /// What is shown now, and whatever is shown later.
    pub(crate) fn follow(&self) -> Receiver<Arc<State>> {
        self.states.subscribe()
    }
}
