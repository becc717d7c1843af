//! Reading back an SVG file that was written here: groups named by layer, with paths of lines and
//! arcs, circles and words.
//!
//! This reads what [`svg::write`](super::svg::write) writes and says of everything else that it does
//! not belong there. It takes any bytes without a panic.

mod path;

use svg::node::Attributes;
use svg::node::element::tag::Type;
use svg::parser::Event;

use super::Contents;
use super::FileFormat;
use super::FormatError;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::SourceId;
use crate::sheet::Shape;

/// Files longer than this are refused, in bytes.
const LARGEST_FILE: usize = 128 << 20;

/// Files with more layers are refused: eight are ever written.
const MOST_LAYERS: usize = 256;

/// What the file holds, by layer, in millimetres, y up.
///
/// # Errors
/// [`FormatError::TooMuch`] for more than 128 MiB or 256 layers; [`FormatError::Malformed`] for
/// anything that does not follow the format, an unfinished file, or geometry that is none.
pub fn read_contours(bytes: &[u8]) -> Result<Contents, FormatError> {
    if bytes.len() > LARGEST_FILE {
        return Err(too_much("bytes", bytes.len(), LARGEST_FILE));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| malformed(error.to_string()))?;
    let parser = svg::read(text).map_err(|error| malformed(error.to_string()))?;
    let mut reading = Reading {
        contents: Contents::new(FileFormat::Svg),
        layer: String::new(),
        unit: None,
        depth: 0,
    };
    for event in parser {
        match event {
            Event::Error(error) => return Err(malformed(error.to_string())),
            Event::Tag(name, kind, attributes) => reading.tag(name, kind, &attributes)?,
            Event::Text(_) | Event::Comment(_) | Event::Declaration(_) | Event::Instruction(_) => {}
        }
    }
    if reading.unit.is_none() || reading.depth != 0 {
        return Err(malformed("the file ends before its last element does"));
    }
    Ok(reading.contents)
}

fn malformed(problem: impl Into<String>) -> FormatError {
    FormatError::Malformed {
        format: "SVG",
        line: 0,
        problem: problem.into(),
    }
}

const fn too_much(what: &'static str, found: usize, limit: usize) -> FormatError {
    FormatError::TooMuch {
        format: "SVG",
        what,
        found,
        limit,
    }
}

struct Reading {
    contents: Contents,
    /// The layer whose group is open; empty outside of all.
    layer: String,
    /// Millimetres in a unit of the drawing, once the head has been read.
    unit: Option<f64>,
    /// How many elements are open.
    depth: usize,
}

impl Reading {
    fn tag(&mut self, name: &str, kind: Type, attributes: &Attributes) -> Result<(), FormatError> {
        match kind {
            Type::Start => self.depth += 1,
            Type::Empty => {}
            Type::End => {
                self.depth = self
                    .depth
                    .checked_sub(1)
                    .ok_or_else(|| malformed("an end without a start"))?;
                if name == "g" {
                    self.layer.clear();
                }
                return Ok(());
            }
        }
        let Some(unit) = self.unit else {
            if name != "svg" {
                return Err(malformed("the file does not start with an svg element"));
            }
            self.unit = Some(unit_of(attributes)?);
            return Ok(());
        };
        match name {
            "title" => return Ok(()),
            "g" => {
                attribute(attributes, "class")?.clone_into(&mut self.layer);
                return Ok(());
            }
            _ => {}
        }
        if self.contents.layers.len() > MOST_LAYERS {
            return Err(too_much("layers", self.contents.layers.len(), MOST_LAYERS));
        }
        let layer = self.contents.layer(&self.layer);
        match name {
            "text" => layer.words += 1,
            "circle" => {
                let [x, y, radius] = ["cx", "cy", "r"].map(|name| number(attributes, name));
                let centre = Point::new(x? * unit, -y? * unit);
                let circle = Contour::circle(centre, radius? * unit, SourceId::UNTRACED)
                    .map_err(|error| malformed(format!("a circle that is none: {error}")))?;
                layer.add(Shape::Contour(circle));
            }
            "path" => {
                for shape in path::shapes(attribute(attributes, "d")?, unit)? {
                    layer.add(shape);
                }
            }
            _ => layer.foreign += 1,
        }
        Ok(())
    }
}

fn attribute<'a>(attributes: &'a Attributes, name: &str) -> Result<&'a str, FormatError> {
    let value = attributes.get(name);
    value
        .map(|value| &**value)
        .ok_or_else(|| malformed(format!("an element without its {name}")))
}

fn parsed(text: &str, name: &str) -> Result<f64, FormatError> {
    match text.trim().parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err(malformed(format!("a {name} that is no number"))),
    }
}

fn number(attributes: &Attributes, name: &str) -> Result<f64, FormatError> {
    parsed(attribute(attributes, name)?, name)
}

/// Millimetres in a unit of the drawing: its width on paper over that of its view.
fn unit_of(attributes: &Attributes) -> Result<f64, FormatError> {
    let of = |name: &str, view: &str| {
        let size = attribute(attributes, name)?;
        let size = size
            .strip_suffix("mm")
            .ok_or_else(|| malformed(format!("a {name} that is not in mm")))?;
        Ok((parsed(size, name)?, parsed(view, "viewBox")?))
    };
    let view: Vec<&str> = attribute(attributes, "viewBox")?
        .split_whitespace()
        .collect();
    let [_, _, across, up] = view.as_slice() else {
        return Err(malformed("a viewBox that has not four numbers"));
    };
    let (width, view_width) = of("width", across)?;
    let (height, view_height) = of("height", up)?;
    let unit = width / view_width;
    // written so that a number that is none is refused
    let fine = unit > 0.0 && unit.is_finite() && (height / view_height - unit).abs() <= 1e-9 * unit;
    if fine {
        Ok(unit)
    } else {
        Err(malformed("a page that stretches its drawing"))
    }
}

#[cfg(test)]
mod tests;
