//! What the writers and readers refuse, with the numbers and one way out.

/// A file that cannot be written, cannot be read, or does not hold what it should.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FormatError {
    /// A coordinate or size is not a number or infinite.
    #[error(
        "{what} is {value}, which no {format} file can hold; check the dimension it comes from"
    )]
    NotFinite {
        /// The format, for example `DXF`.
        format: &'static str,
        /// What the number was meant to be.
        what: &'static str,
        /// The number.
        value: f64,
    },
    /// A coordinate or size is beyond what the format or the promised exactness allows.
    #[error(
        "{what} is {value} mm, and a {format} file from here ends at {limit} mm; check the units of the design"
    )]
    TooLarge {
        /// The format.
        format: &'static str,
        /// What the number is.
        what: &'static str,
        /// The number, in millimetres.
        value: f64,
        /// The largest allowed, in millimetres.
        limit: f64,
    },
    /// A radius, size or width that has to be above zero is not.
    #[error("{what} is {value} mm, and must be above 0 mm; check the dimension it comes from")]
    NotPositive {
        /// What the number is.
        what: &'static str,
        /// The number, in millimetres.
        value: f64,
    },
    /// There is no geometry to write or none was found.
    #[error("there is nothing to draw in this {format} file; name a part that has an outline")]
    NoGeometry {
        /// The format.
        format: &'static str,
    },
    /// A file that is longer, or holds more, than can be taken in.
    #[error(
        "the {format} file has {found} {what}, and {limit} is the most that is read here; split it"
    )]
    TooMuch {
        /// The format.
        format: &'static str,
        /// What there is too much of.
        what: &'static str,
        /// How much there is.
        found: usize,
        /// The most that is taken.
        limit: usize,
    },
    /// Text that does not follow the format.
    #[error("line {line} of the {format} file: {problem}; write the file again")]
    Malformed {
        /// The format.
        format: &'static str,
        /// Line of the file, from 1; 0 where the format has no lines.
        line: usize,
        /// What is wrong there.
        problem: String,
    },
    /// What was read back is not what was to be written.
    #[error(
        "the {format} file does not hold the part: {what} on layer {layer} is {found} and should be {expected}; please report this fault"
    )]
    Differs {
        /// The format.
        format: &'static str,
        /// The layer where the difference is.
        layer: String,
        /// What differs, with its unit.
        what: &'static str,
        /// What should be there.
        expected: f64,
        /// What is there.
        found: f64,
    },
    /// A library that encodes (picture, font, archive) gave up.
    #[error("the {format} file could not be encoded: {problem}")]
    Encoder {
        /// The format.
        format: &'static str,
        /// What the library said.
        problem: String,
    },
}

/// The number, if it is one and not beyond `limit` (in millimetres, either way).
///
/// # Errors
/// [`FormatError::NotFinite`] and [`FormatError::TooLarge`].
pub fn usable(
    format: &'static str,
    what: &'static str,
    value: f64,
    limit: f64,
) -> Result<f64, FormatError> {
    if !value.is_finite() {
        return Err(FormatError::NotFinite {
            format,
            what,
            value,
        });
    }
    if value.abs() > limit {
        return Err(FormatError::TooLarge {
            format,
            what,
            value,
            limit,
        });
    }
    Ok(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_no_file_holds_are_refused() {
        assert!(
            matches!(
                usable("DXF", "x", f64::NAN, 1.0),
                Err(FormatError::NotFinite { .. })
            ),
            "not a number"
        );
        assert!(
            matches!(
                usable("DXF", "x", -2.0, 1.0),
                Err(FormatError::TooLarge { .. })
            ),
            "beyond the limit on the negative side"
        );
        assert_eq!(usable("DXF", "x", -1.0, 1.0), Ok(-1.0), "on the limit");
    }
}
