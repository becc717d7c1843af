use super::*;
use crate::formats::drawn;
use crate::formats::font;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Rect;
use crate::geometry::SourceId;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Figure;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::Text;

const A5: Paper = Paper {
    width: 148.0,
    height: 210.0,
};

fn words(times: usize) -> String {
    let sentence = "Clamp the plate flat, scribe from the datum edge and never from a line that was \
                    itself scribed. ";
    sentence.repeat(times)
}

fn of_blocks(blocks: Vec<Block>) -> Document {
    Document {
        title: "A title long enough to need a second line on small paper, and then some".to_owned(),
        footer: "Design fingerprint 0123456789abcdef, version 1.2.3 of the tool".to_owned(),
        blocks,
    }
}

fn table(columns: usize, rows: u32) -> Table {
    let column = |index| match index % 3 {
        0 => Column::words("What", "what"),
        1 => Column::numbers("Size across the flats", "size"),
        _ => Column::words("Reading", "reading"),
    };
    let mut table = Table::new("Sizes", (0..columns).map(column).collect());
    for row in 0..rows {
        let cell = |index| match index % 3 {
            0 if row == 3 => Cell::from(words(4)),
            0 => Cell::from(format!("row-{row}")),
            1 => Cell::from(Quantity::length(
                f64::from(row) * 7.5,
                LengthUnit::Millimetre,
            )),
            _ if row % 2 == 0 => Cell::Blank,
            _ => Cell::Empty,
        };
        table.row((0..columns).map(cell).collect());
    }
    table.notes.push(words(2));
    table
}

fn figure(width: f64, height: f64) -> Block {
    let mut picture = Picture::new();
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let corners = corners.map(|(x, y)| Point::new(x + 1000.0, y - 500.0));
    picture.contour(
        Layer::Outside,
        Contour::polygon(&corners).unwrap(),
        Pen::solid(0.5),
    );
    Block::Figure(Figure {
        picture,
        caption: "A frame".to_owned(),
    })
}

fn texts(picture: &Picture) -> Vec<&Text> {
    let mut texts = Vec::new();
    for item in &picture.items {
        if let Item::Text(text) = item {
            texts.push(text);
        }
    }
    texts
}

/// The room that the letters of a line of words take, without the room that lines leave free.
fn ink(text: &Text) -> Rect {
    let start = drawn::text_start(text);
    let width = font::text_width(&text.content, text.size);
    let (high, deep) = (font::capital_height(text.size), 0.2 * text.size);
    Rect::new(start.x, start.y - deep, start.x + width, start.y + high)
}

/// What stands on a page: lines of words, and figures.
fn areas(file: &PdfFile, page: &PdfPage) -> Vec<Rect> {
    let mut areas = Vec::new();
    for placement in &page.placements {
        let picture = &file.pictures[placement.picture];
        if placement.stretch == Stretch::NONE {
            areas.extend(texts(picture).into_iter().map(ink));
        } else {
            let extent = drawn::extent(picture).unwrap();
            let on_page = |x, y| {
                placement
                    .stretch
                    .point(placement.motion.point(Point::new(x, y)))
            };
            let (low, high) = (on_page(extent.x0, extent.y0), on_page(extent.x1, extent.y1));
            areas.push(Rect::from_points(low, high));
        }
    }
    areas
}

/// Nothing runs off the paper or over anything else.
fn check_pages(file: &PdfFile) {
    for (index, page) in file.pages.iter().enumerate() {
        let areas = areas(file, page);
        let inside = Rect::new(5.0, 5.0, page.width - 5.0, page.height - 5.0);
        for (number, area) in areas.iter().enumerate() {
            assert!(
                inside.union(*area) == inside,
                "page {}: {area:?} runs out of {inside:?}",
                index + 1
            );
            for other in &areas[number + 1..] {
                let common = area.intersect(*other);
                assert!(
                    common.width() <= 1e-6 || common.height() <= 1e-6,
                    "page {}: {area:?} and {other:?} lie over one another",
                    index + 1
                );
            }
        }
        let rules = drawn::extent(&file.pictures[page.placements[0].picture]).unwrap();
        assert!(
            inside.union(rules) == inside,
            "page {}: rules {rules:?}",
            index + 1
        );
    }
}

