//! Laying lines and arcs onto others: the turn and the shift that bring one set as near to another as the
//! bulk of it will go.

use super::Motion;
use super::Point;
use super::Segment;
use super::Vec2;
use super::bounds_tree::SegmentTree;
use super::number;
use super::tolerance;

/// How a set is laid: perhaps mirrored, then turned about the origin, then shifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lying {
    /// Whether it is the mirror image: left and right exchanged before anything else.
    pub mirrored: bool,
    /// The turn in radians, anticlockwise positive.
    pub turn: f64,
    /// The shift after that, in millimetres.
    pub shift: Vec2,
}

impl Lying {
    /// As it is.
    pub const AS_DRAWN: Self = Self {
        mirrored: false,
        turn: 0.0,
        shift: Vec2::ZERO,
    };

    /// The motion.
    pub fn motion(&self) -> Motion {
        let turned = Motion::turn(self.turn);
        let first = if self.mirrored {
            Motion::mirror_left_right().then(&turned)
        } else {
            turned
        };
        first.then(&Motion::shift(self.shift))
    }
}

/// Points spread over segments, the ends of none of them: at least one each, more on long ones, about
/// `most` in all; of more segments than that only every so manieth.
pub fn places(segments: &[Segment], most: usize) -> Vec<Point> {
    const EACH: usize = 3;
    let step = (segments.len() * EACH).div_ceil(most.max(1)).max(1);
    let taken = || segments.iter().step_by(step);
    let whole: f64 = taken().map(Segment::length).sum();
    let mut found = Vec::new();
    for segment in taken() {
        let share = f64::from(u32::try_from(most).unwrap_or(u32::MAX)) * segment.length() / whole;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share is positive, and a few hundred points are enough for any segment"
        )]
        let count = (share.min(500.0) as usize).max(EACH);
        let parts = f64::from(u32::try_from(count).unwrap_or(u32::MAX));
        let at = |index: usize| (f64::from(u32::try_from(index).unwrap_or(0)) + 0.5) / parts;
        found.extend((0..count).map(|index| segment.point_at(at(index))));
    }
    found
}

/// Lines and arcs that others are laid onto.
#[derive(Debug)]
pub struct Target<'a> {
    tree: SegmentTree<'a>,
}

/// The line of the target beside a point.
struct Beside {
    distance: f64,
    /// How far the point lies along `normal`.
    off: f64,
    normal: Vec2,
}

/// Rounds of least squares, at most.
const MOST_ROUNDS: usize = 40;
/// What is added to the diagonal of their matrix, as a part of its sum: a number that only a direction
/// without any hold feels.
const DAMPING: f64 = 1e-9;

impl<'a> Target<'a> {
    /// The target of these segments.
    pub fn new(segments: impl IntoIterator<Item = &'a Segment>) -> Self {
        Self {
            tree: SegmentTree::new(segments),
        }
    }

    /// The mean distance of the points, laid like this, from the target; none counts for more than `far`.
    pub fn mean_distance(&self, places: &[Point], lying: &Lying, far: f64) -> f64 {
        self.mean_distance_moved(places, &lying.motion(), far)
    }

    /// The same with the points moved.
    pub fn mean_distance_moved(&self, places: &[Point], motion: &Motion, far: f64) -> f64 {
        let mut sum = 0.0;
        let mut count = 0.0;
        for place in places {
            let beside = self.beside(motion.point(*place));
            sum += beside.map_or(far, |beside| beside.distance.min(far));
            count += 1.0;
        }
        if count > 0.0 { sum / count } else { far }
    }

    /// The points laid as near to the target as the bulk of them will go, starting from a guess: what strays
    /// hardly counts, so that a few edges that are wrong do not draw the others off their places.
    ///
    /// # Accuracy
    /// Where the bulk fits exactly, to rounding. It finds the fit nearest to the guess, which should be
    /// within some ten degrees.
    ///
    /// # Source
    /// Least squares on the distances from tangents (Chen and Medioni, "Object modelling by registration of
    /// multiple range images", Image and Vision Computing 10 (1992) 145–155), with weights after Geman
    /// and `McClure` about three times the median distance.
    pub fn laid(&self, places: &[Point], guess: Lying) -> Lying {
        let mut lying = guess;
        for _ in 0..MOST_ROUNDS {
            let Some((next, moved)) = self.round(places, &lying) else {
                break;
            };
            lying = next;
            if moved < tolerance::SAME_POINT / 1000.0 {
                break;
            }
        }
        lying
    }

