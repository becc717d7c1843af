//! The fronts split where they cross, and the points that become one node.

use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::crossing::crossings;
use super::curve::Curve;
use super::error::Doubt;
use super::front::Front;
use super::front::Fronts;
use super::front::to_number;
use super::grid::Going;
use super::grid::Grid;
use super::grid::Met;

/// A part of a front between two nodes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) front: u32,
    /// The number of the part, if it is not the whole front.
    pub(super) part: Option<u32>,
    pub(super) nodes: [u32; 2],
}

/// All edges, and the nodes they run between.
#[derive(Debug)]
pub(super) struct Network {
    pub(super) fronts: Vec<Front>,
    pub(super) edges: Vec<Edge>,
    /// From where to where a part reaches, in millimetres along its front.
    parts: Vec<[f64; 2]>,
    pub(super) nodes: Nodes,
}

impl Network {
    pub(super) fn front(&self, edge: &Edge) -> &Front {
        &self.fronts[edge.front as usize]
    }

    /// Whether each edge is the front of the same number.
    pub(super) fn is_unsplit(&self) -> bool {
        self.parts.is_empty() && self.edges.len() == self.fronts.len()
    }

    pub(super) fn edge_curve(&self, edge: &Edge) -> Curve {
        let curve = &self.front(edge).curve;
        match self.part(edge) {
            None => *curve,
            Some([from, to]) => curve.part(from, to),
        }
    }

    /// From where to where the edge reaches, in millimetres along its front, if it is not the whole.
    pub(super) fn part(&self, edge: &Edge) -> Option<[f64; 2]> {
        edge.part.map(|part| self.parts[part as usize])
    }
}

/// A crossing on one front.
#[derive(Clone, Copy, Debug)]
struct Cut {
    front: u32,
    along: f64,
    node: u32,
}

/// The fronts that join their neighbours at both ends, where nothing else does. Not those that run on
/// to a tip: there two may coincide over a length, and have to be split.
pub(super) fn joined(raw: &Fronts) -> Vec<bool> {
    // how many leave, arrive, and are shrunk there
    let mut counts = vec![[0_u8; 2]; raw.nodes.len()];
    let mut add = |node: u32, end: usize| {
        let count = &mut counts[node as usize][end];
        *count = count.saturating_add(1);
    };
    for front in &raw.all {
        add(front.nodes[0], 0);
        add(front.nodes[1], 1);
    }
    for &node in raw.shrunk.iter().flatten().chain(&raw.tips) {
        add(node, 0);
        add(node, 1);
    }
    let alone = |node: u32| counts[node as usize] == [1, 1];
    let both = |front: &Front| front.nodes.into_iter().all(alone);
    raw.all.iter().map(both).collect()
}

/// Splits the fronts at every common point but for those of two that are `sound`. Pieces too short to
/// show are shrunk and their ends become one node.
pub(super) fn split(raw: Fronts, sound: &[bool]) -> Result<Network, (Doubt, Point)> {
    let Fronts {
        all: fronts,
        nodes,
        shrunk,
        ..
    } = raw;
    let mut nodes = Nodes::new(nodes);
    for [from, to] in shrunk {
        nodes.unite(from, to);
    }
    let cuts = all_cuts(&fronts, sound, &mut nodes);
    let mut edges = Vec::with_capacity(fronts.len() + cuts.len());
    let mut parts = Vec::new();
    let mut rest = cuts.as_slice();
    for (front, index) in fronts.iter().zip(0..) {
        let count = rest.iter().take_while(|cut| cut.front == index).count();
        let (own, others) = rest.split_at(count);
        rest = others;
        if own.is_empty() {
            edges.push(Edge {
                front: index,
                part: None,
                nodes: front.nodes,
            });
            continue;
        }
        let length = front.curve.length();
        let last = Cut {
            front: index,
            along: length,
            node: front.nodes[1],
        };
        let mut before = Cut {
            along: 0.0,
            node: front.nodes[0],
            ..last
        };
        for cut in own.iter().chain([&last]) {
            if cut.along - before.along < tolerance::OFFSET_SHORTEST {
                nodes.unite(before.node, cut.node);
            } else {
                edges.push(Edge {
                    front: index,
                    part: Some(to_number(parts.len())),
                    nodes: [before.node, cut.node],
                });
                parts.push([before.along, cut.along]);
            }
            before = *cut;
        }
    }
    nodes.settle()?;
    for edge in &mut edges {
        edge.nodes = edge.nodes.map(|node| nodes.of(node));
    }
    Ok(Network {
        fronts,
        edges,
        parts,
        nodes,
    })
}

