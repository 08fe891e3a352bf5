//! What authors write in YAML, as it is read, before it is checked. The comments of the keys are also what editors show
//! of them: see [`schemas`](crate::schemas).

use problems::DecimalMark;
use problems::recipe::System;
use problems::recipe::raw::Entries;
use problems::recipe::schema::{Id, Scalar, Words};
use schemars::JsonSchema;
use serde::Deserialize;

/// The version of the formats that is read here.
pub(crate) const FORMAT: u32 = 1;

/// `course.yaml`.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawCourse {
    /// The version of the format that it is written in.
    #[schemars(extend("enum" = [FORMAT]))]
    pub(crate) format: u32,
    /// A short name of the course. What learners have worked is kept under it, so it is not changed later.
    #[schemars(with = "Id")]
    pub(crate) course_id: String,
    /// What the course is called.
    #[schemars(with = "Words")]
    pub(crate) title: String,
    /// Whose course it is, as the title block of every sheet says.
    #[schemars(with = "Words")]
    pub(crate) owner: String,
    /// How to reach whoever answers for the course: a telephone number, an address.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) contact: Option<String>,
    /// The revision of the course, as its owner counts them: C, 3, 2026-1.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) revision: Option<String>,
    /// The day of the revision: year, month and day, such as 2026-03-31.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) revision_date: Option<String>,
    /// Who wrote the course.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) prepared_by: Option<String>,
    /// Who checked it.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) checked_by: Option<String>,
    /// Who approved it for use.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) approved_by: Option<String>,
    /// The day by which it must be looked through again: year, month and day, such as 2027-03-31.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) review_due: Option<String>,
    /// The logo in the title block: a PNG or SVG in the folder images of the course, such as images/logo.png.
    #[serde(default)]
    #[schemars(with = "Words")]
    pub(crate) logo: Option<String>,
    /// The colour of links and marks, for each of the two looks.
    #[serde(default)]
    #[schemars(with = "RawColours")]
    pub(crate) colours: Option<RawColours>,
    /// The language of the course: two letters, which also name the folder of its lessons.
    #[schemars(length(equal = 1), inner(regex(pattern = "^[a-z]{2}$")))]
    pub(crate) languages: Vec<String>,
    /// The units that pages show first: customary (us) or SI (si).
    #[schemars(extend("enum" = System::BOTH.map(System::id)))]
    pub(crate) units: String,
    /// What is written before the decimals.
    #[schemars(extend("enum" = DecimalMark::BOTH.map(DecimalMark::sign)))]
    pub(crate) decimal_mark: String,
    /// The notice of safety on the first sheet; every other one has a short notice besides.
    #[schemars(with = "Words")]
    pub(crate) safety: String,
    /// The order of the lessons, by their ids.
    #[schemars(with = "Vec<Id>", length(min = 1), extend("uniqueItems" = true))]
    pub(crate) lessons: Vec<String>,
}

/// The colours of a course.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawColours {
    /// On paper, the light look: # and six digits, such as #a33a12.
    #[schemars(with = "Words")]
    pub(crate) paper: String,
    /// On blueprint, the dark look.
    #[schemars(with = "Words")]
    pub(crate) blueprint: String,
}

/// The front matter of a lesson.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawLesson {
    /// The version of the format that it is written in.
    #[schemars(extend("enum" = [FORMAT]))]
    pub(crate) format: u32,
    /// The name of the lesson; it becomes the address of its page.
    #[schemars(with = "Id")]
    pub(crate) id: String,
    /// What the lesson is called.
    #[schemars(with = "Words")]
    pub(crate) title: String,
    /// What it is about, in one or two sentences for the sheet index.
    #[schemars(with = "Words")]
    pub(crate) summary: String,
    /// What somebody can do who has worked it.
    #[schemars(length(min = 1))]
    pub(crate) objectives: Vec<RawObjective>,
    /// Made-up numbers, by name: each a number with its unit, or a number alone.
    #[serde(default)]
    #[schemars(with = "Entries<Scalar>")]
    pub(crate) scenario: Entries<String>,
}

