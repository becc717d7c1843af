//! How a drawing may lie as against a part: first guesses, the best of which are improved.

use crate::geometry::Contour;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::lay;
use crate::geometry::lay::Lying;
use crate::geometry::lay::Target;
use crate::geometry::moments::Moments;
use crate::geometry::moments::PrincipalAxes;
use crate::geometry::number;

/// Points of the drawing by which guesses are compared, and by which the best are improved; about.
const FEW: usize = 120;
const MANY: usize = 1200;
/// So many guesses are improved and measured.
const MOST_IMPROVED: usize = 5;
/// So many quarter turns are measured as they are.
const MOST_QUARTERS: usize = 2;
/// Two guesses within this turn are one, in radians.
const SAME_TURN: f64 = 0.01;
/// Edges and distances of the drawing and the part that differ by less than this part of the part's size
/// may be the same.
const ALIKE: f64 = 0.02;
/// So many edges and openings of the drawing are tried on one of the part.
const MOST_ALIKE: usize = 8;

/// Points of drawing and part beyond this distance, as a part of the size of the part, count as not found.
const NOT_FOUND: f64 = 0.002;

/// A way in which a drawing may lie.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    pub(super) lying: Lying,
    /// How much of drawing and part is not found in the other: mean distance, in which what is not found
    /// counts for no more than that, so that one opening that is missing does not turn all the rest round.
    pub(super) off: f64,
}

impl Way {
    /// As drawn, whatever it finds.
    pub(super) const AS_DRAWN: Self = Self {
        lying: Lying::AS_DRAWN,
        off: f64::INFINITY,
    };
}

/// What a shape is known by from afar.
struct Marks {
    bounds: Rect,
    centroid: Point,
    axis: Option<Vec2>,
    /// Straight edges, longest first.
    edges: Vec<Vec2>,
    /// From the centroid to the middle of each opening, farthest first.
    openings: Vec<Vec2>,
}

impl Marks {
    fn of(region: &Region) -> Self {
        let moments = Moments::of_region(region).ok();
        let bounds = region.bounds();
        let centroid = moments.map_or(bounds.center(), |moments| moments.centroid);
        let axis = moments.and_then(|moments| match moments.principal_axes() {
            PrincipalAxes::Two { direction, .. } => Some(direction),
            PrincipalAxes::Any { .. } => None,
        });
        let mut edges: Vec<Vec2> = region
            .contours()
            .flat_map(Contour::segments)
            .filter_map(|segment| match segment {
                Segment::Line(line) => Some(line.end - line.start),
                Segment::Arc(_) => None,
            })
            .collect();
        let holes = region.holes().iter();
        let mut openings: Vec<Vec2> = holes
            .map(|hole| hole.bounds().center() - centroid)
            .collect();
        for list in [&mut edges, &mut openings] {
            list.sort_by(|a, b| number::length(*b).total_cmp(&number::length(*a)));
        }
        Self {
            bounds,
            centroid,
            axis,
            edges,
            openings,
        }
    }

    /// The turns that could lay this on the other.
    fn turns_onto(&self, other: &Self) -> Vec<f64> {
        let mut turns = Vec::new();
        let mut offer = |from: Vec2, to: Vec2| {
            let turn = number::turn(from, to);
            turns.extend([turn, turn + number::HALF_TURN].map(number::positive_angle));
        };
        if let (Some(from), Some(to)) = (self.axis, other.axis) {
            offer(from, to);
        }
        let size = number::length(other.bounds.size().to_vec2());
        let mut alike = |own: &[Vec2], others: &[Vec2]| {
            // of several that are as long the second may be the one that was not changed
            for to in others.iter().take(2) {
                let length = number::length(*to);
                own.iter()
                    .filter(|from| (number::length(**from) - length).abs() < ALIKE * size)
                    .take(MOST_ALIKE)
                    .for_each(|from| offer(*from, *to));
            }
        };
        alike(&self.edges, &other.edges);
        alike(&self.openings, &other.openings);
        turns
    }
}

