//! How much text a compiled form can grow into. A name costs a few bytes in a hole; what is put there may
//! be long, and a law is written out again for every step that it takes.

use serde_json::Value;

/// The most that the problems of a form may come to, in bytes: several times what the longest of any course does.
const MOST: usize = 16 << 20;

/// What makes a form grow.
#[derive(Default)]
struct Growth {
    longest: usize,
    pieces: usize,
    steps: usize,
    worked: usize,
}

/// Whether a form stays within what its reader has room for, however it is filled.
pub(super) fn is_bounded(tree: &Value) -> bool {
    let (mut all, mut laws) = (Growth::default(), Growth::default());
    all.count(tree);
    if let Some(tree) = tree.get("laws") {
        laws.count(tree);
    }
    // Steps that no template places come at the end: once for each part.
    let parts = tree.get("asks").and_then(Value::as_array).map_or(0, Vec::len);
    let pieces_of_steps = all.steps.saturating_add(parts).saturating_mul(all.worked).saturating_mul(laws.pieces + 1);
    all.pieces.saturating_add(pieces_of_steps).saturating_mul(all.longest) <= MOST
}

impl Growth {
    fn count(&mut self, tree: &Value) {
        match tree {
            Value::String(text) => self.longest = self.longest.max(text.len()),
            Value::Array(values) => values.iter().for_each(|value| self.count(value)),
            Value::Object(map) => map.iter().for_each(|(key, value)| {
                match key.as_str() {
                    // Shown once, as it is.
                    "drawing" => return,
                    "hole" | "html" | "symbols" => self.pieces += 1,
                    "steps" => self.steps += 1,
                    "call" | "binary" => self.worked += 1,
                    _ => {}
                }
                self.count(value);
            }),
            Value::Null | Value::Bool(_) | Value::Number(_) => {}
        }
    }
}