impl Clone for RawLesson {
    fn clone(&self) -> Self {
        Self {
            format: self.format,
            id: self.id.clone(),
            title: self.title.clone(),
            summary: self.summary.clone(),
            objectives: self.objectives.clone(),
            scenario: Entries(self.scenario.0.clone()),
        }
    }
}

/// An objective of a lesson.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawObjective {
    /// The name of the objective, by which recipes say what they practise.
    #[schemars(with = "Id")]
    pub(crate) id: String,
    /// What somebody can do then.
    pub(crate) text: String,
    /// `true`: who gets this wrong can be hurt, or can hurt somebody. Recipes that practise it name an unsafe answer.
    #[serde(default)]
    pub(crate) can_hurt: bool,
}

/// The head of a picture with areas to point at.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPicture {
    /// The version of the format that it is written in.
    #[schemars(extend("enum" = [FORMAT]))]
    pub(crate) format: u32,
    /// The name of the picture, by which recipes point at it.
    #[schemars(with = "Id")]
    pub(crate) id: String,
    /// What the picture is called.
    #[schemars(with = "Words")]
    pub(crate) title: String,
    /// What it shows, for those who cannot see it.
    #[schemars(with = "Words")]
    pub(crate) description: String,
    /// The file of the picture, by its address from here: ../images/pump.jpg
    #[schemars(with = "Words")]
    pub(crate) image: String,
    /// Where the picture comes from, and who may use it.
    #[schemars(with = "Words")]
    pub(crate) source: String,
    /// What can be pointed at, in the order of the numbers on the picture.
    #[schemars(length(min = 2))]
    pub(crate) areas: Vec<RawArea>,
}

/// An area of a picture: a rectangle, an ellipse or a polygon.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawArea {
    /// The name by which recipes mean the area.
    #[schemars(with = "Id")]
    pub(crate) id: String,
    /// What it is called.
    #[schemars(with = "Words")]
    pub(crate) name: String,
    /// Other words for it.
    #[serde(default)]
    #[schemars(with = "Vec<Words>")]
    pub(crate) also: Vec<String>,
    /// A rectangle, in per cent of the picture.
    pub(crate) rectangle: Option<RawBox>,
    /// An ellipse, by the rectangle around it, in per cent of the picture.
    pub(crate) ellipse: Option<RawBox>,
    /// The corners of a polygon, each with how far it is from the left and from the top, in per cent of the picture.
    #[schemars(length(min = 3, max = 100))]
    pub(crate) polygon: Option<Vec<[f64; 2]>>,
    /// What is said to whoever points at it, where the recipe says nothing else.
    pub(crate) why: Option<String>,
}

/// A rectangle, in per cent of a picture's width and height.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawBox {
    /// How far it is from the left edge.
    #[schemars(range(min = 0, max = 100))]
    pub(crate) left: f64,
    /// How far it is from the upper edge.
    #[schemars(range(min = 0, max = 100))]
    pub(crate) top: f64,
    /// How wide it is.
    #[schemars(range(min = 0, max = 100))]
    pub(crate) width: f64,
    /// How high it is.
    #[schemars(range(min = 0, max = 100))]
    pub(crate) height: f64,
}

/// The front matter of a term.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawTerm {
    /// The version of the format that it is written in.
    #[schemars(extend("enum" = [FORMAT]))]
    pub(crate) format: u32,
    /// The name of the term, by which texts link to it.
    #[schemars(with = "Id")]
    pub(crate) id: String,
    /// The term as it is said.
    #[schemars(with = "Words")]
    pub(crate) term: String,
    /// Other words for the same thing.
    #[serde(default)]
    #[schemars(with = "Vec<Words>")]
    pub(crate) also: Vec<String>,
    /// Ids of terms that it is easily confused with.
    #[serde(default)]
    #[schemars(with = "Vec<Id>")]
    pub(crate) confused_with: Vec<String>,
    /// What it means, in one or two sentences.
    #[schemars(with = "Words")]
    pub(crate) definition: String,
    /// Where the definition comes from: a document with its edition and clause, common practice, or from memory.
    #[schemars(with = "Words")]
    pub(crate) source: String,
}
