//! The pages being filled, and the place on the last of them that is filled next.

use super::Paper;
use super::PlacedFigure;
use super::measure;
use super::measure::Letter;
use super::words;
use crate::formats::FormatError;
use crate::formats::font;
use crate::geometry::Point;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Text;

/// One page: lines and words, and the figures on it.
#[derive(Default)]
pub(super) struct Sheet {
    pub(super) picture: Picture,
    pub(super) figures: Vec<PlacedFigure>,
}

/// The pages so far.
pub(super) struct Flow {
    sheets: Vec<Sheet>,
    /// The page being filled.
    sheet: Sheet,
    /// Upper edge of what is still free, from the foot of the page.
    pub(super) y: f64,
    pub(super) left: f64,
    pub(super) right: f64,
    top: f64,
    bottom: f64,
    footer: Vec<String>,
    foot: f64,
    /// Whether a new page was asked for and not begun yet.
    break_asked: bool,
}

impl Flow {
    pub(super) fn new(paper: Paper, footer: &str) -> Result<Self, FormatError> {
        let too_small = |least: f64| FormatError::PaperTooSmall {
            width: paper.width,
            height: paper.height,
            least,
        };
        // compared so that a number that is none is refused too
        let is_large = paper.width.min(paper.height) >= measure::LEAST_PAPER;
        if !is_large || !(paper.width + paper.height).is_finite() {
            return Err(too_small(measure::LEAST_PAPER));
        }
        let share = measure::LARGEST_MARGIN_SHARE;
        let side = measure::MARGIN.min(paper.width * share);
        let (left, right) = (side, paper.width - side);
        let foot = measure::FOOT_MARGIN.min(paper.height * share);
        let for_number = font::text_width("Page 9999 of 9999", Letter::FOOTER.size) + 4.0;
        let footer = words::lines(footer, Letter::FOOTER.size, right - left - for_number);
        let count = u32::try_from(footer.len().max(1)).unwrap_or(u32::MAX);
        let bottom = foot + f64::from(count) * Letter::FOOTER.leading + 6.0;
        let top = paper.height - measure::MARGIN.min(paper.height * share);
        if top - bottom < measure::LEAST_ROOM {
            // a footer of many lines
            return Err(too_small(
                paper.height + measure::LEAST_ROOM - (top - bottom),
            ));
        }
        Ok(Self {
            sheets: Vec::new(),
            sheet: Sheet::default(),
            y: top,
            left,
            right,
            top,
            bottom,
            footer,
            foot,
            break_asked: false,
        })
    }

    /// Width between the margins.
    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height between the margins.
    pub(super) fn height(&self) -> f64 {
        self.top - self.bottom
    }

    /// Height still free on this page.
    pub(super) fn room(&self) -> f64 {
        if self.break_asked {
            0.0
        } else {
            self.y - self.bottom
        }
    }

    /// Whether nothing stands on this page yet.
    pub(super) fn is_at_top(&self) -> bool {
        self.y == self.top
    }

    /// The next thing begins on a new page.
    pub(super) fn ask_for_page(&mut self) {
        self.break_asked = !self.is_at_top();
    }

    /// Sees to it that so much height is free, on a new page if need be (and if that helps).
    pub(super) fn need(&mut self, height: f64) {
        // the last digit must not cost a page
        if self.break_asked || (self.room() < height - 1e-6 && !self.is_at_top()) {
            self.begin_page();
        }
    }

    pub(super) fn begin_page(&mut self) {
        self.break_asked = false;
        self.sheets.push(std::mem::take(&mut self.sheet));
        self.y = self.top;
    }

    /// Leaves a gap, but not at the head of a page.
    pub(super) fn gap(&mut self, height: f64) {
        if !self.is_at_top() && !self.break_asked {
            self.y -= height;
        }
    }

    /// One line of words, for which there is room: from `x`, or up to it.
    pub(super) fn line(&mut self, x: f64, anchor: Anchor, letter: Letter, content: &str) {
        self.words(
            Point::new(x, self.base_line(letter)),
            anchor,
            letter.size,
            content,
        );
        self.y -= letter.leading;
    }

    /// Where the base line of the next line of words is: capitals stand in the middle of the line's
    /// height.
    pub(super) fn base_line(&self, letter: Letter) -> f64 {
        self.y - f64::midpoint(letter.leading, font::capital_height(letter.size))
    }

    pub(super) fn words(&mut self, at: Point, anchor: Anchor, size: f64, content: &str) {
        if content.is_empty() {
            return;
        }
        self.sheet.picture.text(Text {
            layer: Layer::Words,
            at,
            size,
            anchor,
            angle: 0.0,
            content: content.to_owned(),
        });
    }

    /// Several lines of words one under another from `x`, over as many pages as they need; two lines
    /// at least stay together.
    pub(super) fn lines(&mut self, x: f64, letter: Letter, lines: &[String]) {
        for (index, line) in lines.iter().enumerate() {
            let is_first_of_many = index == 0 && lines.len() > 1;
            let is_last_but_one = index + 2 == lines.len();
            let together = if is_first_of_many || is_last_but_one {
                2.0
            } else {
                1.0
            };
            self.need(letter.leading * together);
            self.line(x, Anchor::Start, letter, line);
        }
    }

    /// A straight line.
    pub(super) fn rule(&mut self, from: Point, to: Point, width: f64, shade: Shade) {
        let pen = Pen::solid(width).shade(shade);
        self.sheet.picture.line(Layer::Words, from, to, pen);
    }

    /// A rectangle, given by two opposite corners.
    pub(super) fn frame(&mut self, low: Point, high: Point, width: f64, shade: Shade) {
        let corners = [
            low,
            Point::new(high.x, low.y),
            high,
            Point::new(low.x, high.y),
        ];
        for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            self.rule(*from, *to, width, shade);
        }
    }

    pub(super) fn figure(&mut self, figure: PlacedFigure) {
        self.sheet.figures.push(figure);
    }

    /// The finished pages, with their footers.
    pub(super) fn finish(mut self) -> Vec<Sheet> {
        let last = std::mem::take(&mut self.sheet);
        self.sheets.push(last);
        let mut sheets = std::mem::take(&mut self.sheets);
        let count = sheets.len();
        for (index, sheet) in sheets.iter_mut().enumerate() {
            std::mem::swap(&mut self.sheet, sheet);
            self.foot_of_page(&format!("Page {} of {count}", index + 1));
            std::mem::swap(&mut self.sheet, sheet);
        }
        sheets
    }

    fn foot_of_page(&mut self, number: &str) {
        let letter = Letter::FOOTER;
        let rule = self.bottom - 3.5;
        let (from, to) = (Point::new(self.left, rule), Point::new(self.right, rule));
        self.rule(from, to, measure::HAIRLINE, Shade::Black);
        let mut y = self.foot;
        let lines = std::mem::take(&mut self.footer);
        self.words(Point::new(self.right, y), Anchor::End, letter.size, number);
        for line in lines.iter().rev() {
            self.words(Point::new(self.left, y), Anchor::Start, letter.size, line);
            y += letter.leading;
        }
        self.footer = lines;
    }
}
