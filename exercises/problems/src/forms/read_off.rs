//! A number that is read off a plot.

use faults::Code;
use figures::{Figure, FigureError, Measure, Parameters};
use serde::Serialize;

use super::figure;
use super::form::AnswerForm;
use super::keys::{NoKeys, PartKeys, RawFigure, SaidText};
use super::number::{Answer, View, keys, mistake_names};
use crate::display::usual_unit;
use crate::facts::{DrawError, Facts, NumberAt, PartOf};
use crate::formula::{EvaluateError, Formula, NameKind, Node};
use crate::number::{self, Number};
use crate::proof::found::Found;
use crate::recipe::checking::{Check, Path};
use crate::review::Reviewed;
use crate::seed::Seed;
use crate::stored::stored_fields;
use crate::verdict::{Marked, Typed};
use crate::views::{FigureView, Outline};

/// A number that is read off a plot.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReadOff {
    /// The number.
    pub number: Number,
    /// The plot.
    pub plot: Plot,
}

/// A plot drawn from what was drawn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plot {
    /// The figure.
    pub figure: String,
    /// What it is drawn from.
    pub with: Vec<(String, Node)>,
    /// Its words, by key.
    pub words: Vec<(String, String)>,
}

stored_fields!(ReadOff { number, plot });
stored_fields!(Plot { figure, with, words });

impl AnswerForm for ReadOff {
    const NAME: &'static str = "read_off";
    const KEYS: &'static [&'static str] =
        &["figure", "answer", "unit", "within", "limit", "unsafe_fails", "round", "usual_range", "mistakes"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["figure", "answer"];
    type Keys = NoKeys;
    type Answer = Answer;
    type View = View;

    fn check(PartKeys { shared, .. }: PartKeys<NoKeys>, path: &Path, check: &mut Check) -> Option<Self> {
        let number = number::check::number(keys(shared), path, check);
        let plot = plot(shared.figure.as_ref(), &path.key("figure"), check)?;
        Some(Self { number: number?, plot })
    }

    fn texts<'k>(_: PartKeys<'k, NoKeys>) -> Vec<SaidText<'k>> {
        Vec::new()
    }

    fn mistakes<'k>(keys: PartKeys<'k, NoKeys>) -> Vec<&'k str> {
        mistake_names(keys.shared.mistakes.as_ref())
    }

    fn name_kind(&self) -> NameKind {
        self.number.name_kind()
    }

    fn numbers<'f>(&'f self, id: &'f str, label: &'f str) -> Vec<NumberAt<'f>> {
        self.number.numbers(id, label)
    }

    fn names_danger(&self) -> bool {
        self.number.names_danger()
    }

    fn words(&self) -> Vec<&'static str> {
        self.number.words()
    }

    fn draw(&self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        self.plot.check(id, &self.number, facts)?;
        self.number.draw(id, seed, facts)
    }

    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        self.number.mark(answer, part, answers)
    }

    fn fails(&self, marked: &Marked) -> bool {
        self.number.fails(marked)
    }

    /// The page fills it in as a number; the plot is what differs.
    fn view(&self, answer: &Answer, part: PartOf, ids: &str) -> View {
        let figure = self.plot.view(&self.number, part.facts, ids);
        let mut view = self.number.view(answer, part, ids);
        view.figure = figure;
        view
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        Number::outline(view)
    }

    fn figure(view: &mut View) -> Option<&mut FigureView> {
        view.figure.as_mut()
    }

    fn shown(&self, answer: &Answer, part: PartOf) -> String {
        self.number.shown(answer, part)
    }

    fn exact(&self, answer: &Answer, part: PartOf) -> String {
        self.number.exact(answer, part)
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        self.number.review(answer, part)
    }

    fn prove(&self, answer: &Answer, part: PartOf) -> Result<(), Found> {
        self.number.prove(answer, part)
    }
}

