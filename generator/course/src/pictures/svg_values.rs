//! The values of attributes in a drawing: no address but a place in the drawing itself, no function but those of colours,
//! places and turns.

use super::shape::MOST_SIDE;
use super::svg_lists::is_property;

const FUNCTIONS: [&str; 13] =
    ["url", "rgb", "rgba", "hsl", "hsla", "matrix", "translate", "scale", "rotate", "skewx", "skewy", "calc", ""];

/// The pixels of a unit of length (CSS Values and Units, W3C 2024: 96 pixels to an inch).
const PIXELS: [(&str, f64); 6] =
    [("px", 1.0), ("pt", 96.0 / 72.0), ("pc", 16.0), ("mm", 96.0 / 25.4), ("cm", 96.0 / 2.54), ("in", 96.0)];

/// Whether an attribute may have a value; within what is drawn again and again, none that refers to anything.
pub(super) fn fits(name: &str, value: &str, is_repeated: bool) -> bool {
    match name {
        "href" | "xlink:href" => value.starts_with('#'),
        "xmlns" | "aria-label" => true,
        "xmlns:xlink" => value == "http://www.w3.org/1999/xlink",
        "style" => value.split(';').all(|declaration| declared(declaration, is_repeated)),
        _ => is_plain(value, is_repeated),
    }
}

/// A declaration of a style attribute. Those that begin with a hyphen belong to one program and are left out.
fn declared(declaration: &str, is_repeated: bool) -> bool {
    match declaration.split_once(':') {
        Some((name, _)) if name.trim().starts_with('-') => true,
        Some((name, value)) => is_property(name.trim()) && is_plain(value, is_repeated),
        None => declaration.trim().is_empty(),
    }
}

/// The value of a style attribute without the declarations that belong to one program.
pub(super) fn without_own(style: &str) -> String {
    let kept = style.split(';').filter(|declaration| !declaration.trim().starts_with('-'));
    kept.collect::<Vec<_>>().join(";")
}

fn is_plain(value: &str, is_repeated: bool) -> bool {
    let value = value.to_ascii_lowercase();
    let escapes = ["\\", "/*", "@", "<", "javascript:", "data:"].iter().any(|piece| value.contains(piece));
    let mut pieces = value.split('(').peekable();
    let mut known = true;
    while let Some(before) = pieces.next() {
        let Some(after) = pieces.peek() else { break };
        let name = before.rsplit(|next: char| !next.is_ascii_alphanumeric() && next != '-').next().unwrap_or_default();
        let inside = after.trim_start().trim_start_matches(['\'', '"']);
        let refers = name == "url";
        known &= FUNCTIONS.contains(&name) && (!refers || (inside.starts_with('#') && !is_repeated));
    }
    known && !escapes
}

/// The size of a drawing in pixels: its width and height, or those of its view. Neither side is longer than a picture's may
/// be, since a drawing has no pixels of its own.
pub(super) fn size(attributes: &[(String, String)]) -> Option<(usize, usize)> {
    let find = |wanted: &str| attributes.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.trim());
    let stated = find("width").and_then(length).zip(find("height").and_then(length));
    let (width, height) = stated.or_else(|| view(find("viewBox")?))?;
    #[expect(clippy::cast_precision_loss, reason = "a few thousand pixels")]
    let most = MOST_SIDE as f64;
    let scale = (most / width.max(height)).min(1.0);
    let side = |side: f64| whole((side * scale).round().max(1.0));
    Some((side(width), side(height)))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number from 1 to a few thousand")]
fn whole(side: f64) -> usize {
    side as usize
}

fn length(text: &str) -> Option<f64> {
    let unit = PIXELS.iter().find(|(unit, _)| text.ends_with(unit));
    let (number, pixels) = unit.map_or((text, 1.0), |(unit, pixels)| (&text[..text.len() - unit.len()], *pixels));
    positive(number).map(|number| number * pixels)
}

fn view(text: &str) -> Option<(f64, f64)> {
    let numbers: Vec<_> = text.split([' ', ',', '\t', '\n']).filter(|number| !number.is_empty()).collect();
    let [_, _, width, height] = numbers.as_slice() else { return None };
    positive(width).zip(positive(height))
}

fn positive(text: &str) -> Option<f64> {
    text.trim().parse::<f64>().ok().filter(|number| number.is_finite() && *number > 0.0)
}
