//! What can be asked for, and the answers.

use std::convert::Infallible;
use std::error::Error;
use std::sync::Arc;

use axum::body::Body;
use axum::extract::{Path, Request, State as Given};
use axum::http::StatusCode;
use axum::http::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE};
use axum::response::sse::{Event, Sse};
use axum::response::{IntoResponse, Redirect, Response};
use axum::routing::get;
use axum::{Router, middleware};
use problems::System;
use tera::TeraResult;
use tokio::task::spawn_blocking;
use tokio_stream::wrappers::WatchStream;
use tokio_stream::{Stream, StreamExt};
use tower_http::services::ServeFile;

use crate::areas;
use crate::frame::{NOTE_POLICY, Note, POLICY, START};
use crate::guard::guard;
use crate::shared::Shared;

/// How many problems a page of samples has.
const SAMPLES: u64 = 12;

const HTML: &str = "text/html; charset=utf-8";

/// Says who may show a page of the site in a frame: the rest of its policy it carries itself, as from a file.
const SITE_POLICY: &str = "frame-ancestors 'self'";

/// The addresses: the frame, its own files, the site, the samples.
pub(crate) fn router(shared: Arc<Shared>) -> Router {
    Router::new()
        .route("/", get(frame))
        .route("/watch/events", get(events))
        .route("/watch/areas", get(areas))
        .route("/watch/{name}", get(own_file))
        .route("/site/", get(|| async { Redirect::to(START) }))
        .route("/site/{*place}", get(site))
        .route("/samples/{system}/{name}", get(samples))
        .fallback(|given: Given<Arc<Shared>>| async move { note(&given, Note::NoPage) })
        .layer(middleware::from_fn_with_state(shared.clone(), guard))
        .with_state(shared)
}

async fn frame(Given(shared): Given<Arc<Shared>>) -> Response {
    html(StatusCode::OK, POLICY, shared.frame.page(&shared.state()))
}

/// The page on which areas are drawn.
async fn areas(Given(shared): Given<Arc<Shared>>) -> Response {
    html(StatusCode::OK, areas::POLICY, shared.frame.areas(&shared.state()))
}

/// Tells a window what is shown now, and whenever that changes.
async fn events(Given(shared): Given<Arc<Shared>>) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let states = WatchStream::new(shared.follow());
    Sse::new(states.map(|state| Ok(Event::default().data(state.versions().join(" ")))))
}

async fn own_file(Given(shared): Given<Arc<Shared>>, Path(name): Path<String>) -> Response {
    let text = match name.as_str() {
        "preview.js" => Some(include_str!("../../../theme/scripts/preview.js")),
        "areas.js" => Some(include_str!("../../../theme/scripts/areas.js")),
        "areas.css" => Some(include_str!("../../../theme/styles/areas.css")),
        "preview.css" => Some(include_str!("../../../theme/styles/preview.css")),
        _ => pages::style_sheet(&name),
    };
    text.map_or_else(|| note(&shared, Note::NoPage), |text| ([(CONTENT_TYPE, kind(&name))], text).into_response())
}

/// A file of the site, rendered now.
async fn site(Given(shared): Given<Arc<Shared>>, Path(address): Path<String>, request: Request) -> Response {
    let Some(site) = shared.state().site.clone() else { return note(&shared, Note::NoSite) };
    if let Some(handout) = site.handout(&address) {
        return handed_out(&handout.path, request).await;
    }
    let kind = kind(&address);
    match spawn_blocking(move || site.file(&address)).await {
        Ok(Ok(Some(bytes))) => ([(CONTENT_TYPE, kind), (CONTENT_SECURITY_POLICY, SITE_POLICY)], bytes).into_response(),
        Ok(Ok(None)) => note(&shared, Note::NoPage),
        Ok(Err(error)) => failed(&error),
        Err(error) => failed(&error),
    }
}

/// A file to hand out, in pieces as they are asked for: a film is played from where its viewer wants.
async fn handed_out(path: &std::path::Path, request: Request) -> Response {
    match ServeFile::new(path).try_call(request).await {
        Ok(response) => response.map(Body::new),
        Err(error) => failed(&error),
    }
}

/// A page of samples, drawn from the recipe as it is.
async fn samples(Given(shared): Given<Arc<Shared>>, Path((system, name)): Path<(String, String)>) -> Response {
    let Some(site) = shared.state().site.clone() else { return note(&shared, Note::NoSite) };
    let drawing = shared.clone();
    let drawn = spawn_blocking(move || {
        let system = System::find(&system)?;
        let id = name.strip_suffix(".html")?;
        let file = site.course().recipes.iter().find(|file| file.recipe.id == id)?;
        Some(pages::samples(site.course(), &file.recipe, drawing.words(), system, SAMPLES))
    });
    match drawn.await {
        Ok(Some(Ok(page))) => html(StatusCode::OK, SITE_POLICY, Ok(page)),
        Ok(None) => note(&shared, Note::NoPage),
        Ok(Some(Err(error))) => failed(&error),
        Err(error) => failed(&error),
    }
}

fn note(shared: &Shared, note: Note) -> Response {
    let status = match note {
        Note::NoSite => StatusCode::SERVICE_UNAVAILABLE,
        Note::NoPage => StatusCode::NOT_FOUND,
    };
    html(status, NOTE_POLICY, shared.frame.note(note))
}

fn html(status: StatusCode, policy: &'static str, page: TeraResult<String>) -> Response {
    match page {
        Ok(page) => (status, [(CONTENT_TYPE, HTML), (CONTENT_SECURITY_POLICY, policy)], page).into_response(),
        Err(error) => failed(&error),
    }
}

/// Something failed that does not fail in a checked course.
fn failed(error: &dyn Error) -> Response {
    (StatusCode::INTERNAL_SERVER_ERROR, error.to_string()).into_response()
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
        Some("svg") => "image/svg+xml",
        _ => "application/octet-stream",
    }
}
