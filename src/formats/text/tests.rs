use super::*;
use crate::geometry::LengthUnit;
use crate::sheet::Column;
use crate::sheet::Figure;
use crate::sheet::Picture;
use crate::sheet::Quantity;

fn sizes() -> Table {
    let mut table = Table::new(
        "Limits",
        vec![
            Column::words("Dimension", "dimension"),
            Column::numbers("Size", "size"),
            Column::words("Remark", "remark"),
        ],
    );
    let length = |value| Cell::from(Quantity::length(value, LengthUnit::Millimetre));
    table.row(vec![
        "foot".into(),
        length(305.0),
        "to the sharp corner".into(),
    ]);
    table.row(vec!["pivot up".into(), length(-0.001), Cell::Blank]);
    table.row(vec!["holes".into(), Cell::Count(12), Cell::Empty]);
    table.notes.push("Measured over the rounds.".to_owned());
    table
}

#[test]
fn columns_are_aligned_with_units_in_the_cells() {
    assert_eq!(
        write_table(&sizes(), 80),
        "\
Limits
Dimension       Size  Remark
─────────  ─────────  ───────────────────
foot       305.00 mm  to the sharp corner
pivot up     0.00 mm  ________
holes             12
  Measured over the rounds.
",
        "a table that fits"
    );
}

#[test]
fn a_wide_table_wraps_its_words_and_keeps_its_numbers() {
    assert_eq!(
        write_table(&sizes(), 40),
        "\
Limits
Dimension       Size  Remark
─────────  ─────────  ──────────────────
foot       305.00 mm  to the sharp
                      corner
pivot up     0.00 mm  ________
holes             12
  Measured over the rounds.
",
        "one column short"
    );
}

#[test]
fn a_table_too_wide_for_columns_becomes_blocks() {
    let columns = (0..9).map(|_| Column::numbers("Heading", "key")).collect();
    let mut table = Table::new("", columns);
    let length = || Cell::from(Quantity::length(1234.5, LengthUnit::Millimetre));
    table.row((0..9).map(|_| length()).collect());
    let text = write_table(&table, 60);
    assert_eq!(text.lines().count(), 9, "one line a column:\n{text}");
    assert!(
        text.lines().all(|line| line == "  Heading: 1234.50 mm"),
        "heading and value:\n{text}"
    );
}

#[test]
fn no_line_is_longer_than_asked() {
    let words = "the blade is filed to its line and measured again ".repeat(8);
    let document = Document {
        title: words.clone(),
        footer: words.clone(),
        blocks: vec![
            Block::Heading(words.clone()),
            Block::Paragraph(words.clone()),
            Block::Caution(words.clone()),
            Block::List(vec![words.clone(), words.clone()]),
            Block::Steps(vec![words.clone(); 11]),
            Block::Table(sizes()),
            Block::PageBreak,
            Block::Figure(Figure {
                picture: Picture::new(),
                caption: words,
            }),
        ],
    };
    for width in [0, 40, 63, 100] {
        let text = write(&document, width);
        let longest = text.lines().map(|line| line.chars().count()).max();
        assert!(
            longest <= Some(width.max(NARROWEST)),
            "width {width}: longest line {longest:?}"
        );
        assert!(
            text.lines().all(|line| line.trim_end() == line),
            "no spaces at the ends of lines, width {width}"
        );
    }
}

#[test]
fn control_characters_do_not_reach_the_terminal() {
    let document = Document {
        title: "a\u{1b}[31mred".to_owned(),
        footer: "b\u{7}".to_owned(),
        blocks: vec![
            Block::Paragraph("c\u{1b}]0;x\u{7}\nd".to_owned()),
            Block::Table(Table {
                title: "\u{9b}1m".to_owned(),
                columns: vec![Column::words("e\u{1b}", "e")],
                rows: vec![vec!["f\u{1b}c\r".into()]],
                notes: vec!["g\t".to_owned()],
            }),
        ],
    };
    let text = write(&document, 80);
    let odd = text.chars().find(|&c| c.is_control() && c != '\n');
    assert_eq!(odd, None, "in {text:?}");
}

#[test]
fn rows_shorter_or_longer_than_the_heading_do_no_harm() {
    let mut table = sizes();
    table.rows.push(vec![]);
    table.rows.push(vec![Cell::Count(1); 5]);
    assert_eq!(
        write_table(&table, 80).lines().count(),
        9,
        "every row has a line"
    );
    table.columns.clear();
    let _any = write_table(&table, 80);
}

#[test]
fn names_stand_in_quotation_marks_and_steps_behind_their_numbers() {
    let mut table = Table::new("of `toe`", vec![Column::words("What", "what")]);
    table.row(vec!["limit: `foot`".into()]);
    table.notes.push("by `measure`".to_owned());
    let document = Document {
        title: "`a`".to_owned(),
        footer: "`b`".to_owned(),
        blocks: vec![
            Block::Paragraph("one ` alone".to_owned()),
            Block::Steps(vec!["saw `c`".to_owned(); 10]),
            Block::Table(table),
        ],
    };
    let text = write(&document, 80);
    for words in [
        "“a”",
        "“b”",
        "   1. saw “c”",
        "  10. saw “c”",
        "of “toe”",
        "limit: “foot”",
        "by “measure”",
        "one ` alone",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert_eq!(
        text.matches('`').count(),
        1,
        "only the one without a partner: {text}"
    );
}
