//! A formula as written to a checked one: names, relations and units are looked up and kinds are compared.

use core::ops::Range;

use faults::Code;
use relief::{Form, Gives, Input, Kind, Relation, Style, System};

use super::fault::FormulaFault;
use super::node::{Call, Comparison, Node, Operation};
use super::parse::{Given, Raw, RawTest, What};
use super::scope::{NameKind, Names};

/// What says beside the inputs of a relation which of its two printed forms is taken.
pub(crate) const STATED_IN: &str = "stated_in";

/// What a checked piece of a formula gives.
enum Sort {
    Quantity(Kind),
    Choice,
}

type Checked<T> = Result<T, FormulaFault>;

/// Checks a formula that must give a quantity; a bare `psi` or `bar` at its top takes the kind asked for.
pub(super) fn quantity(raw: &Raw, names: &Names, hint: Option<Kind>) -> Checked<(Node, Kind)> {
    match check(raw, names, hint)? {
        (node, Sort::Quantity(kind)) => Ok((node, kind)),
        (_, Sort::Choice) => Err(FormulaFault::at(Code::FormulaChoice, raw.span.clone())),
    }
}

/// Checks a formula that must give a named choice.
pub(super) fn named_choice(raw: &Raw, names: &Names) -> Checked<Node> {
    match check(raw, names, None)? {
        (node, Sort::Choice) => Ok(node),
        (_, Sort::Quantity(_)) => Err(FormulaFault::at(Code::FormulaChoice, raw.span.clone())),
    }
}

/// Checks one comparison.
pub(super) fn test(raw: &RawTest, names: &Names) -> Checked<(Node, Comparison, Node)> {
    if let Some(options) = choice_options(&raw.left, names) {
        let right = choice(&raw.right, names, &options)?;
        return match raw.comparison {
            Comparison::Equal | Comparison::Unequal => Ok((check(&raw.left, names, None)?.0, raw.comparison, right)),
            _ => Err(FormulaFault::at(Code::FormulaChoice, raw.left.span.clone())),
        };
    }
    let ((left, left_kind), (right, right_kind)) = sides(&raw.left, &raw.right, names, Some)?;
    if left_kind.comparable(right_kind) {
        return Ok((left, raw.comparison, right));
    }
    Err(clash(raw.left.span.start..raw.right.span.end, raw.comparison.sign(), left_kind, right_kind))
}

fn check(raw: &Raw, names: &Names, hint: Option<Kind>) -> Checked<(Node, Sort)> {
    let (node, kind) = match &raw.what {
        What::Number { value, unit: None } => (Node::Number(*value), Kind::Number),
        What::Number { value, unit: Some(unit) } => {
            let kind = hint.filter(|hint| unit.measures(*hint)).unwrap_or(unit.usual_kind());
            (Node::Quantity { value: *value, unit, kind }, kind)
        }
        What::Name(name) => match lookup(name, names) {
            Some(NameKind::Quantity(kind)) => (Node::Name(name.clone()), *kind),
            Some(NameKind::Choice(_)) => return Ok((Node::Name(name.clone()), Sort::Choice)),
            None => return Err(unknown_name(raw, name, names)),
        },
        // The sign belongs to the number before its unit is looked at: a temperature scale has a zero of its own.
        What::Negated(inner) if matches!(inner.what, What::Number { .. }) => return check(&signed(inner), names, hint),
        What::Negated(inner) => {
            let (inner, kind) = quantity(inner, names, hint)?;
            if kind == Kind::Temperature {
                return Err(clash(raw.span.clone(), "-", Kind::Number, kind));
            }
            (Node::Negated(Box::new(inner)), kind)
        }
        What::Binary { operation, left, right } => return binary(raw, *operation, (left, right), names),
        What::Call { relation, arguments, output } => return call(raw, relation, arguments, output.as_ref(), names),
    };
    Ok((node, Sort::Quantity(kind)))
}

