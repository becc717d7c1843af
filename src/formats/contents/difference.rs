//! Holding what a file has on a layer against what it should have.

use super::LayerContents;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The first difference found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Difference {
    pub(super) what: &'static str,
    pub(super) expected: f64,
    pub(super) found: f64,
}

/// Whether two numbers are one within `slack`; a number that is none differs from every other.
fn same(what: &'static str, expected: f64, found: f64, slack: f64) -> Result<(), Difference> {
    if (expected - found).abs() <= slack {
        Ok(())
    } else {
        Err(Difference {
            what,
            expected,
            found,
        })
    }
}

fn same_count(what: &'static str, expected: usize, found: usize) -> Result<(), Difference> {
    // whole numbers below 2^52 are exact
    #[expect(
        clippy::cast_precision_loss,
        reason = "numbers of lines in a file are far below 2^52"
    )]
    let (expected, found) = (expected as f64, found as f64);
    same(what, expected, found, 0.0)
}

pub(super) fn between_layers(
    expected: &LayerContents,
    found: &LayerContents,
) -> Result<(), Difference> {
    same_count(
        "the number of closed lines",
        expected.contours.len(),
        found.contours.len(),
    )?;
    same_count(
        "the number of open lines",
        expected.paths.len(),
        found.paths.len(),
    )?;
    same_count(
        "the number of circles",
        expected.circles.len(),
        found.circles.len(),
    )?;
    same_count(
        "the number of marked places",
        expected.spots.len(),
        found.spots.len(),
    )?;
    same_count("the number of words", expected.words, found.words)?;
    same_count(
        "the number of things that do not belong there",
        expected.foreign,
        found.foreign,
    )?;
    for (expected, found) in expected.contours.iter().zip(&found.contours) {
        between_contours(expected, found)?;
    }
    for (expected, found) in expected.paths.iter().zip(&found.paths) {
        between_paths(expected, found)?;
    }
    for (expected, found) in expected.circles.iter().zip(&found.circles) {
        same_place("the centre of a circle", expected.0, found.0)?;
        let slack = slack_of(expected.0, expected.1);
        same("a radius in mm", expected.1, found.1, slack)?;
    }
    for (&expected, &found) in expected.spots.iter().zip(&found.spots) {
        same_place("a marked place", expected, found)?;
    }
    Ok(())
}

/// What rounding does to a place on a curve of this size, at this distance from the origin.
fn slack_of(at: Point, radius: f64) -> f64 {
    let size = at.x.abs().max(at.y.abs()).max(radius);
    tolerance::READ_BACK + 64.0 * f64::EPSILON * size
}

fn same_place(what: &'static str, expected: Point, found: Point) -> Result<(), Difference> {
    let slack = slack_of(expected, 0.0);
    for (expected, found) in [(expected.x, found.x), (expected.y, found.y)] {
        same(what, expected, found, slack)?;
    }
    Ok(())
}

fn between_contours(expected: &Contour, found: &Contour) -> Result<(), Difference> {
    let length = expected.perimeter();
    let segments: Vec<&Segment> = expected.segments().collect();
    let slack = slack_of_all(&segments);
    same(
        "a length in mm",
        length,
        found.perimeter(),
        slack * (1.0 + length),
    )?;
    same(
        "an area in mm²",
        expected.signed_area(),
        found.signed_area(),
        slack * (1.0 + length),
    )?;
    same_bounds(expected.bounds(), found.bounds(), slack)?;
    along(&segments, &found.segments().collect::<Vec<_>>())
}

fn between_paths(expected: &Path, found: &Path) -> Result<(), Difference> {
    let segments: Vec<&Segment> = expected.segments().collect();
    let slack = slack_of_all(&segments);
    let length = expected.length();
    same(
        "a length in mm",
        length,
        found.length(),
        slack * (1.0 + length),
    )?;
    same_bounds(expected.bounds(), found.bounds(), slack)?;
    // a format whose arcs have one sense only turns a lone arc round
    let lone = segments.len() == 1 && found.pieces().len() == 1;
    let turned = lone && number::length(expected.start() - found.end()) <= slack;
    let found = if turned {
        found.reversed()
    } else {
        found.clone()
    };
    along(&segments, &found.segments().collect::<Vec<_>>())
}

fn same_bounds(expected: Rect, found: Rect, slack: f64) -> Result<(), Difference> {
    for (what, expected, found) in [
        ("the left end in mm", expected.x0, found.x0),
        ("the lower end in mm", expected.y0, found.y0),
        ("the right end in mm", expected.x1, found.x1),
        ("the upper end in mm", expected.y1, found.y1),
    ] {
        same(what, expected, found, slack)?;
    }
    Ok(())
}

fn radius_of(segment: &Segment) -> f64 {
    match segment {
        Segment::Line(_) => 0.0,
        Segment::Arc(arc) => arc.radius(),
    }
}

fn slack_of_all(segments: &[&Segment]) -> f64 {
    segments
        .iter()
        .map(|segment| slack_of(segment.start(), radius_of(segment)))
        .fold(0.0, f64::max)
}

/// Walks along both: each segment that should be there is one that is there, or several that follow
/// it (a long arc in two).
fn along(expected: &[&Segment], found: &[&Segment]) -> Result<(), Difference> {
    let mut rest = found.iter();
    let mut reached = None;
    for segment in expected {
        let slack = slack_of(segment.start(), radius_of(segment));
        loop {
            let Some(piece) = rest.next() else {
                let gap = reached.map_or(f64::INFINITY, |at| number::length(segment.end() - at));
                return same("the gap at the end of a line in mm", 0.0, gap, 0.0);
            };
            for fraction in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let at = piece.point_at(fraction);
                let off = number::length(segment.nearest_point(at) - at);
                same("the distance from the line in mm", 0.0, off, slack)?;
            }
            reached = Some(piece.end());
            if number::length(piece.end() - segment.end()) <= slack {
                break;
            }
        }
    }
    same_count("the number of edges left over", 0, rest.len())
}