fn plot(raw: Option<&RawFigure>, path: &Path, check: &mut Check) -> Option<Plot> {
    let figure = figure::find(raw, path, check, Figure::is_read_off, &[])?;
    let with = match raw {
        Some(RawFigure::Drawn(entries)) => entries.0.as_slice(),
        _ => &[],
    };
    let mut parameters = Vec::new();
    for (name, text) in with.iter().filter(|(name, _)| name != "show") {
        parameters.extend(parameter(figure, name, text, &path.key(name), check).map(|node| (name.clone(), node)));
    }
    for missing in figure.parameters.iter().filter(|known| known.required) {
        if !with.iter().any(|(name, _)| name == missing.name) {
            let fault = path.fault(Code::RecipeFigureLacks).with("figure", figure.id).with("missing", missing.name);
            check.faults.push(fault);
        }
    }
    let words = figure.labels.iter().map(|key| ((*key).to_owned(), figure::word(figure, key, check))).collect();
    Some(Plot { figure: figure.id.to_owned(), with: parameters, words })
}

fn parameter(figure: &Figure, name: &str, text: &str, path: &Path, check: &mut Check) -> Option<Node> {
    let Some(known) = figure.parameter(name) else {
        let known = figure.parameters.iter().map(|parameter| parameter.name).collect::<Vec<_>>().join(", ");
        let fault = path.fault(Code::RecipeFigureParameter).with("figure", figure.id).with("found", name);
        check.faults.push(fault.known(known));
        return None;
    };
    let formula =
        Formula::read(text, &check.names, Some(known.kind)).map_err(|faults| check.in_place(text, path, faults));
    check.keep(formula).map(Formula::into_node)
}

impl Plot {
    /// Whether it can be drawn from what was drawn.
    fn check(&self, id: &str, number: &Number, facts: &Facts) -> Result<(), DrawError> {
        let unfit = |error: String| DrawError::NoFigure(id.to_owned(), error);
        let figure = figures::find_plot(&self.figure).ok_or_else(|| unfit(self.figure.clone()))?;
        let given = self.parameters(figure, number, facts);
        let given = given.map_err(|error| DrawError::NoValue(id.to_owned(), error))?;
        figure.check(&given).map_err(|error| unfit(rule(&error).to_owned()))
    }

    /// Its parameters, in the unit asked for where they are of its sort, else in the usual one.
    fn parameters(&self, figure: &Figure, number: &Number, facts: &Facts) -> Result<Parameters, EvaluateError> {
        let system = facts.setting.system;
        let mut given = Parameters::new();
        for (name, node) in &self.with {
            let quantity = node.quantity(&facts.scope)?;
            let kind = figure.parameter(name).map_or(quantity.kind, |parameter| parameter.kind);
            let asked = number.unit_in(system).filter(|unit| unit.measures(kind));
            if let Some(unit) = asked.or_else(|| usual_unit(kind, system)) {
                given.insert(name.clone(), Measure { quantity, unit });
            }
        }
        Ok(given)
    }

    /// The plot as it is shown; ids in it begin with `ids`.
    fn view(&self, number: &Number, facts: &Facts, ids: &str) -> Option<FigureView> {
        let figure = figures::find_plot(&self.figure)?;
        let given = self.parameters(figure, number, facts).ok()?;
        let svg = figure.draw(&given, &|key| self.word(key), ids).ok()?;
        let readings = figure.readings(&given, &|key| self.word(key)).ok()??;
        let mark = facts.setting.mark;
        let rows = readings.rows.iter().map(|row| row.iter().map(|number| mark.print(number)).collect()).collect();
        Some(FigureView { svg: mark.print_in(svg), heads: readings.heads.to_vec(), rows, again: false })
    }

    fn word(&self, key: &str) -> String {
        self.words.iter().find(|(known, _)| known == key).map(|(_, word)| word.clone()).unwrap_or_default()
    }
}

/// The rule that a figure's parameters break.
fn rule(error: &FigureError) -> &'static str {
    match error {
        FigureError::UnknownParameter { .. } => "unknown_parameter",
        FigureError::MissingParameter { .. } => "missing_parameter",
        FigureError::WrongKind { .. } => "wrong_kind",
        FigureError::OutOfOrder { .. } => "out_of_order",
        _ => "out_of_range",
    }
}
