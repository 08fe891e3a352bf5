//! A checked course. It is valid: nothing later checks it again.

use std::collections::BTreeMap;

use figures::Shape;
use imagesize::ImageSize;
use problems::recipe::{Recipe, System};
use relief::units::Unit;
use relief::{Quantity, Relation};

use crate::captions::Cue;
use crate::fault::{Faults, Place};
use crate::handouts::{Handout, Medium};
use crate::pictures::media_type;
use crate::placing::Placing;

/// A course.
#[derive(Debug, PartialEq)]
pub struct Course {
    /// The id under which a browser keeps what a learner does.
    pub id: String,
    /// The title.
    pub title: String,
    /// Who answers for it.
    pub owner: String,
    /// Its revision, as the owner counts them.
    pub revision: Option<String>,
    /// What else the title block says of it, in its order.
    pub imprint: Vec<Imprint>,
    /// The owner's logo.
    pub logo: Option<Logo>,
    /// The colours of links and marks on paper and on blueprint; each can be read on its ground.
    pub colours: Option<[String; 2]>,
    /// The language, as addresses have it: `en`.
    pub language: String,
    /// The system of units that pages start in.
    pub units: System,
    /// `.` or `,`.
    pub decimal_mark: char,
    /// The notice that the course carries on every sheet with a calculation, a limit or an adjustment.
    pub safety: String,
    /// The lessons, in their order.
    pub lessons: Vec<Lesson>,
    /// The terms, in the order of their names.
    pub terms: Vec<Term>,
    /// The recipes, in the order in which the lessons teach what they practise, and the easier ones first.
    pub recipes: Vec<RecipeFile>,
    /// The relations of its own, each after those that it calls.
    pub relations: Vec<OwnRelation>,
    /// What is said of them, by the keys under which the theme has the words of relations.
    pub words: BTreeMap<String, String>,
    /// The pictures that texts use.
    pub images: Vec<Image>,
    /// The files to hand out that texts use.
    pub handouts: Vec<Handout>,
    /// The pictures with areas, as their author wrote them.
    pub pictures: Vec<AreasFile>,
    /// What its author should look at, by the codes of [`faults::Code::WARNINGS`], in the order of faults.
    pub warnings: Faults,
}

/// A relation of a course's own.
#[derive(Debug, PartialEq)]
pub struct OwnRelation {
    /// The relation.
    pub relation: &'static Relation,
    /// More about it.
    pub body_html: String,
    /// The source of its worked example, and who worked it again.
    pub checked: Option<(String, String)>,
    /// Its file.
    pub file: String,
}

impl Course {
    /// The relation with an id: one of the core, or of this course.
    #[must_use]
    pub fn relation(&self, id: &str) -> Option<&'static Relation> {
        relief::find(id).or_else(|| self.own_relations().into_iter().find(|relation| relation.id == id))
    }

    /// The relations of its own.
    #[must_use]
    pub fn own_relations(&self) -> Vec<&'static Relation> {
        self.relations.iter().map(|own| own.relation).collect()
    }
}

/// Something that the title block says of a course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Imprint {
    /// The key in `course.yaml`, under which the theme has its name.
    pub name: &'static str,
    /// What it says.
    pub text: String,
}

/// A logo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Logo {
    /// Its place in the course and in the site, with `/`.
    pub file: String,
    /// Its width and height.
    pub size: (usize, usize),
}

/// A lesson.
#[derive(Debug, PartialEq)]
pub struct Lesson {
    /// The name, the same in addresses.
    pub id: String,
    /// The title.
    pub title: String,
    /// What it is about, in a sentence or two.
    pub summary: String,
    /// What it teaches.
    pub objectives: Vec<Objective>,
    /// Its text, cut at the blocks that pages render.
    pub blocks: Vec<Block>,
    /// Its headings.
    pub headings: Vec<Heading>,
    /// How many words it has.
    pub words: usize,
    /// Ids of the terms that it mentions, in the order of their first mention.
    pub terms: Vec<String>,
    /// Its file.
    pub file: String,
}

impl Lesson {
    /// Calls `found` with each of its blocks, and right after a block with those inside it.
    pub fn each_block<'l>(&'l self, found: &mut dyn FnMut(&'l Block)) {
        each(&self.blocks, found);
    }
}

fn each<'l>(blocks: &'l [Block], found: &mut dyn FnMut(&'l Block)) {
    for block in blocks {
        found(block);
        if let Block::Shown(shown) = block {
            each(&shown.becomes, found);
        }
    }
}

/// What a lesson teaches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Objective {
    /// The name that recipes use.
    pub id: String,
    /// What the learner can do then.
    pub text: String,
}

/// A piece of a lesson.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// Ready HTML.
    Html(String),
    /// Problems from a recipe of the course.
    Practice(Practice),
    /// A relation with values to change.
    Work(Work),
    /// A drawing or plot.
    Figure(Figure),
    /// A picture that has a paragraph to itself.
    Picture(Picture),
    /// Sound or film.
    Media(Media),
    /// A piece of source beside what it becomes.
    Shown(Shown),
    /// A term of the course, as the list of terms has it.
    Term(String),
    /// The head of a lesson of the course: its title, its summary and what it teaches.
    Head(String),
}

