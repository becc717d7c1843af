//! Distances to check, and a 3-4-5 as large as the plate allows.

use super::points::Points;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number::length;
use crate::sheet::Quantity;
use crate::sheet::number::trimmed;

/// A distance to measure when everything is marked.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Check {
    /// What is measured.
    pub(super) what: String,
    /// Between what.
    pub(super) between: Between,
    /// What it must be, in millimetres.
    pub(super) distance: f64,
}

/// What a distance lies between.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Between {
    /// Two points, by their numbers.
    Points(usize, usize),
    /// Two places along the datum edge or square to it, by their running dimensions in millimetres.
    Ends(f64, f64),
    /// Two corners of the overall rectangle: each with its running dimensions in millimetres, and its place.
    Corners([(Vec2, Point); 2]),
}

impl Between {
    /// In words: numbers of points, where there are such.
    pub(super) fn words(&self, unit: LengthUnit, points: &Points) -> String {
        match self {
            Self::Points(one, other) => format!("points {one} and {other}"),
            Self::Ends(from, to) => {
                format!("{} and {}", number(*from, unit), number(*to, unit))
            }
            Self::Corners(corners) => {
                let corner = |(running, at): (Vec2, Point)| match points.known(at) {
                    Some(number) => format!("point {number}"),
                    None => format!("({}, {})", number(running.x, unit), number(running.y, unit)),
                };
                format!("{} and {}", corner(corners[0]), corner(corners[1]))
            }
        }
    }
}

/// A running dimension without its unit.
pub(super) fn number(millimetres: f64, unit: LengthUnit) -> String {
    let quantity = Quantity::length(millimetres, unit);
    trimmed(quantity.value, quantity.decimals)
}

/// Where the finished part begins and ends along the datum edge, then square to it, in millimetres.
pub(super) fn overall(part: &Part) -> [f64; 4] {
    let bounds = features::running_bounds(part, part.region.outer());
    [bounds.x0, bounds.x1, bounds.y0, bounds.y1]
}

/// Overall sizes, both diagonals of the overall rectangle, and two distances across the part between
/// numbered points.
pub(super) fn checks(part: &Part, points: &Points) -> Vec<Check> {
    let [from, to, near, far] = overall(part);
    let corner = |along: f64, across: f64| {
        let datum = &part.datum;
        let at = datum.origin + datum.along * along + datum.across * across;
        (Vec2::new(along, across), at)
    };
    let plain = |what: &str, between: Between, distance: f64| Check {
        what: what.to_owned(),
        between,
        distance,
    };
    let diagonal = |what: &str, one: (Vec2, Point), other: (Vec2, Point)| {
        let distance = length(other.0 - one.0);
        plain(what, Between::Corners([one, other]), distance)
    };
    let mut checks = vec![
        plain(
            "overall, along the datum edge",
            Between::Ends(from, to),
            to - from,
        ),
        plain(
            "overall, square to it",
            Between::Ends(near, far),
            far - near,
        ),
        diagonal(
            "overall rectangle, one diagonal",
            corner(from, near),
            corner(to, far),
        ),
        diagonal(
            "overall rectangle, other diagonal",
            corner(from, far),
            corner(to, near),
        ),
    ];
    for (a, b) in cross_checks(part, points) {
        if let (Some(one), Some(other)) = (points.list.get(a), points.list.get(b)) {
            checks.push(Check {
                what: "across the part".to_owned(),
                between: Between::Points(a + 1, b + 1),
                distance: length(other.at - one.at),
            });
        }
    }
    checks
}

