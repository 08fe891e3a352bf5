//! The page on which areas are drawn on a picture. It needs nothing of the course; where the course has pictures with areas, it
//! opens them.

use course::{AreasFile, Course, NamedArea};
use figures::Shape;
use serde::Serialize;
use serde_json::{Map, Value, json};

/// What the page may do: its own script and style, and pictures of this server and of its user.
pub(crate) const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
    base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// A picture that the page can open.
#[derive(Serialize)]
pub(crate) struct Opened {
    title: String,
    data: String,
}

/// The pictures of a course that have areas.
pub(crate) fn pictures(course: &Course) -> Vec<Opened> {
    course.pictures.iter().map(opened).collect()
}

fn opened(file: &AreasFile) -> Opened {
    let head: Map<String, Value> =
        file.head.iter().map(|(key, text)| ((*key).to_owned(), text.as_str().into())).collect();
    let title = head.get("title").and_then(Value::as_str).unwrap_or_default().to_owned();
    let areas: Vec<_> = file.areas.iter().map(area).collect();
    Opened {
        title,
        data: json!({ "address": format!("/site/{}", file.shows), "head": head, "areas": areas }).to_string(),
    }
}

fn area(area: &NamedArea) -> Value {
    let (kind, key, numbers) = match &area.shape {
        Shape::Rectangle(around) => ("rectangle", "box", json!(around)),
        Shape::Ellipse(around) => ("ellipse", "box", json!(around)),
        Shape::Polygon(corners) => ("polygon", "corners", json!(corners)),
    };
    let (id, name, also) = (&area.id, &area.name, area.also.join(", "));
    json!({ "id": id, "name": name, "also": also, "why": area.why.as_deref().unwrap_or_default(), "kind": kind, key: numbers })
}
