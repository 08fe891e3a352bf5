//! The files that hostile strings are put into, and the slots in them: every value and every key of the author's own in
//! the front matter, as the files have them, and the places between `@@` in the text, each with what is else there.

use std::fs;
use std::path::Path;

use seatwork_tests::top;
use serde_yaml::Value;

use super::texts::quoted;

/// A place for a string.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Slot {
    /// A value of the front matter, by the path to it.
    Value(Vec<String>),
    /// A key that its author chose, by the path to it.
    Key(Vec<String>),
    /// A place in the text.
    Text(String),
}

impl Slot {
    /// The field that it is an example of: all items of a list are one, all keys of an author's
    /// own mapping, and both systems of units.
    pub(crate) fn field(&self) -> String {
        let (path, last) = match self {
            Self::Text(name) => return format!("{name} of the text"),
            Self::Value(path) => (path.as_slice(), ""),
            Self::Key(path) => (&path[..path.len() - 1], ": a key"),
        };
        let mut own = false;
        let mut step = |step: &String| {
            let any = own || ["us", "si"].contains(&step.as_str()) || step.parse::<usize>().is_ok();
            let name = if any { "*" } else { step.as_str() };
            own = OWN_KEYS.contains(&step.as_str());
            name.to_owned()
        };
        path.iter().map(&mut step).collect::<Vec<_>>().join(".") + last
    }

    /// Whether it is the id of the file.
    pub(crate) fn is_id(&self) -> bool {
        matches!(self, Self::Value(path) if path.len() == 1 && path[0] == "id")
    }
}

/// How a string is written in the front matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// Between double quotes, with escapes.
    Quoted,
    /// As it is.
    Bare,
}

/// A file of the course.
#[derive(Clone)]
pub(crate) struct Original {
    /// `lessons`, `terms`, `recipes`, `relations` or `pictures`; empty for `course.yaml`.
    pub(crate) folder: String,
    /// Its id.
    pub(crate) name: String,
    matter: Value,
    body: String,
    /// The order of the lessons, in quotes, where it is not as the file has it.
    lessons: Vec<String>,
}

/// Stands in the YAML where a string will.
const PLACEHOLDER: &str = "HOSTILE";

/// Stands in `course.yaml` where the list of lessons will.
const LESSONS: &str = "LESSONS";

/// Keys of mappings whose keys the author chooses.
const OWN_KEYS: [&str; 12] = [
    "draw",
    "mistakes",
    "figure",
    "scenario",
    "cells",
    "not_measured",
    "inputs",
    "formulas",
    "given",
    "symbols",
    "us",
    "si",
];

/// The files of both folders, `course.yaml` first.
pub(crate) fn originals() -> Vec<Original> {
    let folders = [top().join("tests/browser/course"), top().join("tests/hostile/course")];
    let mut all = vec![Original::read("", &folders[0].join("course.yaml"))];
    for sort in ["lessons", "recipes", "relations", "terms", "pictures"] {
        for folder in folders.iter().filter(|folder| folder.join("en").join(sort).is_dir()) {
            let files =
                fs::read_dir(folder.join("en").join(sort)).expect("folder").map(|file| file.expect("file").path());
            all.extend(files.filter(|file| file.is_file()).map(|file| Original::read(sort, &file)));
        }
    }
    all.sort_by(|one, other| (&one.folder, one.refers(), &one.name).cmp(&(&other.folder, other.refers(), &other.name)));
    all
}

impl Original {
    fn read(folder: &str, file: &Path) -> Self {
        let text = fs::read_to_string(file).expect("text");
        let (matter, body) = match text.strip_prefix("---\n") {
            Some(rest) => rest.split_once("\n---\n").expect("front matter"),
            None => (text.as_str(), ""),
        };
        Self {
            folder: folder.to_owned(),
            name: file.file_stem().expect("name").to_string_lossy().into_owned(),
            matter: serde_yaml::from_str(matter).expect("YAML"),
            body: body.to_owned(),
            lessons: Vec::new(),
        }
    }

    /// Whether its text names what it asks, so that a part cannot have another name.
    fn refers(&self) -> bool {
        self.body.contains("{steps:")
    }

    /// The place of a copy, or of the file itself.
    pub(crate) fn file(&self, name: &str) -> String {
        if self.folder.is_empty() { "course.yaml".to_owned() } else { format!("en/{}/{name}.md", self.folder) }
    }

    /// The field of a slot, with its folder.
    pub(crate) fn field(&self, slot: &Slot) -> (String, String) {
        (self.folder.clone(), slot.field())
    }

    /// Every slot.
    pub(crate) fn slots(&self) -> Vec<Slot> {
        let mut slots = Vec::new();
        collect(&self.matter, &mut Vec::new(), &mut slots);
        let marks = self.body.split("@@").skip(1).step_by(2).map(|mark| mark.split(':').next().unwrap_or_default());
        slots.extend(marks.map(|name| Slot::Text(name.to_owned())));
        slots.dedup();
        slots
    }

