//! Pages that stand alone: one file, with the styles in it and no links to a site.

use base64::Engine as _;
use course::{Course, addresses};
use problems::html::{Markup, pieces};

use crate::theme;

/// A page without the links that lead from a page of the site to another one: this page is a single file.
pub(crate) fn within_itself(html: &str) -> String {
    let mut dropped = false;
    let stays = |piece: &Markup| match piece {
        Markup::Tag(tag) if tag.starts_with("<a ") => {
            dropped = !["href=\"#", "href=\"https:"].iter().any(|href| tag.contains(href));
            !dropped
        }
        Markup::Tag("</a>") => !std::mem::take(&mut dropped),
        _ => true,
    };
    pieces(html).filter(stays).map(Markup::as_str).collect()
}

/// A page with the pictures of the course in it.
pub(crate) fn with_pictures(course: &Course, html: String) -> String {
    course.images.iter().fold(html, |html, image| {
        let address = format!("\"{}{}\"", addresses::ROOT, image.file);
        if !html.contains(&address) {
            return html;
        }
        let bytes = base64::engine::general_purpose::STANDARD.encode(&image.bytes);
        html.replace(&address, &format!("\"data:{};base64,{bytes}\"", image.media_type()))
    })
}

/// The styles of the theme.
pub(crate) fn styles() -> String {
    theme::STYLES.iter().map(|(_, style)| *style).collect()
}

/// A text as a value in a style sheet, whatever is in it.
pub(crate) fn css_text(text: &str) -> String {
    let sign = |next: char| {
        if next.is_alphanumeric() || next == ' ' { next.to_string() } else { format!("\\{:x} ", u32::from(next)) }
    };
    let inside: String = text.chars().map(sign).collect();
    format!("\"{inside}\"")
}

#[cfg(test)]
mod tests {
    use super::{css_text, within_itself};

    #[test]
    fn only_links_that_lead_somewhere_are_kept() {
        let html =
            "<p><a href=\"#seed-1\">1</a> a <a class=\"term\" href=\"../../en/terms/index.html#seat\">seat</a>.</p>";
        assert_eq!(within_itself(html), "<p><a href=\"#seed-1\">1</a> a seat.</p>");
    }

    #[test]
    fn a_text_cannot_end_the_style_that_it_is_in() {
        assert_eq!(css_text("a\"}</style>é"), "\"a\\22 \\7d \\3c \\2f style\\3e é\"");
    }
}