/// A piece of source beside what it becomes.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The file that is shown; `None` for a piece of the lesson itself.
    pub file: Option<String>,
    /// The source, with `\n` at the end of its lines.
    pub source: String,
    /// What it becomes.
    pub becomes: Vec<Block>,
}

/// Problems from a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Practice {
    /// The recipe.
    pub recipe: String,
}

/// A relation with values to start from. All its inputs are there or have a default, and they are lawful together.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// The relation.
    pub relation: &'static Relation,
    /// What is given, in the author's order.
    pub given: Vec<Given>,
    /// The unit of the result; `None` for the usual one.
    pub unit: Option<&'static Unit>,
}

/// A value given to an input.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The input.
    pub name: &'static str,
    /// As the author wrote it, with a point for its decimal mark.
    pub text: String,
}

/// A drawing or plot. It can be drawn from its parameters.
#[derive(Clone, Debug)]
pub struct Figure {
    /// The figure.
    pub figure: &'static figures::Figure,
    /// What it is drawn from.
    pub parameters: figures::Parameters,
    /// What it shows.
    pub caption: String,
    /// Where its author wants it.
    pub placing: Option<Placing>,
    /// Its number in the lesson, from one.
    pub number: usize,
    /// Its id in the page.
    pub anchor: String,
}

/// A picture that has a paragraph to itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The picture, with its words.
    pub html: String,
    /// Its width and height, where its file says them.
    pub size: Option<(usize, usize)>,
    /// Where its author wants it.
    pub placing: Option<Placing>,
}

/// Sound or film.
#[derive(Clone, Debug, PartialEq)]
pub struct Media {
    /// Its place in the course and in the site, with `/`.
    pub file: String,
    /// Sound or film.
    pub medium: Medium,
    /// What it is called.
    pub title: String,
    /// Its form and size, as learners read them.
    pub note: String,
    /// What is said in it, and when; none where its author gives no captions.
    pub cues: Vec<Cue>,
    /// Its id in the page.
    pub anchor: String,
    /// Where the lesson names it.
    pub(crate) place: Place,
}

/// A heading of a lesson.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heading {
    /// From 2 to 6.
    pub level: u8,
    /// Its id in the page.
    pub anchor: String,
    /// What it says.
    pub text: String,
}

/// A term.
#[derive(Debug, PartialEq)]
pub struct Term {
    /// The name, the same in addresses.
    pub id: String,
    /// The term.
    pub term: String,
    /// Other wordings.
    pub also: Vec<String>,
    /// Ids of terms that it is not to be confused with.
    pub confused_with: Vec<String>,
    /// What it means, as plain text.
    pub definition: String,
    /// The same as HTML.
    pub definition_html: String,
    /// More about it.
    pub body_html: String,
    /// Where the definition comes from.
    pub source: String,
    /// Ids of the lessons that mention it, in their order.
    pub lessons: Vec<String>,
    /// Its file.
    pub file: String,
}

/// A picture to copy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Image {
    /// Its place in the course and in the site, with `/`.
    pub file: String,
    /// What it holds, without what a camera or a program wrote about itself.
    pub bytes: Vec<u8>,
    /// Its size in pixels, as it is shown.
    pub size: ImageSize,
}

/// A picture with areas, as its author wrote it.
#[derive(Clone, Debug, PartialEq)]
pub struct AreasFile {
    /// The place of the picture itself in the course and in the site.
    pub shows: String,
    /// The keys of its head that are texts, each with its text.
    pub head: Vec<(&'static str, String)>,
    /// Its areas.
    pub areas: Vec<NamedArea>,
}

/// An area of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedArea {
    /// The name by which recipes mean it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// Other words for it.
    pub also: Vec<String>,
    /// What is said to whoever points at it.
    pub why: Option<String>,
    /// Its outline.
    pub shape: Shape,
}

impl Image {
    /// What kind of file it is, as a server and an address of data say it.
    #[must_use]
    pub fn media_type(&self) -> &'static str {
        media_type(&self.file)
    }
}

/// The pictures of a course by their files; nothing of those that were refused.
pub(crate) type Images = BTreeMap<String, Option<Image>>;

/// A recipe with the file it was read from.
#[derive(Debug)]
pub struct RecipeFile {
    /// The compiled recipe.
    pub recipe: Recipe,
    /// Its compiled form as text.
    pub compiled: String,
    /// Its file.
    pub file: String,
    /// The text of the file.
    pub(crate) text: String,
}

/// Two drawings are the same where they draw the same figure from the same values.
impl PartialEq for Figure {
    fn eq(&self, other: &Self) -> bool {
        self.named() == other.named() && self.given().eq(other.given())
    }
}

impl Figure {
    fn named(&self) -> (&str, usize, &str, &str, Option<Placing>) {
        (self.figure.id, self.number, &self.caption, &self.anchor, self.placing)
    }

    fn given(&self) -> impl Iterator<Item = (&str, Quantity, &str)> {
        self.parameters.iter().map(|(name, measure)| (name.as_str(), measure.quantity, measure.unit.symbol))
    }
}

/// Two recipes are the same where their files are.
impl PartialEq for RecipeFile {
    fn eq(&self, other: &Self) -> bool {
        self.file == other.file && self.text == other.text
    }
}
