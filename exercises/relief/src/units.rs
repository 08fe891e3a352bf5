//! The unit table: one row a unit, with its exact factor to SI and where the factor comes from.

use std::sync::LazyLock;

use crate::factors::{ATMOSPHERE, BTU, CUBIC_FOOT, GALLON, INCH, KILOGRAM_FORCE, POUND, POUND_FORCE, SQUARE_INCH};
use crate::kind::Kind::{self, *};
use crate::quantity::Quantity;
use crate::system::System;
use crate::text;

/// One unit.
#[derive(Debug)]
pub struct Unit {
    /// The symbol, as it is printed.
    pub symbol: &'static str,
    /// Other ways of writing it, lower case, singular.
    pub names: &'static [&'static str],
    /// The kinds that a number in this unit may be of; the first is meant where the place does not say.
    pub kinds: &'static [Kind],
    /// The system that it belongs to; none where both use it.
    pub system: Option<System>,
    /// How many SI units make one: upper part of the exact factor.
    upper: f64,
    /// Lower part of the exact factor.
    lower: f64,
    /// What is added to a number in this unit before it is scaled: the zero of a temperature scale, in its own degrees.
    offset: f64,
    /// Where the factor comes from.
    pub source: &'static str,
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.symbol == other.symbol
    }
}

impl Unit {
    /// A quantity of `kind` from a number in this unit.
    #[must_use]
    pub fn quantity(&self, value: f64, kind: Kind) -> Quantity {
        Quantity::new((value + self.offset) * self.upper / self.lower, kind)
    }

    /// The number of a quantity in this unit. The kind is not looked at: ask [`Unit::measures`] first.
    #[must_use]
    pub fn value(&self, quantity: Quantity) -> f64 {
        quantity.si * self.lower / self.upper - self.offset
    }

    /// Whether a quantity of `kind` may be given in this unit.
    #[must_use]
    pub fn measures(&self, kind: Kind) -> bool {
        self.kinds.contains(&kind)
    }

    /// The kind that a number in this unit is of where its place does not say.
    #[must_use]
    pub fn usual_kind(&self) -> Kind {
        self.kinds[0]
    }

    /// How many SI units make one.
    #[must_use]
    pub fn factor(&self) -> f64 {
        self.upper / self.lower
    }

    /// Whether the symbol leaves open which kind of pressure is meant: `psi`, `bar`, `kPa`.
    #[must_use]
    pub fn is_bare_pressure(&self) -> bool {
        self.kinds.len() > 1 && self.usual_kind() == Difference
    }
}

const US: Option<System> = Some(System::Us);
const SI: Option<System> = Some(System::Si);

const BARE: &[Kind] = &[Difference, Gauge, Absolute, Stress];

const BY_DEFINITION: &str = text("SI Brochure, 9th edition: by definition");
const SP811: &str = text("NIST SP 811 (2008), Appendix B: from the exact pound, inch and standard gravity");

const fn row(
    symbol: &'static str,
    names: &'static [&'static str],
    kinds: &'static [Kind],
    system: Option<System>,
    factor: (f64, f64),
    source: &'static str,
) -> Unit {
    Unit { symbol, names, kinds, system, upper: factor.0, lower: factor.1, offset: 0.0, source }
}

/// A temperature scale: its zero is so many of its degrees above absolute zero.
const fn scale(unit: Unit, offset: f64) -> Unit {
    Unit { offset, ..unit }
}