fn all_words(file: &PdfFile) -> String {
    let mut all = String::new();
    for picture in &file.pictures {
        for text in texts(picture) {
            all.push_str(&text.content);
            all.push(' ');
        }
    }
    all
}

#[test]
fn nothing_overlaps_or_runs_off_the_page_on_any_paper() {
    let landscape = Paper {
        width: 297.0,
        height: 210.0,
    };
    let card = Paper {
        width: 105.0,
        height: 148.0,
    };
    let blocks = vec![
        Block::Heading("First things".to_owned()),
        Block::Paragraph(words(20)),
        Block::Caution(words(40)),
        Block::Caution(String::new()),
        Block::List(vec![words(1), String::new(), "x".repeat(400)]),
        Block::Table(table(3, 100)),
        Block::Table(table(5, 0)),
        Block::Table(Table::default()),
        Block::Heading(words(3)),
        figure(60.0, 40.0),
        figure(900.0, 300.0),
        figure(100.0, 4000.0),
        Block::Paragraph(String::new()),
        Block::PageBreak,
        Block::PageBreak,
        Block::Heading("Last".to_owned()),
        figure(20.0, 200.0),
        Block::PageBreak,
    ];
    for paper in [Paper::A4, A5, landscape, card] {
        let file = lay_out(&of_blocks(blocks.clone()), paper).unwrap();
        check_pages(&file);
        let last = all_words(&file);
        let wanted = format!("Page {0} of {0}", file.pages.len());
        assert!(last.contains(&wanted), "{wanted} is missing");
        let count = last.matches("Last").count();
        assert_eq!(count, 1, "the last heading, once");
    }
}

#[test]
fn headings_of_a_table_stand_on_each_of_its_pages_and_no_row_is_lost() {
    let file = lay_out(&of_blocks(vec![Block::Table(table(3, 100))]), Paper::A4).unwrap();
    let words = all_words(&file);
    for row in (0..100).filter(|row| *row != 3) {
        let wanted = format!("row-{row} ");
        assert_eq!(words.matches(&wanted).count(), 1, "{wanted}");
    }
    let headings = words.matches("What").count();
    assert!(file.pages.len() > 2, "{} pages", file.pages.len());
    assert_eq!(
        headings,
        file.pages.len(),
        "headings on {} pages",
        file.pages.len()
    );
}

#[test]
fn a_row_higher_than_a_page_runs_over_several() {
    let mut table = table(2, 1);
    table.row(vec![Cell::from(words(200)), Cell::Empty]);
    let file = lay_out(&of_blocks(vec![Block::Table(table)]), A5).unwrap();
    check_pages(&file);
    let found = all_words(&file)
        .replace(' ', "")
        .matches("Clamptheplateflat")
        .count();
    // 200 in the cell, two in the note
    assert!(found >= 202, "{found} sentences");
}

#[test]
fn many_columns_get_smaller_letters_and_too_many_are_refused() {
    for columns in [12, 18] {
        let blocks = vec![Block::Table(table(columns, 6))];
        let lying = Paper {
            width: 297.0,
            height: 210.0,
        };
        check_pages(&lay_out(&of_blocks(blocks), lying).unwrap());
    }
    let found = lay_out(&of_blocks(vec![Block::Table(table(60, 2))]), Paper::A4);
    assert!(
        matches!(found, Err(FormatError::TooManyColumns { .. })),
        "{found:?}"
    );
}

