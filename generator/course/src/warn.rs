//! Warnings: what an author should look at although the course can be published. A warning is a [`Fault`] whose code is
//! one of [`Code::WARNINGS`].

use std::collections::{BTreeMap, BTreeSet};

use faults::{Code, Words};
use problems::display::usual_unit;
use problems::formula::literal;
use problems::recipe::System;
use problems::recipe::raw::RawDraw;
use relief::Kind;

use crate::areas;
use crate::course::{Block, Course};
use crate::coverage::Coverage;
use crate::fault::{Fault, Place};
use crate::folder::{Folder, Read};
use crate::markdown::Practised;
use crate::quantities::Finder;
use crate::raw::RawLesson;
use crate::scenario::names_in;
use crate::threads::with_faults;
use crate::traps;
use crate::yaml::{Step, key};

/// Looks through a course without a fault. `shown` has what each lesson shows, by the id of the lesson; `used`, the files to
/// hand out and the captions that texts use.
pub(crate) fn warnings(
    course: &Course,
    folder: &Folder,
    shown: &BTreeMap<String, Vec<Practised>>,
    (used, words): (&BTreeSet<String>, &dyn Words),
) -> Vec<Fault> {
    let coverage = Coverage::of(course);
    let mut found = Vec::new();
    unpractised(&coverage, folder, &mut found);
    unexplained(&coverage, folder, &mut found);
    ahead(course, &coverage, folder, shown, &mut found);
    unused(course, folder, &mut found);
    not_handed_out(folder, used, &mut found);
    unheard(course, &mut found);
    areas::small(folder, &mut found);
    one_system(folder, &mut found);
    undrawn(folder, &mut found);
    harmless(course, folder, &mut found);
    untried(folder, &mut found);
    traps::traps(course, folder, &Finder::new(words), &mut found);
    found
}

/// Objectives that no recipe practises.
fn unpractised(coverage: &Coverage, folder: &Folder, found: &mut Vec<Fault>) {
    with_faults(&folder.lessons, found, |read, found| {
        let objectives = read.raw.iter().flat_map(|raw| &raw.objectives).enumerate();
        for (index, objective) in objectives.filter(|(_, objective)| coverage.practising(&objective.id).is_empty()) {
            let fault = Fault::at(Code::ObjectiveUnpractised, objective_place(read, index));
            found.push(fault.with("id", &objective.id));
        }
    });
}

/// Relations without a worked example.
fn untried(folder: &Folder, found: &mut Vec<Fault>) {
    for read in &folder.relations {
        if read.raw.as_ref().is_some_and(|raw| raw.check.is_none()) {
            found.push(Fault::at(Code::RelationUnchecked, read.id_place()).with("id", &read.id));
        }
    }
}

fn objective_place(read: &Read<RawLesson>, index: usize) -> Place {
    let id = read.raw.iter().flat_map(|raw| &raw.objectives).nth(index).map_or("", |objective| &objective.id);
    read.yaml.place_of_value(&[key("objectives"), Step::Index(index), key("id")], id)
}

/// Terms that no lesson uses, so that no learner comes to them.
fn unexplained(coverage: &Coverage, folder: &Folder, found: &mut Vec<Fault>) {
    for read in folder.terms.iter().filter(|read| coverage.using(&read.id).is_empty()) {
        let Some(raw) = &read.raw else { continue };
        let fault = Fault::at(Code::TermUnexplained, read.yaml.place(&[key("term")]));
        found.push(fault.with("term", &raw.term).with("id", &raw.id));
    }
}

/// Problems shown before any of what they practise is taught.
fn ahead(
    course: &Course,
    coverage: &Coverage,
    folder: &Folder,
    shown: &BTreeMap<String, Vec<Practised>>,
    found: &mut Vec<Fault>,
) {
    let recipes: BTreeMap<_, _> = course.recipes.iter().map(|file| (file.recipe.id.as_str(), &file.recipe)).collect();
    let lessons: BTreeMap<_, _> = folder.lessons.iter().map(|read| (read.id.as_str(), read)).collect();
    for (place, lesson) in course.lessons.iter().enumerate() {
        for shown in shown.get(&lesson.id).into_iter().flatten() {
            let objectives = recipes.get(shown.recipe.as_str()).map_or(&[][..], |recipe| &recipe.objectives);
            let first = objectives.iter().filter_map(|id| Some((*coverage.taught.get(id.as_str())?, id))).min();
            let Some((taught, id)) = first.filter(|(taught, _)| *taught > place) else { continue };
            let teacher = &course.lessons[taught].id;
            let fault = Fault::at(Code::LessonPractisesAhead, shown.place.clone())
                .with("recipe", &shown.recipe)
                .with("id", id)
                .with("lesson", teacher);
            let declared = lessons.get(teacher.as_str()).and_then(|read| declared(read, id));
            found.push(declared.into_iter().fold(fault, |fault, place| fault.also(place, "taught")));
        }
    }
}

