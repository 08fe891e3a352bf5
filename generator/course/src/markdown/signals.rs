//! Signal panels: a quotation that starts with a bold signal word.

use std::ops::Range;

use faults::Code;
use problems::template::escape;
use pulldown_cmark::{Event, TagEnd};

use super::events::Events;
use super::flow::Flow;
use super::lookalikes::in_capitals;
use super::open::Open;
use super::references::SIGNALS;

/// Opens the panel that the events start with, if they do; says how many belong to its opening.
pub(super) fn signal(rest: Events, flow: &mut Flow) -> Option<usize> {
    let [(_, quote), (_, paragraph), _, (Event::Text(word), range), (Event::End(TagEnd::Strong), _), after @ ..] = rest
    else {
        return None;
    };
    let kind = kind(word, range, flow)?;
    open(kind, quote, flow);
    match after {
        [(Event::End(TagEnd::Paragraph), _), (Event::End(TagEnd::BlockQuote(_)), _), ..] => {
            flow.checking.refuse(Code::SignalWithoutText, range);
            Some(6)
        }
        [(Event::End(TagEnd::Paragraph), _), ..] => Some(6),
        _ => {
            flow.enter(Open::Paragraph, paragraph);
            flow.html.start_paragraph();
            Some(5 + colon(after, flow))
        }
    }
}

/// Which signal word a bold word is. A word in capitals that is none is a fault.
fn kind(word: &str, range: &Range<usize>, flow: &mut Flow) -> Option<usize> {
    let wanted = word.trim().trim_end_matches([':', '!', '.']).to_uppercase();
    if !in_capitals(word) && !SIGNALS.contains(&wanted.as_str()) {
        return None;
    }
    flow.flush();
    let kind = SIGNALS.iter().position(|known| *known == word.trim());
    if kind.is_none() {
        let fault = flow.checking.text.fault(Code::SignalWordUnknown, range).with("word", word);
        flow.checking.tell(fault.near(&wanted, SIGNALS));
    }
    kind
}

/// Writes the start of a panel, with its signal word.
fn open(kind: usize, quote: &Range<usize>, flow: &mut Flow) {
    let (class, shown) = (SIGNALS[kind].to_lowercase(), escape(&flow.checking.references.signals[kind]));
    flow.between(&format!(
        "<aside class=\"signal signal-{class}\" role=\"note\"><p class=\"signal-word\">{shown}</p><div class=\"signal-text\">\n"
    ));
    flow.enter(Open::Signal, quote);
}

/// A colon after the word goes with it: the panel has the word on a line of its own. Says how many events were taken.
fn colon(after: Events, flow: &mut Flow) -> usize {
    let [(Event::Text(text), range), ..] = after else { return 0 };
    let Some(text) = text.strip_prefix(':') else { return 0 };
    let text = text.trim_start();
    flow.text(text, &(range.end - text.len()..range.end));
    1
}