#[test]
fn a_heading_does_not_stay_behind_alone() {
    for lines in 30..60 {
        let mut blocks: Vec<Block> = vec![Block::List(vec!["x".to_owned(); lines])];
        blocks.push(Block::Heading("Follow me".to_owned()));
        blocks.push(figure(100.0, 80.0));
        let file = lay_out(&of_blocks(blocks), Paper::A4).unwrap();
        let has_heading = |page: &PdfPage| {
            let picture = &file.pictures[page.placements[0].picture];
            texts(picture)
                .iter()
                .any(|text| text.content == "Follow me")
        };
        let page = file.pages.iter().find(|page| has_heading(page)).unwrap();
        assert_eq!(
            page.placements.len(),
            2,
            "heading and figure after {lines} lines"
        );
    }
}

#[test]
fn a_figure_that_fits_keeps_its_size_and_a_smaller_one_says_so() {
    let file = lay_out(&of_blocks(vec![figure(160.0, 100.0)]), Paper::A4).unwrap();
    let stretch = file.pages[0].placements[1].stretch;
    assert_eq!(stretch.x_axis.x, 1.0, "true size");
    assert!(!all_words(&file).contains("of its size"), "nothing to say");
    let file = lay_out(&of_blocks(vec![figure(339.5, 100.0)]), Paper::A4).unwrap();
    let stretch = file.pages[0].placements[1].stretch;
    // 170 mm between the margins, and 340 mm with the pen
    assert!((stretch.x_axis.x - 0.5).abs() < 1e-9, "{stretch:?}");
    assert!(all_words(&file).contains("50.0\u{A0}% of its size"), "said");
}

#[test]
fn empty_documents_and_small_paper() {
    let file = lay_out(&Document::default(), Paper::A4).unwrap();
    assert_eq!(file.pages.len(), 1, "one page for nothing");
    assert!(all_words(&file).contains("Page 1 of 1"), "its number");
    for (width, height) in [
        (50.0, 297.0),
        (210.0, 50.0),
        (f64::NAN, 297.0),
        (-1.0, -1.0),
    ] {
        let found = document(&Document::default(), Paper { width, height });
        let refused = matches!(found, Err(FormatError::PaperTooSmall { .. }));
        assert!(refused, "{width} × {height} mm");
    }
    let least = measure::LEAST_PAPER;
    let paper = Paper {
        width: least,
        height: least,
    };
    check_pages(&lay_out(&of_blocks(vec![Block::Paragraph(words(9))]), paper).unwrap());
    let circle = Contour::circle(Point::ORIGIN, 5.0, SourceId::UNTRACED).unwrap();
    let mut picture = Picture::new();
    picture.contour(Layer::Inside, circle, Pen::solid(f64::NAN));
    let caption = String::new();
    let found = document(
        &of_blocks(vec![Block::Figure(Figure { picture, caption })]),
        A5,
    );
    assert!(
        matches!(found, Err(FormatError::NotUsable { .. })),
        "a pen of no width"
    );
}

#[test]
fn names_stand_in_quotation_marks_and_steps_behind_their_numbers() {
    let file = lay_out(
        &of_blocks(vec![Block::Steps(vec![
            "file `toe` to its line".to_owned();
            12
        ])]),
        A5,
    )
    .expect("pages");
    let texts: Vec<&Text> = file
        .pictures
        .iter()
        .flat_map(|picture| &picture.items)
        .filter_map(|item| match item {
            Item::Text(text) => Some(text),
            _ => None,
        })
        .collect();
    let at = |content: &str| {
        let found = texts.iter().find(|text| text.content == content);
        found
            .unwrap_or_else(|| panic!("no {content}: {texts:?}"))
            .at
    };
    let words = at("file “toe” to its line");
    for mark in ["1.", "12."] {
        let end = at(mark).x + font::text_width(mark, 3.35);
        assert!(
            end < words.x,
            "{mark} ends at {end}, the words begin at {}",
            words.x
        );
    }
    assert!(
        !texts.iter().any(|text| text.content == "\u{2013}"),
        "no dashes besides"
    );
}
