//! Where in a text one of many wordings may begin: at the start of a word, by its first three bytes. A text is passed over
//! much faster so than by trying every wording at every byte.

/// How many bytes of a beginning are looked at.
const BYTES: usize = 3;
/// How many bits each byte takes.
const BITS: usize = 5;
/// All beginnings, a bit each.
const ALL: usize = 1 << (BYTES * BITS);

/// The beginnings of some wordings, whatever the case of their letters.
pub(super) struct Beginnings(Box<[u64; ALL / 64]>);

impl<'w> FromIterator<&'w str> for Beginnings {
    fn from_iter<I: IntoIterator<Item = &'w str>>(wordings: I) -> Self {
        let mut all = Self(Box::new([0; ALL / 64]));
        for wording in wordings {
            let known = &wording.as_bytes()[..wording.len().min(BYTES)];
            // What follows a wording of one or two bytes may be anything.
            let rest = (BYTES - known.len()) * BITS;
            let first = known.iter().fold(0, |key, byte| key << BITS | usize::from(class(*byte))) << rest;
            (first..first + (1 << rest)).for_each(|key| all.0[key / 64] |= 1 << (key % 64));
        }
        all
    }
}

impl Beginnings {
    /// The next byte at which a word starts and a wording may begin; after a byte that is not ASCII a word may start.
    pub(super) fn next(&self, text: &[u8], from: usize) -> Option<usize> {
        let mut in_word = from > 0 && goes_on(text[from - 1]);
        for (at, byte) in text.iter().enumerate().skip(from) {
            let was_in_word = std::mem::replace(&mut in_word, goes_on(*byte));
            if !was_in_word && self.may_begin(&text[at..]) {
                return Some(at);
            }
        }
        None
    }

    /// Whether a wording may begin where a text does. Behind the text come noughts.
    fn may_begin(&self, text: &[u8]) -> bool {
        let mut known = [0; BYTES];
        let length = text.len().min(BYTES);
        known[..length].copy_from_slice(&text[..length]);
        let shift = (BYTES - length) * BITS;
        let key =
            known[..length].iter().fold(0, |key, byte| key << BITS | usize::from(CLASSES[usize::from(*byte)])) << shift;
        self.0[key / 64] >> (key % 64) & 1 == 1
    }
}

/// What each byte counts as.
static CLASSES: [u8; 256] = {
    let mut table = [0; 256];
    let mut byte = 0_u8;
    loop {
        table[byte as usize] = class(byte);
        if byte == u8::MAX {
            break table;
        }
        byte += 1;
    }
};

/// What a byte counts as: a letter of either case, and some sorts of others.
const fn class(byte: u8) -> u8 {
    match byte {
        b'a'..=b'z' | b'A'..=b'Z' => byte & 0x1f,
        b'0'..=b'9' => 27,
        b'_' => 28,
        b'-' => 29,
        b' ' | b'\n' => 30,
        0x80.. => 31,
        _ => 0,
    }
}

/// Whether a word goes on after a byte.
fn goes_on(byte: u8) -> bool {
    matches!(CLASSES[usize::from(byte)], 1..=29)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found<'t>(wordings: &[&str], text: &'t str) -> Vec<&'t str> {
        let beginnings: Beginnings = wordings.iter().copied().collect();
        let next = |from: &usize| beginnings.next(text.as_bytes(), from + 1);
        let places = std::iter::successors(beginnings.next(text.as_bytes(), 0), next);
        places.map(|at| &text[at..]).collect()
    }

    #[test]
    fn every_place_where_a_wording_may_begin_is_found() {
        assert_eq!(
            found(&["seat"], "a SEA, set, seat, reseat, non-seat"),
            ["SEA, set, seat, reseat, non-seat", "seat, reseat, non-seat"]
        );
        assert_eq!(found(&["seat"], "(seat) “seat” é"), ["seat) “seat” é", "seat” é"]);
        assert_eq!(found(&["kb", "K"], "kb, Kd k"), ["kb, Kd k", "Kd k", "k"]);
        assert_eq!(found(&["öl"], "Öl in the oil"), ["Öl in the oil"]);
        assert_eq!(found(&["disc"], "the disc"), ["disc"]);
        assert!(found(&["seat"], "se").is_empty() && found(&[], "seat").is_empty());
    }
}
