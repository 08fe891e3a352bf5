//! The relations of a course: compiled by `problems` in the order in which they call one another, their worked examples tried.

use std::collections::BTreeMap;

use faults::Code;
use problems::own::raw::RawRelation;
use problems::own::{self, Author};
use problems::recipe::RecipeFault;
use relief::Relation;

use crate::check;
use crate::fault::Fault;
use crate::folder::{Folder, Read};
use crate::markdown::Math;
use crate::reading::Reading;
use crate::recipe::placed;

/// The relations of a course, each after those that it calls, and what is said of them.
#[derive(Debug, Default)]
pub(crate) struct Relations {
    pub(crate) all: Vec<&'static Relation>,
    /// By the keys under which the theme has the words of those of the core.
    pub(crate) words: BTreeMap<String, String>,
    /// The ids of those that have faults: what calls one of them has no fault of its own.
    pub(crate) lost: Vec<String>,
}

impl Author for Math {
    fn is_symbol(&self, latex: &str) -> bool {
        self.convert(latex, false).is_ok()
    }
}

/// Compiles the relations of a folder.
pub(crate) fn relations(folder: &Folder, reading: &mut Reading) -> Relations {
    let read: Vec<_> = folder.relations.iter().filter_map(|read| Some((read, read.raw.as_ref()?))).collect();
    let raws: Vec<_> = read.iter().map(|(_, raw)| *raw).collect();
    let order = own::ordered(&raws);
    for (place, fault) in order.faults {
        reading.faults.push(placed(&read[place].0.yaml, &[], fault));
    }
    let (math, mut relations) = (Math::new(), Relations::default());
    for place in order.places {
        let (read, raw) = read[place];
        let faults = texts(read, raw);
        let before = reading.faults.len();
        reading.faults.extend(faults);
        match own::compile(raw, &relations.all, &math) {
            Ok(relation) if reading.faults.len() == before => relations.add(relation, read, raw, reading),
            Ok(_) => {}
            Err(faults) => tell(read, faults, reading),
        }
    }
    let is_there = |id: &str| relations.all.iter().any(|relation| relation.id == id);
    relations.lost = folder.relations.iter().map(|read| read.id.clone()).filter(|id| !is_there(id)).collect();
    relations
}

/// Takes away the faults that only say that a relation is not known which has a fault of its own.
pub(crate) fn without_lost(lost: &[String], faults: &mut Vec<Fault>) {
    let codes = [Code::FormulaUnknownRelation, Code::RelationUnknown];
    let is_lost = |fault: &Fault| lost.iter().any(|id| fault.raw("found") == Some(id) || fault.raw("id") == Some(id));
    faults.retain(|fault| !(codes.contains(&fault.code) && is_lost(fault)));
}

/// What is missing in the texts of a relation, and whether its name is taken.
fn texts(read: &Read<RawRelation>, raw: &RawRelation) -> Vec<Fault> {
    let mut faults = Vec::new();
    check::format(&read.yaml, raw.format, &mut faults);
    for (name, text) in [("title", &raw.title), ("summary", &raw.summary), ("source", &raw.source)] {
        check::title(&read.yaml, name, text, &mut faults);
    }
    if relief::find(&raw.id).is_some() || [problems::formula::ROOT, problems::formula::PI].contains(&raw.id.as_str()) {
        faults.push(Fault::at(Code::RelationTaken, read.id_place()).with("id", &raw.id));
    }
    faults
}

fn tell(read: &Read<RawRelation>, faults: Vec<RecipeFault>, reading: &mut Reading) {
    reading.faults.extend(faults.into_iter().map(|fault| placed(&read.yaml, &[], fault)));
}

impl Relations {
    fn add(&mut self, relation: &'static Relation, read: &Read<RawRelation>, raw: &RawRelation, reading: &mut Reading) {
        if let Some(check) = &raw.check {
            tell(read, own::check(relation, check), reading);
        }
        self.all.push(relation);
        let mut say =
            |key: &str, text: &str| drop(self.words.insert(format!("relations.{}.{key}", raw.id), text.to_owned()));
        say("title", &raw.title);
        say("purpose", &raw.summary);
        say("words", "");
        raw.cautions.iter().enumerate().for_each(|(place, caution)| say(&format!("traps.{place}"), caution));
        raw.inputs.0.iter().for_each(|(name, input)| say(&format!("inputs.{name}"), &input.text));
        relation.outputs.iter().for_each(|output| say(&format!("outputs.{}", output.name), &raw.result.text));
    }
}
