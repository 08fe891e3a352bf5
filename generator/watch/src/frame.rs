//! The frame page around the site, and the notes in the place of a page that is missing.

use pages::Words;
use serde::Serialize;
use tera::{Context, Tera, TeraResult};

use crate::areas;
use crate::fault_view::ShownFault;
use crate::outline::Outline;
use crate::state::{State, Trouble};

/// What the frame may do: its own script and style, asking this server, and the pages of this server within it.
pub(crate) const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; \
    connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What a note may do: nothing. Only the frame shows it.
pub(crate) const NOTE_POLICY: &str =
    "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

/// The page that a window begins with.
pub(crate) const START: &str = "/site/index.html";

const TEMPLATES: [(&str, &str); 3] = [
    ("areas.html", include_str!("../../../theme/templates/areas.html")),
    ("preview.html", include_str!("../../../theme/templates/preview.html")),
    ("preview-note.html", include_str!("../../../theme/templates/preview-note.html")),
];

/// The words and templates of the frame.
#[derive(Debug)]
pub(crate) struct Frame {
    words: Words,
    tera: Tera,
}

/// Why there is no page to show.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Note {
    /// There is no site yet.
    NoSite,
    /// The site has no such page.
    NoPage,
}

#[derive(Serialize)]
struct FrameContext<'s> {
    versions: [String; 2],
    start: &'static str,
    status: String,
    faults: &'s [ShownFault],
    not_rendered: Option<&'s str>,
    /// What is shown although something is wrong.
    still: Option<&'s str>,
    outline: Option<Outline<'s>>,
}

impl Frame {
    pub(crate) fn new(words: Words) -> TeraResult<Self> {
        let mut tera = Tera::new();
        tera.autoescape_on(vec![".html"]);
        tera.add_raw_templates(TEMPLATES)?;
        tera.global_context().insert("watch", words.section("watch"));
        Ok(Self { words, tera })
    }

    pub(crate) fn words(&self) -> &Words {
        &self.words
    }

    /// The frame, as things are.
    pub(crate) fn page(&self, state: &State) -> TeraResult<String> {
        let (faults, not_rendered) = wrong(&state.trouble);
        let context = FrameContext {
            versions: state.versions(),
            start: START,
            status: self.status(state),
            faults,
            not_rendered,
            still: (state.trouble != Trouble::None).then(|| self.still(state)),
            outline: state.site.as_ref().map(|site| Outline::new(site.course(), &self.words)),
        };
        self.tera.render("preview.html", &Context::from_serialize(&context)?)
    }

    /// The page on which areas are drawn.
    pub(crate) fn areas(&self, state: &State) -> TeraResult<String> {
        let mut context = Context::new();
        context.insert("pictures", &state.site.as_ref().map(|site| areas::pictures(site.course())).unwrap_or_default());
        self.tera.render("areas.html", &context)
    }

    /// A page that says why there is none.
    pub(crate) fn note(&self, note: Note) -> TeraResult<String> {
        let text = match note {
            Note::NoSite => self.words.get("watch.no_site"),
            Note::NoPage => self.words.get("watch.no_page"),
        };
        let mut context = Context::new();
        context.insert("text", text);
        context.insert("start", START);
        self.tera.render("preview-note.html", &context)
    }

    fn status(&self, state: &State) -> String {
        match &state.trouble {
            Trouble::None => self.words.get("watch.sound").to_owned(),
            Trouble::Faults(faults) if faults.len() == 1 => self.words.get("watch.one_fault").to_owned(),
            Trouble::Faults(faults) => self.words.fill("watch.faults", &[("count", &faults.len().to_string())]),
            Trouble::NotRendered(_) => self.words.get("watch.not_rendered").to_owned(),
        }
    }

    fn still(&self, state: &State) -> &str {
        self.words.get(if state.site.is_some() { "watch.still" } else { "watch.no_site" })
    }
}

/// The faults, and why a page could not be rendered.
fn wrong(trouble: &Trouble) -> (&[ShownFault], Option<&str>) {
    match trouble {
        Trouble::None => (&[], None),
        Trouble::Faults(faults) => (faults, None),
        Trouble::NotRendered(why) => (&[], Some(why)),
    }
}
