//! The order of the work: lines to mark first, then every opening before the outside, each with a short
//! way between the cuts.

use super::cut::Cut;
use super::route::Side;
use super::tour;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::number;

/// One way to make a cut.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    pub(super) cut: Cut,
    /// Length of its lead, see [`LeadIn`](super::lead::LeadIn).
    pub(super) lead_length: f64,
}

/// The ways between the cuts, with the tool up, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Travel {
    /// In the order chosen.
    pub length: f64,
    /// In the order of the design file, openings before the outside.
    pub as_written: f64,
}

impl Travel {
    /// The part of the way that the order saves, 0 … 1.
    pub fn saving(&self) -> f64 {
        if self.as_written > 0.0 {
            (1.0 - self.length / self.as_written).max(0.0)
        } else {
            0.0
        }
    }
}

/// Everything in the order of work.
#[derive(Debug)]
pub(super) struct Arranged {
    pub(super) marks: Vec<Path>,
    pub(super) cuts: Vec<Candidate>,
    pub(super) travel: Travel,
}

/// What is done on one part: lines to mark, and cuts, each with the ways to make it.
#[derive(Clone, Debug)]
pub(super) struct Group {
    pub(super) marks: Vec<Path>,
    pub(super) cuts: Vec<Vec<Candidate>>,
}

/// Puts marks and cuts in order, starting at `rest`: all lines to mark, then part by part; of each cut the
/// candidate nearest to the way is taken.
pub(super) fn arrange(groups: &[Group], rest: Point) -> Arranged {
    let written_marks: Vec<Path> = groups.iter().flat_map(|g| g.marks.clone()).collect();
    let marks = in_order_of_marks(&written_marks, rest);
    let from = marks.last().map_or(rest, Path::end);
    let middles: Vec<Point> = groups.iter().map(|group| middle(group, from)).collect();
    let mut here = from;
    let mut cuts = Vec::new();
    let mut chosen = vec![Vec::new(); groups.len()];
    for index in tour::short_order(&middles, from, None) {
        let own = one_part(&groups[index].cuts, here);
        here = own.last().map_or(here, |candidate| candidate.cut.end());
        cuts.extend(own.iter().cloned());
        chosen[index] = own;
    }
    let as_written: Vec<Candidate> = groups
        .iter()
        .zip(&chosen)
        .flat_map(|(group, chosen)| as_written(&group.cuts, chosen))
        .collect();
    let travel = Travel {
        length: way(&marks, &cuts, rest),
        as_written: way(&written_marks, &as_written, rest),
    };
    // what somebody wrote may already be as short as it gets
    if travel.as_written < travel.length {
        return Arranged {
            marks: written_marks,
            cuts: as_written,
            travel: Travel {
                length: travel.as_written,
                ..travel
            },
        };
    }
    Arranged {
        marks,
        cuts,
        travel,
    }
}

/// The middle of where the cuts of a part start.
fn middle(group: &Group, or: Point) -> Point {
    let first = group
        .cuts
        .iter()
        .filter_map(|candidates| candidates.first());
    let starts = first.map(|candidate| candidate.cut.start());
    let bounds = starts
        .map(|at| Rect::from_points(at, at))
        .reduce(|sum, at| sum.union(at));
    bounds.map_or(or, |bounds| bounds.center())
}

/// The cuts of one part: openings before the outside.
fn one_part(prepared: &[Vec<Candidate>], from: Point) -> Vec<Candidate> {
    let first = |candidates: &&Vec<Candidate>, side: bool| {
        candidates
            .first()
            .is_some_and(|candidate| (candidate.cut.side == Side::Outside) == side)
    };
    let insides: Vec<&Vec<Candidate>> = prepared.iter().filter(|c| first(c, false)).collect();
    let outsides: Vec<&Vec<Candidate>> = prepared.iter().filter(|c| first(c, true)).collect();
    // one outside cut is where the openings end; several have an order of their own
    let to = match outsides.as_slice() {
        [only] => only.first().map(|candidate| candidate.cut.start()),
        _ => None,
    };
    let mut cuts = level(&insides, from, to);
    let then = cuts.last().map_or(from, |candidate| candidate.cut.end());
    cuts.extend(level(&outsides, then, None));
    cuts
}

