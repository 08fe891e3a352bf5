//! The blocks of ours in a lesson: `practice`, `work`, `figure` and `file` with YAML inside, `shown` with Markdown.

use std::collections::BTreeMap;
use std::ops::Range;

use faults::Code;
use problems::display::Mark;
use problems::formula::Formula;
use problems::recipe::raw::Entries;
use problems::work::{WorkFault, work};
use relief::{Relation, units};

use super::computed::names_lost;
use super::writer::Writer;
use super::{Mode, filled, unsourced};
use crate::course::{Block, Figure, Given, Practice, Work};
use crate::fault::Fault;
use crate::warn::Shown;
use crate::yaml::{Yaml, key};

const NAMES: [&str; 5] = ["practice", "work", "figure", "shown", "file"];

/// A block's keys in order, with where they stand.
pub(super) struct Inside<'y> {
    pub(super) yaml: Yaml<'y>,
    entries: Vec<(String, String)>,
}

impl Inside<'_> {
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

    /// The value of a key that must be there.
    pub(super) fn needed(&self, name: &str, faults: &mut Vec<Fault>) -> Option<&str> {
        let value = self.get(name).filter(|value| !value.trim().is_empty());
        if value.is_none() {
            faults.push(Fault::at(Code::YamlMissingKey, self.yaml.place(&[])).with("key", name));
        }
        value
    }
}

impl Writer<'_, '_> {
    /// Reads a block of code as one of ours, if its name is one; a name that is nearly one is a fault.
    pub(super) fn our_block(&mut self, name: &str, range: &Range<usize>, inside: Range<usize>) -> bool {
        let first_line = range.start..range.start + self.text.body()[range.clone()].lines().next().map_or(0, str::len);
        if !NAMES.contains(&name) {
            if name.is_empty() {
                self.nameless(&first_line, &inside);
            }
            if let Some(near) = faults::nearest(name, NAMES) {
                self.fault(Code::BlockUnknown, &first_line)
                    .values
                    .extend([("name", name.to_owned()), ("nearest", near.to_owned())]);
            }
            return false;
        }
        self.unexplained();
        if self.text.mode != Mode::Lesson || !self.open.is_empty() || name == "shown" && self.shown.is_open() {
            self.fault(Code::BlockNotHere, &first_line).values.push(("name", name.to_owned()));
            return true;
        }
        if name == "shown" {
            self.shown_block(&first_line, inside);
            return true;
        }
        // From the start of the line, where there is one inside: the indent belongs to the YAML.
        let line = self.text.body()[..inside.start].rfind('\n').map_or(0, |newline| newline + 1);
        let start = if inside.is_empty() { inside.start } else { line.max(range.start) };
        if let Some(block) = self.block_of_yaml(name, start..inside.end) {
            self.push_block(block);
        }
        true
    }

    /// A block without a name that begins as one of ours does.
    fn nameless(&mut self, first_line: &Range<usize>, inside: &Range<usize>) {
        let key = self.text.body()[inside.clone()].split(':').next().unwrap_or_default().trim();
        let meant = [("recipe", "practice"), ("relation", "work"), ("draw", "figure")];
        let fenced = self.text.body()[first_line.clone()].starts_with(['`', '~']);
        if let Some((_, name)) = meant.iter().find(|(first, _)| fenced && *first == key) {
            self.fault(Code::BlockNameless, first_line).values.push(("name", (*name).to_owned()));
        }
    }

    /// Reads a block with YAML inside.
    fn block_of_yaml(&mut self, name: &str, part: Range<usize>) -> Option<Block> {
        let base = self.text.base + part.start;
        let source = self.text.source.get(base..self.text.base + part.end).unwrap_or_default();
        let yaml = Yaml::new(self.text.file, source, base);
        let entries = yaml.read::<Entries<String>>(self.faults)?;
        let inside = Inside { yaml, entries: entries.0 };
        match name {
            "practice" => self.practice(&inside),
            "work" => self.work(&inside),
            "figure" => self.figure(&inside),
            _ => self.file_block(&inside),
        }
    }

