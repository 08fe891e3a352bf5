//! Where the pages of a site are. Texts, templates and the preview take every address from here.
//!
//! A page's own address is below the folder of its language: `lessons/parts.html`.

/// From any page below the folder of a language to the top of the site: such a page is two folders deep.
pub const ROOT: &str = "../../";

/// The list of all terms; `#id` leads to one of them.
pub const TERMS: &str = "terms/index.html";

/// The page of a lesson.
#[must_use]
pub fn lesson(id: &str) -> String {
    format!("lessons/{id}.html")
}

/// The page of a term.
#[must_use]
pub fn term(id: &str) -> String {
    format!("terms/{id}.html")
}

/// The page of a recipe.
#[must_use]
pub fn recipe(id: &str) -> String {
    format!("practice/{id}.html")
}

/// The family of the relations of a course's own.
pub const OWN: &str = "own";

/// The reference page of a family of relations; `#id` leads to one of them.
#[must_use]
pub fn relations(family: &str) -> String {
    format!("relations/{family}.html")
}

/// The page of a family of reference tables; `#id` leads to one of them.
#[must_use]
pub fn tables(family: &str) -> String {
    format!("tables/{family}.html")
}

/// The address of a page from the top of the site.
#[must_use]
pub fn from_top(language: &str, page: &str) -> String {
    format!("{language}/{page}")
}

/// The link to a page from any page below the folder of a language.
#[must_use]
pub fn from_page(language: &str, page: &str) -> String {
    format!("{ROOT}{language}/{page}")
}
