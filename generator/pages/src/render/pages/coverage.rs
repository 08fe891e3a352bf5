//! The sheet of coverage, for instructors: what practises each objective. What is missing is marked by a sign and in words.

use std::collections::BTreeMap;

use course::{Coverage, Lesson, Objective, addresses};
use problems::Recipe;
use serde::Serialize;

use crate::render::context::Page;
use crate::render::coverage_cells::{OnSheet, RecipeCell};
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::recipe_list::LEVELS;
use crate::render::renderer::Renderer;

/// Where the sheet is.
pub(super) const ADDRESS: &str = "coverage/index.html";

pub(super) const KIND: PageKind = PageKind {
    name: "coverage",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Left,
    entries: |_, words| vec![Entry::new(words.get("pages.coverage.title"), ADDRESS)],
    render: |renderer, page, _| renderer.coverage(&page),
};

#[derive(Serialize)]
struct LessonRows<'c> {
    sheet: OnSheet<'c>,
    /// The terms that it is the first to use.
    explains: Vec<TermName<'c>>,
    objectives: Vec<ObjectiveRow<'c>>,
}

#[derive(Serialize)]
struct TermName<'c> {
    id: &'c str,
    term: &'c str,
}

#[derive(Serialize)]
struct ObjectiveRow<'c> {
    text: &'c str,
    practised: bool,
    /// The lessons that show one of its recipes.
    shown: Vec<OnSheet<'c>>,
    /// Its recipes by level, from 1.
    levels: Vec<Vec<RecipeCell<'c>>>,
}

impl Renderer<'_> {
    fn coverage(&self, page: &Page) -> Result<String, RenderError> {
        let coverage = Coverage::of(self.course);
        let lessons = self.lesson_rows(&coverage);
        let objectives = lessons.iter().flat_map(|lesson| &lesson.objectives);
        let gaps = objectives.filter(|objective| !objective.practised).count();
        self.page("coverage.html", page, |context| {
            context.insert("inner", &self.prepared.sheets.within(&self.address(ADDRESS)));
            context.insert("counts", &self.counts(&coverage, gaps));
            context.insert("levels", &self.levels());
            context.insert("lessons", &lessons);
        })
    }

    /// How much there is, and how many objectives nothing practises.
    fn counts(&self, coverage: &Coverage, gaps: usize) -> String {
        let numbers = [
            ("objectives", coverage.taught.len()),
            ("recipes", self.course.recipes.len()),
            ("terms", self.course.terms.len()),
            ("gaps", gaps),
        ];
        let texts = numbers.map(|(name, number)| (name, number.to_string()));
        self.words.fill("pages.coverage.counts", &texts.each_ref().map(|(name, text)| (*name, text.as_str())))
    }

    fn lesson_rows<'r>(&'r self, coverage: &Coverage<'r>) -> Vec<LessonRows<'r>> {
        let mut explains = self.explained(coverage);
        let row = |(place, lesson): (usize, &'r Lesson)| LessonRows {
            sheet: self.on_sheet(place),
            explains: explains.remove(&place).unwrap_or_default(),
            objectives: lesson.objectives.iter().map(|objective| self.objective_row(objective, coverage)).collect(),
        };
        self.course.lessons.iter().enumerate().map(row).collect()
    }

    /// The terms by the places of the lessons that are the first to use them.
    fn explained(&self, coverage: &Coverage) -> BTreeMap<usize, Vec<TermName<'_>>> {
        let mut explains: BTreeMap<usize, Vec<TermName>> = BTreeMap::new();
        for term in &self.course.terms {
            if let Some(first) = coverage.using(&term.id).first() {
                explains.entry(*first).or_default().push(TermName { id: &term.id, term: &term.term });
            }
        }
        explains
    }

    fn objective_row<'r>(&'r self, objective: &'r Objective, coverage: &Coverage<'r>) -> ObjectiveRow<'r> {
        let recipes = coverage.practising(&objective.id);
        let of_level = |level: &u8| {
            let recipes = recipes.iter().filter(|recipe| recipe.level == *level);
            recipes.map(|recipe| self.recipe_cell(recipe, coverage)).collect()
        };
        ObjectiveRow {
            text: &objective.text,
            practised: !recipes.is_empty(),
            shown: showing(recipes, coverage).into_iter().map(|place| self.on_sheet(place)).collect(),
            levels: LEVELS.iter().map(of_level).collect(),
        }
    }
}

/// The places of the lessons that show one of some recipes, each once.
fn showing(recipes: &[&Recipe], coverage: &Coverage) -> Vec<usize> {
    let mut places: Vec<_> = recipes.iter().flat_map(|recipe| coverage.showing(&recipe.id)).copied().collect();
    places.sort_unstable();
    places.dedup();
    places
}
