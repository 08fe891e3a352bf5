//! A part to point at in a drawing.

use faults::Code;
use figures::Figure;
use serde::{Deserialize, Serialize};

use super::figure;
use super::form::AnswerForm;
use super::keys::{PartKeys, RawFigure, SaidText, keys};
use super::options::{bits, can_be_one, holds, is_drawn};
use crate::facts::{DrawError, Facts, PartOf};
use crate::formula::Condition;
use crate::proof::found::Found;
use crate::recipe::Picture;
use crate::recipe::checking::{Check, Path};
#[cfg(feature = "schema")]
use crate::recipe::schema;
use crate::recipe::written::RawRight;
use crate::review::{OptionReview, Reviewed};
use crate::seed::Seed;
use crate::stored::stored_fields;
use crate::template::{Piece, Template, escape};
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::{FigureView, Outline, is_false};

/// A part to point at.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PointAt {
    /// The numbered parts of the drawing, in the order of their numbers.
    pub parts: Vec<Part>,
    /// What is said of a part that has no words of its own.
    pub any_other_part: Option<Template>,
    /// The drawing as SVG, in pieces: the beginning of its ids belongs between every two of them. It is the same in every
    /// problem, so that it is drawn once.
    pub drawing: Vec<String>,
    /// Where a picture of the author's own comes from.
    pub source: Option<String>,
}

/// A part of a figure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Part {
    /// The name in the figure.
    pub id: String,
    /// Its number there.
    pub number: u8,
    /// What it is called.
    pub name: String,
    /// When it is right; never where there is none.
    pub right: Option<Condition>,
    /// Why it is right or wrong.
    pub why: Option<Template>,
    /// Whether somebody who believes it where it is wrong can be hurt.
    #[serde(skip_serializing_if = "is_false")]
    pub is_unsafe: bool,
}

stored_fields!(PointAt { parts, any_other_part, drawing, source });
stored_fields!(Part { id, number, name, right, why, is_unsafe });

keys! {
    /// The keys of a part to point at.
    Keys {
        /// The parts of the figure that have words of their own.
        parts: Vec<RawPart>,
        /// What is said of any other part.
        any_other_part: String,
    }
}

/// A part of a figure.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPart {
    /// Its name in the figure.
    #[cfg_attr(feature = "schema", schemars(with = "schema::PartName"))]
    pub part: String,
    /// `true`, or the condition under which it is right.
    #[serde(default)]
    pub right: RawRight,
    /// Why it is right or wrong.
    pub why: Option<String>,
    /// `true`: whoever believes this can be hurt. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: bool,
}

/// The right part, by its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Answer(usize);

/// A numbered part of a drawing.
#[derive(Debug, Serialize)]
struct NumberedView {
    /// What to answer to choose it: its name in the drawing.
    id: String,
    /// Its number there.
    number: u8,
    /// What it is called, as HTML.
    html: String,
}

/// The drawing and its parts, which answer as the drawing does.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    form: &'static str,
    figure: FigureView,
    source: Option<String>,
    options: Vec<NumberedView>,
}

/// What ids begin with in the drawing that is compiled. No name of a figure's own begins so.
const IDS: &str = "ids-of-this-part";