/// Every unit. The order within a kind is the order of the menus.
#[rustfmt::skip]
pub const UNITS: &[Unit] = &[
    row("psi", &["pound per square inch", "pounds per square inch", "lb/in2", "lbf/in2", "#/in2"], BARE, US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("psig", &["psi gauge", "psi(g)", "psi g", "pound per square inch gauge", "pounds per square inch gauge"], &[Gauge], US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("psia", &["psi absolute", "psi abs", "psi(a)", "psi a", "pound per square inch absolute", "pounds per square inch absolute"], &[Absolute], US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("psid", &["psi difference", "psi differential", "psi(d)", "psi (d)", "psi d"], &[Difference], US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("bar", &[], BARE, SI, (1e5, 1.0), BY_DEFINITION),
    row("barg", &["bar gauge", "bar(g)", "bar g"], &[Gauge], SI, (1e5, 1.0), BY_DEFINITION),
    row("bara", &["bar absolute", "bar abs", "bar(a)", "bar a"], &[Absolute], SI, (1e5, 1.0), BY_DEFINITION),
    row("mbar", &["millibar"], BARE, SI, (1e2, 1.0), BY_DEFINITION),
    row("kPa", &["kilopascal"], BARE, SI, (1e3, 1.0), BY_DEFINITION),
    row("kPag", &["kpa gauge", "kpa(g)", "kpa g", "kilopascal gauge"], &[Gauge], SI, (1e3, 1.0), BY_DEFINITION),
    row("kPaa", &["kpa absolute", "kpa abs", "kpa(a)", "kpa a", "kilopascal absolute"], &[Absolute], SI, (1e3, 1.0), BY_DEFINITION),
    row("MPa", &["megapascal", "n/mm2"], BARE, SI, (1e6, 1.0), BY_DEFINITION),
    row("MPag", &["mpa gauge", "mpa(g)", "mpa g", "megapascal gauge"], &[Gauge], SI, (1e6, 1.0), BY_DEFINITION),
    row("Pa", &["pascal", "n/m2"], BARE, SI, (1.0, 1.0), BY_DEFINITION),
    row("GPa", &["gigapascal"], &[Stress], SI, (1e9, 1.0), BY_DEFINITION),
    row("Mpsi", &["million psi", "million pounds per square inch"], &[Stress], US, (POUND_FORCE * 1e6, SQUARE_INCH), SP811),
    row("kgf/cm2", &["kilogram-force per square centimetre", "kg/cm2", "kilopond per square centimetre"], BARE, SI, (KILOGRAM_FORCE, 1e-4), SP811),
    row("atm", &["atmosphere", "standard atmosphere"], &[Absolute, Difference, Gauge], None, (ATMOSPHERE, 1.0), BY_DEFINITION),

    row("in", &["inch", "inches", "\"", "''"], &[Length], US, (INCH, 1.0), SP811),
    row("ft", &["foot", "feet", "'"], &[Length], US, (0.3048, 1.0), SP811),
    row("mm", &["millimetre", "millimeter"], &[Length], SI, (1.0, 1e3), BY_DEFINITION),
    row("cm", &["centimetre", "centimeter"], &[Length], SI, (1.0, 1e2), BY_DEFINITION),
    row("m", &["metre", "meter"], &[Length], SI, (1.0, 1.0), BY_DEFINITION),

    row("in2", &["square inch"], &[Area], US, (SQUARE_INCH, 1.0), SP811),
    row("mm2", &["square millimetre", "square mm"], &[Area], SI, (1.0, 1e6), BY_DEFINITION),
    row("cm2", &["square centimetre", "square cm"], &[Area], SI, (1.0, 1e4), BY_DEFINITION),
    row("m2", &["square metre", "square m"], &[Area], SI, (1.0, 1.0), BY_DEFINITION),

    row("lbf", &["pound-force", "pound force", "pounds-force", "pounds force", "lb", "pound", "#"], &[Force], US, (POUND_FORCE, 1.0), SP811),
    row("N", &["newton"], &[Force], SI, (1.0, 1.0), BY_DEFINITION),
    row("kN", &["kilonewton"], &[Force], SI, (1e3, 1.0), BY_DEFINITION),
    row("kgf", &["kilogram-force", "kilogram force", "kilopond"], &[Force], SI, (KILOGRAM_FORCE, 1.0), SP811),

    row("lbf/in", &["lb/in", "pound-force per inch", "pounds-force per inch", "pound per inch", "pounds per inch", "#/in"], &[SpringRate], US, (POUND_FORCE, INCH), SP811),
    row("N/mm", &["newton per millimetre", "newtons per millimetre", "newton per millimeter", "newtons per millimeter"], &[SpringRate], SI, (1e3, 1.0), BY_DEFINITION),
    row("kN/m", &["kilonewton per metre", "kilonewtons per metre"], &[SpringRate], SI, (1e3, 1.0), BY_DEFINITION),
    row("N/m", &["newton per metre", "newtons per metre", "newton per meter", "newtons per meter"], &[SpringRate], SI, (1.0, 1.0), BY_DEFINITION),

    row("gpm", &["us gpm", "gal/min", "gal per min", "us gal/min", "gallon per minute", "gallons per minute", "us gallon per minute", "us gallons per minute"], &[VolumeFlow], US, (GALLON, 60.0), SP811),
    row("ft3/h", &["cfh", "cu ft/h", "cubic foot per hour", "cubic feet per hour"], &[VolumeFlow], US, (CUBIC_FOOT, 3600.0), SP811),
    row("L/min", &["lpm", "l per min", "litre per minute", "litres per minute", "liter per minute", "liters per minute"], &[VolumeFlow], SI, (1e-3, 60.0), BY_DEFINITION),
    row("m3/h", &["cubic metre per hour", "cubic metres per hour", "cubic meter per hour", "cubic meters per hour"], &[VolumeFlow], SI, (1.0, 3600.0), BY_DEFINITION),
    row("cm3/h", &["cc/h", "ml/h", "cubic centimetre per hour", "cubic centimetres per hour"], &[VolumeFlow], None, (1e-6, 3600.0), BY_DEFINITION),
    row("m3/s", &["cubic metre per second", "cubic metres per second"], &[VolumeFlow], SI, (1.0, 1.0), BY_DEFINITION),

    row("lb/h", &["lbm/h", "pph", "pound per hour", "pounds per hour"], &[MassFlow], US, (POUND, 3600.0), SP811),
    row("kg/h", &["kilogram per hour", "kilo per hour"], &[MassFlow], SI, (1.0, 3600.0), BY_DEFINITION),
    row("kg/s", &["kilogram per second", "kilograms per second"], &[MassFlow], SI, (1.0, 1.0), BY_DEFINITION),

    row("lb/ft3", &["lbm/ft3", "pound per cubic foot", "pounds per cubic foot"], &[Density], US, (POUND, CUBIC_FOOT), SP811),
    row("kg/m3", &["kilogram per cubic metre", "kilograms per cubic metre", "kilogram per cubic meter"], &[Density], SI, (1.0, 1.0), BY_DEFINITION),

    row("cP", &["centipoise", "mpa s", "mpa·s"], &[Viscosity], None, (1e-3, 1.0), SP811),
    row("Pa·s", &["pa s", "pascal second"], &[Viscosity], SI, (1.0, 1.0), BY_DEFINITION),
    row("cSt", &["centistokes", "mm2/s"], &[KinematicViscosity], None, (1e-6, 1.0), SP811),
    row("m2/s", &["square metre per second", "square metres per second"], &[KinematicViscosity], SI, (1.0, 1.0), BY_DEFINITION),

    scale(row("degF", &["°f", "f", "fahrenheit", "degree fahrenheit", "degree f"], &[Temperature], US, (5.0, 9.0), SP811), 459.67),
    row("degR", &["°r", "rankine", "degree rankine"], &[Temperature], US, (5.0, 9.0), SP811),
    scale(row("degC", &["°c", "c", "celsius", "degree celsius", "degree c", "centigrade", "degree centigrade"], &[Temperature], SI, (1.0, 1.0), BY_DEFINITION), 273.15),
    row("K", &["kelvin"], &[Temperature, TemperatureDifference], SI, (1.0, 1.0), BY_DEFINITION),
    row("degF difference", &["fahrenheit difference", "°f difference"], &[TemperatureDifference], US, (5.0, 9.0), SP811),

    row("lb/lbmol", &["lbm/lbmol", "pound per pound-mole"], &[MolarMass], US, (1e-3, 1.0), BY_DEFINITION),
    row("kg/kmol", &["g/mol", "gram per mole", "grams per mole"], &[MolarMass], SI, (1e-3, 1.0), BY_DEFINITION),

    row("Btu/h", &["btu per hour"], &[HeatFlow], US, (BTU, 3600.0), SP811),
    row("kW", &["kilowatt"], &[HeatFlow], SI, (1e3, 1.0), BY_DEFINITION),
    row("W", &["watt"], &[HeatFlow], SI, (1.0, 1.0), BY_DEFINITION),
    row("Btu/(lb degF)", &["btu/lb/f", "btu/(lb·°f)", "btu/(lb °f)", "btu/lb°f"], &[SpecificHeat], US, (BTU * 9.0, POUND * 5.0), SP811),
    row("kJ/(kg K)", &["kj/kg/k", "kj/(kg·k)"], &[SpecificHeat], SI, (1e3, 1.0), BY_DEFINITION),
    row("J/(kg K)", &["j/kg/k", "j/(kg·k)"], &[SpecificHeat], SI, (1.0, 1.0), BY_DEFINITION),
    row("1/degF", &["per fahrenheit", "1/°f", "/°f"], &[Expansion], US, (9.0, 5.0), SP811),
    row("1/K", &["per kelvin", "/k", "1/°c"], &[Expansion], SI, (1.0, 1.0), BY_DEFINITION),
    row("1/min", &["per minute", "/min", "min-1", "min⁻¹", "bubbles/min", "bubble per minute", "bubbles per minute"], &[CountRate], None, (1.0, 60.0), BY_DEFINITION),

    row("%", &["percent", "per cent", "pct"], &[Ratio], None, (1.0, 1e2), BY_DEFINITION),
    row("turn", &["rev", "revolution"], &[Turns], None, (1.0, 1.0), BY_DEFINITION),
];

/// The unit with this symbol or name, however people write it: `in²`, `in^2`, `sq in`, `square inches`, `PSI`.
#[must_use]
pub fn find(text: &str) -> Option<&'static Unit> {
    // Most texts are symbols as they are printed, and need no closer look.
    by_symbol(text).or_else(|| by_spelling(&plain(text)))
}

fn by_symbol(text: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|unit| unit.symbol == text)
}

fn by_spelling(text: &str) -> Option<&'static Unit> {
    let lower = text.to_ascii_lowercase();
    let singular = lower.strip_suffix('s').unwrap_or(&lower);
    let by_name = || {
        UNITS.iter().find(|unit| {
            unit.names.iter().any(|name| *name == lower || *name == singular)
                || same_but_for_case(unit, text, &lower)
                || unit.symbol.len() > 1 && same_but_for_case(unit, text, singular)
        })
    };
    by_symbol(text).or_else(by_name).or_else(|| {
        // Two capitals: mega of something, or a thousand thousands, but no millimetre.
        let words = if text.starts_with("MM") { String::new() } else { in_one_spelling(&lower) };
        IN_ONE_SPELLING.iter().find(|(name, _)| *name == words).map(|(_, unit)| *unit)
    })
}

/// The names of all units in one spelling, and the symbols that are made of others. (A plain symbol stands for what it
/// says by its capitals too.)
static IN_ONE_SPELLING: LazyLock<Vec<(String, &'static Unit)>> = LazyLock::new(|| {
    let compound = |unit: &&Unit| unit.symbol.contains('/');
    let symbols = UNITS.iter().filter(compound).map(|unit| (&unit.symbol, unit));
    let names = UNITS.iter().flat_map(|unit| unit.names.iter().map(move |name| (name, unit)));
    symbols.chain(names).map(|(name, unit)| (in_one_spelling(&name.to_ascii_lowercase()), unit)).collect()
});

