//! What people type by habit where a course is written differently: the sign or word is known, so the fault can say what to
//! write instead of what is wrong. Each habit has its sentence under `faults.habits`.

use std::collections::BTreeMap;

use faults::Code;
use problems::formula::literal;
use problems::template::is_name;
use relief::units;

use crate::fault::{Fault, Place};
use faults::nearest;

/// Keys by names that they had once, with the names that they have.
const RENAMED: [(&str, &str); 9] = [
    ("believable", "usual_range"),
    ("draw", "show"),
    ("not", "confused_with"),
    ("otherwise", "any_other_part"),
    ("plausible", "must_hold"),
    ("say", "text"),
    ("shown_to", "rounded_to"),
    ("site", "course_id"),
    ("spare", "extra"),
];

/// Adds to each fault that a habit causes the hint for it.
pub(crate) fn add(faults: &mut [Fault], sources: &BTreeMap<String, String>) {
    for fault in faults {
        let around = sources.get(&fault.place.file).and_then(|text| Around::new(text, &fault.place));
        if let Some((habit, values)) = habit(fault, around.as_ref()) {
            fault.values.retain(|(name, _)| *name != "nearest" && !values.iter().any(|(other, _)| other == name));
            fault.values.push(("habit", habit.to_owned()));
            fault.values.extend(values);
        }
    }
}

/// A habit and what its sentence needs to know.
type Habit = Option<(&'static str, Vec<(&'static str, String)>)>;

/// What is marked, with the text before and after it in its line, the line above that and all that is below.
struct Around<'t> {
    above: &'t str,
    before: &'t str,
    marked: &'t str,
    after: &'t str,
    below: &'t str,
}

impl<'t> Around<'t> {
    fn new(text: &'t str, place: &Place) -> Option<Self> {
        let (before, marked, after) =
            (text.get(..place.span.start)?, text.get(place.span.clone())?, text.get(place.span.end..)?);
        let mut upwards = before.rsplit('\n');
        Some(Self {
            before: upwards.next().unwrap_or_default(),
            above: upwards.next().unwrap_or_default(),
            marked,
            after: after.lines().next().unwrap_or_default(),
            below: after,
        })
    }
}

fn habit(fault: &Fault, around: Option<&Around>) -> Habit {
    let place = &fault.place;
    let found = fault.raw("found").unwrap_or_default();
    let marked = around.map_or(found, |around| around.marked);
    match fault.code {
        Code::CourseUnportableName => name(&place.file),
        Code::FormulaCharacter => character(found),
        Code::FormulaSyntax => around.and_then(syntax),
        Code::FormulaArgumentName => {
            let equals = around.is_some_and(|around| around.after.trim_start().starts_with('='));
            equals.then(|| ("colon", vec![("found", found.to_owned())]))
        }
        Code::HeadingNotHere if place.file.contains("/recipes/") => {
            Some(("second_level", vec![("title", marked.trim_start_matches('#').trim().to_owned())]))
        }
        Code::YamlUnknownKey => renamed(fault.raw("key").unwrap_or_default()).or_else(|| other_name(fault)),
        Code::YamlWrongShape if fault.raw("expected") == Some("mapping") => {
            around.and_then(block_key).or_else(|| no_colon(marked))
        }
        Code::YamlWrongShape if fault.raw("expected") == Some("number") => plain_number(marked),
        Code::FrontMatterMissing => around.and_then(dashes),
        Code::CourseUnexpectedFolder => own_folder(&place.file),
        Code::RecipeRange => comma(marked).or_else(|| range(marked)),
        Code::RecipeUsualRange
        | Code::RecipeGrid
        | Code::RecipeWithin
        | Code::RecipeRoundStep
        | Code::ScenarioValue
        | Code::RecipeChooseUnreadable
        | Code::FigureParameterUnreadable => comma(marked),
        _ => None,
    }
}

/// A key that has another name now.
fn renamed(key: &str) -> Habit {
    let (old, new) = RENAMED.into_iter().find(|(old, _)| *old == key)?;
    Some(("renamed", vec![("old", old.to_owned()), ("new", new.to_owned())]))
}

/// A key by another word for the same thing.
fn other_name(fault: &Fault) -> Habit {
    let key = fault.raw("key")?.to_ascii_lowercase();
    let (_, new) = OTHER_NAMES.into_iter().find(|(other, _)| *other == key)?;
    let known = fault.raw("known").is_some_and(|known| known.split(", ").any(|name| name == new));
    known.then(|| ("other_name", vec![("new", new.to_owned())]))
}

