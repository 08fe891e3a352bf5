//! Tokens to a tree with places, by precedence climbing.

use core::mem::take;
use core::ops::Range;

use faults::Code;
use relief::{Exact, units::Unit};

use super::fault::FormulaFault;
use super::node::{Comparison, Operation};
use super::scan::{Spanned, Token, scan};

/// The deepest that a formula may nest, in brackets or in what it is computed from; deeper ones are refused, so that no
/// stack is used up, and the compiled form (three levels of JSON for a call) stays within what its reader allows.
pub(super) const MOST_DEPTH: usize = 36;

/// The longest formula that is read, in bytes: far longer than any that a person checks.
const LONGEST: usize = 4000;

/// What is written before the bracket of a square root.
pub const ROOT: &str = "sqrt";

/// A formula as written: nothing in it is known to exist yet.
#[derive(Clone, Debug)]
pub(super) struct Raw {
    pub(super) what: What,
    pub(super) span: Range<usize>,
    /// How many levels of others it holds; a long sum holds many without a bracket.
    levels: usize,
}

impl Raw {
    /// A piece that holds no other.
    pub(super) fn leaf(what: What, span: Range<usize>) -> Self {
        Self { what, span, levels: 0 }
    }

    /// A piece over others of which the deepest has so many levels.
    fn over(levels: usize, what: What, span: Range<usize>) -> Parsed<Self> {
        if levels < MOST_DEPTH {
            Ok(Self { what, span, levels: levels + 1 })
        } else {
            Err(FormulaFault::at(Code::FormulaDepth, span))
        }
    }
}

#[derive(Clone, Debug)]
pub(super) enum What {
    Number { value: Exact, unit: Option<&'static Unit> },
    Name(String),
    Text(String),
    Negated(Box<Raw>),
    Binary { operation: Operation, left: Box<Raw>, right: Box<Raw> },
    Power { base: Box<Raw>, exponent: Box<Raw> },
    Root(Box<Raw>),
    Call { relation: String, arguments: Vec<Given>, output: Option<(String, Range<usize>)> },
}

#[derive(Clone, Debug)]
pub(super) struct Given {
    pub(super) name: String,
    pub(super) span: Range<usize>,
    pub(super) value: Raw,
}

/// One comparison of a condition.
#[derive(Clone, Debug)]
pub(super) struct RawTest {
    pub(super) left: Raw,
    pub(super) comparison: Comparison,
    pub(super) right: Raw,
}

type Parsed<T> = Result<T, FormulaFault>;

/// The fault of a value without the name of its input, with the first input that is still to be given.
fn offered(fault: FormulaFault, relation: &str, given: &[Given]) -> FormulaFault {
    let inputs = || relief::find(relation).into_iter().flat_map(|relation| relation.inputs.iter());
    let free = inputs().find(|input| !given.iter().any(|given| given.name == input.name));
    let found = fault.raw("found").map(str::to_owned);
    match (fault.code, free, found) {
        (Code::FormulaArgumentName, Some(input), Some(found)) => {
            fault.with("nearest", format!("{}: {found}", input.name))
        }
        _ => fault,
    }
}

/// Reads a formula.
pub(super) fn formula(text: &str) -> Parsed<Raw> {
    let mut reader = Reader::new(text)?;
    let raw = reader.sum(0)?;
    reader.end()?;
    Ok(raw)
}

/// Reads a condition: comparisons joined by `and`.
pub(super) fn condition(text: &str) -> Parsed<Vec<RawTest>> {
    let mut reader = Reader::new(text)?;
    let mut tests = vec![reader.test()?];
    while reader.take_word("and") {
        tests.push(reader.test()?);
    }
    reader.end()?;
    Ok(tests)
}

struct Reader {
    tokens: Vec<Spanned>,
    at: usize,
    length: usize,
}

impl Reader {
    fn new(text: &str) -> Parsed<Self> {
        if text.len() > LONGEST {
            let start = text.floor_char_boundary(LONGEST);
            return Err(FormulaFault::at(Code::FormulaLong, start..text.len()).with("most", LONGEST));
        }
        Ok(Self { tokens: scan(text)?, at: 0, length: text.len() })
    }

    fn test(&mut self) -> Parsed<RawTest> {
        let left = self.sum(0)?;
        let comparison = Comparison::ALL.into_iter().find(|comparison| self.take(comparison.sign()));
        let comparison = comparison.ok_or_else(|| self.expected("comparison"))?;
        Ok(RawTest { left, comparison, right: self.sum(0)? })
    }

    fn sum(&mut self, depth: usize) -> Parsed<Raw> {
        let mut left = self.product(depth)?;
        while let Some(operation) = self.operation([Operation::Plus, Operation::Minus]) {
            left = binary(operation, left, self.product(depth)?)?;
        }
        Ok(left)
    }

    fn product(&mut self, depth: usize) -> Parsed<Raw> {
        let mut left = self.signed(depth)?;
        while let Some(operation) = self.operation([Operation::Times, Operation::Over]) {
            left = binary(operation, left, self.signed(depth)?)?;
        }
        Ok(left)
    }

    fn operation(&mut self, among: [Operation; 2]) -> Option<Operation> {
        among.into_iter().find(|operation| self.take(operation.sign()))
    }

    fn signed(&mut self, depth: usize) -> Parsed<Raw> {
        let start = self.place().start;
        if depth > MOST_DEPTH {
            return Err(FormulaFault::at(Code::FormulaDepth, self.place()));
        }
        if !self.take("-") {
            return self.power(depth);
        }
        let inner = self.signed(depth + 1)?;
        let span = start..inner.span.end;
        Raw::over(inner.levels, What::Negated(Box::new(inner)), span)
    }