/// Words by which the parts of units are cut short, in lower case, and the word in full.
const IN_FULL: &[(&str, &str)] = &[
    ("/", "per"),
    ("in", "inch"),
    ("in2", "square inch"),
    ("ins", "inch"),
    ("inches", "inch"),
    ("ft", "foot"),
    ("ft3", "cubic foot"),
    ("feet", "foot"),
    ("mm", "millimetre"),
    ("mm2", "square millimetre"),
    ("cm", "centimetre"),
    ("cm2", "square centimetre"),
    ("cm3", "cubic centimetre"),
    ("m", "metre"),
    ("m2", "square metre"),
    ("m3", "cubic metre"),
    ("sq", "square"),
    ("cu", "cubic"),
    ("sqin", "square inch"),
    ("sqmm", "square millimetre"),
    ("sqcm", "square centimetre"),
    ("cuft", "cubic foot"),
    ("#", "pound"),
    ("lb", "pound"),
    ("lbs", "pound"),
    ("lbm", "pound"),
    ("lbf", "pound-force"),
    ("pounds-force", "pound-force"),
    ("pounds-mass", "pound"),
    ("pound-mass", "pound"),
    ("kg", "kilogram"),
    ("kilo", "kilogram"),
    ("kgf", "kilogram-force"),
    ("n", "newton"),
    ("kn", "kilonewton"),
    ("pa", "pascal"),
    ("kpa", "kilopascal"),
    ("mpa", "megapascal"),
    ("l", "litre"),
    ("gal", "gallon"),
    ("min", "minute"),
    ("mins", "minute"),
    ("s", "second"),
    ("sec", "second"),
    ("h", "hour"),
    ("hr", "hour"),
    ("hrs", "hour"),
    ("deg", "degree"),
    ("°", "degree"),
    ("g", "gauge"),
    ("(g)", "gauge"),
    ("ga", "gauge"),
    ("gage", "gauge"),
    ("(gauge)", "gauge"),
    ("a", "absolute"),
    ("(a)", "absolute"),
    ("abs", "absolute"),
    ("(abs)", "absolute"),
    ("(absolute)", "absolute"),
];

