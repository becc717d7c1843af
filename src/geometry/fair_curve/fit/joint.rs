//! Where arcs may meet.

use super::super::FairCurve;
use super::track::Track;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A place where arcs may meet: on the curve, in a direction of its own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Joint {
    pub(super) position: f64,
    pub(super) length: f64,
    pub(super) point: Point,
    pub(super) direction: Vec2,
    /// The curve's own direction, turned by this much (radians, anticlockwise positive), is
    /// `direction`.
    pub(super) lean: f64,
    /// Ratio of the tangent lengths, second to first, of the biarc that ends here.
    pub(super) ratio: f64,
}

/// The joint at a length of the track, leaning by the given angle.
pub(super) fn joint_at(track: &Track<'_>, length: f64, position: f64, lean: f64) -> Joint {
    let jet = track.curve.jet(position);
    let own = jet.direction().unwrap_or(Vec2::ZERO);
    Joint {
        position,
        length,
        point: jet.point,
        direction: leaning(own, lean),
        lean,
        ratio: 1.0,
    }
}

/// The joints of a reversed curve, as joints of the curve itself.
pub(super) fn turned_round(curve: &FairCurve, joints: &[Joint]) -> Vec<Joint> {
    let last = curve.last_position();
    let ratios = std::iter::once(1.0).chain(joints.iter().skip(1).rev().map(|one| 1.0 / one.ratio));
    joints
        .iter()
        .rev()
        .zip(ratios)
        .map(|(joint, ratio)| Joint {
            position: last - joint.position,
            direction: -joint.direction,
            ratio,
            ..*joint
        })
        .collect()
}

/// The direction turned by the lean.
pub(super) fn leaning(direction: Vec2, lean: f64) -> Vec2 {
    if lean == 0.0 {
        direction
    } else {
        number::rotated(direction, lean)
    }
}