/// Other words that people use for keys.
const OTHER_NAMES: [(&str, &str); 7] = [
    ("tolerance", "within"),
    ("accuracy", "within"),
    ("units", "unit"),
    ("formula", "answer"),
    ("difficulty", "level"),
    ("name", "title"),
    ("language", "languages"),
];

/// What one of our blocks names, without the key for it.
fn block_key(around: &Around) -> Habit {
    let block = around.above.trim().trim_start_matches(['`', '~']);
    let keys = [("practice", "recipe"), ("work", "relation"), ("figure", "show")];
    let (_, key) = keys.into_iter().find(|(name, _)| *name == block)?;
    let found = around.marked.trim();
    is_name(found).then(|| ("block_key", vec![("key", key.to_owned()), ("value", found.to_owned())]))
}

/// A whole number in quotation marks.
fn plain_number(marked: &str) -> Habit {
    let number = marked.trim_matches(['"', '\'']);
    (number != marked && number.parse::<u32>().is_ok()).then(|| ("plain_number", vec![("number", number.to_owned())]))
}

/// Front matter that does not begin with three plain dashes on the first line.
fn dashes(around: &Around) -> Habit {
    let first = around.marked.trim();
    if !first.is_empty() && first.chars().all(|next| ['-', '–', '—', '−'].contains(&next)) {
        return Some(("dashes", Vec::new()));
    }
    let rest = around.below.trim_start();
    (first.is_empty() && rest.starts_with("---")).then(|| ("above_dashes", Vec::new()))
}

/// A folder within one that holds files alone.
fn own_folder(file: &str) -> Habit {
    let (folder, _) = file.rsplit_once('/').filter(|(folder, _)| folder.contains('/'))?;
    Some(("own_folder", vec![("folder", folder.to_owned())]))
}

/// A file that another program left, or a copy of one.
fn name(file: &str) -> Habit {
    let name = file.rsplit('/').next().unwrap_or(file);
    let lock = ["~$", ".~", "~"].iter().any(|start| name.starts_with(start)) || name.ends_with('~');
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let numbered = stem
        .strip_suffix(')')
        .and_then(|stem| stem.rsplit_once(" ("))
        .is_some_and(|(_, number)| number.parse::<u32>().is_ok());
    if lock {
        Some(("lock_file", Vec::new()))
    } else if numbered || stem.ends_with(" - Copy") || stem.starts_with("Copy of ") {
        Some(("copy", Vec::new()))
    } else {
        None
    }
}

/// A sign that a word processor puts in the place of another, or one that nobody sees.
fn character(found: &str) -> Habit {
    let sign = found.chars().next()?;
    let habit = match sign {
        '“' | '”' | '„' | '‘' | '’' => "plain_quotes",
        '–' | '—' => "plain_minus",
        _ if sign.is_control() || !sign.is_ascii() && !sign.is_alphanumeric() && is_unseen(sign) => {
            return Some(("unseen", vec![("found", format!("U+{:04X}", u32::from(sign)))]));
        }
        _ => return None,
    };
    Some((habit, Vec::new()))
}

