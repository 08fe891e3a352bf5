//! Lawful arguments at random, for a walk over the registry.

use crate::quantity::Quantity;
use crate::relation::{Argument, Bound, Form, Input, Range, Relation};

/// Numbers at random, always the same ones.
pub(super) struct Draws(u64);

impl Draws {
    pub(super) fn new() -> Self {
        Self(0)
    }

    /// A number from zero up to one (SplitMix64).
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        f64::from(u32::try_from((bits ^ (bits >> 31)) >> 32).expect("half of the bits")) / 4_294_967_296.0
    }

    /// Lawful arguments. Half of them lie at about the same share of their ranges, so that what must be near to each
    /// other often does.
    pub(super) fn arguments(&mut self, relation: &Relation) -> Vec<Argument> {
        let common = self.share();
        relation.inputs.iter().map(|input| self.argument(input, common)).collect()
    }

    /// A lawful value for an input: its usual one, one near a share of its range, or any.
    pub(super) fn argument(&mut self, input: &Input, common: f64) -> Argument {
        let (way, share) = (self.share(), self.share());
        match (&input.form, &input.default) {
            (_, Some(default)) if way < 0.3 => default.value,
            (Form::Choice(known), _) => Argument::Choice(known[one_of(known.len(), share)]),
            (Form::Quantity(kind, range), _) => {
                let share = if way < 0.65 { (common + 0.02 * (share - 0.5)).clamp(0.0, 1.0) } else { share };
                Argument::Quantity(Quantity::new(within(*range, share), *kind))
            }
        }
    }
}

/// Which of so many is meant by a share.
fn one_of(count: usize, share: f64) -> usize {
    (0..count).find(|index| share < (*index as f64 + 1.0) / count as f64).unwrap_or(0)
}

/// The number at a share of a range: by its logarithm where the range is wide, over nine decades from zero.
fn within(range: Range, share: f64) -> f64 {
    let (Bound::Including(low) | Bound::Above(low)) = range.low;
    if low < 0.0 || range.high < 1e3 * low {
        return low + (range.high - low) * share;
    }
    let low = if low > 0.0 { low } else { range.high * 1e-9 };
    (low * libm::pow(range.high / low, share)).clamp(low, range.high)
}