impl AnswerForm for PointAt {
    const NAME: &'static str = "point_at";
    const KEYS: &'static [&'static str] = &["figure", "parts", "any_other_part"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["figure", "parts"];
    type Keys = Keys;
    type Answer = Answer;
    type View = View;

    fn check(PartKeys { id, shared, own }: PartKeys<Keys>, path: &Path, check: &mut Check) -> Option<Self> {
        let drawn = Drawn::find(shared.figure.as_ref(), &path.key("figure"), check)?;
        let listed = own.parts.as_deref().unwrap_or_default();
        let inside = path.key("parts");
        for (index, part) in listed.iter().enumerate() {
            known_once(&drawn, listed, index, part, &inside, check);
        }
        if !can_be_one(listed.iter().map(|part| &part.right)) {
            check.faults.push(inside.fault(Code::RecipeOptionsRight));
        }
        let parts = drawn.parts.iter().map(|known| {
            let own = listed.iter().enumerate().find(|(_, raw)| raw.part == known.id);
            part(known, own.map(|(index, raw)| (raw, inside.index(index))), check)
        });
        let parts = parts.collect::<Option<_>>()?;
        let any_other_part = own.any_other_part.as_deref().map(|text| check.text(text, &path.key("any_other_part")));
        if drawn.svg.is_none() {
            // A drawing with parts takes no parameters, and a name that is one may be part of an id.
            check.faults.push(path.key("id").fault(Code::RecipeName).with("found", id));
        }
        let drawing = drawn.svg?.split(IDS).map(str::to_owned).collect();
        Some(Self { parts, any_other_part, drawing, source: drawn.source })
    }

    fn texts<'k>(keys: PartKeys<'k, Keys>) -> Vec<SaidText<'k>> {
        let any_other_part =
            keys.own.any_other_part.iter().map(|text| SaidText { listed: None, key: Some("any_other_part"), text });
        let parts = keys.own.parts.iter().flatten().enumerate();
        let parts = parts
            .filter_map(|(place, part)| part.why.as_deref().map(|text| SaidText::listed("parts", place, "why", text)));
        any_other_part.chain(parts).collect()
    }

    fn names_danger(&self) -> bool {
        self.parts.iter().any(|part| part.is_unsafe)
    }

    fn draw(&self, id: &str, _: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let mut right = Vec::new();
        for (place, part) in self.parts.iter().enumerate() {
            let holds = holds(part.right.as_ref(), &facts.scope);
            if holds.map_err(|error| DrawError::NoValue(id.to_owned(), error))? {
                right.push(place);
            }
        }
        match right.as_slice() {
            [right] => Ok(Answer(*right)),
            several => Err(DrawError::RightOptions(id.to_owned(), bits(several))),
        }
    }

    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let typed = typed(answers, part.id).trim();
        if typed.is_empty() {
            return Marked::new(Verdict::Blank);
        }
        let Some(place) = self.parts.iter().position(|part| part.id == typed) else {
            return Marked::new(Verdict::Unreadable);
        };
        let pointed = &self.parts[place];
        let verdict = match (place == answer.0, pointed.is_unsafe) {
            (true, _) => Verdict::Right,
            (false, true) => Verdict::Unsafe,
            (false, false) => Verdict::WrongPart,
        };
        let html = part.facts.explain(self.why(place, *answer));
        Marked { html, ..Marked::new(verdict).with("part", pointed.name.clone()) }
    }

    /// The parts are in the order of their numbers, so that the list answers as the drawing does.
    fn view(&self, _: &Answer, _: PartOf, ids: &str) -> View {
        let view = |part: &Part| NumberedView { id: part.id.clone(), number: part.number, html: escape(&part.name) };
        let svg = self.drawing.join(ids);
        let figure = FigureView { svg, heads: Vec::new(), rows: Vec::new(), again: false };
        View { form: Self::NAME, figure, source: self.source.clone(), options: self.parts.iter().map(view).collect() }
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        vec![Outline::Numbered(view.options.iter().map(|option| (option.number, option.html.as_str())).collect())]
    }

    fn shown(&self, answer: &Answer, _: PartOf) -> String {
        self.parts.get(answer.0).map(Part::shown).unwrap_or_default()
    }

    fn exact(&self, answer: &Answer, _: PartOf) -> String {
        self.parts.get(answer.0).map(|part| part.id.clone()).unwrap_or_default()
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        Reviewed::options(self.parts.iter().enumerate().map(|(place, each)| {
            let why = self.why(place, *answer);
            OptionReview::new(part.facts, each.shown(), place == answer.0, each.is_unsafe, why)
        }))
    }

    /// The names of parts are the figure's own, and all differ.
    fn prove(&self, _: &Answer, _: PartOf) -> Result<(), Found> {
        Ok(())
    }

    fn choices(&self) -> Vec<(String, bool)> {
        self.parts.iter().map(|part| (part.id.clone(), is_drawn(part.right.as_ref()))).collect()
    }

    fn count(&self, answer: &Answer, counts: &mut [u64]) {
        counts[answer.0] += 1;
    }
}

impl Part {
    fn shown(&self) -> String {
        format!("{}, {}", self.number, escape(&self.name))
    }
}

