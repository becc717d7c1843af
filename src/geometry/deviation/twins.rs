//! Segments that are the very same in both sets, whichever way they run.

use std::cmp::Ordering;

use crate::geometry::Point;
use crate::geometry::Segment;

/// What a segment is, to the last bit: its ends, its centre, and its signed sweep, which is nothing for a line.
type Key = [u64; 7];

/// The segments of a set, to be known again.
#[derive(Debug)]
pub(super) struct Twins {
    keys: Vec<Key>,
}

impl Twins {
    pub(super) fn of(segments: &[Segment]) -> Self {
        let mut keys: Vec<Key> = segments.iter().map(key).collect();
        keys.sort_unstable();
        Self { keys }
    }

    /// Whether the set has this very segment.
    pub(super) fn has(&self, segment: &Segment) -> bool {
        self.keys.binary_search(&key(segment)).is_ok()
    }
}

/// The same for a segment and its reverse.
fn key(segment: &Segment) -> Key {
    let bits = |at: Point| [at.x.to_bits(), at.y.to_bits()];
    let (start, end) = (bits(segment.start()), bits(segment.end()));
    let (centre, sweep) = match segment {
        Segment::Line(_) => ([0, 0], 0.0),
        Segment::Arc(arc) => (bits(arc.centre()), arc.sweep()),
    };
    let ([ax, ay], [bx, by], sweep) = match start.cmp(&end) {
        Ordering::Less => (start, end, sweep),
        Ordering::Greater => (end, start, -sweep),
        // a whole circle, either way
        Ordering::Equal => (start, end, sweep.abs()),
    };
    let [x, y] = centre;
    // a line has no sweep, and none is none whatever its sign
    [ax, ay, bx, by, x, y, (sweep + 0.0).to_bits()]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;

    #[test]
    fn a_segment_is_known_either_way_and_no_other_is() {
        let arc =
            |sweep: f64| Segment::Arc(Arc::from_angles(Point::new(3.0, 4.0), 7.0, 0.3, sweep));
        let line = Segment::line(Point::new(1.0, 2.0), Point::new(-3.0, 5.0));
        let set = [
            line,
            arc(1.2),
            Segment::Arc(Arc::circle(Point::ORIGIN, 5.0)),
        ];
        let twins = Twins::of(&set);
        for segment in &set {
            assert!(twins.has(segment), "{segment:?}");
            assert!(twins.has(&segment.reversed()), "{segment:?} reversed");
        }
        let others = [
            arc(1.2 - std::f64::consts::TAU),
            arc(1.3),
            Segment::line(Point::new(1.0, 2.0), Point::new(-3.0, 5.000_000_1)),
            Segment::Arc(Arc::circle(Point::ORIGIN, 5.1)),
        ];
        for segment in &others {
            assert!(!twins.has(segment), "{segment:?}");
        }
    }
}
