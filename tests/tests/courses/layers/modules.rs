//! The modules of a crate, a file each, and what they need of one another.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use super::circles::Needs;
use super::imports::{Imports, Path as Named};

/// How often a name is passed on at most: a module may pass on another thing by the name of the module that has it.
const MOST_HOPS: usize = 8;

/// The modules by their paths from the root of the crate, which is an empty one.
pub(crate) struct Modules(BTreeMap<Named, Imports>);

impl Modules {
    /// Reads the sources below a folder.
    pub(crate) fn read(sources: &Path) -> Self {
        let mut all = Vec::new();
        collect(sources, &mut Vec::new(), &mut all);
        Self(all.into_iter().map(|(path, text)| (path, Imports::of(&text))).collect())
    }

    /// Modules from their texts.
    pub(crate) fn of<'t>(texts: impl IntoIterator<Item = (&'t str, &'t str)>) -> Self {
        let path = |name: &str| name.split("::").filter(|part| !part.is_empty()).map(str::to_owned).collect();
        Self(texts.into_iter().map(|(name, text)| (path(name), Imports::of(text))).collect())
    }

    /// What each module needs.
    pub(crate) fn needs(&self) -> Needs {
        self.0.iter().map(|(module, imports)| (shown(module), self.needed(module, imports))).collect()
    }

    fn needed(&self, module: &Named, imports: &Imports) -> BTreeSet<String> {
        let homes = imports.named.iter().filter_map(|path| self.home(&self.absolute(module, path)?, 0));
        homes.filter(|home| home != module).map(|home| shown(&home)).collect()
    }

    /// A path as it is from the root of the crate; nothing where it leads out of it.
    fn absolute(&self, module: &Named, path: &Named) -> Option<Named> {
        let (first, rest) = path.split_first()?;
        let with = |start: &[String], rest: &[String]| Some([start, rest].concat());
        match first.as_str() {
            "crate" => with(&[], rest),
            "self" => with(module, rest),
            "super" => {
                let up = path.iter().take_while(|part| *part == "super").count();
                with(&module[..module.len().checked_sub(up)?], &path[up..])
            }
            _ => {
                let child = [module.as_slice(), std::slice::from_ref(first)].concat();
                self.0.contains_key(&child).then(|| [module.as_slice(), path].concat())
            }
        }
    }

    /// The module that has what a path names: the innermost on the way, or the one from which that passes it on. Nothing
    /// where that is another crate.
    fn home(&self, path: &Named, hops: usize) -> Option<Named> {
        let depth = (0..=path.len()).rev().find(|depth| self.0.contains_key(&path[..*depth]))?;
        let (module, rest) = (path[..depth].to_vec(), &path[depth..]);
        let passed_on = rest.first().and_then(|name| self.0[&module].passed_on.get(name));
        match passed_on.filter(|_| hops < MOST_HOPS) {
            Some(from) => self.home(&[self.absolute(&module, from)?, rest[1..].to_vec()].concat(), hops + 1),
            None => Some(module),
        }
    }
}

fn shown(module: &Named) -> String {
    std::iter::once("crate").chain(module.iter().map(String::as_str)).collect::<Vec<_>>().join("::")
}

/// The modules below a folder whose own path is `at`. Files of tests alone are left out.
fn collect(folder: &Path, at: &mut Named, into: &mut Vec<(Named, String)>) {
    for entry in fs::read_dir(folder).expect("sources") {
        let path = entry.expect("entry").path();
        let name = path.file_stem().expect("name").to_string_lossy().into_owned();
        if path.is_dir() {
            at.push(name);
            collect(&path, at, into);
            at.pop();
        } else if path.extension().is_some_and(|kind| kind == "rs") && name != "tests" {
            let is_root = ["lib", "main", "mod"].contains(&name.as_str());
            let module = at.iter().cloned().chain((!is_root).then_some(name)).collect();
            into.push((module, fs::read_to_string(&path).expect("source")));
        }
    }
}
