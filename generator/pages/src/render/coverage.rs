//! The sheets of coverage, for instructors: what practises each objective, where each term is used and first explained,
//! and which problems work with each relation. What is missing stands out by a sign and in words.

use std::collections::BTreeMap;

use course::{Coverage, Lesson, Objective, Term};
use problems::Recipe;
use relief::Relation;
use serde::Serialize;

use super::context::{Link, Page};
use super::lessons::ROOT;
use super::{RenderError, Renderer, Sheet, family_address};

/// The sheet of objectives, which stands in the list of sheets; the others are sheets within it.
pub(super) const COVERAGE: &str = "coverage/index.html";
/// The key of its title.
pub(super) const TITLE: &str = "pages.coverage.title";
/// The inner sheet of terms, with every lesson that uses each.
pub(super) const TERMS_COVERAGE: &str = "coverage/terms.html";
/// Its inner sheets: the key of the title and the address without the language.
pub(super) const INNER: [(&str, &str); 2] =
    [("pages.coverage.terms_title", TERMS_COVERAGE), ("pages.coverage.relations_title", "coverage/relations.html")];

/// The most lessons for which terms stand in a grid with a column for each; with more they stand in a list.
const WIDEST_GRID: usize = 24;

/// A lesson by its sheet.
#[derive(Clone, Copy, Serialize)]
struct OnSheet<'c> {
    id: &'c str,
    number: usize,
    title: &'c str,
}

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

#[derive(Serialize)]
struct RecipeCell<'c> {
    id: &'c str,
    title: &'c str,
    forms: String,
    shown: Vec<usize>,
}

