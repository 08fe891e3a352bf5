//! The texts of the reference, which the engine is built without.

/// A text of the reference: laws, sources, symbols. The engine in the browser is built without them, since pages have
/// them already; what is computed never depends on one.
pub(crate) const fn text(text: &'static str) -> &'static str {
    if cfg!(feature = "texts") { text } else { "" }
}
