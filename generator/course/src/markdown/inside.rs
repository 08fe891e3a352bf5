//! The keys of one of our blocks, each with its place.

use faults::Code;
use problems::recipe::raw::Entries;

use crate::fault::Fault;
use crate::yaml::{Yaml, key};

/// A block's keys in order, each with its place.
pub(super) struct Inside<'y> {
    pub(super) yaml: Yaml<'y>,
    entries: Vec<(String, String)>,
}

impl<'y> Inside<'y> {
    /// Reads the YAML in a block.
    pub(super) fn read(yaml: Yaml<'y>, faults: &mut Vec<Fault>) -> Option<Self> {
        let entries = yaml.read::<Entries<String>>(faults)?;
        Some(Self { yaml, entries: entries.0 })
    }

    pub(super) fn get(&self, name: &str) -> Option<&str> {
        self.entries.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }

    /// Every entry but those with these keys.
    pub(super) fn others<'s>(&'s self, but: &'s [&str]) -> impl Iterator<Item = (&'s str, &'s str)> {
        let entries = self.entries.iter().map(|(name, value)| (name.as_str(), value.as_str()));
        entries.filter(|(name, _)| !but.contains(name))
    }

    pub(super) fn at_value(&self, code: Code, name: &str) -> Fault {
        Fault::at(code, self.yaml.place(&[key(name)]))
    }

    pub(super) fn at_key(&self, code: Code, name: &str) -> Fault {
        Fault::at(code, self.yaml.key_place(&[], name))
    }

    /// A fault for each key that is not one of these.
    pub(super) fn refuse_others(&self, known: &[&str], faults: &mut Vec<Fault>) {
        for (name, _) in self.others(known) {
            faults.push(self.unknown_key(name, known.iter().copied()));
        }
    }

    /// A fault for a key that is not known.
    pub(super) fn unknown_key<'k>(&self, name: &str, known: impl IntoIterator<Item = &'k str>) -> Fault {
        self.at_key(Code::YamlUnknownKey, name).with("key", name).near(name, known)
    }

    /// A fault for an id that is not known.
    pub(super) fn unknown_id<'k>(
        &self,
        code: Code,
        name: &str,
        id: &str,
        known: impl IntoIterator<Item = &'k str>,
    ) -> Fault {
        self.at_value(code, name).with("id", id).near(id, known)
    }

    /// The value of a key that must be there.
    pub(super) fn needed(&self, name: &str, faults: &mut Vec<Fault>) -> Option<&str> {
        let value = self.get(name).filter(|value| !value.trim().is_empty());
        if value.is_none() {
            faults.push(Fault::at(Code::YamlMissingKey, self.yaml.place(&[])).with("key", name));
        }
        value
    }
}
