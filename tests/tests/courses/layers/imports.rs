//! What one file names: its imports, and the paths in its code.

use std::collections::{BTreeMap, BTreeSet};

use syn::visit::{self, Visit};
use syn::{Attribute, Ident, ItemUse, Macro, UseTree, Visibility};

/// A path, part by part.
pub(crate) type Path = Vec<String>;

/// What a file names. Its tests are left out.
#[derive(Default)]
pub(crate) struct Imports {
    /// Every path in it, those left out that it only passes on.
    pub(crate) named: BTreeSet<Path>,
    /// What it imports for others, by the name under which they get it.
    pub(crate) passed_on: BTreeMap<String, Path>,
}

impl Imports {
    /// Looks through the text of a file.
    pub(crate) fn of(text: &str) -> Self {
        let mut imports = Self::default();
        imports.visit_file(&syn::parse_file(text).expect("Rust"));
        imports
    }

    /// Takes an import, which may branch.
    fn import(&mut self, tree: &UseTree, mut before: Path, passes_on: bool) {
        let name = |ident: &Ident| ident.to_string();
        let (last, known_as) = match tree {
            UseTree::Path(path) => {
                before.push(name(&path.ident));
                return self.import(&path.tree, before, passes_on);
            }
            UseTree::Group(group) => {
                return group.items.iter().for_each(|item| self.import(item, before.clone(), passes_on));
            }
            UseTree::Glob(_) => (None, None),
            UseTree::Name(last) => (Some(name(&last.ident)), Some(name(&last.ident))),
            UseTree::Rename(renamed) => (Some(name(&renamed.ident)), Some(name(&renamed.rename))),
        };
        before.extend(last.filter(|last| last != "self"));
        match known_as {
            Some(known_as) if passes_on => drop(self.passed_on.insert(known_as, before)),
            _ => drop(self.named.insert(before)),
        }
    }

    /// Takes the paths in what a macro is given, which is not parsed.
    fn in_macro(&mut self, text: &str) {
        let is_part = |next: char| next.is_alphanumeric() || next == '_';
        let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ").replace(" :: ", "::");
        for path in text.split(|next: char| !is_part(next) && next != ':').filter(|word| word.contains("::")) {
            let parts: Path = path.split("::").map(str::to_owned).collect();
            if parts.iter().all(|part| part.chars().all(is_part) && !part.is_empty()) {
                self.named.insert(parts);
            }
        }
    }
}

/// Whether something is only there in tests.
fn is_for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg") && attribute.parse_args::<Ident>().is_ok_and(|what| what == "test")
    })
}

impl<'a> Visit<'a> for Imports {
    fn visit_item(&mut self, item: &'a syn::Item) {
        let attributes = match item {
            syn::Item::Mod(item) => &item.attrs,
            syn::Item::Use(item) => &item.attrs,
            syn::Item::Fn(item) => &item.attrs,
            syn::Item::Impl(item) => &item.attrs,
            syn::Item::Struct(item) => &item.attrs,
            _ => return visit::visit_item(self, item),
        };
        if !is_for_tests(attributes) {
            visit::visit_item(self, item);
        }
    }

    fn visit_item_use(&mut self, item: &'a ItemUse) {
        let passes_on = !matches!(item.vis, Visibility::Inherited);
        self.import(&item.tree, Path::new(), passes_on);
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        if path.segments.len() > 1 {
            self.named.insert(path.segments.iter().map(|segment| segment.ident.to_string()).collect());
        }
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, called: &'a Macro) {
        self.in_macro(&called.tokens.to_string());
        visit::visit_macro(self, called);
    }
}
