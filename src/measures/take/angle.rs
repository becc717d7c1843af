//! Angles between edges.

use crate::design::DesignError;
use crate::design::file::measure::Between;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::intersect;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::feature::EdgeHere;
use crate::measures::feature::Feature;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::apart;
use crate::measures::taken::How;
use crate::measures::taken::Taken;
use crate::measures::taken::TakenKind;

/// How far from the corner the points are shown that an angle is taken between, in millimetres.
const ARM: f64 = 40.0;

/// The angle inside the material: at the corner where the edges meet, or of their lines if they are
/// straight and do not meet (then the one up to half a turn).
pub(super) fn angle(shape: &Shape<'_>, between: &Between) -> Result<Taken, DesignError> {
    let edge = |index: usize| -> Result<EdgeHere, DesignError> {
        let word = &between.between[index];
        match find::one(shape, word)? {
            Feature::Edge(edge) => Ok(edge),
            other => Err(find::wrong(word, other.what(), "an edge")),
        }
    };
    let (one, other) = (edge(0)?, edge(1)?);
    let joint = joint(&one, &other).or_else(|| joint(&other, &one));
    if let Some((at, arriving, leaving)) = joint {
        let value = number::HALF_TURN - number::turn(arriving, leaving);
        return Ok(taken(value, at, -arriving, leaving));
    }
    let ([Segment::Line(a)], [Segment::Line(b)]) = (one.sharp.as_slice(), other.sharp.as_slice())
    else {
        let curved = |edge: &EdgeHere| !matches!(edge.sharp.as_slice(), [Segment::Line(_)]);
        let (word, edge) = if curved(&one) {
            (&between.between[0], one)
        } else {
            (&between.between[1], other)
        };
        let what = Feature::Edge(edge).what();
        let wanted = "an edge that meets the other, or a straight one";
        return Err(find::wrong(word, what, wanted));
    };
    let value = number::HALF_TURN - number::turn(a.direction(), b.direction()).abs();
    let (first, second) = (Segment::Line(*a), Segment::Line(*b));
    let at = intersect::carriers_near(&first, &second, a.point_at(0.5)).unwrap_or(a.start);
    let out = |line: &crate::geometry::Line| {
        number::normalized(line.point_at(0.5) - at).unwrap_or_else(|| line.direction())
    };
    Ok(taken(value, at, out(a), out(b)))
}

/// Where the one edge runs into the other, and the directions there.
fn joint(before: &EdgeHere, after: &EdgeHere) -> Option<(Point, Vec2, Vec2)> {
    let (arriving, leaving) = (before.sharp.last()?, after.sharp.first()?);
    (apart(arriving.end(), leaving.start()) <= tolerance::SAME_DIMENSION).then(|| {
        (
            leaving.start(),
            arriving.direction_at(1.0),
            leaving.direction_at(0.0),
        )
    })
}

fn taken(value: f64, at: Point, one: Vec2, other: Vec2) -> Taken {
    Taken {
        kind: TakenKind::Angle,
        value,
        between: Some([at + one * ARM, at + other * ARM]),
        about: Some(at),
        how: How::Protractor,
        jaws: None,
    }
}
