//! Where each figure of a lesson stands: beside the paragraph that it belongs to where there is room, below it elsewhere.
//!
//! How high things are is estimated in lines of text. Nothing but the look depends on it: a figure that is thought to be
//! lower than it is leaves some room below a paragraph.

use std::borrow::Cow;

use course::{Block, Placing};

/// What a line of text holds (characters), in the text column of a wide sheet.
const LINE: usize = 80;

/// The height of what is live, in lines.
const LIVE: usize = 14;

/// The height of a caption, and of a row in a list of parts, in lines.
const CAPTION: usize = 2;
const PART: usize = 2;

/// The width of the column beside the text, in lines: that many times the shape of a picture is its height.
const COLUMN: usize = 17;

/// The lines by which a figure may be moved down, so that it stands clear of the one above.
const MOST_MOVED: usize = 3;

/// The paragraph with which HTML ends, by where it starts. Paragraphs hold no others, and what ends in a list, a quotation or
/// a note ends in another tag.
fn last_paragraph(html: &str) -> Option<usize> {
    html.ends_with("</p>\n").then(|| html.rfind("<p>")).flatten()
}

/// Where a figure stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stand {
    /// Below its paragraph, or where its author wants it below.
    Below(Option<Placing>),
    /// Beside the paragraph before it.
    WithParagraph,
    /// Beside what follows: nothing is before it that it could belong to.
    WithNext,
}

/// Sets the rendered blocks of a lesson, each figure in its place.
pub(super) fn set<'b>(blocks: &'b [Block], rendered: Vec<Cow<'b, str>>) -> Vec<Cow<'b, str>> {
    let mut set: Vec<Cow<str>> = Vec::with_capacity(rendered.len());
    let mut hanging = 0_usize;
    for (index, (block, html)) in blocks.iter().zip(rendered).enumerate() {
        let Some((placing, height)) = figure(block, &html) else {
            hanging = hanging.saturating_sub(lines(block, &html));
            set.push(html);
            continue;
        };
        let before = set.last().and_then(|before| last_paragraph(before));
        let stand = stand(placing, before.is_some(), blocks.get(index + 1), hanging);
        hanging = if matches!(stand, Stand::Below(_)) { hanging.saturating_sub(height) } else { height };
        put(&mut set, html, stand, before);
    }
    set
}

/// Where a figure stands: beside a text only where it would stand clear of the figure above.
fn stand(wanted: Option<Placing>, has_paragraph: bool, next: Option<&Block>, hanging: usize) -> Stand {
    match wanted {
        Some(Placing::Wide | Placing::Small) => Stand::Below(wanted),
        None if hanging > MOST_MOVED => Stand::Below(None),
        _ if has_paragraph => Stand::WithParagraph,
        _ if next.is_some_and(is_text) => Stand::WithNext,
        _ => Stand::Below(None),
    }
}

/// Whether a block is text that a figure can stand beside; a heading would be left empty.
fn is_text(block: &Block) -> bool {
    matches!(block, Block::Html(html) if !html.starts_with("<h"))
}

fn put<'b>(set: &mut Vec<Cow<'b, str>>, html: Cow<'b, str>, stand: Stand, before: Option<usize>) {
    let class = match stand {
        Stand::Below(None) => return set.push(html),
        Stand::Below(Some(placing)) => placing.id(),
        _ => Placing::Beside.id(),
    };
    let html = html.replacen("class=\"figure", &format!("class=\"figure figure-{class}"), 1);
    let paragraph = before.filter(|_| stand == Stand::WithParagraph);
    if let (Some(at), Some(text)) = (paragraph, set.pop_if(|_| paragraph.is_some())) {
        let (rest, paragraph) = text.split_at(at);
        set.push(format!("{rest}<div class=\"with-figure\">\n{paragraph}{html}</div>\n").into());
    } else {
        set.push(html.into());
    }
}

/// A figure's place, as its author wants it, and its height in the column beside the text.
fn figure(block: &Block, html: &str) -> Option<(Option<Placing>, usize)> {
    match block {
        Block::Figure(figure) => {
            let parts = figure.figure.parts.len() * PART;
            Some((figure.placing, drawn(html).map_or(COLUMN, in_column) + CAPTION + parts))
        }
        Block::Picture(picture) => Some((picture.placing, picture.size.map_or(COLUMN, in_column))),
        _ => None,
    }
}

