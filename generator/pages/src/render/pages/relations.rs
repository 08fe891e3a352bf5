//! The page of a family of relations, from the registry of the core: each with its laws, inputs, outputs and calculator.

use course::{Course, addresses};
use problems::display::{self, unit_for};
use problems::recipe::Lexicon;
use relief::{Argument, Bound, Form, Gives, Input, Kind, Output, Quantity, Range, Relation, Rounding, System};
use serde::Serialize;

use crate::render::context::{Link, Page};
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;
use crate::theme;
use crate::words::Words;

pub(super) const KIND: PageKind = PageKind {
    name: "relations",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Reference,
    entries: |course, words| families(course).map(|family| entry(family, words)).collect(),
    render: |renderer, page, place| renderer.family(page, place),
};

/// The ids of the families; those of the course's own relations come last.
fn families(course: &Course) -> impl Iterator<Item = &'static str> {
    let own = (!course.relations.is_empty()).then_some(addresses::OWN);
    relief::FAMILIES.iter().map(|family| family.id).chain(own)
}

fn entry(family: &str, words: &Words) -> Entry {
    let title = words.fill("pages.relations.title", &[("family", words.get(&format!("families.{family}")))]);
    Entry::new(title, addresses::relations(family))
}

#[derive(Serialize)]
struct FamilyContext<'w> {
    id: &'static str,
    title: &'w str,
}

/// A worked example that came out.
#[derive(Serialize)]
struct Checked {
    source: String,
    by: String,
}

#[derive(Serialize)]
struct RelationContext {
    id: &'static str,
    title: String,
    purpose: String,
    laws: Vec<LawContext>,
    words: String,
    body_html: String,
    checked: Option<Checked>,
    traps: Vec<String>,
    inputs: Vec<Row>,
    outputs: Vec<Row>,
    work_html: String,
    tables: Vec<Link>,
}

/// A printed form of a law.
#[derive(Serialize)]
struct LawContext {
    /// Which form it is, where there are two.
    form: Option<String>,
    html: String,
    source: String,
}

#[derive(Serialize)]
struct Row {
    symbol_html: String,
    name: String,
    kind: String,
    range: String,
    default: Option<String>,
}

