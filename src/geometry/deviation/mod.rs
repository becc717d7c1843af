//! The greatest distance between two sets of lines and arcs: how far one strays from the other.
//!
//! The distance of a set from another is that of its point furthest from the other's nearest point; it is
//! not the same both ways, so both are asked for.

mod bound;
mod twins;

use super::Point;
use super::Segment;
use super::bounds_tree::SegmentTree;
use super::number;
use super::tolerance;
use twins::Twins;

/// Where a set strays furthest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stray {
    /// The distance in millimetres.
    pub distance: f64,
    /// The point of the set.
    pub at: Point,
    /// The nearest point of the other.
    pub nearest: Point,
    /// The number of the segment it lies on.
    pub segment: usize,
}

/// The point of `of` that lies furthest from `from`, and how far; none if either is empty.
///
/// # Accuracy
/// Within [`tolerance::DEVIATION`] below the true greatest distance, by branch and bound: each piece has a
/// bound in closed form (the greatest distance from one line or circle), and is halved until that is no
/// more than what has been found. If more than two million pieces had to be looked at, the greatest
/// bound left over is given, which is above it.
///
/// # Source
/// The directed Hausdorff distance; the bounds are closed forms, derived here.
///
/// # Example
/// ```
/// use kerfwise::geometry::Arc;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Segment;
/// use kerfwise::geometry::deviation;
///
/// let circle = [Segment::Arc(Arc::circle(Point::ORIGIN, 50.0))];
/// let larger = [Segment::Arc(Arc::circle(Point::ORIGIN, 50.2))];
/// let stray = deviation::furthest(&larger, &circle).expect("both have a point");
/// assert!((stray.distance - 0.2).abs() < 1e-8);
/// ```
pub fn furthest(of: &[Segment], from: &[Segment]) -> Option<Stray> {
    if from.is_empty() {
        return None;
    }
    let twins = Twins::of(from);
    let numbered = || of.iter().enumerate();
    let mut others = numbered()
        .filter(|(_, segment)| !twins.has(segment))
        .peekable();
    // what is the very same in both strays nowhere
    let same = numbered().find(|(_, segment)| twins.has(segment));
    let best = same.map(|(segment, same)| Stray {
        distance: 0.0,
        at: same.start(),
        nearest: same.start(),
        segment,
    });
    if others.peek().is_none() {
        return best;
    }
    let tree = SegmentTree::new(from);
    let mut search = Search {
        tree: &tree,
        best,
        pieces_left: MOST_PIECES,
    };
    for (index, segment) in others {
        search.segment(index, segment);
    }
    search.best
}

/// The greatest of both ways; the flag says whether it is a point of the second set that strays.
pub fn between(first: &[Segment], second: &[Segment]) -> Option<(Stray, bool)> {
    let (there, back) = (furthest(first, second)?, furthest(second, first)?);
    Some(if back.distance > there.distance {
        (back, true)
    } else {
        (there, false)
    })
}

/// Pieces looked at in all, at most.
const MOST_PIECES: usize = 2_000_000;

struct Search<'tree, 'a> {
    tree: &'tree SegmentTree<'a>,
    best: Option<Stray>,
    pieces_left: usize,
}

impl Search<'_, '_> {
    fn found(&self) -> f64 {
        self.best.map_or(f64::NEG_INFINITY, |best| best.distance)
    }

    fn segment(&mut self, index: usize, segment: &Segment) {
        for end in [segment.start(), segment.end()] {
            self.offer(index, end);
        }
        let middle = segment.point_at(0.5);
        let Some(nearest) = self.nearest(middle) else {
            return;
        };
        let reach = number::length(nearest - middle) + segment.length() / 2.0;
        if reach <= self.found() + tolerance::DEVIATION {
            return;
        }
        let candidates = self.tree.near(segment.bounds(), reach);
        let mut open = vec![(*segment, candidates)];
        while let Some((piece, candidates)) = open.pop() {
            self.piece(index, &piece, &candidates, &mut open);
        }
    }

    /// Looks at the middle of a piece, and puts its halves back unless they cannot stray further.
    fn piece(
        &mut self,
        index: usize,
        piece: &Segment,
        candidates: &[usize],
        open: &mut Vec<(Segment, Vec<usize>)>,
    ) {
        let (middle, length) = (piece.point_at(0.5), piece.length());
        let mut near: Vec<(usize, f64)> = Vec::with_capacity(candidates.len());
        let mut least = (f64::INFINITY, middle);
        for &candidate in candidates {
            let Some(other) = self.tree.segment(candidate) else {
                continue;
            };
            let foot = other.nearest_point(middle);
            let distance = number::length(foot - middle);
            near.push((candidate, distance));
            if distance < least.0 {
                least = (distance, foot);
            }
        }
        self.take(index, middle, least);
        let found = self.found() + tolerance::DEVIATION;
        let mut bound = least.0 + length / 2.0;
        for &(candidate, distance) in &near {
            if bound <= found {
                return;
            }
            if distance > least.0 + length {
                continue;
            }
            if let Some(other) = self.tree.segment(candidate) {
                bound = bound.min(bound::greatest(piece, other));
            }
        }
        if bound <= found || length <= tolerance::DEVIATION {
            return;
        }
        if self.pieces_left == 0 {
            self.take(index, middle, (bound, least.1));
            return;
        }
        self.pieces_left -= 1;
        // nearest to some point of the piece only if no further from its middle than this
        near.retain(|&(_, distance)| distance <= least.0 + length);
        let left: Vec<usize> = near.iter().map(|&(candidate, _)| candidate).collect();
        open.push((piece.part(0.5, 1.0), left.clone()));
        open.push((piece.part(0.0, 0.5), left));
    }

