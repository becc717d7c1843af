//! What is proven of a result before it is returned, besides the distance of each edge.

use crate::geometry::Point;
use crate::geometry::Rect;
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
use super::nest::loop_of;
use super::source::Growing;
use super::source::Source;

/// The edges of a result, loop by loop.
#[derive(Debug)]
pub(super) struct Edges<'a> {
    pub(super) curves: Vec<&'a Curve>,
    /// What is known of each from its distance to the source.
    pub(super) rooms: Vec<Room>,
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
    pub(super) fn with_room_for(edges: usize) -> Self {
        Self {
            curves: Vec::with_capacity(edges),
            rooms: Vec::with_capacity(edges),
            starts: vec![0],
        }
    }

    /// Where the loop of an edge starts and ends.
    fn ends(&self, edge: usize) -> (usize, usize) {
        let own = loop_of(&self.starts, edge);
        (self.starts[own], self.starts[own + 1])
    }

    /// The next edge in the same loop.
    fn after(&self, edge: usize) -> usize {
        let (first, end) = self.ends(edge);
        if edge + 1 < end { edge + 1 } else { first }
    }

    /// The distance of two edges if it is less than [`tolerance::OFFSET_TIE`]; that of neighbours is 0
    /// if they meet again.
    fn touch(&self, one: usize, two: usize) -> Option<f64> {
        let (a, b) = (self.curves[one], self.curves[two]);
        let (ahead, behind) = (self.after(one) == two, self.after(two) == one);
        let joints = [ahead.then_some(a.end), behind.then_some(a.start)];
        if !ahead && !behind {
            let distance = least_distance(a, b);
            return (distance < tolerance::OFFSET_TIE).then_some(distance);
        }
        neighbours_meet(a, b, joints, tolerance::OFFSET_WIDEST_NODE).then_some(0.0)
    }

    /// Refuses two edges that touch.
    fn check(&self, one: usize, two: usize) -> Result<(), (Doubt, Point)> {
        match self.touch(one, two) {
            None => Ok(()),
            Some(distance) => {
                let at = self.curves[one].nearest_end(self.curves[two]);
                Err((Doubt::Touching(distance), at))
            }
        }
    }

    /// Whether each edge is roomy and between whole fronts, in a loop of several.
    fn alone(&self) -> Vec<bool> {
        let mut alone = Vec::with_capacity(self.rooms.len());
        for ends in self.starts.windows(2) {
            let rooms = &self.rooms[ends[0]..ends[1]];
            let is_whole = |place: usize| rooms[place] != Room::Unknown;
            let last = rooms.len() - 1;
            alone.extend((0..rooms.len()).map(|place| {
                rooms[place] == Room::Roomy
                    && rooms.len() >= FEWEST
                    && is_whole(if place == 0 { last } else { place - 1 })
                    && is_whole(if place == last { 0 } else { place + 1 })
            }));
        }
        alone
    }

    /// Checks each edge against the two that follow it, if one of the pair is alone.
    fn check_following(&self, alone: &[bool]) -> Result<(), (Doubt, Point)> {
        for ends in self.starts.windows(2) {
            let after = |edge: usize| {
                if edge + 1 < ends[1] {
                    edge + 1
                } else {
                    ends[0]
                }
            };
            let bounds = |edge: usize| self.curves[edge].bounds();
            let mut boxes = [bounds(ends[0]), bounds(after(ends[0]))];
            for one in ends[0]..ends[1] {
                let two = after(one);
                let three = after(two);
                let third = bounds(three);
                if alone[one] || alone[two] {
                    self.check(one, two)?;
                }
                if (alone[one] || alone[three]) && !are_apart(boxes[0], third) {
                    self.check(one, three)?;
                }
                boxes = [boxes[1], third];
            }
        }
        Ok(())
    }
}

/// Whether what these rectangles hold is certainly further apart than [`tolerance::OFFSET_TIE`].
fn are_apart(one: Rect, two: Rect) -> bool {
    boxes_apart_squared(one, two) > tolerance::OFFSET_TIE * tolerance::OFFSET_TIE
}

/// Refuses loops of which two edges come nearer than [`tolerance::OFFSET_TIE`] without being
/// neighbours, or neighbours that meet again.
///
/// A roomy edge whose neighbours are whole fronts can only come near those, and the next if they go
/// round a corner: they are what remains of its kin. All others are looked for.
pub(super) fn loops_are_simple(edges: &Edges<'_>) -> Result<(), (Doubt, Point)> {
    let alone = edges.alone();
    edges.check_following(&alone)?;
    let rest: Vec<usize> = (0..alone.len()).filter(|&edge| !alone[edge]).collect();
    let curves = rest.iter().map(|&edge| edges.curves[edge]);
    let grid = Grid::new(curves.clone(), 0.0);
    let mut met = Met::new(rest.len());
    let near = tolerance::OFFSET_TIE;
    for (place, curve) in curves.enumerate() {
        met.begin();
        let mut result = Ok(());
        curve.boxes(grid.bounds(place), grid.cell, |part| {
            grid.near_from(place + 1, part.inflate(near, near), |other| {
                if met.is_new(other)
                    && result.is_ok()
                    && !are_apart(grid.bounds(place), grid.bounds(other))
                {
                    result = edges.check(rest[place], rest[other]);
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
    loops: &Loops<'_, &Curve>,
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
