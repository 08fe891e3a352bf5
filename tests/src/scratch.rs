//! Scratch folders, and the command as it is built.

use std::path::{Component, Path, PathBuf};
use std::process::{Command, Output};
use std::{env, fs};

/// The top of the workspace.
#[must_use]
pub fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The command, with colours off and a memory of what it proved that is not the user's own. It is the one that
/// `SEATWORK_BIN` names, or the one built beside the running test.
///
/// # Panics
/// Where it was not built: `cargo build -p seatwork` first, as `tests/run` does.
#[must_use]
pub fn command() -> Command {
    let test = env::current_exe().expect("running test");
    let folder = test.ancestors().nth(2).expect("target folder");
    let beside = || folder.join(format!("seatwork{}", env::consts::EXE_SUFFIX));
    let path = env::var_os("SEATWORK_BIN").map_or_else(beside, PathBuf::from);
    assert!(path.exists(), "{} is not there: cargo build -p seatwork", path.display());
    let mut command = Command::new(path);
    command.env("NO_COLOR", "1").env("SEATWORK_CACHE", folder.join("seatwork-cache"));
    command
}

/// A folder of one test, removed at its end.
#[derive(Debug)]
pub struct Scratch(tempfile::TempDir);

impl Default for Scratch {
    fn default() -> Self {
        Self::new()
    }
}

impl Scratch {
    /// A new empty folder.
    ///
    /// # Panics
    /// Where no folder can be made.
    #[must_use]
    pub fn new() -> Self {
        Self(tempfile::tempdir().expect("scratch folder"))
    }

    /// A new empty folder within another.
    ///
    /// # Panics
    /// Where no folder can be made.
    #[must_use]
    pub fn within(folder: &Path) -> Self {
        Self(tempfile::tempdir_in(folder).expect("scratch folder"))
    }

    /// A path in it; the folder itself where nothing is given.
    ///
    /// # Panics
    /// Where the path would lead out of it, as one that starts with `/` does.
    #[must_use]
    pub fn path(&self, relative: &str) -> PathBuf {
        let stays = Path::new(relative).components().all(|part| matches!(part, Component::Normal(_)));
        assert!(stays, "{relative} leads out of the scratch folder");
        self.0.path().join(relative)
    }

    /// Writes a file in it, with the folders that it needs.
    ///
    /// # Panics
    /// Where it cannot be written.
    pub fn write(&self, relative: &str, bytes: impl AsRef<[u8]>) {
        let path = self.path(relative);
        fs::create_dir_all(path.parent().expect("folder")).expect("folder");
        fs::write(path, bytes).expect("file");
    }

    /// Copies what is in a folder to a path in it; into the folder itself where nothing is given.
    ///
    /// # Panics
    /// Where something cannot be read or written, or by the rule of [`Self::path`].
    pub fn copy(&self, from: &Path, relative: &str) {
        for entry in fs::read_dir(from).expect("folder") {
            let entry = entry.expect("entry");
            let below = if relative.is_empty() { "" } else { "/" };
            let name = format!("{relative}{below}{}", entry.file_name().to_string_lossy());
            if entry.file_type().expect("type").is_dir() {
                self.copy(&entry.path(), &name);
            } else {
                self.write(&name, fs::read(entry.path()).expect("file"));
            }
        }
    }

    /// Every file below a path in it, by its relative path, in order.
    ///
    /// # Panics
    /// Where something cannot be read.
    #[must_use]
    pub fn files(&self, relative: &str) -> Vec<(String, Vec<u8>)> {
        let mut all = Vec::new();
        collect(&self.path(relative), "", &mut all);
        all.sort();
        all
    }

    /// Publishes the course in it at `course` to `site`.
    ///
    /// # Panics
    /// Where the command cannot be started.
    #[must_use]
    pub fn publish(&self) -> Output {
        let mut command = command();
        command.arg("publish").arg("--course").arg(self.path("course")).arg("--to").arg(self.path("site"));
        command.output().expect("command")
    }
}

fn collect(folder: &Path, prefix: &str, all: &mut Vec<(String, Vec<u8>)>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries {
        let entry = entry.expect("entry");
        let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
        if entry.file_type().expect("type").is_dir() {
            collect(&entry.path(), &format!("{name}/"), all);
        } else {
            all.push((name, fs::read(entry.path()).expect("file")));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_to_nowhere_in_particular_is_a_copy_into_the_folder() {
        let (from, to) = (Scratch::new(), Scratch::new());
        from.write("one/two", "2");
        from.write("three", "3");
        to.copy(&from.path(""), "");
        assert_eq!(to.files(""), from.files(""));
        to.copy(&from.path("one"), "four");
        assert_eq!(fs::read(to.path("four/two")).expect("file"), b"2");
    }

    #[test]
    fn no_path_leads_out() {
        for path in ["/", "/one", "..", "one/../../two", "./one"] {
            let scratch = Scratch::new();
            assert!(std::panic::catch_unwind(|| scratch.path(path)).is_err(), "{path}");
        }
    }
}
