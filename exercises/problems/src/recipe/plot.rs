//! Checking figures: the plot that a number is read off, and the drawing in which a part is pointed at.

use faults::Code;
use figures::Figure;

use super::check::{Check, Way};
use super::choices::{can_be_one, condition, explained, words};
use super::raw::{RawAsk, RawFigure, RawPart, RawRight};
use super::{Part, Plot, PointAsk};
use crate::formula::{Formula, Node};

/// The plot of a part.
pub(super) fn plot(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<Plot> {
    let figure = figure(raw, way, check, Figure::is_read_off)?;
    let with = match &raw.figure {
        Some(RawFigure::Drawn(entries)) => entries.0.as_slice(),
        _ => &[],
    };
    let mut parameters = Vec::new();
    for (name, text) in with.iter().filter(|(name, _)| name != "draw") {
        parameters.extend(parameter(figure, name, text, &way.key(name), check).map(|node| (name.clone(), node)));
    }
    for missing in figure.parameters.iter().filter(|known| known.required) {
        if !with.iter().any(|(name, _)| name == missing.name) {
            let fault = way.fault(Code::RecipeFigureLacks).with("figure", figure.id).with("missing", missing.name);
            check.faults.push(fault);
        }
    }
    let words = figure.labels.iter().map(|key| ((*key).to_owned(), word(figure, key, check))).collect();
    Some(Plot { figure: figure.id.to_owned(), with: parameters, words })
}

fn parameter(figure: &Figure, name: &str, text: &str, way: &Way, check: &mut Check) -> Option<Node> {
    let Some(known) = figure.parameter(name) else {
        let known = figure.parameters.iter().map(|parameter| parameter.name).collect::<Vec<_>>().join(", ");
        let fault = way.fault(Code::RecipeFigureParameter).with("figure", figure.id).with("found", name);
        check.faults.push(fault.known(known));
        return None;
    };
    let formula = Formula::read(text, &check.names, Some(known.kind)).map_err(|faults| check.told(text, way, faults));
    check.keep(formula).map(Formula::into_node)
}

/// The figure that a part names, where it is of the wanted sort.
fn figure(raw: &RawAsk, way: &Way, check: &mut Check, wanted: fn(&Figure) -> bool) -> Option<&'static Figure> {
    let name = match &raw.figure {
        Some(RawFigure::Named(name)) => name.as_str(),
        Some(RawFigure::Drawn(entries)) => {
            entries.0.iter().find(|(key, _)| key == "draw").map_or("", |(_, name)| name.as_str())
        }
        None => "",
    };
    let fitting = || figures::FIGURES.iter().filter(|figure| wanted(figure));
    let found = fitting().find(|figure| figure.id == name);
    if found.is_none() {
        let known = fitting().map(|figure| figure.id).collect::<Vec<_>>().join(", ");
        let code = if name.is_empty() { Code::RecipeNoFigure } else { Code::RecipeFigureUnfit };
        check.faults.push(way.fault(code).with("found", name).known(known));
    }
    found
}

fn word(figure: &Figure, key: &str, check: &Check) -> String {
    check.lexicon.text(&format!("figures.{}.{key}", figure.id))
}

/// The drawing of a part and what is said of each piece in it.
pub(super) fn point_at(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<PointAsk> {
    let figure = figure(raw, &way.key("figure"), check, |figure| !figure.parts.is_empty())?;
    let listed = raw.parts.as_deref().unwrap_or_default();
    let inside = way.key("parts");
    for (index, part) in listed.iter().enumerate() {
        known_once(figure, listed, index, part, &inside, check);
    }
    if !can_be_one(listed.iter().map(|part| &part.right)) {
        check.faults.push(inside.fault(Code::RecipeOptionsRight));
    }
    let mut parts = Vec::new();
    for part in figure.parts {
        let own = listed.iter().enumerate().find(|(_, raw)| raw.part == part.id);
        let (right, why) = match own {
            Some((index, raw)) => said(raw, &inside.index(index), check)?,
            None => (None, None),
        };
        let is_unsafe = own.is_some_and(|(index, raw)| is_unsafe(raw, &inside.index(index), check));
        let name = word(figure, &format!("parts.{}.name", part.id), check);
        parts.push(Part { id: part.id.to_owned(), number: part.number, name, right, why, is_unsafe });
    }
    let otherwise = raw.otherwise.as_deref().map(|text| words(text, &way.key("otherwise"), check));
    let label = |key: &str| word(figure, key, check);
    let drawing = figure.draw(&figures::Parameters::new(), &label, &format!("point-{}", raw.id));
    match drawing {
        Ok(drawing) => Some(PointAsk { parts, otherwise, drawing }),
        Err(_) => {
            // A drawing with parts takes no parameters, and a name that is one may stand in an id.
            check.faults.push(way.key("id").fault(Code::RecipeName).with("found", &raw.id));
            None
        }
    }
}

type Said = (Option<crate::formula::Condition>, Option<crate::template::Template>);

fn said(raw: &RawPart, way: &Way, check: &mut Check) -> Option<Said> {
    let right = condition(&raw.right, &way.key("right"), check)?;
    Some((right, raw.why.as_deref().map(|why| words(why, &way.key("why"), check))))
}

fn is_unsafe(raw: &RawPart, way: &Way, check: &mut Check) -> bool {
    if raw.is_unsafe && matches!(raw.right, RawRight::Yes) {
        check.faults.push(way.key("unsafe").fault(Code::RecipeUnsafeRight));
    }
    explained(raw.is_unsafe, raw.why.as_deref(), way, check)
}

/// Faults where a part is not in the figure, or stands twice.
fn known_once(figure: &Figure, listed: &[RawPart], index: usize, part: &RawPart, way: &Way, check: &mut Check) {
    let way = way.index(index).key("part");
    if !figure.parts.iter().any(|known| known.id == part.part) {
        let known = figure.parts.iter().map(|part| part.id).collect::<Vec<_>>().join(", ");
        let fault = way.fault(Code::RecipePartUnknown).with("found", &part.part).known(known);
        check.faults.push(fault.with("figure", figure.id));
    } else if listed[..index].iter().any(|earlier| earlier.part == part.part) {
        check.faults.push(way.fault(Code::RecipePartRepeated).with("found", &part.part));
    }
}
