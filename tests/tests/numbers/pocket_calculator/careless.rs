//! Careless answers: something is forgotten, or the answer is rounded to the unsafe side.

use problems::mark::{Verdict, mark_part};
use problems::number::Limit;

use super::calculator::{Slip, Worked, work_carelessly};
use super::rounding::{Way, as_asked, reach, step, to_figures, to_step};
use super::sound::{Sheet, Typed};
use super::tally::Tally;

/// The last bits do not decide whether an answer is open.
const SLACK: f64 = 1e-9;

/// The fewest figures that a question asks for.
const FEWEST_FIGURES: i32 = 3;

/// The answers that are sound, as far as they are left open: between which numbers a typed one may lie.
struct Open(Vec<(String, [f64; 2])>);

impl Open {
    fn of(sheet: &Sheet, worked: &[Worked]) -> Self {
        let ends = |(one, [low, high]): (&Worked, [f64; 2])| {
            let number = sheet.number(&one.part);
            let reach = reach(number, sheet.system(), one.value);
            let low = if number.limit == Some(Limit::Lower) { low } else { low - reach };
            let high = if number.limit == Some(Limit::Upper) { high } else { high + reach };
            (one.part.clone(), [low, high].map(|end| sheet.on_grid(&one.part, end)))
        };
        Self(worked.iter().zip(sheet.open()).map(ends).collect())
    }

    fn ends(&self, part: &str) -> [f64; 2] {
        self.0.iter().find(|(id, _)| id == part).map_or([f64::NAN; 2], |(_, ends)| *ends)
    }

    fn has(&self, part: &str, value: f64) -> bool {
        let [low, high] = self.ends(part);
        let slack = SLACK * value.abs();
        (low - slack..=high + slack).contains(&value)
    }
}

impl Sheet<'_> {
    /// Types every careless answer and counts those that are marked right.
    pub(crate) fn try_carelessly(&self, tally: &mut Tally) {
        let plain = self.unrounded();
        let open = Open::of(self, &plain);
        let sound = self.texts(&plain);
        for slip in Slip::ALL {
            let Some(worked) = work_carelessly(self.problem, self.calculation, slip) else { continue };
            let answers = self.texts(&worked);
            for (one, (_, sound)) in worked.iter().zip(&sound) {
                let value = as_asked(self.number(&one.part), self.system(), one.value);
                if self.text(&one.part, value) != *sound {
                    self.refuse(&open, (&one.part, value), &answers, &format!("{slip:?}"), tally);
                }
            }
        }
        for one in &plain {
            self.round_carelessly(&open, &one.part, &sound, tally);
        }
    }

    /// The last number that is sound on the unsafe side of a limit, less one step; and, where the step is left to the
    /// learner, the same rounded to the unsafe side at three figures, the fewest that questions ask for.
    fn round_carelessly(&self, open: &Open, part: &str, sound: &Typed, tally: &mut Tally) {
        let (number, way) = (self.number(part), Way::asked(self.number(part)));
        let Some(limit) = number.limit else { return };
        let [low, high] = open.ends(part);
        let (last, beyond) = if limit == Limit::Lower { (low, -1.0) } else { (high, 1.0) };
        let step = step(number, self.system(), last);
        self.refuse(open, (part, to_step(last, step, way) + beyond * step), sound, "one step beyond", tally);
        let [careful, turned] = [way, way.turned()].map(|way| to_figures(last, FEWEST_FIGURES, way));
        if number.round.is_none() && self.text(part, turned) != self.text(part, careful) {
            self.refuse(open, (part, turned), sound, "rounded the wrong way", tally);
        }
    }

    /// Counts whether a careless answer is marked right. One that some sound method gives, too, is left out.
    fn refuse(&self, open: &Open, (part, value): (&str, f64), others: &Typed, slip: &str, tally: &mut Tally) {
        let about = self.about(part, slip);
        if open.has(part, value) {
            tally.skipped(&about);
            return;
        }
        let typed = self.text(part, value);
        let own = |(id, other): &(String, String)| (id.clone(), if id == part { typed.clone() } else { other.clone() });
        let answers: Typed = others.iter().map(own).collect();
        let marked = mark_part(self.problem, part, &answers).expect("a part of the problem");
        if marked.verdict == Verdict::Right || marked.credit == 100 {
            tally.failed(&about, &marked.verdict, self.seed, &typed);
        } else {
            tally.kept(&about);
        }
    }
}
