//! A formula as written to a checked one: names, relations and units are looked up and kinds are compared.

use core::ops::Range;

use faults::Code;
use relief::{Form, Gives, Input, Kind, Relation, Style, System};

use super::fault::FormulaFault;
use super::node::{Call, Comparison, Node, Operation};
use super::parse::{Given, Raw, RawTest, What};
use super::scope::{NameKind, Names};

/// The name of the circle number.
pub const PI: &str = "pi";

/// What says beside the inputs of a relation which of its two printed forms is taken.
pub(crate) const STATED_IN: &str = "stated_in";

/// What a checked piece of a formula gives.
enum Sort {
    Quantity(Gave),
    Choice,
}

/// The kind of what a piece gives, and whether a product of quantities gave it. A product tells its dimension alone: its kind is
/// the one that the place asks for, where that fits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gave {
    pub(super) kind: Kind,
    pub(super) by_product: bool,
}

impl Gave {
    fn of(kind: Kind) -> Self {
        Self { kind, by_product: false }
    }

    /// The kind that it is of in a place that asks for one, where it may stand there.
    pub(super) fn in_place_of(self, asked: Kind) -> Option<Kind> {
        let is_taken = asked.accepts(self.kind);
        let fits = self.by_product && asked.fits(self.kind);
        if is_taken { Some(self.kind) } else { fits.then_some(asked) }
    }
}

type Checked<T> = Result<T, FormulaFault>;

/// Checks a formula that must give a quantity; a bare `psi` or `bar` at its top takes the kind asked for.
pub(super) fn quantity(raw: &Raw, names: &Names, hint: Option<Kind>) -> Checked<(Node, Gave)> {
    match check(raw, names, hint)? {
        (node, Sort::Quantity(gave)) => Ok((node, gave)),
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
    let ((left, one), (right, other)) = sides(&raw.left, &raw.right, names, Some)?;
    if one.in_place_of(other.kind).or(other.in_place_of(one.kind)).is_some() {
        return Ok((left, raw.comparison, right));
    }
    Err(clash(raw.left.span.start..raw.right.span.end, raw.comparison.sign(), one.kind, other.kind))
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
            None if name == PI => (Node::Pi, Kind::Number),
            None => return Err(unknown_name(raw, name, names)),
        },
        What::Text(text) => return Err(FormulaFault::at(Code::FormulaText, raw.span.clone()).with("found", text)),
        // The sign belongs to the number before its unit is looked at: a temperature scale has a zero of its own.
        What::Negated(inner) if matches!(inner.what, What::Number { .. }) => return check(&signed(inner), names, hint),
        What::Negated(inner) => {
            let (inner, gave) = quantity(inner, names, hint)?;
            if gave.kind == Kind::Temperature {
                return Err(clash(raw.span.clone(), "-", Kind::Number, gave.kind));
            }
            return Ok((Node::Negated(Box::new(inner)), Sort::Quantity(gave)));
        }
        What::Power { base, exponent } => return power(raw, base, exponent, names),
        What::Root(inner) => {
            let (node, gave) = factor(inner, names)?;
            let kind = gave.kind.power(1).ok_or_else(|| no_power(inner, gave.kind))?;
            let by_product = !gave.kind.is_pure();
            return Ok((Node::Root(Box::new(node)), Sort::Quantity(Gave { kind, by_product })));
        }
        What::Binary { operation, left, right } => return binary(raw, *operation, (left, right), names),
        What::Call { relation, arguments, output } => return call(raw, relation, arguments, output.as_ref(), names),
    };
    Ok((node, Sort::Quantity(Gave::of(kind))))
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
    let ((left_node, one), (right_node, other)) = sides(left, right, names, hint)?;
    if !additive {
        [left, right].into_iter().try_for_each(no_scale)?;
    }
    let kind = operation.kind(one.kind, other.kind).ok_or_else(|| refused(raw, operation, one.kind, other.kind))?;
    let by_product = match (one.kind.is_pure(), other.kind.is_pure()) {
        _ if additive => one.by_product && other.by_product,
        (true, true) => false,
        (false, true) => one.by_product,
        (true, false) if operation == Operation::Times => other.by_product,
        _ => true,
    };
    let node = Node::Binary(operation, Box::new(left_node), Box::new(right_node));
    Ok((node, Sort::Quantity(Gave { kind, by_product })))
}

