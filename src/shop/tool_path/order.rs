//! The order of the work: lines to mark first, then every opening before the outside, each with a short
//! way between the cuts.

use super::cut::Cut;
use super::route::Side;
use super::tour;
use crate::geometry::Path;
use crate::geometry::Point;
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

/// Puts marks and cuts in order, starting at `rest`; of each cut the candidate nearest to the way is
/// taken.
pub(super) fn arrange(marks: Vec<Path>, prepared: &[Vec<Candidate>], rest: Point) -> Arranged {
    let written_marks = marks;
    let marks = in_order_of_marks(&written_marks, rest);
    let from = marks.last().map_or(rest, Path::end);
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
    let mut level = level(&insides, from, to);
    let then = level.last().map_or(from, |candidate| candidate.cut.end());
    level.extend(self::level(&outsides, then, None));
    let chosen_as_written = as_written(prepared, &level);
    let travel = Travel {
        length: way(&marks, &level, rest),
        as_written: way(&written_marks, &chosen_as_written, rest),
    };
    // what somebody wrote may already be as short as it gets
    let travel_of = |length| Travel { length, ..travel };
    if travel.as_written < travel.length {
        return Arranged {
            marks: written_marks,
            cuts: chosen_as_written,
            travel: travel_of(travel.as_written),
        };
    }
    Arranged {
        marks,
        cuts: level,
        travel,
    }
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