/// A number with its sign changed.
fn signed(number: &Raw) -> Raw {
    match &number.what {
        What::Number { value, unit } => {
            Raw::leaf(What::Number { value: value.negated(), unit: *unit }, number.span.clone())
        }
        _ => number.clone(),
    }
}

fn binary(raw: &Raw, operation: Operation, (left, right): (&Raw, &Raw), names: &Names) -> Checked<(Node, Sort)> {
    let additive = matches!(operation, Operation::Plus | Operation::Minus);
    let hint = |kind: Kind| additive.then_some(if kind.is_pressure() { Kind::Difference } else { kind });
    let ((left, left_kind), (right, right_kind)) = sides(left, right, names, hint)?;
    let kind = operation
        .kind(left_kind, right_kind)
        .ok_or_else(|| clash(raw.span.clone(), operation.sign(), left_kind, right_kind))?;
    Ok((Node::Binary(operation, Box::new(left), Box::new(right)), Sort::Quantity(kind)))
}

/// Checks both sides; a side that is a literal in a bare unit takes its kind from the other.
fn sides(
    left: &Raw,
    right: &Raw,
    names: &Names,
    hint: impl Fn(Kind) -> Option<Kind>,
) -> Checked<((Node, Kind), (Node, Kind))> {
    if is_bare(left) && !is_bare(right) {
        let right = quantity(right, names, None)?;
        return Ok((quantity(left, names, hint(right.1))?, right));
    }
    let left = quantity(left, names, None)?;
    let right = quantity(right, names, hint(left.1))?;
    Ok((left, right))
}

fn is_bare(raw: &Raw) -> bool {
    match &raw.what {
        What::Number { unit, .. } => unit.is_some_and(relief::units::Unit::is_bare_pressure),
        What::Negated(inner) => is_bare(inner),
        _ => false,
    }
}

fn call(
    raw: &Raw,
    id: &str,
    arguments: &[Given],
    output: Option<&(String, Range<usize>)>,
    names: &Names,
) -> Checked<(Node, Sort)> {
    let name = raw.span.start..raw.span.start + id.len();
    let relation = relief::find(id).ok_or_else(|| {
        let known = relief::relations().map(|relation| relation.id);
        FormulaFault::at(Code::FormulaUnknownRelation, name.clone()).with("found", id).nearest_first(id, known)
    })?;
    let mut nodes: Vec<Option<Node>> = relation.inputs.iter().map(|_| None).collect();
    let mut form = None;
    for given in arguments {
        if given.name == STATED_IN && relation.forms.are_two() {
            if form.replace(stated_in(&given.value)?).is_some() {
                let fault = FormulaFault::at(Code::FormulaRepeatedInput, given.span.clone());
                return Err(fault.with("input", STATED_IN));
            }
            continue;
        }
        let (index, input) = relation.input(&given.name).ok_or_else(|| unknown_input(given, relation))?;
        if nodes[index].is_some() {
            let fault = FormulaFault::at(Code::FormulaRepeatedInput, given.span.clone());
            return Err(fault.with("input", input.name));
        }
        nodes[index] = Some(argument(given, input, names)?);
    }
    let missing: Vec<_> = (relation.inputs.iter().zip(&nodes))
        .filter(|(input, node)| input.default.is_none() && node.is_none())
        .map(|(input, _)| input.name)
        .collect();
    if missing.is_empty() {
        let (place, gives) = chosen_output(relation, output)?;
        let sort = match gives {
            Gives::Quantity(kind) => Sort::Quantity(kind),
            Gives::Choice(_) => Sort::Choice,
        };
        return Ok((Node::Call(Box::new(Call { relation, arguments: nodes, output: place, form })), sort));
    }
    let fault = FormulaFault::at(Code::FormulaMissingInput, name).with("relation", id);
    Err(fault.with("missing", missing.join(", ")))
}

