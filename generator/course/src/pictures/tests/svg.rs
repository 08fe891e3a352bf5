//! What a drawing may hold, and what is refused in it.

use super::*;

const HEAD: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 40 30\">";

fn drawing(inside: &str) -> Vec<u8> {
    format!("{HEAD}{inside}</svg>").into_bytes()
}

fn found(text: &[u8]) -> Option<(Code, String)> {
    match cleaned(text, "a.svg").err()? {
        NoText::Refused(fault, source) => {
            let source = source.expect("the text of a drawing");
            Some((fault.code, source[fault.place.span.clone()].to_owned()))
        }
        NoText::Unreadable(_) => None,
    }
}

#[test]
fn a_drawing_is_taken_as_drawing_programs_write_it() {
    let drawing = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"no\"?>\n<!-- Jane Fitter -->\n\
        <svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" xmlns:own=\"http://example.com/own\" \
        width=\"80mm\" height=\"60mm\" viewBox=\"0 0 80 60\" own:export=\"/home/jane/pump.svg\">\
        <own:view user=\"Jane\"><own:page/></own:view><metadata><rdf:li xmlns:rdf=\"x\">Jane Fitter</rdf:li></metadata>\
        <defs><linearGradient id=\"a\"><stop offset=\"0\" stop-color=\"#fff\"/></linearGradient>\
        <marker id=\"m\" orient=\"auto\"><path d=\"M0 0L1 1\"/></marker></defs>\
        <g id=\"layer1\" style=\"fill:url(#a);-own-font:x;stroke:#000\" transform=\"translate(1,2) rotate(3)\">\
        <path d=\"M 0 0 L 10 10\" marker-end=\"url('#m')\" data-note=\"Jane\"/><text x=\"1\">P &lt; 3 &#8211; a</text></g></svg>";
    let image = clean("a.svg", drawing.as_bytes());
    let text = String::from_utf8(image.bytes).expect("text");
    for gone in ["Jane", "jane", "own", "metadata", "<!--", "<?xml"] {
        assert!(!text.contains(gone), "{gone}: {text}");
    }
    for kept in ["marker-end=\"url(&#39;#m&#39;)\"", "fill:url(#a);stroke:#000", "P &lt; 3 &#8211; a</text></g></svg>"]
    {
        assert!(text.contains(kept), "{kept}: {text}");
    }
    assert_eq!(image.size, ImageSize { width: 302, height: 227 });
    assert_eq!(clean("b.svg", text.as_bytes()).bytes, text.as_bytes(), "what is published is taken again");
}

#[test]
fn what_can_run_or_load_is_refused_in_its_place() {
    use Code::{SvgAttribute, SvgDoctype, SvgElement, SvgUnreadable, SvgValue};
    let refused = [
        ("<script>alert(1)</script>", SvgElement, "<script>"),
        ("<SCRIPT/>", SvgElement, "<SCRIPT/>"),
        ("<foreignObject><p/></foreignObject>", SvgElement, "<foreignObject>"),
        ("<style>@import 'x'</style>", SvgElement, "<style>"),
        ("<image href=\"http://example.com/x.png\"/>", SvgElement, "<image href=\"http://example.com/x.png\"/>"),
        ("<use href=\"#a\"/>", SvgElement, "<use href=\"#a\"/>"),
        ("<a href=\"#a\"/>", SvgElement, "<a href=\"#a\"/>"),
        ("<animate/>", SvgElement, "<animate/>"),
        ("<set attributeName=\"href\"/>", SvgElement, "<set attributeName=\"href\"/>"),
        ("<svg/>", SvgElement, "<svg/>"),
        ("<g onload=\"alert(1)\"/>", SvgAttribute, "onload"),
        ("<g ONCLICK=\"alert(1)\"/>", SvgAttribute, "ONCLICK"),
        ("<g filter=\"url(#f)\"/>", SvgAttribute, "filter"),
        ("<path mask=\"url(x.svg#m)\"/>", SvgAttribute, "mask"),
        ("<linearGradient href=\"x.svg#a\"/>", SvgValue, "href"),
        ("<linearGradient xlink:href=\"javascript:alert(1)\"/>", SvgValue, "xlink:href"),
        ("<g fill=\"url(http://example.com/x)\"/>", SvgValue, "fill"),
        ("<g fill=\"URL( 'x.svg#a' )\"/>", SvgValue, "fill"),
        ("<g fill=\"&#117;rl(x.svg)\"/>", SvgValue, "fill"),
        ("<g fill=\"u\\72l(x.svg)\"/>", SvgValue, "fill"),
        ("<g style=\"fill:url(//example.com)\"/>", SvgValue, "style"),
        ("<g style=\"background:red\"/>", SvgValue, "style"),
        ("<g style=\"fill:red/**/;cursor:url(x)\"/>", SvgValue, "style"),
        ("<g fill=\"image-set(x)\"/>", SvgValue, "fill"),
        ("<g xmlns=\"http://www.w3.org/1999/xhtml\"/>", SvgValue, "xmlns"),
        ("<marker id=\"m\"><path marker-end=\"url(#m)\"/></marker>", SvgValue, "marker-end"),
        ("<text>&own;</text>", SvgValue, "&own;"),
        ("<text>&#8238;</text>", SvgValue, "&#8238;"),
        ("<g>", SvgUnreadable, ""),
        ("<g id=\"a\" id=\"b\"/>", SvgUnreadable, " "),
    ];
    for (inside, code, place) in refused {
        let (found, at) = found(&drawing(inside)).unwrap_or_else(|| panic!("{inside} is taken"));
        assert_eq!(found, code, "{inside}");
        assert!(at == place || code == SvgUnreadable, "{inside}: {at}");
    }
    let bomb = format!("<!DOCTYPE svg [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;\">]>{HEAD}<text>&b;</text></svg>");
    assert_eq!(found(bomb.as_bytes()).map(|found| found.0), Some(SvgDoctype));
}

#[test]
fn what_has_no_size_or_no_end_is_refused() {
    let code = |text: &str| found(text.as_bytes()).map(|found| found.0);
    let bare = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
    assert_eq!(code(&format!("{bare}/>")), Some(Code::SvgWithoutSize));
    assert_eq!(code(&format!("{bare} width=\"100%\" height=\"5\"/>")), Some(Code::SvgWithoutSize));
    assert_eq!(code(&format!("{bare} viewBox=\"0 0 0 NaN\"/>")), Some(Code::SvgWithoutSize));
    assert_eq!(code("<html/>"), Some(Code::SvgElement));
    assert_eq!(code("<svg viewBox=\"0 0 1 1\"/>"), Some(Code::SvgUnreadable));
    assert_eq!(code(""), Some(Code::SvgUnreadable));
    assert_eq!(code(&format!("{HEAD}</svg>{HEAD}</svg>")), Some(Code::SvgElement));
    let deep = drawing(&format!("{}{}", "<g>".repeat(1000), "</g>".repeat(1000)));
    assert_eq!(found(&deep).map(|found| found.0), Some(Code::SvgTooFull));
    let full = drawing(&format!("<marker>{}</marker>", "<path d=\"M0 0\"/>".repeat(51)));
    assert_eq!(found(&full).map(|found| found.0), Some(Code::SvgTooFull));
    let huge = clean("a.svg", format!("{bare} width=\"1e9\" height=\"5e8\"/>").as_bytes());
    assert_eq!(huge.size, ImageSize { width: 4096, height: 2048 });
}
