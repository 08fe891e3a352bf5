//! What the JSON Schema of recipes says of texts and numbers of which the reader takes only some. Where the reader knows a
//! list of values, the list is the reader's own.

use std::borrow::Cow;

use relief::units;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

use super::versions::{LEVELS, WRITTEN_FORMAT};
use crate::number::Limit;
use crate::rounding::{self, Side};

/// How a name of a draw, part or mistake is written: what [`is_name`](crate::template::is_name) takes.
pub(super) const NAME: &str = "^[a-z][a-z0-9_]*$";

/// Types that replace texts and numbers in schemas where the reader takes only some of them.
macro_rules! values {
    ($($(#[$doc:meta])* $name:ident: $schema:expr;)*) => {$(
        $(#[$doc])*
        #[derive(Debug)]
        pub struct $name;

        impl JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                $schema
            }
        }
    )*};
}

values! {
    /// The version of a format.
    Format: json_schema!({ "type": "integer", "enum": (1..=WRITTEN_FORMAT).collect::<Vec<_>>() });
    /// An id, which becomes a part of a file name and of an address.
    Id: json_schema!({ "type": "string", "pattern": NAME, "maxLength": 80 });
    /// A name that formulas use.
    Name: json_schema!({ "type": "string", "pattern": NAME });
    /// A text that says something.
    Words: json_schema!({ "type": "string", "pattern": "\\S" });
    /// A text that may be a bare number: `7`, `"10 psi"`.
    Scalar: json_schema!({ "type": ["string", "number"] });
    /// A text that may be a bare number, and says something.
    ChosenText: json_schema!({ "anyOf": [{ "type": "number" }, { "type": "string", "pattern": "\\S" }] });
    /// A range, or one value: what [`literal`](crate::formula::literal) and a range are read from.
    RangeText: json_schema!({
        "type": "string",
        "anyOf": [{ "pattern": r"[^.]\.\.[^.].* by " }, { "not": { "pattern": r"\.\.|…| to | - " } }],
    });
    /// How hard a recipe is.
    Level: one_of(LEVELS);
    /// Which side of a limit is unsafe.
    LimitName: one_of(Limit::BOTH.map(Limit::id));
    /// To which side an answer is rounded.
    SideName: one_of(Side::ALL.map(Side::id));
    /// To how many significant figures an answer is rounded.
    Figures: one_of(rounding::FIGURES);
    /// A unit, in one of its usual spellings.
    UnitName: unit_name();
    /// A figure, or a picture of the author's own.
    FigureName: one_of_or_own(figures::FIGURES.iter().map(|figure| figure.id));
    /// A numbered part of a figure, or an area of a picture.
    PartName: one_of_or_own(figures::FIGURES.iter().flat_map(|figure| figure.parts).map(|part| part.id));
}

/// One of the tool's own names, or one that the author gave.
fn one_of_or_own(values: impl IntoIterator<Item = &'static str>) -> Schema {
    json_schema!({ "anyOf": [one_of(values), { "type": "string", "pattern": NAME }] })
}

/// The values that a place takes.
pub(crate) fn one_of<T: Into<Value>>(values: impl IntoIterator<Item = T>) -> Schema {
    json_schema!({ "enum": values.into_iter().map(Into::into).collect::<Vec<Value>>() })
}

/// The symbols are listed, so that editors offer them; names, also of many, are taken too.
fn unit_name() -> Schema {
    let symbols = units::UNITS.iter().map(|unit| unit.symbol.to_owned());
    let typed = units::UNITS.iter().map(|unit| (unit, typed(unit.symbol)));
    let typed = typed.filter(|(unit, text)| units::find(text) == Some(*unit)).map(|(_, text)| text);
    let mut listed: Vec<_> = symbols.chain(typed).collect();
    listed.sort();
    listed.dedup();
    let names: Vec<_> = units::UNITS.iter().flat_map(|unit| unit.names).map(|name| escaped(name)).collect();
    json_schema!({ "anyOf": [{ "enum": listed }, { "type": "string", "pattern": format!("^({})s?$", names.join("|")) }] })
}

