//! Distances to verify with a rule before the pattern is glued on.

use super::joints::Lining;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;

/// A place on the outline with a letter, or the centre of a hole with its name.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct CheckPoint {
    pub(super) name: String,
    pub(super) at: Point,
    /// Off the material; `None` for the centre of a hole.
    pub(super) out: Option<Vec2>,
}

/// A distance to verify.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Check {
    pub(super) what: &'static str,
    pub(super) between: String,
    pub(super) distance: f64,
    pub(super) ends: (Point, Point),
}

/// Points nearer than this to one another are one to a rule, in millimetres.
const ONE_POINT: f64 = 0.5;

/// A cross-check shorter than this says little, in millimetres.
const SHORTEST: f64 = 15.0;

/// The check points and distances of one part; letters go on from those of the parts before.
pub(super) fn of_part(part: &Part, lining: &Lining, first: usize) -> (Vec<CheckPoint>, Vec<Check>) {
    let outer = part.region.outer();
    let mut points = Vec::new();
    let slant = std::f64::consts::FRAC_1_SQRT_2;
    let mut extreme = |x: f64, y: f64, tie: Vec2| {
        let out = Vec2::new(x, y);
        point_at(&mut points, farthest(outer, out, tie), out, first)
    };
    let (low, left) = (Vec2::new(0.0, -1.0), Vec2::new(-1.0, 0.0));
    let (west, east) = (extreme(-1.0, 0.0, low), extreme(1.0, 0.0, low));
    let (south, north) = (extreme(0.0, -1.0, left), extreme(0.0, 1.0, left));
    let (south_west, north_east) = (extreme(-slant, -slant, low), extreme(slant, slant, low));
    let (north_west, south_east) = (extreme(-slant, slant, low), extreme(slant, -slant, low));
    let across = straight_over(outer, &mut points, (west, east), first);
    let turned = crate::geometry::Motion::turn(-number::QUARTER_TURN).contour(outer);
    let up = straight_up(&turned, &mut points, (south, north), first);
    points.extend(hole_centres(part));
    let mut used: Vec<(usize, usize)> = Vec::new();
    let mut checks = Vec::new();
    let overall = outer.bounds();
    for (what, from, to) in [
        (
            named(
                &points,
                across,
                overall.width(),
                ["overall, left to right", "level, less than overall"],
            ),
            across.0,
            across.1,
        ),
        (
            named(
                &points,
                up,
                overall.height(),
                ["overall, bottom to top", "upright, less than overall"],
            ),
            up.0,
            up.1,
        ),
        ("diagonal, rising", south_west, north_east),
        ("diagonal, falling", north_west, south_east),
    ] {
        add(&points, &mut checks, &mut used, what, (from, to));
    }
    checks.extend(widths(outer, &turned, lining));
    for _ in 0..2 {
        if let Some(pair) = cross_pair(&points, &used) {
            add(&points, &mut checks, &mut used, "cross-check", pair);
        }
    }
    (points, checks)
}

/// What a distance is called: overall only if it is so long, to what a rule shows.
fn named(
    points: &[CheckPoint],
    (from, to): (usize, usize),
    overall: f64,
    [whole, part]: [&'static str; 2],
) -> &'static str {
    let ends = points.get(from).zip(points.get(to));
    let distance = ends.map_or(0.0, |(a, b)| number::length(b.at - a.at));
    if overall - distance <= tolerance::SHOWN_BY_A_RULE {
        whole
    } else {
        part
    }
}

