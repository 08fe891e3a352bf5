//! The author's guide: a course of its own, carried in the program so that it is there without the workspace.

use std::path::Path;
use std::{fs, io};

/// The files of the guide, by their path in its folder.
const FILES: &[(&str, &[u8])] = include!(concat!(env!("OUT_DIR"), "/guide.rs"));

/// Writes the course of the guide into a folder.
///
/// # Errors
/// Where a folder or a file cannot be written.
pub fn write_guide(folder: &Path) -> io::Result<()> {
    for (name, bytes) in FILES {
        let path = folder.join(name);
        path.parent().map_or(Ok(()), fs::create_dir_all)?;
        fs::write(path, bytes)?;
    }
    Ok(())
}
