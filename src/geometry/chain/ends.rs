//! Which end meets which.

use super::Member;
use crate::geometry::Point;
use crate::geometry::number;

/// Most ends in one place that are compared with each other.
const MOST_IN_ONE_PLACE: usize = 16;

/// The ends of runs: the start of run i has the number 2i, its end 2i + 1.
pub(super) struct Ends<'a> {
    runs: &'a [(Point, Point)],
    partner: Vec<Option<usize>>,
    /// The chain each run is in, as a forest.
    parent: Vec<usize>,
}

/// The cell that an end lies in, and its number.
type Celled = (f64, f64, usize);

/// Two free ends near each other.
#[derive(Clone, Copy)]
struct Pair {
    distance: f64,
    first: usize,
    second: usize,
}

impl<'a> Ends<'a> {
    pub(super) fn new(runs: &'a [(Point, Point)]) -> Self {
        Self {
            runs,
            partner: vec![None; runs.len() * 2],
            parent: (0..runs.len()).collect(),
        }
    }

    fn place(&self, end: usize) -> Point {
        let (start, last) = self.runs.get(end / 2).copied().unwrap_or_default();
        if end.is_multiple_of(2) { start } else { last }
    }

    fn is_free(&self, end: usize) -> bool {
        self.partner.get(end).is_some_and(Option::is_none)
    }

    fn root(&mut self, run: usize) -> usize {
        let mut at = run;
        while let Some(&up) = self.parent.get(at)
            && up != at
        {
            let above = self.parent.get(up).copied().unwrap_or(up);
            if let Some(parent) = self.parent.get_mut(at) {
                *parent = above;
            }
            at = above;
        }
        at
    }

    fn link(&mut self, pair: &Pair) {
        for (end, other) in [(pair.first, pair.second), (pair.second, pair.first)] {
            if let Some(partner) = self.partner.get_mut(end) {
                *partner = Some(other);
            }
        }
        let (one, other) = (self.root(pair.first / 2), self.root(pair.second / 2));
        if let Some(parent) = self.parent.get_mut(other) {
            *parent = one;
        }
    }

    /// Links free ends within `reach` of each other.
    pub(super) fn link_within(&mut self, reach: f64) {
        let pairs = self.pairs(reach);
        let mut crowd = vec![0_u32; self.partner.len()];
        for end in pairs.iter().flat_map(|pair| [pair.first, pair.second]) {
            if let Some(count) = crowd.get_mut(end) {
                *count += 1;
            }
        }
        let alone = |end: usize| crowd.get(end) == Some(&1);
        let (plain, mut crowded): (Vec<Pair>, Vec<Pair>) = pairs
            .into_iter()
            .partition(|pair| alone(pair.first) && alone(pair.second));
        for pair in &plain {
            self.link(pair);
        }
        // where more than two meet: what closes a chain first, then by distance and order in the list
        crowded.sort_by(|a, b| {
            let order = |pair: &Pair| (pair.first / 2).abs_diff(pair.second / 2);
            a.distance
                .total_cmp(&b.distance)
                .then(order(a).cmp(&order(b)))
                .then((a.first, a.second).cmp(&(b.first, b.second)))
        });
        for only_closing in [true, false] {
            for pair in &crowded {
                let free = self.is_free(pair.first) && self.is_free(pair.second);
                if !free {
                    continue;
                }
                let closes = self.root(pair.first / 2) == self.root(pair.second / 2);
                if closes || !only_closing {
                    self.link(pair);
                }
            }
        }
    }

    /// Pairs of free ends within reach, each once. Distances within what counts as a joint of a file are
    /// all the same.
    fn pairs(&self, reach: f64) -> Vec<Pair> {
        let cell = |value: f64| (value / reach).floor();
        let mut sorted: Vec<Celled> = (0..self.partner.len())
            .filter(|&end| self.is_free(end))
            .map(|end| {
                let at = self.place(end);
                (cell(at.x), cell(at.y), end)
            })
            .collect();
        let order = |a: &Celled, b: &Celled| {
            let by_cell = a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1));
            by_cell.then(a.2.cmp(&b.2))
        };
        sorted.sort_by(order);
        let mut pairs = Vec::new();
        for (at, &(x, y, end)) in sorted.iter().enumerate() {
            // each pair once: within the own cell those after, then half of the cells around
            let own = sorted.get(at + 1..).unwrap_or_default();
            self.offer((own, (x, y)), end, reach, &mut pairs);
            for (dx, dy) in [(0.0, 1.0), (1.0, -1.0), (1.0, 0.0), (1.0, 1.0)] {
                let there = (x + dx, y + dy);
                let first = sorted.partition_point(|entry| {
                    order(entry, &(there.0, there.1, 0)) == std::cmp::Ordering::Less
                });
                let others = sorted.get(first..).unwrap_or_default();
                self.offer((others, there), end, reach, &mut pairs);
            }
        }
        pairs
    }

    fn offer(
        &self,
        (others, cell): (&[Celled], (f64, f64)),
        end: usize,
        reach: f64,
        pairs: &mut Vec<Pair>,
    ) {
        let here = self.place(end);
        let in_cell = others
            .iter()
            .take_while(|other| (other.0, other.1) == cell)
            .take(MOST_IN_ONE_PLACE);
        for &(_, _, other) in in_cell {
            let distance = number::length(self.place(other) - here);
            // the two ends of a run shorter than the reach do not close it
            let same_run = end / 2 == other / 2;
            if distance <= reach && !(same_run && distance > crate::geometry::tolerance::FILE_JOINT)
            {
                let distance = if distance <= crate::geometry::tolerance::FILE_JOINT {
                    0.0
                } else {
                    distance
                };
                pairs.push(Pair {
                    distance,
                    first: end,
                    second: other,
                });
            }
        }
    }

    /// The members of the chain that the run is in, in order of travel; the run's own way is kept.
    pub(super) fn chain_through(&self, run: usize) -> Vec<Member> {
        let forward = self.walk(2 * run + 1, run);
        let rings = forward.last().is_some_and(|&(_, back)| back);
        let mut members = Vec::new();
        if !rings {
            let behind = self.walk(2 * run, run);
            members.extend(behind.iter().rev().map(|&(member, _)| Member {
                reversed: !member.reversed,
                ..member
            }));
        }
        members.push(Member {
            index: run,
            reversed: false,
        });
        members.extend(
            forward
                .iter()
                .filter(|(member, _)| member.index != run)
                .map(|&(member, _)| member),
        );
        members
    }

    /// The runs beyond an end, one after another; the flag is set when the walk is back at its start.
    fn walk(&self, from: usize, start: usize) -> Vec<(Member, bool)> {
        let mut found = Vec::new();
        let mut end = from;
        while let Some(&Some(next)) = self.partner.get(end) {
            let member = Member {
                index: next / 2,
                reversed: !next.is_multiple_of(2),
            };
            let back = member.index == start;
            found.push((member, back));
            if back {
                break;
            }
            end = next ^ 1;
        }
        found
    }

    /// Whether the chain's last member leads back to its first.
    pub(super) fn is_ring(&self, members: &[Member]) -> bool {
        let (Some(first), Some(last)) = (members.first(), members.last()) else {
            return false;
        };
        let start = 2 * first.index + usize::from(first.reversed);
        let end = 2 * last.index + usize::from(!last.reversed);
        self.partner.get(end) == Some(&Some(start))
    }
}