/// The farthest points to the left and right, each with the point of the outline straight over from it:
/// the wider of the two pairs, which is the overall width wherever one of the sides is straight.
fn straight_over(
    outer: &Contour,
    points: &mut Vec<CheckPoint>,
    (west, east): (usize, usize),
    first: usize,
) -> (usize, usize) {
    let crossed = |points: &[CheckPoint], index: usize| {
        let y = points.get(index)?.at.y;
        crossings(outer, y).map(|(from, to)| (from, to, y))
    };
    let pairs = [crossed(points, west), crossed(points, east)];
    let [over_west, over_east] = pairs;
    let span = |pair: Option<(f64, f64, f64)>| pair.map_or(0.0, |(from, to, _)| to - from);
    let right = Vec2::new(1.0, 0.0);
    if span(over_east) >= span(over_west)
        && let Some((from, _, y)) = over_east
    {
        let west = point_at(points, Point::new(from, y), right * -1.0, first);
        return (west, east);
    }
    if let Some((_, to, y)) = over_west {
        let east = point_at(points, Point::new(to, y), right, first);
        return (west, east);
    }
    (west, east)
}

/// The same upwards; `turned` is the contour turned clockwise by a quarter, so that (x, y) lies at
/// (y, −x).
fn straight_up(
    turned: &Contour,
    points: &mut Vec<CheckPoint>,
    (south, north): (usize, usize),
    first: usize,
) -> (usize, usize) {
    let crossed = |points: &[CheckPoint], index: usize| {
        let x = points.get(index)?.at.x;
        crossings(turned, -x).map(|(from, to)| (from, to, x))
    };
    let (over_south, over_north) = (crossed(points, south), crossed(points, north));
    let span = |pair: Option<(f64, f64, f64)>| pair.map_or(0.0, |(from, to, _)| to - from);
    let up = Vec2::new(0.0, 1.0);
    if span(over_north) >= span(over_south)
        && let Some((from, _, x)) = over_north
    {
        let south = point_at(points, Point::new(x, from), up * -1.0, first);
        return (south, north);
    }
    if let Some((_, to, x)) = over_south {
        let north = point_at(points, Point::new(x, to), up, first);
        return (south, north);
    }
    (south, north)
}

fn add(
    points: &[CheckPoint],
    checks: &mut Vec<Check>,
    used: &mut Vec<(usize, usize)>,
    what: &'static str,
    (from, to): (usize, usize),
) {
    let pair = (from.min(to), from.max(to));
    let (Some(a), Some(b)) = (points.get(from), points.get(to)) else {
        return;
    };
    if used.contains(&pair) || from == to {
        return;
    }
    used.push(pair);
    checks.push(Check {
        what,
        between: format!("{} to {}", a.name, b.name),
        distance: number::length(b.at - a.at),
        ends: (a.at, b.at),
    });
}

/// The longest pair not used yet; one with the centre of a hole before any other.
fn cross_pair(points: &[CheckPoint], used: &[(usize, usize)]) -> Option<(usize, usize)> {
    let mut best: Option<((bool, f64), (usize, usize))> = None;
    for (from, a) in points.iter().enumerate() {
        for (to, b) in points.iter().enumerate().skip(from + 1) {
            let distance = number::length(b.at - a.at);
            if used.contains(&(from, to)) || distance < SHORTEST {
                continue;
            }
            let key = (a.out.is_none() || b.out.is_none(), distance);
            if best.is_none_or(|(other, _)| key > other) {
                best = Some((key, (from, to)));
            }
        }
    }
    best.map(|(_, pair)| pair)
}

fn point_at(points: &mut Vec<CheckPoint>, at: Point, out: Vec2, first: usize) -> usize {
    let near = |point: &CheckPoint| number::length(point.at - at) < ONE_POINT;
    if let Some(index) = points.iter().position(near) {
        return index;
    }
    points.push(CheckPoint {
        name: letter(first + points.len()),
        at,
        out: Some(out),
    });
    points.len() - 1
}

/// a to z, then aa, ab and so on.
fn letter(index: usize) -> String {
    let letter = |index: usize| char::from(b'a' + u8::try_from(index % 26).unwrap_or(0));
    if index < 26 {
        letter(index).to_string()
    } else {
        format!("{}{}", letter(index / 26 - 1), letter(index))
    }
}

