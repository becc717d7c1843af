//! Documents as one HTML page: nothing but the page itself is loaded, no scripts, and it prints in
//! black and white.

use std::fmt::Write as _;

use super::FormatError;
use super::text::of_cell;
use crate::sheet::Align;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Table;

/// How the page looks, on the screen and on paper.
const STYLE: &str = include_str!("style.css");

/// The document as a page of its own.
///
/// `draw` turns a figure into an `<svg>` element (a whole SVG file will do: what stands before its root
/// is left out); it is taken as it is, so it must not hold anybody's words unescaped.
///
/// # Errors
/// Whatever `draw` refuses, and [`FormatError::Malformed`] when what it gives is no SVG.
///
/// # Example
/// ```
/// use kerfwise::formats::{html, svg};
/// use kerfwise::sheet::{Block, Document};
///
/// let document = Document {
///     title: "Leeboard <5 m>".to_owned(),
///     footer: "kerfwise".to_owned(),
///     blocks: vec![Block::Paragraph("Foot & head".to_owned())],
/// };
/// let page = html::write(&document, |figure| {
///     svg::write(&figure.picture, &svg::SvgOptions::default())
/// })?;
/// assert!(page.contains("<h1>Leeboard &lt;5 m&gt;</h1>"));
/// # Ok::<(), kerfwise::formats::FormatError>(())
/// ```
pub fn write(
    document: &Document,
    mut draw: impl FnMut(&Figure) -> Result<String, FormatError>,
) -> Result<String, FormatError> {
    let document = &document.on_paper();
    let title = escaped(&document.title);
    let mut page = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" \
         content=\"default-src 'none'; style-src 'unsafe-inline'\">\n\
         <title>{title}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n"
    );
    if !title.is_empty() {
        element(&mut page, "h1", &title);
    }
    let mut breaks = false;
    for block in &document.blocks {
        if matches!(block, Block::PageBreak) {
            breaks = true;
            continue;
        }
        if breaks {
            page.push_str("<div class=\"page-break\"></div>\n");
            breaks = false;
        }
        self::block(&mut page, block, &mut draw)?;
    }
    page.push_str("</main>\n");
    if !document.footer.is_empty() {
        element(&mut page, "footer", &escaped(&document.footer));
    }
    page.push_str("</body>\n</html>\n");
    Ok(page)
}

fn block(
    page: &mut String,
    block: &Block,
    draw: &mut impl FnMut(&Figure) -> Result<String, FormatError>,
) -> Result<(), FormatError> {
    match block {
        Block::Heading(words) => element(page, "h2", &escaped(words)),
        Block::Paragraph(words) => element(page, "p", &escaped(words)),
        Block::Caution(words) => {
            page.push_str("<aside class=\"caution\" role=\"note\"><strong>Caution</strong> ");
            page.push_str(&escaped(words));
            page.push_str("</aside>\n");
        }
        Block::List(items) => list(page, "ul", items),
        Block::Steps(items) => list(page, "ol", items),
        Block::Table(table) => self::table(page, table),
        Block::Figure(figure) => self::figure(page, figure, &draw(figure)?)?,
        Block::PageBreak => {}
    }
    Ok(())
}

fn list(page: &mut String, name: &str, items: &[String]) {
    let _infallible = writeln!(page, "<{name}>");
    for item in items {
        element(page, "li", &escaped(item));
    }
    let _infallible = writeln!(page, "</{name}>");
}

fn figure(page: &mut String, figure: &Figure, drawing: &str) -> Result<(), FormatError> {
    let Some(root) = drawing.find("<svg").and_then(|at| drawing.get(at..)) else {
        return Err(FormatError::Malformed {
            format: "SVG",
            line: 0,
            problem: "a figure without an svg element".to_owned(),
        });
    };
    let caption = escaped(&figure.caption);
    let _infallible = writeln!(
        page,
        "<figure>\n<div role=\"img\" aria-label=\"{caption}\">{}</div>",
        root.trim_end()
    );
    element(page, "figcaption", &caption);
    page.push_str("</figure>\n");
    Ok(())
}

fn table(page: &mut String, table: &Table) {
    page.push_str("<div class=\"table\">\n<table>\n");
    if !table.title.is_empty() {
        element(page, "caption", &escaped(&table.title));
    }
    page.push_str("<thead><tr>");
    for column in &table.columns {
        let heading = escaped(&column.heading);
        let class = class(column.align);
        let _infallible = write!(page, "<th scope=\"col\"{class}>{heading}</th>");
    }
    page.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        page.push_str("<tr>");
        for (cell, column) in row.iter().zip(&table.columns) {
            match cell {
                Cell::Blank => page.push_str("<td class=\"blank\"></td>"),
                Cell::File(name) => {
                    let (link, name) = (percent_encoded(name), escaped(name));
                    let _infallible = write!(page, "<td><a href=\"{link}\">{name}</a></td>");
                }
                cell => {
                    let class = class(column.align);
                    let _infallible = write!(page, "<td{class}>{}</td>", escaped(&of_cell(cell)));
                }
            }
        }
        page.push_str("</tr>\n");
    }
    page.push_str("</tbody>\n</table>\n");
    for note in &table.notes {
        let _infallible = writeln!(page, "<p class=\"note\">{}</p>", escaped(note));
    }
    page.push_str("</div>\n");
}

const fn class(align: Align) -> &'static str {
    match align {
        Align::Left => "",
        Align::Right => " class=\"number\"",
    }
}

/// An element of words that are escaped already.
fn element(page: &mut String, name: &str, inside: &str) {
    let _infallible = writeln!(page, "<{name}>{inside}</{name}>");
}

/// A file name as it may stand in a link: everything but letters, digits, hyphens, dots and low lines
/// as per cent codes (RFC 3986, section 2.1).
fn percent_encoded(name: &str) -> String {
    let mut text = String::with_capacity(name.len());
    for byte in name.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._".contains(&byte) {
            text.push(char::from(byte));
        } else {
            let _infallible = write!(text, "%{byte:02X}");
        }
    }
    text
}

/// The words as they may stand in an element or in a quoted attribute. Control characters become
/// spaces.
pub fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\'' => text.push_str("&#39;"),
            letter if letter.is_control() => text.push(' '),
            letter => text.push(letter),
        }
    }
    text
}

#[cfg(test)]
mod tests;
