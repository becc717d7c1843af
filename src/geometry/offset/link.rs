//! The edges that show, linked into loops.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::attempt::View;
use super::curve::Curve;
use super::error::Doubt;
use super::front::to_number;
use super::pieces::Linked;
use super::pieces::add_pieces;
use super::split::Edge;
use super::split::Network;

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
pub(super) fn join_twins(network: &Network, standings: &[View], uses: &mut [Use]) {
    let depth = |index: usize| standings[index].depth();
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
    let mut linked = Linked::with_room_for(network.edges.len());
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
