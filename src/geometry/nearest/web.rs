//! The narrowest web of a region.

use super::segments;
use super::segments::Nearest;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::intersect;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::geometry::validate::Place;
use crate::geometry::validate::region_contains;

/// The narrowest place of a region.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Web {
    /// It grows narrower nowhere but towards its corners: a disc, a triangle.
    None,
    /// Its width there and the two points of the edge; the straight way between them is all material.
    At(Nearest),
}

/// The narrowest web: the least width, through material, between two places of the edge that face each
/// other, where the material widens, or stays as wide, to both sides. A strip that tapers towards an
/// end has no web there: ask for its [width at a station](super::width_at).
///
/// # Accuracy
/// Exact up to rounding for webs between lines, arcs and inside corners. Walls off parallel by less than
/// [`tolerance::SAME_WALL`] count as parallel, and their width is taken midway.
///
/// # Source
/// Closed form: at a least width the connection is normal to both walls (or ends in a corner), and its
/// second variation is not negative.
pub fn narrowest_web(region: &Region) -> Web {
    let edge = Edge::new(region);
    let mut best: Option<Nearest> = None;
    for index in 0..edge.pieces.len() {
        search_from(region, &edge, index, &mut best);
    }
    best.map_or(Web::None, Web::At)
}

/// The narrowest web below a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Below {
    /// Its width and its ends, if there is one.
    pub web: Option<Nearest>,
    /// Whether all of the edge was looked at: where a great many pieces lie within the limit of each other,
    /// the search ends early.
    pub finished: bool,
}

/// Pairs of pieces looked at in [`narrowest_web_below`], at most.
const MOST_PAIRS: usize = 1_000_000;

/// The narrowest web, as [`narrowest_web`], if it is below a limit. It looks only at what lies that near, so
/// that the time hardly grows faster than the number of edges.
///
/// # Accuracy
/// As [`narrowest_web`].
pub fn narrowest_web_below(region: &Region, limit: f64) -> Below {
    let edge = Edge::new(region);
    let mut best: Option<Nearest> = None;
    let mut looked = 0;
    for (index, first) in edge.pieces.iter().enumerate() {
        let reach = best.map_or(limit, |web| web.distance);
        for other in edge.tree.near(first.here.bounds(), reach) {
            let Some(second) = edge.pieces.get(other).filter(|_| other > index) else {
                continue;
            };
            if looked == MOST_PAIRS {
                return Below {
                    web: best,
                    finished: false,
                };
            }
            looked += 1;
            look_at(region, &edge, (first, second), limit, &mut best);
        }
    }
    Below {
        web: best,
        finished: true,
    }
}

/// The pieces of all contours in a row, with who comes before and after.
struct Edge<'a> {
    pieces: Vec<Neighbours<'a>>,
    tree: SegmentTree<'a>,
}

struct Neighbours<'a> {
    before: &'a Segment,
    here: &'a Segment,
    after: &'a Segment,
}

impl<'a> Edge<'a> {
    fn new(region: &'a Region) -> Self {
        let mut pieces = Vec::new();
        for contour in region.contours() {
            let count = contour.pieces().len();
            let before = contour.pieces().iter().cycle().skip(count - 1);
            let after = contour.pieces().iter().cycle().skip(1);
            for ((before, here), after) in before.zip(contour.segments()).zip(after) {
                pieces.push(Neighbours {
                    before: &before.segment,
                    here,
                    after: &after.segment,
                });
            }
        }
        let tree = SegmentTree::new(region.contours().flat_map(Contour::segments));
        Self { pieces, tree }
    }
}

/// Looks for webs from one piece to those after it in the row that could be nearer than the best.
fn search_from(region: &Region, edge: &Edge<'_>, index: usize, best: &mut Option<Nearest>) {
    let Some(first) = edge.pieces.get(index) else {
        return;
    };
    let bounds = first.here.bounds();
    let reach = number::length(bounds.size().to_vec2()) / 2.0;
    for (other, distance) in edge.tree.by_distance(bounds.center()) {
        let limit = best.map_or(f64::INFINITY, |web| web.distance);
        if distance - reach > limit {
            break;
        }
        let Some(second) = edge.pieces.get(other).filter(|_| other > index) else {
            continue;
        };
        look_at(region, edge, (first, second), f64::INFINITY, best);
    }
}

/// Takes a web between two pieces that is narrower than the best, or than the limit as long as there is none.
fn look_at(
    region: &Region,
    edge: &Edge<'_>,
    (first, second): (&Neighbours<'_>, &Neighbours<'_>),
    limit: f64,
    best: &mut Option<Nearest>,
) {
    for (p, q) in candidates(first.here, second.here) {
        let web = Nearest::of(p, q);
        let limit = best.map_or(limit, |web| web.distance);
        if web.distance < limit
            && is_least(first, second, &web)
            && runs_through_material(region, &edge.tree, &web)
        {
            *best = Some(web);
        }
    }
}

