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
use super::field::Standing;
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

/// What becomes of an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Use {
    /// It shows.
    Kept,
    /// Something is nearer than the distance.
    Left,
    /// It would show but for leading nowhere.
    Pruned,
}

/// Of edges between the same nodes that coincide, keeps the one that comes least near to the source.
pub(super) fn join_twins(network: &Network, standings: &[Standing], uses: &mut [Use]) {
    let depth = |index: usize| match standings[index] {
        Standing::Clear(depth) => depth,
        Standing::Within(_) => f64::INFINITY,
    };
    let may_show = |index: usize| depth(index).is_finite();
    let mut leaving = vec![0_u8; network.nodes.count()];
    for (index, edge) in network.edges.iter().enumerate() {
        let count = &mut leaving[edge.nodes[0]];
        *count = count.saturating_add(u8::from(may_show(index)));
    }
    let mut order: Vec<([usize; 2], usize)> = network
        .edges
        .iter()
        .enumerate()
        .filter(|&(_, edge)| leaving[edge.nodes[0]] > 1 && edge.nodes[0] != edge.nodes[1])
        .filter(|&(index, _)| may_show(index))
        .map(|(index, edge)| (edge.nodes, index))
        .collect();
    order.sort_unstable();
    for group in order.chunk_by(|a, b| a.0 == b.0) {
        for (place, &(_, one)) in group.iter().enumerate() {
            for &(_, two) in &group[place + 1..] {
                let none_kept = uses[one] != Use::Kept && uses[two] != Use::Kept;
                if none_kept || !are_twins(network, one, two) {
                    continue;
                }
                let (better, worse) = if depth(two) < depth(one) {
                    (two, one)
                } else {
                    (one, two)
                };
                uses[better] = Use::Kept;
                uses[worse] = Use::Pruned;
            }
        }
    }
}

/// Whether two edges between the same nodes coincide. Lines and arcs with common ends lie furthest
/// apart in the middle.
fn are_twins(network: &Network, one: usize, two: usize) -> bool {
    let [one, two] = [one, two].map(|index| network.edge_curve(&network.edges[index]));
    let near = |a: &Curve, b: &Curve| a.distance(b.middle()) <= tolerance::OFFSET_EXACT;
    near(&one, &two) && near(&two, &one)
}

/// Prunes the kept edges at whose start none arrives or from whose end none leaves.
pub(super) fn prune(network: &Network, uses: &mut [Use]) {
    let count = network.nodes.count();
    let mut arriving = vec![0_u32; count];
    let mut leaving = vec![0_u32; count];
    for (edge, _) in kept(network, uses) {
        leaving[edge.nodes[0]] += 1;
        arriving[edge.nodes[1]] += 1;
    }
    let leads_nowhere = |edge: &Edge, arriving: &[u32], leaving: &[u32]| {
        arriving[edge.nodes[0]] == 0 || leaving[edge.nodes[1]] == 0
    };
    let mut dead: Vec<usize> = kept(network, uses)
        .filter(|(edge, _)| leads_nowhere(edge, &arriving, &leaving))
        .map(|(_, index)| index)
        .collect();
    if dead.is_empty() {
        return;
    }
    let mut at_node: Vec<(usize, usize)> = kept(network, uses)
        .flat_map(|(edge, index)| edge.nodes.map(|node| (node, index)))
        .collect();
    at_node.sort_unstable();
    while let Some(index) = dead.pop() {
        if uses[index] != Use::Kept {
            continue;
        }
        uses[index] = Use::Pruned;
        let [from, to] = network.edges[index].nodes;
        leaving[from] -= 1;
        arriving[to] -= 1;
        for node in [from, to] {
            let first = at_node.partition_point(|&(other, _)| other < node);
            let beside = at_node[first..]
                .iter()
                .take_while(|&&(other, _)| other == node);
            dead.extend(
                beside
                    .map(|&(_, other)| other)
                    .filter(|&other| leads_nowhere(&network.edges[other], &arriving, &leaving)),
            );
        }
    }
}

fn kept<'a>(network: &'a Network, uses: &'a [Use]) -> impl Iterator<Item = (&'a Edge, usize)> {
    let edges = network.edges.iter().zip(uses).enumerate();
    edges.filter_map(|(index, (edge, &usage))| (usage == Use::Kept).then_some((edge, index)))
}

/// Links the kept edges into loops.
///
/// # Errors
/// A node where edges end without others starting, or pieces too short to stand.
pub(super) fn link(network: &Network, uses: &[Use]) -> Result<Vec<Vec<Shown>>, (Doubt, Point)> {
    check_balance(network, uses)?;
    let mut leaving: Vec<(usize, usize)> = kept(network, uses)
        .map(|(edge, index)| (edge.nodes[0], index))
        .collect();
    leaving.sort_unstable();
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

fn check_balance(network: &Network, uses: &[Use]) -> Result<(), (Doubt, Point)> {
    let mut balance = vec![0_i32; network.nodes.count()];
    for (edge, _) in kept(network, uses) {
        balance[edge.nodes[0]] -= 1;
        balance[edge.nodes[1]] += 1;
    }
    match balance.iter().position(|&difference| difference != 0) {
        Some(node) => Err((Doubt::Unlinked, network.nodes.place(node))),
        None => Ok(()),
    }
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
        // a chord runs as its arc does in the middle, however much that turns
        let middle = run.ends[0] + length / 2.0;
        let backwards = length < 1e-3 && chord.dot(front.part_direction(middle)) < 0.0;
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
