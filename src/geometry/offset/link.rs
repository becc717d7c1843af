//! The edges that show, linked into loops.

use crate::geometry::Point;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::crossing::circle_circle;
use super::crossing::line_circle;
use super::curve::Curve;
use super::curve::Shape;
use super::error::Doubt;
use super::split::Edge;
use super::split::Network;
use super::split::Span;

/// One piece of the result.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shown {
    pub(super) curve: Curve,
    pub(super) own: Option<usize>,
    pub(super) id: SourceId,
    /// Whether an end had to be moved by more than rounding.
    pub(super) moved: bool,
}

/// Links the kept edges (by index into the network's edges) into loops.
///
/// # Errors
/// A node where edges end without others starting, or pieces too short to stand.
pub(super) fn link(network: &Network, kept: &[usize]) -> Result<Vec<Vec<Shown>>, (Doubt, Point)> {
    let mut leaving: Vec<(usize, usize)> = kept
        .iter()
        .map(|&edge| (network.edges[edge].nodes[0], edge))
        .collect();
    leaving.sort_unstable();
    check_balance(network, kept, &leaving)?;
    let mut used = vec![false; leaving.len()];
    let mut loops = Vec::new();
    for first in 0..leaving.len() {
        if used[first] {
            continue;
        }
        let mut chain = Vec::new();
        let mut place = first;
        loop {
            used[place] = true;
            let edge = leaving[place].1;
            chain.push(edge);
            match next_place(network, &leaving, &used, edge) {
                Some(next) => place = next,
                None => break,
            }
        }
        let start = network.edges[chain[0]].nodes[0];
        let end = network.edges[chain[chain.len() - 1]].nodes[1];
        if start != end {
            return Err((Doubt::Unlinked, network.nodes.place(end)));
        }
        loops.push(pieces(network, &chain)?);
    }
    Ok(loops)
}

fn check_balance(
    network: &Network,
    kept: &[usize],
    leaving: &[(usize, usize)],
) -> Result<(), (Doubt, Point)> {
    let mut arriving: Vec<usize> = kept
        .iter()
        .map(|&edge| network.edges[edge].nodes[1])
        .collect();
    arriving.sort_unstable();
    for (&(out, _), &into) in leaving.iter().zip(&arriving) {
        if out != into {
            let at = network.nodes.place(out.min(into));
            return Err((Doubt::Unlinked, at));
        }
    }
    Ok(())
}

/// The edge to follow: at a node of several, the one that bounds the same opening on its right, so
/// that openings part there and the grown region holds together.
fn next_place(
    network: &Network,
    leaving: &[(usize, usize)],
    used: &[bool],
    edge: usize,
) -> Option<usize> {
    let node = network.edges[edge].nodes[1];
    let first = leaving.partition_point(|&(from, _)| from < node);
    let count = leaving[first..]
        .iter()
        .take_while(|&&(from, _)| from == node)
        .count();
    let free = (first..first + count).filter(|&place| !used[place]);
    if count <= 1 {
        return free.into_iter().next();
    }
    let at = network.nodes.place(node);
    let back = beside(&network.edge_curve(&network.edges[edge]).reversed(), at);
    free.map(|place| {
        let out = beside(&network.edge_curve(&network.edges[leaving[place].1]), at);
        (number::positive_angle(number::turn(back, out)), place)
    })
    .min_by(|a, b| a.0.total_cmp(&b.0))
    .map(|(_, place)| place)
}

/// Direction of a place a little way along the curve, seen from its node: unlike the tangent, it
/// tells curves apart that touch.
fn beside(curve: &Curve, node: Point) -> Vec2 {
    let length = curve.length();
    curve.point_at((length / 2.0).min(1e-3)) - node
}

/// A run of edges on one front.
#[derive(Clone, Copy, Debug)]
struct Run {
    front: usize,
    length: f64,
    ends: [f64; 2],
    nodes: [usize; 2],
}

fn runs(network: &Network, chain: &[usize]) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for &edge in chain {
        let Edge { front, span, nodes } = network.edges[edge];
        let ends = match span {
            Span::Whole => [0.0, f64::INFINITY],
            Span::Part(from, to) => [from, to],
        };
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
        let curve = &network.fronts[first.front].curve;
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

fn pieces(network: &Network, chain: &[usize]) -> Result<Vec<Shown>, (Doubt, Point)> {
    let runs = runs(network, chain);
    let shown = |run: &Run, curve: Curve, moved: bool| {
        let front = &network.fronts[run.front];
        Shown {
            curve,
            own: front.own,
            id: front.id,
            moved,
        }
    };
    if let [only] = runs.as_slice() {
        let curve = network.fronts[only.front].curve;
        if curve.is_whole() {
            return Ok(vec![shown(only, curve, false)]);
        }
    }
    let count = runs.len();
    let joints: Vec<Point> = (0..count)
        .map(|place| joint(network, &runs[(place + count - 1) % count], &runs[place]))
        .collect();
    let mut result = Vec::with_capacity(count);
    for (place, run) in runs.iter().enumerate() {
        let (start, end) = (joints[place], joints[(place + 1) % count]);
        let front = &network.fronts[run.front].curve;
        let whole = run.ends == [0.0, f64::INFINITY];
        let [first, last] = run.nodes.map(|node| network.nodes.spread(node));
        let exact = first.max(last) <= tolerance::OFFSET_TOUCH;
        if whole && exact {
            result.push(shown(run, *front, false));
            continue;
        }
        let length = if whole { front.length() } else { run.length };
        let curve = front.between(start, end, length);
        let chord = end - start;
        let too_short = length < 1.0 && number::length(chord) < 0.6 * tolerance::OFFSET_SHORTEST;
        let backwards = length < 1e-3 && chord.dot(front.part_direction(run.ends[0])) < 0.0;
        if too_short && length < 1e-3 || backwards {
            return Err((Doubt::Crowded(length), start));
        }
        result.push(shown(run, curve, !exact));
    }
    Ok(result)
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
        &network.fronts[before.front].curve,
        &network.fronts[after.front].curve,
    );
    let candidates = match (one.shape, two.shape) {
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
