//! What several forms need: places in a list as they are answered, shares of credit, lists in HTML.

/// Whole percent of a share, rounded down, so that only what is all right counts in full. A share within a billionth
/// of a whole percent is that percent.
pub(crate) fn percent(share: f64) -> u8 {
    let whole = (share.clamp(0.0, 1.0) * 100.0 + 1e-9).floor();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 100")]
    let whole = whole as u8;
    whole
}

/// A count as a number to work with.
pub(crate) fn number(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}

/// Places in a list that has `count` entries, each at most once; `None` where the text is anything else.
pub(crate) fn places(text: &str, count: usize) -> Option<Vec<usize>> {
    let mut all = Vec::new();
    for word in text.split_whitespace() {
        let place = word.parse().ok().filter(|place| *place < count && !all.contains(place))?;
        all.push(place);
    }
    Some(all)
}

/// Places as they are answered.
pub(crate) fn joined(places: &[usize]) -> String {
    places.iter().map(usize::to_string).collect::<Vec<_>>().join(" ")
}

/// An HTML list.
pub(crate) fn list(tag: &str, items: impl Iterator<Item = String>) -> String {
    let items: String = items.map(|item| format!("<li>{item}</li>")).collect();
    format!("<{tag}>{items}</{tag}>")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_all_right_counts_in_full() {
        assert_eq!(percent(1.0), 100);
        assert_eq!(percent(0.999), 99);
        assert_eq!(percent(2.0 / 3.0), 66);
        assert_eq!(percent(-0.5), 0);
        assert_eq!(percent(0.29), 29);
    }

    #[test]
    fn places_are_read_or_refused() {
        assert_eq!(places(" 2 0 ", 3), Some(vec![2, 0]));
        assert_eq!(places("", 3), Some(Vec::new()));
        for text in ["3", "0 0", "-1", "1,2", "x"] {
            assert_eq!(places(text, 3), None, "{text}");
        }
    }
}
