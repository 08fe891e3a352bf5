//! The compiled form of a relation of a course's own, and where it is put down.

use core::any::Any;

use relief::{
    Argument, Form, Forms, Formulas, Gives, Input, Kind, Manner, Output, Printed, Quantity, Range, Relation,
    RelationError, Role, Run, SafeSide, Source, Status, System,
};
use serde::Serialize;

use super::registry;
use crate::formula::{EvaluateError, Node, Scope, Value};
use crate::recipe::{Pair, UnitRef};
use crate::stored::{Fields, Stored, Unfit, stored_fields};

/// The compiled form of a relation of a course's own: all that is needed to work it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Own {
    /// The name by which compiled formulas find it: its id and a digest of all that was written of it.
    pub key: String,
    /// The name by which authors call it.
    pub id: String,
    /// What it takes, in order.
    pub inputs: Vec<OwnInput>,
    /// What it gives.
    pub output: OwnOutput,
    /// Its formulas in order; the last gives the result. Once for both systems, or once for each.
    pub forms: Vec<Vec<Line>>,
}

/// What a relation takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OwnInput {
    /// The name.
    pub name: String,
    /// The kind of quantity.
    #[serde(serialize_with = "crate::stored::kind::serialize")]
    pub kind: Kind,
    /// The lowest value, as it was written.
    pub low: Node,
    /// The highest value.
    pub high: Node,
}

/// What a relation gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OwnOutput {
    /// The name.
    pub name: String,
    /// The kind of quantity.
    #[serde(serialize_with = "crate::stored::kind::serialize")]
    pub kind: Kind,
    /// The units of the result.
    pub unit: Pair<UnitRef>,
    /// The side to which it may be rounded when it is shown: 0 for neither, 1 up, 2 down.
    pub safe: u8,
}

/// One formula.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Line {
    /// What its result is called in those after it.
    pub name: String,
    /// The formula.
    pub formula: Node,
}

/// Reads a formula. Not inline: what reads one is large, and relations have many of them.
#[inline(never)]
fn formula(fields: &mut Fields, key: &'static str) -> Result<Node, Unfit> {
    fields.take(key)
}

impl Stored for OwnInput {
    #[inline(never)]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        let mut fields = Fields::of(tree)?;
        let (low, high) = (formula(&mut fields, "low")?, formula(&mut fields, "high")?);
        Ok(Self { name: fields.take("name")?, kind: fields.take("kind")?, low, high })
    }
}

impl Stored for Line {
    #[inline(never)]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        let mut fields = Fields::of(tree)?;
        Ok(Self { name: fields.take("name")?, formula: formula(&mut fields, "formula")? })
    }
}

stored_fields!(OwnOutput { name, kind, unit, safe });

/// A relation that is read is known from then on, so that what is read after it can call it.
impl Stored for Own {
    #[inline(never)]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        let mut fields = Fields::of(tree)?;
        let own = Self {
            key: fields.take("key")?,
            id: fields.take("id")?,
            inputs: fields.take("inputs")?,
            output: fields.take("output")?,
            forms: fields.take("forms")?,
        };
        let fits = (1..=relief::MOST_INPUTS).contains(&own.inputs.len())
            && (1..=2).contains(&own.forms.len())
            && own.forms.iter().all(|lines| !lines.is_empty());
        if !fits || known(own.put_down(Texts::default())) != Some(&own) {
            return Err(Unfit("relation"));
        }
        Ok(own)
    }
}

/// What is said of a relation beside what is worked: for pages, not for the engine.
#[derive(Debug, Default)]
pub(super) struct Texts {
    /// The symbols of the inputs.
    pub(super) inputs: Vec<String>,
    /// The symbol of the result.
    pub(super) output: String,
    /// The names and symbols of what comes on the way.
    pub(super) steps: Vec<(String, String)>,
    /// The law in customary units and in SI.
    pub(super) laws: [String; 2],
    /// Where it comes from.
    pub(super) source: String,
    pub(super) status: Option<Status>,
}

/// The compiled form of a relation of a course's own.
#[must_use]
pub fn known(relation: &Relation) -> Option<&'static Own> {
    let Run::Formulas(formulas) = relation.run else { return None };
    formulas.any().downcast_ref()
}

