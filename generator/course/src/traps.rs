//! Warnings of what an author hardly notices: it passes, and means something other than was meant.

use faults::Code;
use problems::formula::literal;
use problems::recipe::raw::RawDraw;
use problems::recipe::{Draw, Given, Recipe, Source, System};
use relief::Kind;

use crate::course::Course;
use crate::fault::{Fault, Place};
use crate::folder::{Folder, HasId, Read};
use crate::quantities::Finder;
use crate::yaml::{Node, Step, Yaml, key, quoted};

/// How many times the middle of a range in one system may be that of the other.
const FAR: f64 = 5.0;

/// Looks through a course without a fault.
pub(crate) fn traps(course: &Course, folder: &Folder, finder: &Finder, found: &mut Vec<Fault>) {
    for read in &folder.recipes {
        let recipe = course.recipes.iter().find(|file| file.recipe.id == read.id).map(|file| &file.recipe);
        recipe.into_iter().flat_map(|recipe| far(recipe, &read.yaml)).for_each(|fault| found.push(fault));
        other_sides(read.raw.iter().flat_map(|raw| &raw.draw.0), &read.yaml, found);
        typed(&read.source.text, read.body, &read.source.file, finder, found);
        if !read.source.text[read.body..].contains("## Working") {
            let place = read.yaml.place(&[key("id")]);
            found.push(Fault::at(Code::RecipeWithoutWorking, place).with("recipe", &read.id));
        }
        found.extend(named_parts(&read.yaml));
    }
    for read in folder.lessons.iter().filter(|read| read.source.text[read.body..].trim().is_empty()) {
        found.push(Fault::at(Code::LessonWithoutBody, read.id_place()).with("id", &read.id));
    }
    titles(&folder.lessons, |raw| &raw.title, found);
    titles(&folder.recipes, |raw| &raw.title, found);
    let fronts = folder.lessons.iter().map(|read| &read.yaml).chain(folder.terms.iter().map(|read| &read.yaml));
    fronts.chain(folder.recipes.iter().map(|read| &read.yaml)).for_each(|yaml| curly(yaml, found));
}

/// Draws whose ranges are far apart in the two systems.
fn far(recipe: &Recipe, yaml: &Yaml) -> Vec<Fault> {
    let fault = |draw: &Draw| {
        let times = times_apart(draw)?;
        let place = yaml.key_place(&[key("draw")], &draw.name);
        let times = relief::shown(times, 2, relief::Rounding::Nearest);
        Some(Fault::at(Code::RecipeSystemsFar, place).with("name", &draw.name).with("times", times))
    };
    recipe.draws.iter().filter_map(fault).collect()
}

/// How many times the middle of what is drawn in one system is that of the other, where that is far.
fn times_apart(draw: &Draw) -> Option<f64> {
    let [us, si] = System::BOTH.map(|system| middle(draw.source.of(system)));
    let (us, si) = (us?, si?);
    let times = (us / si).max(si / us);
    (us > 0.0 && si > 0.0 && times > FAR).then_some(times)
}

/// The middle of a range in SI units.
fn middle(source: &Source) -> Option<f64> {
    let Source::Range { start, step, count, measure } = source else { return None };
    let middle = start.to_f64() + step.to_f64() * f64::from(count.saturating_sub(1)) / 2.0;
    Some(measure.unit.map_or(middle, |unit| unit.quantity(middle, measure.kind).si))
}

/// The one draw that is most likely wrong where the answers of a recipe are not of a usual size, and the habit behind it.
pub(crate) fn suspect(recipe: &Recipe, code: Code) -> Option<(&str, &'static str)> {
    let is_number = |given: &Given| matches!(given, Given::Quantity { measure, .. } if measure.unit.is_none());
    let is_bare = |source: &Source| match source {
        Source::Range { measure, .. } => measure.unit.is_none(),
        Source::Choose(given) => given.iter().all(is_number),
        Source::From { .. } => false,
    };
    let suspected = |draw: &&Draw| match code {
        Code::ProofOutsideUsualRange => times_apart(draw).is_some(),
        Code::ProofImpossible => is_bare(&draw.source.us),
        _ => false,
    };
    let mut suspects = recipe.draws.iter().filter(suspected);
    let only = suspects.next().filter(|_| suspects.next().is_none())?;
    Some((&only.name, if code == Code::ProofImpossible { "draw_bare" } else { "draw_far" }))
}

