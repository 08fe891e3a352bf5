//! Every file of a site: its address and how it is made.

use std::borrow::Cow;

use course::{Course, addresses};
use relief::Table;
use relief::tables::tables;

use super::Content;
use super::error::RenderError;
use super::kind::{Entry, Navigation, Order, PageKind};
use super::pages::PAGES;
use super::renderer::{Led, Prepared, Renderer};
use super::scripts;
use super::sheets::Sheets;
use super::table_text;
use crate::words::Words;
use crate::{engine, theme};

/// Where the colours of a course are in a site.
const OWN_STYLE: &str = "styles/course.css";

/// A file of a site.
pub(super) struct SiteFile {
    /// From the top of the site.
    pub(super) address: String,
    made: Made,
}

/// How a file is made.
#[derive(Clone, Copy)]
enum Made {
    /// It is a part of the theme or of the engine.
    Kept(&'static str),
    WordsScript,
    /// The colours of the course.
    OwnStyle,
    UnitsScript,
    /// The script of the recipe at a place in the course.
    RecipeScript(usize),
    /// The picture at a place in the course.
    Image(usize),
    /// The file to hand out at a place in the course.
    Handout(usize),
    Table(&'static Table),
    Page {
        kind: &'static PageKind,
        /// Its place among the pages of its kind.
        place: usize,
        /// Its place among all pages.
        sheet: usize,
    },
}

impl SiteFile {
    fn new(address: impl Into<String>, made: Made) -> Self {
        Self { address: address.into(), made }
    }

    /// What the file holds.
    pub(super) fn content<'r>(&self, renderer: &Renderer<'r>) -> Result<Content<'r>, RenderError> {
        Ok(Content::Bytes(match self.made {
            Made::Handout(place) => return Ok(Content::Handout(&renderer.course.handouts[place])),
            Made::Kept(text) => Cow::Borrowed(text.as_bytes()),
            Made::OwnStyle => owned(own_style(renderer.course)),
            Made::WordsScript => owned(scripts::words(renderer.words)),
            Made::UnitsScript => owned(scripts::units(&renderer.course.own_relations())),
            Made::RecipeScript(place) => owned(scripts::recipe(&renderer.course.recipes[place])),
            Made::Image(place) => Cow::Borrowed(&renderer.course.images[place].bytes),
            Made::Table(table) => owned(renderer.table_file(table)),
            Made::Page { kind, place, sheet } => {
                owned((kind.render)(renderer, renderer.blank(kind.name, kind.root, sheet), place)?)
            }
        }))
    }
}

/// The style sheet with the colours of a course. Its layer comes after that of the theme's own colours, and before print.
fn own_style(course: &Course) -> String {
    let rule = |[paper, blueprint]: &[String; 2]| {
        format!("@layer text {{\n  :root {{ --accent: light-dark({paper}, {blueprint}); }}\n}}\n")
    };
    course.colours.as_ref().map(rule).unwrap_or_default()
}

fn owned<'r>(text: String) -> Cow<'r, [u8]> {
    Cow::Owned(text.into_bytes())
}

/// The files of a course's site.
pub(super) struct Listed {
    /// Those that are large or many, and take longest.
    pub(super) pages: Vec<SiteFile>,
    /// Those beside them.
    pub(super) others: Vec<SiteFile>,
}

/// Every file of a course's site, and what its pages are rendered with.
///
/// # Errors
/// [`RenderError::Template`].
pub(super) fn files(course: &Course, words: &Words) -> Result<(Listed, Prepared), RenderError> {
    let mut listing = Listing { course, words, sheets: Sheets::default(), navigation: Vec::new() };
    let mut kinds: Vec<Vec<SiteFile>> = PAGES.into_iter().map(|kind| listing.pages(kind)).collect();
    // A kind with few pages lists all lessons: in a large course such a page takes longest, and no thread should begin one
    // of them last.
    kinds.sort_by_key(Vec::len);
    let pages = kinds.into_iter().flatten().collect();
    let others = kept().chain(of_course(course)).collect();
    Ok((Listed { pages, others }, Prepared::new(course, words, listing.sheets, listing.navigation)?))
}

/// Puts the pages in their order.
struct Listing<'c> {
    course: &'c Course,
    words: &'c Words,
    sheets: Sheets,
    navigation: Vec<Led>,
}

impl Listing<'_> {
    fn pages(&mut self, kind: &'static PageKind) -> Vec<SiteFile> {
        let entries = (kind.entries)(self.course, self.words).into_iter().enumerate();
        entries.map(|(place, entry)| self.page(kind, place, entry)).collect()
    }

    fn page(&mut self, kind: &'static PageKind, place: usize, entry: Entry) -> SiteFile {
        let below = !kind.root.is_empty();
        let address = if below { addresses::from_top(&self.course.language, &entry.address) } else { entry.address };
        if place == 0 && kind.navigation != Navigation::Left {
            let reference = kind.navigation == Navigation::Reference;
            self.navigation.push(Led { kind: kind.name, address: address.clone(), reference });
        }
        let sheet = match kind.order {
            Order::Sheets => self.sheets.add(entry.title, address.clone()),
            Order::Within => self.sheets.add_within(entry.title, address.clone()),
        };
        SiteFile::new(address, Made::Page { kind, place, sheet })
    }
}

/// The files that are the same in every site.
fn kept() -> impl Iterator<Item = SiteFile> {
    let styles = theme::STYLES.iter().map(|(name, text)| (format!("styles/{name}"), *text));
    let scripts = theme::SCRIPTS.iter().map(|(name, text)| (format!("scripts/{name}"), *text));
    let engine = engine::FILES.iter().map(|(name, text)| ((*name).to_owned(), *text));
    styles.chain(scripts).chain(engine).map(|(address, text)| SiteFile::new(address, Made::Kept(text)))
}

/// The files beside the pages that depend on the course or its words.
fn of_course(course: &Course) -> impl Iterator<Item = SiteFile> {
    let scripts = [("scripts/words.js", Made::WordsScript), ("scripts/units.js", Made::UnitsScript)];
    let recipes = course.recipes.iter().enumerate();
    let recipes = recipes.map(|(place, file)| (format!("recipes/{}.js", file.recipe.id), Made::RecipeScript(place)));
    let images = course.images.iter().enumerate().map(|(place, image)| (image.file.clone(), Made::Image(place)));
    let style = course.colours.iter().map(|_| (OWN_STYLE.to_owned(), Made::OwnStyle));
    let handouts = course.handouts.iter().enumerate().map(|(place, file)| (file.file.clone(), Made::Handout(place)));
    let table = |table| (format!("tables/{}", table_text::file(table)), Made::Table(table));
    let tables = tables().map(table).map(|(page, made)| (addresses::from_top(&course.language, &page), made));
    let scripts = scripts.map(|(address, made)| (address.to_owned(), made));
    let all = scripts.into_iter().chain(style).chain(recipes).chain(images).chain(handouts).chain(tables);
    all.map(|(address, made)| SiteFile::new(address, made))
}
