//! Coverage of relations, for instructors: which problems work with each.

use course::{Coverage, addresses};
use relief::{Family, Relation};
use serde::Serialize;

use crate::render::context::Page;
use crate::render::coverage_cells::RecipeCell;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::reference::family_title;
use crate::render::renderer::Renderer;

pub(super) const KIND: PageKind = PageKind {
    name: "coverage",
    root: addresses::ROOT,
    order: Order::Within,
    navigation: Navigation::Left,
    entries: |_, words| vec![Entry::new(words.get("pages.coverage.relations_title"), "coverage/relations.html")],
    render: |renderer, page, _| renderer.coverage_of_relations(&page),
};

#[derive(Serialize)]
struct FamilyRows<'c> {
    title: &'c str,
    address: String,
    relations: Vec<RelationRow<'c>>,
}

#[derive(Serialize)]
struct RelationRow<'c> {
    id: &'static str,
    title: &'c str,
    recipes: Vec<RecipeCell<'c>>,
}

impl Renderer<'_> {
    fn coverage_of_relations(&self, page: &Page) -> Result<String, RenderError> {
        let coverage = Coverage::of(self.course);
        let families: Vec<_> = relief::FAMILIES.iter().map(|family| self.family_rows(family, &coverage)).collect();
        self.page("coverage-relations.html", page, |context| context.insert("families", &families))
    }

    fn family_rows<'r>(&'r self, family: &'static Family, coverage: &Coverage<'r>) -> FamilyRows<'r> {
        FamilyRows {
            title: family_title(self.words, family),
            address: self.href(&addresses::relations(family.id)),
            relations: family.relations.iter().map(|relation| self.relation_row(relation, coverage)).collect(),
        }
    }

    fn relation_row<'r>(&'r self, relation: &'static Relation, coverage: &Coverage<'r>) -> RelationRow<'r> {
        let recipes = coverage.worked.get(relation.id).into_iter().flatten();
        RelationRow {
            id: relation.id,
            title: self.words.section("relations")[relation.id]["title"].as_str().unwrap_or(relation.id),
            recipes: recipes.map(|recipe| self.recipe_cell(recipe, coverage)).collect(),
        }
    }
}
