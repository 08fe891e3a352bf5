//! Files that begin with a mark of ours, so that no other file is ever written over.

use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// Whether nothing is there, or an earlier file with this mark.
///
/// # Errors
/// Whatever keeps the file from being read.
pub(crate) fn is_free(path: &Path, mark: &str) -> std::io::Result<bool> {
    let mut file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(true),
        Err(error) => return Err(error),
    };
    let mut start = vec![0; mark.len()];
    match file.read_exact(&mut start) {
        Ok(()) => Ok(start == mark.as_bytes()),
        Err(error) if error.kind() == ErrorKind::UnexpectedEof => Ok(false),
        Err(error) => Err(error),
    }
}
