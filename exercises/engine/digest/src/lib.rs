//! The digest that ties a built engine to what it was built from: the sources of the core, the lock entries that it
//! depends on, the profile and the toolchain. Line endings do not matter to it, so that a checkout on any system agrees.

mod lock;
mod manifests;

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use sha2::{Digest, Sha256};

use manifests::Member;

/// The package that is built, and the profile that it is built in.
const PACKAGE: &str = "engine";

/// The folder of the package, from the top.
const FOLDER: &str = "exercises/engine";

/// The digest, in hexadecimal, of what the engine would be built from in the workspace at `top` by a toolchain.
///
/// # Errors
/// A source, a manifest or `Cargo.lock` that cannot be read.
pub fn digest(top: &Path, toolchain: &str) -> io::Result<String> {
    let mut hash = Sha256::new();
    for file in sources(top)? {
        let text = fs::read_to_string(top.join(&file))?.replace("\r\n", "\n");
        add(&mut hash, &file);
        add(&mut hash, &text);
    }
    for entry in lock::entries(&fs::read_to_string(top.join("Cargo.lock"))?, PACKAGE, &linked(top)?) {
        add(&mut hash, &entry);
    }
    add(&mut hash, &profile(&fs::read_to_string(top.join("Cargo.toml"))?));
    add(&mut hash, toolchain);
    Ok(hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect())
}

/// Every file that goes into the engine, by its path from the top with slashes, in order.
///
/// # Errors
/// A manifest or a folder that cannot be read.
pub fn sources(top: &Path) -> io::Result<Vec<String>> {
    let mut files = Vec::new();
    for folder in folders(top)? {
        files.push(format!("{folder}/Cargo.toml"));
        walk(top, &format!("{folder}/src"), &mut files)?;
    }
    files.sort();
    Ok(files)
}

/// The folder of every crate of the workspace that is linked into the engine, from the top.
///
/// # Errors
/// A manifest that cannot be read.
pub fn folders(top: &Path) -> io::Result<Vec<String>> {
    Ok(linked(top)?.into_values().map(|member| member.folder).collect())
}

fn linked(top: &Path) -> io::Result<BTreeMap<String, Member>> {
    manifests::linked(FOLDER, |file| fs::read_to_string(top.join(file)))
}

fn walk(top: &Path, folder: &str, files: &mut Vec<String>) -> io::Result<()> {
    for entry in fs::read_dir(top.join(folder))? {
        let entry = entry?;
        let path = format!("{folder}/{}", entry.file_name().to_string_lossy());
        if entry.file_type()?.is_dir() {
            walk(top, &path, files)?;
        } else if path.ends_with(".rs") {
            files.push(path);
        }
    }
    Ok(())
}

/// Parts are separated, so that no two lists of them give the same bytes.
fn add(hash: &mut Sha256, part: &str) {
    hash.update(part.len().to_string().as_bytes());
    hash.update([0]);
    hash.update(part.as_bytes());
}

fn profile(manifest: &str) -> String {
    let Ok(manifest) = manifest.parse::<toml::Table>() else { return String::new() };
    let profile = manifest.get("profile").and_then(|profiles| profiles.get(PACKAGE));
    profile.map(ToString::to_string).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_profile_is_part_of_it() {
        assert_ne!(profile("[profile.engine]\nopt-level = 3\n"), profile("[profile.engine]\nopt-level = 2\n"));
    }

    /// The plots that values are read off are drawn by the engine.
    #[test]
    fn every_crate_that_is_linked_in_counts() {
        let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../..");
        let files = sources(&top).expect("workspace");
        for folder in ["relief", "figures", "problems", "engine"] {
            assert!(files.contains(&format!("exercises/{folder}/src/lib.rs")), "{folder}");
        }
    }

    #[test]
    fn the_digest_follows_sources_and_toolchain() {
        let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../..");
        let one = digest(&top, "1").expect("workspace");
        assert_eq!(one.len(), 64);
        assert_ne!(one, digest(&top, "2").expect("workspace"));
        let files = sources(&top).expect("workspace");
        assert!(files.contains(&"exercises/relief/src/units/table.rs".to_owned()));
        assert!(files.iter().all(|file| !file.contains('\\')));
    }
}