/// A unit word by word in one spelling: British, in the singular, and written out where it is usually cut short.
fn in_one_spelling(name: &str) -> String {
    let full = |word: &str| {
        let known = IN_FULL.iter().find(|(short, _)| *short == word);
        let singular = word.strip_suffix('s').filter(|_| word.len() > 3 && !word.ends_with("ss") && word != "celsius");
        let word = known.map_or_else(|| singular.unwrap_or(word), |(_, word)| word);
        word.replace("meter", "metre").replace("liter", "litre")
    };
    let apart = name.replace('(', " (").replace('/', " / ");
    apart.split_whitespace().map(full).collect::<Vec<_>>().join(" ")
}

/// The units in which a quantity of `kind` may be given, in the order of the menus.
pub fn for_kind(kind: Kind) -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().filter(move |unit| unit.measures(kind))
}

/// The longest symbol that `text` starts with, where it is not followed by more of a word. Names are not looked at, so
/// that a formula stays readable by one rule.
#[must_use]
pub fn longest_symbol(text: &str) -> Option<&'static Unit> {
    UNITS
        .iter()
        .filter(|unit| text.strip_prefix(unit.symbol).is_some_and(|rest| !continues_word(unit.symbol, rest)))
        .max_by_key(|unit| unit.symbol.len())
}

