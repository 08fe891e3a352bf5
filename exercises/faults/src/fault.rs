//! One thing that is wrong, in a place of whatever kind the finder knows.

use crate::{Code, nearest, nearest_first};

/// How many known names a message lists.
const MOST_NAMES: usize = 20;

/// What a message needs to know: its placeholders with their values.
pub type Values = Vec<(&'static str, String)>;

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault<P> {
    /// The rule that is broken.
    pub code: Code,
    /// Where.
    pub place: P,
    /// Other places that belong to it, each with the key of its label under `faults.labels`.
    pub also: Vec<(P, &'static str)>,
    /// The values of the message's placeholders.
    pub values: Values,
}

impl<P> Fault<P> {
    /// A fault at a place.
    #[must_use]
    pub fn at(code: Code, place: P) -> Self {
        Self { code, place, also: Vec::new(), values: Vec::new() }
    }

    /// The same fault in another kind of place.
    #[must_use]
    pub fn map<Q>(self, mut place: impl FnMut(P) -> Q) -> Fault<Q> {
        Fault {
            code: self.code,
            place: place(self.place),
            also: self.also.into_iter().map(|(other, label)| (place(other), label)).collect(),
            values: self.values,
        }
    }

    /// Whether it is a warning: the course is published all the same.
    #[must_use]
    pub fn is_warning(&self) -> bool {
        self.code.is_warning()
    }

    /// The value of a placeholder.
    #[must_use]
    pub fn raw(&self, name: &str) -> Option<&str> {
        self.values.iter().find(|(known, _)| *known == name).map(|(_, value)| value.as_str())
    }

    /// The same with the value of a placeholder.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.values.push((name, value.to_string()));
        self
    }

    /// The same with another place.
    #[must_use]
    pub fn also(mut self, place: P, label: &'static str) -> Self {
        self.also.push((place, label));
        self
    }

    /// The same with the known name nearest to `found`, if one is near, and with the first of all known names.
    #[must_use]
    pub fn near<'a>(self, found: &str, known: impl IntoIterator<Item = &'a str>) -> Self {
        let known: Vec<_> = known.into_iter().collect();
        let more = if known.len() > MOST_NAMES { ", …" } else { "" };
        let listed = known[..known.len().min(MOST_NAMES)].join(", ") + more;
        self.with_nearest(nearest_or_only(found, &known)).with("known", listed)
    }

    /// The same with the known name nearest to `found`, if one is near, and with all known names, the nearest first.
    #[must_use]
    pub fn nearest_first<'a>(self, found: &str, known: impl IntoIterator<Item = &'a str>) -> Self {
        let known = nearest_first(found, known);
        self.with_nearest(nearest_or_only(found, &known)).with("known", known.join(", "))
    }

    /// The same with all known names, joined by commas, and with the one nearest to the value of `found`, if one is near.
    #[must_use]
    pub fn known(self, known: impl Into<String>) -> Self {
        let known = known.into();
        let names: Vec<_> = known.split(", ").filter(|name| !name.is_empty()).collect();
        let near = self.raw("found").and_then(|found| nearest_or_only(found, &names)).map(str::to_owned);
        self.with_nearest(near.as_deref()).with("known", known)
    }

    fn with_nearest(self, nearest: Option<&str>) -> Self {
        match nearest {
            Some(name) => self.with("nearest", name),
            None => self,
        }
    }
}

/// The known name that is near, or the only one that there is.
fn nearest_or_only<'a>(found: &str, known: &[&'a str]) -> Option<&'a str> {
    let only = if let [only] = known { Some(*only) } else { None };
    nearest(found, known.iter().copied()).or(only)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_place_changes_in_another_place() {
        let fault = Fault::at(Code::IdTaken, 3).with("id", "seat").also(5, "first").map(|at| at * 10);
        assert_eq!(fault, Fault::at(Code::IdTaken, 30).with("id", "seat").also(50, "first"));
    }

    #[test]
    fn a_near_name_is_offered_and_one_far_away_is_not() {
        let fault = || Fault::at(Code::IdTaken, ()).with("found", "saet");
        for near in [fault().known("disc, seat"), fault().nearest_first("saet", ["disc", "seat"])] {
            assert_eq!(near.raw("nearest"), Some("seat"));
        }
        assert_eq!(fault().nearest_first("saet", ["disc", "seat"]).raw("known"), Some("seat, disc"));
        assert_eq!(fault().known("disc, lift").raw("nearest"), None);
        let names: Vec<_> = (0..30).map(|number| format!("name{number}")).collect();
        let many = fault().near("nane29", names.iter().map(String::as_str));
        assert_eq!(many.raw("nearest"), Some("name29"), "found beyond those that are listed");
        assert!(many.raw("known").is_some_and(|known| known.ends_with("name19, …")));
    }
}
