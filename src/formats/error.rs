//! What the writers and readers refuse, with the numbers and one way out.

/// A file that cannot be written, cannot be read, or does not hold what it should.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FormatError {
    /// A coordinate or size that is not a number, infinite, or outside what is possible for it.
    #[error("{what} is {value}, which cannot be drawn: give {needed}")]
    NotUsable {
        /// What the number was meant to be.
        what: &'static str,
        /// The number.
        value: f64,
        /// What would do.
        needed: &'static str,
    },
    /// A picture with nothing in it, where its size has to come from what it holds.
    #[error("there is nothing to draw: the picture is empty, so that it has no size")]
    NothingToDraw,
    /// A page larger or smaller than the format allows.
    #[error(
        "a page of {width:.1} × {height:.1} mm cannot be written: a page side is {least:.2} to \
         {largest:.0} mm; tile the drawing over several pages"
    )]
    PageSize {
        /// Width asked for in millimetres.
        width: f64,
        /// Height asked for in millimetres.
        height: f64,
        /// The smallest side possible in millimetres.
        least: f64,
        /// The largest side possible in millimetres.
        largest: f64,
    },
    /// A drawing whose coordinates the format could not hold exactly enough.
    #[error(
        "a drawing of {width:.0} × {height:.0} mm is too large to keep its places within 0.001 mm \
         in this format: {largest:.0} mm is the most; write it in parts"
    )]
    DrawingTooLarge {
        /// Its width in millimetres.
        width: f64,
        /// Its height in millimetres.
        height: f64,
        /// The largest side possible in millimetres.
        largest: f64,
    },
    /// An image of more dots than is sensible.
    #[error(
        "an image of {width} × {height} dots is {:.0} million dots, and {:.0} million is the most: \
         use fewer dots a millimetre", width * height / 1e6, most / 1e6
    )]
    ImageTooLarge {
        /// Dots across.
        width: f64,
        /// Dots upwards.
        height: f64,
        /// The most dots that are written.
        most: f64,
    },
    /// A page that asks for a picture which is not there.
    #[error("page {page} places picture {index}, and there are {pictures} (counted from 0)")]
    NoSuchPicture {
        /// The page, counted from 1.
        page: usize,
        /// The picture asked for.
        index: usize,
        /// How many there are.
        pictures: usize,
    },
    /// A file without pages.
    #[error("there is no page to write: give at least one")]
    NoPages,
    /// Paper too small for anything to stand on it.
    #[error(
        "paper of {width:.1} × {height:.1} mm leaves no room inside its margins: \
         {least:.0} × {least:.0} mm is the least"
    )]
    PaperTooSmall {
        /// Width in millimetres.
        width: f64,
        /// Height in millimetres.
        height: f64,
        /// Smallest side in millimetres.
        least: f64,
    },
    /// A table with more columns than can stand side by side.
    #[error(
        "a table of {columns} columns does not fit on lines of {width:.0} mm: use larger paper, or \
         paper that lies"
    )]
    TooManyColumns {
        /// How many columns.
        columns: usize,
        /// Width between the margins in millimetres.
        width: f64,
    },
    /// The letters used could not be taken out of the font.
    #[error(
        "the letters could not be put into the file: {reason}; write the drawing without words"
    )]
    Letters {
        /// What the font library says.
        reason: String,
    },
    /// An image could not be put together.
    #[error("the image could not be written: {reason}; use fewer dots a millimetre")]
    Image {
        /// What the image library says.
        reason: String,
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
    #[error("the {format} file cannot be read: {problem}{}; write it again", place(*line))]
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
}

fn place(line: usize) -> String {
    match line {
        0 => String::new(),
        line => format!(" (line {line})"),
    }
}
