//! Reports as text for the terminal.

use pages::Words;
use problems::proof::{PartReport, Point, Report, SystemReport};

/// All reports, one recipe after the other; then the recipes that no lesson shows.
pub(super) fn reports(proven: &[Report], unshown: &[&str], words: &Words) -> String {
    let mut out: String = proven.iter().map(|proven| report(proven, words)).collect();
    out.push_str(words.get("command.proof.legend"));
    if !unshown.is_empty() {
        let recipes = unshown.join(", ");
        out.push_str(&format!("\n{}", words.fill("command.proof.unshown", &[("recipes", &recipes)])));
    }
    let key = if proven.len() == 1 { "command.one_proven" } else { "command.proven" };
    out.push_str(&format!("\n{}", words.fill(key, &[("count", &proven.len().to_string())])));
    out
}

/// A recipe, and below it what was found in each system of units.
fn report(report: &Report, words: &Words) -> String {
    let lines = report.systems.iter().flat_map(|system| lines(system, words));
    format!("{}\n", report.recipe) + &lines.map(|line| format!("  {line}\n")).collect::<String>()
}

fn lines(system: &SystemReport, words: &Words) -> Vec<String> {
    let mut details = vec![problems(system, words)];
    details.extend(system.parts.iter().flat_map(|found| part(found, words)));
    details.extend(system.points().iter().map(|found| point(found, words)));
    [draws(system, words)].into_iter().chain(details.iter().map(|line| format!("  {line}"))).collect()
}

fn draws(system: &SystemReport, words: &Words) -> String {
    let redraws = &system.redraws;
    let key = if redraws.most == 0 { "command.proof.draws" } else { "command.proof.redrawn" };
    let units = format!("live.units.{}", system.system.id());
    let values = [
        ("units", words.get(&units)),
        ("draws", &system.draws.to_string()),
        ("redraws", &shown(redraws.mean)),
        ("most", &redraws.most.to_string()),
        ("seed", &redraws.seed.to_string()),
    ];
    words.fill(key, &values)
}

fn problems(system: &SystemReport, words: &Words) -> String {
    let found = &system.problems;
    if found.different < 2 {
        return words.get("command.proof.fixed").to_owned();
    }
    let [draws, different, repeats] = [found.draws, found.different, found.repeats].map(|count| count.to_string());
    words.fill("command.proof.problems", &[("draws", &draws), ("different", &different), ("repeats", &repeats)])
}

fn part(part: &PartReport, words: &Words) -> Vec<String> {
    [spread(part, words), hardest(part, words), right(part, words)].into_iter().flatten().collect()
}

fn spread(part: &PartReport, words: &Words) -> Option<String> {
    let spread = part.answers.as_ref()?;
    let numbers = [spread.least, spread.lower_quartile, spread.median, spread.upper_quartile, spread.greatest];
    let [least, lower, median, upper, greatest] = numbers.map(shown);
    let values = [
        ("part", part.id.as_str()),
        ("least", &least),
        ("lower", &lower),
        ("median", &median),
        ("upper", &upper),
        ("greatest", &greatest),
        ("unit", part.unit.as_deref().unwrap_or_default()),
    ];
    Some(words.fill("command.proof.spread", &values).trim_end().to_owned())
}

fn hardest(part: &PartReport, words: &Words) -> Option<String> {
    let hardest = part.hardest.as_ref()?;
    let (seed, tolerances) = (hardest.seed.to_string(), shown(hardest.tolerances));
    let values =
        [("part", part.id.as_str()), ("seed", &seed), ("mistake", &hardest.mistake), ("tolerances", &tolerances)];
    Some(words.fill("command.proof.hardest", &values))
}

fn right(part: &PartReport, words: &Words) -> Option<String> {
    let share = |right: &problems::proof::RightShare| {
        let percent = shown(right.share * 100.0);
        words.fill("command.proof.share", &[("option", &option(&right.option, words)), ("percent", &percent)])
    };
    let shares: Vec<_> = part.right.iter().filter(|right| right.drawn || right.share > 0.0).map(share).collect();
    (!shares.is_empty())
        .then(|| words.fill("command.proof.right", &[("part", &part.id), ("shares", &shares.join(", "))]))
}

/// An option by its name, or by its place in the author's list.
fn option(name: &str, words: &Words) -> String {
    let is_place = name.bytes().all(|byte| byte.is_ascii_digit());
    if is_place { words.fill("command.proof.option", &[("place", name)]) } else { name.to_owned() }
}

fn point(point: &Point, words: &Words) -> String {
    let say = |(name, value): &(&'static str, String)| match *name {
        "option" => (*name, option(value, words)),
        _ => (*name, value.clone()),
    };
    let values: Vec<_> = point.values.iter().map(say).collect();
    let values: Vec<_> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    words.fill(&format!("command.proof.points.{}", point.code), &values)
}

fn shown(value: f64) -> String {
    relief::shown(value, 4, relief::Rounding::Nearest)
}
