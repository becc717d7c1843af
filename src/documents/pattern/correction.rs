//! The error of a printer, from readings of its calibration page, and how it is undone.
//!
//! A printer is taken to do the same to every sheet: stretch it by one factor along x and another along
//! y, and lean its y axis. A turn of the whole sheet or a shift does not matter to a pattern and
//! cannot be told from readings of lengths.

use serde::Deserialize;
use serde::Serialize;

use crate::formats::pdf::Stretch;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::number::fixed;

/// The largest error of a printer that is believed: 3 %.
///
/// # Source
/// Common practice; printers at "100 %" were found up to 2 % off.
const LARGEST_ERROR: f64 = 0.03;

/// How far the diagonals may disagree with the sides, as a fraction of a diagonal: about 1 mm on A4.
const LARGEST_MISFIT: f64 = 0.003;

/// What a person read on a calibration page, or what the page should show, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Readings {
    /// The line along x, left to right.
    pub x: f64,
    /// The line along y, bottom to top.
    pub y: f64,
    /// The diagonal that rises to the right.
    pub rising: f64,
    /// The diagonal that falls to the right.
    pub falling: f64,
}

impl Readings {
    /// What a true printer gives for a rectangle of this size.
    pub fn of_rectangle(width: f64, height: f64) -> Self {
        let diagonal = number::length(Vec2::new(width, height));
        Self {
            x: width,
            y: height,
            rising: diagonal,
            falling: diagonal,
        }
    }

    fn named(&self) -> [(&'static str, f64); 4] {
        [
            ("x", self.x),
            ("y", self.y),
            ("the rising diagonal", self.rising),
            ("the falling diagonal", self.falling),
        ]
    }
}

/// Readings that cannot be right.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadingError {
    /// One of them is too far from what was asked for.
    #[error(
        "{line} should be {asked:.2} mm and was read as {read:.2} mm, {} % off, and 3 % is the most \
         that is believed: {likely}", fixed((read / asked - 1.0) * 100.0, 1)
    )]
    TooFar {
        /// Which line.
        line: &'static str,
        /// Its length in the file, in millimetres.
        asked: f64,
        /// The reading in millimetres.
        read: f64,
        /// The likely reason, and what to do.
        likely: &'static str,
    },
    /// A reading that is no length.
    #[error("{line} was read as {read}, which is no length: give millimetres, as in 180.5")]
    NoLength {
        /// Which line.
        line: &'static str,
        /// The reading.
        read: f64,
    },
    /// The four do not belong to one parallelogram.
    #[error(
        "the readings do not fit together: sides of {x:.2} and {y:.2} mm ask for diagonals {off:.2} mm \
         {way} than those read; measure all four again"
    )]
    Misfit {
        /// Reading along x, in millimetres.
        x: f64,
        /// Reading along y, in millimetres.
        y: f64,
        /// By how much the diagonals are off, in millimetres.
        off: f64,
        /// "longer" or "shorter".
        way: &'static str,
    },
    /// The readings were taken on another paper.
    #[error(
        "the correction was measured on paper of {width:.0} × {height:.0} mm, and this is {other_width:.0} × \
         {other_height:.0} mm: print the calibration page on this paper and measure again"
    )]
    OtherPaper {
        /// Width of the paper measured, in millimetres.
        width: f64,
        /// Its height.
        height: f64,
        /// Width of the paper to print on, in millimetres.
        other_width: f64,
        /// Its height.
        other_height: f64,
    },
}

/// The measured error of one printer with one paper, as kept in a file.
///
/// What was asked for and what was read are kept; the error is worked out from them when it is used, so
/// that a file changed by hand is checked again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Correction {
    /// Version of the tool that worked it out.
    #[serde(default)]
    pub kerfwise: String,
    /// Name of the printer or of the paper, for the maker.
    #[serde(default)]
    pub name: String,
    /// Width of the sheet that was measured, in millimetres.
    pub paper_width: f64,
    /// Height of the sheet that was measured, in millimetres.
    pub paper_height: f64,
    /// What the calibration page should show.
    pub asked: Readings,
    /// What was read on it.
    pub read: Readings,
}

