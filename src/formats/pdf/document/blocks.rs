//! The blocks of a document, one after another.

use super::PlacedFigure;
use super::flow::Flow;
use super::measure;
use super::measure::Letter;
use super::table;
use super::words;
use crate::formats::FormatError;
use crate::formats::drawn;
use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::sheet::Anchor;
use crate::sheet::Block;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Shade;
use crate::sheet::number;

/// The sign before a caution.
const CAUTION_SIGN: &str = "\u{26A0}";

pub(super) fn set(flow: &mut Flow, document: &Document) -> Result<(), FormatError> {
    title(flow, &document.title);
    for (index, block) in document.blocks.iter().enumerate() {
        match block {
            Block::Heading(content) => {
                heading(flow, content, document.blocks.get(index + 1));
            }
            Block::Paragraph(content) => paragraph(flow, content),
            Block::Caution(content) => caution(flow, content),
            Block::List(items) => list(flow, items, |_| "\u{2013}".to_owned()),
            Block::Steps(items) => list(flow, items, |index| format!("{}.", index + 1)),
            Block::Table(content) => table::set(flow, content)?,
            Block::Figure(content) => figure(flow, content),
            Block::PageBreak => flow.ask_for_page(),
        }
    }
    Ok(())
}

/// Width of running words.
fn line_width(flow: &Flow) -> f64 {
    flow.width().min(measure::LONGEST_LINE)
}

fn title(flow: &mut Flow, content: &str) {
    let letter = Letter::TITLE;
    let lines = words::lines(content, letter.size, flow.width());
    if lines.is_empty() {
        return;
    }
    flow.lines(flow.left, letter, &lines);
    let y = flow.y - 1.5;
    let (from, to) = (Point::new(flow.left, y), Point::new(flow.right, y));
    flow.rule(from, to, measure::WIDE_RULE, Shade::Black);
    flow.y = y - 2.0;
}

fn heading(flow: &mut Flow, content: &str, next: Option<&Block>) {
    let letter = Letter::HEADING;
    let lines = words::lines(content, letter.size, flow.width());
    let height = letter.leading * count(&lines) + measure::UNDER_HEADING;
    let with_next = height + next.map_or(0.0, |next| least_height(flow, next));
    flow.gap(measure::OVER_HEADING);
    flow.need(with_next.min(flow.height()));
    flow.lines(flow.left, letter, &lines);
    flow.y -= measure::UNDER_HEADING;
}

/// How much of a block must stand under its heading.
fn least_height(flow: &Flow, block: &Block) -> f64 {
    match block {
        Block::Paragraph(_) | Block::List(_) | Block::Steps(_) => 2.0 * Letter::BODY.leading,
        Block::Caution(_) => 3.0 * Letter::BODY.leading + 2.0 * measure::BOX_PADDING,
        Block::Table(content) => table::least_height(flow, content),
        Block::Figure(content) => FigureSize::new(flow, content).height() + measure::BETWEEN_BLOCKS,
        Block::Heading(_) => Letter::HEADING.leading + measure::OVER_HEADING + 10.0,
        Block::PageBreak => 0.0,
    }
}

fn paragraph(flow: &mut Flow, content: &str) {
    let letter = Letter::BODY;
    let lines = words::lines(content, letter.size, line_width(flow));
    flow.gap(measure::BETWEEN_BLOCKS);
    flow.lines(flow.left, letter, &lines);
}

/// A list, each item behind its mark.
fn list(flow: &mut Flow, items: &[String], mark: impl Fn(usize) -> String) {
    let letter = Letter::BODY;
    let marks = (0..items.len()).map(|index| font::text_width(&mark(index), letter.size));
    let indent = marks.fold(measure::LIST_INDENT - 2.5, f64::max) + 2.5;
    let width = line_width(flow) - indent;
    flow.gap(measure::BETWEEN_BLOCKS);
    for (index, item) in items.iter().enumerate() {
        let mut lines = words::lines(item, letter.size, width);
        if lines.is_empty() {
            lines.push(String::new());
        }
        if index > 0 {
            flow.gap(measure::BETWEEN_ITEMS);
        }
        let together = count(&lines).min(2.0);
        flow.need(letter.leading * together);
        let at = Point::new(flow.left + 1.0, flow.base_line(letter));
        flow.words(at, Anchor::Start, letter.size, &mark(index));
        flow.lines(flow.left + indent, letter, &lines);
    }
}

