//! What is proven of a result before it is returned, besides the distance of each edge.

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

/// The edges of a result, loop by loop.
#[derive(Debug, Default)]
pub(super) struct Edges<'a> {
    pub(super) curves: Vec<&'a Curve>,
    /// What is known of each from its distance to the source.
    pub(super) rooms: Vec<Room>,
    /// The loop each belongs to.
    pub(super) owner: Vec<u32>,
    /// Where each loop starts, and the end.
    pub(super) starts: Vec<usize>,
}

/// What else may be near an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Room {
    /// It is a whole front, and nothing but its kin is near.
    Roomy,
    /// It is a whole front.
    Narrow,
    /// Anything.
    Unknown,
}

impl Edges<'_> {
    /// The edge so many places further on in the same loop.
    fn after(&self, edge: usize, places: usize) -> usize {
        let own = self.owner[edge] as usize;
        let (first, end) = (self.starts[own], self.starts[own + 1]);
        let next = edge + places;
        if next < end {
            next
        } else {
            first + (next - first) % (end - first)
        }
    }

    fn loop_length(&self, edge: usize) -> usize {
        let own = self.owner[edge] as usize;
        self.starts[own + 1] - self.starts[own]
    }

    /// The distance of two edges if it is less than [`tolerance::OFFSET_TIE`]; that of neighbours is 0
    /// if they meet again.
    fn touch(&self, one: usize, two: usize) -> Option<f64> {
        let (a, b) = (self.curves[one], self.curves[two]);
        let near = tolerance::OFFSET_TIE;
        if boxes_apart_squared(a.bounds, b.bounds) > near * near {
            return None;
        }
        let (ahead, behind) = (self.after(one, 1) == two, self.after(two, 1) == one);
        let joints = [ahead.then_some(a.end), behind.then_some(a.start)];
        if !ahead && !behind {
            let distance = least_distance(a, b);
            return (distance < near).then_some(distance);
        }
        neighbours_meet(a, b, joints, tolerance::OFFSET_WIDEST_NODE).then_some(0.0)
    }
}

/// Refuses loops of which two edges come nearer than [`tolerance::OFFSET_TIE`] without being
/// neighbours, or neighbours that meet again.
///
/// A roomy edge whose neighbours are whole fronts can only come near those, and the next if they go
/// round a corner: they are what remains of its kin. All others are looked for.
pub(super) fn loops_are_simple(edges: &Edges<'_>) -> Result<(), (Doubt, Point)> {
    let check = |one: usize, two: usize| match edges.touch(one, two) {
        None => Ok(()),
        Some(distance) => {
            let at = edges.curves[one].nearest_end(edges.curves[two]);
            Err((Doubt::Touching(distance), at))
        }
    };
    let is_whole = |edge: usize| edges.rooms[edge] != Room::Unknown;
    let is_alone = |edge: usize| {
        let count = edges.loop_length(edge);
        edges.rooms[edge] == Room::Roomy
            && count >= FEWEST
            && is_whole(edges.after(edge, 1))
            && is_whole(edges.after(edge, count - 1))
    };
    let alone: Vec<bool> = (0..edges.curves.len()).map(is_alone).collect();
    for edge in 0..edges.curves.len() {
        for places in [1, 2] {
            let other = edges.after(edge, places);
            if alone[edge] || alone[other] {
                check(edge, other)?;
            }
        }
    }
    let rest: Vec<usize> = (0..alone.len()).filter(|&edge| !alone[edge]).collect();
    let curves = rest.iter().map(|&edge| edges.curves[edge]);
    let grid = Grid::new(curves.clone(), 0.0);
    let mut met = Met::new(rest.len());
    let near = tolerance::OFFSET_TIE;
    for (place, curve) in curves.enumerate() {
        met.begin();
        let mut result = Ok(());
        curve.boxes(grid.cell, |part| {
            grid.near(part.inflate(near, near), |other| {
                if other > place && met.is_new(other) && result.is_ok() {
                    result = check(rest[place], rest[other]);
                }
                if result.is_ok() {
                    Going::On
                } else {
                    Going::Stop
                }
            });
        });
        result?;
    }
    Ok(())
}

/// A loop of fewer edges is looked at as a whole: what comes two places later may come two before.
const FEWEST: usize = 5;

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