/// The error of a printer: its factors, and the angle between its axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrinterError {
    /// Printed length for a length of 1 along x.
    pub x: f64,
    /// Printed length for a length of 1 along y.
    pub y: f64,
    /// By how much the printed y axis leans to the right, in radians.
    pub lean: f64,
}

impl Correction {
    /// The correction from readings of the calibration page of a paper.
    ///
    /// # Errors
    /// [`ReadingError`], when they imply more than 3 %, are no lengths, or contradict each other.
    ///
    /// # Example
    /// ```
    /// use kerfwise::documents::pattern::{Correction, Readings};
    /// let asked = Readings { x: 160.0, y: 240.0, rising: 288.444, falling: 288.444 };
    /// // everything 1 % too large
    /// let read = Readings { x: 161.6, y: 242.4, rising: 291.328, falling: 291.328 };
    /// let correction = Correction::from_readings("kitchen printer", (210.0, 297.0), asked, read)?;
    /// assert!((correction.error()?.x - 1.01).abs() < 1e-12);
    /// # Ok::<(), kerfwise::documents::pattern::ReadingError>(())
    /// ```
    pub fn from_readings(
        name: impl Into<String>,
        (paper_width, paper_height): (f64, f64),
        asked: Readings,
        read: Readings,
    ) -> Result<Self, ReadingError> {
        let correction = Self {
            kerfwise: env!("CARGO_PKG_VERSION").to_owned(),
            name: name.into(),
            paper_width,
            paper_height,
            asked,
            read,
        };
        correction.error()?;
        Ok(correction)
    }

    /// The error of the printer, on the sheet as it was measured.
    ///
    /// # Accuracy
    /// As good as the readings: half a millimetre on 240 mm is 0.2 %.
    ///
    /// # Errors
    /// [`ReadingError`], as for [`Correction::from_readings`].
    ///
    /// # Source
    /// Closed form: in a parallelogram with sides a, b about the angle φ the diagonals are
    /// d² = a² + b² ± 2ab·cos φ.
    pub fn error(&self) -> Result<PrinterError, ReadingError> {
        for ((line, asked), (_, read)) in self.asked.named().into_iter().zip(self.read.named()) {
            check_reading(line, asked, read)?;
        }
        let Readings {
            x,
            y,
            rising,
            falling,
        } = self.read;
        let expected = (2.0 * (x * x + y * y)).sqrt();
        let found = (rising * rising + falling * falling).sqrt();
        if (expected / found - 1.0).abs() > LARGEST_MISFIT {
            return Err(ReadingError::Misfit {
                x,
                y,
                off: (expected - found).abs() / std::f64::consts::SQRT_2,
                way: if expected > found {
                    "longer"
                } else {
                    "shorter"
                },
            });
        }
        let cosine = (rising * rising - falling * falling) / (4.0 * x * y);
        if cosine.abs() > LARGEST_ERROR {
            return Err(ReadingError::TooFar {
                line: "the rising diagonal",
                asked: falling,
                read: rising,
                likely: "the two diagonals are too different; the paper was fed askew, or one of them was \
                         misread",
            });
        }
        Ok(PrinterError {
            x: x / self.asked.x,
            y: y / self.asked.y,
            lean: number::arcsin(cosine),
        })
    }

    /// The stretch about the middle of a sheet that undoes the error, for a sheet of the paper
    /// measured, either way round.
    ///
    /// A sheet that lies the other way round goes through the printer turned by a quarter: x and y
    /// change places, and the lean changes its sign.
    ///
    /// # Errors
    /// [`ReadingError::OtherPaper`] for a sheet of another size, and as [`Correction::error`].
    pub fn stretch(&self, (width, height): (f64, f64)) -> Result<Stretch, ReadingError> {
        let error = self.error()?;
        let near = |a: f64, b: f64| (a - b).abs() < 0.5;
        let as_measured = near(width, self.paper_width) && near(height, self.paper_height);
        let turned = near(width, self.paper_height) && near(height, self.paper_width);
        let error = if as_measured {
            error
        } else if turned {
            PrinterError {
                x: error.y,
                y: error.x,
                lean: -error.lean,
            }
        } else {
            return Err(ReadingError::OtherPaper {
                width: self.paper_width,
                height: self.paper_height,
                other_width: width,
                other_height: height,
            });
        };
        Ok(error.undone(Point::new(width / 2.0, height / 2.0)))
    }

