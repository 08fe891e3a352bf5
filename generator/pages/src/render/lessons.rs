//! The cover and the lessons.

use std::borrow::Cow;

use course::{Block, Figure, Lesson, Shown};
use serde::Serialize;
use tera::Context;

use super::context::Page;
use super::live::Live;
use super::practice::RecipeContext;
use super::{RenderError, Renderer};
use crate::theme;

/// From a page in a folder of a language to the top of the site.
pub(super) const ROOT: &str = "../../";

#[derive(Serialize)]
struct LessonContext<'l> {
    title: &'l str,
    summary: &'l str,
    objectives: Vec<&'l str>,
    body_html: char,
    /// The other recipes to its objectives, which stand on the sheets of practice alone.
    more: Vec<RecipeContext<'l>>,
}

/// What the template has in the place of the lesson's text. The text is by far the larger part of a page: it is put in
/// afterwards, so that it is copied once. No file of a course holds this character.
const BODY: char = '\u{e000}';

#[derive(Serialize)]
struct IndexLesson<'l> {
    number: usize,
    title: &'l str,
    summary: &'l str,
    href: String,
    objectives: Vec<&'l str>,
}

#[derive(Serialize)]
struct Part {
    number: u8,
    name: String,
    job: String,
}

impl Renderer<'_> {
    pub(super) fn index(&self) -> Result<String, RenderError> {
        let lessons: Vec<_> = (self.course.lessons.iter().enumerate())
            .map(|(index, lesson)| IndexLesson {
                number: index + 2,
                title: &lesson.title,
                summary: &lesson.summary,
                href: self.address(&format!("lessons/{}.html", lesson.id)),
                objectives: objectives(lesson),
            })
            .collect();
        let page = self.blank_page(self.course.title.clone(), "index", "", 0);
        self.page("index.html", &page, |context| {
            context.insert("lessons", &lessons);
            context.insert("practice", &self.index_practice());
            context.insert("coverage", &self.coverage_link());
        })
    }

    pub(super) fn lesson(&self, index: usize, live: &Live) -> Result<(String, String), RenderError> {
        let lesson = &self.course.lessons[index];
        let mut page = self.blank_page(lesson.title.clone(), "lesson", ROOT, index + 1);
        page.scripts.extend(live_scripts(lesson));
        page.training_figures = true;
        let context = LessonContext {
            title: &lesson.title,
            summary: &lesson.summary,
            objectives: objectives(lesson),
            body_html: BODY,
            more: self.not_shown(lesson),
        };
        let frame = self.page("lesson.html", &page, |into| into.insert("lesson", &context))?;
        let (before, after) = frame.split_once(BODY).unwrap_or((&frame, ""));
        let blocks: Vec<_> = lesson.blocks.iter().map(|block| self.block(block, live)).collect::<Result<_, _>>()?;
        let parts = std::iter::once(before).chain(blocks.iter().map(|block| &**block)).chain([after]);
        Ok((self.address(&format!("lessons/{}.html", lesson.id)), parts.collect::<Vec<_>>().concat()))
    }

    /// The recipes to the objectives of a lesson that none of its blocks shows.
    fn not_shown(&self, lesson: &Lesson) -> Vec<RecipeContext<'_>> {
        let mut shown: Vec<&str> = Vec::new();
        lesson.each_block(&mut |block| {
            if let Block::Practice(practice) = block {
                shown.push(&practice.recipe);
            }
        });
        let practises = |id: &String| lesson.objectives.iter().any(|objective| objective.id == *id);
        self.recipes_where(|recipe| !shown.contains(&recipe.id.as_str()) && recipe.objectives.iter().any(practises))
    }

    fn block<'b>(&self, block: &'b Block, live: &'b Live) -> Result<Cow<'b, str>, RenderError> {
        Ok(match block {
            Block::Html(text) => text.into(),
            Block::Practice(practice) => live.practice(&practice.recipe).into(),
            Block::Work(work) => self.work_block(work)?.into(),
            Block::Figure(figure) => self.figure(figure)?.into(),
            Block::Shown(shown) => self.beside_source(shown, live)?.into(),
            Block::Term(id) => self.term_alone(id)?.into(),
            Block::Head(id) => self.head_alone(id)?.into(),
        })
    }

    /// Source beside what it becomes. As with a lesson, the result is put in afterwards.
    fn beside_source(&self, shown: &Shown, live: &Live) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("file", &shown.file);
        context.insert("source", &shown.source);
        context.insert("becomes_html", &BODY);
        let frame = self.tera.render("shown.html", &context)?;
        let becomes: Vec<_> = shown.becomes.iter().map(|block| self.block(block, live)).collect::<Result<_, _>>()?;
        Ok(frame.replace(BODY, &becomes.concat()))
    }

    /// The head of a lesson, as another place of the course shows it.
    fn head_alone(&self, id: &str) -> Result<String, RenderError> {
        let Some(lesson) = self.course.lessons.iter().find(|lesson| lesson.id == id) else { return Ok(String::new()) };
        let mut context = Context::new();
        context.insert("title", &lesson.title);
        context.insert("summary", &lesson.summary);
        context.insert("objectives", &objectives(lesson));
        Ok(self.tera.render("head.html", &context)?)
    }

    fn figure(&self, figure: &Figure) -> Result<String, RenderError> {
        let row = figure.figure;
        let label = |key: &str| self.words.get(&format!("figures.{}.{key}", row.id)).to_owned();
        let svg = row
            .draw(&figure.parameters, &label, &figure.anchor)
            .map_err(|error| RenderError::Figure(row.id.to_owned(), format!("{error:?}")))?;
        let mut context = Context::new();
        context.insert("id", &figure.anchor);
        context.insert("svg_html", &self.mark().print_in(svg));
        context.insert("caption", &figure.caption);
        context.insert("number", &figure.number);
        context.insert("parts", &self.parts(row));
        Ok(self.tera.render("figure.html", &context)?)
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

    /// A page without scripts of its own.
    pub(super) fn blank_page(&self, title: String, kind: &'static str, root: &'static str, sheet: usize) -> Page {
        Page {
            lang: self.course.language.clone(),
            dir: "ltr",
            title,
            kind,
            root,
            scripts: scripts(root, theme::EVERY_PAGE),
            sheet: self.sheet(sheet, root),
            training_figures: false,
        }
    }
}

