//! The unit table, with its exact factors, and how a unit is found in it.

mod spelling;
mod table;
mod unit;

pub use table::UNITS;
pub use unit::Unit;

use std::sync::LazyLock;

use crate::kind::Kind;
use spelling::{in_one_spelling, plain};

/// The unit with this symbol or name, however people write it: `in²`, `in^2`, `sq in`, `square inches`, `PSI`.
#[must_use]
pub fn find(text: &str) -> Option<&'static Unit> {
    // Most texts are symbols as they are printed, and need no closer look.
    of_symbol(text).or_else(|| of_spelling(&plain(text)))
}

fn of_spelling(text: &str) -> Option<&'static Unit> {
    let lower = text.to_ascii_lowercase();
    let singular = lower.strip_suffix('s').unwrap_or(&lower);
    let by_name = || {
        UNITS.iter().find(|unit| {
            unit.names.iter().any(|name| *name == lower || *name == singular)
                || same_but_for_case(unit, text, &lower)
                || unit.symbol.len() > 1 && same_but_for_case(unit, text, singular)
        })
    };
    of_symbol(text).or_else(by_name).or_else(|| {
        // Two capitals: mega of something, or a thousand thousands, but no millimetre.
        let words = if text.starts_with("MM") { String::new() } else { in_one_spelling(&lower) };
        IN_ONE_SPELLING.iter().find(|(name, _)| *name == words).map(|(_, unit)| *unit)
    })
}

/// The unit with just this symbol.
pub(crate) fn of_symbol(symbol: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|unit| unit.symbol == symbol)
}

/// The names of all units in one spelling, and the symbols that are made of others. Plain symbols are left out, since
/// their capitals matter.
static IN_ONE_SPELLING: LazyLock<Vec<(String, &'static Unit)>> = LazyLock::new(|| {
    let compound = |unit: &&Unit| unit.symbol.contains('/');
    let symbols = UNITS.iter().filter(compound).map(|unit| (&unit.symbol, unit));
    let names = UNITS.iter().flat_map(|unit| unit.names.iter().map(move |name| (name, unit)));
    symbols.chain(names).map(|(name, unit)| (in_one_spelling(&name.to_ascii_lowercase()), unit)).collect()
});

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

/// The unit that `text` begins with, in any of its spellings, and its length. Where nothing stands `apart` it from the
/// number before it, a short word is no unit unless it is a symbol: a choice may begin with a digit, as `100F` does.
#[must_use]
pub fn beginning(text: &str, apart: bool) -> Option<(&'static Unit, usize)> {
    let apart = apart || !text.starts_with(|first: char| first.is_ascii_alphabetic());
    let ends = ends(text).filter(|end| apart || *end >= SHORTEST_WORD);
    let spelled = ends.filter_map(|end| find(&text[..end]).map(|unit| (unit, end))).next();
    spelled.or_else(|| longest_symbol(text).map(|unit| (unit, unit.symbol.len())))
}

/// The fewest letters of a word that is taken for a unit right after a number.
const SHORTEST_WORD: usize = 3;

/// The longest spelling of a unit that is looked for, in bytes.
const LONGEST_SPELLING: usize = 48;

/// Where a unit at the start of a text may end, the last place first: at the end of a word or of a sign. A `/` between
/// spaces divides.
fn ends(text: &str) -> impl Iterator<Item = usize> {
    let of_unit = |next: char| next.is_alphanumeric() || "°²³⁻%\"″'′/·-.#() ".contains(next);
    let divides = [" /", "/ "].iter().filter_map(|sign| text.find(sign)).min().unwrap_or(text.len());
    let signs = text.find(|next| !of_unit(next)).unwrap_or(text.len());
    let most = text.floor_char_boundary(divides.min(signs).min(LONGEST_SPELLING));
    let is_end = move |end: &usize| {
        let within = |next: char| next.is_alphanumeric() || next == '_';
        let (before, after) = text.split_at(*end);
        !(before.ends_with(' ') || before.ends_with(within) && after.starts_with(within))
    };
    (1..=most).rev().filter(|end| text.is_char_boundary(*end)).filter(is_end)
}

fn continues_word(symbol: &str, rest: &str) -> bool {
    symbol != "%" && rest.starts_with(|next: char| next.is_alphanumeric() || next == '_')
}

/// A capital M is mega and a small m is milli: `Mbar` is not taken for `mbar`, while `mpa` can only mean `MPa`.
fn same_but_for_case(unit: &Unit, text: &str, lower: &str) -> bool {
    unit.symbol.eq_ignore_ascii_case(lower) && !(text.starts_with('M') && unit.symbol.starts_with('m'))
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
        for kind in Kind::NAMED.into_iter().filter(|kind| *kind != Kind::Number) {
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

    #[test]
    fn a_formula_has_units_in_every_spelling() {
        let read = |text| beginning(text, true).map(|(unit, length)| (unit.symbol, &text[length..]));
        for (text, symbol, rest) in [
            ("°F", "degF", ""),
            ("in² * 2", "in2", " * 2"),
            ("m³/h by", "m3/h", " by"),
            ("PSIG - set", "psig", " - set"),
            ("psi gauge and x", "psig", " and x"),
            ("square inches)", "in2", ")"),
            ("lb / h", "lbf", " / h"),
            ("in / 24", "in", " / 24"),
            ("degF difference", "degF difference", ""),
            ("turns + 1", "turn", " + 1"),
        ] {
            assert_eq!(read(text), Some((symbol, rest)), "{text}");
        }
        assert_eq!(read("furlong"), None);
        assert_eq!(beginning("F", false), None);
        assert_eq!(beginning("PSIG", false).map(|(unit, _)| unit.symbol), Some("psig"));
    }
}