    /// The stretch about the middle of a page of any length from the machine that was measured, fed as
    /// the calibration page was.
    ///
    /// # Errors
    /// As [`Correction::error`].
    pub fn stretch_along(&self, (width, height): (f64, f64)) -> Result<Stretch, ReadingError> {
        let middle = Point::new(width / 2.0, height / 2.0);
        Ok(self.error()?.undone(middle))
    }

    /// What it carries, in words: the error along x and y, and how far out of square.
    ///
    /// # Errors
    /// As [`Correction::error`].
    pub fn words(&self) -> Result<String, ReadingError> {
        let error = self.error()?;
        let percent = |factor: f64| signed((factor - 1.0) * 100.0, 2);
        let name = if self.name.is_empty() {
            String::new()
        } else {
            format!(" ({})", self.name)
        };
        Ok(format!(
            "corrected for a printer that is {} % along x, {} % along y, {}° out of square{name}",
            percent(error.x),
            percent(error.y),
            signed(error.lean.to_degrees(), 2)
        ))
    }
}

impl PrinterError {
    /// The stretch that undoes it.
    ///
    /// The printer takes (u, v) to (x·u + y·v·sin lean, y·v·cos lean); this is its inverse.
    fn undone(&self, about: Point) -> Stretch {
        let (sine, cosine) = (number::sin(self.lean), number::cos(self.lean));
        Stretch {
            x_axis: Vec2::new(1.0 / self.x, 0.0),
            y_axis: Vec2::new(-sine / (self.x * cosine), 1.0 / (self.y * cosine)),
            about,
        }
    }
}

fn signed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if value > 0.0 && !text.chars().all(|c| c == '0' || c == '.') {
        format!("+{text}")
    } else {
        text.replace('-', "−")
    }
}

fn check_reading(line: &'static str, asked: f64, read: f64) -> Result<(), ReadingError> {
    if !(read.is_finite() && read > 0.0 && asked.is_finite() && asked > 0.0) {
        return Err(ReadingError::NoLength { line, read });
    }
    let ratio = read / asked;
    if (ratio - 1.0).abs() <= LARGEST_ERROR {
        return Ok(());
    }
    Err(ReadingError::TooFar {
        line,
        asked,
        read,
        likely: likely_reason(ratio),
    })
}

