//! How exact numbers, units, kinds and relations are stored: by their symbol or id, looked up when read, so that a
//! stored form that names something unknown is refused at once.

/// A module with `serialize` and `deserialize` for a type that has a text form.
macro_rules! stored_as_text {
    ($(#[$doc:meta])* $module:ident: $type:ty, |$value:ident| $write:expr, |$text:ident| $read:expr) => {
        $(#[$doc])*
        pub(crate) mod $module {
            use serde::{Deserialize, Deserializer, Serializer, de::Error};

            pub(crate) fn serialize<S: Serializer>($value: &$type, out: S) -> Result<S::Ok, S::Error> {
                out.serialize_str(AsRef::<str>::as_ref(&$write))
            }

            pub(crate) fn deserialize<'de, D: Deserializer<'de>>(input: D) -> Result<$type, D::Error> {
                let $text = String::deserialize(input)?;
                $read.ok_or_else(|| D::Error::custom(format_args!("{}: {}", stringify!($module), $text)))
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
    /// Relations, by id.
    relation: &'static relief::Relation,
    |value| value.id,
    |text| relief::find(&text)
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
    /// Units that may be missing: by symbol, or an empty text.
    some_unit: Option<&'static relief::units::Unit>,
    |value| value.map_or("", |unit| unit.symbol),
    |text| if text.is_empty() { Some(None) } else { relief::units::UNITS.iter().find(|unit| unit.symbol == text).map(Some) }
);
