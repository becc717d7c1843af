//! Path strings, in full precision.

use std::fmt::Write;

use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::number;
use crate::sheet::number::trimmed;

/// Decimals of a millimetre written: rounding moves nothing by more than 5e-11 mm.
const DECIMALS: usize = 10;

/// A number of millimetres, without trailing zeros.
pub(super) fn millimetres(value: f64) -> String {
    trimmed(value, DECIMALS)
}

/// The closed path of a contour.
pub(super) fn of_contour(contour: &Contour) -> String {
    let mut data = of_segments(contour.segments());
    data.push('Z');
    data
}

/// The open path of a path.
pub(super) fn of_path(path: &Path) -> String {
    of_segments(path.segments())
}

fn of_segments<'a>(segments: impl Iterator<Item = &'a Segment>) -> String {
    let mut data = String::new();
    for segment in segments {
        if data.is_empty() {
            push(&mut data, 'M', segment.start());
        }
        match segment {
            Segment::Line(line) => push(&mut data, 'L', line.end),
            Segment::Arc(arc) => push_arc(&mut data, arc),
        }
    }
    data
}

/// A command with one point. The y axis of the format points down, ours up.
fn push(data: &mut String, command: char, point: Point) {
    // writing to a string cannot fail
    let _ = write!(
        data,
        "{command}{} {}",
        millimetres(point.x),
        millimetres(-point.y)
    );
}

/// The format gives an arc by its ends and radius, and leaves the centre to the reader. Near half a
/// turn and near a whole one a last digit moves that centre a long way, so such arcs are written in
/// parts.
fn push_arc(data: &mut String, arc: &Arc) {
    /// Within this of half a turn, the centre is lost in rounding (radians).
    const NEAR_HALF: f64 = 0.2;
    let sweep = arc.sweep().abs();
    let parts: u32 = if sweep > number::FULL_TURN - 2.0 * NEAR_HALF {
        3 // halves would be near half a turn
    } else if (sweep - number::HALF_TURN).abs() < NEAR_HALF {
        2
    } else {
        1
    };
    let radius = millimetres(arc.radius());
    let large = u8::from(sweep / f64::from(parts) > number::HALF_TURN);
    // 1 is the direction of growing angles with y down, which looks clockwise
    let clockwise = u8::from(arc.turn() == Turn::Clockwise);
    for part in 1..=parts {
        let end = arc.point_at(f64::from(part) / f64::from(parts));
        let (x, y) = (millimetres(end.x), millimetres(-end.y));
        let _ = write!(data, "A{radius} {radius} 0 {large} {clockwise} {x} {y}");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn data_of(arc: Arc) -> String {
        of_segments([Segment::Arc(arc)].iter())
    }

    #[test]
    fn flags_of_the_four_quarter_arcs_are_those_of_the_specification() {
        // SVG 1.1, appendix F.6: from (10, 0) to (0, 10), r = 10, y down. Ours is y up, so the
        // ends are (10, 0) and (0, −10): centre (0, 0) clockwise is flags 0 1, the long way 1 0
        let (start, end) = (Point::new(10.0, 0.0), Point::new(0.0, -10.0));
        let far = Point::new(10.0, -10.0);
        for (centre, turn, flags) in [
            (Point::ORIGIN, Turn::Clockwise, "0 1"),
            (Point::ORIGIN, Turn::Anticlockwise, "1 0"),
            (far, Turn::Anticlockwise, "0 0"),
            (far, Turn::Clockwise, "1 1"),
        ] {
            let arc = Arc::from_centre(start, end, centre, turn);
            assert_eq!(
                data_of(arc),
                format!("M10 0A10 10 0 {flags} 0 10"),
                "arc about {centre:?}, {turn:?}"
            );
        }
    }

    #[test]
    fn arcs_whose_centre_a_reader_would_lose_are_parted() {
        for (sweep, arcs) in [
            (2.9, 1),
            (-3.3, 2),
            (number::HALF_TURN, 2),
            (6.25, 3),
            (5.0, 1),
        ] {
            let arc = Arc::from_angles(Point::new(3.0, 4.0), 7.0, 0.4, sweep);
            let found = data_of(arc).matches('A').count();
            assert_eq!(found, arcs, "arcs for a sweep of {sweep}");
        }
    }

    #[test]
    fn numbers_are_plain_and_exact_to_ten_decimals() {
        for (value, text) in [
            (0.1, "0.1"),
            (-0.0, "0"),
            (1_234.567_890_123_45, "1234.5678901235"),
            (1e-12, "0"),
            (-2.5, "-2.5"),
        ] {
            assert_eq!(millimetres(value), text, "{value:e}");
        }
    }
}
