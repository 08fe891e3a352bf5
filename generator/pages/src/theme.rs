//! The embedded theme: templates, styles and scripts.

use tera::Tera;

macro_rules! files {
    ($folder:literal: $($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../theme/", $folder, "/", $name)))),*]
    };
}

const TEMPLATES: &[(&str, &str)] = files!("templates":
    "base.html", "components.html", "index.html", "lesson.html", "terms.html", "relations.html",
    "practice.html", "work.html", "figure.html", "samples.html",
);

/// The style sheets, in the order in which pages load them.
pub(crate) const STYLES: &[(&str, &str)] =
    files!("styles": "sheet.css", "text.css", "lists.css", "figures.css", "practice.css", "print.css");

/// The scripts.
pub(crate) const SCRIPTS: &[(&str, &str)] = files!("scripts":
    "start.js", "tools.js", "sheet.js", "terms.js", "engine-boot.js", "verdict.js", "practice.js", "work.js",
);

/// The scripts that every page loads after `start.js`, in order; the words come first.
pub(crate) const EVERY_PAGE: &[&str] = &["words.js", "tools.js", "sheet.js", "terms.js"];
/// What a page with a live problem or calculator loads besides, before the recipes.
pub(crate) const ENGINE: &[&str] = &["engine-glue.js", "engine-module.js", "engine-boot.js"];
/// What a page with a live problem loads after its recipes.
pub(crate) const PRACTICE: &[&str] = &["verdict.js", "practice.js"];
/// What a page with a calculator loads.
pub(crate) const WORK: &[&str] = &["work.js"];

/// The templates, ready to render.
pub(crate) fn templates() -> tera::TeraResult<Tera> {
    let mut tera = Tera::new();
    tera.autoescape_on(vec![".html"]);
    tera.add_raw_templates(TEMPLATES.iter().copied())?;
    Ok(tera)
}
