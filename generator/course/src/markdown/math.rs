//! LaTeX into MathML, each formula once.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::{Mutex, PoisonError};

use math_core::{LatexToMathML, MathCoreConfig, MathDisplay};
use problems::html::{Markup, pieces};

/// The longest formula (bytes), and the deepest that its groups nest: the converter calls itself for each.
const MOST_BYTES: usize = 4_000;
const MOST_DEPTH: usize = 24;

/// What is wrong with a formula.
pub(crate) enum MathFault {
    /// It is too long or nests too deep.
    TooLarge,
    /// These bytes cannot be read, for this reason.
    Unreadable(Range<usize>, String),
}

/// The converter with what it has converted: lessons say the same formulas again and again.
pub(crate) struct Math {
    converter: LatexToMathML,
    known: Mutex<BTreeMap<(bool, String), String>>,
}

impl Math {
    /// A converter without the LaTeX beside the MathML: the page says the law in words, and pages stay light.
    pub(crate) fn new() -> Self {
        // Only macros of our own could be refused, and there are none.
        let converter = LatexToMathML::new(MathCoreConfig::default()).unwrap_or_default();
        Self { converter, known: Mutex::default() }
    }

    /// MathML for a formula: a line of its own, or within a line.
    pub(crate) fn convert(&self, latex: &str, display: bool) -> Result<String, MathFault> {
        let key = (display, latex.to_owned());
        if let Some(known) = self.known.lock().unwrap_or_else(PoisonError::into_inner).get(&key) {
            return Ok(known.clone());
        }
        if latex.len() > MOST_BYTES || depth(latex) > MOST_DEPTH {
            return Err(MathFault::TooLarge);
        }
        let place = if display { MathDisplay::Block } else { MathDisplay::Inline };
        let converted = self.converter.convert_with_local_state(latex, place);
        let mathml = converted.map_err(|error| MathFault::Unreadable(error.0.clone(), error.error_message()))?.mathml;
        let mathml = without_styles(&mathml);
        self.known.lock().unwrap_or_else(PoisonError::into_inner).insert(key, mathml.clone());
        Ok(mathml)
    }
}

/// MathML without style attributes, which the pages' policy forbids: how the cells of a table are aligned becomes a
/// class, and what else a style says is left to the style sheet.
fn without_styles(mathml: &str) -> String {
    // Only within tags: a text may say style=" as well.
    let plain = |piece| match piece {
        Markup::Tag(tag) => without_style(tag).map_or(Cow::Borrowed(tag), Cow::Owned),
        Markup::Text(text) => Cow::Borrowed(text),
    };
    let out: String = pieces(mathml).map(plain).collect();
    // A table is at the level of its formula anyway, and checkers of HTML do not know the attribute there.
    let out = out.replace(" scriptlevel=\"0\"><mtr>", "><mtr>");
    // Nobody sees a hundred-thousandth of a space, and a page of laws has hundreds of them.
    out.replace("=\"0.16666667em\"", "=\"0.17em\"")
}

/// A tag with a class in the place of its style; `None` where it has no style.
fn without_style(tag: &str) -> Option<String> {
    let (before, after) = tag.split_once(" style=\"")?;
    let (style, after) = after.split_once('"').unwrap_or((after, ""));
    Some(format!("{before}{}{after}", alignment(style)))
}

/// The class for how a style aligns.
fn alignment(style: &str) -> &'static str {
    if style.contains("text-align: left") {
        " class=\"math-start\""
    } else if style.contains("text-align: right") {
        " class=\"math-end\""
    } else {
        ""
    }
}