/// A caution in a frame; on each page it runs over, a frame of its own.
fn caution(flow: &mut Flow, content: &str) {
    let letter = Letter::BODY;
    let (padding, left) = (measure::BOX_PADDING, flow.left);
    let right = left + line_width(flow);
    let inside = left + padding + measure::SIGN_WIDTH;
    let lines = words::lines(content, letter.size, right - padding - inside);
    flow.gap(measure::AROUND);
    let whole = count(&lines).max(1.0) * letter.leading + 2.0 * padding;
    let mut rest = lines.as_slice();
    flow.need(whole.min(flow.height()));
    loop {
        flow.need(2.0 * letter.leading.min(whole) + 2.0 * padding);
        let top = flow.y;
        flow.y -= padding;
        let sign = Letter {
            size: letter.size * 1.9,
            ..letter
        };
        let sign_at = Point::new(left + padding, flow.base_line(sign));
        flow.words(sign_at, Anchor::Start, sign.size, CAUTION_SIGN);
        while let Some((line, others)) = rest.split_first()
            && flow.room() >= letter.leading + padding
        {
            flow.line(inside, Anchor::Start, letter, line);
            rest = others;
        }
        if top - flow.y < padding + letter.leading {
            flow.y = top - padding - letter.leading;
        }
        flow.y -= padding;
        let low = Point::new(left, flow.y);
        flow.frame(
            low,
            Point::new(right, top),
            measure::WIDE_RULE,
            Shade::Black,
        );
        if rest.is_empty() {
            break;
        }
        flow.begin_page();
    }
    flow.gap(measure::AROUND - measure::BETWEEN_BLOCKS);
}

/// A figure's place and size on paper.
struct FigureSize {
    /// What the picture covers, with room for its pens.
    extent: Option<Rect>,
    scale: f64,
    caption: Vec<String>,
}

impl FigureSize {
    fn new(flow: &Flow, figure: &Figure) -> Self {
        let letter = Letter::SMALL;
        let width = line_width(flow);
        let extent = drawn::extent(&figure.picture);
        let Some(extent) = extent else {
            let caption = words::lines(&figure.caption, letter.size, width);
            return Self {
                extent,
                scale: 1.0,
                caption,
            };
        };
        let room = |caption: &[String]| {
            let lines = count(caption) * letter.leading;
            (flow.height() - measure::OVER_FIGURE - measure::BETWEEN_BLOCKS - lines).max(10.0)
        };
        let scale = |caption: &[String]| {
            let across = flow.width() / extent.width();
            let up = room(caption) / extent.height();
            across.min(up).min(1.0)
        };
        let mut caption = words::lines(&figure.caption, letter.size, width);
        let mut factor = scale(&caption);
        if factor < 1.0 {
            // said, because measuring on it would mislead; the longer caption may cost a little more
            let words_of = |factor: f64| {
                let share = number::fixed(factor * 100.0, 1);
                let words = format!("{} (shown at {share}\u{A0}% of its size)", figure.caption);
                words::lines(words.trim_start(), letter.size, width)
            };
            caption = words_of(factor);
            factor = scale(&caption);
            caption = words_of(factor);
        }
        Self {
            extent: Some(extent),
            scale: factor,
            caption,
        }
    }

    fn height(&self) -> f64 {
        let picture = self
            .extent
            .map_or(0.0, |extent| extent.height() * self.scale);
        picture + 1.5 + count(&self.caption) * Letter::SMALL.leading
    }
}

fn figure(flow: &mut Flow, figure: &Figure) {
    let size = FigureSize::new(flow, figure);
    flow.gap(measure::AROUND);
    flow.need(size.height());
    if let Some(extent) = size.extent {
        flow.y -= extent.height() * size.scale;
        let at = Point::new(flow.left, flow.y);
        flow.figure(PlacedFigure {
            picture: figure.picture.clone(),
            from: Point::new(extent.x0, extent.y0),
            at,
            scale: size.scale,
        });
    }
    flow.y -= 1.5;
    flow.lines(flow.left, Letter::SMALL, &size.caption);
    flow.gap(measure::AROUND - measure::BETWEEN_BLOCKS);
}

/// How many, for sizes.
pub(super) fn count(lines: &[String]) -> f64 {
    u32::try_from(lines.len()).map_or(f64::from(u32::MAX), f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formats::font;

    #[test]
    fn the_sign_of_a_caution_is_in_the_font() {
        assert_eq!(font::displayable(CAUTION_SIGN), CAUTION_SIGN, "sign");
    }
}