    fn practice(&mut self, inside: &Inside) -> Option<Block> {
        for (name, _) in inside.others(&["recipe"]) {
            self.faults.push(inside.at_key(Code::YamlUnknownKey, name).with("key", name).near(name, ["recipe"]));
        }
        let recipe = inside.needed("recipe", self.faults)?;
        if !self.shelf.recipes.contains(recipe) {
            let known = self.shelf.recipes.iter().map(String::as_str);
            self.faults.push(inside.at_value(Code::RecipeUnknown, "recipe").with("id", recipe).near(recipe, known));
            return None;
        }
        let place = inside.yaml.place_of_value(&[key("recipe")], recipe);
        self.page.practised.push(Shown { recipe: recipe.to_owned(), place });
        Some(Block::Practice(Practice { recipe: recipe.to_owned() }))
    }

    fn work(&mut self, inside: &Inside) -> Option<Block> {
        let id = inside.needed("relation", self.faults)?;
        let Some(relation) = relief::find(id) else {
            let known = relief::relations().map(|relation| relation.id);
            self.faults.push(inside.at_value(Code::RelationUnknown, "relation").with("id", id).near(id, known));
            return None;
        };
        let given: Vec<_> = inside
            .others(&["relation", "in"])
            .map(|(name, text)| (name.to_owned(), self.typed(relation, name, text)))
            .collect();
        if given.iter().any(|(_, text)| self.text.scenario.is_lost(text.trim())) {
            return None;
        }
        let unit = inside.get("in");
        match work(id, &given, unit, problems::recipe::System::Us, Mark::Point) {
            Ok(worked) => Some(Block::Work(Work {
                relation,
                given: given.into_iter().filter_map(|(name, text)| given_input(relation, &name, text)).collect(),
                unit: unit.and(worked.unit.as_deref()).and_then(units::find),
            })),
            Err(fault) => {
                self.faults.push(work_fault(inside, relation, fault));
                None
            }
        }
    }

    /// What is typed into an input: the value of the scenario where its name stands there.
    fn typed(&mut self, relation: &Relation, name: &str, text: &str) -> String {
        let is_quantity =
            relation.input(name).is_some_and(|(_, input)| matches!(input.form, relief::Form::Quantity(..)));
        match self.text.scenario.find(text.trim()).filter(|_| is_quantity) {
            Some(place) => {
                self.page.use_given(place);
                self.text.scenario.given(place).text.clone()
            }
            None => text.to_owned(),
        }
    }

    /// The caption of a figure, with its numbers put in.
    fn caption(&mut self, inside: &Inside) -> Option<String> {
        let text = inside.needed("caption", self.faults)?;
        let place = |range| inside.yaml.place_in(&[key("caption")], range);
        let (shown, reading) = filled(text, self.text.scenario, self.shelf.mark(), place, &mut self.page, self.faults);
        self.faults.extend(unsourced(&self.shelf.finder, &reading, place));
        Some(shown)
    }

    fn figure(&mut self, inside: &Inside) -> Option<Block> {
        let caption = self.caption(inside);
        let id = inside.needed("draw", self.faults)?;
        let Some(figure) = figures::find(id) else {
            let known = figures::FIGURES.iter().map(|figure| figure.id);
            self.faults.push(inside.at_value(Code::FigureUnknown, "draw").with("id", id).near(id, known));
            return None;
        };
        let mut parameters = figures::Parameters::new();
        let before = self.faults.len();
        for (name, text) in inside.others(&["draw", "caption"]) {
            if let Some(measure) = self.parameter(inside, figure, name, text) {
                parameters.insert(name.to_owned(), measure);
            }
        }
        let all_read = parameters.len() == inside.others(&["draw", "caption"]).count();
        if self.faults.len() > before || !all_read {
            return None;
        }
        if let Err(error) = figure.check(&parameters) {
            self.faults.push(figure_fault(inside, &error));
            return None;
        }
        self.figures += 1;
        let number = self.figures;
        // No heading has an anchor with a line under it.
        let anchor = format!("figure_{number}");
        Some(Block::Figure(Figure { figure, parameters, caption: caption?, number, anchor }))
    }