impl PointAt {
    /// What is said of the part at a place.
    fn why(&self, place: usize, right: Answer) -> Option<&Template> {
        self.parts.get(place)?.why.as_ref().or(self.any_other_part.as_ref().filter(|_| place != right.0))
    }
}

/// A part with what the author of the recipe says of it; where that is nothing, what is said of it in the picture.
fn part(known: &Known, own: Option<(&RawPart, Path)>, check: &mut Check) -> Option<Part> {
    let (right, why, is_unsafe) = match own {
        Some((raw, path)) => (
            check.right(&raw.right, &path.key("right"))?,
            check.why(raw.why.as_deref(), &path),
            is_unsafe(raw, &path, check),
        ),
        None => (None, None, false),
    };
    let why = why.or_else(|| known.why.as_deref().map(|why| Template(vec![Piece::Html(escape(why))])));
    Some(Part { id: known.id.clone(), number: known.number, name: known.name.clone(), right, why, is_unsafe })
}

fn is_unsafe(raw: &RawPart, path: &Path, check: &mut Check) -> bool {
    if raw.is_unsafe && matches!(raw.right, RawRight::Yes) {
        check.faults.push(path.key("unsafe").fault(Code::RecipeUnsafeRight));
    }
    check.explained(raw.is_unsafe, raw.why.as_deref(), path)
}

/// A drawing with its numbered parts: one of the tool's own, or a picture of the author's.
struct Drawn {
    name: String,
    parts: Vec<Known>,
    svg: Option<String>,
    source: Option<String>,
}

/// A numbered part of a drawing.
struct Known {
    id: String,
    number: u8,
    name: String,
    why: Option<String>,
}

impl Drawn {
    fn find(raw: Option<&RawFigure>, path: &Path, check: &mut Check) -> Option<Self> {
        let pictures = check.lexicon.pictures();
        if let Some(picture) = pictures.iter().find(|picture| picture.id == figure::name(raw)) {
            return Some(Self::picture(picture));
        }
        let wanted = |figure: &Figure| !figure.parts.is_empty();
        let own: Vec<_> = pictures.iter().map(|picture| picture.id.as_str()).collect();
        let figure = figure::find(raw, path, check, wanted, &own)?;
        Some(Self::figure(figure, check))
    }

    fn figure(figure: &Figure, check: &Check) -> Self {
        let name = |part: &figures::Part| figure::word(figure, &format!("parts.{}.name", part.id), check);
        let known =
            |part: &figures::Part| Known { id: part.id.to_owned(), number: part.number, name: name(part), why: None };
        let label = |key: &str| figure::word(figure, key, check);
        Self {
            name: figure.id.to_owned(),
            parts: figure.parts.iter().map(known).collect(),
            svg: figure.draw(&figures::Parameters::new(), &label, IDS).ok(),
            source: None,
        }
    }

    fn picture(picture: &Picture) -> Self {
        let areas = picture.drawn.areas.iter().zip(&picture.reasons).zip(1..);
        let known = |((area, why), number): ((&figures::Area, &Option<String>), u8)| Known {
            id: area.id.clone(),
            number,
            name: area.name.clone(),
            why: why.clone(),
        };
        Self {
            name: picture.id.clone(),
            parts: areas.map(known).collect(),
            svg: Some(picture.drawn.draw(IDS)),
            source: Some(picture.source.clone()),
        }
    }
}

/// Faults where a part is not in the figure, or is listed twice.
fn known_once(drawn: &Drawn, listed: &[RawPart], index: usize, part: &RawPart, path: &Path, check: &mut Check) {
    let path = path.index(index).key("part");
    if !drawn.parts.iter().any(|known| known.id == part.part) {
        let known = drawn.parts.iter().map(|part| part.id.as_str()).collect::<Vec<_>>().join(", ");
        let fault = path.fault(Code::RecipePartUnknown).with("found", &part.part).known(known);
        check.faults.push(fault.with("figure", &drawn.name));
    } else if listed[..index].iter().any(|earlier| earlier.part == part.part) {
        check.faults.push(path.fault(Code::RecipePartRepeated).with("found", &part.part));
    }
}
