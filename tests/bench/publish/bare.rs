//! The bare loop: each lesson parsed, the lesson template rendered once, the file written; nothing is checked.
//!
//! The pages of a course are as large as their practice blocks make them. So the loop puts ready blocks, cut out of a
//! published page, where the lesson has its code; without them, it tells what pages without problems would take.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::thread;

use pages::Words;
use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag, TagEnd, html};
use serde::Serialize;
use tera::{Context, Tera};

use crate::course::LESSONS;

/// A lesson as the loop finds it: read, and its front matter apart.
#[derive(Debug)]
struct Lesson {
    id: String,
    title: String,
    summary: String,
    objectives: Vec<String>,
    body: String,
}

/// What is there before the loop starts.
pub(crate) struct Bare {
    tera: Tera,
    lessons: Vec<Lesson>,
    /// Ready practice blocks by recipe.
    practice: BTreeMap<String, String>,
}

/// What the template is given: as much as `seatwork` gives it.
#[derive(Serialize)]
struct Page<'a> {
    lang: &'a str,
    dir: &'a str,
    title: &'a str,
    kind: &'a str,
    root: &'a str,
    scripts: Vec<String>,
    sheet: Sheet<'a>,
    caution: bool,
}

#[derive(Serialize)]
struct Sheet<'a> {
    number: String,
    of: usize,
    previous: Option<Link<'a>>,
    next: Option<Link<'a>>,
}

#[derive(Serialize)]
struct Link<'a> {
    title: &'a str,
    href: String,
    number: usize,
}

#[derive(Serialize)]
struct Nav<'a> {
    title: &'a str,
    href: &'a str,
    current: bool,
}

#[derive(Serialize)]
struct Shown<'a> {
    title: &'a str,
    summary: &'a str,
    objectives: &'a [String],
    body_html: &'a str,
    /// No further problems.
    more: &'a [String],
}

impl Bare {
    /// Reads the lessons of a course and prepares the templates of the theme.
    pub(crate) fn new(course: &Path, words: &Words) -> Self {
        let mut tera = Tera::new();
        tera.autoescape_on(vec![".html"]);
        let theme = seatwork_tests::top().join("theme/templates");
        let read = |name: &str| (name.to_owned(), fs::read_to_string(theme.join(name)).expect("template"));
        tera.add_raw_templates(
            ["base.html", "zones.html", "switches.html", "components.html", "lesson.html"].map(read),
        )
        .expect("templates");
        let shared = tera.global_context();
        shared.insert("words", words.section("pages"));
        let about =
            [("title", "A thousand relief valves at Tarn Hollow"), ("owner", "Tarn Hollow training site (fictional)")];
        let more = [("site", "tarn_hollow_benchmark"), ("units", "us"), ("decimal_mark", "."), ("revision", "0000")];
        shared.insert("course", &about.into_iter().chain(more).collect::<BTreeMap<_, _>>());
        for part in ["zones", "switches"] {
            let html = tera.render(&format!("{part}.html"), &Context::new()).expect("part");
            tera.global_context().insert(format!("{part}_html"), html.trim());
        }
        let mut files: Vec<_> = fs::read_dir(course.join("en/lessons"))
            .expect("lessons")
            .map(|entry| entry.expect("lesson").path())
            .collect();
        files.sort();
        Self { tera, lessons: files.iter().map(|file| lesson(file)).collect(), practice: BTreeMap::new() }
    }

    /// Takes the practice blocks of a published page for its own.
    pub(crate) fn learn(&mut self, page: &str) {
        for block in page.split("<section class=\"practice\" data-recipe=\"").skip(1) {
            let (recipe, _) = block.split_once('"').expect("recipe");
            let (block, _) = block.split_once("</section>\n").expect("section");
            let block = format!("<section class=\"practice\" data-recipe=\"{block}</section>\n");
            self.practice.insert(recipe.to_owned(), block);
        }
    }

    /// Runs the loop into an empty folder, on as many threads.
    pub(crate) fn run(&self, to: &Path, threads: usize) {
        thread::scope(|scope| {
            for first in 0..threads {
                scope.spawn(move || {
                    for index in (first..self.lessons.len()).step_by(threads) {
                        let page = self.render(index, &self.parse(&self.lessons[index].body));
                        fs::write(to.join(format!("{}.html", self.lessons[index].id)), page).expect("page");
                    }
                });
            }
        });
    }

