//! The many ways in which people write one unit, brought to one spelling.

/// Words by which the parts of units are cut short, in lower case, and the word in full.
const IN_FULL: &[(&str, &str)] = &[
    ("/", "per"),
    ("in", "inch"),
    ("in2", "square inch"),
    ("ins", "inch"),
    ("inches", "inch"),
    ("ft", "foot"),
    ("ft3", "cubic foot"),
    ("feet", "foot"),
    ("mm", "millimetre"),
    ("mm2", "square millimetre"),
    ("cm", "centimetre"),
    ("cm2", "square centimetre"),
    ("cm3", "cubic centimetre"),
    ("m", "metre"),
    ("m2", "square metre"),
    ("m3", "cubic metre"),
    ("sq", "square"),
    ("cu", "cubic"),
    ("sqin", "square inch"),
    ("sqmm", "square millimetre"),
    ("sqcm", "square centimetre"),
    ("cuft", "cubic foot"),
    ("#", "pound"),
    ("lb", "pound"),
    ("lbs", "pound"),
    ("lbm", "pound"),
    ("lbf", "pound-force"),
    ("pounds-force", "pound-force"),
    ("pounds-mass", "pound"),
    ("pound-mass", "pound"),
    ("kg", "kilogram"),
    ("kilo", "kilogram"),
    ("kgf", "kilogram-force"),
    ("n", "newton"),
    ("kn", "kilonewton"),
    ("pa", "pascal"),
    ("kpa", "kilopascal"),
    ("mpa", "megapascal"),
    ("l", "litre"),
    ("gal", "gallon"),
    ("min", "minute"),
    ("mins", "minute"),
    ("s", "second"),
    ("sec", "second"),
    ("h", "hour"),
    ("hr", "hour"),
    ("hrs", "hour"),
    ("deg", "degree"),
    ("°", "degree"),
    ("g", "gauge"),
    ("(g)", "gauge"),
    ("ga", "gauge"),
    ("gage", "gauge"),
    ("(gauge)", "gauge"),
    ("a", "absolute"),
    ("(a)", "absolute"),
    ("abs", "absolute"),
    ("(abs)", "absolute"),
    ("(absolute)", "absolute"),
];

/// A unit word by word in one spelling: British, in the singular, and written out where it is usually cut short.
pub(super) fn in_one_spelling(name: &str) -> String {
    let full = |word: &str| {
        let known = IN_FULL.iter().find(|(short, _)| *short == word);
        let singular = word.strip_suffix('s').filter(|_| word.len() > 3 && !word.ends_with("ss") && word != "celsius");
        let word = known.map_or_else(|| singular.unwrap_or(word), |(_, word)| word);
        word.replace("meter", "metre").replace("liter", "litre")
    };
    let apart = name.replace('(', " (").replace('/', " / ");
    apart.split_whitespace().map(full).collect::<Vec<_>>().join(" ")
}

/// A text as it is looked up: one space between words, plain digits for powers, no points.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out.replace('.', "")
        .replace('²', "2")
        .replace('³', "3")
        .replace("^2", "2")
        .replace("^3", "3")
        .replace("° ", "°")
        .replace(['″', '”'], "\"")
        .replace(['′', '’'], "'")
        .replace("lbs/", "lb/")
        .replace("/hr", "/h")
        .replace(" / ", "/")
        .replace(" /", "/")
}