/// The system whose printed form a call takes.
fn stated_in(raw: &Raw) -> Checked<System> {
    let found = match &raw.what {
        What::Name(name) => System::find(name),
        _ => None,
    };
    let known = || System::BOTH.map(System::id).join(", ");
    found.ok_or_else(|| FormulaFault::at(Code::FormulaUnknownChoice, raw.span.clone()).with("known", known()))
}

/// The output that is meant: the named one, or the first.
fn chosen_output(relation: &'static Relation, output: Option<&(String, Range<usize>)>) -> Checked<(usize, Gives)> {
    let Some((name, span)) = output else { return Ok((0, relation.outputs[0].gives)) };
    let (place, output) = relation.output(name).ok_or_else(|| {
        let known = relation.outputs.iter().map(|output| output.name);
        let fault = FormulaFault::at(Code::FormulaUnknownOutput, span.clone()).with("found", name);
        fault.with("relation", relation.id).nearest_first(name, known)
    })?;
    Ok((place, output.gives))
}

fn argument(given: &Given, input: &Input, names: &Names) -> Checked<Node> {
    match &input.form {
        Form::Choice(known) => {
            let options: Vec<_> = known.iter().map(|name| (*name).to_owned()).collect();
            choice(&given.value, names, &options)
        }
        Form::Quantity(kind, _) => {
            let (node, found) = quantity(&given.value, names, Some(*kind))?;
            if kind.accepts(found) {
                return Ok(node);
            }
            let fault = FormulaFault::at(Code::FormulaArgumentKind, given.value.span.clone());
            Err(fault.with("input", input.name).with("expected", kind.id()).with("found", found.id()))
        }
    }
}

/// A choice where one of `options` is asked for: the name itself, or a draw that gives only such names.
fn choice(raw: &Raw, names: &Names, options: &[String]) -> Checked<Node> {
    if let Some(drawn) = choice_options(raw, names)
        && drawn.iter().all(|name| options.contains(name))
    {
        return Ok(check(raw, names, None)?.0);
    }
    match &raw.what {
        What::Name(name) if options.contains(name) => Ok(Node::Choice(name.clone())),
        // A choice may be a number: `edition: 7`.
        What::Number { value, unit: None } if options.contains(&value.text(Style::Decimal(0))) => {
            Ok(Node::Choice(value.text(Style::Decimal(0))))
        }
        _ => Err(FormulaFault::at(Code::FormulaUnknownChoice, raw.span.clone()).with("known", options.join(", "))),
    }
}

fn choice_options(raw: &Raw, names: &Names) -> Option<Vec<String>> {
    match &raw.what {
        What::Name(name) => match lookup(name, names) {
            Some(NameKind::Choice(options)) => Some(options.clone()),
            _ => None,
        },
        What::Call { relation, output: Some((name, _)), .. } => match relief::find(relation)?.output(name)?.1.gives {
            Gives::Choice(options) => Some(options.iter().map(|option| (*option).to_owned()).collect()),
            Gives::Quantity(_) => None,
        },
        _ => None,
    }
}

fn lookup<'a>(name: &str, names: &'a Names) -> Option<&'a NameKind> {
    names.iter().find(|(known, _)| known == name).map(|(_, kind)| kind)
}

fn unknown_name(raw: &Raw, name: &str, names: &Names) -> FormulaFault {
    let known = names.iter().map(|(name, _)| name.as_str());
    FormulaFault::at(Code::FormulaUnknownName, raw.span.clone()).with("found", name).nearest_first(name, known)
}

fn unknown_input(given: &Given, relation: &'static Relation) -> FormulaFault {
    let stated = relation.forms.are_two().then_some(STATED_IN);
    let known = relation.inputs.iter().map(|input| input.name).chain(stated);
    FormulaFault::at(Code::FormulaUnknownInput, given.span.clone())
        .with("found", &given.name)
        .with("relation", relation.id)
        .nearest_first(&given.name, known)
}

fn clash(span: Range<usize>, sign: &str, left: Kind, right: Kind) -> FormulaFault {
    FormulaFault::at(Code::FormulaKind, span).with("sign", sign).with("left", left.id()).with("right", right.id())
}