/// Two long distances between points that lean opposite ways to the datum: each notices what the
/// other may not.
fn cross_checks(part: &Part, points: &Points) -> Vec<(usize, usize)> {
    let running: Vec<Vec2> = points
        .list
        .iter()
        .map(|point| part.datum.running(point.at))
        .collect();
    let bounds = features::running_bounds(part, part.region.outer()).inflate(1e-6, 1e-6);
    let on_plate = |point: &Vec2| bounds.contains(point.to_point());
    let mut best: [Option<(f64, (usize, usize))>; 2] = [None, None];
    for (a, first) in running.iter().enumerate() {
        for (b, second) in running.iter().enumerate().skip(a + 1) {
            if !on_plate(first) || !on_plate(second) {
                continue;
            }
            let lean = *second - *first;
            // as much square to the datum as it can be: a distance along it would check nothing new
            let worth = (lean.x * lean.y).abs();
            let slot = usize::from(lean.x * lean.y < 0.0);
            if let Some(known) = best.get_mut(slot)
                && worth > known.map_or(1e-6, |known| known.0 + 1e-6)
            {
                *known = Some((worth, (a, b)));
            }
        }
    }
    best.into_iter().flatten().map(|found| found.1).collect()
}

/// A right angle from three distances: 3, 4 and 5 of the same step, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct RightAngle {
    /// The leg along the datum edge.
    pub(super) along: f64,
    /// The leg square to it.
    pub(super) across: f64,
    /// The third side.
    pub(super) third: f64,
}

/// The largest 3-4-5 from the origin within the overall rectangle, to whichever side of the origin there is more
/// of it, of steps that are round in the unit; the longer leg lies along the longer side. `None` on a part too
/// small for one.
pub(super) fn right_angle(part: &Part, unit: LengthUnit) -> Option<RightAngle> {
    let bounds = features::running_bounds(part, part.region.outer());
    let along = bounds.x1.max(-bounds.x0).max(0.0);
    let across = bounds.y1.max(-bounds.y0).max(0.0);
    let (long, short) = (along.max(across), along.min(across));
    let fits = (long / 4.0).min(short / 3.0);
    let rounds: &[f64] = match unit {
        LengthUnit::Inch | LengthUnit::Foot => &[25.4, 12.7, 6.35, 3.175],
        LengthUnit::Millimetre | LengthUnit::Centimetre | LengthUnit::Metre => {
            &[100.0, 50.0, 20.0, 10.0, 5.0, 1.0]
        }
    };
    // the finest rounding that loses less than a tenth; else the finest there is
    let rounded = |round: f64| (fits / round + 1e-9).floor() * round;
    let step = rounds
        .iter()
        .map(|&round| rounded(round))
        .find(|&step| step >= 0.9 * fits)
        .or_else(|| rounds.last().map(|&round| rounded(round)))?;
    let (longer, shorter) = (4.0 * step, 3.0 * step);
    (step > 0.0).then_some(if along >= across {
        RightAngle {
            along: longer,
            across: shorter,
            third: 5.0 * step,
        }
    } else {
        RightAngle {
            along: shorter,
            across: longer,
            third: 5.0 * step,
        }
    })
}

/// How far the right angle is off over one metre for an error in the third side, as a ratio: with
/// c² = a² + b², the error in the angle is c/(a b) times the error in c.
pub(super) fn sensitivity(angle: &RightAngle) -> f64 {
    angle.third / (angle.along * angle.across) * 1000.0
}

/// Whether a point lies on the finished part.
pub(super) fn is_on_part(part: &Part, at: Point) -> bool {
    let on_edge = part.region.contours().any(|contour| {
        contour
            .segments()
            .any(|segment| length(segment.nearest_point(at) - at) < 1e-6)
    });
    on_edge || super::arcs::is_inside(part.region.outer(), at)
}

/// What a person must know of a point that is not on the finished part; nothing for one that is, and for the centre
/// of a hole.
pub(super) fn where_it_lies(part: &Part, at: Point) -> String {
    if !is_on_part(part, at) {
        return "off the finished part".to_owned();
    }
    let around = part.openings.iter().find(|opening| {
        let hole = part.region.holes().get(opening.hole);
        let round = matches!(opening.shape, OpeningShape::Circle { .. });
        hole.is_some_and(|hole| {
            let on_edge = hole
                .segments()
                .any(|segment| length(segment.nearest_point(at) - at) < 1e-6);
            !round && !on_edge && super::arcs::is_inside(hole, at)
        })
    });
    around.map_or_else(String::new, |opening| format!("in “{}”", opening.name))
}
