//! The embedded theme: templates, styles and scripts.

use tera::{Context, Tera};

macro_rules! files {
    ($folder:literal: $($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../theme/", $folder, "/", $name)))),*]
    };
}

const TEMPLATES: &[(&str, &str)] = files!("templates":
    "base.html", "zones.html", "switches.html", "components.html", "index.html", "lesson.html", "terms.html", "term.html", "relations.html",
    "tables.html",
    "practice.html", "asked.html", "practising.html", "recipe.html", "progress.html", "samples.html", "paper.html", "paper-key.html", "paper-head.html", "work.html",
    "figure.html", "media.html", "shown.html", "head.html", "term-entry.html", "term-alone.html",
    "coverage.html", "coverage-terms.html", "coverage-relations.html",
);

/// What is the same on every page: its template, and the name by which the others have what it gives.
const COMMON: [(&str, &str); 2] = [("zones.html", "zones_html"), ("switches.html", "switches_html")];

/// The style sheets, in the order in which pages load them.
pub(crate) const STYLES: &[(&str, &str)] =
    files!("styles": "sheet.css", "text.css", "lists.css", "figures.css", "practice.css", "forms.css", "print.css");

/// The text of one of the style sheets of the site.
#[must_use]
pub fn style_sheet(name: &str) -> Option<&'static str> {
    STYLES.iter().find(|(known, _)| *known == name).map(|(_, text)| *text)
}

/// The scripts.
pub(crate) const SCRIPTS: &[(&str, &str)] = files!("scripts":
    "start.js", "tools.js", "sheet.js", "terms.js", "engine-boot.js", "work.js",
    "kept.js", "record.js", "recipes.js", "field-number.js", "field-choice.js", "field-in-order.js",
    "field-match.js", "field-point-at.js", "field-fill-table.js", "verdict.js", "working.js", "problem.js", "practice.js",
    "choose.js", "session.js", "progress.js", "media.js",
);

/// The scripts that every page loads after `start.js`, in order; the words come first.
pub(crate) const EVERY_PAGE: &[&str] = &["words.js", "tools.js", "sheet.js", "terms.js"];
/// What a page with a live problem or calculator loads besides, before the recipes.
pub(crate) const ENGINE: &[&str] = &["engine-glue.js", "engine-module.js", "engine-boot.js"];
/// What a page with live problems loads after its recipes.
pub(crate) const PROBLEM: &[&str] = &[
    "kept.js",
    "record.js",
    "recipes.js",
    "field-number.js",
    "field-choice.js",
    "field-in-order.js",
    "field-match.js",
    "field-point-at.js",
    "field-fill-table.js",
    "verdict.js",
    "working.js",
    "problem.js",
];
/// What puts a live problem in the place of each sample.
pub(crate) const PRACTICE: &[&str] = &["practice.js"];
/// What the sheet of practice loads.
pub(crate) const SESSION: &[&str] = &["choose.js", "session.js"];
/// What the sheet of progress loads.
pub(crate) const PROGRESS: &[&str] = &["kept.js", "record.js", "choose.js", "progress.js"];
/// What a page with a calculator loads; the menus of units come first.
pub(crate) const WORK: &[&str] = &["units.js", "work.js"];

/// What a page with sound or film loads.
pub(crate) const MEDIA: &[&str] = &["media.js"];

/// The templates, ready to render.
pub(crate) fn templates() -> tera::TeraResult<Tera> {
    let mut tera = Tera::new();
    tera.autoescape_on(vec![".html"]);
    tera.add_raw_templates(TEMPLATES.iter().copied())?;
    Ok(tera)
}

/// Renders what is the same on every page, once, for the templates of pages. The words are there already.
pub(crate) fn render_common(tera: &mut Tera) -> tera::TeraResult<()> {
    for (template, name) in COMMON {
        let html = tera.render(template, &Context::new())?;
        tera.global_context().insert(name, html.trim());
    }
    Ok(())
}
