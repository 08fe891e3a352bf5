//! The words and laws that compiled recipes carry, from the theme and the registry.

use std::collections::BTreeMap;

use problems::DecimalMark;
use problems::recipe::{Lexicon, Picture};
use problems::template::{Piece, Template};
use relief::{Printed, Relation, System};

use crate::Words;
use crate::markdown::Math;
use crate::marks;

/// Words of a theme, with laws in MathML.
pub struct ThemeLexicon<'a> {
    words: &'a dyn Words,
    mark: DecimalMark,
    math: Math,
    pictures: Vec<Picture>,
    relations: Vec<&'static Relation>,
    /// What is said of them, by the keys of the theme.
    own: BTreeMap<String, String>,
}

impl<'a> ThemeLexicon<'a> {
    /// A lexicon on the words of a theme, for a course with this decimal mark.
    #[must_use]
    pub fn new(words: &'a dyn Words, mark: DecimalMark) -> Self {
        let (pictures, relations, own) = (Vec::new(), Vec::new(), BTreeMap::new());
        Self { words, mark, math: Math::new(), pictures, relations, own }
    }

    /// The same with the pictures of a course.
    pub(crate) fn with_pictures(self, pictures: Vec<Picture>) -> Self {
        Self { pictures, ..self }
    }

    /// The same with the relations of a course and what is said of them.
    #[must_use]
    pub fn with(self, relations: &[&'static Relation], own: &BTreeMap<String, String>) -> Self {
        Self { relations: relations.to_vec(), own: own.clone(), ..self }
    }

    /// A symbol or formula in LaTeX as MathML; the LaTeX itself where it cannot be converted, which a test of the
    /// registry rules out.
    #[must_use]
    pub fn math_html(&self, latex: &str, display: bool) -> String {
        self.math.convert(latex, display).unwrap_or_else(|_| problems::template::escape(latex))
    }
}

impl Lexicon for ThemeLexicon<'_> {
    fn text(&self, key: &str) -> String {
        let own = self.own.get(key).cloned();
        own.or_else(|| self.words.text(key)).unwrap_or_else(|| key.rsplit('.').next().unwrap_or(key).replace('_', " "))
    }

    fn relations(&self) -> &[&'static Relation] {
        &self.relations
    }

    fn law_html(&self, relation: &'static Relation, form: System) -> String {
        let symbol = |name: &str, _: &str| format!("{{{}}}", symbol(relation, name).unwrap_or(name));
        self.mark.print_in(self.math_html(&law(relation.forms.of(form), symbol), true))
    }

    fn pictures(&self) -> &[Picture] {
        &self.pictures
    }

    fn law_with_holes(&self, relation: &'static Relation, form: System) -> Template {
        let mark = |name: &str, after: &str| {
            let Some(index) = put_in(relation).position(|known| known == name) else {
                return format!("{{{}}}", symbol(relation, name).unwrap_or(name));
            };
            let hole = format!("\\text{{{}}}", marks::hole(&index.to_string()));
            // A power is of the number and its unit, not of the unit alone.
            if after.starts_with('^') { format!("{{\\left({hole}\\right)}}") } else { format!("{{{hole}}}") }
        };
        let html = self.math.convert(&times(&law(relation.forms.of(form), mark)), true).unwrap_or_default();
        let html = self.mark.print_in(html);
        marks::cut(&html, |index| {
            put_in(relation).nth(index.parse::<usize>().ok()?).map(|name| Piece::Hole(name.to_owned()))
        })
    }
}

/// The names of what is put into a law: its inputs, and what comes on the way to its result.
fn put_in(relation: &'static Relation) -> impl Iterator<Item = &'static str> {
    relation.inputs.iter().map(|input| input.name).chain(relation.steps.iter().map(|step| step.name))
}

/// Symbols side by side are multiplied; numbers side by side need a sign between them.
fn times(law: &str) -> String {
    law.replace(r"\,", r"\,\times\,")
}

fn symbol(relation: &'static Relation, name: &str) -> Option<&'static str> {
    let inputs = relation.inputs.iter().map(|input| (input.name, input.symbol));
    let outputs = relation.outputs.iter().map(|output| (output.name, output.symbol));
    let steps = relation.steps.iter().map(|step| (step.name, step.symbol));
    inputs.chain(outputs).chain(steps).find(|(known, _)| *known == name).map(|(_, symbol)| symbol)
}

/// The law with something in the place of each `#name`, which `place` gives for the name and what follows it.
fn law(printed: &Printed, place: impl Fn(&str, &str) -> String) -> String {
    let mut parts = printed.law.split('#');
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let end = part.find(|next: char| !(next.is_ascii_alphanumeric() || next == '_')).unwrap_or(part.len());
        out.push_str(&place(&part[..end], &part[end..]));
        out.push_str(&part[end..]);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    struct NoWords;

    impl Words for NoWords {
        fn text(&self, _: &str) -> Option<String> {
            None
        }
    }

    fn names(relation: &'static Relation) -> impl Iterator<Item = &'static str> {
        let inputs = relation.inputs.iter().map(|input| input.name);
        inputs.chain(relation.outputs.iter().map(|output| output.name))
    }

    #[test]
    fn every_law_and_symbol_of_the_registry_becomes_mathml() {
        let lexicon = ThemeLexicon::new(&NoWords, DecimalMark::Point);
        for relation in relief::relations() {
            for html in System::BOTH.map(|form| lexicon.law_html(relation, form)) {
                assert!(html.starts_with("<math ") && !html.contains('#'), "{}: {html}", relation.id);
            }
            for name in names(relation) {
                let symbol = symbol(relation, name).unwrap_or_default();
                assert!(lexicon.math_html(symbol, false).starts_with("<math"), "{}: {symbol}", relation.id);
            }
        }
    }

    #[test]
    fn a_law_has_the_decimal_mark_of_the_course() {
        let lexicon = ThemeLexicon::new(&NoWords, DecimalMark::Comma);
        let relation = relief::relations().find(|relation| relation.id == "liquid_area").expect("a relation");
        let law = lexicon.law_html(relation, System::Si);
        assert!(law.contains("11,78"), "{law}");
        let numbers = lexicon.law_with_holes(relation, System::Si).fill(|_| "4.5".to_owned());
        assert!(numbers.contains("11,78") && !numbers.contains("11.78"), "{numbers}");
    }

    #[test]
    fn every_law_has_a_hole_for_each_input_in_it() {
        let lexicon = ThemeLexicon::new(&NoWords, DecimalMark::Point);
        for (relation, form) in relief::relations().flat_map(|relation| System::BOTH.map(|form| (relation, form))) {
            let template = lexicon.law_with_holes(relation, form);
            let holes: Vec<_> = template.holes().collect();
            let law = relation.forms.of(form).law;
            for name in relation.inputs.iter().map(|input| input.name).filter(|name| law.contains(&format!("#{name}")))
            {
                assert!(holes.contains(&name), "{}: {name} in {holes:?}", relation.id);
            }
            assert!(!template.fill(|_| String::new()).contains(marks::MARKS), "{}", relation.id);
        }
    }
}
