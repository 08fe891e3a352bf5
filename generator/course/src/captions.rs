//! Captions in WebVTT (W3C): cues with times and plain text. What the format has besides, such as colours, is refused, so that
//! the same words can be read below the film.

use std::ops::Range;

use faults::Code;

use crate::document::Source;
use crate::fault::{Fault, Place};

/// Words that are said from one time to another (milliseconds from the start).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cue {
    /// When they appear.
    pub from: u64,
    /// When they go.
    pub to: u64,
    /// The words, in one line.
    pub text: String,
}

/// A line with its bytes in the file.
type Line<'s> = (&'s str, Range<usize>);

/// Reads a file of captions.
pub(crate) fn read(source: &Source, faults: &mut Vec<Fault>) -> Vec<Cue> {
    let lines = lines(&source.text);
    let mut reader = Reader { file: &source.file, cues: Vec::new(), faults };
    let Some((head, _)) = lines.first().filter(|(line, _)| is_head(line)) else {
        reader.refuse(Code::CaptionsHead, lines.first().map_or(0..0, |(_, range)| range.clone()));
        return Vec::new();
    };
    debug_assert!(is_head(head));
    let blocks = lines.split(|(line, _)| line.trim().is_empty()).skip_while(|block| block.is_empty());
    // The first block is the head, with whatever is told about the file.
    blocks.skip(1).filter(|block| !block.is_empty()).for_each(|block| reader.block(block));
    if reader.cues.is_empty() && reader.faults.is_empty() {
        reader.refuse(Code::CaptionsEmpty, 0..0);
    }
    reader.cues
}

fn is_head(line: &str) -> bool {
    line == "WEBVTT" || line.starts_with("WEBVTT ") || line.starts_with("WEBVTT\t")
}

/// The lines, without what ends them.
fn lines(text: &str) -> Vec<Line<'_>> {
    let mut at = 0;
    let line = |whole: &'_ str| {
        let from = at;
        at += whole.len();
        from..from + whole.trim_end_matches(['\n', '\r']).len()
    };
    let ranges: Vec<_> = text.split_inclusive('\n').map(line).collect();
    ranges.into_iter().map(|range| (&text[range.clone()], range)).collect()
}

struct Reader<'r> {
    file: &'r str,
    cues: Vec<Cue>,
    faults: &'r mut Vec<Fault>,
}

impl Reader<'_> {
    fn refuse(&mut self, code: Code, range: Range<usize>) {
        self.faults.push(Fault::at(code, Place::new(self.file, range)));
    }

    /// A cue; a note of the author is passed over.
    fn block(&mut self, block: &[Line]) {
        let note = |line: &str| line == "NOTE" || line.starts_with("NOTE ");
        if block.first().is_none_or(|(line, _)| note(line)) {
            return;
        }
        // A cue may have a name before its times.
        let times = block.iter().take(2).position(|(line, _)| line.contains("-->"));
        let Some((index, (line, range))) = times.and_then(|at| Some((at, block.get(at)?))) else {
            return self.refuse(Code::CaptionsTime, block[0].1.clone());
        };
        let Some((from, to)) = times_of(line) else { return self.refuse(Code::CaptionsTime, range.clone()) };
        if to <= from || self.cues.last().is_some_and(|before| from < before.from) {
            return self.refuse(Code::CaptionsOrder, range.clone());
        }
        let text = block.iter().skip(index + 1).map(|(line, range)| self.words(line, range)).collect::<Vec<_>>();
        self.cues.push(Cue { from, to, text: text.join(" ") });
    }

    /// A line of a cue, which is plain text.
    fn words(&mut self, line: &str, range: &Range<usize>) -> String {
        if let Some(at) = line.find('<') {
            let end = line[at..].find('>').map_or(line.len(), |end| at + end + 1);
            self.refuse(Code::CaptionsMarkup, range.start + at..range.start + end);
        }
        let entities =
            [("&lt;", "<"), ("&gt;", ">"), ("&nbsp;", "\u{a0}"), ("&lrm;", ""), ("&rlm;", ""), ("&amp;", "&")];
        entities.iter().fold(line.trim().to_owned(), |text, (name, sign)| text.replace(name, sign))
    }
}

