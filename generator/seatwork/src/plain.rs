//! HTML of our own as text for the terminal.

/// The text of HTML: tags go, blocks become lines, the sources of formulas are left out.
pub(crate) fn plain(html: &str) -> String {
    let mut out = String::new();
    let mut rest = html;
    while let Some((text, after)) = rest.split_once('<') {
        out.push_str(&unescape(text));
        let (tag, after) = after.split_once('>').unwrap_or((after, ""));
        if tag.starts_with("annotation") {
            rest = after.split_once("</annotation>").map_or("", |(_, after)| after);
            continue;
        }
        if ENDS_LINE.contains(&tag) {
            out.push('\n');
        }
        rest = after;
    }
    out.push_str(&unescape(rest));
    let lines: Vec<_> = out.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    lines.join("\n")
}

/// The tags after which a new line begins.
const ENDS_LINE: [&str; 8] = ["/p", "/li", "/div", "br", "br /", "/tr", "/table", "/math"];

fn unescape(text: &str) -> String {
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'").replace("&amp;", "&")
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn tags_go_and_blocks_become_lines() {
        assert_eq!(plain("<p>a <b>2&lt;3</b></p>\n<p>c &amp;lt; d</p>"), "a 2<3\nc &lt; d");
        assert_eq!(plain("<math><mi>x</mi><annotation encoding=\"t\">x^2</annotation></math>"), "x");
    }
}
