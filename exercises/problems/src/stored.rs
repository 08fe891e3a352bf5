//! The stored form of a compiled recipe: how it is read, and how exact numbers, units, kinds and relations are written. These
//! have their symbol or id and are looked up when they are read, so that a stored form that names something unknown is
//! refused at once.
//!
//! Writing is derived. Reading is not: readers that are derived for every type of the form take a quarter of the engine that
//! every page carries, and these take a twentieth. A test reads back all that is written. They are inline, so that they
//! are built with what calls them: the engine builds them for size, while drawing and marking here are built for speed. What
//! is not inline (lists, the removal of a field) makes less of the engine as a function of its own.

use serde_json::{Map, Value};

/// What a stored form has in a place where something else belongs: the key of that place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Unfit(pub(crate) &'static str);

/// What can be read from the tree of a stored form.
pub(crate) trait Stored: Sized {
    /// Reads it from its tree.
    fn read(tree: Value) -> Result<Self, Unfit>;
}

/// The fields of a structure, each taken once.
pub(crate) struct Fields(Map<String, Value>);

impl Fields {
    /// The fields of a tree.
    #[inline]
    pub(crate) fn of(tree: Value) -> Result<Self, Unfit> {
        match tree {
            Value::Object(map) => Ok(Self(map)),
            _ => Err(Unfit("structure")),
        }
    }

    /// The value of a field; one that is not there reads as null.
    pub(crate) fn take<T: Stored>(&mut self, key: &'static str) -> Result<T, Unfit> {
        T::read(self.any(key)).map_err(|_| Unfit(key))
    }

    fn any(&mut self, key: &str) -> Value {
        self.0.remove(key).unwrap_or(Value::Null)
    }
}

/// The name of a case and what is inside it; nothing where it is a name alone.
#[inline]
pub(crate) fn case(tree: Value) -> Result<(String, Value), Unfit> {
    match tree {
        Value::String(name) => Ok((name, Value::Null)),
        Value::Object(map) if map.len() == 1 => map.into_iter().next().ok_or(Unfit("case")),
        _ => Err(Unfit("case")),
    }
}

/// The entries of a list of so many.
pub(crate) fn entries<const N: usize>(tree: Value) -> Result<[Value; N], Unfit> {
    match tree {
        Value::Array(values) => values.try_into().map_err(|_| Unfit("entries")),
        _ => Err(Unfit("entries")),
    }
}

/// Reads a structure by the names of its fields, which are the keys of the stored form.
macro_rules! stored_fields {
    ($type:ty { $($field:ident),* $(,)? }) => {
        impl $crate::stored::Stored for $type {
            #[inline]
            fn read(tree: serde_json::Value) -> Result<Self, $crate::stored::Unfit> {
                let mut fields = $crate::stored::Fields::of(tree)?;
                Ok(Self { $($field: fields.take(stringify!($field))?),* })
            }
        }
    };
}

/// Reads one of several cases by its stored name: alone, with one value or a list of them, or with fields.
macro_rules! stored_cases {
    ($type:ty { $($name:literal => $case:ident $(($($part:ident),+))? $({ $($field:ident),* })?),* $(,)? }) => {
        impl $crate::stored::Stored for $type {
            #[inline]
            fn read(tree: serde_json::Value) -> Result<Self, $crate::stored::Unfit> {
                let (name, inside) = $crate::stored::case(tree)?;
                match name.as_str() {
                    $($name => $crate::stored::stored_case!(inside, $case $(($($part),+))? $({ $($field),* })?),)*
                    _ => Err($crate::stored::Unfit(stringify!($type))),
                }
            }
        }
    };
}

/// One case of several.
macro_rules! stored_case {
    ($inside:ident, $case:ident) => {
        if $inside.is_null() { Ok(Self::$case) } else { Err($crate::stored::Unfit(stringify!($case))) }
    };
    ($inside:ident, $case:ident ($part:ident)) => {
        $crate::stored::Stored::read($inside).map(|$part| Self::$case($part))
    };
    ($inside:ident, $case:ident ($($part:ident),+)) => {
        $crate::stored::Stored::read($inside).map(|($($part),+)| Self::$case($($part),+))
    };
    ($inside:ident, $case:ident { $($field:ident),* }) => {{
        let mut fields = $crate::stored::Fields::of($inside)?;
        Ok(Self::$case { $($field: fields.take(stringify!($field))?),* })
    }};
}

pub(crate) use {stored_case, stored_cases, stored_fields};

impl Stored for String {
    #[inline]
    fn read(tree: Value) -> Result<Self, Unfit> {
        match tree {
            Value::String(text) => Ok(text),
            _ => Err(Unfit("text")),
        }
    }
}

