//! Formulas in a text.

use std::ops::Range;

use faults::Code;

use super::checking::Checking;
use super::flow::Flow;
use super::math::MathFault;
use super::open::Open;
use super::text::Mode;

/// Writes a formula within a line.
pub(super) fn inline(latex: &str, range: &Range<usize>, flow: &mut Flow) {
    if let Some(html) = convert(latex, range, false, &mut flow.checking) {
        flow.inline(&html);
    }
    flow.sources.read_latex(latex, range, &mut flow.checking);
}

/// Writes a formula on a line of its own. Within a paragraph it ends it, and what follows begins the next.
pub(super) fn display(latex: &str, range: &Range<usize>, flow: &mut Flow) {
    flow.flush();
    let innermost = flow.sources.innermost();
    let in_paragraph = innermost == Some(Open::Paragraph);
    let after_words = in_paragraph && !flow.html.is_paragraph_due();
    let text = flow.checking.text;
    if !after_words && text.mode == Mode::Lesson {
        flow.waiting.start(|| text.place(range));
    }
    let between = in_paragraph || matches!(innermost, None | Some(Open::Item));
    match convert(latex, range, between, &mut flow.checking) {
        Some(html) if between => block(&html, in_paragraph, flow),
        Some(html) => flow.inline(&html),
        None => (),
    }
    flow.sources.read_latex(latex, range, &mut flow.checking);
}

/// Writes a formula between paragraphs.
fn block(html: &str, in_paragraph: bool, flow: &mut Flow) {
    if in_paragraph {
        flow.html.end_paragraph();
    }
    flow.html.between(&format!("<div class=\"math-wrap\">{html}</div>\n"));
    if in_paragraph {
        flow.html.start_paragraph();
    }
}

fn convert(latex: &str, range: &Range<usize>, display: bool, checking: &mut Checking) -> Option<String> {
    if latex.contains("{=") {
        checking.refuse(Code::ComputedInFormula, range);
        return None;
    }
    let refused = match checking.references.math.convert(latex, display) {
        Ok(html) => return Some(html),
        Err(refused) => refused,
    };
    let text = checking.text;
    checking.tell(match refused {
        MathFault::TooLarge => text.fault(Code::FormulaTooLarge, range),
        MathFault::Unreadable(bytes, detail) => {
            let inner = text.body()[range.clone()].find(latex).map(|at| range.start + at);
            let bytes = inner.map_or(range.clone(), |start| start + bytes.start..start + bytes.end.min(latex.len()));
            text.fault(Code::FormulaUnreadable, &bytes).with("detail", detail)
        }
    });
    None
}