    /// The first step of the loop alone.
    pub(crate) fn parse_all(&self) -> usize {
        self.lessons.iter().map(|lesson| self.parse(&lesson.body).len()).sum()
    }

    /// Markdown to HTML with the options that lessons are read with.
    fn parse(&self, body: &str) -> String {
        let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_MATH;
        let mut out = String::with_capacity(body.len() * 4);
        let mut is_practice = false;
        let events = Parser::new_ext(body, options).filter_map(|event| match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(_))) if !self.practice.is_empty() => {
                is_practice = true;
                None
            }
            Event::Text(text) if is_practice => {
                let recipe = text.trim_end().strip_prefix("recipe: ").unwrap_or_default();
                self.practice.get(recipe).map(|block| Event::Html(block.as_str().into()))
            }
            Event::End(TagEnd::CodeBlock) if is_practice => {
                is_practice = false;
                None
            }
            event => Some(event),
        });
        html::push_html(&mut out, events);
        out
    }

    fn render(&self, index: usize, body: &str) -> String {
        let lesson = &self.lessons[index];
        let mut context = Context::new();
        context.insert("nav", &NAV);
        context.insert("page", &self.page(index));
        let Lesson { title, summary, objectives, .. } = lesson;
        context.insert("lesson", &Shown { title, summary, objectives, body_html: body, more: &[] });
        self.tera.render("lesson.html", &context).expect("page")
    }

    fn page(&self, index: usize) -> Page<'_> {
        let link = |index: usize| {
            let lesson = self.lessons.get(index)?;
            let href = format!("../../en/lessons/{}.html", lesson.id);
            Some(Link { title: &lesson.title, href, number: index + 2 })
        };
        let (previous, next) = (index.checked_sub(1).and_then(link), link(index + 1));
        Page {
            lang: "en",
            dir: "ltr",
            title: &self.lessons[index].title,
            kind: "lesson",
            root: "../../",
            scripts: SCRIPTS.iter().map(|name| format!("../../{name}.js")).collect(),
            sheet: Sheet { number: (index + 2).to_string(), of: LESSONS + 4, previous, next },
            caution: true,
        }
    }
}

const NAV: [Nav; 5] = [
    Nav { title: "Sheet index", href: "../../index.html", current: false },
    Nav { title: "Practice", href: "../../en/practice/index.html", current: false },
    Nav { title: "Terms", href: "../../en/terms/index.html", current: false },
    Nav { title: "Relations", href: "../../en/relations/pressures.html", current: false },
    Nav { title: "Tables", href: "../../en/tables/limits.html", current: false },
];

/// As many as a lesson with four practice blocks loads.
const SCRIPTS: [&str; 24] = [
    "scripts/words",
    "scripts/tools",
    "scripts/sheet",
    "scripts/terms",
    "scripts/engine-glue",
    "scripts/engine-module",
    "scripts/engine-boot",
    "recipes/spring_rate_for_rise",
    "recipes/full_open_then_rise",
    "recipes/overpressure_and_mawp",
    "recipes/blowdown_of_set",
    "scripts/kept",
    "scripts/record",
    "scripts/recipes",
    "scripts/drawing",
    "scripts/field-number",
    "scripts/field-choice",
    "scripts/field-in-order",
    "scripts/field-match",
    "scripts/field-point-at",
    "scripts/verdict",
    "scripts/working",
    "scripts/problem",
    "scripts/practice",
];

fn lesson(file: &Path) -> Lesson {
    let text = fs::read_to_string(file).expect("lesson");
    let (_, rest) = text.split_once("---\n").expect("front matter");
    let (matter, body) = rest.split_once("---\n").expect("front matter");
    let values = |name: &str| {
        let start = format!("{name}: ");
        let value = |line: &str| line.trim().strip_prefix(&start).map(|value| value.trim_matches('"').to_owned());
        matter.lines().filter_map(value).collect::<Vec<_>>()
    };
    let first = |name: &str| values(name).swap_remove(0);
    let (id, title, summary) = (first("id"), first("title"), first("summary"));
    Lesson { id, title, summary, objectives: values("text"), body: body.to_owned() }
}