fn hole_centres(part: &Part) -> impl Iterator<Item = CheckPoint> + '_ {
    part.openings.iter().filter_map(|opening| {
        let OpeningShape::Circle { centre, .. } = opening.shape else {
            return None;
        };
        Some(CheckPoint {
            name: format!("centre of {}", opening.name),
            at: centre,
            out: None,
        })
    })
}

/// The point of a contour farthest in a direction; of several the one farthest in `tie`.
///
/// # Accuracy
/// Exact: ends of segments, and where an arc's normal has the direction.
fn farthest(contour: &Contour, out: Vec2, tie: Vec2) -> Point {
    let mut best: Option<(f64, f64, Point)> = None;
    let mut offer = |point: Point| {
        let (far, second) = (point.to_vec2().dot(out), point.to_vec2().dot(tie));
        let better = best.is_none_or(|(other, other_second, _)| {
            far > other + tolerance::SAME_POINT
                || (far > other - tolerance::SAME_POINT && second > other_second)
        });
        if better {
            best = Some((far, second, point));
        }
    };
    for segment in contour.segments() {
        offer(segment.start());
        if let Segment::Arc(arc) = segment {
            let extreme = arc.centre() + out * arc.radius();
            if arc.fraction_towards(extreme).is_some() {
                offer(extreme);
            }
        }
    }
    best.map_or(Point::ORIGIN, |(_, _, point)| point)
}

/// Widths along the lining-up lines nearest the middle each way, from outline to outline; `turned` is
/// the contour turned clockwise by a quarter.
fn widths(outer: &Contour, turned: &Contour, lining: &Lining) -> Vec<Check> {
    let middle = outer.bounds().center();
    let mut checks = Vec::new();
    let levels = lining
        .levels
        .iter()
        .filter_map(|line| Some((line, crossings(outer, line.at)?)));
    let off = |at: f64, middle: f64| (at - middle).abs();
    let nearest =
        levels.min_by(|(a, _), (b, _)| off(a.at, middle.y).total_cmp(&off(b.at, middle.y)));
    if let Some((line, (from, to))) = nearest {
        checks.push(Check {
            what: "width, left to right",
            between: format!("outline to outline along {}", line.short),
            distance: to - from,
            ends: (Point::new(from, line.at), Point::new(to, line.at)),
        });
    }
    let uprights = lining
        .uprights
        .iter()
        .filter_map(|line| Some((line, crossings(turned, -line.at)?)));
    let nearest =
        uprights.min_by(|(a, _), (b, _)| off(a.at, middle.x).total_cmp(&off(b.at, middle.x)));
    if let Some((line, (from, to))) = nearest {
        checks.push(Check {
            what: "width, bottom to top",
            between: format!("outline to outline along {}", line.short),
            distance: to - from,
            ends: (Point::new(line.at, from), Point::new(line.at, to)),
        });
    }
    checks
}

/// First and last x at which a contour crosses the height y; `None` if it does not twice.
///
/// # Accuracy
/// Exact (closed form for lines and circles).
fn crossings(contour: &Contour, y: f64) -> Option<(f64, f64)> {
    let mut found: Vec<f64> = Vec::new();
    for segment in contour.segments() {
        match segment {
            Segment::Line(line) => {
                let (from, to) = (line.start.y - y, line.end.y - y);
                if from * to <= 0.0 && from != to {
                    found.push(line.point_at(from / (from - to)).x);
                }
            }
            Segment::Arc(arc) => {
                let up = y - arc.centre().y;
                let square = (arc.radius() - up) * (arc.radius() + up);
                if square < 0.0 {
                    continue;
                }
                for x in [
                    arc.centre().x - square.sqrt(),
                    arc.centre().x + square.sqrt(),
                ] {
                    if arc.fraction_towards(Point::new(x, y)).is_some() {
                        found.push(x);
                    }
                }
            }
        }
    }
    let first = found.iter().copied().reduce(f64::min)?;
    let last = found.iter().copied().reduce(f64::max)?;
    (last - first > ONE_POINT).then_some((first, last))
}

