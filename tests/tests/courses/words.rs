//! Every sentence of the product is in `theme/words`, none is missing, and none is left that nothing says.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use course::Code;
use pages::Words;
use problems::mark::Verdict;
use problems::slips::Slip;
use relief::tables::Cell;
use relief::{Form, Gives, Kind, System};
use seatwork_tests::{families, top};

fn words() -> Words {
    Words::of("en").expect("words")
}

/// What a message of a fault is made of, the third part with a second form; then the reason of the rule, and why nothing
/// shows it, which the guide says.
const PARTS: [&str; 6] = ["title", "expected", "fix", "fix_nearest", "why", "no_case"];

/// Groups of words that messages of faults look up by value: `{kind:kinds}`.
const GROUPS: [&str; 6] =
    ["faults.labels", "faults.shapes", "faults.reasons", "faults.signs", "faults.systems", "faults.places"];

/// The same, for values that the sources of the reading name.
const NAMED: [&str; 5] = ["faults.forms", "faults.habits", "faults.pieces", "faults.pieces_as", "faults.files_of"];

#[test]
fn no_word_is_missing() {
    let words = words();
    let known: BTreeSet<&str> = words.all().map(|(key, _)| key).collect();
    let missing: Vec<_> = said().into_iter().filter(|key| !known.contains(key.as_str())).collect();
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn no_word_is_left_over() {
    let words = words();
    let said = said();
    let sources = text_of(&top().join("theme/scripts")) + &text_of(&top().join("theme/templates"));
    let spare: Vec<_> =
        words.all().map(|(key, _)| key).filter(|key| !said.contains(*key) && !perhaps(key, &sources)).collect();
    assert!(spare.is_empty(), "{spare:#?}");
}

/// Words that may be there and need not: variants of a verdict, second forms, traps, lists.
fn perhaps(key: &str, sources: &str) -> bool {
    let parts: Vec<&str> = key.split('.').collect();
    match parts.as_slice() {
        ["relations", id, "traps", _] => relief::find(id).is_some(),
        ["faults", code, part] => Code::find(code).is_some() && PARTS.contains(part) || in_group(key),
        ["live", "verdicts", name, "word" | "text"] => {
            let base = name.trim_end_matches("_bare").trim_end_matches("_option");
            verdicts().contains(&base) || sources.contains(&format!("verdicts.{name}"))
        }
        ["live", "faults", _] => true,
        _ => false,
    }
}

fn in_group(key: &str) -> bool {
    let under = |group: &&str| key.strip_prefix(*group).and_then(|rest| rest.strip_prefix('.'));
    let reading = || text_of(&top().join("generator/course/src")) + &text_of(&top().join("exercises/problems/src"));
    GROUPS.iter().any(|group| under(group).is_some())
        || NAMED.iter().find_map(under).is_some_and(|name| reading().contains(&format!("\"{name}\"")))
}

fn verdicts() -> Vec<&'static str> {
    let slip = Verdict::Slip(Slip::Sign);
    let all = [
        Verdict::Right,
        Verdict::WrongUnit,
        Verdict::Rounding,
        Verdict::Carried,
        Verdict::Partly,
        Verdict::WrongKind,
        Verdict::Mistake(String::new()),
        slip,
        Verdict::Unsafe,
        Verdict::Wrong,
        Verdict::WrongOption,
        Verdict::WrongChoices,
        Verdict::WrongSequence,
        Verdict::WrongPairs,
        Verdict::WrongPart,
        Verdict::WrongTruth,
        Verdict::WrongReason,
        Verdict::NoReading,
        Verdict::WasRead,
        Verdict::OtherReason,
        Verdict::Ambiguous,
        Verdict::Unreadable,
        Verdict::Blank,
    ];
    all.iter().map(Verdict::id).collect()
}

