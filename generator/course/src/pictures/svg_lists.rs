//! What a drawing may be made of, by the names of SVG 2 (W3C, 2018). Nothing here runs, loads, moves or copies.

/// What becomes of an element or attribute.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sort {
    /// It is drawn.
    Kept,
    /// Drawing programs write it about themselves or their user.
    LeftOut,
    /// It is on no list.
    Refused,
}

const ELEMENTS: [&str; 18] = [
    "svg",
    "g",
    "defs",
    "title",
    "desc",
    "path",
    "rect",
    "circle",
    "ellipse",
    "line",
    "polyline",
    "polygon",
    "text",
    "tspan",
    "linearGradient",
    "radialGradient",
    "stop",
    "clipPath",
];

const MARKER: &str = "marker";

/// Attributes beside those that are also properties of style.
const ATTRIBUTES: [&str; 54] = [
    "xmlns",
    "id",
    "class",
    "style",
    "version",
    "viewBox",
    "preserveAspectRatio",
    "width",
    "height",
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "fx",
    "fy",
    "fr",
    "d",
    "points",
    "pathLength",
    "dx",
    "dy",
    "rotate",
    "textLength",
    "lengthAdjust",
    "offset",
    "gradientUnits",
    "gradientTransform",
    "spreadMethod",
    "clipPathUnits",
    "markerWidth",
    "markerHeight",
    "markerUnits",
    "refX",
    "refY",
    "orient",
    "transform",
    "href",
    "xlink:href",
    "role",
    "aria-label",
    "aria-labelledby",
    "aria-hidden",
    "lang",
    "xml:lang",
    "xml:space",
    "baseProfile",
    "xmlns:xlink",
];

/// Properties of style, as attributes or within `style`.
const PROPERTIES: [&str; 57] = [
    "fill",
    "fill-opacity",
    "fill-rule",
    "stroke",
    "stroke-width",
    "stroke-opacity",
    "stroke-linecap",
    "stroke-linejoin",
    "stroke-miterlimit",
    "stroke-dasharray",
    "stroke-dashoffset",
    "color",
    "opacity",
    "display",
    "visibility",
    "overflow",
    "clip-path",
    "clip-rule",
    "stop-color",
    "stop-opacity",
    "marker",
    "marker-start",
    "marker-mid",
    "marker-end",
    "font",
    "font-family",
    "font-size",
    "font-style",
    "font-weight",
    "font-variant",
    "font-stretch",
    "font-size-adjust",
    "font-feature-settings",
    "font-variant-ligatures",
    "font-variant-caps",
    "font-variant-numeric",
    "text-anchor",
    "text-align",
    "text-decoration",
    "text-indent",
    "text-rendering",
    "letter-spacing",
    "word-spacing",
    "line-height",
    "white-space",
    "writing-mode",
    "direction",
    "dominant-baseline",
    "alignment-baseline",
    "baseline-shift",
    "paint-order",
    "vector-effect",
    "shape-rendering",
    "color-interpolation",
    "color-rendering",
    "mix-blend-mode",
    "isolation",
];

/// What becomes of an element.
pub(super) fn element(name: &str) -> Sort {
    match name {
        "metadata" => Sort::LeftOut,
        _ if name.contains(':') => Sort::LeftOut,
        _ if ELEMENTS.contains(&name) || name == MARKER => Sort::Kept,
        _ => Sort::Refused,
    }
}

/// What becomes of an attribute.
pub(super) fn attribute(name: &str) -> Sort {
    match name {
        _ if ATTRIBUTES.contains(&name) || PROPERTIES.contains(&name) => Sort::Kept,
        _ if name.contains(':') || name.starts_with("data-") => Sort::LeftOut,
        _ => Sort::Refused,
    }
}

/// Whether a property of style may be set.
pub(super) fn is_property(name: &str) -> bool {
    PROPERTIES.contains(&name)
}

/// Whether what is in an element is drawn wherever something refers to it.
pub(super) fn is_repeated(element: &str) -> bool {
    element == MARKER || element == "clipPath"
}