/// The cuts of one level in a short order.
fn level(prepared: &[&Vec<Candidate>], from: Point, to: Option<Point>) -> Vec<Candidate> {
    let middle = |candidates: &&Vec<Candidate>| {
        candidates.first().map_or(from, |candidate| {
            candidate.cut.start().midpoint(candidate.cut.end())
        })
    };
    let places: Vec<Point> = prepared.iter().map(middle).collect();
    let order = tour::short_order(&places, from, to);
    let mut chosen: Vec<(usize, usize)> = order.into_iter().map(|stop| (stop, 0)).collect();
    // twice, since the first time the next cut may still move
    for _ in 0..2 {
        for place in 0..chosen.len() {
            let cut_at = |place: usize| {
                let (stop, candidate) = chosen[place];
                prepared[stop]
                    .get(candidate)
                    .map(|candidate| &candidate.cut)
            };
            let before = match place {
                0 => from,
                _ => cut_at(place - 1).map_or(from, Cut::end),
            };
            let after = if place + 1 < chosen.len() {
                cut_at(place + 1).map(Cut::start)
            } else {
                to
            };
            let way = |candidate: &Candidate| {
                let there = number::length(candidate.cut.start() - before);
                let on = after.map_or(0.0, |after| number::length(after - candidate.cut.end()));
                there + on
            };
            let own = prepared[chosen[place].0].iter().enumerate();
            let best = own.min_by(|a, b| way(a.1).total_cmp(&way(b.1)));
            if let Some((candidate, _)) = best {
                chosen[place].1 = candidate;
            }
        }
    }
    chosen
        .into_iter()
        .filter_map(|(stop, candidate)| prepared[stop].get(candidate).cloned())
        .collect()
}

/// The chosen cuts in the order in which they were prepared.
fn as_written(prepared: &[Vec<Candidate>], chosen: &[Candidate]) -> Vec<Candidate> {
    let place = |cut: &Cut| {
        prepared
            .iter()
            .position(|candidates| candidates.iter().any(|candidate| candidate.cut == *cut))
    };
    let mut numbered: Vec<(Option<usize>, &Candidate)> = chosen
        .iter()
        .map(|candidate| (place(&candidate.cut), candidate))
        .collect();
    numbered.sort_by_key(|(place, _)| *place);
    numbered
        .into_iter()
        .map(|(_, candidate)| candidate.clone())
        .collect()
}

fn way(marks: &[Path], cuts: &[Candidate], rest: Point) -> f64 {
    let mut here = rest;
    let mut length = 0.0;
    let marks = marks.iter().map(|mark| (mark.start(), mark.end()));
    let cuts = cuts
        .iter()
        .map(|candidate| (candidate.cut.start(), candidate.cut.end()));
    for (start, end) in marks.chain(cuts) {
        length += number::length(start - here);
        here = end;
    }
    length
}

/// Lines to mark in a short order, each from its nearer end.
fn in_order_of_marks(marks: &[Path], rest: Point) -> Vec<Path> {
    let places: Vec<Point> = marks
        .iter()
        .map(|mark| mark.start().midpoint(mark.end()))
        .collect();
    let mut here = rest;
    tour::short_order(&places, rest, None)
        .into_iter()
        .filter_map(|stop| marks.get(stop))
        .map(|mark| {
            let away = |at: Point| number::length(at - here);
            let mark = if away(mark.end()) < away(mark.start()) {
                mark.reversed()
            } else {
                mark.clone()
            };
            here = mark.end();
            mark
        })
        .collect()
}