impl Renderer<'_> {
    fn family(&self, mut page: Page, place: usize) -> Result<String, RenderError> {
        let family = relief::FAMILIES.get(place);
        let own = self.course.own_relations();
        let relations: Vec<&'static Relation> = family.map_or(own, |family| family.relations.iter().collect());
        let relations: Vec<_> =
            relations.into_iter().map(|relation| self.relation(relation)).collect::<Result<_, _>>()?;
        let id = family.map_or(addresses::OWN, |family| family.id);
        self.family_title(id).clone_into(&mut page.title);
        page.training_figures = true;
        page.load(theme::ENGINE);
        page.load(theme::WORK);
        let families: Vec<_> = families(self.course).map(|id| self.family_context(id)).collect();
        self.page("relations.html", &page, |context| {
            context.insert("families", &families);
            context.insert("family", &self.family_context(id));
            context.insert("relations", &relations);
        })
    }

    fn family_title(&self, id: &str) -> &str {
        self.words.section("families")[id].as_str().unwrap_or_default()
    }

    fn family_context(&self, id: &'static str) -> FamilyContext<'_> {
        FamilyContext { id, title: self.family_title(id) }
    }

    fn relation(&self, relation: &'static Relation) -> Result<RelationContext, RenderError> {
        let word = |name: &str| self.words.get(&format!("relations.{}.{name}", relation.id)).to_owned();
        let own = self.course.relations.iter().find(|own| own.relation == relation);
        Ok(RelationContext {
            id: relation.id,
            title: word("title"),
            purpose: word("purpose"),
            laws: self.laws(relation),
            words: word("words"),
            body_html: own.map_or_else(String::new, |own| own.body_html.clone()),
            checked: own.and_then(|own| own.checked.clone()).map(|(source, by)| Checked { source, by }),
            traps: self.traps(relation),
            inputs: relation.inputs.iter().map(|input| self.input_row(relation, input)).collect(),
            outputs: relation.outputs.iter().map(|output| self.output_row(relation, output)).collect(),
            work_html: self.empty_calculator(relation)?,
            tables: self.tables_of(relation.id),
        })
    }

    /// The law in each form that the trade prints, with its units and its source. Where only the source is printed twice,
    /// the law is given once.
    fn laws(&self, relation: &'static Relation) -> Vec<LawContext> {
        let law = |form: System, named: bool| LawContext {
            form: named.then(|| self.form_title(relation, form)),
            html: self.lexicon.law_html(relation, form),
            source: self.source(relation, form),
        };
        let [us, si] = System::BOTH.map(|form| relation.forms.of(form));
        if us.law == si.law && us.source.document == si.source.document {
            vec![law(System::Us, false)]
        } else {
            System::BOTH.map(|form| law(form, true)).into()
        }
    }

    /// Which form of a law it is, with the units in it.
    fn form_title(&self, relation: &Relation, form: System) -> String {
        let kinds = relation.inputs.iter().filter_map(|input| match input.form {
            Form::Quantity(kind, _) => Some(kind),
            Form::Choice(_) => None,
        });
        let mut units: Vec<_> = kinds
            .chain([relation.kind()])
            .filter_map(|kind| relief::law_unit(relation, kind, form))
            .map(|unit| display::unit_text(unit, 2.0))
            .collect();
        units.sort();
        units.dedup();
        let key = if units.is_empty() { "pages.relations.form" } else { "pages.relations.form_in" };
        let system = self.words.get(&format!("pages.relations.forms.{}", form.id())).to_owned();
        self.words.fill(key, &[("form", &system), ("units", &units.join(", "))])
    }

    fn input_row(&self, relation: &Relation, input: &Input) -> Row {
        let (kind, range) = match &input.form {
            Form::Quantity(kind, range) => (kind.id(), self.range(relation, *kind, range)),
            Form::Choice(names) => ("choice", self.choice_list(names)),
        };
        Row {
            symbol_html: self.lexicon.math_html(input.symbol, false),
            name: self.words.named("inputs", relation.id, input.name).to_owned(),
            kind: self.words.get(&format!("kinds.{kind}")).to_owned(),
            range,
            default: input.default.as_ref().map(|default| self.default(relation, default)),
        }
    }

    fn output_row(&self, relation: &Relation, output: &Output) -> Row {
        let kind = match output.gives {
            Gives::Quantity(kind) => kind.id(),
            Gives::Choice(_) => "choice",
        };
        Row {
            symbol_html: self.lexicon.math_html(output.symbol, false),
            name: self.words.named("outputs", relation.id, output.name).to_owned(),
            kind: self.words.get(&format!("kinds.{kind}")).to_owned(),
            range: String::new(),
            default: None,
        }
    }

    fn choice_list(&self, names: &[&str]) -> String {
        let text = |name: &&str| self.words.get(&format!("choices.{name}")).to_owned();
        names.iter().map(text).collect::<Vec<_>>().join("; ")
    }

    fn range(&self, relation: &Relation, kind: Kind, range: &Range) -> String {
        let shown = |si: f64| self.shown(relation, Quantity::new(si, kind));
        let (key, low) = match (range.low, range.open) {
            (Bound::Above(low), true) => ("pages.relations.above_alone", low),
            (Bound::Including(low), true) => ("pages.relations.from_alone", low),
            (Bound::Above(low), false) => ("pages.relations.above", low),
            (Bound::Including(low), false) => ("pages.relations.from", low),
        };
        self.words.fill(key, &[("low", &shown(low)), ("high", &shown(range.high))])
    }

    fn default(&self, relation: &Relation, default: &relief::Default) -> String {
        let value = match default.value {
            Argument::Quantity(quantity) => self.shown(relation, quantity),
            Argument::Choice(name) => self.words.get(&format!("choices.{name}")).to_owned(),
        };
        format!("{value} ({})", default.source)
    }

    fn shown(&self, relation: &Relation, quantity: Quantity) -> String {
        let unit = unit_for(relation, quantity.kind, self.system());
        display::to_figures(quantity, unit, display::WORKING_FIGURES, Rounding::Nearest, self.mark())
    }
}
