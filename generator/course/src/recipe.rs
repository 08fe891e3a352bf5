//! Recipes: the sections of their text sorted, compiled by `problems`, and its faults put in their place.

use faults::Code;
use problems::proof::ProofFault;
use problems::recipe::raw::RawRecipe;
use problems::recipe::{Ask, Bodies, Compiled, Lexicon, Recipe, RecipeFault, Step as RecipeStep, compile};

use crate::course::RecipeFile;
use crate::document::Source;
use crate::fault::{Fault, Faults, Place};
use crate::files::Sort;
use crate::markdown::Section;
use crate::traps::suspect;
use crate::yaml::{Step, Yaml, key};

/// The titles of sections; that of a mistake goes on with its name.
const TITLES: [&str; 4] = ["Question", "Start", "Working", "Mistake: "];

/// Compiles a recipe from its front matter and the sections of its text.
pub(crate) fn build(
    yaml: &Yaml,
    raw: &RawRecipe,
    sections: &[Section],
    lexicon: &dyn Lexicon,
    faults: &mut Vec<Fault>,
) -> Option<Compiled> {
    let before = faults.len();
    let bodies = bodies(sections, faults);
    match compile(raw, bodies, lexicon) {
        Ok(compiled) => (faults.len() == before).then_some(compiled),
        Err(found) => {
            let lost = lost_names(raw, &found);
            // Where names are only lost to each other, all of it is reported.
            let all_follow = found.iter().all(|fault| follows(fault, &lost));
            let own = found.into_iter().filter(|fault| all_follow || !follows(fault, &lost));
            faults.extend(own.map(|fault| placed(yaml, sections, fault)));
            None
        }
    }
}

/// Reads the front matter of a recipe alone, as it is read in a course, without compiling it.
///
/// # Errors
/// What is wrong with it, by the codes of [`Code::FAULTS`].
pub fn front_matter(text: &str) -> Result<RawRecipe, Vec<Fault>> {
    let mut faults = Vec::new();
    Yaml::new("", text, 0).read(&mut faults).ok_or(faults)
}

/// Names of what is drawn or asked with a fault of its own, so that nothing else knows them.
fn lost_names(raw: &RawRecipe, found: &[RecipeFault]) -> Vec<String> {
    let name = |fault: &RecipeFault| match fault.place.path.as_slice() {
        [RecipeStep::Key(part), RecipeStep::Key(name), ..] if part == "draw" => Some(name.clone()),
        [RecipeStep::Key(part), RecipeStep::Index(index), ..] if part == "ask" => {
            raw.ask.get(*index).map(|ask| ask.id.clone())
        }
        _ => None,
    };
    found.iter().filter_map(name).collect()
}

/// Whether a fault is only that a lost name is not known.
fn follows(fault: &RecipeFault, lost: &[String]) -> bool {
    let names = [Code::FormulaUnknownName, Code::RecipeUnknownHole, Code::RecipeUnknownSteps];
    names.contains(&fault.code) && fault.raw("found").is_some_and(|found| lost.iter().any(|name| name == found))
}

fn bodies(sections: &[Section], faults: &mut Vec<Fault>) -> Bodies {
    let mut bodies = Bodies::default();
    for (index, section) in sections.iter().enumerate() {
        let (title, template) = (section.title.trim(), section.template.clone());
        if let Some(first) = sections[..index].iter().find(|earlier| earlier.title.trim() == title) {
            let fault = Fault::at(Code::RecipeRepeatedSection, section.place.clone()).with("title", title);
            faults.push(fault.also(first.place.clone(), "first"));
        } else if template.0.is_empty() {
            faults.push(Fault::at(Code::RecipeEmptySection, section.place.clone()).with("title", title));
        } else if let Some(name) = title.strip_prefix("Mistake:") {
            bodies.mistakes.push((name.trim().to_owned(), template));
        } else {
            match title {
                "Question" => bodies.question = template,
                "Start" => bodies.start = Some(template),
                "Working" => bodies.working = Some(template),
                _ => {
                    let fault = Fault::at(Code::RecipeUnknownSection, section.place.clone()).with("title", title);
                    faults.push(fault.near(title, TITLES));
                }
            }
        }
    }
    bodies
}