/// How deep the converter may come to call itself: groups within groups, and commands that take what follows them, other
/// commands too. Rather too deep than too shallow.
fn depth(latex: &str) -> usize {
    let mut groups: Vec<(char, usize)> = Vec::new();
    let (mut sum, mut chain, mut most) = (0, 0, 0);
    let mut rest = latex.chars().peekable();
    while let Some(next) = rest.next() {
        let name = if next == '\\' { command(&mut rest) } else { String::new() };
        match (next, name.as_str()) {
            ('{' | '[', _) | ('\\', "left" | "begin") => {
                groups.push((next, chain));
                sum += chain + 1;
                chain = 0;
            }
            ('}' | ']', _) | ('\\', "right" | "end") => {
                let open = if next == '}' {
                    '{'
                } else if next == ']' {
                    '['
                } else {
                    next
                };
                let at = groups.iter().rposition(|(known, _)| *known == open).unwrap_or(groups.len());
                for (_, before) in groups.drain(at..).rev() {
                    (sum, chain) = (sum - before - 1, before);
                }
            }
            ('\\' | '^' | '_', _) => chain += 1,
            (next, _) if next.is_whitespace() => (),
            _ => chain = 0,
        }
        most = most.max(sum + chain);
    }
    most
}

/// The name of a command: letters, or one other character.
fn command(rest: &mut std::iter::Peekable<std::str::Chars>) -> String {
    let mut name = String::new();
    while let Some(letter) = rest.next_if(char::is_ascii_alphabetic) {
        name.push(letter);
    }
    if name.is_empty() {
        name.extend(rest.next());
    }
    name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_become_mathml() {
        let math = Math::new();
        let html = math.convert(r"A = \frac{\pi D^2}{4}", true).ok().unwrap_or_default();
        assert!(html.starts_with("<math display=\"block\">") && html.contains("<mfrac>"), "{html}");
        assert_eq!(math.convert(r"A = \frac{\pi D^2}{4}", true).ok(), Some(html));
    }

    #[test]
    fn no_formula_brings_a_style_of_its_own() {
        for latex in [
            r"\begin{cases} 1 & a \\ 2 & b \end{cases}",
            r"\begin{aligned} a &= b \\ c &= d \end{aligned}",
            r"\color{red} x",
        ] {
            let html = Math::new().convert(latex, true).ok().unwrap_or_default();
            assert!(html.starts_with("<math") && !html.contains(" style=") && !html.contains(" display "), "{html}");
        }
    }

    #[test]
    fn a_text_that_looks_like_a_style_stays_a_text() {
        for said in [r#"\text{ style="}"#, r#"\text{a style="b" c}"#] {
            let html = Math::new().convert(said, false).ok().unwrap_or_default();
            assert!(html.ends_with("</math>") && html.contains("style="), "{html}");
        }
    }

    #[test]
    fn what_cannot_be_read_has_its_bytes() {
        let Err(MathFault::Unreadable(range, _)) = Math::new().convert(r"p + \nonsense", false) else {
            panic!("refused")
        };
        assert_eq!(range, 4..13);
    }

    #[test]
    fn no_formula_uses_up_the_stack() {
        let math = Math::new();
        let nests = [
            ("{", "}"),
            (r"\sqrt{", "}"),
            (r"\sqrt[", "]"),
            (r"\left(", r"\right)"),
            (r"\sqrt", ""),
            (r"\sqrt ", ""),
            ("x^", ""),
            ("x_{", "}"),
            (r"\text{", "}"),
            (r"\begin{matrix}", r"\end{matrix}"),
            (r"\frac", ""),
            (r"\frac{a}", ""),
            (r"\sqrt\sqrt\sqrt{", "}"),
        ];
        for (open, close) in nests {
            for count in [10, 30, 300, 3_000] {
                let _ = math.convert(&format!("{}x{}", open.repeat(count), close.repeat(count)), true);
            }
        }
        assert_eq!(depth(r"\frac{\frac{a}{b}}{c} + \sqrt[3]{x}"), 4);
    }

    #[test]
    fn formulas_of_the_trade_are_far_from_the_limit() {
        let law = r"W = \frac{p_1 A K_d}{C}\sqrt{\frac{M}{Z\,T}} \quad \text{and} \quad \left(\frac{2}{k+1}\right)^{\frac{k}{k-1}}";
        assert!(depth(law) < MOST_DEPTH / 2, "{}", depth(law));
    }
}
