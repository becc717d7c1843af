//! A picture as a DXF file.

use super::entity;
use super::entity::Entities;
use super::tables;
use super::tag::Letters;
use super::tag::Tags;
use crate::formats::FormatError;
use crate::formats::drawn;
use crate::geometry::LengthUnit;
use crate::sheet::Layer;
use crate::sheet::Picture;

/// Which edition of the format is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DxfVersion {
    /// AC1009: read by everything, without a unit in the file.
    R12,
    /// AC1015: the usual choice.
    R2000,
    /// AC1021: the first in UTF-8.
    R2007,
    /// AC1027.
    R2013,
}

impl DxfVersion {
    /// Every edition, oldest first.
    pub const ALL: [Self; 4] = [Self::R12, Self::R2000, Self::R2007, Self::R2013];

    /// Its name, as a person asks for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::R12 => "R12",
            Self::R2000 => "R2000",
            Self::R2007 => "R2007",
            Self::R2013 => "R2013",
        }
    }

    /// Value of `$ACADVER` (DXF Reference, HEADER section).
    pub(super) const fn code(self) -> &'static str {
        match self {
            Self::R12 => "AC1009",
            Self::R2000 => "AC1015",
            Self::R2007 => "AC1021",
            Self::R2013 => "AC1027",
        }
    }

    const fn letters(self) -> Letters {
        match self {
            Self::R12 | Self::R2000 => Letters::Escaped,
            Self::R2007 | Self::R2013 => Letters::Plain,
        }
    }
}

/// How a DXF file is written.
#[derive(Clone, Debug, PartialEq)]
pub struct DxfOptions {
    /// The edition.
    pub version: DxfVersion,
    /// The unit of its coordinates.
    pub unit: LengthUnit,
    /// What the file says about itself, at its head: one remark a line, long ones broken.
    pub comments: Vec<String>,
}

impl Default for DxfOptions {
    /// R2000 in millimetres.
    fn default() -> Self {
        Self {
            version: DxfVersion::R2000,
            unit: LengthUnit::Millimetre,
            comments: Vec::new(),
        }
    }
}

/// Remarks longer than this many letters are broken: R12 ends a line at 255.
const LONGEST_COMMENT: usize = 200;

/// The picture as a DXF file.
///
/// # Accuracy
/// Coordinates within 5e-13 of the file's unit of the picture's, bulges within 1e-16.
///
/// # Errors
/// [`FormatError::NotUsable`] for a number that cannot be drawn, [`FormatError::NothingToDraw`] for a
/// picture in which nothing is drawn.
///
/// # Example
/// ```
/// use kerfwise::formats::dxf;
/// use kerfwise::geometry::{Contour, Point};
/// use kerfwise::sheet::{Layer, Pen, Picture};
///
/// let square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)].map(Point::from);
/// let mut picture = Picture::new();
/// picture.contour(Layer::Outside, Contour::polygon(&square)?, Pen::solid(0.25));
/// let bytes = dxf::write(&picture, &dxf::DxfOptions::default())?;
/// assert!(bytes.ends_with(b"EOF\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn write(picture: &Picture, options: &DxfOptions) -> Result<Vec<u8>, FormatError> {
    drawn::check_numbers(picture)?;
    let letters = options.version.letters();
    let mut entities = Entities::new(
        Tags::new(letters),
        options,
        tables::MODEL_SPACE,
        tables::FIRST_FREE_HANDLE,
    );
    for item in &picture.items {
        entities.item(item);
    }
    if entities.written == 0 {
        return Err(FormatError::NothingToDraw);
    }
    let skeleton = tables::Skeleton {
        options,
        layers: layers_of(picture),
        bounds: picture.bounds(),
        next: entities.next,
    };
    let mut head = Tags::new(letters);
    comments(&mut head, options);
    skeleton.before_entities(&mut head);
    let mut tail = Tags::new(letters);
    skeleton.after_entities(&mut tail);

    let mut bytes = head.into_bytes();
    bytes.append(&mut entities.tags.into_bytes());
    bytes.append(&mut tail.into_bytes());
    Ok(bytes)
}

fn layers_of(picture: &Picture) -> Vec<Layer> {
    let used = |layer: Layer| {
        let mut written = picture.items.iter().filter(|item| entity::is_written(item));
        written.any(|item| item.layer() == layer)
    };
    Layer::ALL
        .into_iter()
        .filter(|&layer| used(layer))
        .collect()
}

fn comments(tags: &mut Tags, options: &DxfOptions) {
    // R12 has no place for the unit, and some readers skip that of the others
    tags.comment(&format!(
        "Units: {} (1 drawing unit = 1 {})",
        options.unit.name(),
        options.unit.symbol()
    ));
    for line in options.comments.iter().flat_map(|comment| comment.lines()) {
        let mut rest = line;
        while let Some((place, _)) = rest.char_indices().nth(LONGEST_COMMENT) {
            // broken at a space, where there is one
            let head = rest.get(..place).unwrap_or(rest);
            let at = head.rfind(' ').filter(|&at| at > 0).unwrap_or(place);
            let (line, following) = rest.split_at(at);
            tags.comment(line);
            rest = following.trim_start();
        }
        tags.comment(rest);
    }
}
