//! The edges that show, linked into loops.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::crossing::circle_circle;
use super::crossing::line_circle;
use super::curve::Curve;
use super::curve::Shape;
use super::error::Doubt;
use super::field::Standing;
use super::front::Front;
use super::front::to_number;
use super::split::Edge;
use super::split::Network;
use super::split::Span;

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
    pieces: Vec<Shown>,
    /// Where each loop ends.
    ends: Vec<usize>,
    altered: Vec<Curve>,
}

impl Linked {
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
        let count = &mut leaving[edge.nodes[0] as usize];
        *count = count.saturating_add(u8::from(may_show(index)));
    }
    let mut order: Vec<([u32; 2], usize)> = network
        .edges
        .iter()
        .enumerate()
        .filter(|&(_, edge)| leaving[edge.nodes[0] as usize] > 1 && edge.nodes[0] != edge.nodes[1])
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
        let [from, to] = edge.nodes;
        leaving[from as usize] += 1;
        arriving[to as usize] += 1;
    }
    let leads_nowhere = |edge: &Edge, arriving: &[u32], leaving: &[u32]| {
        let [from, to] = edge.nodes;
        arriving[from as usize] == 0 || leaving[to as usize] == 0
    };
    let mut dead: Vec<u32> = kept(network, uses)
        .filter(|(edge, _)| leads_nowhere(edge, &arriving, &leaving))
        .map(|(_, index)| index)
        .collect();
    if dead.is_empty() {
        return;
    }
    let mut at_node: Vec<(u32, u32)> = kept(network, uses)
        .flat_map(|(edge, index)| edge.nodes.map(|node| (node, index)))
        .collect();
    at_node.sort_unstable();
    while let Some(index) = dead.pop() {
        let usage = &mut uses[index as usize];
        if *usage != Use::Kept {
            continue;
        }
        *usage = Use::Pruned;
        let [from, to] = network.edges[index as usize].nodes;
        leaving[from as usize] -= 1;
        arriving[to as usize] -= 1;
        for node in [from, to] {
            let beside = at(&at_node, node).map(|(_, other)| other);
            dead.extend(beside.filter(|&other| {
                leads_nowhere(&network.edges[other as usize], &arriving, &leaving)
            }));
        }
    }
}

fn kept<'a>(network: &'a Network, uses: &'a [Use]) -> impl Iterator<Item = (&'a Edge, u32)> {
    let edges = network.edges.iter().zip(uses).zip(0..);
    edges.filter_map(|((edge, &usage), index)| (usage == Use::Kept).then_some((edge, index)))
}

/// The entries of one node in a sorted list.
fn at(sorted: &[(u32, u32)], node: u32) -> impl Iterator<Item = (u32, u32)> {
    let first = sorted.partition_point(|&(other, _)| other < node);
    let rest = sorted[first..].iter().copied();
    rest.take_while(move |&(other, _)| other == node)
}

/// The kept edges that leave each node.
struct Leaving {
    /// The edge, if it is one; [`NONE`] or [`SEVERAL`].
    only: Vec<u32>,
    /// Nodes with several edges, and those, in order.
    several: Vec<(u32, u32)>,
}

const NONE: u32 = u32::MAX;
const SEVERAL: u32 = u32::MAX - 1;

impl Leaving {
    fn new(network: &Network, uses: &[Use]) -> Self {
        let mut only = vec![NONE; network.nodes.count()];
        let mut several = Vec::new();
        for (edge, index) in kept(network, uses) {
            let node = edge.nodes[0];
            let entry = &mut only[node as usize];
            match *entry {
                NONE => *entry = index,
                SEVERAL => several.push((node, index)),
                first => {
                    several.extend([(node, first), (node, index)]);
                    *entry = SEVERAL;
                }
            }
        }
        several.sort_unstable();
        Self { only, several }
    }

    fn edges(&self, node: u32) -> impl Iterator<Item = u32> {
        let (only, several): (_, &[_]) = match self.only[node as usize] {
            NONE => (None, &[]),
            SEVERAL => (None, &self.several),
            edge => (Some(edge), &[]),
        };
        only.into_iter()
            .chain(at(several, node).map(|(_, edge)| edge))
    }
}

/// Links the kept edges into loops.
///
/// # Errors
/// A node where edges end without others starting, or pieces too short to stand.
pub(super) fn link(network: &Network, uses: &[Use]) -> Result<Linked, (Doubt, Point)> {
    check_balance(network, uses)?;
    let leaving = Leaving::new(network, uses);
    let mut used = vec![false; network.edges.len()];
    let mut linked = Linked {
        pieces: Vec::with_capacity(network.edges.len()),
        ends: Vec::new(),
        altered: Vec::new(),
    };
    let mut chain = Vec::new();
    for node in 0..to_number(network.nodes.count()) {
        for first in leaving.edges(node) {
            if used[first as usize] {
                continue;
            }
            chain.clear();
            let mut next = Some(first);
            let mut end = node;
            while let Some(index) = next {
                used[index as usize] = true;
                chain.push(index);
                end = network.edges[index as usize].nodes[1];
                next = following(network, &leaving, &used, index);
            }
            if end != node {
                return Err((Doubt::Unlinked, network.nodes.place(end)));
            }
            add_pieces(network, &chain, &mut linked)?;
            linked.ends.push(linked.pieces.len());
        }
    }
    Ok(linked)
}

fn check_balance(network: &Network, uses: &[Use]) -> Result<(), (Doubt, Point)> {
    let mut balance = vec![0_i32; network.nodes.count()];
    for (edge, _) in kept(network, uses) {
        let [from, to] = edge.nodes;
        balance[from as usize] -= 1;
        balance[to as usize] += 1;
    }
    match (0..).zip(balance).find(|&(_, difference)| difference != 0) {
        Some((node, _)) => Err((Doubt::Unlinked, network.nodes.place(node))),
        None => Ok(()),
    }
}

/// The edge to follow: at a node of several, the one that bounds the same opening on its right, so
/// that openings part there and the grown region holds together.
fn following(network: &Network, leaving: &Leaving, used: &[bool], edge: u32) -> Option<u32> {
    let node = network.edges[edge as usize].nodes[1];
    let mut free = leaving.edges(node).filter(|&next| !used[next as usize]);
    if leaving.only[node as usize] != SEVERAL {
        return free.next();
    }
    let place = network.nodes.place(node);
    let curve = |edge: u32| network.edge_curve(&network.edges[edge as usize]);
    let back = beside(&curve(edge).reversed(), place);
    free.map(|next| {
        let out = beside(&curve(next), place);
        (number::positive_angle(number::turn(back, out)), next)
    })
    .min_by(|a, b| a.0.total_cmp(&b.0))
    .map(|(_, next)| next)
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
    front: u32,
    length: f64,
    ends: [f64; 2],
    nodes: [u32; 2],
}

fn runs(network: &Network, chain: &[u32]) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for &edge in chain {
        let Edge { front, span, nodes } = network.edges[edge as usize];
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
fn add_pieces(network: &Network, chain: &[u32], linked: &mut Linked) -> Result<(), (Doubt, Point)> {
    let edges = || chain.iter().map(|&edge| &network.edges[edge as usize]);
    let spread = |run_nodes: [u32; 2]| {
        let [first, last] = run_nodes.map(|node| network.nodes.spread(node));
        first.max(last)
    };
    let touch = tolerance::OFFSET_TOUCH;
    if edges().all(|edge| edge.span == Span::Whole && spread(edge.nodes) <= touch) {
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
