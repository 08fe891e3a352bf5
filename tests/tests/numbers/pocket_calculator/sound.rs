//! Sound answers: every manner in which a careful person works a problem, and what it leaves open.

use problems::System;
use problems::draw::Problem;
use problems::mark::{Verdict, mark_part};
use problems::number::{Limit, Number};

use super::calculator::{Calculation, Manner, Worked, number_part, work};
use super::rounding::{SHOWN_FIGURES, Way, as_asked, reach, to_figures, typed};
use super::tally::Tally;

/// How much of a tolerance an earlier answer uses up that is marked.
const NEAR_THE_END: f64 = 0.9;

/// To how many figures the lines of a working are rounded.
const LINES: [i32; 2] = [4, SHOWN_FIGURES];

/// To how many figures an answer near the end of its tolerance is typed.
const TYPED_FIGURES: i32 = 6;

/// A problem and the calculation for it.
#[derive(Clone, Copy)]
pub(crate) struct Sheet<'p> {
    pub(crate) problem: &'p Problem<'p>,
    pub(crate) calculation: Calculation,
    pub(crate) seed: u64,
}

/// Answers as they are typed, by part.
pub(crate) type Typed = Vec<(String, String)>;

impl Sheet<'_> {
    pub(crate) fn system(&self) -> System {
        self.problem.facts.setting.system
    }

    pub(crate) fn number(&self, part: &str) -> &Number {
        number_part(self.problem, part)
    }

    fn work(&self, manner: Manner) -> Vec<Worked> {
        work(self.problem, self.calculation, self.system(), manner)
    }

    /// The answers with all digits.
    pub(crate) fn unrounded(&self) -> Vec<Worked> {
        self.work(Manner::Unrounded)
    }

    /// A value of a part with the unit asked for, as it is typed.
    pub(crate) fn text(&self, part: &str, value: f64) -> String {
        match self.number(part).unit.of(self.system()).0 {
            Some(unit) => format!("{} {}", typed(value), unit.symbol),
            None => typed(value),
        }
    }

    /// The answers rounded as they are asked for, as they are typed.
    pub(crate) fn texts(&self, worked: &[Worked]) -> Typed {
        let rounded = |one: &Worked| as_asked(self.number(&one.part), self.system(), one.value);
        worked.iter().map(|one| (one.part.clone(), self.text(&one.part, rounded(one)))).collect()
    }

    pub(crate) fn about(&self, part: &str, manner: &str) -> [String; 4] {
        [&self.problem.recipe.id, part, self.system().id(), manner].map(str::to_owned)
    }

    /// Counts whether a part is marked right, among all that was typed.
    fn check(&self, part: &str, answers: &Typed, manner: &str, tally: &mut Tally) {
        let about = self.about(part, manner);
        let marked = mark_part(self.problem, part, answers).expect("a part of the problem");
        if marked.verdict == Verdict::Right && marked.credit == 100 {
            tally.kept(&about);
        } else {
            let typed = answers.iter().find(|(id, _)| id == part).map_or("", |(_, typed)| typed);
            tally.failed(&about, &marked.verdict, self.seed, typed);
        }
    }

    /// Works and checks the problem in every manner.
    pub(crate) fn try_all(&self, tally: &mut Tally) {
        let plain = self.unrounded();
        self.check_all(&plain, "unrounded", tally);
        let earlier = plain.split_last().map_or(&[][..], |(_, earlier)| earlier);
        if earlier.iter().any(|one| self.number(&one.part).round.is_some()) {
            self.check_all(&self.work(Manner::FromRounded), "on from the rounded", tally);
        }
        for figures in LINES {
            self.check_all(&self.work(Manner::Lines(figures)), &format!("lines of {figures} figures"), tally);
        }
        // Each of these ways leaves careless answers out, so each of them has to be right.
        for figures in LINES {
            let nearest = self.work(Manner::NearestLines(figures));
            self.check_all(&nearest, &format!("lines of {figures} figures to nearest"), tally);
            let from_plain = self.work(Manner::NearestLinesFrom(figures, plain.clone()));
            let manner = format!("lines of {figures} figures to nearest, from earlier answers with all digits");
            self.check_all(&from_plain, &manner, tally);
        }
        for (place, own) in plain.iter().enumerate() {
            for value in self.ends(own, NEAR_THE_END) {
                self.go_on(&plain, place, to_figures(value, TYPED_FIGURES, Way::Nearest), tally);
            }
        }
    }

    fn check_all(&self, worked: &[Worked], manner: &str, tally: &mut Tally) {
        let answers = self.texts(worked);
        worked.iter().for_each(|one| self.check(&one.part, &answers, manner, tally));
    }

    /// Types an earlier answer that is near the end of its tolerance, and goes on from it. Parts that stay as they were
    /// have been tried before.
    fn go_on(&self, plain: &[Worked], place: usize, own: f64, tally: &mut Tally) {
        let part = &plain[place].part;
        let value = self.on_grid(part, own);
        let worked = self.work(Manner::From(part.clone(), value));
        let mut answers = self.texts(&worked);
        answers[place].1 = self.text(part, value);
        let later: Vec<_> =
            worked.iter().zip(plain).skip(place + 1).filter(|(one, before)| one.differs(before)).collect();
        if later.is_empty() {
            return;
        }
        self.check(part, &answers, "at the end of its tolerance", tally);
        for (one, _) in later {
            self.check(&one.part, &answers, &format!("on from {part} at the end"), tally);
        }
    }

    /// A value of a part, rounded where the part asks for it.
    pub(crate) fn on_grid(&self, part: &str, value: f64) -> f64 {
        let number = self.number(part);
        if number.round.is_some() { as_asked(number, self.system(), value) } else { value }
    }

    /// The values at so much of the tolerance of a part, but for the one on the unsafe side of a limit.
    fn ends(&self, worked: &Worked, of_it: f64) -> Vec<f64> {
        let number = self.number(&worked.part);
        let reach = reach(number, self.system(), worked.value) * of_it;
        let low = (number.limit != Some(Limit::Lower)).then_some(worked.value - reach);
        let high = (number.limit != Some(Limit::Upper)).then_some(worked.value + reach);
        low.into_iter().chain(high).collect()
    }

    /// Between which unrounded values both forms of the laws, every manner and the tolerances leave the answers open,
    /// in the order of the parts.
    pub(crate) fn open(&self) -> Vec<[f64; 2]> {
        let mut open: Vec<[f64; 2]> = self.unrounded().iter().map(|one| [one.value; 2]).collect();
        for form in System::BOTH {
            let plain = work(self.problem, self.calculation, form, Manner::Unrounded);
            let lines = LINES
                .map(Manner::Lines)
                .into_iter()
                .chain(LINES.map(Manner::NearestLines))
                .chain(LINES.map(|figures| Manner::NearestLinesFrom(figures, plain.clone())));
            let from_ends = plain.iter().flat_map(|own| {
                let typed = |end| Manner::From(own.part.clone(), self.on_grid(&own.part, end));
                self.ends(own, 1.0).into_iter().map(typed)
            });
            let manners = [Manner::Unrounded, Manner::FromRounded].into_iter().chain(lines).chain(from_ends);
            for manner in manners {
                for (open, one) in open.iter_mut().zip(work(self.problem, self.calculation, form, manner)) {
                    *open = [open[0].min(one.value), open[1].max(one.value)];
                }
            }
        }
        open
    }
}
