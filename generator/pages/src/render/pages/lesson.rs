//! The page of a lesson.

use course::{Block, Course, Lesson, PLACEHOLDER, addresses};
use serde::Serialize;

use crate::render::context::Page;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::recipe_list::ListedRecipe;
use crate::render::renderer::{Renderer, objectives};
use crate::theme;

pub(super) const KIND: PageKind = PageKind {
    name: "lesson",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Left,
    entries: |course, _| entries(course),
    render: |renderer, page, place| renderer.lesson(page, place),
};

fn entries(course: &Course) -> Vec<Entry> {
    course.lessons.iter().map(|lesson| Entry::new(&lesson.title, addresses::lesson(&lesson.id))).collect()
}

#[derive(Serialize)]
struct LessonContext<'l> {
    title: &'l str,
    summary: &'l str,
    objectives: Vec<&'l str>,
    /// The text is by far the larger part of a page: it is put in afterwards, so that it is copied once.
    body_html: char,
    /// The other recipes to its objectives, which only the sheets of practice have.
    more: Vec<ListedRecipe<'l>>,
}

/// What is live in a lesson.
#[derive(Default)]
struct Live<'l> {
    /// The recipes that it shows, each once.
    recipes: Vec<&'l str>,
    /// Whether it has a calculator.
    works: bool,
    /// Whether it has sound or film with captions.
    speaks: bool,
}

impl Renderer<'_> {
    fn lesson(&self, mut page: Page, place: usize) -> Result<String, RenderError> {
        let lesson = &self.course.lessons[place];
        let live = Live::of(lesson);
        live.load(&mut page);
        page.training_figures = true;
        let context = self.lesson_context(lesson, &live);
        let frame = self.page("lesson.html", &page, |into| into.insert("lesson", &context))?;
        let blocks = self.lesson_blocks(&lesson.blocks)?;
        let (before, after) = frame.split_once(PLACEHOLDER).unwrap_or((&frame, ""));
        let parts = std::iter::once(before).chain(blocks.iter().map(|block| &**block)).chain([after]);
        Ok(parts.collect::<Vec<_>>().concat())
    }

    fn lesson_context<'l>(&'l self, lesson: &'l Lesson, live: &Live) -> LessonContext<'l> {
        LessonContext {
            title: &lesson.title,
            summary: &lesson.summary,
            objectives: objectives(lesson),
            body_html: PLACEHOLDER,
            more: self.not_shown(lesson, live),
        }
    }

    /// The recipes to the objectives of a lesson that none of its blocks shows.
    fn not_shown(&self, lesson: &Lesson, live: &Live) -> Vec<ListedRecipe<'_>> {
        let practises = |id: &String| lesson.objectives.iter().any(|objective| objective.id == *id);
        let shown = |id: &str| live.recipes.contains(&id);
        self.recipes_where(|recipe| !shown(&recipe.id) && recipe.objectives.iter().any(practises))
    }
}

impl<'l> Live<'l> {
    fn of(lesson: &'l Lesson) -> Self {
        let mut live = Self::default();
        lesson.each_block(&mut |block| match block {
            Block::Practice(practice) if !live.recipes.contains(&practice.recipe.as_str()) => {
                live.recipes.push(&practice.recipe);
            }
            Block::Work(_) => live.works = true,
            Block::Media(media) if !media.cues.is_empty() => live.speaks = true,
            _ => {}
        });
        live
    }

    /// Has a page load the engine, the recipes, then what works with them.
    fn load(&self, page: &mut Page) {
        let practises = !self.recipes.is_empty();
        if self.works || practises {
            page.load(theme::ENGINE);
        }
        self.recipes.iter().for_each(|id| page.load_recipe(id));
        if practises {
            page.load(theme::PROBLEM);
            page.load(theme::PRACTICE);
        }
        if self.works {
            page.load(theme::WORK);
        }
        if self.speaks {
            page.load(theme::MEDIA);
        }
    }
}