    /// One round, and how far it moved the points at most.
    fn round(&self, places: &[Point], lying: &Lying) -> Option<(Lying, f64)> {
        let motion = lying.motion();
        let laid: Vec<(Point, Beside)> = places
            .iter()
            .filter_map(|place| {
                let at = motion.point(*place);
                self.beside(at).map(|beside| (at, beside))
            })
            .collect();
        let scale = scale(&laid);
        let centre = mean(laid.iter().map(|(at, _)| *at))?;
        let reach = laid
            .iter()
            .map(|(at, _)| number::length(*at - centre))
            .fold(0.0, f64::max);
        if reach <= 0.0 {
            return None;
        }
        // the turn is counted as the way of the furthest point, so that all three have one size
        let mut matrix = [[0.0; 3]; 3];
        let mut right = [0.0; 3];
        for (at, beside) in &laid {
            let lever = number::left_normal(*at - centre) / reach;
            let row = [lever.dot(beside.normal), beside.normal.x, beside.normal.y];
            let strays = beside.distance / scale;
            let weight = 1.0 / ((1.0 + strays * strays) * (1.0 + strays * strays));
            for (i, one) in row.iter().enumerate() {
                for (j, other) in row.iter().enumerate() {
                    matrix[i][j] += weight * one * other;
                }
                right[i] -= weight * one * beside.off;
            }
        }
        // a disc may be turned, and an edge alone shifted, without any change
        let damping = DAMPING * (matrix[0][0] + matrix[1][1] + matrix[2][2]);
        for (i, row) in matrix.iter_mut().enumerate() {
            row[i] += damping;
        }
        let [turned, x, y] = solve(matrix, right)?;
        let angle = turned / reach;
        let about = centre.to_vec2();
        let next = Lying {
            turn: lying.turn + angle,
            shift: about + number::rotated(lying.shift - about, angle) + Vec2::new(x, y),
            ..*lying
        };
        Some((next, turned.abs() + x.abs() + y.abs()))
    }

    fn beside(&self, at: Point) -> Option<Beside> {
        let mut best: Option<(f64, Point, &Segment)> = None;
        for (index, at_least) in self.tree.by_distance(at) {
            if best.is_some_and(|(distance, ..)| at_least > distance) {
                break;
            }
            let Some(segment) = self.tree.segment(index) else {
                continue;
            };
            let nearest = segment.nearest_point(at);
            let distance = number::length(nearest - at);
            if best.is_none_or(|(least, ..)| distance < least) {
                best = Some((distance, nearest, segment));
            }
        }
        let (distance, nearest, segment) = best?;
        let fraction = segment.fraction_near(nearest);
        let square = number::left_normal(segment.direction_at(fraction));
        let is_end = fraction <= 0.0 || fraction >= 1.0;
        let normal = match number::normalized(at - nearest) {
            // from an end the straight way there, unless rounding would choose it
            Some(way) if is_end && distance > tolerance::SAME_POINT => way,
            _ => square,
        };
        Some(Beside {
            distance,
            off: (at - nearest).dot(normal),
            normal,
        })
    }
}

/// How far a point may stray and still count: three times the median.
fn scale(laid: &[(Point, Beside)]) -> f64 {
    let mut distances: Vec<f64> = laid.iter().map(|(_, beside)| beside.distance).collect();
    distances.sort_by(f64::total_cmp);
    let median = distances.get(distances.len() / 2).copied();
    (3.0 * median.unwrap_or(0.0)).max(tolerance::SAME_POINT)
}

fn mean(points: impl Iterator<Item = Point>) -> Option<Point> {
    let mut sum = Vec2::ZERO;
    let mut count = 0.0;
    for point in points {
        sum += point.to_vec2();
        count += 1.0;
    }
    (count > 0.0).then(|| (sum / count).to_point())
}

