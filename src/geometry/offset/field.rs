//! The distance from the boundary: how deep a curve dips below the distance asked for, and what
//! covers it.

use std::borrow::Cow;

use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::clearance::boxes_apart_squared;
use super::clearance::greatest_distance;
use super::clearance::least_distance;
use super::curve::Curve;
use super::front::to_number;
use super::grid::Going;
use super::grid::Grid;
use super::grid::Met;
use super::join::Kite;
use super::source::Source;

/// The boundary and the kites of its sharp corners, for questions of distance.
#[derive(Debug)]
pub(super) struct Field<'a> {
    curves: &'a [Curve],
    kites: &'a [Kite],
    grid: Cow<'a, Grid>,
    met: Met,
    reach: f64,
}

/// How a curve stands to the boundary.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Standing {
    /// Nowhere nearer than the distance, but for so much (at most the largest of
    /// [`tolerance::OFFSET_NEAR`]).
    Clear(f64),
    /// Somewhere nearer than that to the obstacle of this number.
    Within(u32),
}

/// What counts as clear, in millimetres.
const LIMIT: f64 = {
    let [first, second, third] = tolerance::OFFSET_NEAR;
    first.max(second).max(third)
};

/// A front that has this much room beyond the distance meets no edge of the result but those of its kin:
/// each lies at the distance from its piece but for [`tolerance::OFFSET_WIDEST_NODE`].
const ROOM: f64 = tolerance::OFFSET_TIE + 2.0 * tolerance::OFFSET_WIDEST_NODE;

/// What is further away than this from a piece of the boundary has the front of that piece and those round
/// its ends at more than the distance and [`ROOM`], in every attempt: they lie within the distance of it.
pub(super) fn near(distance: f64) -> f64 {
    let excess = tolerance::OFFSET_NUDGES.into_iter().fold(0.0, f64::max);
    2.0 * (distance + excess) + 2.0 * ROOM
}

/// What is to be shown of a curve that does not show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Proof {
    /// Something is nearer than the distance by more than rounding.
    Beyond,
    /// Something is as near as the distance within [`tolerance::OFFSET_EXACT`].
    Barely,
}