/// Every key that templates, scripts, the command and the registries ask for.
fn said() -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    keys_after(&text_of(&top().join("theme/templates")), "words.", |key| all.insert(format!("pages.{key}")));
    keys_after(&text_of(&top().join("theme/templates")), "{{ watch.", |key| all.insert(format!("watch.{key}")));
    keys_after(&text_of(&top().join("theme/scripts")), "say('", |key| all.insert(format!("live.{key}")));
    for source in ["generator/pages/src", "generator/seatwork/src", "generator/watch/src"] {
        let text = text_of(&top().join(source));
        for call in ["get(\"", "fill(\"", "fill(\n            \"", "\"pages.", "\"command.", "\"watch."] {
            let prefix = call.trim_start_matches('"').trim_start_matches("get(\"").trim_start_matches("fill(\"");
            keys_after(&text, call, |key| all.insert(format!("{}{key}", prefix.trim_start().trim_start_matches('"'))));
        }
    }
    let forms = text_of(&top().join("exercises/problems/src/forms"));
    keys_after(&forms, "\"round.", |key| all.insert(format!("live.round.{key}")));
    keys_after(&forms, "\"command.", |key| all.insert(format!("command.{key}")));
    all.retain(|key| key.contains('.') && !key.ends_with('.') && !is_section(key));
    all.extend(from_registries());
    all
}

/// Templates name whole groups too: `words.units | get(key=...)`.
fn is_section(key: &str) -> bool {
    let words = words();
    let inside = format!("{key}.");
    words.all().any(|(known, _)| known.starts_with(&inside))
}

fn from_registries() -> Vec<String> {
    let mut all = Vec::new();
    for relation in relief::relations() {
        all.extend(["title", "purpose", "words"].map(|part| format!("relations.{}.{part}", relation.id)));
        all.push(format!("relations.{}.traps.0", relation.id));
        all.extend(System::BOTH.map(|form| format!("status.{}", relation.forms.of(form).source.status.id())));
        for output in relation.outputs {
            all.push(format!("outputs.{}", output.name));
            if let Gives::Choice(names) = output.gives {
                all.extend(names.iter().map(|name| format!("choices.{name}")));
            }
        }
        for input in relation.inputs {
            all.push(format!("inputs.{}", input.name));
            if let Form::Choice(names) = &input.form {
                all.extend(names.iter().map(|name| format!("choices.{name}")));
            }
        }
    }
    all.extend(relief::FAMILIES.iter().map(|family| format!("families.{}", family.id)));
    all.extend(reference_tables());
    all.extend(Kind::NAMED.iter().map(|kind| format!("kinds.{}", kind.id())));
    all.extend(["kinds.derived", "kinds.choice", "status.memory"].map(str::to_owned));
    all.extend(
        Code::all().flat_map(|code| ["title", "expected", "fix", "why"].map(|part| format!("faults.{code}.{part}"))),
    );
    all.extend(["is_true", "is_false", "rounded", "usual_range", "not_measured"].map(|word| format!("answers.{word}")));
    all.extend(["labels", "after_in", "between", "language"].map(|list| format!("reading.{list}")));
    all.extend(guide());
    all.extend(figures());
    all.extend(live());
    all.extend(command());
    all
}

/// A column of a table has the word of a choice where it is for that choice.
fn reference_tables() -> Vec<String> {
    let choices: BTreeSet<&str> = relief::relations()
        .flat_map(|relation| relation.inputs)
        .filter_map(|input| if let Form::Choice(names) = input.form { Some(names) } else { None })
        .flatten()
        .copied()
        .collect();
    let mut all: Vec<String> = ["source", "status"].map(|name| format!("tables.columns.{name}")).to_vec();
    for family in relief::TABLES {
        all.extend(["title", "summary"].map(|part| format!("tables.families.{}.{part}", family.id)));
        for table in family.tables {
            all.extend(["title", "purpose", "caution"].map(|part| format!("tables.rows.{}.{part}", table.id)));
            let columns = table.columns();
            let names = columns.iter().flat_map(|column| [column.under, column.name]).flatten();
            all.extend(names.filter(|name| !choices.contains(name)).map(|name| format!("tables.columns.{name}")));
            for cell in table.rows().iter().flat_map(|row| &row.cells) {
                if let Cell::Choice(name) = cell {
                    all.push(format!("choices.{name}"));
                }
            }
        }
    }
    all
}

/// The lessons of the guide that explain faults are made of words.
fn guide() -> Vec<String> {
    let lessons = families().into_iter().map(|(lesson, _)| lesson);
    let parts = ["title", "summary", "objective"];
    let mut all: Vec<_> =
        lessons.flat_map(|lesson| parts.map(|part| format!("guide.families.{lesson}.{part}"))).collect();
    let forms = ["lines", "whole", "name", "without"];
    all.extend(["wrong", "right"].iter().flat_map(|side| forms.map(|form| format!("guide.faults.{side}.{form}"))));
    all.extend(["intro", "says", "no_case"].map(|word| format!("guide.faults.{word}")));
    all
}

