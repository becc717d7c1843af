//! The pieces of the loops: linked edges of one front as one curve, its ends where those of its
//! neighbours are.

use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::crossing::circle_circle;
use super::crossing::line_circle;
use super::curve::Curve;
use super::curve::Shape;
use super::error::Doubt;
use super::front::Front;
use super::front::to_number;
use super::split::Edge;
use super::split::Network;

/// One piece of the result.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shown {
    front: u32,
    /// Which of the altered curves it is, if it is not the whole front.
    altered: Option<u32>,
    /// Whether an end had to be moved by more than rounding.
    pub(super) moved: bool,
}

/// Loops of pieces.
#[derive(Debug)]
pub(super) struct Linked {
    pub(super) pieces: Vec<Shown>,
    /// Where each loop ends.
    pub(super) ends: Vec<usize>,
    altered: Vec<Curve>,
}

impl Linked {
    pub(super) fn with_room_for(pieces: usize) -> Self {
        Self {
            pieces: Vec::with_capacity(pieces),
            ends: Vec::new(),
            altered: Vec::new(),
        }
    }

    pub(super) fn loops(&self) -> impl Iterator<Item = &[Shown]> {
        let mut start = 0;
        self.ends.iter().map(move |&end| {
            let first = std::mem::replace(&mut start, end);
            &self.pieces[first..end]
        })
    }

    pub(super) fn curve<'a>(&'a self, network: &'a Network, piece: &Shown) -> &'a Curve {
        match piece.altered {
            Some(place) => &self.altered[place as usize],
            None => &network.fronts[piece.front as usize].curve,
        }
    }
}

impl Shown {
    pub(super) fn front<'a>(&self, network: &'a Network) -> &'a Front {
        &network.fronts[self.front as usize]
    }

    /// The number of the front that it is, from end to end.
    pub(super) fn whole(&self) -> Option<usize> {
        self.altered.is_none().then_some(self.front as usize)
    }
}

/// A run of edges on one front.
#[derive(Clone, Copy, Debug)]
struct Run {
    front: u32,
    length: f64,
    ends: [f64; 2],
    nodes: [u32; 2],
}

fn runs(network: &Network, chain: &[u32]) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for &edge in chain {
        let edge = &network.edges[edge as usize];
        let Edge { front, nodes, .. } = *edge;
        let ends = network.part(edge).unwrap_or([0.0, f64::INFINITY]);
        let length = ends[1] - ends[0];
        match runs.last_mut() {
            Some(last) if last.front == front && last.ends[1] == ends[0] => {
                last.ends[1] = ends[1];
                last.nodes[1] = nodes[1];
                last.length += length;
            }
            _ => runs.push(Run {
                front,
                length,
                ends,
                nodes,
            }),
        }
    }
    // the chain may have begun in the middle of a front, or at the seam of a circle
    if let [first, .., last] = runs.as_mut_slice() {
        let curve = &network.fronts[first.front as usize].curve;
        let seam = curve.is_whole()
            && first.ends[0] == 0.0
            && (last.ends[1] - curve.length()).abs() <= tolerance::OFFSET_TOUCH;
        if first.front == last.front && (last.ends[1] == first.ends[0] || seam) {
            first.length += last.length;
            first.ends[0] = last.ends[0];
            first.nodes[0] = last.nodes[0];
            runs.pop();
        }
    }
    runs
}

/// Appends the pieces of one loop.
pub(super) fn add_pieces(
    network: &Network,
    chain: &[u32],
    linked: &mut Linked,
) -> Result<(), (Doubt, Point)> {
    let edges = || chain.iter().map(|&edge| &network.edges[edge as usize]);
    let spread = |run_nodes: [u32; 2]| {
        let [first, last] = run_nodes.map(|node| network.nodes.spread(node));
        first.max(last)
    };
    let touch = tolerance::OFFSET_TOUCH;
    if edges().all(|edge| edge.part.is_none() && spread(edge.nodes) <= touch) {
        linked.pieces.extend(edges().map(|edge| whole(edge.front)));
        return Ok(());
    }
    let runs = runs(network, chain);
    if let [only] = runs.as_slice()
        && network.fronts[only.front as usize].curve.is_whole()
    {
        linked.pieces.push(whole(only.front));
        return Ok(());
    }
    let count = runs.len();
    let joints: Vec<Point> = (0..count)
        .map(|place| joint(network, &runs[(place + count - 1) % count], &runs[place]))
        .collect();
    for (place, run) in runs.iter().enumerate() {
        let (start, end) = (joints[place], joints[(place + 1) % count]);
        let front = &network.fronts[run.front as usize].curve;
        let is_whole = run.ends == [0.0, f64::INFINITY];
        let exact = spread(run.nodes) <= touch;
        if is_whole && exact {
            linked.pieces.push(whole(run.front));
            continue;
        }
        let length = if is_whole { front.length() } else { run.length };
        let curve = front.between(start, end, length);
        let chord = end - start;
        let too_short = length < 1.0 && number::length(chord) < 0.6 * tolerance::OFFSET_SHORTEST;
        // a chord runs as its arc does in the middle, however much that turns
        let middle = run.ends[0] + length / 2.0;
        let backwards = length < 1e-3 && chord.dot(front.part_direction(middle)) < 0.0;
        if too_short && length < 1e-3 || backwards {
            return Err((Doubt::Crowded(length), start));
        }
        linked.pieces.push(Shown {
            altered: Some(to_number(linked.altered.len())),
            moved: !exact,
            ..whole(run.front)
        });
        linked.altered.push(curve);
    }
    Ok(())
}

const fn whole(front: u32) -> Shown {
    Shown {
        front,
        altered: None,
        moved: false,
    }
}

/// Where one run ends and the next begins. Where a node gathers several points, the crossing of the
/// two fronts near it, if there is one.
fn joint(network: &Network, before: &Run, after: &Run) -> Point {
    let node = after.nodes[0];
    let place = network.nodes.place(node);
    if network.nodes.spread(node) <= tolerance::OFFSET_TOUCH {
        return place;
    }
    let (one, two) = (
        &network.fronts[before.front as usize].curve,
        &network.fronts[after.front as usize].curve,
    );
    let candidates = match (one.shape(), two.shape()) {
        (Shape::Line { direction: u, .. }, Shape::Line { direction: v, .. }) => {
            let sine = u.cross(v);
            let along = (two.start - one.start).cross(v) / sine;
            [(sine.abs() > 1e-9).then(|| one.start + u * along), None]
        }
        (Shape::Line { direction, .. }, Shape::Arc(round)) => {
            line_circle(one.start, direction, &round)
        }
        (Shape::Arc(round), Shape::Line { direction, .. }) => {
            line_circle(two.start, direction, &round)
        }
        (Shape::Arc(first), Shape::Arc(second)) => circle_circle(&first, &second),
    };
    candidates
        .into_iter()
        .flatten()
        .map(|point| (number::length(point - place), point))
        .filter(|&(away, _)| away <= tolerance::OFFSET_WIDEST_NODE)
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(place, |(_, point)| point)
}