/// The relations of a course that a compiled text calls, by itself or through others, each after those that it calls. Their keys
/// are in the text, which nothing else looks like.
#[must_use]
pub fn called(text: &str, known: &[&'static Relation]) -> Vec<Own> {
    let mut all: Vec<Own> = Vec::new();
    for relation in known.iter().rev() {
        let key = format!("\"{}\"", relation.key);
        let is_called = text.contains(&key) || all.iter().any(|own| own.calls(&key));
        all.extend(self::known(relation).filter(|_| is_called).cloned());
    }
    all.reverse();
    all
}

/// What a page carries of a relation of a course for its calculator: the compiled forms of all that it calls, and its own.
#[must_use]
pub fn carried(relation: &Relation, known: &[&'static Relation]) -> String {
    serde_json::to_string(&called(&format!("\"{}\"", relation.key), known)).unwrap_or_default()
}

/// Makes known what a page carries; whether it could be read.
#[must_use]
pub fn learn(carried: &str) -> bool {
    serde_json::from_str(carried).is_ok_and(|tree| Vec::<Own>::read(tree).is_ok())
}

fn leak(text: &str) -> &'static str {
    Box::leak(text.to_owned().into_boxed_str())
}

impl Own {
    /// Whether a formula of it calls the relation with a key, which is in quotation marks.
    fn calls(&self, key: &str) -> bool {
        serde_json::to_string(&self.forms).unwrap_or_default().contains(key)
    }

    /// The relation of this content, which is put down where it is not known yet.
    pub(super) fn put_down(&self, texts: Texts) -> &'static Relation {
        if let Some(known) = registry::put_down_as(&self.key) {
            return known;
        }
        let own: &'static Self = Box::leak(Box::new(self.clone()));
        let relation: &'static Relation = Box::leak(Box::new(own.relation(texts)));
        registry::add(relation);
        relation
    }

    fn relation(&'static self, texts: Texts) -> Relation {
        let symbol = |place: usize| texts.inputs.get(place).map_or("", |symbol| leak(symbol));
        let inputs: Vec<_> = self.inputs.iter().enumerate().map(|(place, input)| input.row(symbol(place))).collect();
        let steps = texts.steps.iter().map(|(name, symbol)| relief::Step { name: leak(name), symbol: leak(symbol) });
        let steps: Vec<_> = steps.collect();
        let printed = |law: &str| Printed {
            law: leak(law),
            units: &[],
            source: Source { document: leak(&texts.source), status: texts.status.unwrap_or(Status::Memory) },
        };
        let [us, si] = &texts.laws;
        Relation {
            id: &self.id,
            key: &self.key,
            inputs: Box::leak(inputs.into_boxed_slice()),
            outputs: Box::leak(Box::new([self.output.row(leak(&texts.output))])),
            forms: match self.forms.len() {
                1 => Forms::Same(printed(us)),
                _ => Forms::Each { us: printed(us), si: printed(si) },
            },
            steps: Box::leak(steps.into_boxed_slice()),
            units: self.output.unit.us.0.zip(self.output.unit.si.0).map(|(us, si)| [us, si]),
            run: Run::Formulas(self),
        }
    }
}

impl Own {
    fn lines_in(&self, form: System) -> Option<&Vec<Line>> {
        if form == System::Us { self.forms.first() } else { self.forms.last() }
    }
}

impl OwnInput {
    fn row(&'static self, symbol: &'static str) -> Input {
        let bound = |node: &Node| node.quantity(&Scope::default()).map_or(f64::NAN, |value| value.si);
        let range = Range { open: false, ..Range::between(bound(&self.low), bound(&self.high)) };
        Input { name: &self.name, symbol, form: Form::Quantity(self.kind, range), default: None, role: Role::Plain }
    }
}

impl OwnOutput {
    fn row(&'static self, symbol: &'static str) -> Output {
        let safe_side = match self.safe {
            1 => SafeSide::Up,
            2 => SafeSide::Down,
            _ => SafeSide::Neither,
        };
        Output { name: &self.name, symbol, gives: Gives::Quantity(self.kind), safe_side, stated_in: None }
    }
}

impl Formulas for Own {
    fn any(&self) -> &dyn Any {
        self
    }

    fn place(&self, name: &str, form: System) -> Option<usize> {
        self.lines_in(form)?.iter().position(|line| line.name == name)
    }

    fn lines(&self, given: &[Argument], manner: Manner) -> Result<Vec<Quantity>, RelationError> {
        let mut scope = Scope::new(manner.form);
        for (input, value) in self.inputs.iter().zip(given) {
            scope.set(
                &input.name,
                match value {
                    Argument::Quantity(value) => Value::Quantity(*value),
                    Argument::Choice(name) => Value::Choice((*name).to_owned()),
                },
            );
        }
        let lines = self.lines_in(manner.form).ok_or(RelationError::NotFinite)?;
        let mut values = Vec::with_capacity(lines.len());
        for line in lines {
            let value = line.formula.quantity(&scope).map_err(no_value)?;
            let is_last = values.len() + 1 == lines.len();
            let value = if is_last { Quantity::new(value.si, self.output.kind) } else { value };
            scope.set(&line.name, Value::Quantity(value));
            values.push(value);
        }
        Ok(values)
    }
}

fn no_value(error: EvaluateError) -> RelationError {
    match error {
        EvaluateError::Relation(_, error) => error,
        EvaluateError::NotFinite | EvaluateError::Unfit => RelationError::NotFinite,
    }
}
