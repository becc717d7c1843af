//! How far arcs and the points of a curve are apart.

use super::biarc::Bow;
use crate::geometry::Point;
use crate::geometry::Vec2;

/// One point of a curve after the other beside one or two bows.
#[derive(Debug)]
pub(super) struct Look<'bows> {
    bows: &'bows [Bow],
    joint: Point,
    joint_direction: Vec2,
    shortest_hook: f64,
    before: Point,
    /// Which bow the last point lay beside, if there was one, and the lengths along and offsets from it of the last two.
    beside: Option<usize>,
    last: [Place; 2],
    /// Greatest size of an offset from each bow.
    most: [f64; 2],
}

impl<'bows> Look<'bows> {
    pub(super) fn new(bows: &'bows [Bow], tolerance: f64) -> Option<Self> {
        let first = bows.first()?;
        Some(Self {
            bows,
            joint: first.end,
            joint_direction: first.end_direction(),
            shortest_hook: tolerance * tolerance,
            before: first.start,
            beside: None,
            last: [Place::default(); 2],
            most: [0.0; 2],
        })
    }

    /// Which bow the point lies beside.
    fn beside(&self, point: Point) -> usize {
        let past = (point - self.joint).dot(self.joint_direction) > 0.0;
        usize::from(past && self.bows.len() > 1)
    }

    /// Size of the offset of a point from the bow that it lies beside.
    pub(super) fn size(&self, point: Point) -> f64 {
        self.bows[self.beside(point)].offset(point).abs()
    }

    /// Takes the next point, `length` along the curve from anywhere and in any unit, and tells the size
    /// of its offset.
    pub(super) fn at(&mut self, point: Point, length: f64) -> f64 {
        let beside = self.beside(point);
        let bow = &self.bows[beside];
        let offset = bow.offset(point);
        let step = point - self.before;
        // against the way of the arc by more than the tolerance: a hook, not a curve
        if bow.direction_beside(point).dot(step) < 0.0 && step.dot(step) > self.shortest_hook {
            self.most = [f64::INFINITY; 2];
            return f64::INFINITY;
        }
        self.before = point;
        let here = Place { length, offset };
        if self.beside != Some(beside) {
            self.beside = Some(beside);
            self.last = [here; 2];
        }
        let [before, last] = self.last;
        let greatest = offset.abs().max(peak([before, last, here]));
        self.most[beside] = self.most[beside].max(greatest);
        self.last = [last, here];
        offset.abs()
    }

    /// Greatest distance from each bow.
    pub(super) fn worst(&self) -> [f64; 2] {
        let of = |place: usize| {
            let bow = self.bows.get(place);
            bow.map_or(0.0, |bow| bow.greatest_distance(self.most[place]))
        };
        [of(0), of(1)]
    }
}

/// How far along the curve a point lies and how far beside the bow.
#[derive(Clone, Copy, Debug, Default)]
struct Place {
    length: f64,
    offset: f64,
}

/// The size of the extreme of the parabola through three places, if the middle one is the extreme of
/// them; else 0. The points lie too far apart for the greatest offset of one to be the greatest of all.
fn peak([before, middle, after]: [Place; 3]) -> f64 {
    let (rise, fall) = (middle.offset - before.offset, middle.offset - after.offset);
    if rise * fall <= 0.0 {
        return 0.0;
    }
    let (up, down) = (middle.length - before.length, after.length - middle.length);
    let (steep_up, steep_down) = (rise / up, -fall / down);
    let slope = (steep_up * down + steep_down * up) / (up + down);
    let bend = (steep_down - steep_up) / (up + down);
    (middle.offset - slope * slope / (4.0 * bend)).abs()
}
