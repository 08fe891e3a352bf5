//! The digest that ties a built engine to what it was built from: the sources of the core, the lock entries that it
//! depends on, the profile and the toolchain. Line endings do not matter to it, so that a checkout on any system agrees.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

/// The folders under `exercises/` whose Rust sources and manifests go into the engine.
pub const SOURCES: [&str; 3] = ["relief", "problems", "engine"];

/// The package that is built, and the profile that it is built in.
const PACKAGE: &str = "engine";

/// The digest, in hexadecimal, of what the engine would be built from in the workspace at `top` by a toolchain.
///
/// # Errors
/// A source, `Cargo.lock` or `Cargo.toml` that cannot be read.
pub fn digest(top: &Path, toolchain: &str) -> io::Result<String> {
    let mut hash = Sha256::new();
    for file in sources(top)? {
        let text = fs::read_to_string(top.join(&file))?.replace("\r\n", "\n");
        add(&mut hash, &file);
        add(&mut hash, &text);
    }
    for entry in lock_entries(&fs::read_to_string(top.join("Cargo.lock"))?) {
        add(&mut hash, &entry);
    }
    add(&mut hash, &profile(&fs::read_to_string(top.join("Cargo.toml"))?));
    add(&mut hash, toolchain);
    Ok(hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect())
}

/// Every file that goes into the engine, by its path from the top with slashes, in order.
///
/// # Errors
/// A folder that cannot be read.
pub fn sources(top: &Path) -> io::Result<Vec<String>> {
    let mut files = Vec::new();
    for folder in SOURCES {
        let folder = format!("exercises/{folder}");
        files.push(format!("{folder}/Cargo.toml"));
        walk(top, &format!("{folder}/src"), &mut files)?;
    }
    files.sort();
    Ok(files)
}

fn walk(top: &Path, folder: &str, files: &mut Vec<String>) -> io::Result<()> {
    for entry in fs::read_dir(top.join(PathBuf::from(folder)))? {
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

/// Name, version and checksum of every package that the engine is built with, sorted. Packages that only tests or the
/// host need are in the lock file under the same names, so the dependencies are followed from the manifests' own lists.
fn lock_entries(lock: &str) -> Vec<String> {
    let Ok(lock) = lock.parse::<toml::Table>() else { return Vec::new() };
    let packages = lock.get("package").and_then(toml::Value::as_array).map(Vec::as_slice).unwrap_or_default();
    let by_name: BTreeMap<&str, &toml::Value> =
        packages.iter().filter_map(|package| Some((package.get("name")?.as_str()?, package))).collect();
    let mut wanted = vec![PACKAGE];
    let mut seen = BTreeSet::new();
    while let Some(name) = wanted.pop() {
        if LEFT_OUT.contains(&name) || !seen.insert(name) {
            continue;
        }
        let needs = by_name.get(name).and_then(|package| package.get("dependencies")).and_then(toml::Value::as_array);
        let names = needs.into_iter().flatten().filter_map(toml::Value::as_str);
        wanted.extend(names.map(|need| need.split(' ').next().unwrap_or(need)));
    }
    seen.into_iter().filter_map(|name| by_name.get(name)).map(|package| entry(package)).collect()
}

/// What the tests of the core need, and what it takes for the schema of recipes, which the engine leaves out: a lock file
/// tells neither from what is built in.
const LEFT_OUT: [&str; 2] = ["proptest", "schemars"];

/// A package as one line.
fn entry(package: &toml::Value) -> String {
    let field = |name| package.get(name).and_then(toml::Value::as_str).unwrap_or_default();
    format!("{} {} {}", field("name"), field("version"), field("checksum"))
}

fn profile(manifest: &str) -> String {
    let Ok(manifest) = manifest.parse::<toml::Table>() else { return String::new() };
    let profile = manifest.get("profile").and_then(|profiles| profiles.get(PACKAGE));
    profile.map(ToString::to_string).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOCK: &str = r#"
[[package]]
name = "engine"
version = "0.1.0"
dependencies = ["relief", "schemars", "serde 1.0.0"]

[[package]]
name = "relief"
version = "0.1.0"
dependencies = ["proptest"]

[[package]]
name = "serde"
version = "1.0.0"
checksum = "abc"

[[package]]
name = "proptest"
version = "1.0.0"

[[package]]
name = "schemars"
version = "1.0.0"

[[package]]
name = "clap"
version = "4.0.0"
"#;

    #[test]
    fn only_what_the_engine_is_built_with_counts() {
        assert_eq!(lock_entries(LOCK), ["engine 0.1.0 ", "relief 0.1.0 ", "serde 1.0.0 abc"].map(str::to_owned));
    }

    #[test]
    fn the_profile_is_part_of_it() {
        assert_ne!(profile("[profile.engine]\nopt-level = 3\n"), profile("[profile.engine]\nopt-level = 2\n"));
    }

    #[test]
    fn the_digest_follows_sources_and_toolchain() {
        let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../..");
        let one = digest(&top, "1").expect("workspace");
        assert_eq!(one.len(), 64);
        assert_ne!(one, digest(&top, "2").expect("workspace"));
        let files = sources(&top).expect("workspace");
        assert!(files.contains(&"exercises/relief/src/units.rs".to_owned()));
        assert!(files.iter().all(|file| !file.contains('\\')));
    }
}
