//! Where draws come from: a portable generator, seeded for each name by a documented hash, with an integer draw and a
//! shuffle of our own, so that no upgrade of a library moves a printed worksheet.
//!
//! The seed of a stream is SHA-256 of the UTF-8 bytes of `seatwork draw 1`, the seed (trimmed, ASCII letters in upper
//! case), the question, the attempt in decimal and the name drawn, each followed by a zero byte. Its 32 bytes seed
//! Xoshiro256++. Every name has a stream of its own: to edit one draw leaves the others where they were.

use rand::rngs::Xoshiro256PlusPlus;
use rand::{Rng, SeedableRng};
use sha2::{Digest, Sha256};

/// The attempt that a learner starts with. The page, the command and proof all draw it; an assignment counts further.
pub const FIRST_ATTEMPT: u32 = 1;

/// What a problem is drawn from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seed {
    /// The seed or ticket, as text.
    pub text: String,
    /// The question that it is drawn for.
    pub question: String,
    /// The learner's attempt at the question, from [`FIRST_ATTEMPT`].
    pub attempt: u32,
}

/// The stream of random numbers for one name.
pub(crate) struct Stream(Xoshiro256PlusPlus);

impl Seed {
    /// The stream for a name.
    pub(crate) fn stream(&self, name: &str) -> Stream {
        let seed = self.text.trim().to_ascii_uppercase();
        let mut hash = Sha256::new();
        for part in ["seatwork draw 1", &seed, &self.question, &self.attempt.to_string(), name] {
            hash.update(part.as_bytes());
            hash.update([0]);
        }
        Stream(Xoshiro256PlusPlus::from_seed(hash.finalize().into()))
    }

    /// The number of a problem for a name: five digits, as the pages make them, each equally likely.
    #[must_use]
    pub fn problem_number(&self, name: &str) -> u32 {
        10_000 + self.stream(name).below(90_000)
    }

    /// The places `0 .. count` in an order of its own for a name.
    #[must_use]
    pub fn order(&self, name: &str, count: usize) -> Vec<usize> {
        self.stream(name).shuffled(count)
    }
}

impl Stream {
    /// A number below `count`, each equally likely; zero where `count` is zero or one.
    pub(crate) fn below(&mut self, count: u32) -> u32 {
        if count < 2 {
            return 0;
        }
        let count = u64::from(count);
        let fair = u64::MAX - u64::MAX % count;
        loop {
            let next = self.0.next_u64();
            if next < fair {
                return u32::try_from(next % count).unwrap_or(0);
            }
        }
    }

    /// The places `0 .. count` in random order (Fisher and Yates, from the end).
    pub(crate) fn shuffled(&mut self, count: usize) -> Vec<usize> {
        let mut places: Vec<usize> = (0..count).collect();
        for last in (1..count).rev() {
            let other = self.below(u32::try_from(last + 1).unwrap_or(u32::MAX));
            places.swap(last, usize::try_from(other).unwrap_or(0));
        }
        places
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stream(text: &str, name: &str) -> Stream {
        Seed { text: text.to_owned(), question: "q".to_owned(), attempt: 0 }.stream(name)
    }

    /// The numbers come from a separate implementation of the documented hash and of Xoshiro256++ (Blackman and
    /// Vigna, "Scrambled linear pseudorandom number generators", 2021).
    #[test]
    fn draws_never_move() {
        let mut numbers = stream("1", "seat");
        let drawn: Vec<u32> = (0..8).map(|_| numbers.below(37)).collect();
        assert_eq!(drawn, [23, 4, 5, 33, 26, 19, 27, 11]);
        assert_eq!(stream("1", "order").shuffled(6), [0, 4, 2, 5, 3, 1]);
    }

    #[test]
    fn seeds_are_read_as_people_type_them() {
        assert_eq!(stream(" 4f2k ", "a").below(1000), stream("4F2K", "a").below(1000));
        assert_ne!(stream("1", "a").0, stream("1", "b").0);
    }

    #[test]
    fn every_number_comes_up_about_equally_often() {
        let mut stream = stream("fair", "die");
        let mut counts = [0u32; 7];
        for _ in 0..70_000 {
            counts[usize::try_from(stream.below(7)).expect("small")] += 1;
        }
        assert!(counts.iter().all(|count| (9_600..10_400).contains(count)), "{counts:?}");
    }
}
