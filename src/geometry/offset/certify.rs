//! What is proven of a result before it is returned, besides the distance of each edge.

use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::tolerance;

use super::clearance::boxes_apart_squared;
use super::clearance::least_distance;
use super::crossing::neighbours_meet;
use super::curve::Curve;
use super::error::Doubt;
use super::grid::Going;
use super::grid::Grid;
use super::grid::Met;
use super::nest::Loops;
use super::source::Growing;
use super::source::Source;

/// Refuses loops of which two edges come nearer than [`tolerance::OFFSET_TIE`] without being
/// neighbours, or neighbours that meet again.
pub(super) fn loops_are_simple(
    curves: &[Curve],
    starts: &[usize],
    owner: &[usize],
    grid: &Grid,
) -> Result<(), (Doubt, Point)> {
    let mut met = Met::new(curves.len());
    let near = tolerance::OFFSET_TIE;
    let follows = |one: usize, two: usize| {
        let own = owner[one];
        let (first, end) = (starts[own], starts[own + 1]);
        let next = if one + 1 == end { first } else { one + 1 };
        owner[two] == own && next == two
    };
    for (index, curve) in curves.iter().enumerate() {
        met.begin();
        let mut doubt = None;
        curve.boxes(grid.cell, |part| {
            grid.near(part.inflate(near, near), |other| {
                if other <= index
                    || boxes_apart_squared(curve.bounds, curves[other].bounds) > near * near
                    || !met.is_new(other)
                {
                    return Going::On;
                }
                let second = &curves[other];
                let (ahead, behind) = (follows(index, other), follows(other, index));
                let joints = [ahead.then_some(curve.end), behind.then_some(curve.start)];
                let distance = if !ahead && !behind {
                    least_distance(curve, second)
                } else if neighbours_meet(curve, second, joints, tolerance::OFFSET_WIDEST_NODE) {
                    0.0
                } else {
                    return Going::On;
                };
                if distance < near {
                    doubt = Some((Doubt::Touching(distance), curve.nearest_end(second)));
                    return Going::Stop;
                }
                Going::On
            });
        });
        if let Some(doubt) = doubt {
            return Err(doubt);
        }
    }
    Ok(())
}

/// Refuses a result that has part of the source on its wrong side.
pub(super) fn source_is_on_its_side(
    source: &Source,
    loops: &Loops<'_>,
    growing: Growing,
) -> Result<(), (Doubt, Point)> {
    for contour in &source.contours {
        let curves = &source.curves[contour.clone()];
        let expected = growing == Growing::Material;
        if loops.material_around(curves) != Some(expected) {
            return Err((Doubt::Containment, source.curves[contour.start].start));
        }
    }
    Ok(())
}

/// Refuses a result whose area cannot be.
///
/// # Source
/// Steiner's formula bounds the growth of a connected region by L·d + π·d².
pub(super) fn area_is_possible(
    source_area: f64,
    area: f64,
    growth: f64,
    growing: Growing,
) -> Result<(), Doubt> {
    let (least, most) = match growing {
        Growing::Material => (source_area, source_area + growth),
        Growing::Surroundings => ((source_area - growth).max(0.0), source_area),
    };
    let slack = 1e-9 * (source_area.abs() + growth) + 1e-9;
    if area < least - slack || area > most + slack {
        return Err(Doubt::Area { area, least, most });
    }
    Ok(())
}

/// Signed area enclosed by the contours together.
pub(super) fn area_of(contours: &[Contour]) -> f64 {
    contours.iter().map(Contour::signed_area).sum()
}