/// A symbol as a keyboard types it.
fn typed(symbol: &str) -> String {
    symbol.replace('²', "2").replace('³', "3")
}

/// A text that a pattern takes as it is.
fn escaped(text: &str) -> String {
    let signs = |next: char| if r"\^$.|?*+()[]{}/".contains(next) { format!("\\{next}") } else { next.to_string() };
    text.chars().map(signs).collect()
}

/// One schema or another.
pub(crate) fn either<One: JsonSchema, Other: JsonSchema>(generator: &mut SchemaGenerator) -> Schema {
    json_schema!({ "anyOf": [generator.subschema_for::<One>(), generator.subschema_for::<Other>()] })
}

/// A unit for both systems, or one for each.
#[derive(Debug)]
pub struct UnitText;

impl JsonSchema for UnitText {
    fn schema_name() -> Cow<'static, str> {
        "UnitText".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        either::<UnitName, UnitPair>(generator)
    }
}

/// A unit for each system.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
#[expect(dead_code, reason = "only its schema is used")]
struct UnitPair {
    /// In customary units.
    us: UnitName,
    /// In SI units.
    si: UnitName,
}

/// A figure with what it is drawn from.
#[derive(Debug)]
pub struct DrawnFigure;

impl JsonSchema for DrawnFigure {
    fn schema_name() -> Cow<'static, str> {
        "DrawnFigure".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let formula = generator.subschema_for::<Scalar>();
        json_schema!({ "anyOf": figures::FIGURES.iter().map(|figure| drawn(figure, &formula)).collect::<Vec<_>>() })
    }
}

fn drawn(figure: &figures::Figure, formula: &Schema) -> Value {
    let parameters = figure.parameters.iter();
    let formulas = parameters.clone().map(|parameter| (parameter.name.to_owned(), formula.clone().into()));
    let properties: Map<String, Value> = formulas.chain([("show".to_owned(), json!({ "const": figure.id }))]).collect();
    let needed = parameters.filter(|parameter| parameter.required).map(|parameter| parameter.name);
    let needed: Vec<_> = ["show"].into_iter().chain(needed).collect();
    json!({ "type": "object", "properties": properties, "required": needed, "additionalProperties": false })
}

/// A draw is said for each system, chosen from a list, or follows from others and is rounded.
pub(crate) fn one_way_to_draw(schema: &mut Schema) {
    let ways = [["us", "si"].as_slice(), &["choose"], &["choose_text"], &["from", "rounded_to"]];
    let each = ways.map(|keys| json!({ "required": keys }));
    schema.insert("oneOf".to_owned(), each.into_iter().collect());
    let together = json!({ "us": ["si"], "si": ["us"], "from": ["rounded_to"], "rounded_to": ["from"] });
    schema.insert("dependentRequired".to_owned(), together);
}

/// An option says something or shows a value, and not both.
pub(crate) fn says_or_shows(schema: &mut Schema) {
    exactly_one_of(schema, ["text", "value"]);
}

/// One is chosen of values or of texts, and not of both.
pub(crate) fn choose_or_text(schema: &mut Schema) {
    exactly_one_of(schema, ["choose", "choose_text"]);
}

/// An answer is rounded to a step or to figures, and not to both.
pub(crate) fn step_or_figures(schema: &mut Schema) {
    exactly_one_of(schema, ["to", "figures"]);
}

/// A cell of a table is given or asked for, and not both.
pub(crate) fn given_or_answer(schema: &mut Schema) {
    exactly_one_of(schema, ["given", "answer"]);
}

fn exactly_one_of(schema: &mut Schema, keys: [&str; 2]) {
    let each = keys.map(|key| json!({ "required": [key] }));
    schema.insert("oneOf".to_owned(), each.into_iter().collect());
}
