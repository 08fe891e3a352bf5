//! SVG: a drawing of the elements and attributes that are allowed, and of no other. What drawing programs write about
//! themselves is left out; whatever else is not on the lists is refused in its place. Pages show a drawing as a picture, in which
//! browsers run nothing and load nothing; it is also safe where somebody opens its file by itself.

use std::ops::Range;

use faults::Code;
use quick_xml::Reader;
use quick_xml::XmlVersion;
use quick_xml::events::attributes::Attribute;
use quick_xml::events::{BytesRef, BytesStart, Event};

use super::shape::Clean;
use super::svg_lists::{self, Sort};
use super::svg_values;
use crate::fault::{Fault, Place};
use crate::files::{NoText, refused_character};

/// The deepest that elements nest.
const MOST_DEPTH: usize = 64;
/// The most elements in what is drawn again and again, once for each corner of a line.
const MOST_REPEATED: usize = 50;
const SVG: &str = "http://www.w3.org/2000/svg";

/// A drawing without what its program wrote about itself.
pub(super) fn clean(bytes: &[u8], file: &str) -> Result<Clean, NoText> {
    let text = String::from_utf8_lossy(bytes);
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let mut drawing =
        Drawing { text, out: String::new(), open: Vec::new(), dropped: 0, repeated: 0, size: None, has_root: false };
    let refuse = |Refusal { code, found, span }: Refusal| {
        let fault = Fault::at(code, Place::new(file, span)).with("file", file).with("found", found);
        NoText::Refused(Box::new(fault), Some(text.to_owned()))
    };
    drawing.read().map_err(refuse)?;
    let size = drawing.size.ok_or_else(|| refuse(Refusal::new(Code::SvgWithoutSize, "", 0..0)))?;
    Ok(Clean::new(drawing.out.into_bytes(), size, None))
}

/// Why a drawing is refused: what was found, and where.
struct Refusal {
    code: Code,
    found: String,
    span: Range<usize>,
}

impl Refusal {
    fn new(code: Code, found: &str, span: Range<usize>) -> Self {
        Self { code, found: found.chars().take(60).collect(), span }
    }
}

struct Drawing<'t> {
    text: &'t str,
    out: String,
    /// The names of the elements that are open.
    open: Vec<String>,
    /// How many of the innermost of them are left out.
    dropped: usize,
    /// The elements so far in what is drawn again and again.
    repeated: usize,
    size: Option<(usize, usize)>,
    has_root: bool,
}

