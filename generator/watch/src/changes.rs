//! Changes in the folder of a course, gathered until they rest.

use std::path::{Component, Path, PathBuf};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::time::{Duration, Instant};

use notify::event::{AccessKind, AccessMode, ModifyKind};
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};

/// How long nothing may happen before the folder is read: an editor writes another file and renames it, which is several
/// events at once.
const REST: Duration = Duration::from_millis(30);
/// How long is waited for such a rest.
const LONGEST: Duration = Duration::from_millis(300);

/// What is heard of the folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Heard {
    /// Something in it has changed.
    Change,
    /// The folder itself was taken away, moved or put there: it must be followed again.
    Itself,
    /// The preview has ended.
    Stop,
}

/// What follows a folder.
pub(crate) struct Changes {
    watcher: RecommendedWatcher,
    heard: Receiver<Heard>,
    folder: PathBuf,
}

impl Changes {
    /// Follows a folder from now on. What is sent to the sender is heard too, so that it can stop.
    pub(crate) fn of(folder: &Path) -> notify::Result<(Self, Sender<Heard>)> {
        let folder = folder.canonicalize()?;
        let (sender, heard) = mpsc::channel();
        let mut watcher = watcher(sender.clone(), folder.clone())?;
        watcher.watch(&folder, RecursiveMode::Recursive)?;
        if let Some(parent) = folder.parent() {
            // Tells when the folder is put back. Where that cannot be known, the preview works all the same.
            drop(watcher.watch(parent, RecursiveMode::NonRecursive));
        }
        Ok((Self { watcher, heard, folder }, sender))
    }

    /// Waits until something has changed and has come to rest; `false` where nothing more will.
    pub(crate) fn wait(&mut self) -> bool {
        let Ok(mut what) = self.heard.recv() else { return false };
        let end = Instant::now() + LONGEST;
        loop {
            match what {
                Heard::Stop => return false,
                // Where it is gone, its parent tells when it is back.
                Heard::Itself => drop(self.watcher.watch(&self.folder, RecursiveMode::Recursive)),
                Heard::Change => {}
            }
            let left = end.saturating_duration_since(Instant::now()).min(REST);
            match self.heard.recv_timeout(left) {
                Ok(next) => what = next,
                Err(RecvTimeoutError::Timeout) => return true,
                Err(RecvTimeoutError::Disconnected) => return false,
            }
        }
    }
}

/// What tells a sender of the changes in a folder.
fn watcher(sender: Sender<Heard>, folder: PathBuf) -> notify::Result<RecommendedWatcher> {
    notify::recommended_watcher(move |event: notify::Result<Event>| {
        // What the system could not report may have been a change.
        if let Some(what) = event.map_or(Some(Heard::Change), |event| meaning(&event, &folder)) {
            // The preview may have ended.
            let _ = sender.send(what);
        }
    })
}

/// What an event says of the folder, if anything. Reading it is an event too, and must not lead to another reading.
fn meaning(event: &Event, folder: &Path) -> Option<Heard> {
    match event.kind {
        EventKind::Access(AccessKind::Close(AccessMode::Write)) => {}
        EventKind::Access(_) => return None,
        _ => {}
    }
    let moved =
        matches!(event.kind, EventKind::Create(_) | EventKind::Remove(_) | EventKind::Modify(ModifyKind::Name(_)));
    if moved && event.paths.iter().any(|path| path == folder) {
        return Some(Heard::Itself);
    }
    let counts = event.paths.is_empty() || event.paths.iter().any(|path| is_content(path, folder));
    counts.then_some(Heard::Change)
}

/// Whether a path is one that a course is read from: not beside the folder, and not one of the hidden files that editors
/// and file managers keep.
fn is_content(path: &Path, folder: &Path) -> bool {
    let hidden = |part: Component| part.as_os_str().as_encoded_bytes().starts_with(b".");
    path.strip_prefix(folder).is_ok_and(|inside| !inside.components().any(hidden))
}

#[cfg(test)]
mod tests {
    use notify::event::{CreateKind, DataChange, RemoveKind};

    use super::*;

    fn heard(kind: EventKind, path: &str) -> Option<Heard> {
        meaning(&Event::new(kind).add_path(path.into()), Path::new("/c"))
    }

    #[test]
    fn changes_count_and_readings_do_not() {
        let written = EventKind::Modify(ModifyKind::Data(DataChange::Any));
        let read = EventKind::Access(AccessKind::Open(AccessMode::Any));
        assert_eq!(heard(written, "/c/en/lessons/a.md"), Some(Heard::Change));
        assert_eq!(heard(read, "/c/en/lessons/a.md"), None);
        assert_eq!(heard(written, "/c/en/lessons/.a.md.swp"), None);
        assert_eq!(heard(written, "/beside"), None);
        assert_eq!(heard(EventKind::Remove(RemoveKind::Folder), "/c"), Some(Heard::Itself));
        assert_eq!(heard(EventKind::Create(CreateKind::Folder), "/c"), Some(Heard::Itself));
    }
}