fn in_column((width, height): (usize, usize)) -> usize {
    height.saturating_mul(COLUMN) / width.max(1)
}

/// The size of a drawing, as it says.
fn drawn(html: &str) -> Option<(usize, usize)> {
    let (_, rest) = html.split_once("viewBox=\"")?;
    let mut numbers = rest.split('"').next()?.split(' ').skip(2);
    let mut whole = || numbers.next()?.split('.').next()?.parse().ok();
    Some((whole()?, whole()?))
}

/// The height of a block, in lines.
fn lines(block: &Block, html: &str) -> usize {
    match block {
        Block::Html(_) => text_lines(html),
        // It clears what hangs beside the text.
        Block::Shown(_) => usize::MAX,
        _ => LIVE,
    }
}

/// The height of a text: its characters without tags, and a line for the end of each part.
fn text_lines(html: &str) -> usize {
    let (mut inside, mut characters) = (false, 0);
    for byte in html.bytes() {
        match byte {
            b'<' => inside = true,
            b'>' => inside = false,
            _ => characters += usize::from(!inside),
        }
    }
    let ends: usize = ["</p>", "</li>", "</tr>", "</h2>", "</h3>"].iter().map(|end| html.matches(end).count()).sum();
    characters / LINE + ends
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIGURE: &str = "<div class=\"figure picture\"></div>\n";

    /// Sets texts with pictures among them: `None` is a picture twice as wide as it is high.
    fn page(blocks: &[(Option<&str>, Option<Placing>)]) -> String {
        let picture =
            |placing| Block::Picture(course::Picture { html: String::new(), size: Some((200, 100)), placing });
        let block = |(text, placing): &(Option<&str>, _)| {
            text.map_or_else(|| picture(*placing), |text| Block::Html(text.to_owned()))
        };
        let blocks: Vec<_> = blocks.iter().map(block).collect();
        let html = |block: &Block| match block {
            Block::Html(text) => Cow::Owned(text.clone()),
            _ => Cow::Borrowed(FIGURE),
        };
        let rendered = blocks.iter().map(html).collect();
        set(&blocks, rendered).concat()
    }

    #[test]
    fn a_figure_stands_beside_the_paragraph_before_it() {
        let set = page(&[(Some("<h2>Lift</h2>\n<p>First.</p>\n<p>Second.</p>\n"), None), (None, None)]);
        assert_eq!(
            set,
            "<h2>Lift</h2>\n<p>First.</p>\n<div class=\"with-figure\">\n<p>Second.</p>\n\
             <div class=\"figure figure-beside picture\"></div>\n</div>\n"
        );
    }

    #[test]
    fn a_figure_never_leaves_a_heading_empty() {
        let alone =
            page(&[(Some("<h2>Lift</h2>\n"), None), (None, Some(Placing::Beside)), (Some("<h2>Next</h2>\n"), None)]);
        assert!(alone.contains("</h2>\n<div class=\"figure picture\">"), "{alone}");
        let with_text = page(&[(Some("<h2>Lift</h2>\n"), None), (None, None), (Some("<p>Its text.</p>\n"), None)]);
        assert!(with_text.contains("</h2>\n<div class=\"figure figure-beside picture\">"), "{with_text}");
        assert!(page(&[(None, None)]).starts_with(FIGURE), "at the end of a lesson");
    }

    #[test]
    fn a_figure_without_room_beside_its_paragraph_stands_below_it() {
        let twice = [(Some("<p>One.</p>\n"), None), (None, None), (Some("<p>Two.</p>\n"), None), (None, None)];
        assert!(page(&twice).ends_with(&format!("</div>\n<p>Two.</p>\n{FIGURE}")));
        let long = format!("<p>{}</p>\n", "word ".repeat(200));
        let roomy = [(Some("<p>One.</p>\n"), None), (None, None), (Some(long.as_str()), None), (None, None)];
        assert_eq!(page(&roomy).matches("with-figure").count(), 2);
    }

    #[test]
    fn an_author_has_the_last_word() {
        let text = (Some("<p>One.</p>\n"), None);
        for placing in [Placing::Wide, Placing::Small] {
            let set = page(&[text, (None, Some(placing))]);
            assert!(set.ends_with(&format!("<div class=\"figure figure-{} picture\"></div>\n", placing.id())), "{set}");
        }
        let beside = Some(Placing::Beside);
        assert_eq!(page(&[text, (None, beside), text, (None, beside)]).matches("with-figure").count(), 2);
    }
}