/// Which obstacles are asked how near they are.
#[derive(Clone, Copy, Debug)]
enum Asked<'h> {
    /// All, these first.
    First(&'h [u32]),
    /// These.
    Only(&'h [u32]),
}

impl<'a> Field<'a> {
    /// The field of the source, which the grid is over.
    pub(super) fn new(
        (source, grid): (&'a Source, &'a Grid),
        kites: &'a [Kite],
        reach: f64,
    ) -> Self {
        let grid = if kites.is_empty() {
            Cow::Borrowed(grid)
        } else {
            let mut indexed = source.curves.clone();
            for kite in kites {
                let along = source.curves[0].start_direction();
                indexed.push(Curve::line(kite.ends[0], kite.tip, along));
                indexed.push(Curve::line(kite.tip, kite.ends[1], along));
            }
            Cow::Owned(Grid::new(indexed.iter(), 0.5 * reach))
        };
        Self {
            curves: &source.curves,
            kites,
            grid,
            met: Met::new(source.curves.len() + 2 * kites.len()),
            reach,
        }
    }

    /// Whether an obstacle is certainly further away from what these bounds hold than `far`.
    fn is_far(&self, bounds: Rect, obstacle: usize, far: f64) -> bool {
        let is_kite = obstacle >= self.curves.len();
        !is_kite && boxes_apart_squared(bounds, self.grid.bounds(obstacle)) > far * far
    }

    /// How deep `curve` comes below the distance to one obstacle; negative: it stays away.
    fn depth_in(&self, curve: &Curve, obstacle: usize) -> f64 {
        match self.curves.get(obstacle) {
            Some(other) => self.reach - least_distance(curve, other),
            None => self.kites[(obstacle - self.curves.len()) / 2].depth(curve),
        }
    }

    fn greatest(&self, curve: &Curve, obstacle: usize) -> f64 {
        if let Some(other) = self.curves.get(obstacle) {
            greatest_distance(curve, other)
        } else {
            let kite = &self.kites[(obstacle - self.curves.len()) / 2];
            self.reach + kite.greatest_excess(curve)
        }
    }

    /// How a curve stands to everything but the piece it is parallel to. `hints` are asked first.
    pub(super) fn standing(
        &mut self,
        curve: &Curve,
        own: Option<usize>,
        hints: &[u32],
    ) -> Standing {
        self.standing_at(curve, (own, hints), LIMIT)
    }

    /// The same with another limit for what counts as clear.
    pub(super) fn standing_at(
        &mut self,
        curve: &Curve,
        (own, hints): (Option<usize>, &[u32]),
        limit: f64,
    ) -> Standing {
        let mut deepest = 0.0_f64;
        let within = self.search(curve, (own, Asked::First(hints)), 0.0, |_, depth| {
            deepest = deepest.max(depth);
            depth > limit
        });
        within.map_or(Standing::Clear(deepest), Standing::Within)
    }

    /// How a whole front stands to everything but its own piece, and whether it is roomy: nothing but
    /// its `kin`, which are asked first, comes within the distance and [`ROOM`]. If its piece is lonely
    /// (`only`), no more than these are asked.
    pub(super) fn view(
        &mut self,
        curve: &Curve,
        (own, kin): (Option<usize>, [u32; 3]),
        only: Option<[u32; 3]>,
    ) -> (Standing, bool) {
        let mut deepest = 0.0_f64;
        // kites are no pieces of the boundary, and fronts are parallel to them too
        let mut roomy = self.kites.is_empty();
        let asked = match &only {
            Some(only) if roomy => Asked::Only(only),
            _ => Asked::First(&kin),
        };
        let within = self.search(curve, (own, asked), ROOM, |obstacle, depth| {
            deepest = deepest.max(depth);
            roomy &= depth <= -ROOM || kin.contains(&obstacle);
            depth > LIMIT
        });
        let standing = within.map_or(Standing::Clear(deepest), Standing::Within);
        (standing, roomy)
    }

    /// Calls `look` with each obstacle that is asked but `own` within the distance and `margin`, and how deep the
    /// curve comes below the distance to it, until it says yes; gives that obstacle.
    fn search(
        &mut self,
        curve: &Curve,
        (own, asked): (Option<usize>, Asked<'_>),
        margin: f64,
        mut look: impl FnMut(u32, f64) -> bool,
    ) -> Option<u32> {
        let mut met = std::mem::replace(&mut self.met, Met::new(0));
        met.begin();
        let bounds = curve.bounds();
        let far = self.reach + margin;
        let mut found = None;
        let mut ask = |obstacle: usize| {
            if Some(obstacle) == own || self.is_far(bounds, obstacle, far) || !met.is_new(obstacle)
            {
                return Going::On;
            }
            let number = to_number(obstacle);
            if look(number, self.depth_in(curve, obstacle)) {
                found = Some(number);
                return Going::Stop;
            }
            Going::On
        };
        let mut going = Going::On;
        let (Asked::First(hints) | Asked::Only(hints)) = asked;
        for &hint in hints {
            if going == Going::On {
                going = ask(hint as usize);
            }
        }
        if going == Going::On && matches!(asked, Asked::First(_)) {
            curve.boxes(bounds, self.grid.cell, |part| {
                if going == Going::On {
                    going = self.grid.near(part.inflate(far, far), &mut ask);
                }
            });
        }
        self.met = met;
        found
    }

    /// Proves that no point of `curve` shows: everywhere something other than `own` is nearer than the
    /// distance. The witness is asked first.
    ///
    /// # Errors
    /// A place that is not certainly covered.
    pub(super) fn cover(
        &self,
        curve: &Curve,
        own: Option<usize>,
        (witness, proof): (Option<u32>, Proof),
    ) -> Result<(), Point> {
        let witness = witness.map(|witness| witness as usize);
        let covered = |part: &Curve, obstacle: Option<usize>| {
            obstacle.is_some_and(|obstacle| self.covers(part, obstacle, proof))
        };
        if covered(curve, witness) {
            return Ok(());
        }
        let mut open = vec![*curve];
        // each halving at one end of a curve costs two looks: 40 halvings go from 1 km to 1 nm
        for _ in 0..4000 {
            let Some(part) = open.pop() else {
                return Ok(());
            };
            let middle = part.middle();
            if part.is_shorter_than(tolerance::OFFSET_TIE) {
                if self
                    .nearest(middle, own)
                    .is_none_or(|(_, distance)| distance > self.reach + tolerance::OFFSET_TIE)
                {
                    return Err(middle);
                }
                continue;
            }
            let nearest = self.nearest(middle, own).map(|(nearest, _)| nearest);
            if covered(&part, witness) || covered(&part, nearest) {
                continue;
            }
            let half = part.length() / 2.0;
            open.push(part.between(middle, part.end, half));
            open.push(part.between(part.start, middle, half));
        }
        Err(open.last().map_or(curve.start, |part| part.start))
    }

    /// Whether the one obstacle covers the whole curve, and its middle by more than rounding.
    fn covers(&self, curve: &Curve, obstacle: usize, proof: Proof) -> bool {
        self.greatest(curve, obstacle) <= self.reach + tolerance::OFFSET_EXACT
            && (proof == Proof::Barely
                || self.distance_to(curve.middle(), obstacle) < self.reach - 1e-11)
    }

    fn distance_to(&self, point: Point, obstacle: usize) -> f64 {
        if let Some(curve) = self.curves.get(obstacle) {
            curve.distance(point)
        } else {
            let here = Curve::line(point, point, number::unit(0.0));
            self.reach + self.kites[(obstacle - self.curves.len()) / 2].greatest_excess(&here)
        }
    }

    /// The nearest obstacle to a point but for `own`, if any is within about the distance.
    fn nearest(&self, point: Point, own: Option<usize>) -> Option<(usize, f64)> {
        let mut best = None;
        let within = self.reach + 2.0 * tolerance::OFFSET_TIE;
        let around = Rect::from_points(point, point).inflate(within, within);
        self.grid.near(around, |obstacle| {
            if Some(obstacle) != own {
                let distance = self.distance_to(point, obstacle);
                if best.is_none_or(|(_, least)| distance < least) {
                    best = Some((obstacle, distance));
                }
            }
            Going::On
        });
        best
    }

    /// Area of all kites.
    pub(super) fn kite_area(&self) -> f64 {
        self.kites.iter().map(Kite::area).sum()
    }
}