/// Why two kinds do not meet.
fn refused(raw: &Raw, operation: Operation, left: Kind, right: Kind) -> FormulaFault {
    let counted = [left, right].contains(&Kind::Gauge) && ![left, right].contains(&Kind::Absolute);
    match operation {
        Operation::Times | Operation::Over if counted => FormulaFault::at(Code::FormulaGaugeProduct, raw.span.clone()),
        _ => clash(raw.span.clone(), operation.sign(), left, right),
    }
}

/// A factor of a product, or what is raised to a power.
fn factor(raw: &Raw, names: &Names) -> Checked<(Node, Gave)> {
    no_scale(raw)?;
    quantity(raw, names, None)
}

/// A fault where a factor is written as a temperature on a scale, whose zero is anywhere.
fn no_scale(raw: &Raw) -> Checked<()> {
    match &raw.what {
        What::Number { unit: Some(unit), .. } if unit.is_scale() => {
            Err(FormulaFault::at(Code::FormulaScale, raw.span.clone()).with("unit", unit.symbol))
        }
        What::Negated(inner) => no_scale(inner),
        _ => Ok(()),
    }
}

/// A power. A quantity with a dimension takes a whole or half exponent that is written out, so that the kind of the result is
/// known; a pure number takes any that is one.
fn power(raw: &Raw, base: &Raw, exponent: &Raw, names: &Names) -> Checked<(Node, Sort)> {
    let (base_node, gave) = factor(base, names)?;
    let (exponent_node, by) = quantity(exponent, names, None)?;
    if !by.kind.is_pure() {
        let fault = FormulaFault::at(Code::FormulaExponent, exponent.span.clone());
        return Err(fault.with("found", by.kind.told()));
    }
    let halves = if gave.kind.is_pure() { Some(0) } else { halves(&exponent_node) };
    let fault = || FormulaFault::at(Code::FormulaPower, raw.span.clone()).with("found", gave.kind.told());
    let halves = halves.ok_or_else(fault)?;
    let kind = gave.kind.power(halves).ok_or_else(|| no_power(base, gave.kind))?;
    let by_product = !gave.kind.is_pure();
    let node = Node::Power(Box::new(base_node), Box::new(exponent_node));
    Ok((node, Sort::Quantity(Gave { kind, by_product })))
}

/// How many halves a written exponent is.
fn halves(exponent: &Node) -> Option<i8> {
    let Node::Number(exact) = exponent else { return None };
    let twice = 2_i128 * i128::from(exact.numerator());
    let lower = i128::from(exact.denominator());
    (twice % lower == 0).then_some(twice / lower).and_then(|halves| i8::try_from(halves).ok())
}

/// Why a kind has no power.
fn no_power(base: &Raw, kind: Kind) -> FormulaFault {
    match kind {
        Kind::Gauge => FormulaFault::at(Code::FormulaGaugeProduct, base.span.clone()),
        _ => FormulaFault::at(Code::FormulaPower, base.span.clone()).with("found", kind.told()),
    }
}

/// Checks both sides; a side that is a literal in a bare unit takes its kind from the other.
fn sides(
    left: &Raw,
    right: &Raw,
    names: &Names,
    hint: impl Fn(Kind) -> Option<Kind>,
) -> Checked<((Node, Gave), (Node, Gave))> {
    if is_bare(left) && !is_bare(right) {
        let right = quantity(right, names, None)?;
        return Ok((quantity(left, names, hint(right.1.kind))?, right));
    }
    let left = quantity(left, names, None)?;
    let right = quantity(right, names, hint(left.1.kind))?;
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
    let relation = names.relation(id).ok_or_else(|| {
        let known = names.relations();
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
            Gives::Quantity(kind) => Sort::Quantity(Gave::of(kind)),
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
            if found.in_place_of(*kind).is_some() {
                return Ok(node);
            }
            let fault = FormulaFault::at(Code::FormulaArgumentKind, given.value.span.clone());
            Err(of_kinds(fault.with("input", input.name), *kind, found.kind))
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
        What::Name(name) | What::Text(name) if options.contains(name) => Ok(Node::Choice(name.clone())),
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
        What::Call { relation, output: Some((name, _)), .. } => match names.relation(relation)?.output(name)?.1.gives {
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
    FormulaFault::at(Code::FormulaKind, span).with("sign", sign).with("left", left.told()).with("right", right.told())
}

/// A fault with the kind that was expected and the one that was found. Beside a dimension without a name, what was expected is
/// told in base units too.
pub(super) fn of_kinds(fault: FormulaFault, expected: Kind, found: Kind) -> FormulaFault {
    let base = match found {
        Kind::Derived(_) => format!(" ({})", expected.dimension().in_base_units()),
        _ => String::new(),
    };
    fault.with("expected", expected.id()).with("base", base).with("found", found.told())
}
