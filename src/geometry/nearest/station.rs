//! The width of a region where a straight line crosses it.

use crate::geometry::Contour;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::intersect;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::geometry::validate::Place;
use crate::geometry::validate::region_contains;

/// What a straight line meets of a region.
#[derive(Clone, Debug, PartialEq)]
pub enum Station {
    /// Nothing.
    Misses,
    /// The edge in one point, without entering.
    Touches(Point),
    /// It crosses, or runs along an edge.
    Crosses {
        /// From the first to the last point of the region on the line, in the direction asked for.
        outermost: Line,
        /// The stretches of the line within the material, in order; none when the line only runs along
        /// an edge.
        metal: Vec<Line>,
    },
}

impl Station {
    /// Width over the outermost crossings in millimetres, openings and bays included; 0 when the line
    /// misses or touches.
    pub fn width(&self) -> f64 {
        match self {
            Self::Misses | Self::Touches(_) => 0.0,
            Self::Crosses { outermost, .. } => outermost.length(),
        }
    }

    /// Width of the material alone, in millimetres.
    pub fn metal_width(&self) -> f64 {
        match self {
            Self::Misses | Self::Touches(_) => 0.0,
            Self::Crosses { metal, .. } => metal.iter().map(Line::length).sum(),
        }
    }
}

/// What the infinite line through `at` along `across` meets of the region.
///
/// # Accuracy
/// As [`intersect::meet`]: a few units in the last place where the line crosses at a clear angle.
pub fn width_at(region: &Region, at: Point, across: Vec2) -> Station {
    let Some(direction) = number::normalized(across) else {
        return Station::Misses;
    };
    let line = line_over(region.bounds(), at, direction);
    let length = line.length();
    let whole = Segment::Line(line);
    let mut crossings: Vec<(f64, Point)> = Vec::new();
    for segment in region.contours().flat_map(Contour::segments) {
        let nodes = intersect::meet(&whole, segment).nodes();
        crossings.extend(nodes.map(|node| (node.on_first * length, node.point)));
    }
    crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
    crossings.dedup_by(|later, earlier| later.0 - earlier.0 <= 2.0 * tolerance::SAME_POINT);
    match crossings.as_slice() {
        [] => Station::Misses,
        [(_, only)] => Station::Touches(*only),
        [(_, first), .., (_, last)] => Station::Crosses {
            outermost: Line::new(*first, *last),
            metal: metal_between(region, &crossings),
        },
    }
}

fn metal_between(region: &Region, crossings: &[(f64, Point)]) -> Vec<Line> {
    let mut metal: Vec<Line> = Vec::new();
    for pair in crossings.windows(2) {
        let [(_, from), (_, to)] = pair else {
            continue;
        };
        if region_contains(region, from.midpoint(*to)) != Place::Inside {
            continue;
        }
        match metal.last_mut() {
            // the line passed a point where it only touches the edge
            Some(last) if last.end == *from => last.end = *to,
            _ => metal.push(Line::new(*from, *to)),
        }
    }
    metal
}

/// The part of the infinite line that can meet anything within the bounds.
fn line_over(bounds: Rect, at: Point, direction: Vec2) -> Line {
    let corners = [
        (bounds.x0, bounds.y0),
        (bounds.x1, bounds.y0),
        (bounds.x1, bounds.y1),
        (bounds.x0, bounds.y1),
    ];
    let along = corners.map(|corner| direction.dot(Point::from(corner) - at));
    let low = along.into_iter().fold(f64::INFINITY, f64::min) - 1.0;
    let high = along.into_iter().fold(f64::NEG_INFINITY, f64::max) + 1.0;
    Line::new(at + direction * low, at + direction * high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::SourceId;

    fn plate() -> Region {
        let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)].map(Point::from);
        let hole = Contour::circle(Point::new(30.0, 25.0), 10.0, SourceId::UNTRACED);
        Region::new(
            Contour::polygon(&corners).expect("closed"),
            vec![hole.expect("a circle")],
        )
    }

    #[test]
    fn widths_through_beside_and_along() {
        let upright = Vec2::new(0.0, 3.0);
        let at = |x: f64| width_at(&plate(), Point::new(x, -400.0), upright);
        for (x, width, metal) in [
            (30.0, 50.0, 30.0),
            (36.0, 50.0, 34.0),
            (60.0, 50.0, 50.0),
            // touches the hole
            (40.0, 50.0, 50.0),
            // runs along the edge
            (0.0, 50.0, 0.0),
            (-1.0, 0.0, 0.0),
        ] {
            let station = at(x);
            assert!((station.width() - width).abs() < 1e-12, "{x}: {station:?}");
            assert!(
                (station.metal_width() - metal).abs() < 1e-12,
                "{x}: {station:?}"
            );
        }
        assert_eq!(at(101.0), Station::Misses, "beside the plate");
        let corner = width_at(&plate(), Point::ORIGIN, Vec2::new(1.0, -1.0));
        assert_eq!(corner, Station::Touches(Point::ORIGIN), "over a corner");
    }
}
