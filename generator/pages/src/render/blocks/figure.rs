//! A drawing or plot with its caption and its list of parts.

use course::Figure;
use serde::Serialize;
use tera::Context;

use crate::render::error::RenderError;
use crate::render::renderer::Renderer;

#[derive(Serialize)]
struct Part {
    number: u8,
    name: String,
    job: String,
}

impl Renderer<'_> {
    pub(super) fn figure(&self, figure: &Figure) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("id", &figure.anchor);
        context.insert("svg_html", &self.mark().print_in(self.drawn(figure)?));
        context.insert("caption", &figure.caption);
        context.insert("number", &figure.number);
        context.insert("parts", &self.parts(figure.figure));
        self.template("figure.html", &context)
    }

    fn drawn(&self, figure: &Figure) -> Result<String, RenderError> {
        let row = figure.figure;
        let label = |key: &str| self.words.get(&format!("figures.{}.{key}", row.id)).to_owned();
        let drawn = row.draw(&figure.parameters, &label, &figure.anchor);
        drawn.map_err(|error| RenderError::Figure(row.id.to_owned(), format!("{error:?}")))
    }

    /// The numbered parts of a figure, in the order of their balloons.
    fn parts(&self, figure: &figures::Figure) -> Vec<Part> {
        let word = |part: &figures::Part, name: &str| {
            self.words.get(&format!("figures.{}.parts.{}.{name}", figure.id, part.id)).to_owned()
        };
        let part =
            |part: &figures::Part| Part { number: part.number, name: word(part, "name"), job: word(part, "job") };
        figure.parts.iter().map(part).collect()
    }
}
