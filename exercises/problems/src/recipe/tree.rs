//! Reading a compiled recipe from its JSON tree. What `serde_json` offers for a tree also takes every structure as a
//! list; a compiled recipe never is one, and leaving that out takes a quarter off the engine's size.

use serde::de::value::{MapDeserializer, SeqDeserializer};
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error as _, IntoDeserializer, Unexpected, VariantAccess, Visitor,
};
use serde_json::{Error, Value};

/// A tree that is read once.
pub(super) struct Tree(pub(super) Value);

impl IntoDeserializer<'_, Error> for Tree {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

fn unexpected<'de, V: Visitor<'de>>(found: &Value, visitor: &V) -> Error {
    let found = match found {
        Value::Null => Unexpected::Unit,
        Value::Bool(flag) => Unexpected::Bool(*flag),
        Value::Number(_) => Unexpected::Other("number"),
        Value::String(text) => Unexpected::Str(text),
        Value::Array(_) => Unexpected::Seq,
        Value::Object(_) => Unexpected::Map,
    };
    Error::invalid_type(found, visitor)
}

fn list<'de, V: Visitor<'de>>(values: Vec<Value>, visitor: V) -> Result<V::Value, Error> {
    visitor.visit_seq(SeqDeserializer::new(values.into_iter().map(Tree)))
}

fn mapping<'de, V: Visitor<'de>>(map: serde_json::Map<String, Value>, visitor: V) -> Result<V::Value, Error> {
    visitor.visit_map(MapDeserializer::new(map.into_iter().map(|(key, value)| (key, Tree(value)))))
}

impl<'de> Deserializer<'de> for Tree {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        Err(unexpected(&self.0, &visitor))
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.0 {
            Value::Bool(flag) => visitor.visit_bool(flag),
            other => Err(unexpected(&other, &visitor)),
        }
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.0.as_u64() {
            Some(number) => visitor.visit_u64(number),
            None => Err(unexpected(&self.0, &visitor)),
        }
    }

    fn deserialize_u8<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_u64(visitor)
    }

    fn deserialize_u16<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_u64(visitor)
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_u64(visitor)
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.0 {
            Value::String(text) => visitor.visit_string(text),
            other => Err(unexpected(&other, &visitor)),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_string(visitor)
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_string(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.0 {
            Value::Null => visitor.visit_none(),
            other => visitor.visit_some(Self(other)),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.0 {
            Value::Array(values) => list(values, visitor),
            other => Err(unexpected(&other, &visitor)),
        }
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        match self.0 {
            Value::Object(map) => mapping(map, visitor),
            other => Err(unexpected(&other, &visitor)),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        match self.0 {
            Value::String(name) => visitor.visit_enum(Variant { name, inside: Value::Null }),
            Value::Object(map) if map.len() == 1 => match map.into_iter().next() {
                Some((name, inside)) => visitor.visit_enum(Variant { name, inside }),
                None => Err(Error::custom("nothing")),
            },
            other => Err(unexpected(&other, &visitor)),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_unit()
    }

    serde::forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u128 f32 f64 char bytes byte_buf unit unit_struct map tuple_struct
    }
}

/// One of the forms of an enumeration and what is inside it.
struct Variant {
    name: String,
    inside: Value,
}

impl<'de> EnumAccess<'de> for Variant {
    type Error = Error;
    type Variant = Tree;

    fn variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<(S::Value, Tree), Error> {
        Ok((seed.deserialize(Tree(Value::String(self.name)))?, Tree(self.inside)))
    }
}

impl<'de> VariantAccess<'de> for Tree {
    type Error = Error;

    fn unit_variant(self) -> Result<(), Error> {
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, Error> {
        seed.deserialize(self)
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Error> {
        self.deserialize_seq(visitor)
    }

    fn struct_variant<V: Visitor<'de>>(self, fields: &'static [&'static str], visitor: V) -> Result<V::Value, Error> {
        self.deserialize_struct("", fields, visitor)
    }
}
