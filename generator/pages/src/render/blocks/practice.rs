//! A problem to practise, drawn as a sample that can be read without scripts.

use course::addresses;
use problems::Recipe;
use problems::draw::{Problem, Setting, draw};
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::{AnswerView, PartView};
use serde::Serialize;
use tera::Context;

use crate::render::error::RenderError;
use crate::render::renderer::Renderer;

/// The number whose problem is in a page before scripts put fresh ones there.
const SAMPLE: u64 = 10_001;

#[derive(Serialize)]
struct Sample {
    id: &'static str,
    seed: u64,
    statement_html: String,
    parts: Vec<PartView>,
    start_html: Option<String>,
    working_html: String,
    answers: Vec<AnswerView>,
}

impl Renderer<'_> {
    /// The block of a recipe in a lesson, which leads to the recipe's own sheet. It is the same in every lesson, and
    /// rendered once.
    pub(super) fn practice_in_lesson(&self, id: &str) -> Result<&str, RenderError> {
        let Some(rendered) = self.prepared.practice.get(id) else { return Ok("") };
        if let Some(block) = rendered.get() {
            return Ok(block);
        }
        let file = self.course.recipes.iter().find(|file| file.recipe.id == id);
        let sheet = format!("../{}", addresses::recipe(id));
        let block = file.map_or(Ok(String::new()), |file| self.practice_block(&file.recipe, Some(&sheet)))?;
        Ok(rendered.get_or_init(|| block))
    }

    /// The block of a recipe: whole, or without what its own sheet has, to which it then leads.
    pub(crate) fn practice_block(
        &self,
        recipe: &Recipe,
        sheet_of_its_own: Option<&str>,
    ) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("recipe", &recipe.id);
        context.insert("title", &recipe.title);
        context.insert("level", &recipe.level);
        context.insert("level_text", &self.level_text(recipe.level));
        context.insert("objectives", &self.objective_texts(&recipe.objectives));
        context.insert("sample", &self.sample(recipe)?);
        context.insert("sheet_of_its_own", &sheet_of_its_own);
        self.template("practice.html", &context)
    }

    /// The sample, in the units of the course: without scripts nobody can turn to others.
    fn sample(&self, recipe: &Recipe) -> Result<Sample, RenderError> {
        let seed = Seed { text: SAMPLE.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
        let problem: Problem = draw(recipe, &seed, Setting { system: self.system(), mark: self.mark() })
            .map_err(|error| RenderError::Draw { recipe: recipe.id.clone(), error: error.into() })?;
        let (view, solution) = (problem.view(false, ""), problem.solution());
        Ok(Sample {
            id: self.system().id(),
            seed: SAMPLE,
            statement_html: view.statement,
            parts: view.parts,
            start_html: solution.start,
            working_html: solution.working,
            answers: solution.answers,
        })
    }

    fn objective_texts(&self, ids: &[String]) -> Vec<&str> {
        let all = || self.course.lessons.iter().flat_map(|lesson| &lesson.objectives);
        let text = |id: &String| all().find(|objective| objective.id == *id).map(|found| found.text.as_str());
        ids.iter().filter_map(text).collect()
    }
}
