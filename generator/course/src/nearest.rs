//! The known name that a mistyped one is most like.

/// The known name nearest to `found`, if it differs by few enough letters to be meant.
pub(crate) fn nearest<'a>(found: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let found = clip(found);
    let most = (found.chars().count() / 3).clamp(1, 4);
    known
        .into_iter()
        .map(|name| (distance(found, clip(name)), name))
        .filter(|(distance, _)| *distance <= most)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, name)| name)
}

/// Names are short; what is long is cut, so that the comparison stays cheap whatever a file holds.
fn clip(text: &str) -> &str {
    &text[..text.floor_char_boundary(64)]
}

/// How many letters must be put in, taken out, changed or swapped with their neighbour to make one name the other.
fn distance(one: &str, other: &str) -> usize {
    let (one, other): (Vec<_>, Vec<_>) = (one.to_lowercase().chars().collect(), other.to_lowercase().chars().collect());
    let mut rows = vec![(0..=other.len()).collect::<Vec<usize>>()];
    for (i, a) in one.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, b) in other.iter().enumerate() {
            let change = rows[i][j] + usize::from(a != b);
            let mut best = change.min(row[j] + 1).min(rows[i][j + 1] + 1);
            if i > 0 && j > 0 && *a == other[j - 1] && one[i - 1] == *b {
                best = best.min(rows[i - 1][j - 1] + 1);
            }
            row.push(best);
        }
        rows.push(row);
    }
    rows[one.len()][other.len()]
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn few_letters_apart_is_near() {
        assert_eq!(nearest("tilte", ["title", "summary"]), Some("title"));
        assert_eq!(nearest("Seat", ["disc", "seat"]), Some("seat"));
        assert_eq!(nearest("opening_presure", ["opening_pressure", "set_pressure"]), Some("opening_pressure"));
        assert_eq!(nearest("colour", ["title", "summary"]), None);
        assert_eq!(nearest("", ["title"]), None);
        assert_eq!(nearest(&"é".repeat(500), ["title"]), None);
    }
}
