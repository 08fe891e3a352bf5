//! Why a type cannot be read from a YAML text that is well formed. The library that reads it tells that in sentences, in
//! which words of an author are not marked; here the tree of the text is read once more, for a reason in its parts.

use std::error::Error;
use std::fmt::{self, Display, Formatter};
use std::ops::Range;

use serde::de::value::{MapDeserializer, SeqDeserializer};
use serde::de::{Deserializer, Expected, IntoDeserializer, Unexpected, Visitor};
use serde::{Deserialize, forward_to_deserialize_any};

use super::tree::{Key, Node};

/// Why a type cannot be read.
#[derive(Debug)]
pub(super) struct Refusal {
    pub(super) reason: Reason,
    /// The value that is refused, or the mapping with a key too many or too few: its bytes in the text.
    pub(super) span: Option<Range<usize>>,
}

/// A reason in its parts.
#[derive(Debug)]
pub(super) enum Reason {
    /// A value is not what is expected, which the type that is read says; with the word for what it is.
    Shape { found: &'static str, expected: String },
    /// A key is missing.
    MissingKey(&'static str),
    /// A key is not one of those that are known.
    UnknownKey { key: String, known: &'static [&'static str] },
    /// Something else, which the library tells better.
    Other,
}

/// Why a type cannot be read from a tree; nothing where it can.
pub(super) fn of<'n, T: Deserialize<'n>>(root: &'n Node) -> Option<Refusal> {
    T::deserialize(Value(root)).err()
}

impl Refusal {
    fn new(reason: Reason) -> Self {
        Self { reason, span: None }
    }
}

impl Display for Refusal {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.reason)
    }
}

impl Error for Refusal {}

impl serde::de::Error for Refusal {
    fn custom<T: Display>(_: T) -> Self {
        Self::new(Reason::Other)
    }

    fn invalid_type(found: Unexpected, expected: &dyn Expected) -> Self {
        Self::new(Reason::Shape { found: word(&found), expected: expected.to_string() })
    }

    fn invalid_value(found: Unexpected, expected: &dyn Expected) -> Self {
        Self::invalid_type(found, expected)
    }

    fn missing_field(key: &'static str) -> Self {
        Self::new(Reason::MissingKey(key))
    }

    fn unknown_field(key: &str, known: &'static [&'static str]) -> Self {
        Self::new(Reason::UnknownKey { key: key.to_owned(), known })
    }
}

/// Our word for what was found.
fn word(found: &Unexpected) -> &'static str {
    match found {
        Unexpected::Str(_) => "text",
        Unexpected::Seq => "list",
        Unexpected::Bool(_) => "flag",
        Unexpected::Unsigned(_) | Unexpected::Signed(_) => "number",
        Unexpected::Float(_) => "decimal",
        Unexpected::Map => "mapping",
        Unexpected::Unit => "nothing",
        _ => "something",
    }
}

/// A value of the tree, from which a type is read.
#[derive(Clone, Copy)]
struct Value<'n>(&'n Node);

impl<'n> Value<'n> {
    /// Whether there is nothing after the key.
    fn is_void(self) -> bool {
        matches!(self.0, Node::Scalar { text, plain: true, .. } if text.is_empty())
    }

    /// Adds the place to a refusal that has none.
    fn placed<T>(self, read: Result<T, Refusal>) -> Result<T, Refusal> {
        read.map_err(|refusal| Refusal { span: refusal.span.or_else(|| Some(self.0.span())), ..refusal })
    }

    fn list<V: Visitor<'n>>(self, items: &'n [Node], visitor: V) -> Result<V::Value, Refusal> {
        visitor.visit_seq(SeqDeserializer::new(items.iter().map(Value)))
    }

    fn map<V: Visitor<'n>>(self, entries: &'n [(Key, Node)], visitor: V) -> Result<V::Value, Refusal> {
        let entries = entries.iter().map(|(key, value)| (key.text.as_str(), Value(value)));
        visitor.visit_map(MapDeserializer::new(entries))
    }

    fn any<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        match self.0 {
            Node::Scalar { text, plain: true, .. } => plain(text, visitor),
            Node::Scalar { text, .. } => visitor.visit_borrowed_str(text),
            Node::List { items, .. } => self.list(items, visitor),
            Node::Map { entries, .. } => self.map(entries, visitor),
        }
    }
}

/// A scalar without quotes: what it means is up to how it looks.
fn plain<'n, V: Visitor<'n>>(text: &'n str, visitor: V) -> Result<V::Value, Refusal> {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    let is_number = digits.starts_with(|first: char| first.is_ascii_digit() || first == '.');
    match text {
        "" | "~" | "null" | "Null" | "NULL" => visitor.visit_unit(),
        "true" | "True" | "TRUE" => visitor.visit_bool(true),
        "false" | "False" | "FALSE" => visitor.visit_bool(false),
        _ if digits.len() > 1 && digits.bytes().all(|byte| byte.is_ascii_digit()) && digits.starts_with('0') => {
            visitor.visit_borrowed_str(text)
        }
        _ => match (text.parse::<u64>(), text.parse::<i64>(), text.parse::<f64>()) {
            (Ok(number), ..) => visitor.visit_u64(number),
            (_, Ok(number), _) => visitor.visit_i64(number),
            (_, _, Ok(number)) if is_number => visitor.visit_f64(number),
            _ => visitor.visit_borrowed_str(text),
        },
    }
}

impl<'n> IntoDeserializer<'n, Refusal> for Value<'n> {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl<'n> Deserializer<'n> for Value<'n> {
    type Error = Refusal;

    fn deserialize_any<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.placed(self.any(visitor))
    }

    /// A scalar is a text where one is asked for, whatever it looks like.
    fn deserialize_str<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.placed(match self.0 {
            Node::Scalar { text, .. } => visitor.visit_borrowed_str(text),
            _ => self.any(visitor),
        })
    }

    fn deserialize_string<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        let is_nothing =
            matches!(self.0, Node::Scalar { text, plain: true, .. } if matches!(text.as_str(), "" | "~" | "null"));
        self.placed(if is_nothing { visitor.visit_none() } else { visitor.visit_some(self) })
    }

    fn deserialize_newtype_struct<V: Visitor<'n>>(self, _: &'static str, visitor: V) -> Result<V::Value, Refusal> {
        self.placed(visitor.visit_newtype_struct(self))
    }

    fn deserialize_seq<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.placed(if self.is_void() { self.list(&[], visitor) } else { self.any(visitor) })
    }

    fn deserialize_map<V: Visitor<'n>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.placed(match self.0 {
            _ if self.is_void() => self.map(&[], visitor),
            Node::List { .. } => Err(serde::de::Error::invalid_type(Unexpected::Seq, &visitor)),
            _ => self.any(visitor),
        })
    }

    fn deserialize_struct<V: Visitor<'n>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.deserialize_map(visitor)
    }

    forward_to_deserialize_any! {
        <W: Visitor<'n>>
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char bytes byte_buf unit unit_struct tuple tuple_struct enum
        identifier ignored_any
    }
}
