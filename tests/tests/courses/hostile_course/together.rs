//! All strings that a course may hold, together in one course, for the browser: each lesson and each term has one of them
//! in every field that takes it, each recipe several at a time. With them the texts that each page must show.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::originals::{Original, Slot, Way};

/// Where a field was tried, and which strings it takes.
pub(crate) struct Field {
    pub(crate) original: String,
    pub(crate) slot: Slot,
    pub(crate) takes: Vec<usize>,
}

/// The fields by folder and name.
pub(crate) type Fields = BTreeMap<(String, String), Field>;

/// So many strings are in each field of a recipe and of `course.yaml`, so that there are not too many of them.
pub(crate) const SEVERAL: usize = 12;

/// So many recipes are practised in a lesson.
const IN_A_LESSON: usize = 20;

/// Stands between strings of one field.
const BETWEEN: &str = " ¦ ";

/// Fields whose text is in a page as it is.
const SHOWN: [&str; 17] = [
    "title",
    "summary",
    "objectives.*.text",
    "caption of the text",
    "code_block of the text",
    "term",
    "also.*",
    "definition",
    "source",
    "ask.*.label",
    "ask.*.statement",
    "ask.*.options.*.say",
    "ask.*.reasons.*.say",
    "ask.*.items.*.say",
    "ask.*.pairs.*.item",
    "ask.*.pairs.*.with",
    "ask.*.spare.*",
];

/// A hole that recipes fill.
const FILLED: &str = "{set}";

/// A copy of a file with strings in its slots.
#[derive(Clone)]
struct Copy<'o> {
    original: &'o Original,
    name: String,
    filled: Vec<(Slot, usize)>,
}

/// A page, by its place among what is left, and texts that must be in it.
#[derive(Debug, Serialize)]
pub(crate) struct Shown {
    page: String,
    texts: Vec<String>,
}

/// Many copies.
pub(crate) struct Together<'o> {
    strings: &'o [String],
    copies: Vec<Copy<'o>>,
    /// The lessons in which the recipes are practised.
    galleries: usize,
}

impl<'o> Together<'o> {
    /// Puts strings into the fields of copies of every original.
    pub(crate) fn of(originals: &'o [Original], fields: &Fields, strings: &'o [String]) -> Self {
        let mut all = Self { strings, copies: Vec::new(), galleries: 0 };
        for original in originals.iter().filter(|original| !original.folder.is_empty()) {
            // One lesson and one term are enough for all others, which have no field more that takes any text.
            if original.folder == "recipes" || ["text", "disc"].contains(&original.name.as_str()) {
                all.many(original, fields);
            }
            all.few(original, fields);
        }
        all
    }

    /// Copies with strings in every field that takes most of them.
    fn many(&mut self, original: &'o Original, fields: &Fields) {
        let size = if original.folder == "recipes" { SEVERAL } else { 1 };
        for start in (0..self.strings.len()).step_by(size) {
            let range = start..(start + size).min(self.strings.len());
            let strings = |slot: Slot| {
                let takes =
                    fields.get(&original.field(&slot)).filter(|field| self.is_open(field)).map(|field| &field.takes);
                let fit = takes.into_iter().flatten().filter(|index| range.contains(index));
                fit.map(move |index| (slot.clone(), *index)).collect::<Vec<_>>()
            };
            let filled = original.slots().into_iter().flat_map(strings).collect();
            self.copies.push(Copy { original, name: format!("{}_{start}", original.name), filled });
        }
    }

    /// A copy for each string in a field that takes only some: names.
    fn few(&mut self, original: &'o Original, fields: &Fields) {
        let strings = self.strings;
        let own = |(_, ((folder, _), field)): &(usize, (&(String, String), &Field))| {
            (folder, &field.original) == (&original.folder, &original.name) && field.takes.len() * 4 <= strings.len()
        };
        for (number, (_, field)) in fields.iter().enumerate().filter(own) {
            for index in &field.takes {
                let text = &strings[*index];
                let name =
                    if field.slot.is_id() { text.clone() } else { format!("{}_{number}_{index}", original.name) };
                self.copies.push(Copy { original, name, filled: vec![(field.slot.clone(), *index)] });
            }
        }
    }

    /// Whether a field takes any text.
    fn is_open(&self, field: &Field) -> bool {
        field.takes.len() * 4 > self.strings.len()
    }

    /// The files.
    pub(crate) fn files(&mut self) -> Vec<(String, String)> {
        let mut files: Vec<_> =
            self.copies.iter().map(|copy| (copy.original.file(&copy.name), copy.written(self.strings))).collect();
        let recipes = self.names("recipes");
        self.galleries = recipes.len().div_ceil(IN_A_LESSON);
        let galleries = recipes.chunks(IN_A_LESSON).enumerate();
        files.extend(galleries.map(|(number, recipes)| gallery(&format!("gallery_{number}"), recipes)));
        files
    }

