//! Lengths, the page, and the basic shapes.

use std::str::FromStr;

use svgtypes::AspectRatio;
use svgtypes::Length;
use svgtypes::LengthUnit;
use svgtypes::PointsParser;
use svgtypes::ViewBox;

use super::tree::Element;
use super::tree::Tree;
use crate::geometry::Point;
use crate::geometry::number;

/// Units of length of the format in CSS pixels (CSS Values and Units, absolute lengths).
fn in_pixels(length: Length) -> Option<f64> {
    let factor = match length.unit {
        LengthUnit::None | LengthUnit::Px => 1.0,
        LengthUnit::In => 96.0,
        LengthUnit::Cm => 96.0 / 2.54,
        LengthUnit::Mm => 96.0 / 25.4,
        LengthUnit::Pt => 96.0 / 72.0,
        LengthUnit::Pc => 16.0,
        LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => return None,
    };
    Some(length.number * factor)
}

/// Whether a length is on paper, and not in units of the drawing.
const fn is_physical(length: Length) -> bool {
    matches!(
        length.unit,
        LengthUnit::In | LengthUnit::Cm | LengthUnit::Mm | LengthUnit::Pt | LengthUnit::Pc
    )
}

/// The page of the drawing.
pub(super) struct Page {
    /// Millimetres in a unit of the drawing, if the page has a size on paper.
    pub(super) millimetres: Option<f64>,
    /// How much more y is stretched than x.
    pub(super) stretch: f64,
}

/// The page of the root: its size on paper over that of its view. Without a view a unit of the drawing is
/// a pixel, which a size on paper makes one of 1/96 inch.
pub(super) fn page(_tree: &Tree, root: &Element) -> Page {
    let side = |name: &str| root.get(name).and_then(|text| Length::from_str(text).ok());
    let (width, height) = (side("width"), side("height"));
    let view = root
        .get("viewBox")
        .and_then(|text| ViewBox::from_str(text).ok());
    let physical = width.is_some_and(is_physical) || height.is_some_and(is_physical);
    let paper = |length: Option<Length>, view: f64| {
        let pixels = length.and_then(in_pixels)?;
        let scale = pixels * (25.4 / 96.0) / view;
        (scale > 0.0 && scale.is_finite()).then_some(scale)
    };
    let Some(view) = view else {
        return Page {
            millimetres: physical.then_some(25.4 / 96.0),
            stretch: 1.0,
        };
    };
    let (across, up) = (paper(width, view.w), paper(height, view.h));
    let stretched = root
        .get("preserveAspectRatio")
        .and_then(|text| AspectRatio::from_str(text).ok())
        .is_some_and(|ratio| ratio.align == svgtypes::Align::None);
    let slice = root
        .get("preserveAspectRatio")
        .is_some_and(|text| text.contains("slice"));
    let (millimetres, stretch) = match (across, up) {
        (Some(across), Some(up)) if stretched => (Some(across), up / across),
        (Some(across), Some(up)) if slice => (Some(across.max(up)), 1.0),
        (Some(across), Some(up)) => (Some(across.min(up)), 1.0),
        (across, up) => (across.or(up), 1.0),
    };
    Page {
        millimetres: millimetres.filter(|_| physical),
        stretch,
    }
}

/// A length attribute in user units; `otherwise` where it is missing.
pub(super) fn length(element: &Element, name: &str, otherwise: f64) -> Result<f64, String> {
    let Some(text) = element.get(name) else {
        return Ok(otherwise);
    };
    Length::from_str(text)
        .ok()
        .and_then(in_pixels)
        .filter(|value| value.is_finite())
        .ok_or_else(|| {
            format!(
                "has the {name} \"{}\", which is no length here",
                short(text)
            )
        })
}

pub(super) fn short(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(20).collect()
}

/// The points of a polyline or polygon.
pub(super) fn points(element: &Element) -> Result<Vec<Point>, String> {
    let text = element.get("points").unwrap_or_default();
    let points: Vec<Point> = PointsParser::from(text)
        .map(|(x, y)| Point::new(x, y))
        .collect();
    // the parser stops at what it does not understand
    let numbers = text
        .split(|c: char| c.is_whitespace() || c == ',')
        .filter(|word| !word.is_empty())
        .count();
    if points.len() < 2 {
        return Err(format!("has {} points", points.len()));
    }
    if numbers > 2 * points.len() + 1 {
        return Err(format!("has points that are none after {}", points.len()));
    }
    Ok(points)
}

/// One step of an outline in user units: straight, or an elliptical arc about a centre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Step {
    Line(Point),
    /// A quarter ellipse to the end, tangent to the lines from both to the corner.
    Quarter {
        corner: Point,
        end: Point,
    },
}

/// The outline of a rectangle with its radii: start, steps (SVG 2, "The 'rect' element").
pub(super) fn rectangle(element: &Element) -> Result<(Point, Vec<Step>), String> {
    let (x, y) = (length(element, "x", 0.0)?, length(element, "y", 0.0)?);
    let (width, height) = (
        length(element, "width", 0.0)?,
        length(element, "height", 0.0)?,
    );
    if !(width > 0.0 && height > 0.0) {
        return Err(format!("has the size {width} × {height}"));
    }
    let radius = |name: &str| match element.get(name) {
        None | Some("auto") => Ok(None),
        Some(_) => length(element, name, 0.0).map(Some),
    };
    let (rx, ry) = (radius("rx")?, radius("ry")?);
    let rx_used = rx.or(ry).unwrap_or(0.0).clamp(0.0, width / 2.0);
    let ry_used = ry.or(rx).unwrap_or(0.0).clamp(0.0, height / 2.0);
    let at = |x: f64, y: f64| Point::new(x, y);
    let (right, bottom) = (x + width, y + height);
    if rx_used == 0.0 || ry_used == 0.0 {
        let steps = [at(right, y), at(right, bottom), at(x, bottom), at(x, y)];
        return Ok((at(x, y), steps.map(Step::Line).to_vec()));
    }
    let corner = |corner: Point, end: Point| Step::Quarter { corner, end };
    let start = at(x + rx_used, y);
    let mut steps = Vec::new();
    let mut here = start;
    for (to, turn, end) in [
        (at(right - rx_used, y), at(right, y), at(right, y + ry_used)),
        (
            at(right, bottom - ry_used),
            at(right, bottom),
            at(right - rx_used, bottom),
        ),
        (
            at(x + rx_used, bottom),
            at(x, bottom),
            at(x, bottom - ry_used),
        ),
        (at(x, y + ry_used), at(x, y), start),
    ] {
        // sides that the radii leave nothing of
        if number::length(to - here) > 1e-12 * width.max(height) {
            steps.push(Step::Line(to));
        }
        steps.push(corner(turn, end));
        here = end;
    }
    Ok((start, steps))
}