/// A flag that is not there is not set.
impl Stored for bool {
    #[inline]
    fn read(tree: Value) -> Result<Self, Unfit> {
        match tree {
            Value::Bool(flag) => Ok(flag),
            Value::Null => Ok(false),
            _ => Err(Unfit("flag")),
        }
    }
}

/// Whole numbers.
macro_rules! stored_counts {
    ($($type:ty)*) => {$(
        impl Stored for $type {
            fn read(tree: Value) -> Result<Self, Unfit> {
                tree.as_u64().and_then(|count| count.try_into().ok()).ok_or(Unfit("count"))
            }
        }
    )*};
}

stored_counts! { u8 u32 usize }

impl<T: Stored> Stored for Vec<T> {
    fn read(tree: Value) -> Result<Self, Unfit> {
        match tree {
            Value::Array(values) => {
                let mut all = Self::new();
                for value in values {
                    all.push(T::read(value)?);
                }
                Ok(all)
            }
            _ => Err(Unfit("list")),
        }
    }
}

impl<T: Stored> Stored for Option<T> {
    #[inline]
    fn read(tree: Value) -> Result<Self, Unfit> {
        if tree.is_null() { Ok(None) } else { T::read(tree).map(Some) }
    }
}

impl<T: Stored> Stored for Box<T> {
    #[inline]
    fn read(tree: Value) -> Result<Self, Unfit> {
        T::read(tree).map(Self::new)
    }
}

impl<A: Stored, B: Stored> Stored for (A, B) {
    #[inline]
    fn read(tree: Value) -> Result<Self, Unfit> {
        let [one, other] = entries(tree)?;
        Ok((A::read(one)?, B::read(other)?))
    }
}

impl<A: Stored, B: Stored, C: Stored> Stored for (A, B, C) {
    #[inline]
    fn read(tree: Value) -> Result<Self, Unfit> {
        let [first, second, third] = entries(tree)?;
        Ok((A::read(first)?, B::read(second)?, C::read(third)?))
    }
}

/// A module with `serialize` for a type that is stored as a text, alone or where it may be missing; and its reader.
macro_rules! stored_as_text {
    ($(#[$doc:meta])* $module:ident: $type:ty, |$value:ident| $write:expr, |$text:ident| $read:expr) => {
        $(#[$doc])*
        pub(crate) mod $module {
            use serde::Serializer;

            pub(crate) fn serialize<S: Serializer>($value: &$type, out: S) -> Result<S::Ok, S::Error> {
                out.serialize_str(AsRef::<str>::as_ref(&$write))
            }
        }

        impl Stored for $type {
            fn read(tree: Value) -> Result<Self, Unfit> {
                let $text = String::read(tree)?;
                $read.ok_or(Unfit(stringify!($module)))
            }
        }
    };
}

stored_as_text!(
    /// Exact numbers, as `numerator/denominator`.
    exact: relief::Exact,
    |value| format!("{}/{}", value.numerator(), value.denominator()),
    |text| relief::Exact::parse(&text).ok().map(|(value, _)| value)
);

stored_as_text!(
    /// Units, by symbol.
    unit: &'static relief::units::Unit,
    |value| value.symbol,
    |text| relief::units::UNITS.iter().find(|unit| unit.symbol == text)
);

stored_as_text!(
    /// Kinds, by id.
    kind: relief::Kind,
    |value| value.id(),
    |text| relief::Kind::NAMED.into_iter().find(|kind| kind.id() == text)
);

stored_as_text!(
    /// Relations, by key.
    relation: &'static relief::Relation,
    |value| value.key,
    |text| crate::own::find(&text)
);

stored_as_text!(
    /// Styles of a number: its decimal places, or `mixed`.
    style: relief::Style,
    |value| match value {
        relief::Style::Decimal(places) => places.to_string(),
        relief::Style::Mixed => "mixed".to_owned(),
    },
    |text| if text == "mixed" { Some(relief::Style::Mixed) } else { text.parse().ok().map(relief::Style::Decimal) }
);

stored_as_text!(
    /// Systems, by id.
    system: relief::System,
    |value| value.id(),
    |text| relief::System::find(&text)
);

/// Units that may be missing.
pub(crate) mod some_unit {
    use serde::{Serialize, Serializer};

    pub(crate) fn serialize<S: Serializer>(
        value: &Option<&'static relief::units::Unit>,
        out: S,
    ) -> Result<S::Ok, S::Error> {
        value.map(|unit| unit.symbol).serialize(out)
    }
}

/// Systems that may be missing.
pub(crate) mod some_system {
    use serde::{Serialize, Serializer};

    #[expect(clippy::ref_option, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(value: &Option<relief::System>, out: S) -> Result<S::Ok, S::Error> {
        value.map(relief::System::id).serialize(out)
    }
}
