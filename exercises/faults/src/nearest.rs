//! The known name that a mistyped one is most like.

use strsim::{levenshtein, osa_distance};

/// The known name nearest to `found`, if it differs by few enough letters to be meant.
pub fn nearest<'a>(found: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let found = folded(found);
    let most = (found.chars().count() / 3).clamp(1, 4);
    let known: Vec<_> = known.into_iter().collect();
    let apart = known.iter().map(|name| (osa_distance(&found, &folded(name)), *name));
    let near = apart.filter(|(distance, _)| *distance <= most).min_by_key(|(distance, _)| *distance);
    near.map(|(_, name)| name).or_else(|| begun(&found, &known))
}

/// The one name that goes on from what was found, or that it goes on from.
fn begun<'a>(found: &str, known: &[&'a str]) -> Option<&'a str> {
    let goes_on = |name: &&&str| {
        let name = folded(name);
        found.len().min(name.len()) >= SHORTEST_BEGINNING && (name.starts_with(found) || found.starts_with(&name))
    };
    let mut meant = known.iter().filter(goes_on);
    meant.next().filter(|_| meant.next().is_none()).copied()
}

/// The fewest letters by which a name is known.
const SHORTEST_BEGINNING: usize = 4;

/// All known names, the nearest to `found` first.
pub fn nearest_first<'a>(found: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let mut known: Vec<_> = known.into_iter().collect();
    known.sort_by_cached_key(|name| levenshtein(found, name));
    known
}

/// A name without regard to case. Names are short; what is long is cut, so that the comparison stays cheap whatever a file
/// holds.
fn folded(text: &str) -> String {
    text[..text.floor_char_boundary(64)].to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::{nearest, nearest_first};

    #[test]
    fn few_letters_apart_is_near() {
        assert_eq!(nearest("tilte", ["title", "summary"]), Some("title"));
        assert_eq!(nearest("Seat", ["disc", "seat"]), Some("seat"));
        assert_eq!(nearest("opening_presure", ["opening_pressure", "set_pressure"]), Some("opening_pressure"));
        assert_eq!(nearest("colour", ["title", "summary"]), None);
        assert_eq!(nearest("", ["title"]), None);
        assert_eq!(nearest(&"é".repeat(500), ["title"]), None);
    }

    #[test]
    fn the_nearest_comes_first_and_the_others_keep_their_order() {
        assert_eq!(nearest_first("saet", ["disc", "seat", "ring"]), ["seat", "disc", "ring"]);
    }
}
