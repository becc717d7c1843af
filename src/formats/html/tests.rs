use super::*;
use crate::formats::svg;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::sheet::Column;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Quantity;
use crate::sheet::Shape;

const NASTY: &str = "<script>alert('x')</script> & \"y\" \u{1b}[0m\u{0}";

fn document(words: &str) -> Document {
    let mut table = Table::new(
        words,
        vec![
            Column::words(words, "what"),
            Column::numbers("Size", "size"),
        ],
    );
    table.row(vec![
        words.into(),
        Quantity::length(12.5, LengthUnit::Millimetre).into(),
    ]);
    table.row(vec![words.into(), Cell::Blank]);
    table.notes.push(words.to_owned());
    let mut picture = Picture::new();
    let circle = Shape::Circle {
        centre: Point::new(0.0, 0.0),
        radius: 20.0,
    };
    picture.stroke(Layer::Outside, circle, Pen::solid(0.35));
    let words = || words.to_owned();
    Document {
        title: words(),
        footer: words(),
        blocks: vec![
            Block::Heading(words()),
            Block::Paragraph(words()),
            Block::Caution(words()),
            Block::List(vec![words(), words()]),
            Block::Table(table),
            Block::PageBreak,
            Block::Figure(Figure {
                picture,
                caption: words(),
            }),
            Block::PageBreak,
        ],
    }
}

fn page(words: &str) -> String {
    write(&document(words), |figure| {
        svg::write(&figure.picture, &svg::SvgOptions::default())
    })
    .expect("a page")
}

#[test]
fn nobodys_words_become_part_of_the_page() {
    let page = page(NASTY);
    assert!(!page.contains("<script"), "no script in\n{page}");
    let odd = page.chars().find(|&c| c.is_control() && c != '\n');
    assert_eq!(odd, None, "no control characters");
    let escaped = "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;y&quot;  [0m ";
    // title twice, footer, heading, paragraph, caution, two items, table: caption, heading, two cells,
    // note; figure: label and caption
    assert_eq!(
        page.matches(escaped).count(),
        15,
        "every place escaped in\n{page}"
    );
}

#[test]
fn nothing_is_loaded_from_elsewhere() {
    let page = page("words");
    for forbidden in ["src=", "href=", "url(", "@import", "<link", "<script"] {
        assert!(!page.contains(forbidden), "{forbidden} in\n{page}");
    }
    // the name space of SVG is a name and no address that is loaded
    let addresses = page.matches("http").count();
    let harmless =
        page.matches("http://www.w3.org/2000/svg").count() + page.matches("http-equiv").count();
    assert_eq!(addresses, harmless, "addresses");
}

#[test]
fn every_element_that_opens_closes() {
    let page = page("words & more");
    for name in [
        "html",
        "head",
        "body",
        "main",
        "footer",
        "h1",
        "h2",
        "p",
        "aside",
        "ul",
        "li",
        "table",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "caption",
        "figure",
        "figcaption",
        "div",
        "svg",
        "style",
        "title",
    ] {
        let opened =
            page.matches(&format!("<{name}>")).count() + page.matches(&format!("<{name} ")).count();
        let closed = page.matches(&format!("</{name}>")).count();
        assert_eq!(opened, closed, "element {name}");
        assert!(opened > 0, "element {name} is used");
    }
    assert!(!page.contains("<?xml"), "no declaration inside the page");
    assert_eq!(
        page.matches("class=\"page-break\"").count(),
        1,
        "no empty last page"
    );
    assert!(
        page.contains("<td class=\"number\">12.50\u{a0}mm</td>"),
        "unit in the cell"
    );
}

#[test]
fn a_figure_that_cannot_be_drawn_is_an_error() {
    let document = document("words");
    let found = write(&document, |_| Err(FormatError::NothingToDraw));
    assert_eq!(
        found,
        Err(FormatError::NothingToDraw),
        "the error of the drawing"
    );
    let found = write(&document, |_| Ok("no drawing".to_owned()));
    assert!(
        matches!(found, Err(FormatError::Malformed { .. })),
        "{found:?}"
    );
}

#[test]
fn names_stand_in_quotation_marks_and_steps_are_an_ordered_list() {
    let document = Document {
        blocks: vec![Block::Steps(vec!["file `toe`".to_owned()])],
        ..document("of `foot`")
    };
    let page = write(&document, |_| Ok("<svg></svg>".to_owned())).expect("a page");
    assert!(page.contains("<ol>\n<li>file “toe”</li>\n</ol>"), "{page}");
    assert!(!page.contains('`'), "{page}");
}
