//! A short way through many stops: nearest stop first, then exchanges of two edges and moves of short
//! stretches until neither shortens the way.
//!
//! # Source
//! Exchanges with lists of neighbours and marks of stops that need no look: Bentley, "Fast algorithms for
//! geometric traveling salesman problems", ORSA Journal on Computing 4 (1992) 387-411; moves of stretches
//! of up to three: Or 1976. Both from memory; the result is held against a bound computed elsewhere
//! (`tests/oracles/tool_path.py`).

use crate::geometry::Point;
use crate::geometry::bounds_tree::BoundsTree;
use crate::geometry::number;

use super::waste::point_bounds;

/// How many near stops are considered beside each.
const NEIGHBOURS: usize = 10;

/// Stretches of up to so many stops are moved.
const LONGEST_MOVED: usize = 3;

/// Less than this is no gain, in millimetres.
const GAIN: f64 = 1e-7;

/// The order in which to visit the places, from `from` and, if it is given, to `to`.
///
/// # Accuracy
/// Within a few per cent of the shortest way for hundreds of places, and found again bit for bit.
pub fn short_order(places: &[Point], from: Point, to: Option<Point>) -> Vec<usize> {
    let mut tour = Tour::new(places, from, to);
    tour.start();
    tour.improve();
    let count = places.len();
    tour.order
        .into_iter()
        .filter(|&stop| stop < count)
        .collect()
}

/// Stops in order; the first is the start and the last the end, and neither moves. The places have the
/// numbers 0 … n − 1, the start n, the end n + 1.
struct Tour {
    points: Vec<Point>,
    /// Whether the way ends wherever its last stop is: the end is then no distance from anything.
    open_end: bool,
    order: Vec<usize>,
    /// Place in the order of each stop.
    position: Vec<usize>,
    near: Vec<Vec<usize>>,
}

impl Tour {
    fn new(places: &[Point], from: Point, to: Option<Point>) -> Self {
        let mut points = places.to_vec();
        points.push(from);
        points.push(to.unwrap_or(from));
        let tree = BoundsTree::new(places.iter().map(|&at| point_bounds(at)));
        let near = places.iter().enumerate().map(|(own, &at)| {
            let others = tree.by_distance(at).map(|(other, _)| other);
            others
                .filter(|&other| other != own)
                .take(NEIGHBOURS)
                .collect()
        });
        let near = near.collect();
        Self {
            position: vec![0; points.len()],
            order: Vec::with_capacity(points.len()),
            open_end: to.is_none(),
            points,
            near,
        }
    }

    const fn end(&self) -> usize {
        self.points.len() - 1
    }

    fn distance(&self, a: usize, b: usize) -> f64 {
        if self.open_end && (a == self.end() || b == self.end()) {
            return 0.0;
        }
        number::length(self.points[a] - self.points[b])
    }

    /// Always on to the nearest stop that is left.
    fn start(&mut self) {
        let count = self.near.len();
        let mut left: Vec<usize> = (0..count).collect();
        let mut here = count;
        self.order.push(here);
        while !left.is_empty() {
            let at = self.points[here];
            let mut nearest = (f64::INFINITY, 0);
            for (index, &stop) in left.iter().enumerate() {
                let square = (self.points[stop] - at).hypot2();
                if square < nearest.0 {
                    nearest = (square, index);
                }
            }
            here = left.swap_remove(nearest.1);
            self.order.push(here);
        }
        self.order.push(self.end());
        self.number_from(0, self.order.len());
    }

    fn number_from(&mut self, from: usize, to: usize) {
        for place in from..to {
            self.position[self.order[place]] = place;
        }
    }

    fn improve(&mut self) {
        let count = self.near.len();
        let mut open: Vec<usize> = self.order[1..=count].iter().rev().copied().collect();
        let mut waits = vec![true; self.points.len()];
        while let Some(stop) = open.pop() {
            waits[stop] = false;
            while let Some(touched) = self.exchange(stop).or_else(|| self.moved(stop)) {
                for other in touched {
                    if other < count && !waits[other] {
                        waits[other] = true;
                        open.push(other);
                    }
                }
            }
        }
    }