/// The distances as a list, with room for what the rule says.
pub(super) fn table(checks: &[(String, Check)], unit: LengthUnit) -> Table {
    let several = checks
        .iter()
        .any(|(part, _)| checks.first().is_some_and(|(first, _)| part != first));
    let mut table = Table::new(
        "Check with a steel rule before gluing",
        vec![
            Column::words("what", "what"),
            Column::words("between", "between"),
            Column::numbers("should be", "distance"),
            Column::numbers("read", "read"),
        ],
    );
    for (part, check) in checks {
        let what = if several {
            format!("{part}: {}", check.what)
        } else {
            check.what.to_owned()
        };
        table.row(vec![
            what.into(),
            check.between.clone().into(),
            Quantity::length(check.distance, unit).into(),
            Cell::Blank,
        ]);
    }
    table
}

/// Whether both ends of a distance lie on sheets that hang together.
pub(super) fn is_on_one_group(check: &Check, grid: &super::grid::Grid) -> bool {
    let (from, to) = (grid.place_at(check.ends.0), grid.place_at(check.ends.1));
    match (from, to) {
        (Some(from), Some(to)) => grid.group(from).contains(&to),
        _ => false,
    }
}

/// Keeps the points that some distance ends at.
pub(super) fn keep_used(points: &mut Vec<CheckPoint>, checks: &[(String, Check)]) {
    points.retain(|point| {
        let ends_at = |end: Point| number::length(end - point.at) < tolerance::SAME_POINT;
        checks
            .iter()
            .any(|(_, check)| ends_at(check.ends.0) || ends_at(check.ends.1))
    });
}

/// Total of the letters used, to go on with for the next part.
pub(super) fn letters(points: &[CheckPoint]) -> usize {
    points.iter().filter(|point| point.out.is_some()).count()
}

/// Ticks at check points, off the material.
pub(super) fn draw(picture: &mut crate::sheet::Picture, points: &[CheckPoint]) {
    for point in points {
        if let Some(out) = point.out {
            let (from, to) = (point.at + out * 0.6, point.at + out * 5.0);
            picture.line(crate::sheet::Layer::Mark, from, to, super::outline::THIN);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whats(corners: &[(f64, f64)]) -> Vec<(&'static str, f64)> {
        let corners: Vec<Point> = corners.iter().map(|&at| at.into()).collect();
        let mut part = crate::documents::samples::belt_guard();
        let outer = Contour::polygon(&corners).expect("an outline");
        part.region = crate::geometry::Region::new(outer, Vec::new());
        part.openings.clear();
        let lining = Lining {
            levels: Vec::new(),
            uprights: Vec::new(),
        };
        let (_, checks) = of_part(&part, &lining, 0);
        checks
            .iter()
            .map(|check| (check.what, check.distance))
            .collect()
    }

    /// A knee of 260 by 150 whose arms lean apart: nowhere is it so wide along one level line. At its right edge,
    /// level with the lower end of that, it is 200 wide.
    #[test]
    fn overall_is_only_what_is_as_long_as_the_whole() {
        let knee = whats(&[
            (0.0, 0.0),
            (200.0, 0.0),
            (200.0, 50.0),
            (20.0, 50.0),
            (-20.0, 150.0),
            (-60.0, 130.0),
        ]);
        assert!(
            knee.contains(&("level, less than overall", 200.0)),
            "{knee:?}"
        );
        assert!(
            !knee
                .iter()
                .any(|(what, _)| *what == "overall, left to right"),
            "{knee:?}"
        );
        let plate = whats(&[(0.0, 0.0), (200.0, 0.0), (200.0, 50.0), (0.0, 50.0)]);
        assert!(
            plate.contains(&("overall, left to right", 200.0))
                && plate.contains(&("overall, bottom to top", 50.0)),
            "{plate:?}"
        );
    }
}
