//! YAML read into a type.

use faults::Code;
use serde::de::DeserializeOwned;

use super::explain;
use super::places::Yaml;
use crate::fault::Fault;

/// The longest YAML text that is read, in bytes: far longer than any that a person writes at the head of a file. What
/// reads it holds up to four hundred times as much in memory.
const LONGEST: usize = 100_000;

/// The longest file that is YAML alone: it has the order of the lessons, of which there may be ten thousand.
const LONGEST_FILE: usize = 500_000;

impl Yaml<'_> {
    /// Reads the text into a type, or says what is wrong with it.
    pub(crate) fn read<T: DeserializeOwned>(&self, faults: &mut Vec<Fault>) -> Option<T> {
        let longest = if self.base == 0 { LONGEST_FILE } else { LONGEST };
        if self.text.len() > longest {
            let start = self.text.floor_char_boundary(longest);
            let line = self.text[start..].lines().next().map_or(0, str::len);
            faults.push(Fault::at(Code::YamlTooLong, self.place_of(start..start + line)).with("most", longest / 1000));
            return None;
        }
        let before = faults.len();
        let value = serde_yaml::from_str(self.text);
        if value.is_err() || may_hold_accidents(self.text) {
            explain::accidents(self, faults);
        }
        match value {
            Ok(value) => (faults.len() == before).then_some(value),
            Err(error) => {
                if faults.len() == before {
                    explain::explain::<T>(self, &error, faults);
                }
                None
            }
        }
    }
}

/// A quick look for what the typed reading takes without a word: numbers that are none, anchors and aliases, escapes,
/// texts that are cut off.
fn may_hold_accidents(text: &str) -> bool {
    text.bytes().any(|byte| matches!(byte, b'&' | b'*' | b'!' | b'\\'))
        || explain::may_cut_text(text)
        || !text.is_ascii()
            && text.lines().any(|line| {
                line.trim_start_matches(' ').starts_with(|next: char| !next.is_ascii() && next.is_whitespace())
            })
        || explain::NOT_FINITE.iter().any(|known| text.contains(known))
}