fn figures() -> Vec<String> {
    let mut all = Vec::new();
    for figure in figures::FIGURES {
        all.extend(figure.labels.iter().map(|label| format!("figures.{}.{label}", figure.id)));
        for part in figure.parts {
            all.extend(["name", "job"].map(|word| format!("figures.{}.parts.{}.{word}", figure.id, part.id)));
        }
    }
    all
}

fn live() -> Vec<String> {
    let slips =
        Slip::ALL.iter().flat_map(|slip| ["slips", "slips_asked"].map(|how| format!("live.{how}.{}", slip.id())));
    let mut all: Vec<String> = slips.collect();
    all.extend(verdicts().iter().map(|verdict| format!("live.verdicts.{verdict}.word")));
    let notes = [
        "also_right",
        "taken_as_gauge",
        "taken_as_absolute",
        "unit_assumed",
        "unsafe_side",
        "unusual",
        "near",
        "asked",
    ];
    all.extend(notes.map(|note| format!("live.notes.{note}")));
    all.extend(["start", "working", "worked"].map(|word| format!("live.practice.{word}")));
    all.extend(
        ["us", "si"].iter().flat_map(|system| [format!("live.units.{system}"), format!("pages.units.{system}")]),
    );
    all.extend(["1", "2", "3"].map(|level| format!("pages.practice.levels.{level}")));
    all.extend(["danger", "warning", "caution", "notice"].map(|word| format!("pages.signal.{word}")));
    let forms =
        ["number", "read_off", "one_of", "several_of", "in_order", "match", "point_at", "true_or_false", "fill_table"];
    all.extend(forms.map(|form| format!("pages.coverage.forms.{form}")));
    all.extend(
        ["terms.found", "terms.none", "wide.table", "wide.formula", "wide.code"].map(|word| format!("live.{word}")),
    );
    all.extend(["index", "terms", "relations", "tables"].map(|kind| format!("pages.nav.{kind}")));
    all.extend(["above", "from", "above_alone", "from_alone"].map(|word| format!("pages.relations.{word}")));
    all.extend(["form", "form_in", "forms.us", "forms.si"].map(|word| format!("pages.relations.{word}")));
    all.extend(["us", "si", "mixed"].map(|form| format!("live.work.form_{form}")));
    all
}

fn command() -> Vec<String> {
    let mut all: Vec<String> = ["never_met", "no_value", "right_options", "all_or_none", "tie", "no_figure"]
        .map(|id| format!("command.draw.{id}"))
        .to_vec();
    let codes = [
        "unknown_relation",
        "unknown_input",
        "missing",
        "repeated",
        "blank",
        "unreadable",
        "ambiguous",
        "unknown_unit",
        "unit_of_another_kind",
        "wrong_kind",
        "wrong_choice",
        "out_of_range",
        "out_of_range_above",
        "order",
        "not_finite",
        "subcritical",
        "critical",
        "too_large",
        "nothing_left",
        "factor_needed",
        "result_of_another_kind",
    ];
    all.extend(codes.map(|code| format!("command.work.{code}")));
    all.extend(["one_fault", "faults", "one_warning", "warnings"].map(|word| format!("command.{word}")));
    all.extend(problems::proof::POINTS.map(|point| format!("command.proof.points.{point}")));
    all
}

/// Calls with every dotted name that follows a marker in a text.
fn keys_after<R>(text: &str, marker: &str, mut found: impl FnMut(&str) -> R) {
    for part in text.split(marker).skip(1) {
        let end =
            part.find(|next: char| !(next.is_ascii_alphanumeric() || next == '_' || next == '.')).unwrap_or(part.len());
        found(part[..end].trim_end_matches('.'));
    }
}

fn text_of(folder: &Path) -> String {
    let mut text = String::new();
    for entry in fs::read_dir(folder).expect("folder") {
        let path = entry.expect("entry").path();
        let own = if path.is_dir() { text_of(&path) } else { fs::read_to_string(&path).expect("text") };
        // What the unit tests at the foot of a file say is not said by the product.
        text.push_str(own.split("#[cfg(test)]").next().unwrap_or_default());
    }
    text
}
