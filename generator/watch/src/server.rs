//! What can be asked for, and the answers.

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::{Path, State as Given};
use axum::http::StatusCode;
use axum::http::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE};
use axum::response::sse::{Event, Sse};
use axum::response::{IntoResponse, Redirect, Response};
use axum::routing::get;
use axum::{Router, middleware};
use pages::Words;
use problems::System;
use tera::TeraResult;
use tokio::sync::watch::{Receiver, Sender};
use tokio_stream::wrappers::WatchStream;
use tokio_stream::{Stream, StreamExt};

use crate::frame::{Frame, NOTE_POLICY, Note, POLICY, START};
use crate::guard::guard;
use crate::state::{Site, State};

/// How many problems a page of samples has.
const SAMPLES: u64 = 12;

const HTML: &str = "text/html; charset=utf-8";

/// Says who may show a page of the site in a frame: the rest of its policy it carries itself, as from a file.
const SITE_POLICY: &str = "frame-ancestors 'self'";

/// What requests are answered from.
pub(crate) struct Shared {
    states: Sender<Arc<State>>,
    frame: Frame,
}

impl Shared {
    pub(crate) fn new(words: Words) -> TeraResult<Self> {
        Ok(Self { states: Sender::new(Arc::default()), frame: Frame::new(words)? })
    }

    /// What is shown now.
    pub(crate) fn state(&self) -> Arc<State> {
        self.states.borrow().clone()
    }

    /// Shows something else from now on; windows are told.
    pub(crate) fn show(&self, state: State) {
        self.states.send_replace(Arc::new(state));
    }

    pub(crate) fn words(&self) -> &Words {
        self.frame.words()
    }

    fn follow(&self) -> Receiver<Arc<State>> {
        self.states.subscribe()
    }
}

/// The addresses: the frame, its own files, the site, the samples. A second site, say a guide, would stand beside `site`
/// with its own [`Files`](crate::state::Files), answered by [`file`].
pub(crate) fn router(shared: Arc<Shared>) -> Router {
    Router::new()
        .route("/", get(frame))
        .route("/watch/events", get(events))
        .route("/watch/{name}", get(own_file))
        .route("/site/", get(|| async { Redirect::to(START) }))
        .route("/site/{*place}", get(site))
        .route("/samples/{system}/{name}", get(samples))
        .fallback(|given: Given<Arc<Shared>>| async move { given.note(Note::NoPage) })
        .layer(middleware::from_fn_with_state(shared.clone(), guard))
        .with_state(shared)
}

async fn frame(Given(shared): Given<Arc<Shared>>) -> Response {
    html(StatusCode::OK, POLICY, shared.frame.page(&shared.state()))
}

/// Tells a window what is shown now, and whenever that changes.
async fn events(Given(shared): Given<Arc<Shared>>) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let states = WatchStream::new(shared.follow());
    Sse::new(states.map(|state| Ok(Event::default().data(state.versions().join(" ")))))
}

async fn own_file(Given(shared): Given<Arc<Shared>>, Path(name): Path<String>) -> Response {
    let text = match name.as_str() {
        "preview.js" => Some(include_str!("../../../theme/scripts/preview.js")),
        "preview.css" => Some(include_str!("../../../theme/styles/preview.css")),
        _ => pages::style_sheet(&name),
    };
    text.map_or_else(|| shared.note(Note::NoPage), |text| ([(CONTENT_TYPE, kind(&name))], text).into_response())
}

async fn site(Given(shared): Given<Arc<Shared>>, Path(place): Path<String>) -> Response {
    match &shared.state().site {
        Some(site) => file(site, &place).unwrap_or_else(|| shared.note(Note::NoPage)),
        None => shared.note(Note::NoSite),
    }
}

/// A file of a site. It is looked up among those that were rendered, so no address leads anywhere else.
fn file(site: &Site, place: &str) -> Option<Response> {
    let bytes = site.files.get(place)?.clone();
    Some(([(CONTENT_TYPE, kind(place)), (CONTENT_SECURITY_POLICY, SITE_POLICY)], bytes).into_response())
}

/// A page of samples, drawn from the recipe as it is.
async fn samples(Given(shared): Given<Arc<Shared>>, Path((system, name)): Path<(String, String)>) -> Response {
    let Some(site) = shared.state().site.clone() else { return shared.note(Note::NoSite) };
    let drawing = shared.clone();
    let drawn = tokio::task::spawn_blocking(move || {
        let system = System::find(&system)?;
        let id = name.strip_suffix(".html")?;
        let file = site.course.recipes.iter().find(|file| file.recipe.id == id)?;
        Some(pages::samples(&site.course, &file.recipe, drawing.words(), system, SAMPLES))
    });
    match drawn.await {
        Ok(Some(Ok(page))) => html(StatusCode::OK, SITE_POLICY, Ok(page)),
        Ok(None) => shared.note(Note::NoPage),
        Ok(Some(Err(error))) => (StatusCode::INTERNAL_SERVER_ERROR, error.to_string()).into_response(),
        Err(error) => (StatusCode::INTERNAL_SERVER_ERROR, error.to_string()).into_response(),
    }
}

impl Shared {
    fn note(&self, note: Note) -> Response {
        let status = match note {
            Note::NoSite => StatusCode::SERVICE_UNAVAILABLE,
            Note::NoPage => StatusCode::NOT_FOUND,
        };
        html(status, NOTE_POLICY, self.frame.note(note))
    }
}

fn html(status: StatusCode, policy: &'static str, page: TeraResult<String>) -> Response {
    match page {
        Ok(page) => (status, [(CONTENT_TYPE, HTML), (CONTENT_SECURITY_POLICY, policy)], page).into_response(),
        Err(error) => (StatusCode::INTERNAL_SERVER_ERROR, error.to_string()).into_response(),
    }
}

/// What a file is, by its ending: the kinds that a site has.
fn kind(name: &str) -> &'static str {
    match name.rsplit_once('.').map(|(_, ending)| ending.to_ascii_lowercase()).as_deref() {
        Some("html") => HTML,
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("png") => "image/png",
        Some("jpg" | "jpeg") => "image/jpeg",
        Some("gif") => "image/gif",
        Some("webp") => "image/webp",
        _ => "application/octet-stream",
    }
}
