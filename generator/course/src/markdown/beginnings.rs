//! Where in a text one of many wordings may begin: at the start of a word, by its first three bytes. A text is passed over
//! much faster so than by trying every wording at every byte.

/// How many bytes of a beginning are looked at.
const BYTES: usize = 3;
/// How many bits stand for a byte.
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
            let first = known.iter().fold(0, |key, byte| key << BITS | class(*byte)) << rest;
            (first..first + (1 << rest)).for_each(|key| all.0[key / 64] |= 1 << (key % 64));
        }
        all
    }
}

impl Beginnings {
    /// The next byte at which a word starts and a wording may begin; behind a byte that is not ASCII a word may start.
    pub(super) fn next(&self, text: &[u8], from: usize) -> Option<usize> {
        let mut in_word = from > 0 && GOES_ON[usize::from(text[from - 1])];
        for (at, byte) in text.iter().enumerate().skip(from) {
            let was_in_word = std::mem::replace(&mut in_word, GOES_ON[usize::from(*byte)]);
            if !was_in_word && self.may_begin(&text[at..]) {
                return Some(at);
            }
        }
        None
    }

    /// Whether a wording may begin where a text does. Behind the text come noughts.
    fn may_begin(&self, text: &[u8]) -> bool {
        let byte = |at: usize| text.get(at).map_or(0, |byte| class(*byte));
        let key = (0..BYTES).fold(0, |key, at| key << BITS | byte(at));
        self.0[key / 64] >> (key % 64) & 1 == 1
    }
}

/// The ASCII bytes behind which a word goes on.
static GOES_ON: [bool; 256] = {
    let mut table = [false; 256];
    let mut byte = 0_u8;
    while byte.is_ascii() {
        table[byte as usize] = byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'-');
        byte += 1;
    }
    table
};

/// What a byte counts as: a letter of either case, and four sorts of others.
const fn class(byte: u8) -> usize {
    match byte {
        b'a'..=b'z' | b'A'..=b'Z' => (byte & 0x1f) as usize,
        b'0'..=b'9' => 27,
        b' ' | b'\n' | b'-' => 28,
        0x80.. => 29,
        _ => 30,
    }
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
