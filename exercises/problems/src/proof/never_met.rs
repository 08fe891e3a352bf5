//! How near the draws of a recipe come to what it requires, where none of them meets it.

use relief::{Quantity, Rounding, System};

use super::found::Found;
use crate::display::{unit_text, usual_unit};
use crate::facts::Setting;
use crate::formula::Condition;
use crate::givens::{MOST_TRIES, tries};
use crate::recipe::Recipe;
use crate::seed::Seed;

/// What was found, with the condition that the fewest draws meet: how many do, and how near the nearest of the others comes.
pub(super) fn described(found: Found, recipe: &Recipe, seed: &Seed, setting: Setting) -> Found {
    let met: Vec<_> = recipe.require.iter().map(|condition| met(condition, recipe, seed, setting)).collect();
    let Some((index, least)) = met.iter().enumerate().min_by_key(|(_, met)| met.count) else { return found };
    let [came, wanted] =
        least.nearest.map_or_else(Default::default, |sides| sides.map(|side| shown(side, setting.system)));
    let found = found.with("unmet", index + 1).with("tries", MOST_TRIES).with("held", least.count);
    found.with("came", came).with("wanted", wanted)
}

/// How a condition fares.
#[derive(Default)]
struct Met {
    /// How many draws meet it.
    count: u32,
    /// The two sides of the comparison that fails by the least.
    nearest: Option<[Quantity; 2]>,
}

fn met(condition: &Condition, recipe: &Recipe, seed: &Seed, setting: Setting) -> Met {
    let mut met = Met::default();
    for scope in tries(recipe, seed, setting) {
        match condition.failing(&scope) {
            None => met.count += 1,
            Some(sides) if met.nearest.is_none_or(|nearest| apart(sides) < apart(nearest)) => met.nearest = Some(sides),
            Some(_) => {}
        }
    }
    met
}

fn apart([left, right]: [Quantity; 2]) -> f64 {
    (left.si - right.si).abs()
}

fn shown(side: Quantity, system: System) -> String {
    match usual_unit(side.kind, system) {
        Some(unit) => {
            let value = unit.value(side);
            format!("{} {}", relief::shown(value, 4, Rounding::Nearest), unit_text(unit, value))
        }
        None => relief::shown(side.si, 4, Rounding::Nearest),
    }
}