impl Drawing<'_> {
    fn read(&mut self) -> Result<(), Refusal> {
        let text = self.text;
        let mut reader = Reader::from_str(text);
        loop {
            let start = position(reader.buffer_position());
            let event = reader.read_event();
            let span = start..position(reader.buffer_position()).clamp(start, text.len());
            match event {
                Ok(Event::Eof) if self.has_root && self.open.is_empty() => return Ok(()),
                Ok(Event::Eof) => return Err(Refusal::new(Code::SvgUnreadable, "", text.len()..text.len())),
                Ok(event) => self.event(&event, span)?,
                Err(_) => return Err(Refusal::new(Code::SvgUnreadable, "", span)),
            }
        }
    }

    fn event(&mut self, event: &Event, span: Range<usize>) -> Result<(), Refusal> {
        match event {
            Event::Start(tag) => self.start(tag, span, false),
            Event::Empty(tag) => self.start(tag, span, true),
            Event::End(_) => {
                self.end(&span);
                Ok(())
            }
            Event::GeneralRef(name) => self.reference(name, span),
            Event::Text(_) | Event::CData(_) => self.words(span),
            Event::DocType(_) => Err(Refusal::new(Code::SvgDoctype, "<!DOCTYPE>", span)),
            Event::Comment(_) | Event::Decl(_) | Event::PI(_) | Event::Eof => Ok(()),
        }
    }

    fn start(&mut self, tag: &BytesStart, span: Range<usize>, is_empty: bool) -> Result<(), Refusal> {
        let name = tag.name().0.to_owned();
        let sort = svg_lists::element(&name);
        if self.dropped > 0 || sort == Sort::LeftOut {
            self.dropped += usize::from(!is_empty);
            self.open.extend((!is_empty).then_some(name));
            return Ok(());
        }
        // The drawing itself is the first element, and the only one of its name.
        if sort == Sort::Refused || self.has_root == (name == "svg") || (self.open.is_empty() && self.has_root) {
            return Err(Refusal::new(Code::SvgElement, &name, span));
        }
        self.count(&name, &span)?;
        let attributes = self.attributes(tag, &span)?;
        if !self.has_root {
            self.root(&attributes, &span)?;
        }
        self.write(&name, &attributes, is_empty);
        self.open.extend((!is_empty).then_some(name));
        Ok(())
    }

    /// A fault where elements nest too deeply, or too many are drawn again and again.
    fn count(&mut self, name: &str, span: &Range<usize>) -> Result<(), Refusal> {
        self.repeated += usize::from(self.is_repeated());
        if self.open.len() < MOST_DEPTH && self.repeated <= MOST_REPEATED {
            return Ok(());
        }
        Err(Refusal::new(Code::SvgTooFull, name, span.clone()))
    }

    fn is_repeated(&self) -> bool {
        self.open.iter().any(|name| svg_lists::is_repeated(name))
    }

    fn end(&mut self, span: &Range<usize>) {
        self.open.pop();
        if self.dropped == 0 {
            self.out.push_str(&self.text[span.clone()]);
        }
        self.dropped = self.dropped.saturating_sub(1);
    }

    fn words(&mut self, span: Range<usize>) -> Result<(), Refusal> {
        let words = &self.text[span.clone()];
        match refused_character(words) {
            Some(name) => Err(Refusal::new(Code::SvgValue, &name, span)),
            None if self.dropped == 0 && !self.open.is_empty() => {
                self.out.push_str(words);
                Ok(())
            }
            None => Ok(()),
        }
    }

    /// A character by its number, or by one of the five names that need no declaration.
    fn reference(&mut self, name: &BytesRef, span: Range<usize>) -> Result<(), Refusal> {
        let written = &self.text[span.clone()];
        let known = ["&lt;", "&gt;", "&amp;", "&quot;", "&apos;"].contains(&written);
        let resolved = name.resolve_char_ref().ok().flatten();
        let is_text = resolved.is_some_and(|next| refused_character(&next.to_string()).is_none());
        if !known && !is_text {
            return Err(Refusal::new(Code::SvgValue, written, span));
        }
        if self.dropped == 0 && !self.open.is_empty() {
            self.out.push_str(written);
        }
        Ok(())
    }

    /// The attributes that are kept, each with its value as it is meant.
    fn attributes(&self, tag: &BytesStart, span: &Range<usize>) -> Result<Vec<(String, String)>, Refusal> {
        let mut kept = Vec::new();
        for attribute in tag.attributes() {
            let attribute = attribute.map_err(|_| self.refusal(Code::SvgUnreadable, "", "", span))?;
            kept.extend(self.attribute(&attribute, span)?);
        }
        Ok(kept)
    }

    fn attribute(&self, attribute: &Attribute, span: &Range<usize>) -> Result<Option<(String, String)>, Refusal> {
        let name = attribute.key.0;
        let value = attribute.normalized_value(XmlVersion::default());
        let value = value.map_err(|_| self.refusal(Code::SvgValue, &attribute.value, name, span))?;
        let fits = match svg_lists::attribute(name) {
            Sort::LeftOut => return Ok(None),
            Sort::Refused => return Err(self.refusal(Code::SvgAttribute, name, name, span)),
            Sort::Kept => svg_values::fits(name, &value, self.is_repeated()),
        };
        let namespace = name != "xmlns" || value == SVG;
        if !fits || !namespace || refused_character(&value).is_some() {
            return Err(self.refusal(Code::SvgValue, &format!("{name}=\"{value}\""), name, span));
        }
        let value = if name == "style" { svg_values::without_own(&value) } else { value.into_owned() };
        Ok(Some((name.to_owned(), value)))
    }

    /// A refusal at an attribute within a tag.
    fn refusal(&self, code: Code, found: &str, attribute: &str, span: &Range<usize>) -> Refusal {
        let at = self.text[span.clone()].find(&format!(" {attribute}")).map_or(0, |at| at + 1);
        let start = span.start + at;
        Refusal::new(code, found, start..start + attribute.len().max(1))
    }

    fn root(&mut self, attributes: &[(String, String)], span: &Range<usize>) -> Result<(), Refusal> {
        if !attributes.iter().any(|(name, _)| name == "xmlns") {
            return Err(Refusal::new(Code::SvgUnreadable, "", span.clone()));
        }
        self.has_root = true;
        self.size = svg_values::size(attributes);
        Ok(())
    }

    fn write(&mut self, name: &str, attributes: &[(String, String)], is_empty: bool) {
        self.out.push('<');
        self.out.push_str(name);
        for (name, value) in attributes {
            self.out.push_str(&format!(" {name}=\"{}\"", problems::template::escape(value)));
        }
        self.out.push_str(if is_empty { "/>" } else { ">" });
    }
}

fn position(at: u64) -> usize {
    usize::try_from(at).unwrap_or(usize::MAX)
}