fn all_cuts(fronts: &[Front], sound: &[bool], nodes: &mut Nodes) -> Vec<Cut> {
    let mut cuts = Vec::new();
    let is_loose = |index: &u32| !sound[*index as usize];
    let loose: Vec<u32> = (0..to_number(fronts.len())).filter(is_loose).collect();
    if loose.is_empty() {
        return cuts;
    }
    let curves = loose.iter().map(|&index| &fronts[index as usize].curve);
    let grid = Grid::new(curves, 0.0);
    let mut met = Met::new(loose.len());
    let mut found = Vec::new();
    let touch = tolerance::OFFSET_TOUCH;
    for (front, index) in fronts.iter().zip(0..) {
        let curve = &front.curve;
        let is_sound = sound[index as usize];
        met.begin();
        let bounds = curve.bounds();
        let reach = bounds.inflate(touch, touch);
        curve.boxes(bounds, grid.cell, |part| {
            grid.near(part.inflate(touch, touch), |place| {
                let other = loose[place];
                let second = &fronts[other as usize];
                if other <= index && !is_sound
                    || !reach.overlaps(grid.bounds(place))
                    || !met.is_new(place)
                    || follow(front, second)
                {
                    return Going::On;
                }
                found.clear();
                crossings(curve, &second.curve, &mut found);
                for crossing in &found {
                    let node = nodes.add(crossing.at);
                    for (front, along) in [(index, crossing.along[0]), (other, crossing.along[1])] {
                        cuts.push(Cut { front, along, node });
                    }
                }
                Going::On
            });
        });
    }
    cuts.sort_by(|a, b| {
        let by_front = a.front.cmp(&b.front);
        by_front
            .then(a.along.total_cmp(&b.along))
            .then(a.node.cmp(&b.node))
    });
    cuts
}

/// Whether one front runs smoothly on into the other: they share that end and nothing else.
fn follow(one: &Front, two: &Front) -> bool {
    one.nodes[1] == two.nodes[0] || two.nodes[1] == one.nodes[0]
}

/// Points, grouped into nodes.
#[derive(Debug)]
pub(super) struct Nodes {
    places: Vec<Point>,
    parents: Vec<u32>,
    /// Lower left and upper right of each group of several points, in the order of their nodes.
    groups: Vec<(u32, Point, Point)>,
    are_grouped: bool,
}

impl Nodes {
    fn new(places: Vec<Point>) -> Self {
        Self {
            parents: (0..to_number(places.len())).collect(),
            places,
            groups: Vec::new(),
            are_grouped: false,
        }
    }

    /// How many numbers of nodes there are.
    pub(super) fn count(&self) -> usize {
        self.places.len()
    }

    fn add(&mut self, at: Point) -> u32 {
        let node = to_number(self.places.len());
        self.places.push(at);
        self.parents.push(node);
        node
    }

    /// The node a point belongs to.
    pub(super) fn of(&self, node: u32) -> u32 {
        let mut root = node;
        while self.parents[root as usize] != root {
            root = self.parents[root as usize];
        }
        root
    }

    fn unite(&mut self, one: u32, two: u32) {
        let (a, b) = (self.of(one), self.of(two));
        // the lower number leads, so that the outcome does not depend on the order
        let (low, high) = (a.min(b), a.max(b));
        for node in [high, one, two] {
            self.parents[node as usize] = low;
        }
        self.are_grouped = true;
    }

    /// Measures the groups.
    fn settle(&mut self) -> Result<(), (Doubt, Point)> {
        if !self.are_grouped {
            return Ok(());
        }
        let mut extents: Vec<Option<(Point, Point)>> = vec![None; self.places.len()];
        for index in 0..self.places.len() {
            let root = self.of(to_number(index));
            self.parents[index] = root;
            let root = root as usize;
            if root == index {
                continue;
            }
            let (leader, place) = (self.places[root], self.places[index]);
            let (low, high) = extents[root].unwrap_or((leader, leader));
            let low = Point::new(low.x.min(place.x), low.y.min(place.y));
            let high = Point::new(high.x.max(place.x), high.y.max(place.y));
            extents[root] = Some((low, high));
            let spread = number::length(high - low);
            if spread > tolerance::OFFSET_WIDEST_NODE {
                return Err((Doubt::Crowded(spread), leader));
            }
        }
        let grouped = (0..).zip(extents);
        self.groups = grouped
            .filter_map(|(node, extent)| extent.map(|(low, high)| (node, low, high)))
            .collect();
        Ok(())
    }

    /// Lower left and upper right of a group; `None` for a node of one point.
    fn extent(&self, root: u32) -> Option<(Point, Point)> {
        let found = self.groups.binary_search_by_key(&root, |group| group.0);
        let (_, low, high) = self.groups[found.ok()?];
        Some((low, high))
    }

    /// Where a node lies: the middle of its points.
    pub(super) fn place(&self, root: u32) -> Point {
        self.extent(root)
            .map_or(self.places[root as usize], |(low, high)| low.midpoint(high))
    }

    /// How far apart the points of a node lie.
    pub(super) fn spread(&self, root: u32) -> f64 {
        self.extent(root)
            .map_or(0.0, |(low, high)| number::length(high - low))
    }
}