/// A fault of the compiler, in its place.
pub(crate) fn placed(yaml: &Yaml, sections: &[Section], fault: RecipeFault) -> Fault {
    let place = match fault.place.path.as_slice() {
        [RecipeStep::Key(body), RecipeStep::Key(name), ..] if body == "body" => {
            in_section(yaml, sections, name, &fault)
        }
        [.., RecipeStep::Key(mistakes), RecipeStep::Key(name)]
            if mistakes == "mistakes" && fault.code == Code::RecipeUnknownHole =>
        {
            in_section(yaml, sections, &format!("mistake: {name}"), &fault)
        }
        path => {
            let path: Vec<_> = path.iter().map(step).collect();
            match &fault.place.span {
                Some(span) => yaml.place_in(&path, span.clone()),
                None => yaml.place(&path),
            }
        }
    };
    fault.map(|_| place.clone())
}

fn step(step: &RecipeStep) -> Step {
    match step {
        RecipeStep::Key(name) => key(name),
        RecipeStep::Index(index) => Step::Index(*index),
    }
}

/// The hole that is to blame, or the heading of the section, or, without such a section, the front matter.
fn in_section(yaml: &Yaml, sections: &[Section], name: &str, fault: &RecipeFault) -> Place {
    let titled =
        |section: &&Section| section.title.trim().replace(": ", ":").eq_ignore_ascii_case(&name.replace(": ", ":"));
    let Some(section) = sections.iter().find(titled) else { return yaml.place(&[]) };
    let found = fault.raw("found").unwrap_or_default();
    let hole = section.holes.get(found).or_else(|| section.holes.get(&format!("steps:{found}")));
    hole.unwrap_or(&section.place).clone()
}

impl RecipeFile {
    /// A fault that proof found, in its place in the recipe's file.
    #[must_use]
    pub fn proof_faults(&self, found: &[ProofFault]) -> Faults {
        let source = Source { file: self.file.clone(), sort: Sort::Recipe, text: self.text.clone() };
        let matter = source.split().map_or(0..0, |(matter, _)| matter);
        let yaml = Yaml::new(&self.file, &self.text[matter.clone()], matter.start);
        let fault = |fault: &ProofFault| {
            let place = yaml.place(&proof_path(&yaml, &self.recipe, fault));
            let place = if place.span.is_empty() { yaml.place(&[key("id")]) } else { place };
            let reason = fault.raw("error").and_then(|error| error.split(": ").nth(1)).unwrap_or_default();
            let suspect = suspect(&self.recipe, fault.code);
            let place = suspect.map_or(place, |(draw, _)| yaml.key_place(&[key("draw")], draw));
            let mut placed = fault.clone().map(|_| place.clone());
            if let Some((draw, habit)) = suspect {
                placed = placed.with("draw", draw).with("habit", habit);
            }
            let placed = placed.with("seed", fault.place.seed).with("system", fault.place.system.id());
            placed.with("id", &self.recipe.id).with("reason", reason)
        };
        let list = found.iter().map(fault).collect();
        Faults { list, sources: [(self.file.clone(), self.text.clone())].into(), unreadable: false }
    }
}

/// The path to what a fault of proof is about: a mistake, a condition, what is asked or what is drawn.
fn proof_path(yaml: &Yaml, recipe: &Recipe, fault: &ProofFault) -> Vec<Step> {
    if let Some(index) = fault.raw("condition").and_then(|text| text.parse::<usize>().ok()) {
        return vec![key("must_hold"), Step::Index(index.saturating_sub(1))];
    }
    let part = fault.raw("part").unwrap_or_default();
    let within = |(index, ask): (usize, &Ask)| {
        let steps = ask.path_to(part)?;
        Some([key("ask"), Step::Index(index)].into_iter().chain(steps.iter().map(step)).collect::<Vec<_>>())
    };
    let inside = |asked: Vec<Step>, keys: &[&str]| asked.into_iter().chain(keys.iter().map(|name| key(name))).collect();
    match (recipe.asks.iter().enumerate().find_map(within), fault.raw("mistake")) {
        (Some(asked), Some(mistake)) => inside(asked, &["mistakes", mistake]),
        (Some(asked), None) => {
            let answer: Vec<_> = inside(asked.clone(), &["answer"]);
            let is_number = yaml.tree().is_some_and(|root| root.find(&answer).is_some());
            if is_number { answer } else { inside(asked, &["id"]) }
        }
        (None, _) if fault.code == Code::ProofNeverMet => {
            let unmet = fault.raw("unmet").and_then(|place| place.parse::<usize>().ok());
            [key("require")].into_iter().chain(unmet.map(|place| Step::Index(place.saturating_sub(1)))).collect()
        }
        (None, _) => vec![key("draw"), key(part)],
    }
}
