//! From a relation as it is written to one that formulas call; all its faults are collected.

use faults::Code;
use relief::{Kind, MOST_INPUTS, Relation, Status};
use sha2::{Digest, Sha256};

use super::compiled::{Line, Own, OwnInput, OwnOutput, Texts};
use super::latex::latex;
use super::raw::{RawInput, RawRelation, RawResult};
use crate::formula::{Formula, NameKind, Names, Node, PI, ROOT, literal};
use crate::recipe::checking::{Checked, Path};
use crate::recipe::written::RawPair;
use crate::recipe::{Pair, RecipeFault, UnitRef};
use crate::template::is_name;

/// What a compiler of relations needs of whoever reads the course.
pub trait Author {
    /// Whether a symbol in LaTeX can be printed.
    fn is_symbol(&self, latex: &str) -> bool;
}

/// Checks and compiles a relation, which may call those of the core and `others` of the course.
///
/// # Errors
/// Every fault that was found, with the path to its place.
pub fn compile(
    raw: &RawRelation,
    others: &[&'static Relation],
    author: &dyn Author,
) -> Result<&'static Relation, Vec<RecipeFault>> {
    let mut check = Check { author, names: Names::with(others), faults: Vec::new() };
    let root = Path::default();
    let inputs = check.inputs(raw, &root.key("inputs"));
    let output = check.result(raw, &root.key("result"));
    let status = Status::find(&raw.status);
    if status.is_none() {
        let known = Status::ALL.map(Status::id).join(", ");
        check.faults.push(root.key("status").fault(Code::RelationStatus).with("found", &raw.status).known(known));
    }
    check.symbols(raw, &root.key("symbols"));
    let forms = match (raw.formulas.is_some(), raw.forms.is_some()) {
        // What a formula cannot find because an input has a fault of its own is not another fault.
        (true, false) | (false, true) if inputs.is_none() => None,
        (true, false) | (false, true) => check.forms(raw, output.as_ref()),
        _ => {
            check.faults.push(root.key("formulas").fault(Code::RelationFormulas));
            None
        }
    };
    check.unused(raw, &root.key("inputs"));
    let (Some(inputs), Some(output), Some(forms), true) = (inputs, output, forms, check.faults.is_empty()) else {
        return Err(check.faults);
    };
    let texts = texts(raw, status, &forms);
    let mut own = Own { key: String::new(), id: raw.id.clone(), inputs, output, forms };
    own.key = key(&own, &texts);
    Ok(own.put_down(texts))
}

/// The id and a digest of all that was written.
fn key(own: &Own, texts: &Texts) -> String {
    let digest = Sha256::digest(format!("{own:?}{texts:?}").as_bytes());
    let hex = digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect::<String>();
    format!("{}@{hex}", own.id)
}

fn texts(raw: &RawRelation, status: Option<Status>, forms: &[Vec<Line>]) -> Texts {
    let symbol = |name: &str| {
        let given = raw.symbols.0.iter().find(|(known, _)| known == name).map(|(_, symbol)| symbol.clone());
        given.unwrap_or_else(|| format!(r"\text{{{}}}", name.replace('_', " ")))
    };
    let mut steps: Vec<(String, String)> = Vec::new();
    for (line, rest) in forms.iter().flat_map(|lines| lines.iter().zip((0..lines.len()).rev())) {
        if rest > 0 && !steps.iter().any(|(known, _)| *known == line.name) {
            steps.push((line.name.clone(), symbol(&line.name)));
        }
    }
    let law = |lines: Option<&Vec<Line>>| law(lines.map_or(&[], Vec::as_slice), &symbol);
    Texts {
        inputs: raw.inputs.0.iter().map(|(_, input)| input.symbol.clone()).collect(),
        output: raw.result.symbol.clone(),
        steps,
        laws: [law(forms.first()), law(forms.last())],
        source: raw.source.clone(),
        status,
    }
}

