//! What can keep a page from being rendered.

use problems::draw::DrawError;

/// Why a page could not be rendered. A checked and proven course gives none of these.
#[derive(Debug, thiserror::Error)]
pub enum RenderError {
    /// A template is at fault.
    #[error("template: {0}")]
    Template(#[from] tera::Error),
    /// A recipe could not be drawn.
    #[error("recipe {recipe}: the sample problem cannot be drawn ({})", error.id())]
    Draw {
        /// The recipe.
        recipe: String,
        /// Why not.
        error: Box<DrawError>,
    },
    /// A relation could not be worked.
    #[error("relation {relation}: {code}")]
    Work {
        /// The relation.
        relation: &'static str,
        /// Why not.
        code: &'static str,
    },
    /// A figure could not be drawn.
    #[error("figure {0}: {1}")]
    Figure(String, String),
}