/// Pairs of points among which a least width must be.
fn candidates(first: &Segment, second: &Segment) -> Vec<(Point, Point)> {
    let mut pairs = segments::common_normals(first, second);
    for one in [first.start(), first.end()] {
        pairs.extend([second.start(), second.end()].map(|other| (one, other)));
    }
    // each end or middle with the nearest point of the other; midway along what lies side by side
    let feet = |of: &Segment, on: &Segment| {
        let (a, b) = (on.nearest_point(of.start()), on.nearest_point(of.end()));
        [
            of.start(),
            of.end(),
            of.point_at(0.5),
            of.nearest_point(a.midpoint(b)),
        ]
    };
    pairs.extend(feet(first, second).map(|p| (p, second.nearest_point(p))));
    pairs.extend(feet(second, first).map(|q| (first.nearest_point(q), q)));
    pairs
}

/// Whether the width is least at this place, to first and second order.
fn is_least(first: &Neighbours<'_>, second: &Neighbours<'_>, web: &Nearest) -> bool {
    let width = web.distance;
    let Some(across) = number::normalized(web.on_second - web.on_first) else {
        return false;
    };
    let (Some(one), Some(other)) = (
        facing(first, web.on_first, across),
        facing(second, web.on_second, -across),
    ) else {
        return false;
    };
    let slack = -tolerance::SAME_WALL;
    match (one, other) {
        (Wall::Corner, Wall::Corner) => true,
        (Wall::Corner, Wall::Curve(bend)) | (Wall::Curve(bend), Wall::Corner) => {
            1.0 - bend * width >= slack
        }
        (Wall::Curve(a), Wall::Curve(b)) => {
            let (a, b) = (a * width, b * width);
            1.0 - a >= slack && 1.0 - b >= slack && a * b - a - b >= slack
        }
    }
}

/// What stands at one end of a width.
enum Wall {
    /// An edge square to it, with its curvature, positive where the material is convex.
    Curve(f64),
    /// A corner of the void that points into the material.
    Corner,
}

/// Whether, moving the end of the width along the edge, the width cannot shrink to first order.
fn facing(edge: &Neighbours<'_>, point: Point, across: Vec2) -> Option<Wall> {
    let near = |end: Point| number::length(point - end) <= tolerance::SAME_POINT;
    let (arriving, leaving) = if near(edge.here.start()) {
        (edge.before.direction_at(1.0), edge.here.direction_at(0.0))
    } else if near(edge.here.end()) {
        (edge.here.direction_at(1.0), edge.after.direction_at(0.0))
    } else {
        let direction = direction_at_point(edge.here, point);
        (direction, direction)
    };
    // material is on the left; the way of a gap leaves to the right
    let gap = |travel: Vec2| travel.cross(across) < -tolerance::SAME_WALL;
    if gap(arriving) && gap(leaving) {
        return None;
    }
    let shrinks =
        leaving.dot(across) > tolerance::SAME_WALL || arriving.dot(across) < -tolerance::SAME_WALL;
    if shrinks {
        return None;
    }
    let square = leaving.dot(across).abs() <= tolerance::SAME_WALL
        || arriving.dot(across).abs() <= tolerance::SAME_WALL;
    Some(if square {
        Wall::Curve(edge.here.curvature())
    } else {
        Wall::Corner
    })
}

fn direction_at_point(segment: &Segment, point: Point) -> Vec2 {
    match segment {
        Segment::Line(line) => line.direction(),
        Segment::Arc(arc) => {
            let normal = number::left_normal(point - arc.centre()) * arc.turn().sign();
            number::normalized(normal).unwrap_or(Vec2::ZERO)
        }
    }
}

