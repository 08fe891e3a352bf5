//! The worked example of a relation: what its source says must come out.

use faults::Code;
use relief::{Argument, Kind, Manner, Quantity, Relation, Rounding, System};

use super::raw::RawCheck;
use crate::DecimalMark;
use crate::display::{WORKING_FIGURES, to_figures};
use crate::formula::literal;
use crate::recipe::RecipeFault;
use crate::recipe::checking::Path;

/// Works the example, in the form of the system that its units belong to.
#[must_use]
pub fn check(relation: &'static Relation, raw: &RawCheck) -> Vec<RecipeFault> {
    let path = Path::default().key("check");
    worked(relation, raw, &path).err().into_iter().collect()
}

fn worked(relation: &'static Relation, raw: &RawCheck, path: &Path) -> Result<(), RecipeFault> {
    let mut units = Vec::new();
    let mut given = Vec::new();
    for (name, text) in &raw.given.0 {
        let path = path.key("given").key(name);
        let (_, input) = relation.input(name).ok_or_else(|| {
            let known = relation.inputs.iter().map(|input| input.name);
            path.fault(Code::RelationCheckInput)
                .with("found", name)
                .near(name, known.clone())
                .known(known.collect::<Vec<_>>().join(", "))
        })?;
        let value = measured(text, input.kind().unwrap_or(Kind::Number), &mut units, &path)?;
        given.push((name.as_str(), Argument::Quantity(value)));
    }
    let expected = measured(&raw.gives, relation.kind(), &mut units, &path.key("gives"))?;
    let within = path.key("within");
    let (share, ..) =
        literal(&raw.within).filter(|(.., unit)| unit.is_some_and(|unit| unit.symbol == "%")).ok_or_else(|| {
            within
                .fault(Code::RelationCheckValue)
                .with("found", &raw.within)
                .with("kind", Kind::Ratio.id())
                .with("unit", "%")
        })?;
    let system = System::of_units(units).unwrap_or(System::Si);
    let outputs = relation.evaluate_in(&given, Manner::unrounded(system));
    let found = outputs
        .map_err(|error| path.key("given").fault(Code::RelationCheckRefused).with("reason", error.id()))?
        .first();
    if (found.si - expected.si).abs() <= share.to_f64() / 100.0 * expected.si.abs() {
        return Ok(());
    }
    let unit = literal(&raw.gives).and_then(|(.., unit)| unit);
    let shown = to_figures(found, unit, WORKING_FIGURES, Rounding::Nearest, DecimalMark::Point);
    let off = if expected.si.abs() > 0.0 { (found.si / expected.si - 1.0) * 100.0 } else { f64::INFINITY };
    let fault = path.key("gives").fault(Code::RelationCheckWrong).with("found", shown).with("expected", &raw.gives);
    Err(fault.with("off", format!("{off:+.2}")).with("within", &raw.within))
}

fn measured(text: &str, kind: Kind, units: &mut Vec<Option<System>>, path: &Path) -> Result<Quantity, RecipeFault> {
    let unit_of = relief::units::for_kind(kind).next().map_or("", |unit| unit.symbol);
    let fault =
        || path.fault(Code::RelationCheckValue).with("found", text).with("kind", kind.id()).with("unit", unit_of);
    match literal(text).ok_or_else(fault)? {
        (value, _, None) if kind.is_pure() => Ok(Quantity::new(value.to_f64(), kind)),
        (value, _, Some(unit)) if unit.measures(kind) => {
            units.push(unit.system);
            Ok(unit.quantity(value.to_f64(), kind))
        }
        _ => Err(fault()),
    }
}
