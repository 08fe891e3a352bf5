//! Our own HTML as text for the terminal.

use problems::html::{Markup, pieces};
use quick_xml::Reader;
use quick_xml::events::Event;

/// The text of HTML: tags go, blocks become lines, formulas are written in one line.
pub(crate) fn plain(html: &str) -> String {
    let mut out = String::new();
    let mut rest = html;
    while let Some(start) = rest.find("<math") {
        let end = rest[start..].find("</math>").map_or(rest.len(), |end| start + end + "</math>".len());
        out.push_str(&without_tags(&rest[..start]));
        out.push_str(&formula(&rest[start..end]));
        out.push('\n');
        rest = &rest[end..];
    }
    out.push_str(&without_tags(rest));
    let lines = out.lines().map(|line| line.trim().trim_end_matches(BETWEEN_CELLS.trim()).trim_end());
    let lines: Vec<_> = lines.filter(|line| !line.is_empty()).collect();
    lines.join("\n")
}

/// What separates two cells of a row.
const BETWEEN_CELLS: &str = " | ";

/// The tags after which a new line begins.
const ENDS_LINE: [&str; 6] = ["</p>", "</li>", "</div>", "<br />", "</tr>", "</table>"];

fn without_tags(html: &str) -> String {
    let plain = |piece| match piece {
        Markup::Text(text) => unescape(text),
        Markup::Tag(tag) if ENDS_LINE.contains(&tag) => "\n".to_owned(),
        Markup::Tag("</td>" | "</th>") => BETWEEN_CELLS.to_owned(),
        Markup::Tag("<sup>") => "^".to_owned(),
        Markup::Tag(_) => String::new(),
    };
    pieces(html).map(plain).collect()
}

fn unescape(text: &str) -> String {
    text.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&nbsp;", "\u{a0}")
        .replace("&amp;", "&")
}

/// One open element of a formula: its name and what its children gave.
struct Open(String, Vec<String>);

/// MathML in one line: fractions as `(a) / (b)`, indices as `a_b`, powers as `a^b`.
fn formula(mathml: &str) -> String {
    let mut reader = Reader::from_str(mathml);
    let mut open = vec![Open(String::new(), Vec::new())];
    while let Some(event) = reader.read_event().ok().filter(|event| *event != Event::Eof) {
        take(&event, &mut open);
    }
    while open.len() > 1 {
        close(&mut open);
    }
    open.pop().map(|Open(_, children)| children.concat()).unwrap_or_default()
}

fn take(event: &Event, open: &mut Vec<Open>) {
    match event {
        Event::Start(tag) => open.push(Open(tag.local_name().as_ref().to_owned(), Vec::new())),
        Event::End(_) => close(open),
        Event::Text(text) => add(open, unescape(text)),
        Event::GeneralRef(name) => add(open, unescape(&format!("&{};", &**name))),
        _ => {}
    }
}

fn add(open: &mut [Open], text: String) {
    if let Some(Open(_, children)) = open.last_mut() {
        children.push(text);
    }
}

fn close(open: &mut Vec<Open>) {
    if let Some(Open(name, children)) = open.pop() {
        add(open, in_line(&name, &children));
    }
}

/// An element in one line.
fn in_line(name: &str, children: &[String]) -> String {
    match (name, children) {
        ("mfrac", [upper, lower]) => format!("({upper}) / ({lower})"),
        ("msub" | "munder", [base, index]) => format!("{base}_{index}"),
        ("msup" | "mover", [base, power]) => format!("{base}^{power}"),
        ("mo", [sign]) if ["=", "+", "−", "×", ","].contains(&sign.as_str()) => format!(" {sign} "),
        ("msqrt", _) => format!("√({})", children.concat()),
        ("mspace", _) => " ".to_owned(),
        ("annotation", _) => String::new(),
        ("mtr", _) => children.concat() + "\n",
        _ => children.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn tags_go_and_blocks_become_lines() {
        assert_eq!(plain("<p>a <b>2&lt;3</b></p>\n<p>c &amp;lt; d</p>"), "a 2<3\nc &lt; d");
    }

    #[test]
    fn cells_of_a_row_stand_apart() {
        let table = "<table><tr><th>What</th><th>Value</th></tr><tr><td>set</td><td>7.5 barg</td></tr></table>";
        assert_eq!(plain(table), "What | Value\nset | 7.5 barg");
    }

    #[test]
    fn formulas_are_written_in_one_line() {
        let law = "<math><semantics><mrow><mi>A</mi><mo>=</mo><mfrac><mrow><mi>π</mi><msup><mi>D</mi><mn>2</mn></msup></mrow>\
                   <mn>4</mn></mfrac></mrow><annotation encoding=\"t\">A</annotation></semantics></math>";
        assert_eq!(plain(law), "A = (πD^2) / (4)");
        assert_eq!(plain("<math><msqrt><mi>G</mi><mo>/</mo><mn>2</mn></msqrt></math>"), "√(G/2)");
        let lines = "<math><mtable><mtr><mtd><mi>a</mi></mtd></mtr><mtr><mtd><mi>b</mi></mtd></mtr></mtable></math>";
        assert_eq!(plain(lines), "a\nb");
        assert_eq!(plain("(3 ft)<sup>2</sup> = 9 ft²"), "(3 ft)^2 = 9 ft²");
        assert_eq!(plain("<math><mtext>3&nbsp;psi &lt; 4</mtext>"), "3\u{a0}psi < 4");
    }
}
