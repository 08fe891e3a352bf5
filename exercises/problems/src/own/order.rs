//! In which order the relations of a course are compiled: those that others call come first.

use faults::Code;

use super::raw::RawRelation;
use crate::recipe::RecipeFault;
use crate::recipe::checking::Path;

/// How deep relations of a course may call one another.
pub const MOST_DEPTH: usize = 4;

/// The order, and what is wrong with it.
#[derive(Debug, Default)]
pub struct Order {
    /// The places of the relations that can be compiled, each after those that it calls.
    pub places: Vec<usize>,
    /// For each of the others its place and why not.
    pub faults: Vec<(usize, RecipeFault)>,
}

/// What is known of a relation on the way.
#[derive(Clone, Copy, PartialEq)]
enum State {
    New,
    Open,
    /// Done, with so many levels of others below it.
    Done(usize),
    Broken,
}

/// Puts relations in order. One that calls itself, by whatever way, has no place, and neither have those that call it.
#[must_use]
pub fn ordered(raws: &[&RawRelation]) -> Order {
    let mut walk = Walk { raws, states: vec![State::New; raws.len()], path: Vec::new(), order: Order::default() };
    for place in 0..raws.len() {
        walk.visit(place);
    }
    walk.order
}

struct Walk<'r> {
    raws: &'r [&'r RawRelation],
    states: Vec<State>,
    path: Vec<usize>,
    order: Order,
}

impl Walk<'_> {
    /// How many levels a relation has with those below it; nothing where it cannot be compiled.
    fn visit(&mut self, place: usize) -> Option<usize> {
        match self.states[place] {
            State::Done(levels) => return Some(levels),
            State::Broken => return None,
            State::Open => return self.circle(place),
            State::New => self.states[place] = State::Open,
        }
        self.path.push(place);
        let called: Vec<_> =
            (0..self.raws.len()).filter(|other| calls(self.raws[place], &self.raws[*other].id)).collect();
        let below: Option<Vec<usize>> = called.into_iter().map(|other| self.visit(other)).collect();
        self.path.pop();
        let levels = below.map(|below| below.into_iter().max().unwrap_or(0) + 1);
        match levels {
            Some(levels) if levels > MOST_DEPTH => {
                self.refuse(place, Code::RelationDepth, ("most", MOST_DEPTH.to_string()))
            }
            Some(levels) => {
                self.states[place] = State::Done(levels);
                self.order.places.push(place);
                return levels.into();
            }
            None => self.states[place] = State::Broken,
        }
        None
    }

    fn circle(&mut self, place: usize) -> Option<usize> {
        let start = self.path.iter().position(|open| *open == place).unwrap_or(0);
        let round = self.path[start..].iter().chain([&place]).map(|place| self.raws[*place].id.as_str());
        let round = round.collect::<Vec<_>>().join(" → ");
        self.refuse(place, Code::RelationCircle, ("circle", round));
        None
    }

    fn refuse(&mut self, place: usize, code: Code, (name, value): (&'static str, String)) {
        self.states[place] = State::Broken;
        let list = self.raws[place].lists().into_iter().next().map(|(list, _)| list).unwrap_or_default();
        let path = list.into_iter().fold(Path::default(), |path, key| path.key(key));
        self.order.faults.push((place, path.fault(code).with("id", &self.raws[place].id).with(name, value)));
    }
}

/// Whether a formula of a relation calls another: its name stands before a bracket.
fn calls(raw: &RawRelation, id: &str) -> bool {
    let continues = |next: char| next.is_ascii_alphanumeric() || next == '_';
    let called = |text: &String| {
        text.match_indices(id)
            .any(|(at, _)| !text[..at].ends_with(continues) && text[at + id.len()..].trim_start().starts_with('('))
    };
    raw.lists().iter().any(|(_, list)| list.0.iter().any(|(_, text)| called(text)))
}