/// Why a reading may be `ratio` times what was asked for.
fn likely_reason(ratio: f64) -> &'static str {
    let is = |value: f64| (ratio / value - 1.0).abs() <= 2.0 * LARGEST_ERROR;
    if is(1.0 / 25.4) {
        "the reading looks like inches; give millimetres"
    } else if is(0.1) {
        "the reading looks like centimetres; give millimetres"
    } else if is(0.001) {
        "the reading looks like metres; give millimetres"
    } else if is(10.0) || is(25.4) || is(2.54) {
        "the reading looks like another unit; give millimetres"
    } else if ratio > 0.85 && ratio < 1.0 {
        "the page was most likely shrunk to fit; print it again at actual size (100 %)"
    } else if ratio > 1.0 && ratio < 1.15 {
        "the page was most likely enlarged to fit; print it again at actual size (100 %)"
    } else {
        "most likely a slip of the pen, or another line was measured; measure it again"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const A4: (f64, f64) = (210.0, 297.0);

    fn asked() -> Readings {
        Readings::of_rectangle(180.0, 270.0)
    }

    /// Where a printer with this error puts a place, and what it shows of the rectangle.
    fn printed(error: &PrinterError, vector: Vec2) -> Vec2 {
        let (sine, cosine) = (number::sin(error.lean), number::cos(error.lean));
        Vec2::new(
            error.x * vector.x + error.y * sine * vector.y,
            error.y * cosine * vector.y,
        )
    }

    fn readings(error: &PrinterError) -> Readings {
        let length = |x: f64, y: f64| number::length(printed(error, Vec2::new(x, y)));
        Readings {
            x: length(180.0, 0.0),
            y: length(0.0, 270.0),
            rising: length(180.0, 270.0),
            falling: length(180.0, -270.0),
        }
    }

    #[test]
    fn an_error_is_found_from_its_readings_and_undone() {
        let error = PrinterError {
            x: 1.014,
            y: 0.994,
            lean: 0.3_f64.to_radians(),
        };
        let correction = Correction::from_readings("", A4, asked(), readings(&error)).unwrap();
        let found = correction.error().unwrap();
        for (found, true_value) in [
            (found.x, error.x),
            (found.y, error.y),
            (found.lean, error.lean),
        ] {
            assert!(
                (found - true_value).abs() < 1e-12,
                "{found} for {true_value}"
            );
        }
        let stretch = correction.stretch(A4).unwrap();
        for vector in [Vec2::new(90.0, 40.0), Vec2::new(-60.0, 130.0)] {
            let back = printed(&error, stretch.vector(vector));
            assert!(
                number::length(back - vector) < 1e-12,
                "{vector:?} comes out as {back:?}"
            );
        }
    }

    #[test]
    fn a_sheet_that_lies_the_other_way_round_keeps_its_lengths_too() {
        let error = PrinterError {
            x: 1.02,
            y: 0.99,
            lean: -0.004,
        };
        let correction = Correction::from_readings("", A4, asked(), readings(&error)).unwrap();
        let stretch = correction.stretch((297.0, 210.0)).unwrap();
        for vector in [
            Vec2::new(100.0, 0.0),
            Vec2::new(0.0, 100.0),
            Vec2::new(70.0, 50.0),
        ] {
            // fed turned by a quarter
            let fed = number::left_normal(stretch.vector(vector));
            let length = number::length(printed(&error, fed));
            let wanted = number::length(vector);
            assert!((length - wanted).abs() < 1e-9, "{vector:?}: {length} mm");
        }
    }

    #[test]
    fn readings_that_cannot_be_right_are_refused_with_the_likely_reason() {
        type Change = fn(&mut Readings);
        let cases: [(Change, &str); 6] = [
            (|r| r.x = 7.087, "inches"),
            (|r| r.y = 27.0, "centimetres"),
            (|r| r.x = 169.2, "shrunk to fit"),
            (|r| r.rising = 340.0, "enlarged to fit"),
            (|r| r.y = 540.0, "measure it again"),
            (|r| r.falling = f64::NAN, "no length"),
        ];
        for (change, reason) in cases {
            let mut read = asked();
            change(&mut read);
            let refused = Correction::from_readings("", A4, asked(), read).unwrap_err();
            assert!(
                refused.to_string().contains(reason),
                "{read:?}: {refused} does not say {reason}"
            );
        }
        // both diagonals 2 mm long, sides true: one of the four is a slip
        let mut read = asked();
        read.rising += 2.0;
        read.falling += 2.0;
        let refused = Correction::from_readings("", A4, asked(), read);
        assert!(
            matches!(refused, Err(ReadingError::Misfit { .. })),
            "{refused:?}"
        );
    }

    #[test]
    fn a_correction_is_kept_in_a_file_and_checked_again() {
        let error = PrinterError {
            x: 1.01,
            y: 1.0,
            lean: 0.0,
        };
        let kept = Correction::from_readings("den", A4, asked(), readings(&error)).unwrap();
        let text = serde_json::to_string(&kept).unwrap();
        let back: Correction = serde_json::from_str(&text).unwrap();
        assert_eq!(back, kept, "read back from {text}");
        let spoilt = text.replace("181.8", "18.18");
        let back: Correction = serde_json::from_str(&spoilt).unwrap();
        assert!(back.error().is_err(), "changed by hand: {spoilt}");
        let other = kept.stretch((215.9, 279.4));
        assert!(
            matches!(other, Err(ReadingError::OtherPaper { .. })),
            "another paper: {other:?}"
        );
    }
}