    /// An exchange of two edges, one of them at the stop, that shortens the way.
    fn exchange(&mut self, stop: usize) -> Option<[usize; 4]> {
        let here = self.position[stop];
        for ahead in [true, false] {
            let beside = self.order[if ahead { here + 1 } else { here - 1 }];
            let own = self.distance(stop, beside);
            for index in 0..self.near[stop].len() {
                let other = self.near[stop][index];
                let joined = self.distance(stop, other);
                if joined >= own {
                    break;
                }
                let there = self.position[other];
                let beyond = self.order[if ahead { there + 1 } else { there - 1 }];
                let gain =
                    own + self.distance(other, beyond) - joined - self.distance(beside, beyond);
                if gain <= GAIN {
                    continue;
                }
                let (first, last) = if here < there {
                    (here, there)
                } else {
                    (there, here)
                };
                // edges that leave the two ahead, or those that reach them
                let (from, to) = if ahead {
                    (first + 1, last)
                } else {
                    (first, last - 1)
                };
                self.order[from..=to].reverse();
                self.number_from(from, to + 1);
                return Some([stop, beside, other, beyond]);
            }
        }
        None
    }

    /// A move of a short stretch that starts or ends at the stop to beside one of its neighbours.
    fn moved(&mut self, stop: usize) -> Option<[usize; 4]> {
        let here = self.position[stop];
        let last_place = self.order.len() - 2;
        for length in 1..=LONGEST_MOVED {
            for starts in [true, false] {
                let (from, to) = if starts {
                    (here, here + length - 1)
                } else {
                    if here < length {
                        continue;
                    }
                    (here + 1 - length, here)
                };
                if to > last_place || from < 1 {
                    continue;
                }
                if let Some(touched) = self.move_stretch(stop, from, to) {
                    return Some(touched);
                }
            }
        }
        None
    }

    fn move_stretch(&mut self, stop: usize, from: usize, to: usize) -> Option<[usize; 4]> {
        let (before, after) = (self.order[from - 1], self.order[to + 1]);
        let (first, last) = (self.order[from], self.order[to]);
        let other_end = if stop == first { last } else { first };
        let freed = self.distance(before, first) + self.distance(last, after)
            - self.distance(before, after);
        for index in 0..self.near[stop].len() {
            let neighbour = self.near[stop][index];
            let joined = self.distance(stop, neighbour);
            if joined >= freed {
                break;
            }
            let there = self.position[neighbour];
            if (from..=to).contains(&there) {
                continue;
            }
            for ahead in [true, false] {
                // between the neighbour and the stop ahead of it, or the one behind
                let (left, right) = if ahead {
                    (there, there + 1)
                } else {
                    (there - 1, there)
                };
                if right == from
                    || left == to
                    || (from..=to).contains(&left)
                    || (from..=to).contains(&right)
                {
                    continue;
                }
                let beyond = self.order[if ahead { right } else { left }];
                let added =
                    joined + self.distance(other_end, beyond) - self.distance(neighbour, beyond);
                if freed - added <= GAIN {
                    continue;
                }
                // the stop comes next to the neighbour
                let reversed = if ahead { stop != first } else { stop != last };
                self.put(from, to, left, reversed);
                return Some([before, after, neighbour, beyond]);
            }
        }
        None
    }

    /// Takes the stretch out and puts it in behind the place `left`, which is not part of it.
    fn put(&mut self, from: usize, to: usize, left: usize, reversed: bool) {
        if reversed {
            self.order[from..=to].reverse();
        }
        let length = to - from + 1;
        if left > to {
            self.order[from..=left].rotate_left(length);
            self.number_from(from, left + 1);
        } else {
            self.order[left + 1..=to].rotate_right(length);
            self.number_from(left + 1, to + 1);
        }
    }
}
