//! The entries of the lock file that a package is built with.

use std::collections::{BTreeMap, BTreeSet};

use toml::{Table, Value};

use crate::manifests::Member;

/// Name, version and checksum of every package that the first one is built with, sorted. For a crate of the workspace the
/// lock file also lists what its tests need; its manifest tells them apart.
pub(crate) fn entries(lock: &str, first: &str, members: &BTreeMap<String, Member>) -> Vec<String> {
    let Ok(lock) = lock.parse::<Table>() else { return Vec::new() };
    let packages = lock.get("package").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    let mut wanted = vec![first];
    let mut entries = BTreeSet::new();
    while let Some(need) = wanted.pop() {
        for package in packages.iter().filter(|package| is_meant(package, need)) {
            if entries.insert(entry(package)) {
                wanted.extend(needs(package, members));
            }
        }
    }
    entries.into_iter().collect()
}

/// Whether a package is meant by an entry of a list: a name, followed by the version where there is more than one.
fn is_meant(package: &Value, need: &str) -> bool {
    let mut words = need.split(' ');
    words.next() == Some(field(package, "name"))
        && words.next().is_none_or(|version| version == field(package, "version"))
}

/// What a package is built with.
fn needs<'l>(package: &'l Value, members: &BTreeMap<String, Member>) -> impl Iterator<Item = &'l str> {
    let member = members.get(field(package, "name"));
    let all = package.get("dependencies").and_then(Value::as_array);
    let all = all.into_iter().flatten().filter_map(Value::as_str);
    all.filter(move |need| {
        member.is_none_or(|member| need.split(' ').next().is_some_and(|name| member.needs.contains(name)))
    })
}

/// A package as one line.
fn entry(package: &Value) -> String {
    format!("{} {} {}", field(package, "name"), field(package, "version"), field(package, "checksum"))
}

fn field<'p>(package: &'p Value, name: &str) -> &'p str {
    package.get(name).and_then(Value::as_str).unwrap_or_default()
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
dependencies = ["proptest"]

[[package]]
name = "serde"
version = "2.0.0"
checksum = "def"

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

    fn member(name: &str, needs: &[&str]) -> (String, Member) {
        let needs = needs.iter().map(|need| (*need).to_owned()).collect();
        (name.to_owned(), Member { folder: String::new(), needs })
    }

    /// What only tests need counts where something else is built with it.
    #[test]
    fn only_what_the_engine_is_built_with_counts() {
        let members = [member("engine", &["relief"]), member("relief", &[])].into();
        assert_eq!(entries(LOCK, "engine", &members), ["engine 0.1.0 ", "relief 0.1.0 "]);
        let members = [member("engine", &["relief", "serde"]), member("relief", &[])].into();
        let all = ["engine 0.1.0 ", "proptest 1.0.0 ", "relief 0.1.0 ", "serde 1.0.0 abc"];
        assert_eq!(entries(LOCK, "engine", &members), all);
    }
}