/// Characters without width, and the marks of direction.
fn is_unseen(sign: char) -> bool {
    matches!(sign, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// A formula that breaks off at a sign of another notation.
fn syntax(around: &Around) -> Habit {
    let digit = |next: Option<char>| next.is_some_and(|next| next.is_ascii_digit());
    let habit = match around.marked {
        "x" | "X" => "times",
        "," if digit(around.before.chars().next_back()) && digit(around.after.chars().next()) => "decimal_point",
        ">" if around.before.ends_with('=') => "at_least",
        "<" if around.before.ends_with('=') => "at_most",
        "=" if around.before.ends_with('=') => "one_equals",
        "=" if around.before.trim_end().ends_with(['"', '\'', ':', '{']) => "no_equals",
        "" if around.before.trim_end().ends_with("yes") => "yes",
        _ => return None,
    };
    Some((habit, Vec::new()))
}

/// A key and its value without the colon between them.
fn no_colon(text: &str) -> Habit {
    let (key, value) = text.split_once(' ').filter(|(key, _)| is_name(key))?;
    Some(("no_colon", vec![("key", key.to_owned()), ("value", value.trim().to_owned())]))
}

/// A comma before the decimals.
fn comma(text: &str) -> Habit {
    let bytes = text.as_bytes();
    let decimal = |at: usize| bytes[at] == b',' && bytes[at - 1].is_ascii_digit() && bytes[at + 1].is_ascii_digit();
    let found = (1..bytes.len().saturating_sub(1)).any(decimal);
    found.then(|| ("decimal_point", Vec::new()))
}

/// What is missing in a range, or written otherwise.
fn range(text: &str) -> Habit {
    let text = text.trim_matches(['"', '\'']);
    let unknown = |word: &&str| {
        let letters = word.chars().all(|next| next.is_alphabetic() || next == '/');
        letters && !word.is_empty() && !["by", "to"].contains(word) && units::find(word).is_none()
    };
    if !text.contains("..") {
        let other = OTHER_RANGES.iter().any(|sign| text.contains(sign));
        let plain = || plain_range(text).map(|range| ("range_written", vec![("range", range)]));
        return other.then(|| plain().unwrap_or_else(|| ("two_points", Vec::new())));
    }
    if let Some(word) = text.split_whitespace().find(unknown) {
        // Of two as near, the one that is in the range already.
        let here = text.split_whitespace().filter(|other| units::find(other).is_some());
        let near = nearest(word, here.chain(units::UNITS.iter().map(|unit| unit.symbol)));
        let found = vec![("word", word.to_owned())];
        return Some(match near {
            Some(near) => ("unit_near", found.into_iter().chain([("near", near.to_owned())]).collect()),
            None => ("unit", found),
        });
    }
    let (_, end) = text.split_once("..").filter(|_| !text.contains(" by "))?;
    let unit = literal(end).and_then(|(_, _, unit)| unit).map_or("", |unit| unit.symbol);
    // The step of a gauge pressure is a difference.
    let step = unit.strip_suffix('g').filter(|bare| units::find(bare).is_some()).unwrap_or(unit);
    Some(("step", vec![("range", text.to_owned()), ("unit", step.to_owned())]))
}

/// What people write between the ends of a range.
const OTHER_RANGES: [&str; 5] = ["…", "–", "—", " - ", " to "];

/// A range in another notation as it is written here, where that can be read.
fn plain_range(text: &str) -> Option<String> {
    let sign = OTHER_RANGES.iter().find(|sign| text.contains(**sign))?;
    let (start, rest) = text.split_once(sign)?;
    let (end, step) = [" by ", " step ", " in steps of "].iter().find_map(|word| rest.split_once(word))?;
    let parts = [start, end, step].map(str::trim);
    let all_have_units = parts.iter().all(|part| literal(part).is_some_and(|(_, _, unit)| unit.is_some()));
    let [start, end, step] = parts;
    all_have_units.then(|| format!("{start} .. {end} by {step}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(habit: Habit) -> Option<&'static str> {
        habit.map(|(name, _)| name)
    }

    #[test]
    fn ranges_in_other_notations_are_known() {
        for (text, habit) in [
            ("40 psig .. 90 psgi by 5 psi", Some("unit_near")),
            ("40 psig .. 90 smoots by 5 psi", Some("unit")),
            ("40 psig … 90 psig by 5 psi", Some("range_written")),
            ("3 - 6 barg by 0.5 bar", Some("two_points")),
            ("40 psig to 90 psig step 2 psi", Some("range_written")),
            ("40 psig .. 90 psig", Some("step")),
            ("40 psig .. 90 psig by 5 psi", None),
        ] {
            assert_eq!(of(range(text)), habit, "{text}");
        }
        assert_eq!(of(comma("\"0,5 psig\"")), Some("decimal_point"));
        assert_eq!(of(comma("first, second")), None);
    }

    #[test]
    fn signs_of_word_processors_are_known() {
        for (found, habit) in
            [("“", Some("plain_quotes")), ("–", Some("plain_minus")), ("\u{200b}", Some("unseen")), ("§", None)]
        {
            assert_eq!(of(character(found)), habit, "{found}");
        }
    }

    #[test]
    fn what_other_programs_leave_is_known() {
        for (file, habit) in
            [("en/recipes/~$a.md", Some("lock_file")), ("en/recipes/a (1).md", Some("copy")), ("en/recipes/é.md", None)]
        {
            assert_eq!(of(name(file)), habit, "{file}");
        }
    }
}