/// Where a lesson declares an objective.
fn declared(read: &Read<RawLesson>, id: &str) -> Option<Place> {
    let index = read.raw.as_ref()?.objectives.iter().position(|objective| objective.id == id)?;
    Some(objective_place(read, index))
}

/// Draws that give learners of both systems of units the same unit, which is the usual one of one system. Lengths are left
/// out: pipes and orifices have their sizes in inches everywhere.
fn one_system(folder: &Folder, found: &mut Vec<Fault>) {
    for read in &folder.recipes {
        for (name, draw) in read.raw.iter().flat_map(|raw| &raw.draw.0) {
            let text = match draw {
                RawDraw::Same(text) => Some(text.as_str()),
                RawDraw::Long(long) => long.choose.iter().flatten().next().map(String::as_str),
            };
            let first = text.and_then(|text| text.split("..").next());
            let Some(unit) = first.and_then(literal).and_then(|(_, _, unit)| unit) else { continue };
            let kind = unit.usual_kind();
            let [us, si] = System::BOTH.map(|system| usual_unit(kind, system));
            let of_one = us != si && [us, si].contains(&Some(unit));
            if of_one && kind != Kind::Length {
                let fault = Fault::at(Code::RecipeDrawOfOneSystem, read.yaml.key_place(&[key("draw")], name));
                found.push(fault.with("name", name).with("unit", unit.symbol));
            }
        }
    }
}

/// Draws that neither a formula nor a text of their recipe names.
fn undrawn(folder: &Folder, found: &mut Vec<Fault>) {
    for read in &folder.recipes {
        let (matter, body) = read.source.text.split_at(read.body);
        let named: BTreeSet<_> = names_in(matter).collect();
        for (name, _) in read.raw.iter().flat_map(|raw| &raw.draw.0) {
            if !named.contains(name.as_str()) && !body.contains(&format!("{{{name}}}")) {
                let fault = Fault::at(Code::RecipeDrawUnused, read.yaml.key_place(&[key("draw")], name));
                found.push(fault.with("name", name));
            }
        }
    }
}

/// Recipes that practise what can hurt people, and name no unsafe answer.
fn harmless(course: &Course, folder: &Folder, found: &mut Vec<Fault>) {
    let objectives = folder.lessons.iter().flat_map(|read| read.raw.iter().flat_map(|raw| &raw.objectives));
    let dangerous: BTreeSet<_> =
        objectives.filter(|objective| objective.can_hurt).map(|objective| objective.id.as_str()).collect();
    let recipes: BTreeMap<_, _> = course.recipes.iter().map(|file| (file.recipe.id.as_str(), &file.recipe)).collect();
    for read in &folder.recipes {
        let Some(recipe) = recipes.get(read.id.as_str()).filter(|recipe| !recipe.names_danger()) else { continue };
        let own = recipe.objectives.iter().enumerate().find(|(_, id)| dangerous.contains(id.as_str()));
        let Some((index, id)) = own else { continue };
        let place = read.yaml.place_of_value(&[key("objectives"), Step::Index(index)], id);
        found.push(Fault::at(Code::RecipeNamesNoDanger, place).with("recipe", &recipe.id).with("id", id));
    }
}

/// Files to hand out, and captions, that no text uses: they are left out of the site.
fn not_handed_out(folder: &Folder, used: &BTreeSet<String>, found: &mut Vec<Fault>) {
    let files = folder.handouts.iter().map(|offer| &offer.file).chain(folder.captions.keys());
    for file in files.filter(|file| !used.contains(*file)) {
        found.push(Fault::at(Code::FileUnused, Place::whole(file)).with("file", file));
    }
}

/// Sound and film without captions.
fn unheard(course: &Course, found: &mut Vec<Fault>) {
    for lesson in &course.lessons {
        lesson.each_block(&mut |block| {
            if let Block::Media(media) = block
                && media.cues.is_empty()
            {
                found.push(Fault::at(Code::MediaWithoutCaptions, media.place.clone()).with("file", &media.file));
            }
        });
    }
}

/// Pictures that no text shows: they are left out of the site.
fn unused(course: &Course, folder: &Folder, found: &mut Vec<Fault>) {
    let used: BTreeSet<_> = course.images.iter().map(|image| image.file.as_str()).collect();
    for file in folder.images.keys().filter(|file| !used.contains(file.as_str())) {
        found.push(Fault::at(Code::ImageUnused, Place::whole(file)).with("file", file));
    }
}