    /// The text of the original as it is, under another id: what must be its own is made so.
    pub(crate) fn copied(&self, name: &str) -> Self {
        let mut copy = self.clone();
        copy.set(&["id".to_owned()], Value::from(name));
        if self.folder == "lessons" {
            let objectives = copy.matter["objectives"].as_sequence_mut().expect("objectives");
            for (index, objective) in objectives.iter_mut().enumerate() {
                objective["id"] = Value::from(format!("{name}_aim_{index}"));
            }
        }
        if self.folder == "terms" {
            copy.set(&["term".to_owned()], Value::from(format!("{name} term")));
            if !self.matter["also"].is_null() {
                copy.set(&["also".to_owned(), "0".to_owned()], Value::from(format!("{name} other term")));
            }
        }
        copy
    }

    /// `course.yaml` with another list of lessons.
    pub(crate) fn with_lessons(&self, ids: &[String]) -> Self {
        let mut copy = self.clone();
        copy.lessons = ids.iter().map(|id| quoted(id)).collect();
        copy.matter["lessons"] = Value::from(LESSONS);
        copy
    }

    /// The lessons that `course.yaml` names.
    pub(crate) fn named_lessons(&self) -> Vec<String> {
        let named = self.matter["lessons"].as_sequence().expect("lessons").iter();
        named.map(|id| id.as_str().expect("an id").to_owned()).collect()
    }

    fn set(&mut self, path: &[String], value: Value) {
        *descend(&mut self.matter, path) = value;
    }

    /// The file with a string in each of some slots.
    pub(crate) fn written(&self, strings: &[(&Slot, &str)], way: Way) -> String {
        let mut copy = self.clone();
        let mut texts = Vec::new();
        for (slot, text) in strings {
            let stand_in = format!("{PLACEHOLDER}{}E", texts.len());
            match slot {
                Slot::Value(path) => copy.set(path, Value::from(stand_in.as_str())),
                Slot::Key(path) => copy.rename(path, &stand_in),
                Slot::Text(_) => continue,
            }
            texts.push((stand_in, if way == Way::Quoted { quoted(text) } else { (*text).to_owned() }));
        }
        let yaml = serde_yaml::to_string(&copy.matter).expect("YAML");
        let yaml = yaml.replace(LESSONS, &format!("[{}]", self.lessons.join(", ")));
        let yaml = texts.iter().fold(yaml, |yaml, (stand_in, text)| yaml.replace(stand_in, text));
        if self.folder.is_empty() { yaml } else { format!("---\n{yaml}---\n{}", self.renamed(strings)) }
    }

    /// The text, in which what has another name in the front matter has it too.
    fn renamed(&self, strings: &[(&Slot, &str)]) -> String {
        strings.iter().fold(self.text(strings), |text, (slot, name)| match slot {
            Slot::Key(path) => text.replace(&format!("{{{}}}", path[path.len() - 1]), &format!("{{{name}}}")),
            _ => text,
        })
    }

    fn rename(&mut self, path: &[String], name: &str) {
        let (key, above) = path.split_last().expect("a key");
        let map = descend(&mut self.matter, above).as_mapping_mut().expect("a mapping");
        let renamed = map.iter().map(|(known, value)| {
            let known = if known.as_str() == Some(key) { Value::from(name) } else { known.clone() };
            (known, value.clone())
        });
        *map = renamed.collect();
    }

    /// The text with its slots filled. Where one is between the quotes of a block of ours, it is written so.
    fn text(&self, strings: &[(&Slot, &str)]) -> String {
        let mut out = String::new();
        let mut in_quotes = false;
        for (place, piece) in self.body.split("@@").enumerate() {
            if place % 2 == 0 {
                out.push_str(if in_quotes { &piece[1..] } else { piece });
                in_quotes = piece.ends_with(": \"");
                continue;
            }
            let (name, usual) = piece.split_once(':').expect("a name and what stands there");
            let string = strings.iter().find(|(slot, _)| matches!(slot, Slot::Text(known) if known == name));
            let text = string.map_or(usual, |(_, text)| text);
            if in_quotes {
                out.pop();
                out.push_str(&quoted(text));
            } else {
                out.push_str(text);
            }
        }
        out
    }
}

fn descend<'v>(node: &'v mut Value, path: &[String]) -> &'v mut Value {
    path.iter().fold(node, |node, step| match step.parse::<usize>() {
        Ok(index) => &mut node[index],
        Err(_) => &mut node[step.as_str()],
    })
}

fn collect(node: &Value, path: &mut Vec<String>, slots: &mut Vec<Slot>) {
    let steps: Vec<(String, &Value)> = match node {
        Value::Sequence(items) => items.iter().enumerate().map(|(index, item)| (index.to_string(), item)).collect(),
        Value::Mapping(map) => map.iter().map(|(key, value)| (key.as_str().expect("text").to_owned(), value)).collect(),
        _ => return slots.push(Slot::Value(path.clone())),
    };
    let own = node.is_mapping() && path.last().is_some_and(|last| OWN_KEYS.contains(&last.as_str()));
    for (step, value) in steps {
        path.push(step);
        if own {
            slots.push(Slot::Key(path.clone()));
        }
        collect(value, path, slots);
        path.pop();
    }
}