/// Ranges under `us` in a unit of SI, and the other way round. Lengths are left out, as pipes have their sizes in inches
/// everywhere.
fn other_sides<'d>(draws: impl Iterator<Item = &'d (String, RawDraw)>, yaml: &Yaml, found: &mut Vec<Fault>) {
    for (name, draw) in draws {
        let RawDraw::Long(long) = draw else { continue };
        for (system, side) in [(System::Us, &long.us), (System::Si, &long.si)] {
            let first = side.as_ref().and_then(|side| side.first_text());
            let unit = first.and_then(|text| literal(text.split("..").next()?)?.2);
            let Some(unit) = unit.filter(|unit| unit.system.is_some_and(|other| other != system)) else { continue };
            if unit.usual_kind() != Kind::Length {
                let place = yaml.place(&[key("draw"), key(name), key(system.id())]);
                let fault = Fault::at(Code::RecipeSideOfOtherSystem, place).with("name", name);
                found.push(fault.with("unit", unit.symbol).with("system", system.id()));
            }
        }
    }
}

/// Numbers typed into a question in units of one system alone.
fn typed(text: &str, body: usize, file: &str, finder: &Finder, found: &mut Vec<Fault>) {
    let Some(start) = text[body..].find("## Question").map(|at| body + at + "## Question".len()) else { return };
    let end = text[start..].find("\n## ").map_or(text.len(), |at| start + at);
    let question = &text[start..end];
    let of_system = |range: &std::ops::Range<usize>| {
        // A rate goes on after its first unit.
        let (_, _, unit) = literal(&question[range.clone()]).filter(|_| !question[range.end..].starts_with('/'))?;
        let unit = unit.filter(|unit| unit.usual_kind() != Kind::Length)?;
        Some((range.clone(), unit.system?))
    };
    let numbers: Vec<_> = finder.find(question).iter().filter_map(of_system).collect();
    let [Some((range, system)), ..] = [numbers.first()] else { return };
    if numbers.iter().all(|(_, other)| other == system) {
        let place = Place::new(file, start + range.start..start + range.end);
        found.push(Fault::at(Code::RecipeTypedNumber, place).with("found", &question[range.clone()]));
    }
}

/// Labels that name the part of a drawing that is asked for.
fn named_parts(yaml: &Yaml) -> Vec<Fault> {
    let asks = yaml.tree().and_then(|root| root.get("ask")).map_or(0, Node::len);
    let one = |index: usize| {
        let at = |path: &[Step]| {
            let path: Vec<_> = [key("ask"), Step::Index(index)].into_iter().chain(path.iter().cloned()).collect();
            yaml.tree().and_then(|root| root.find(&path)).map(|node| (node, path))
        };
        at(&[key("form")]).and_then(|(form, _)| form.text()).filter(|form| *form == "point_at")?;
        let (label, place) = at(&[key("label")])?;
        let label = label.text()?.to_lowercase();
        let (parts, _) = at(&[key("parts")])?;
        let right = (0..parts.len()).find(|part| {
            at(&[key("parts"), Step::Index(*part), key("right")]).and_then(|(right, _)| right.text()) == Some("true")
        })?;
        let (part, _) = at(&[key("parts"), Step::Index(right), key("part")])?;
        let part = part.text()?.replace('_', " ");
        let word = |next: char| next.is_alphanumeric();
        let mut places = label.match_indices(&part).map(|(at, _)| (label[..at].ends_with(word), at));
        let named = places.any(|(within, at)| !within && !label[at + part.len()..].starts_with(word));
        named.then(|| Fault::at(Code::RecipeLabelNamesPart, yaml.place(&place)).with("part", part))
    };
    (0..asks).filter_map(one).collect()
}

/// Titles that two files of a folder have.
fn titles<T: HasId>(reads: &[Read<T>], title: impl Fn(&T) -> &String, found: &mut Vec<Fault>) {
    let place = |read: &Read<T>| read.yaml.place(&[key("title")]);
    for (index, read) in reads.iter().enumerate() {
        let Some(own) = read.raw.as_ref().map(&title) else { continue };
        let same = |other: &&Read<T>| other.raw.as_ref().is_some_and(|raw| title(raw).eq_ignore_ascii_case(own));
        if let Some(first) = reads[..index].iter().find(same) {
            let fault = Fault::at(Code::CourseRepeatedTitle, place(read)).with("title", own);
            found.push(fault.also(place(first), "first"));
        }
    }
}

/// Texts in the quotation marks of a word processor.
fn curly(yaml: &Yaml, found: &mut Vec<Fault>) {
    let Some(root) = yaml.tree() else { return };
    root.walk(&mut |node| {
        if let Node::Scalar { text, plain: true, span } = node
            && let Some(inner) = text.strip_prefix(['“', '„', '”']).and_then(|text| text.strip_suffix(['”', '“']))
        {
            let fault = Fault::at(Code::TextInCurlyQuotes, yaml.place_of(span.clone()));
            found.push(fault.with("quoted", quoted(inner)));
        }
    });
}
