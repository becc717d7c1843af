//! Regions as polygons, and back.

use geo::Coord;
use geo::LineString;
use geo::Polygon;

use super::check_tolerance;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::number;

/// A region with chords for arcs, and what is known of it.
///
/// Every corner of the polygon lies on the edge of the region, and every end of a piece is a corner. The
/// two edges are nowhere farther apart than `deviation`. Where two edges of the region come nearer to
/// each other than twice that, the edges of the polygon may cross.
#[derive(Clone, Debug, PartialEq)]
pub struct Flattened {
    /// The polygon: the outer contour anticlockwise, the holes clockwise.
    pub polygon: Polygon<f64>,
    /// Greatest distance of a chord from its arc, in millimetres; 0 when there are no arcs.
    pub deviation: f64,
    /// Area of the polygon minus that of the region, in mm²: negative where bulging edges were cut
    /// short, positive where hollow ones were.
    pub area_gained: f64,
}

/// The region with equal chords for each arc, as few as stay within `tolerance` millimetres of it.
///
/// # Accuracy
/// A chord over an angle θ is off its arc by r(1 − cos θ/2) = 2r·sin²(θ/4) at most; no chord takes more
/// than a quarter turn.
///
/// # Errors
/// [`GeometryError::NotUsable`] for a tolerance below a nanometre or that is no number.
pub fn region_to_polygon(region: &Region, tolerance: f64) -> Result<Flattened, GeometryError> {
    check_tolerance(tolerance)?;
    let mut deviation = 0.0;
    let mut area_gained = 0.0;
    let mut ring = |contour: &Contour| {
        let mut corners: Vec<Coord<f64>> = Vec::new();
        for segment in contour.segments() {
            corners.push(coordinate(segment.start()));
            if let Segment::Arc(arc) = segment {
                let count = chord_count(arc, tolerance);
                for index in 1..count {
                    let at = arc.point_at(f64::from(index) / f64::from(count));
                    corners.push(coordinate(at));
                }
                let sweep = arc.sweep() / f64::from(count);
                deviation = f64::max(deviation, bow(arc.radius(), sweep));
                let lens = arc.radius() * arc.radius() / 2.0 * number::angle_minus_sine(sweep);
                area_gained -= f64::from(count) * lens;
            }
        }
        // closes itself
        LineString::new(corners)
    };
    let outer = ring(region.outer());
    let holes = region.holes().iter().map(&mut ring).collect();
    Ok(Flattened {
        polygon: Polygon::new(outer, holes),
        deviation,
        area_gained,
    })
}

/// The region bounded by the rings of the polygon. A corner that repeats the one before it exactly is
/// left out.
///
/// # Errors
/// As [`Contour::polygon`]. Whether rings cross is asked of [`validate`](crate::geometry::validate).
pub fn region_from_polygon(polygon: &Polygon<f64>) -> Result<Region, GeometryError> {
    let contour = |ring: &LineString<f64>| {
        let mut points: Vec<Point> = ring.0.iter().map(|at| Point::new(at.x, at.y)).collect();
        points.dedup();
        if points.len() > 1 && points.first() == points.last() {
            points.pop();
        }
        Contour::polygon(&points)
    };
    let holes: Result<Vec<Contour>, GeometryError> =
        polygon.interiors().iter().map(contour).collect();
    Ok(Region::new(contour(polygon.exterior())?, holes?))
}

const fn coordinate(point: Point) -> Coord<f64> {
    Coord {
        x: point.x,
        y: point.y,
    }
}

/// Height of an arc over its chord.
fn bow(radius: f64, sweep: f64) -> f64 {
    let quarter = number::sin(sweep / 4.0);
    2.0 * radius * quarter * quarter
}

/// How many equal chords, of no more than a quarter turn each, keep the tolerance.
fn chord_count(arc: &Arc, tolerance: f64) -> u32 {
    let widest = 4.0 * number::arcsin((tolerance / (2.0 * arc.radius())).sqrt());
    let step = widest.min(number::QUARTER_TURN);
    let count = (arc.sweep().abs() / step - 1e-9).ceil().max(1.0);
    // a tolerance of a nanometre on a kilometre asks for four million
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number between 1 and some millions"
    )]
    let count = count.min(1e8) as u32;
    count
}

#[cfg(test)]
mod tests {
    use geo::Area;

    use super::*;
    use crate::geometry::SourceId;

    fn circle(radius: f64) -> Contour {
        Contour::circle(Point::new(1e4, 0.0), radius, SourceId::UNTRACED).expect("a circle")
    }

    /// n = ceil(π / acos(1 − t/r)).
    #[test]
    fn as_many_chords_as_the_tolerance_asks_for() {
        for (radius, tolerance, corners) in [(100.0, 0.01, 223), (500.0, 0.05, 223), (1.0, 5.0, 4)]
        {
            let disc = Region::new(circle(radius), vec![]);
            let flat = region_to_polygon(&disc, tolerance).expect("a tolerance");
            assert_eq!(
                flat.polygon.exterior().0.len(),
                corners + 1,
                "{radius}, {tolerance}"
            );
            assert!(
                flat.deviation <= tolerance,
                "{} over {tolerance}",
                flat.deviation
            );
        }
    }

    #[test]
    fn the_area_gained_is_what_the_polygon_says() {
        let ring = Region::new(circle(50.0), vec![circle(30.0)]);
        let flat = region_to_polygon(&ring, 0.01).expect("a tolerance");
        // areas about the origin lose digits 10 m away: geo shifts to the first corner, as we do
        let gained = flat.polygon.unsigned_area() - ring.area();
        assert!(
            (gained - flat.area_gained).abs() < 1e-8,
            "{gained} for {}",
            flat.area_gained
        );
        assert!(
            flat.deviation > 0.0 && flat.deviation <= 0.01,
            "{}",
            flat.deviation
        );
        let back = region_from_polygon(&flat.polygon).expect("a region");
        assert_eq!(back.holes().len(), 1, "one hole");
        assert!(
            (back.area() - flat.polygon.unsigned_area()).abs() < 1e-8,
            "area"
        );
    }

    #[test]
    fn polygons_there_and_back() {
        let corners = [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)].map(Point::from);
        let plate = Region::new(Contour::polygon(&corners).expect("closed"), vec![]);
        let flat = region_to_polygon(&plate, 0.01).expect("a tolerance");
        assert_eq!((flat.deviation, flat.area_gained), (0.0, 0.0), "no arcs");
        assert_eq!(
            region_from_polygon(&flat.polygon),
            Ok(plate),
            "the same again"
        );
        let empty = Polygon::new(LineString::new(vec![]), vec![]);
        assert!(region_from_polygon(&empty).is_err(), "no corners");
        assert!(
            region_to_polygon(&Region::new(circle(1.0), vec![]), 0.0).is_err(),
            "no tolerance"
        );
    }
}