    /// The ids of the lessons.
    pub(crate) fn lessons(&self) -> Vec<String> {
        let galleries = (0..self.galleries).map(|number| format!("gallery_{number}"));
        self.names("lessons").into_iter().chain(galleries).collect()
    }

    fn names(&self, folder: &str) -> Vec<String> {
        let copies = self.copies.iter().filter(|copy| copy.original.folder == folder);
        copies.map(|copy| copy.name.clone()).collect()
    }

    /// Takes apart the copies whose files are refused: strings that are taken alone can spoil each other's Markdown.
    pub(crate) fn split(&mut self, refused: &BTreeSet<&str>) {
        let copies = std::mem::take(&mut self.copies);
        for copy in copies {
            let file = copy.original.file(&copy.name);
            if !refused.contains(file.as_str()) {
                self.copies.push(copy);
                continue;
            }
            assert!(
                copy.filled.len() > 1,
                "{file} is refused, but each of its strings alone is not: {:?}",
                copy.filled
            );
            let (one, other) = copy.filled.split_at(copy.filled.len() / 2);
            for (end, filled) in [("a", one), ("b", other)] {
                self.copies.push(Copy { name: format!("{}{end}", copy.name), filled: filled.to_vec(), ..copy.clone() });
            }
        }
    }

    /// What each page must show.
    pub(crate) fn shown(&self) -> Vec<Shown> {
        self.copies.iter().map(|copy| copy.shown(self.strings)).collect()
    }

    /// How many strings are in all fields.
    pub(crate) fn count(&self) -> usize {
        self.copies.iter().map(|copy| copy.filled.len()).sum()
    }
}

impl Copy<'_> {
    /// The slots with all that is in each.
    fn texts(&self, strings: &[String]) -> Vec<(&Slot, String)> {
        let mut texts: Vec<(&Slot, Vec<&str>)> = Vec::new();
        for (slot, index) in &self.filled {
            let text = strings[*index].as_str();
            match texts.iter_mut().find(|(known, _)| *known == slot) {
                Some((_, all)) => all.push(text),
                None => texts.push((slot, vec![text])),
            }
        }
        texts.into_iter().enumerate().map(|(number, (slot, all))| (slot, self.joined(slot, &all, number))).collect()
    }

    /// The strings of a slot as one text. In a recipe no two texts may be the same, and no two names of a term.
    fn joined(&self, slot: &Slot, all: &[&str], number: usize) -> String {
        match slot {
            Slot::Text(_) => all.join("\n\n"),
            _ if self.original.folder == "recipes" && self.filled.len() > 1 => joined(all, number),
            _ if slot.field() == "also.*" => format!("{} also", all.join(BETWEEN)),
            _ => all.join(BETWEEN),
        }
    }

    fn written(&self, strings: &[String]) -> String {
        let texts = self.texts(strings);
        let filled: Vec<_> = texts.iter().map(|(slot, text)| (*slot, text.as_str())).collect();
        self.original.copied(&self.name).written(&filled, Way::Quoted)
    }

    fn shown(&self, strings: &[String]) -> Shown {
        let is_shown = |(slot, text): &(&Slot, &str)| SHOWN.contains(&slot.field().as_str()) && !text.contains(FILLED);
        let texts = self.filled.iter().map(|(slot, index)| (slot, strings[*index].as_str())).filter(is_shown);
        let page = match self.original.folder.as_str() {
            "lessons" => format!("site/en/lessons/{}.html", self.name),
            "recipes" => format!("site/en/practice/{}.html", self.name),
            _ => "site/en/terms/index.html".to_owned(),
        };
        Shown::of(page, texts.map(|(_, text)| text))
    }
}

impl Shown {
    pub(crate) fn of<'t>(page: String, texts: impl Iterator<Item = &'t str>) -> Self {
        let texts: BTreeSet<_> = texts.map(str::to_owned).collect();
        Self { page, texts: texts.into_iter().collect() }
    }
}

/// Strings as one text, unlike all others by its number.
pub(crate) fn joined(all: &[&str], number: usize) -> String {
    format!("{}{BETWEEN}{number}", all.join(BETWEEN))
}

/// A lesson in which recipes are practised, or nothing is.
pub(crate) fn gallery(name: &str, recipes: &[String]) -> (String, String) {
    let head = format!(
        "---\nformat: 1\nid: {name}\ntitle: {name}\nsummary: All\nobjectives: [{{ id: {name}_aim, text: All }}]\n---\n"
    );
    let blocks: String = recipes.iter().map(|recipe| format!("```practice\nrecipe: \"{recipe}\"\n```\n\n")).collect();
    (format!("en/lessons/{name}.md"), head + &blocks)
}
