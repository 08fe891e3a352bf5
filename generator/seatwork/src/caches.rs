//! Where the command keeps what it has found out: in the folder that `SEATWORK_CACHE` names, or else where the system
//! keeps a user's caches. None of it is needed: without a folder, everything is worked out again.

use std::env;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;
use sha2::{Digest, Sha256};

/// The folder for one sort of things; `None` where the system knows no home of the user.
pub(crate) fn folder(sort: &str) -> Option<PathBuf> {
    let own = env::var_os("SEATWORK_CACHE").filter(|folder| !folder.is_empty()).map(PathBuf::from);
    let usual = || Some(etcetera::base_strategy::choose_native_strategy().ok()?.cache_dir().join("seatwork"));
    Some(own.or_else(usual)?.join(sort))
}

/// Whole or not at all: a reader never sees half an entry.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let folder = path.parent().unwrap_or(path);
    fs::create_dir_all(folder)?;
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(bytes)?;
    file.persist(path).map(drop).map_err(|error| error.error)
}

/// SHA-256 of some parts, each with its length, so that no two lists of parts are the same text.
pub(crate) fn digest<'p>(parts: impl IntoIterator<Item = &'p [u8]>) -> String {
    let mut hash = Sha256::new();
    for part in parts {
        hash.update(part.len().to_le_bytes());
        hash.update(part);
    }
    let digits = hash.finalize().into_iter().flat_map(|byte| [byte >> 4, byte & 15]);
    digits.filter_map(|digit| char::from_digit(digit.into(), 16)).collect()
}