fn objectives(lesson: &Lesson) -> Vec<&str> {
    lesson.objectives.iter().map(|objective| objective.text.as_str()).collect()
}

pub(super) fn scripts(root: &str, names: &[&str]) -> Vec<String> {
    names.iter().map(|name| format!("{root}scripts/{name}")).collect()
}

/// The scripts of a lesson's live blocks: the engine, the recipes, then what works with them.
fn live_scripts(lesson: &Lesson) -> Vec<String> {
    let mut recipes: Vec<&str> = Vec::new();
    let mut works = false;
    lesson.each_block(&mut |block| match block {
        Block::Practice(practice) if !recipes.contains(&practice.recipe.as_str()) => recipes.push(&practice.recipe),
        Block::Work(_) => works = true,
        _ => {}
    });
    let mut all = Vec::new();
    if works || !recipes.is_empty() {
        all.extend(scripts(ROOT, theme::ENGINE));
    }
    all.extend(recipes.iter().map(|id| format!("{ROOT}recipes/{id}.js")));
    if !recipes.is_empty() {
        all.extend(scripts(ROOT, theme::PROBLEM));
        all.extend(scripts(ROOT, theme::PRACTICE));
    }
    if works {
        all.extend(scripts(ROOT, theme::WORK));
    }
    all
}

/// Every text of a lesson, for the revision.
pub(super) fn each_text(lesson: &Lesson, add: &mut dyn FnMut(&str)) {
    lesson.each_block(&mut |block| match block {
        Block::Html(text) | Block::Term(text) | Block::Head(text) => add(text),
        Block::Practice(practice) => add(&practice.recipe),
        Block::Work(work) => {
            add(work.relation.id);
            work.given.iter().for_each(|given| add(&given.text));
        }
        Block::Figure(figure) => {
            add(figure.figure.id);
            add(&figure.caption);
        }
        Block::Shown(shown) => add(&shown.source),
    });
}