fn runs_through_material(region: &Region, tree: &SegmentTree<'_>, web: &Nearest) -> bool {
    let way = Segment::line(web.on_first, web.on_second);
    if region_contains(region, way.point_at(0.5)) != Place::Inside {
        return false;
    }
    let near = tree.near(way.bounds(), tolerance::SAME_POINT);
    near.into_iter().all(|index| {
        tree.segment(index).is_none_or(|segment| {
            intersect::meet(&way, segment).nodes().all(|node| {
                let from_end = node.on_first.min(1.0 - node.on_first) * web.distance;
                from_end <= tolerance::SHORTEST_SEGMENT
            })
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;
    use crate::geometry::Motion;
    use crate::geometry::SourceId;
    use crate::geometry::Turn;

    fn polygon(points: &[(f64, f64)]) -> Contour {
        let points: Vec<Point> = points.iter().map(|&at| at.into()).collect();
        Contour::polygon(&points).expect("closed")
    }

    fn circle(x: f64, y: f64, radius: f64) -> Contour {
        Contour::circle(Point::new(x, y), radius, SourceId::UNTRACED).expect("a circle")
    }

    fn assert_web(region: &Region, expected: Option<f64>) {
        for limit in [0.5, 0.999, 1.001, 20.0] {
            let limit = limit * expected.unwrap_or(10.0);
            let below = narrowest_web_below(region, limit);
            let width = expected.filter(|width| *width < limit);
            assert!(below.finished, "few edges");
            match (below.web, width) {
                (None, None) => {}
                (Some(web), Some(width)) => {
                    assert!((web.distance - width).abs() < 1e-9, "{web:?} for {width}");
                }
                (found, width) => panic!("{found:?} for {width:?} below {limit}"),
            }
        }
        for motion in [
            Motion::IDENTITY,
            Motion::turn(0.8).then(&Motion::shift(Vec2::new(7e3, -7e3))),
            Motion::mirror_left_right(),
        ] {
            match (narrowest_web(&motion.region(region)), expected) {
                (Web::None, None) => {}
                (Web::At(web), Some(width)) => assert!(
                    (web.distance - width).abs() < 1e-9,
                    "{web:?} for {width} under {motion:?}"
                ),
                (web, expected) => panic!("{web:?} for {expected:?} under {motion:?}"),
            }
        }
    }

    #[test]
    fn shapes_without_a_web() {
        assert_web(&Region::new(circle(0.0, 0.0, 10.0), vec![]), None);
        let triangle = polygon(&[(0.0, 0.0), (30.0, 0.0), (10.0, 20.0)]);
        assert_web(&Region::new(triangle, vec![]), None);
    }

    #[test]
    fn strips_rings_and_holes() {
        let plate = || polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)]);
        assert_web(&Region::new(plate(), vec![]), Some(50.0));
        assert_web(
            &Region::new(plate(), vec![circle(50.0, 20.0, 10.0)]),
            Some(10.0),
        );
        let two = vec![circle(40.0, 25.0, 10.0), circle(66.0, 25.0, 12.0)];
        assert_web(&Region::new(plate(), two), Some(4.0));
        let ring = Region::new(circle(0.0, 0.0, 50.0), vec![circle(0.0, 0.0, 30.0)]);
        assert_web(&ring, Some(20.0));
        let eccentric = Region::new(circle(0.0, 0.0, 50.0), vec![circle(5.0, 0.0, 30.0)]);
        assert_web(&eccentric, Some(15.0));
    }

    #[test]
    fn necks_between_corners_and_between_a_corner_and_a_wall() {
        // two notches whose corners point at each other, 3-4-5 apart
        let waist = polygon(&[
            (0.0, 0.0),
            (40.0, 0.0),
            (50.0, 18.0),
            (60.0, 0.0),
            (100.0, 0.0),
            (100.0, 50.0),
            (63.0, 50.0),
            (53.0, 22.0),
            (43.0, 50.0),
            (0.0, 50.0),
        ]);
        assert_web(&Region::new(waist, vec![]), Some(5.0));
        // one notch against a straight edge
        let notched = polygon(&[
            (0.0, 0.0),
            (40.0, 0.0),
            (50.0, 41.0),
            (60.0, 0.0),
            (100.0, 0.0),
            (100.0, 50.0),
            (0.0, 50.0),
        ]);
        assert_web(&Region::new(notched, vec![]), Some(9.0));
        // the arms of an L are 10 and 12 wide, 10·√… from the inside corner does not count
        let bracket = polygon(&[
            (0.0, 0.0),
            (60.0, 0.0),
            (60.0, 10.0),
            (12.0, 10.0),
            (12.0, 70.0),
            (0.0, 70.0),
        ]);
        assert_web(&Region::new(bracket, vec![]), Some(10.0));
    }

    #[test]
    fn a_waist_between_two_hollow_edges() {
        // a bar with both long edges hollowed by 30 mm radii, 8 mm apart at the waist
        let hollow = |from: Point, to: Point| {
            Segment::Arc(Arc::with_radius(from, to, 30.0, Turn::Clockwise).expect("fits"))
        };
        let (a, b) = (Point::new(-20.0, 0.0), Point::new(20.0, 0.0));
        let depth = 30.0 - 500.0_f64.sqrt();
        let height = 2.0 * depth + 8.0;
        let (c, d) = (Point::new(20.0, height), Point::new(-20.0, height));
        let bar = Contour::from_segments([
            hollow(a, b),
            Segment::line(b, c),
            hollow(c, d),
            Segment::line(d, a),
        ]);
        assert_web(&Region::new(bar.expect("closed"), vec![]), Some(8.0));
    }
}
