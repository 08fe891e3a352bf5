//! Which crates of the workspace are linked into a package, as their manifests say.

use std::collections::{BTreeMap, BTreeSet};
use std::io;

use toml::{Table, Value};

/// A crate of the workspace.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Member {
    /// Its folder, from the top of the workspace.
    pub(crate) folder: String,
    /// The names of the packages that it is built with: not those of its tests, nor optional ones, since the engine is
    /// built without features.
    pub(crate) needs: BTreeSet<String>,
}

/// The tables of a manifest that list what a crate is built with.
const LISTS: [&str; 2] = ["dependencies", "build-dependencies"];

/// The crate in a folder and every crate of the workspace that it depends on, directly or not, by name. `read` gives the
/// text of a file by its path from the top.
///
/// # Errors
/// A manifest that cannot be read.
pub(crate) fn linked(first: &str, read: impl Fn(&str) -> io::Result<String>) -> io::Result<BTreeMap<String, Member>> {
    let manifest = |folder: &str| parsed(&read(&joined(folder, "Cargo.toml"))?);
    let workspace = manifest("")?;
    let shared = table(&workspace, "workspace").and_then(|workspace| table(workspace, "dependencies"));
    let mut members = BTreeMap::new();
    let mut wanted = vec![first.to_owned()];
    while let Some(folder) = wanted.pop() {
        let manifest = manifest(&folder)?;
        let needs: Vec<_> =
            dependencies(&manifest).map(|(name, need)| Need::new(name, need, shared, &folder)).collect();
        wanted.extend(needs.iter().filter_map(|need| need.folder.clone()));
        let name = table(&manifest, "package").and_then(|package| text(package, "name")).unwrap_or_default().to_owned();
        members.insert(name, Member { folder, needs: needs.into_iter().map(|need| need.package).collect() });
    }
    Ok(members)
}

/// One dependency of a crate.
struct Need {
    package: String,
    /// Where it is, for a crate of the workspace.
    folder: Option<String>,
}

impl Need {
    /// A dependency that is listed in the manifest of a folder, or there as one of the workspace.
    fn new(name: &str, listed: &Value, shared: Option<&Table>, folder: &str) -> Self {
        let own = listed.as_table();
        let shares = own.and_then(|own| own.get("workspace")).and_then(Value::as_bool) == Some(true);
        let (said, from) = if shares { (shared.and_then(|shared| table(shared, name)), "") } else { (own, folder) };
        let package = said.and_then(|said| text(said, "package")).unwrap_or(name);
        let path = said.and_then(|said| text(said, "path"));
        Self { package: package.to_owned(), folder: path.map(|path| joined(from, path)) }
    }
}

/// What a crate is built with, with what it takes on some targets.
fn dependencies(manifest: &Table) -> impl Iterator<Item = (&str, &Value)> {
    let targets = table(manifest, "target").into_iter().flat_map(Table::values).filter_map(Value::as_table);
    let lists = [manifest].into_iter().chain(targets).flat_map(|from| LISTS.map(|list| table(from, list)));
    let optional = |need: &Value| need.get("optional").and_then(Value::as_bool) == Some(true);
    let listed = lists.flatten().flat_map(|list| list.iter().map(|(name, need)| (name.as_str(), need)));
    listed.filter(move |(_, need)| !optional(need))
}

fn parsed(text: &str) -> io::Result<Table> {
    text.parse().map_err(io::Error::other)
}

fn table<'t>(of: &'t Table, key: &str) -> Option<&'t Table> {
    of.get(key)?.as_table()
}

fn text<'t>(of: &'t Table, key: &str) -> Option<&'t str> {
    of.get(key)?.as_str()
}

/// A path from a folder, as a path from the top.
fn joined(folder: &str, path: &str) -> String {
    let mut parts: Vec<&str> = Vec::new();
    for part in folder.split('/').chain(path.split('/')) {
        match part {
            "" | "." => {}
            ".." => drop(parts.pop()),
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A workspace that lists each dependency differently.
    fn read(file: &str) -> io::Result<String> {
        let text = match file {
            "Cargo.toml" => {
                "[workspace.dependencies]\none = { path = \"crates/one\" }\nfar = \"1\"\nfork = { package = \"origin\", version = \"1\" }"
            }
            "engine/Cargo.toml" => {
                "[package]\nname = \"engine\"\n[dependencies]\none.workspace = true\nfar = { workspace = true }\nfork.workspace = true"
            }
            "crates/one/Cargo.toml" => {
                "[package]\nname = \"one\"\n[dependencies]\ntwo = { path = \"../two\" }\nextra = { path = \"../extra\", optional = true }\n[dev-dependencies]\nprobe = { path = \"../probe\" }"
            }
            "crates/two/Cargo.toml" => {
                "[package]\nname = \"two\"\n[target.'cfg(unix)'.dependencies]\nthree = { path = \"../three\" }"
            }
            "crates/three/Cargo.toml" => "[package]\nname = \"three\"\n",
            other => return Err(io::Error::other(other.to_owned())),
        };
        Ok(text.to_owned())
    }

    #[test]
    fn dependencies_are_followed_however_they_are_listed() {
        let members = linked("engine", read).expect("manifests");
        let folders: Vec<_> = members.iter().map(|(name, member)| (name.as_str(), member.folder.as_str())).collect();
        assert_eq!(
            folders,
            [("engine", "engine"), ("one", "crates/one"), ("three", "crates/three"), ("two", "crates/two")]
        );
        let needs = |name: &str| members[name].needs.iter().map(String::as_str).collect::<Vec<_>>();
        assert_eq!(needs("engine"), ["far", "one", "origin"]);
        assert_eq!(needs("one"), ["two"]);
    }

    #[test]
    fn a_manifest_that_is_not_there_is_told() {
        assert!(linked("nowhere", read).is_err());
    }
}