/// The ways in which `drawn` may lie on the part that are worth being measured, as drawn first, then exact
/// quarter turns, then others. `regions` is the material of the drawing and `design` that of the part.
pub(super) fn ways(drawn: &[Segment], regions: &[Region], design: &Region) -> Vec<Way> {
    let part = Marks::of(design);
    let edge: Vec<Segment> = design
        .contours()
        .flat_map(Contour::segments)
        .copied()
        .collect();
    let target = Target::new(&edge);
    let few = lay::places(drawn, FEW);
    let size = number::length(part.bounds.size().to_vec2());
    let Guesses { quarters, any } = guesses(drawn, regions, &part);
    let best = |list: Vec<Lying>, most: usize| {
        let rate = |lying: &Lying| target.mean_distance(&few, lying, size / 20.0);
        apart(list, rate, most)
    };
    let many = lay::places(drawn, MANY);
    let mut lyings = vec![Lying::AS_DRAWN];
    lyings.extend(best(quarters, MOST_QUARTERS));
    let improved = best(any, MOST_IMPROVED).into_iter();
    lyings.extend(improved.map(|guess| target.laid(&many, guess)));
    let back = Target::new(drawn);
    let own = lay::places(&edge, MANY);
    let rated = |lying: Lying| {
        let far = NOT_FOUND * size;
        let there = target.mean_distance(&many, &lying, far);
        let motion = lying.motion().inverse();
        let off = there + back.mean_distance_moved(&own, &motion, far);
        Way { lying, off }
    };
    lyings.into_iter().map(rated).collect()
}

struct Guesses {
    quarters: Vec<Lying>,
    any: Vec<Lying>,
}

/// First guesses: quarter turns by the bounds, other turns by the centroid.
fn guesses(drawn: &[Segment], regions: &[Region], part: &Marks) -> Guesses {
    let mut guesses = Guesses {
        quarters: Vec::new(),
        any: Vec::new(),
    };
    let by_area = |a: &&Region, b: &&Region| a.area().total_cmp(&b.area());
    let Some(largest) = regions.iter().max_by(by_area) else {
        return guesses;
    };
    let own_bounds = bounds(drawn).unwrap_or(part.bounds);
    for mirrored in [false, true] {
        let turned = |turn: f64| Lying {
            mirrored,
            turn,
            ..Lying::AS_DRAWN
        };
        let own = Marks::of(&turned(0.0).motion().region(largest));
        for quarter in 0..4_u8 {
            let lying = turned(f64::from(quarter) * number::QUARTER_TURN);
            let lies = moved(&lying.motion(), own_bounds);
            let shift = part.bounds.center() - lies.center();
            guesses.quarters.push(Lying { shift, ..lying });
            guesses.any.push(Lying { shift, ..lying });
        }
        for turn in own.turns_onto(part) {
            let centroid = number::rotated(own.centroid.to_vec2(), turn);
            let shift = part.centroid.to_vec2() - centroid;
            guesses.any.push(Lying {
                shift,
                ..turned(turn)
            });
        }
    }
    guesses
}

/// The best of the list that are not nearly the same.
fn apart(list: Vec<Lying>, rate: impl Fn(&Lying) -> f64, most: usize) -> Vec<Lying> {
    let mut rated: Vec<(f64, Lying)> = list
        .into_iter()
        .map(|lying| (rate(&lying), lying))
        .collect();
    rated.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut chosen: Vec<Lying> = Vec::new();
    for (_, lying) in rated {
        let near = |other: &Lying| {
            let apart = number::positive_angle(other.turn - lying.turn);
            other.mirrored == lying.mirrored && apart.min(number::FULL_TURN - apart) < SAME_TURN
        };
        if chosen.len() < most && !chosen.iter().any(near) {
            chosen.push(lying);
        }
    }
    chosen
}

/// The bounds of segments.
fn bounds(segments: &[Segment]) -> Option<Rect> {
    let all = segments.iter().map(Segment::bounds);
    all.reduce(|sum, bounds| sum.union(bounds))
}

fn moved(motion: &Motion, bounds: Rect) -> Rect {
    let corner = |x: f64, y: f64| motion.point(Point::new(x, y));
    Rect::from_points(corner(bounds.x0, bounds.y0), corner(bounds.x1, bounds.y1))
}