/// The formulas under one another; what comes on the way has its symbol on the left and is put in by its name.
fn law(lines: &[Line], symbol: &dyn Fn(&str) -> String) -> String {
    let Some((last, before)) = lines.split_last() else { return String::new() };
    let result = format!("#{} = {}", last.name, latex(&last.formula));
    if before.is_empty() {
        return result;
    }
    let line = |line: &Line| format!("{{{}}} &= {} ", symbol(&line.name), latex(&line.formula));
    let before = before.iter().map(line).collect::<Vec<_>>().join(r"\\ ");
    format!(r"\begin{{aligned}} {before}\\ #{} &= {} \end{{aligned}}", last.name, latex(&last.formula))
}

struct Check<'a> {
    author: &'a dyn Author,
    names: Names,
    faults: Vec<RecipeFault>,
}

impl Check<'_> {
    fn keep<T>(&mut self, result: Checked<T>) -> Option<T> {
        result.map_err(|faults| self.faults.extend(faults)).ok()
    }

    fn inputs(&mut self, raw: &RawRelation, path: &Path) -> Option<Vec<OwnInput>> {
        let found = raw.inputs.0.len();
        if found == 0 || found > MOST_INPUTS {
            self.faults.push(path.fault(Code::RelationInputs).with("found", found).with("most", MOST_INPUTS));
        }
        let inputs: Vec<_> =
            raw.inputs.0.iter().map(|(name, input)| self.input(name, input, &path.key(name))).collect();
        inputs.into_iter().collect()
    }

    fn input(&mut self, name: &str, raw: &RawInput, path: &Path) -> Option<OwnInput> {
        self.symbol(&raw.symbol, &path.key("symbol"));
        let kind = self.keep(kind(&raw.kind, &path.key("kind")))?;
        self.name(name, kind, path);
        let (low, high) = self.keep(range(&raw.range, kind, &path.key("range")))?;
        Some(OwnInput { name: name.to_owned(), kind, low, high })
    }

    fn result(&mut self, raw: &RawRelation, path: &Path) -> Option<OwnOutput> {
        let RawResult { symbol, kind: kind_of, unit, safe_side, .. } = &raw.result;
        self.symbol(symbol, &path.key("symbol"));
        let safe = match safe_side.as_deref() {
            None => 0,
            Some("up") => 1,
            Some("down") => 2,
            Some(found) => {
                let fault = path.key("safe_side").fault(Code::RelationSafeSide).with("found", found);
                self.faults.push(fault.known("up, down"));
                0
            }
        };
        let kind = self.keep(kind(kind_of, &path.key("kind")))?;
        let unit = self.keep(units(unit.as_ref(), kind, &path.key("unit")))?;
        let name = raw.lists().last().and_then(|(_, list)| list.0.last()).map(|(name, _)| name.clone())?;
        Some(OwnOutput { name, kind, unit, safe })
    }

    fn symbols(&mut self, raw: &RawRelation, path: &Path) {
        raw.symbols.0.iter().for_each(|(name, symbol)| self.symbol(symbol, &path.key(name)));
    }

    /// A fault where a symbol is none: it must be printable, and leave the places of values alone.
    fn symbol(&mut self, symbol: &str, path: &Path) {
        if symbol.trim().is_empty() || symbol.contains('#') || symbol.contains(r"\,") || !self.author.is_symbol(symbol)
        {
            self.faults.push(path.fault(Code::RelationSymbol).with("found", symbol));
        }
    }

    fn name(&mut self, name: &str, kind: Kind, path: &Path) {
        if !is_name(name) || ["and", "in", "by", PI, ROOT].contains(&name) {
            self.faults.push(path.fault(Code::RecipeName).with("found", name));
        } else if self.names.iter().any(|(known, _)| known == name) {
            self.faults.push(path.fault(Code::RecipeRepeatedName).with("found", name));
        }
        self.names.push((name.to_owned(), NameKind::Quantity(kind)));
    }

    fn forms(&mut self, raw: &RawRelation, output: Option<&OwnOutput>) -> Option<Vec<Vec<Line>>> {
        let inputs = self.names.len();
        let mut forms = Vec::new();
        for (keys, list) in raw.lists() {
            let path = keys.into_iter().fold(Path::default(), |path, key| path.key(key));
            self.names.truncate(inputs);
            if list.0.is_empty() {
                self.faults.push(path.fault(Code::RelationFormulas));
            }
            let last = list.0.len().saturating_sub(1);
            let mut lines = Vec::new();
            for (place, (name, text)) in list.0.iter().enumerate() {
                let path = path.key(name);
                let expected = output.filter(|_| place == last).map(|output| output.kind);
                let read = Formula::read(text, &self.names, expected)
                    .map_err(|faults| faults.into_iter().map(|fault| path.formula(fault)).collect());
                let formula = self.keep(read)?;
                self.name(name, formula.kind(), &path);
                lines.push(Line { name: name.clone(), formula: formula.into_node() });
            }
            if output.is_some_and(|output| lines.last().is_some_and(|line| line.name != output.name)) {
                self.faults.push(path.fault(Code::RelationFormulas));
            }
            forms.push(lines);
        }
        Some(forms)
    }

    /// A fault for each input that no formula uses.
    fn unused(&mut self, raw: &RawRelation, path: &Path) {
        let word = |next: char| !(next.is_ascii_alphanumeric() || next == '_');
        let used = |name: &str| {
            raw.lists()
                .iter()
                .any(|(_, list)| list.0.iter().any(|(_, text)| text.split(word).any(|piece| piece == name)))
        };
        for (name, _) in raw.inputs.0.iter().filter(|(name, _)| !used(name)) {
            self.faults.push(path.key(name).fault(Code::RelationInputUnused).with("found", name));
        }
    }
}