/// Gauss's elimination of a symmetric positive matrix.
fn solve(mut matrix: [[f64; 3]; 3], mut right: [f64; 3]) -> Option<[f64; 3]> {
    for i in 0..3 {
        let pivot = matrix[i][i];
        if pivot.is_nan() || pivot <= 0.0 {
            return None;
        }
        for below in i + 1..3 {
            let factor = matrix[below][i] / pivot;
            let row = matrix[i];
            for (value, above) in matrix[below].iter_mut().zip(row) {
                *value -= factor * above;
            }
            right[below] -= factor * right[i];
        }
    }
    let z = right[2] / matrix[2][2];
    let y = (right[1] - matrix[1][2] * z) / matrix[1][1];
    let x = (right[0] - matrix[0][1] * y - matrix[0][2] * z) / matrix[0][0];
    [x, y, z]
        .iter()
        .all(|value| value.is_finite())
        .then_some([x, y, z])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;
    use crate::geometry::Contour;
    use crate::geometry::SourceId;

    /// A bracket with three holes, of no symmetry.
    fn bracket() -> Vec<Segment> {
        let corners = [
            (0.0, 0.0),
            (160.0, 0.0),
            (160.0, 40.0),
            (60.0, 90.0),
            (0.0, 90.0),
        ];
        let outline = Contour::polygon(&corners.map(Point::from)).expect("closed");
        let mut all: Vec<Segment> = outline.segments().copied().collect();
        for (x, y, radius) in [(20.0, 20.0, 6.0), (140.0, 20.0, 6.0), (25.0, 70.0, 9.0)] {
            all.push(Segment::Arc(Arc::circle(Point::new(x, y), radius)));
        }
        all
    }

    fn moved(segments: &[Segment], motion: &Motion) -> Vec<Segment> {
        segments
            .iter()
            .map(|segment| motion.segment(segment))
            .collect()
    }

    #[test]
    fn a_turn_and_a_shift_are_found_to_rounding() {
        let design = bracket();
        let target = Target::new(&design);
        for degrees in [-9.0_f64, -2.0, 0.3, 5.0, 11.0] {
            let motion =
                Motion::turn(degrees.to_radians()).then(&Motion::shift(Vec2::new(4.0, -3.0)));
            let drawn = moved(&design, &motion);
            let lying = target.laid(&places(&drawn, 400), Lying::AS_DRAWN);
            assert!(
                (lying.turn + degrees.to_radians()).abs() < 1e-9,
                "{degrees}: {lying:?}"
            );
            let corner = lying.motion().point(motion.point(Point::new(160.0, 40.0)));
            let off = number::length(corner - Point::new(160.0, 40.0));
            assert!(off < 1e-7, "{degrees}: {off}");
        }
    }

    #[test]
    fn one_wrong_hole_does_not_draw_the_rest_off() {
        let design = bracket();
        let target = Target::new(&design);
        let mut drawn = design.clone();
        let last = drawn.len() - 1;
        drawn[last] = Segment::Arc(Arc::circle(Point::new(26.0, 70.5), 9.0));
        let motion = Motion::turn(0.1).then(&Motion::shift(Vec2::new(1.0, 2.0)));
        let lying = target.laid(&places(&moved(&drawn, &motion), 400), Lying::AS_DRAWN);
        assert!((lying.turn + 0.1).abs() < 1e-8, "{lying:?}");
    }

    #[test]
    fn a_disc_is_laid_on_a_disc_whatever_its_turn() {
        let circle = |x: f64, y: f64| {
            Contour::circle(Point::new(x, y), 30.0, SourceId::UNTRACED).expect("a circle")
        };
        let design: Vec<Segment> = circle(0.0, 0.0).segments().copied().collect();
        let drawn: Vec<Segment> = circle(5.0, 7.0).segments().copied().collect();
        let target = Target::new(&design);
        let lying = target.laid(&places(&drawn, 100), Lying::AS_DRAWN);
        let centre = lying.motion().point(Point::new(5.0, 7.0));
        assert!(
            number::length(centre.to_vec2()) < 1e-8,
            "{lying:?} {centre:?}"
        );
    }
}