#[derive(Serialize)]
struct TermRow<'c> {
    id: &'c str,
    term: &'c str,
    first: Option<OnSheet<'c>>,
    /// The sheets that use it later.
    later: Vec<usize>,
    /// For each lesson in a grid: 2 where it is the first to use the term, 1 where it uses it, 0 where it does not.
    cells: Vec<u8>,
}

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
    /// A sheet of coverage by its place, the outer one first; with its address.
    pub(super) fn coverage(&self, place: usize, coverage: &Coverage) -> Result<(String, String), RenderError> {
        Ok(match place {
            0 => (self.address(COVERAGE), self.covered_objectives(coverage)?),
            1 => (self.address(INNER[0].1), self.covered_terms(coverage)?),
            _ => (self.address(INNER[1].1), self.covered_relations(coverage)?),
        })
    }

    /// The way to the sheets of coverage as the cover has it.
    pub(super) fn coverage_link(&self) -> Link {
        self.sheets[self.coverage_place()].seen_from("")
    }

    fn coverage_place(&self) -> usize {
        let address = self.address(COVERAGE);
        self.sheets.iter().position(|sheet| sheet.0.href == address).unwrap_or_default()
    }

    fn covered_objectives(&self, coverage: &Coverage) -> Result<String, RenderError> {
        let lessons: Vec<_> = self.lesson_rows(coverage);
        let gaps =
            lessons.iter().flat_map(|lesson| &lesson.objectives).filter(|objective| !objective.practised).count();
        let page = self.coverage_page(None);
        self.page("coverage.html", &page, |context| {
            context.insert("inner", &self.inner_links());
            context.insert("counts", &self.counts(coverage, gaps));
            context.insert("levels", &self.levels());
            context.insert("lessons", &lessons);
        })
    }

    fn covered_terms(&self, coverage: &Coverage) -> Result<String, RenderError> {
        let lessons: Vec<_> = (0..self.course.lessons.len()).map(|place| self.on_sheet(place)).collect();
        let grid = lessons.len() <= WIDEST_GRID;
        let terms: Vec<_> = self.course.terms.iter().map(|term| self.term_row(term, coverage, grid)).collect();
        self.page("coverage-terms.html", &self.coverage_page(Some(0)), |context| {
            context.insert("grid", &grid);
            context.insert("lessons", &lessons);
            context.insert("terms", &terms);
        })
    }

    fn covered_relations(&self, coverage: &Coverage) -> Result<String, RenderError> {
        let families: Vec<_> = relief::FAMILIES.iter().map(|family| self.family_rows(family, coverage)).collect();
        self.page("coverage-relations.html", &self.coverage_page(Some(1)), |context| {
            context.insert("families", &families);
        })
    }

    /// The page of a sheet within the sheet of coverage, or of that sheet itself.
    fn coverage_page(&self, inner: Option<usize>) -> Page {
        let key = inner.map_or(TITLE, |inner| INNER[inner].0);
        let page = self.blank_page(self.words.get(key).to_owned(), "coverage", ROOT, self.coverage_place());
        Page { sheet: self.coverage_sheet(page.sheet, inner), ..page }
    }

    /// The inner sheets are numbered within the outer one, and one turns through them as through a book.
    fn coverage_sheet(&self, whole: Sheet, inner: Option<usize>) -> Sheet {
        let links = self.inner_links();
        let place = inner.map_or(0, |inner| inner + 1);
        let own = Link {
            number: whole.number.clone(),
            title: self.words.get(TITLE).to_owned(),
            href: "index.html".to_owned(),
        };
        Sheet {
            number: inner.map_or(whole.number, |inner| links[inner].number.clone()),
            of: whole.of,
            previous: if place == 0 { whole.previous } else { [own].iter().chain(&links).nth(place - 1).cloned() },
            next: links.get(place).cloned().or(whole.next),
        }
    }

    /// The ways to the inner sheets, from a page beside them.
    fn inner_links(&self) -> Vec<Link> {
        let outer = self.coverage_place() + 1;
        let link = |(place, (key, address)): (usize, (&str, &str))| Link {
            title: self.words.get(key).to_owned(),
            href: address.rsplit('/').next().unwrap_or(address).to_owned(),
            number: format!("{outer}.{}", place + 1),
        };
        INNER.into_iter().enumerate().map(link).collect()
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
        let mut explains: BTreeMap<usize, Vec<TermName>> = BTreeMap::new();
        for term in &self.course.terms {
            if let Some(first) = coverage.using(&term.id).first() {
                explains.entry(*first).or_default().push(TermName { id: &term.id, term: &term.term });
            }
        }
        let row = |(place, lesson): (usize, &'r Lesson)| LessonRows {
            sheet: self.on_sheet(place),
            explains: explains.remove(&place).unwrap_or_default(),
            objectives: lesson.objectives.iter().map(|objective| self.objective_row(objective, coverage)).collect(),
        };
        self.course.lessons.iter().enumerate().map(row).collect()
    }

    fn objective_row<'r>(&'r self, objective: &'r Objective, coverage: &Coverage<'r>) -> ObjectiveRow<'r> {
        let recipes = coverage.practising(&objective.id);
        let mut shown: Vec<_> = recipes.iter().flat_map(|recipe| coverage.showing(&recipe.id)).copied().collect();
        shown.sort_unstable();
        shown.dedup();
        let of_level = |level: &u8| {
            let recipes = recipes.iter().filter(|recipe| recipe.level == *level);
            recipes.map(|recipe| self.recipe_cell(recipe, coverage)).collect()
        };
        ObjectiveRow {
            text: &objective.text,
            practised: !recipes.is_empty(),
            shown: shown.into_iter().map(|place| self.on_sheet(place)).collect(),
            levels: super::practice::LEVELS.iter().map(of_level).collect(),
        }
    }

    fn recipe_cell<'r>(&self, recipe: &'r Recipe, coverage: &Coverage) -> RecipeCell<'r> {
        let mut forms: Vec<&str> = Vec::new();
        for ask in &recipe.asks {
            let form = ask.form.id();
            if !forms.contains(&form) {
                forms.push(form);
            }
        }
        let words: Vec<_> =
            forms.iter().map(|form| self.words.get(&format!("pages.coverage.forms.{form}")).to_owned()).collect();
        RecipeCell {
            id: &recipe.id,
            title: &recipe.title,
            forms: words.join(", "),
            shown: coverage.showing(&recipe.id).iter().map(|place| place + 2).collect(),
        }
    }

    fn term_row<'r>(&'r self, term: &'r Term, coverage: &Coverage, grid: bool) -> TermRow<'r> {
        let used = coverage.using(&term.id);
        let mut cells = vec![0; if grid { self.course.lessons.len() } else { 0 }];
        if grid {
            used.iter().enumerate().for_each(|(nth, place)| cells[*place] = if nth == 0 { 2 } else { 1 });
        }
        TermRow {
            id: &term.id,
            term: &term.term,
            first: used.first().map(|place| self.on_sheet(*place)),
            later: used.iter().skip(1).map(|place| place + 2).collect(),
            cells,
        }
    }

    fn family_rows<'r>(&'r self, family: &relief::Family, coverage: &Coverage<'r>) -> FamilyRows<'r> {
        let row = |relation: &'static Relation| RelationRow {
            id: relation.id,
            title: self.words.section("relations")[relation.id]["title"].as_str().unwrap_or(relation.id),
            recipes: (coverage.worked.get(relation.id).into_iter().flatten())
                .map(|recipe| self.recipe_cell(recipe, coverage))
                .collect(),
        };
        FamilyRows {
            title: self.words.section("families")[family.id].as_str().unwrap_or(family.id),
            address: format!("{ROOT}{}", self.address(&family_address(family.id))),
            relations: family.relations.iter().map(row).collect(),
        }
    }

    /// The lesson at a place, on its sheet: the cover is the first.
    fn on_sheet(&self, place: usize) -> OnSheet<'_> {
        let lesson = &self.course.lessons[place];
        OnSheet { id: &lesson.id, number: place + 2, title: &lesson.title }
    }
}