    fn nearest(&self, to: Point) -> Option<Point> {
        let mut best: Option<(f64, Point)> = None;
        for (index, beyond) in self.tree.by_distance(to) {
            let limit = best.map_or(f64::INFINITY, |(distance, _)| distance);
            if beyond > limit {
                break;
            }
            let Some(segment) = self.tree.segment(index) else {
                continue;
            };
            let foot = segment.nearest_point(to);
            let distance = number::length(foot - to);
            if distance < limit {
                best = Some((distance, foot));
            }
        }
        best.map(|(_, foot)| foot)
    }

    fn offer(&mut self, index: usize, point: Point) {
        if let Some(foot) = self.nearest(point) {
            self.take(index, point, (number::length(foot - point), foot));
        }
    }

    fn take(&mut self, segment: usize, at: Point, (distance, nearest): (f64, Point)) {
        if distance > self.found() {
            self.best = Some(Stray {
                distance,
                at,
                nearest,
                segment,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;
    use crate::geometry::Turn;

    fn chords(radius: f64, count: u32) -> Vec<Segment> {
        let corner = |index: u32| {
            let angle = f64::from(index % count) / f64::from(count) * number::FULL_TURN;
            Point::ORIGIN + number::unit(angle) * radius
        };
        (0..count)
            .map(|index| Segment::line(corner(index), corner(index + 1)))
            .collect()
    }

    #[test]
    fn chords_stray_from_their_circle_by_the_sagitta() {
        let circle = [Segment::Arc(Arc::circle(Point::ORIGIN, 100.0))];
        for count in [7, 360, 1000] {
            let chords = chords(100.0, count);
            let half = number::HALF_TURN / f64::from(count);
            // closed form: the sagitta r(1 − cos π/n), both ways
            let sagitta = 100.0 * (1.0 - number::cos(half));
            for (of, from) in [(&circle[..], &chords[..]), (&chords[..], &circle[..])] {
                let stray = furthest(of, from).expect("a distance");
                let off = stray.distance - sagitta;
                assert!(off.abs() < 2e-9, "{count} chords: off by {off:e}");
            }
        }
    }

    #[test]
    fn between_two_lines_the_worst_place_is_on_their_bisector() {
        // over the legs of a right angle, 45° away from both: a segment along x at height 10
        let legs = [
            Segment::line(Point::new(-30.0, 30.0), Point::ORIGIN),
            Segment::line(Point::ORIGIN, Point::new(30.0, 30.0)),
        ];
        let across = [Segment::line(
            Point::new(-10.0, 10.0),
            Point::new(10.0, 10.0),
        )];
        let stray = furthest(&across, &legs).expect("a distance");
        // in the middle, 10·sin 45° from both
        assert!((stray.distance - 50.0_f64.sqrt()).abs() < 2e-9, "{stray:?}");
        assert!(stray.at.x.abs() < 1e-6, "{stray:?}");
    }

    #[test]
    fn the_two_ways_differ() {
        let short = [Segment::line(Point::ORIGIN, Point::new(10.0, 0.0))];
        let long = [Segment::line(Point::ORIGIN, Point::new(25.0, 0.0))];
        let there = furthest(&short, &long).expect("a distance").distance;
        assert!(there < 1e-12, "the short one lies on the long one: {there}");
        let (stray, second) = between(&short, &long).expect("a distance");
        assert!(second && (stray.distance - 15.0).abs() < 1e-9, "{stray:?}");
        assert_eq!(furthest(&short, &[]), None, "nothing to be far from");
    }

    #[test]
    fn samples_never_stray_further() {
        // an arc across arcs and lines: sampled densely, the greatest is that found
        let from = [
            Segment::line(Point::new(0.0, 0.0), Point::new(40.0, 3.0)),
            Arc::with_radius(
                Point::new(40.0, 3.0),
                Point::new(70.0, 30.0),
                25.0,
                Turn::Anticlockwise,
            )
            .expect("fits")
            .into(),
            Arc::circle(Point::new(20.0, 35.0), 12.0).into(),
        ];
        let of: [Segment; 1] = [Arc::through(
            Point::new(-5.0, 10.0),
            Point::new(30.0, 22.0),
            Point::new(75.0, 2.0),
        )
        .expect("an arc")
        .into()];
        let stray = furthest(&of, &from).expect("a distance");
        let mut sampled: f64 = 0.0;
        for step in 0..=200_000 {
            let point = of[0].point_at(f64::from(step) / 200_000.0);
            let distance = from
                .iter()
                .map(|segment| number::length(segment.nearest_point(point) - point))
                .fold(f64::INFINITY, f64::min);
            sampled = sampled.max(distance);
        }
        assert!(
            // neighbouring samples are 4e-4 mm apart
            sampled <= stray.distance + 2e-9 && sampled > stray.distance - 4e-4,
            "{sampled} sampled, {stray:?}"
        );
    }
}