    /// A value, and the power that it is raised to: `x^2`, `x^-0.5`, `x^(1 / 3)`.
    fn power(&mut self, depth: usize) -> Parsed<Raw> {
        let base = self.primary(depth)?;
        if !self.take("^") {
            return Ok(base);
        }
        if matches!(base.what, What::Number { unit: Some(_), .. }) && !self.is_behind_bracket() {
            return Err(FormulaFault::at(Code::FormulaPowerOfUnit, base.span));
        }
        let exponent = self.signed(depth + 1)?;
        let (levels, span) = (base.levels.max(exponent.levels), base.span.start..exponent.span.end);
        Raw::over(levels, What::Power { base: Box::new(base), exponent: Box::new(exponent) }, span)
    }

    /// Whether what was raised to the power whose sign was just taken is in brackets.
    fn is_behind_bracket(&self) -> bool {
        matches!(self.at.checked_sub(2).and_then(|at| self.tokens.get(at)), Some((Token::Sign(")"), _)))
    }

    /// A square root, whose bracket is open already.
    fn root(&mut self, start: usize, depth: usize) -> Parsed<Raw> {
        let inner = self.sum(depth + 1)?;
        self.expect(")")?;
        let (levels, span) = (inner.levels, start..self.tokens[self.at - 1].1.end);
        Raw::over(levels, What::Root(Box::new(inner)), span)
    }

    fn primary(&mut self, depth: usize) -> Parsed<Raw> {
        let span = self.place();
        if let Some((Token::Number { value, unit, .. }, _)) = self.tokens.get(self.at) {
            self.at += 1;
            return Ok(Raw::leaf(What::Number { value: *value, unit: *unit }, span));
        }
        if let Some((Token::Text(text), _)) = self.tokens.get_mut(self.at) {
            self.at += 1;
            return Ok(Raw::leaf(What::Text(take(text)), span));
        }
        if let Some(name) = self.take_name() {
            return match self.take("(") {
                true if name == ROOT => self.root(span.start, depth),
                true => self.call(name, span.start, depth),
                false => self.path(name, span),
            };
        }
        if !self.take("(") {
            return Err(self.expected("value"));
        }
        let inner = self.sum(depth + 1)?;
        self.expect(")")?;
        Ok(inner)
    }

    /// A name, or names joined by dots: a cell of a table.
    fn path(&mut self, mut name: String, mut span: Range<usize>) -> Parsed<Raw> {
        while self.take(".") {
            let (next, place) = self.name()?;
            name = format!("{name}.{next}");
            span.end = place.end;
        }
        Ok(Raw::leaf(What::Name(name), span))
    }

    fn call(&mut self, relation: String, start: usize, depth: usize) -> Parsed<Raw> {
        let mut arguments = Vec::new();
        while !self.take(")") {
            if !arguments.is_empty() {
                self.expect(",")?;
            }
            let argument = self.argument(depth).map_err(|fault| offered(fault, &relation, &arguments))?;
            arguments.push(argument);
        }
        let output = if self.take(".") { Some(self.name()?) } else { None };
        let end = self.tokens[self.at - 1].1.end;
        let levels = arguments.iter().map(|given| given.value.levels).max().unwrap_or(0);
        Raw::over(levels, What::Call { relation, arguments, output }, start..end)
    }

    /// The name of an output.
    fn name(&mut self) -> Parsed<(String, Range<usize>)> {
        let span = self.place();
        self.take_name().map(|name| (name, span)).ok_or_else(|| self.expected("output"))
    }

    fn argument(&mut self, depth: usize) -> Parsed<Given> {
        let span = self.place();
        let name = self.take_name().ok_or_else(|| self.expected("argument"))?;
        if !self.take(":") {
            return Err(FormulaFault::at(Code::FormulaArgumentName, span).with("found", name));
        }
        Ok(Given { name, span, value: self.sum(depth + 1)? })
    }

    fn take(&mut self, sign: &str) -> bool {
        let found = matches!(self.tokens.get(self.at), Some((Token::Sign(found), _)) if *found == sign);
        self.at += usize::from(found);
        found
    }

    /// The next token, where it is a name.
    fn take_name(&mut self) -> Option<String> {
        let (Token::Name(name), _) = self.tokens.get_mut(self.at)? else { return None };
        self.at += 1;
        Some(take(name))
    }

    fn take_word(&mut self, word: &str) -> bool {
        let found = matches!(self.tokens.get(self.at), Some((Token::Name(found), _)) if found == word);
        self.at += usize::from(found);
        found
    }

    fn expect(&mut self, sign: &'static str) -> Parsed<()> {
        if self.take(sign) { Ok(()) } else { Err(self.expected(sign)) }
    }

    fn end(&self) -> Parsed<()> {
        if self.at == self.tokens.len() { Ok(()) } else { Err(self.expected("end")) }
    }

    fn expected(&self, what: &'static str) -> FormulaFault {
        FormulaFault::at(Code::FormulaSyntax, self.place()).with("expected", what)
    }

    /// The bytes of the next token, or the end of the text.
    fn place(&self) -> Range<usize> {
        self.tokens.get(self.at).map_or(self.length..self.length, |(_, span)| span.clone())
    }
}

fn binary(operation: Operation, left: Raw, right: Raw) -> Parsed<Raw> {
    let (levels, span) = (left.levels.max(right.levels), left.span.start..right.span.end);
    Raw::over(levels, What::Binary { operation, left: Box::new(left), right: Box::new(right) }, span)
}
