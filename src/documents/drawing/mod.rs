//! The dimensioned drawing of a part, to scale on one sheet.
//!
//! The part is turned so that its datum edge stands upright or lies level. Running dimensions from
//! the datum stand left of it and under it, overall dimensions at the right and on top, and the names
//! and sizes of its features in one margin, each with a leader. The layout is tried at every scale of
//! ISO 5455 from the largest down, on the sheet upright and lying, until everything has room; so no
//! words ever lie on other words.

pub(crate) mod body;
mod features_named;
mod frame;
pub(crate) mod labels;
mod layout;
pub(crate) mod near;
pub(crate) mod obstacles;
mod ordinates;
mod overall;
mod spread;
pub(crate) mod symbols;
pub(crate) mod view;

use super::DocumentError;
use super::Stamp;
use crate::design::part::Part;
use crate::sheet::Picture;
use frame::Frame;
use labels::Side;
pub(crate) use layout::draw_datum;
pub(crate) use layout::draw_plain_label;
use layout::try_at;
use view::View;

/// Size of a sheet of paper in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSize {
    /// From left to right.
    pub width: f64,
    /// From bottom to top.
    pub height: f64,
}

impl SheetSize {
    /// ISO 216 A4, upright.
    pub const A4: Self = Self {
        width: 210.0,
        height: 297.0,
    };
    /// ISO 216 A3, upright.
    pub const A3: Self = Self {
        width: 297.0,
        height: 420.0,
    };
    /// Letter, 8 1/2 × 11 in, upright.
    pub const LETTER: Self = Self {
        width: 215.9,
        height: 279.4,
    };

    /// The same sheet with its sides exchanged.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self {
            width: self.height,
            height: self.width,
        }
    }
}

/// Width and height below which a sheet is refused.
const LEAST_SHEET: f64 = 140.0;
/// Width and height above which a sheet is refused.
const LARGEST_SHEET: f64 = 5000.0;

/// A drawing, ready to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The sheet it fills, upright or lying; its lower left corner is the origin of the picture.
    pub sheet: SheetSize,
    /// Its scale in words, such as `1:5`.
    pub scale: String,
    /// Everything on it, in millimetres of paper.
    pub picture: Picture,
}

/// A scale of ISO 5455: millimetres of paper, and of the part, that belong together.
type Scale = (f64, f64);

const SCALES: [Scale; 9] = [
    (5.0, 1.0),
    (2.0, 1.0),
    (1.0, 1.0),
    (1.0, 2.0),
    (1.0, 5.0),
    (1.0, 10.0),
    (1.0, 20.0),
    (1.0, 50.0),
    (1.0, 100.0),
];

/// Font sizes of labels: the usual one, and one for crowded parts.
const LABEL_SIZES: [f64; 2] = [3.0, 2.2];

/// The drawing of the part, on the sheet upright or lying, whichever gives the larger scale.
///
/// # Units
/// The picture is in millimetres of paper; numbers on it are in the stamp's unit.
///
/// # Errors
/// [`DocumentError::BadSheet`] for a sheet that is too small to draw on, [`DocumentError::NoRoom`]
/// when the part with its labels fits at no scale.
pub fn draw(part: &Part, stamp: &Stamp, sheet: SheetSize) -> Result<Drawing, DocumentError> {
    let fine = |side: f64| (LEAST_SHEET..=LARGEST_SHEET).contains(&side);
    if !fine(sheet.width) || !fine(sheet.height) {
        return Err(DocumentError::BadSheet {
            width: sheet.width,
            height: sheet.height,
            least: LEAST_SHEET,
        });
    }
    let largest = SCALES
        .iter()
        .position(|&scale| {
            candidates(part, sheet)
                .iter()
                .any(|&(sheet, _)| has_room(part, stamp, sheet, scale))
        })
        .unwrap_or(SCALES.len());
    for (scale, size, key) in attempts(largest) {
        for (sheet, manner) in candidates(part, sheet) {
            if key != (manner == Manner::Key) {
                continue;
            }
            if let Some(picture) = try_at(part, stamp, sheet, (scale, manner, size)) {
                return Ok(Drawing {
                    sheet,
                    scale: words_of(scale),
                    picture,
                });
            }
        }
    }
    let view = View::new(part, 1.0);
    Err(DocumentError::NoRoom {
        length: view.bounds.width(),
        width: view.bounds.height(),
        labels: features_named::labels(&view, stamp.unit).len(),
        sheet_width: sheet.width,
        sheet_height: sheet.height,
        smallest: SCALES.iter().map(|scale| scale.1).fold(1.0, f64::max),
    })
}

/// How labels are placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Manner {
    /// Each near its feature.
    Near,
    /// All in one margin.
    Margin(Side),
    /// Numbers near the features, and what they stand for in a list.
    Key,
}

/// Scales and sizes of labels in the order in which they are tried, and whether with a key: words on
/// the drawing are worth one step of scale, more than that not.
fn attempts(largest: usize) -> Vec<(Scale, f64, bool)> {
    let [usual, crowded] = LABEL_SIZES;
    let near = SCALES.iter().skip(largest).take(2);
    let mut attempts = Vec::new();
    attempts.extend(near.clone().map(|&scale| (scale, usual, false)));
    attempts.extend(near.map(|&scale| (scale, crowded, false)));
    attempts.extend(
        SCALES
            .iter()
            .skip(largest)
            .map(|&scale| (scale, crowded, true)),
    );
    attempts
}

/// The sheet upright and lying with every manner of labels, the likeliest first.
fn candidates(part: &Part, sheet: SheetSize) -> [(SheetSize, Manner); 8] {
    let view = View::new(part, 1.0);
    let upright = if sheet.width <= sheet.height {
        sheet
    } else {
        sheet.turned()
    };
    let lying = upright.turned();
    let (first, second, sides) = if view.bounds.height() >= view.bounds.width() {
        (upright, lying, [Side::Right, Side::Top])
    } else {
        (lying, upright, [Side::Top, Side::Right])
    };
    let [side, other] = sides.map(Manner::Margin);
    [
        (first, Manner::Near),
        (second, Manner::Near),
        (first, side),
        (first, other),
        (second, side),
        (second, other),
        (first, Manner::Key),
        (second, Manner::Key),
    ]
}

/// Whether the part without labels has room on the sheet at this scale.
fn has_room(part: &Part, stamp: &Stamp, sheet: SheetSize, scale: Scale) -> bool {
    let area = Frame::new(part, stamp, sheet, &[]).area;
    let view = View::new(part, scale.0 / scale.1);
    let around = overall::AWAY + ordinates::AWAY;
    view.envelope.width() + around <= area.width()
        && view.envelope.height() + around <= area.height()
}

/// A scale in words: `1:5`.
fn words_of(scale: Scale) -> String {
    let number = |value| crate::sheet::number::trimmed(value, 0);
    format!("{}:{}", number(scale.0), number(scale.1))
}

#[cfg(test)]
mod tests;
