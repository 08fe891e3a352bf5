//! What the checks of a recipe share: the path to a value, the faults found so far, the names known so far.

use core::ops::{Range, RangeInclusive};

use faults::{Code, Fault};
use relief::{Relation, System};

use super::picture::Picture;
use super::written::RawRight;
use crate::formula::{Condition, FormulaFault, NameKind, Names, PI, ROOT};
use crate::template::{Template, is_name};

/// A checked value, or what is wrong with it.
pub(crate) type Checked<T> = Result<T, Vec<RecipeFault>>;

/// What is wrong with a recipe.
pub type RecipeFault = Fault<RecipePlace>;

/// Where in a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecipePlace {
    /// The path through the front matter to the value that is to blame; empty for the recipe as a whole. `body` and the
    /// name of a section lead to the words below the front matter.
    pub path: Vec<Step>,
    /// The bytes within that value; none for all of it.
    pub span: Option<Range<usize>>,
}

/// A step of a path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// Into a mapping.
    Key(String),
    /// Into a list.
    Index(usize),
}

/// The path to a value, built up step by step.
#[derive(Clone, Debug, Default)]
pub(crate) struct Path(Vec<Step>);

impl Path {
    pub(crate) fn key(&self, key: &str) -> Self {
        self.with(Step::Key(key.to_owned()))
    }

    pub(crate) fn index(&self, index: usize) -> Self {
        self.with(Step::Index(index))
    }

    fn with(&self, step: Step) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }

    pub(crate) fn fault(&self, code: Code) -> RecipeFault {
        Fault::at(code, RecipePlace { path: self.0.clone(), span: None })
    }

    pub(crate) fn formula(&self, fault: FormulaFault) -> RecipeFault {
        fault.map(|span| RecipePlace { path: self.0.clone(), span: Some(span) })
    }
}

/// The words below a recipe's front matter, as HTML with holes.
#[derive(Debug, Default)]
pub struct Bodies {
    /// The statement.
    pub question: Template,
    /// Where to start.
    pub start: Option<Template>,
    /// The worked solution; the steps alone where there is none.
    pub working: Option<Template>,
    /// What is said of each named mistake.
    pub mistakes: Vec<(String, Template)>,
}

/// The words that a compiled recipe carries with it.
pub trait Lexicon {
    /// The words under a key: `choices.<name>`, `relations.<id>.title`.
    fn text(&self, key: &str) -> String;

    /// The relations of the course, each after those that it calls.
    fn relations(&self) -> &[&'static Relation] {
        &[]
    }

    /// The law of a relation in MathML, in symbols, in the form that a system prints.
    fn law_html(&self, relation: &'static Relation, form: System) -> String;

    /// The same with a hole for each input by name; outputs stay symbols.
    fn law_with_holes(&self, relation: &'static Relation, form: System) -> Template;

    /// The pictures of the course whose areas can be pointed at.
    fn pictures(&self) -> &[Picture] {
        &[]
    }
}

/// What the checks of one recipe share: the names known so far and the faults found so far.
pub(crate) struct Check<'a> {
    pub(crate) lexicon: &'a dyn Lexicon,
    pub(crate) bodies: Bodies,
    pub(crate) names: Names,
    /// How many of the names are drawn; those of what is asked come after them.
    pub(crate) drawn: usize,
    /// Names whose own formula or form is at fault: what follows from that is not reported a second time.
    pub(crate) broken: Vec<String>,
    pub(crate) faults: Vec<RecipeFault>,
}

impl Check<'_> {
    /// The names that are drawn.
    pub(crate) fn drawn(&self) -> impl Iterator<Item = &(String, NameKind)> {
        self.names.iter().take(self.drawn)
    }