/// The two times of a cue; settings after them are passed over.
fn times_of(line: &str) -> Option<(u64, u64)> {
    let (from, rest) = line.split_once("-->")?;
    Some((time(from.trim())?, time(rest.split_whitespace().next()?)?))
}

/// A time: hours, which may be missing, minutes, seconds and three decimals.
fn time(text: &str) -> Option<u64> {
    let (clock, milliseconds) = text.split_once('.')?;
    let parts: Vec<_> = clock.split(':').map(|part| digits(part, 2)).collect::<Option<_>>()?;
    let (hours, minutes, seconds) = match parts.as_slice() {
        [minutes, seconds] => (0, *minutes, *seconds),
        [hours, minutes, seconds] => (*hours, *minutes, *seconds),
        _ => return None,
    };
    let whole = (hours * 60 + minutes) * 60 + seconds;
    (minutes < 60 && seconds < 60 && milliseconds.len() == 3).then_some(())?;
    Some(whole * 1000 + digits(milliseconds, 3)?)
}

/// A number of at least so many digits, and of no more than anybody needs.
fn digits(text: &str, fewest: usize) -> Option<u64> {
    let fits = (fewest..=4).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    fits.then(|| text.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::Sort;

    fn read_text(text: &str) -> (Vec<Cue>, Vec<(Code, String)>) {
        let source = Source { file: "en/files/a.vtt".to_owned(), sort: Sort::Captions, text: text.to_owned() };
        let mut faults = Vec::new();
        let cues = read(&source, &mut faults);
        let faults = faults.into_iter().map(|fault| (fault.code, text[fault.place.span.clone()].to_owned())).collect();
        (cues, faults)
    }

    #[test]
    fn cues_have_times_and_words() {
        let text = "WEBVTT - a film\r\nKind: captions\r\n\r\nNOTE by hand\r\n\r\n1\r\n00:01.000 --> 00:02.500 line:80%\r\nThe valve\r\nopens &amp; flows.\r\n\r\n01:00:03.000 --> 01:00:04.000\r\nIt closes.\r\n";
        let cue = |from, to, text: &str| Cue { from, to, text: text.to_owned() };
        let cues = vec![cue(1000, 2500, "The valve opens & flows."), cue(3_603_000, 3_604_000, "It closes.")];
        assert_eq!(read_text(text), (cues, Vec::new()));
    }

    #[test]
    fn what_is_not_plain_is_refused_in_its_place() {
        let told = |text: &str| read_text(text).1;
        let one = |code, marked: &str| vec![(code, marked.to_owned())];
        assert_eq!(told("1\n00:01.000 --> 00:02.000\nx\n"), one(Code::CaptionsHead, "1"));
        assert_eq!(told(""), one(Code::CaptionsHead, ""));
        assert_eq!(told("WEBVTT\n"), one(Code::CaptionsEmpty, ""));
        assert_eq!(told("WEBVTT\n\nThe valve opens.\n"), one(Code::CaptionsTime, "The valve opens."));
        for bad in [
            "00:01,000 --> 00:02,000",
            "1 --> 2",
            "00:61.000 --> 00:62.000",
            "00:01.000 -->",
            "-1:01.000 --> 00:02.000",
        ] {
            assert_eq!(told(&format!("WEBVTT\n\n{bad}\nx\n")), one(Code::CaptionsTime, bad), "{bad}");
        }
        assert_eq!(told("WEBVTT\n\n00:02.000 --> 00:01.000\nx\n"), one(Code::CaptionsOrder, "00:02.000 --> 00:01.000"));
        let back = "WEBVTT\n\n00:05.000 --> 00:06.000\nx\n\n00:01.000 --> 00:02.000\ny\n";
        assert_eq!(told(back), one(Code::CaptionsOrder, "00:01.000 --> 00:02.000"));
        let tagged = "WEBVTT\n\n00:01.000 --> 00:02.000\nIt <b>opens</b>.\n";
        assert_eq!(told(tagged), one(Code::CaptionsMarkup, "<b>"));
        assert_eq!(told("WEBVTT\n\nSTYLE\n::cue { color: red }\n"), one(Code::CaptionsTime, "STYLE"));
    }
}