fn continues_word(symbol: &str, rest: &str) -> bool {
    symbol != "%" && rest.starts_with(|next: char| next.is_alphanumeric() || next == '_')
}

/// A capital M is mega and a small m is milli: `Mbar` is not taken for `mbar`, while `mpa` can only mean `MPa`.
fn same_but_for_case(unit: &Unit, text: &str, lower: &str) -> bool {
    unit.symbol.eq_ignore_ascii_case(lower) && !(text.starts_with('M') && unit.symbol.starts_with('m'))
}

fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out.replace('.', "")
        .replace('²', "2")
        .replace('³', "3")
        .replace("^2", "2")
        .replace("^3", "3")
        .replace("° ", "°")
        .replace(['″', '”'], "\"")
        .replace(['′', '’'], "'")
        .replace("lbs/", "lb/")
        .replace("/hr", "/h")
        .replace(" / ", "/")
        .replace(" /", "/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn symbols_and_names_are_unique() {
        for (index, unit) in UNITS.iter().enumerate() {
            for other in &UNITS[index + 1..] {
                assert_ne!(unit.symbol, other.symbol);
                assert!(unit.names.iter().all(|name| !other.names.contains(name)), "{}", unit.symbol);
            }
        }
    }

    #[test]
    fn no_two_units_are_one_in_one_spelling() {
        for (one, unit) in IN_ONE_SPELLING.iter() {
            for (other, same) in IN_ONE_SPELLING.iter() {
                assert!(one != other || unit == same, "{one}: {} and {}", unit.symbol, same.symbol);
            }
        }
    }

    #[test]
    fn every_kind_with_a_name_has_a_unit() {
        for kind in Kind::NAMED.into_iter().filter(|kind| *kind != Number) {
            assert!(for_kind(kind).next().is_some(), "{kind:?}");
        }
    }

    #[test]
    fn a_symbol_is_in_plain_spelling_already() {
        assert!(UNITS.iter().all(|unit| plain(unit.symbol) == unit.symbol));
    }

    #[test]
    fn people_write_units_in_many_ways() {
        let same = [
            ("in²", "in2"),
            ("in^2", "in2"),
            ("sq. in.", "in2"),
            ("square inches", "in2"),
            ("PSI", "psi"),
            ("Psig", "psig"),
            ("psi gauge", "psig"),
            ("\"", "in"),
            ("inches", "in"),
            ("mpa", "MPa"),
            ("kpa", "kPa"),
            ("lb/in", "lbf/in"),
            ("turns", "turn"),
            ("per cent", "%"),
            ("newtons", "N"),
            ("kg/cm²", "kgf/cm2"),
        ];
        for (written, symbol) in same {
            assert_eq!(find(written).map(|unit| unit.symbol), Some(symbol), "{written}");
        }
        for unknown in ["", "Mbar", "MM", "furlong", "psi psi"] {
            assert_eq!(find(unknown).map(|unit| unit.symbol), None, "{unknown}");
        }
    }

    #[test]
    fn the_longest_symbol_wins() {
        assert_eq!(longest_symbol("psig * 2").map(|unit| unit.symbol), Some("psig"));
        assert_eq!(longest_symbol("lbf/in)").map(|unit| unit.symbol), Some("lbf/in"));
        assert_eq!(longest_symbol("in / 24").map(|unit| unit.symbol), Some("in"));
        assert_eq!(longest_symbol("%").map(|unit| unit.symbol), Some("%"));
        assert_eq!(longest_symbol("inlet"), None);
    }
}
