//! `figure` blocks: a drawing or plot, with what it is drawn from.

use faults::Code;
use figures::{FigureError, Measure, Parameters};
use problems::formula::{Formula, literal};
use relief::units::Unit;

use super::checking::Checking;
use super::computed::names_lost;
use super::inside::Inside;
use super::lines::Lines;
use super::page::Page;
use crate::course::{Block, Figure};
use crate::fault::Fault;
use crate::placing::Placing;
use crate::scenario::Scenario;
use crate::yaml::key;

/// The keys that are not parameters.
const OWN_KEYS: [&str; 3] = ["show", "caption", "place"];

/// Reads a `figure` block.
pub(super) fn block(inside: &Inside, page: &mut Page, checking: &mut Checking) -> Option<Block> {
    let caption = caption(inside, page, checking);
    let placing = placing(inside, checking);
    let id = inside.needed("show", checking.faults)?;
    let Some(figure) = figures::find(id) else {
        let known = figures::FIGURES.iter().map(|figure| figure.id);
        checking.tell(inside.unknown_id(Code::FigureUnknown, "show", id, known));
        return None;
    };
    let parameters = parameters(inside, figure, page, checking)?;
    if let Err(error) = figure.check(&parameters) {
        checking.tell(figure_fault(inside, &error));
        return None;
    }
    page.figures += 1;
    let number = page.figures;
    // No heading has an anchor with a line under it.
    let anchor = format!("figure_{number}");
    Some(Block::Figure(Figure { figure, parameters, caption: caption?, placing, number, anchor }))
}

/// The caption of a figure, with its numbers put in.
fn caption(inside: &Inside, page: &mut Page, checking: &mut Checking) -> Option<String> {
    let text = inside.needed("caption", checking.faults)?;
    let Checking { text: around, references, faults } = checking;
    let mut lines = Lines { references, scenario: around.scenario, page, faults };
    Some(lines.line(text, |range| inside.yaml.place_in(&[key("caption")], range)))
}

/// Where its author wants it.
fn placing(inside: &Inside, checking: &mut Checking) -> Option<Placing> {
    let id = inside.get("place")?;
    let found = Placing::find(id);
    if found.is_none() {
        checking.tell(inside.unknown_id(Code::FigurePlace, "place", id, Placing::ALL.map(Placing::id)));
    }
    found
}

/// The parameters, if all of them can be read.
fn parameters(
    inside: &Inside,
    figure: &figures::Figure,
    page: &mut Page,
    checking: &mut Checking,
) -> Option<Parameters> {
    let (mut parameters, mut all_read) = (Parameters::new(), true);
    for (name, text) in inside.others(&OWN_KEYS) {
        match parameter(inside, figure, (name, text), page, checking) {
            Some(measure) => drop(parameters.insert(name.to_owned(), measure)),
            None => all_read = false,
        }
    }
    all_read.then_some(parameters)
}

/// A quantity for a parameter of a figure.
fn parameter(
    inside: &Inside,
    figure: &figures::Figure,
    (name, text): (&str, &str),
    page: &mut Page,
    checking: &mut Checking,
) -> Option<Measure> {
    let Some(parameter) = figure.parameter(name) else {
        let known = figure.parameters.iter().map(|parameter| parameter.name).chain(OWN_KEYS);
        checking.tell(inside.unknown_key(name, known));
        return None;
    };
    let scenario = checking.text.scenario;
    let unit = unit(text, scenario, page);
    match (Formula::read(text, &scenario.names, Some(parameter.kind)), unit) {
        (Err(found), _) => {
            let own = found.into_iter().filter(|fault| !names_lost(fault, scenario));
            checking.faults.extend(own.map(|fault| fault.map(|span| inside.yaml.place_in(&[key(name)], span))));
            None
        }
        (Ok(formula), Some(unit)) => {
            let quantity = formula.evaluate(scenario.scope_of(&formula, Some(unit))).ok()?;
            Some(Measure { quantity, unit })
        }
        (Ok(_), None) => {
            checking.tell(inside.at_value(Code::FigureParameterUnreadable, name).with("parameter", name));
            None
        }
    }
}

/// The unit of a value: that of the value of the scenario which it names, or its own.
fn unit(text: &str, scenario: &Scenario, page: &mut Page) -> Option<&'static Unit> {
    match scenario.find(text.trim()) {
        Some(place) => {
            page.use_given(place);
            scenario.given(place).unit
        }
        None => literal(text).and_then(|(_, _, unit)| unit),
    }
}

fn figure_fault(inside: &Inside, error: &FigureError) -> Fault {
    let name = error.parameter().unwrap_or_default();
    match error {
        FigureError::MissingParameter { .. } => inside.at_value(Code::FigureMissingParameter, "show"),
        FigureError::WrongKind { expected, found, .. } => {
            inside.at_value(Code::FigureWrongKind, name).with("expected", expected.id()).with("found", found.id())
        }
        FigureError::OutOfOrder { low, high } => inside
            .at_value(Code::FigureOutOfOrder, low)
            .with("low", low)
            .with("high", high)
            .also(inside.yaml.place(&[key(high)]), "higher"),
        _ => inside.at_value(Code::FigureOutOfRange, name),
    }
    .with("parameter", name)
}
