//! The pages of a site: which there are, and each by itself.

use course::Coverage;

use super::live::Live;
use super::lookup::Titles;
use super::{REFERENCE, RenderError, Renderer, coverage, family_address, practice, tables_address};

/// A page of the site; where there are several of a sort, with its place among them.
#[derive(Clone, Copy, Debug)]
pub(super) enum SitePage {
    Index,
    Practice,
    Progress,
    Terms,
    Coverage(usize),
    Family(usize),
    Tables(usize),
    Lesson(usize),
    Recipe(usize),
    Term(usize),
}

/// What several pages need, worked out once.
pub(super) struct Common<'r> {
    live: Live,
    titles: Titles<'r>,
    coverage: Coverage<'r>,
}

impl Renderer<'_> {
    /// Every page. Those that tell of all lessons come first: in a large course they take longest, and no thread should
    /// begin one of them last.
    pub(super) fn site_pages(&self) -> Vec<SitePage> {
        use SitePage::{Coverage, Family, Index, Lesson, Practice, Progress, Recipe, Tables, Term, Terms};
        let course = self.course;
        let coverage = (0..=coverage::INNER.len()).map(Coverage);
        let families = (0..relief::FAMILIES.len()).map(Family);
        let tables = (0..relief::TABLES.len()).map(Tables);
        let (lessons, recipes) = ((0..course.lessons.len()).map(Lesson), (0..course.recipes.len()).map(Recipe));
        let terms = (0..course.terms.len()).map(Term);
        let first = coverage.chain([Practice, Progress, Index, Terms]).chain(families).chain(tables);
        first.chain(lessons).chain(recipes).chain(terms).collect()
    }

    pub(super) fn common(&self) -> Result<Common<'_>, RenderError> {
        Ok(Common { live: Live::new(self)?, titles: self.titles(), coverage: Coverage::of(self.course) })
    }

    /// Renders a page; with its address.
    pub(super) fn site_page(&self, page: SitePage, common: &Common) -> Result<(String, String), RenderError> {
        let own = |address: &str, html: Result<String, RenderError>| Ok((self.address(address), html?));
        match page {
            SitePage::Index => Ok(("index.html".to_owned(), self.index()?)),
            SitePage::Practice => own(practice::PRACTICE, self.practising()),
            SitePage::Progress => own(practice::PROGRESS, self.progress()),
            SitePage::Terms => own(REFERENCE, self.terms()),
            SitePage::Coverage(place) => self.coverage(place, &common.coverage),
            SitePage::Family(place) => {
                let family = &relief::FAMILIES[place];
                own(&family_address(family.id), self.family(family, place))
            }
            SitePage::Tables(place) => {
                let family = &relief::TABLES[place];
                own(&tables_address(family.id), self.tables(family, place))
            }
            SitePage::Lesson(place) => self.lesson(place, &common.live),
            SitePage::Recipe(place) => self.recipe_page(place),
            SitePage::Term(place) => self.term_page(place, &common.titles),
        }
    }
}