fn kind(id: &str, path: &Path) -> Checked<Kind> {
    let known = || Kind::NAMED.map(Kind::id).join(", ");
    let found = Kind::NAMED.into_iter().find(|kind| kind.id() == id);
    let fault = || path.fault(Code::RelationKind).with("found", id).near(id, Kind::NAMED.map(Kind::id)).known(known());
    found.ok_or_else(|| vec![fault()])
}

/// The two ends of a range, with a unit of the kind at each.
fn range(text: &str, kind: Kind, path: &Path) -> Checked<(Node, Node)> {
    let end = |text: &str| {
        let (value, _, unit) = literal(text)?;
        match unit {
            Some(unit) => unit
                .measures(kind)
                .then_some((unit.quantity(value.to_f64(), kind).si, Node::Quantity { value, unit, kind })),
            None => kind.is_pure().then_some((value.to_f64(), Node::Number(value))),
        }
    };
    let ends = text.split_once("..").and_then(|(low, high)| Some((end(low)?, end(high)?)));
    match ends {
        Some(((low, low_node), (high, high_node))) if low < high => Ok((low_node, high_node)),
        _ => Err(vec![
            path.fault(Code::RelationRange).with("found", text).with("kind", kind.id()).with("unit", usual(kind)),
        ]),
    }
}

fn usual(kind: Kind) -> &'static str {
    relief::units::for_kind(kind).next().map_or("", |unit| unit.symbol)
}

/// The units of the result.
fn units(raw: Option<&RawPair>, kind: Kind, path: &Path) -> Checked<Pair<UnitRef>> {
    let Some(raw) = raw else {
        return match kind {
            Kind::Number | Kind::Ratio => Ok(Pair { us: UnitRef(None), si: UnitRef(None) }),
            _ => Err(vec![path.fault(Code::RelationResultUnit).with("kind", kind.id()).with("unit", usual(kind))]),
        };
    };
    let one = |text: &str, path: &Path| {
        let unit = relief::units::find(text).filter(|unit| unit.measures(kind));
        let fault = || path.fault(Code::RelationResultUnit).with("kind", kind.id()).with("unit", usual(kind));
        unit.map(|unit| UnitRef(Some(unit))).ok_or_else(|| vec![fault()])
    };
    Ok(Pair { us: one(&raw.us, &path.key("us"))?, si: one(&raw.si, &path.key("si"))? })
}