    /// Keeps the value, or the faults.
    pub(crate) fn keep<T>(&mut self, result: Result<T, Vec<RecipeFault>>) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(faults) => {
                self.faults.extend(faults);
                None
            }
        }
    }

    pub(crate) fn condition(&mut self, text: &str, path: &Path) -> Option<Condition> {
        let result = Condition::read(text, &self.names);
        let result = result.map_err(|faults| self.in_place(text, path, faults));
        self.keep(result)
    }

    /// The faults of a formula in their place; none where they follow from a name that is at fault itself.
    pub(crate) fn in_place(&self, text: &str, path: &Path, faults: Vec<FormulaFault>) -> Vec<RecipeFault> {
        let word = |next: char| next.is_ascii_alphanumeric() || next == '_' || next == '.';
        let follows = text.split(|next| !word(next)).any(|name| self.broken.iter().any(|broken| broken == name));
        if follows { Vec::new() } else { faults.into_iter().map(|fault| path.formula(fault)).collect() }
    }

    /// Makes a name known; one that is taken, or that no formula could use, is a fault.
    pub(crate) fn name(&mut self, name: &str, kind: NameKind, path: &Path) {
        let is_taken = self.names.iter().any(|(known, _)| known == name);
        self.usable(name, is_taken, path);
        self.names.push((name.to_owned(), kind));
    }

    /// A fault where no formula could use a name, or it is taken.
    fn usable(&mut self, name: &str, is_taken: bool, path: &Path) {
        if !is_usable(name) {
            let meant = meant(name).filter(|meant| !self.names.iter().any(|(known, _)| known == meant));
            let fault = path.fault(Code::RecipeName).with("found", name);
            self.faults.push(meant.into_iter().fold(fault, |fault, meant| fault.with("nearest", meant)));
        } else if is_taken {
            self.faults.push(path.fault(Code::RecipeRepeatedName).with("found", name));
        }
    }

    /// The same for the names of the entries of a list, which are known only there.
    pub(crate) fn names_within(&mut self, names: &[&str], path: &Path) {
        for (index, name) in names.iter().enumerate() {
            self.usable(name, names[..index].contains(name), &path.index(index).key("id"));
        }
    }

    /// Moves the faults found since there were so many from some keys of one mapping to those of another, which has them
    /// for several: each is told once.
    pub(crate) fn move_faults(&mut self, since: usize, is_moved: impl Fn(&str) -> bool, from: &Path, to: &Path) {
        for mut fault in self.faults.split_off(since) {
            let inside = fault.place.path.strip_prefix(from.0.as_slice());
            if let Some([Step::Key(key), rest @ ..]) = inside
                && is_moved(key)
            {
                fault.place.path = to.key(key).0.into_iter().chain(rest.iter().cloned()).collect();
            }
            if !self.faults.contains(&fault) {
                self.faults.push(fault);
            }
        }
    }

    /// Faults for holes that name nothing known.
    pub(crate) fn holes(&mut self, template: &Template, path: &Path) {
        let unknown: Vec<_> = template
            .holes()
            .filter(|hole| !self.names.iter().any(|(name, _)| name == hole))
            .filter(|hole| !self.broken.iter().any(|name| name == hole))
            .map(str::to_owned)
            .collect();
        let known = self.names.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>().join(", ");
        for hole in unknown {
            self.faults.push(path.fault(Code::RecipeUnknownHole).with("found", hole).known(&known));
        }
    }
}

/// Whether formulas can hold a name.
fn is_usable(name: &str) -> bool {
    is_name(name) && !["and", "in", "by", PI, ROOT].contains(&name)
}

/// The name that was probably meant by one that cannot be one.
fn meant(name: &str) -> Option<String> {
    let words = name.split(|next: char| !next.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let meant = words.collect::<Vec<_>>().join("_").to_ascii_lowercase();
    is_usable(&meant).then_some(meant)
}

/// What the parts of all forms have: words with holes, conditions, reasons.
impl Check<'_> {
    /// Words with holes.
    pub(crate) fn text(&mut self, text: &str, path: &Path) -> Template {
        let template = Template::of_text(text);
        self.holes(&template, path);
        template
    }

    /// A fault where words that belong to no draw have a hole.
    pub(crate) fn words_alone(&mut self, text: &str, path: &Path) {
        if let Some(hole) = Template::of_text(text).holes().next() {
            self.faults.push(path.fault(Code::RecipeLabelHole).with("found", hole));
        }
    }

    /// The words of a key `why`, where it is given.
    pub(crate) fn why(&mut self, why: Option<&str>, path: &Path) -> Option<Template> {
        why.map(|why| self.text(why, &path.key("why")))
    }

    /// When something is right: `None` within for never.
    pub(crate) fn right(&mut self, raw: &RawRight, path: &Path) -> Option<Option<Condition>> {
        match raw {
            RawRight::No => Some(None),
            RawRight::Yes => Some(Some(Condition::always())),
            RawRight::When(text) => self.condition(text, path).map(Some),
        }
    }

    /// Whether something is unsafe, which must be explained: whoever is told so wants to know what can happen.
    pub(crate) fn explained(&mut self, is_unsafe: bool, why: Option<&str>, path: &Path) -> bool {
        if is_unsafe && why.is_none_or(|why| why.trim().is_empty()) {
            self.faults.push(path.key("unsafe").fault(Code::RecipeUnsafeUnexplained));
        }
        is_unsafe
    }

    /// A fault where a list has too few entries or too many.
    pub(crate) fn size(&mut self, found: usize, size: RangeInclusive<usize>, code: Code, path: &Path) {
        if !size.contains(&found) {
            let fault = path.fault(code).with("found", found);
            self.faults.push(fault.with("least", size.start()).with("most", size.end()));
        }
    }
}