    /// A quantity for a parameter of a figure.
    fn parameter(
        &mut self,
        inside: &Inside,
        figure: &figures::Figure,
        name: &str,
        text: &str,
    ) -> Option<figures::Measure> {
        let Some(parameter) = figure.parameter(name) else {
            let known = figure.parameters.iter().map(|parameter| parameter.name).chain(["draw", "caption"]);
            self.faults.push(inside.at_key(Code::YamlUnknownKey, name).with("key", name).near(name, known));
            return None;
        };
        let scenario = self.text.scenario;
        let read = Formula::read(text, &scenario.names, Some(parameter.kind)).map_err(|faults| {
            let own = faults.into_iter().filter(|fault| !names_lost(fault, scenario));
            own.map(|fault| fault.map(|span| inside.yaml.place_in(&[key(name)], span))).collect::<Vec<_>>()
        });
        let given = scenario.find(text.trim());
        let unit = match given {
            Some(place) => scenario.given(place).unit,
            None => problems::formula::literal(text).and_then(|(_, _, unit)| unit),
        };
        self.page.given.extend(given);
        match (read, unit) {
            (Err(faults), _) => self.faults.extend(faults),
            (Ok(formula), Some(unit)) => {
                let quantity = formula.evaluate(&scenario.scope_of(&formula, Some(unit))).ok()?;
                return Some(figures::Measure { quantity, unit });
            }
            (Ok(_), None) => {
                self.faults.push(inside.at_value(Code::FigureParameterUnreadable, name).with("parameter", name))
            }
        }
        None
    }
}

fn given_input(relation: &'static Relation, name: &str, text: String) -> Option<Given> {
    relation.input(name).map(|(_, input)| Given { name: input.name, text })
}

/// A refusal of the calculation core, at the input that is to blame.
fn work_fault(inside: &Inside, relation: &Relation, fault: WorkFault) -> Fault {
    let values: BTreeMap<_, _> = fault.values;
    let value = |name: &str| values.get(name).cloned().unwrap_or_default();
    let input = fault.input.as_deref();
    let at = match (fault.code, input) {
        ("unknown_input", Some(name)) => {
            inside.at_key(Code::WorkUnknownInput, name).near(name, relation.inputs.iter().map(|input| input.name))
        }
        ("missing", Some(_)) => inside.at_value(Code::WorkMissingInput, "relation"),
        ("unknown_unit", None) => inside.at_value(Code::UnitUnknown, "in").with("unit", value("found")),
        ("unit_of_another_kind", None) => inside
            .at_value(Code::UnitOfAnotherKind, "in")
            .with("unit", value("found"))
            .with("kind", relation.kind().id()),
        (code, Some(name)) if inside.get(name).is_some() => inside.at_value(input_code(code), name),
        (code, _) => inside.at_value(input_code(code), "relation"),
    };
    let at = at.with("input", input.unwrap_or_default()).with("relation", relation.id);
    values.into_iter().fold(at, |at, (name, value)| at.with(name, value))
}

/// Our code for a refusal of an input's value.
fn input_code(code: &str) -> Code {
    match code {
        "unknown_unit" => Code::WorkUnknownUnit,
        "wrong_kind" | "unit_of_another_kind" => Code::WorkWrongKind,
        "wrong_choice" => Code::WorkWrongChoice,
        "out_of_range" | "out_of_range_above" => Code::WorkOutOfRange,
        "order" => Code::WorkOutOfOrder,
        "blank" | "unreadable" | "ambiguous" => Code::WorkUnreadable,
        _ => Code::WorkNoResult,
    }
}

fn figure_fault(inside: &Inside, error: &figures::FigureError) -> Fault {
    use figures::FigureError as Error;
    let name = error.parameter().unwrap_or_default();
    match error {
        Error::MissingParameter { .. } => inside.at_value(Code::FigureMissingParameter, "draw"),
        Error::WrongKind { expected, found, .. } => {
            inside.at_value(Code::FigureWrongKind, name).with("expected", expected.id()).with("found", found.id())
        }
        Error::OutOfOrder { low, high } => inside
            .at_value(Code::FigureOutOfOrder, low)
            .with("low", low)
            .with("high", high)
            .also(inside.yaml.place(&[key(high)]), "higher"),
        _ => inside.at_value(Code::FigureOutOfRange, name),
    }
    .with("parameter", name)
}
