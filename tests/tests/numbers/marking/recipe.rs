//! A recipe whose draws are single values, so that every answer is known.

use problems::recipe::raw::RawRecipe;
use problems::recipe::{Bodies, Lexicon, Recipe, compile};
use problems::template::{Piece, Template};
use relief::{Relation, System};

const RECIPE: &str = r#"
format: 1
id: known
title: Known numbers
objectives: []
level: 2
draw:
  seat: 2 in
  opening: 100 psig
  rate: 620 lbf/in
  lift: 0.45 in
ask:
  - id: rise
    label: Opening accumulation
    answer: "opening_accumulation(full_open: full_open_pressure(opening: opening, area: bore_area(bore: seat), rate: rate, full_lift: lift), opening: opening)"
    unit: psi
    within: 1 %
    mistakes:
      whole: "full_open_pressure(opening: opening, area: bore_area(bore: seat), rate: rate, full_lift: lift) - 0 psig"
  - id: full
    label: Full-open pressure
    answer: "full_open_pressure(opening: opening, area: bore_area(bore: seat), rate: rate, full_lift: lift)"
    unit: psig
    within: 0.5 %
  - id: inlet
    label: The same, absolute
    answer: "absolute_pressure(gauge: full)"
    unit: psia
    within: 0.5 %
  - id: share
    label: In percent
    answer: "rise / opening"
    unit: "%"
  - id: limit
    label: Allowed accumulation over MAWP
    answer: "allowed_accumulation_over_mawp(mawp: opening, case: single)"
    unit: psi
    limit: upper
  - id: closes
    label: Reseating pressure
    answer: "opening - opening * 35.6 %"
    unit: psig
    within: 0.5 psi
  - id: which
    form: one_of
    label: Which rise is it?
    options:
      - { text: opening accumulation, right: "full > opening", why: Counted up from the opening pressure. }
      - { text: blowdown, why: Counted down from the set pressure. }
"#;

/// The recipe, compiled and taken through its stored form.
pub(crate) fn compiled() -> Recipe {
    compiled_from(RECIPE)
}

/// A recipe from its front matter, with words for the mistake `whole`.
pub(crate) fn compiled_from(text: &str) -> Recipe {
    let raw: RawRecipe = serde_yaml::from_str(text).expect("recipe");
    let whole = raw.ask.iter().any(|ask| ask.mistakes().contains(&"whole"));
    let bodies = Bodies {
        question: Template::of_text("Worked out on the sheet."),
        mistakes: Vec::from_iter(whole.then(|| ("whole".to_owned(), Template::of_text("The whole pressure.")))),
        ..Bodies::default()
    };
    let recipe = compile(&raw, bodies, &Names).unwrap_or_else(|faults| panic!("{faults:?}"));
    Recipe::read(&recipe.text).expect("own form")
}

/// Words and laws by their ids.
struct Names;

impl Lexicon for Names {
    fn text(&self, key: &str) -> String {
        key.to_owned()
    }

    fn law_html(&self, relation: &'static Relation, form: System) -> String {
        relation.forms.of(form).law.to_owned()
    }

    fn law_with_holes(&self, relation: &'static Relation, _: System) -> Template {
        Template(relation.inputs.iter().map(|input| Piece::Hole(input.name.to_owned())).collect())
    }
}
