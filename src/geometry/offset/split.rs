//! The fronts split where they cross, and the points that become one node.

use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::crossing::crossings;
use super::curve::Curve;
use super::error::Doubt;
use super::front::Front;
use super::front::Fronts;
use super::grid::Going;
use super::grid::Grid;
use super::grid::Met;

/// A part of a front between two nodes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) front: usize,
    pub(super) span: Span,
    pub(super) nodes: [usize; 2],
}

/// Which part of the front.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Span {
    Whole,
    /// Millimetres along the front.
    Part(f64, f64),
}

/// All edges, and the nodes they run between.
#[derive(Debug)]
pub(super) struct Network {
    pub(super) fronts: Vec<Front>,
    pub(super) edges: Vec<Edge>,
    pub(super) nodes: Nodes,
}

impl Network {
    pub(super) fn edge_curve(&self, edge: &Edge) -> Curve {
        let curve = self.fronts[edge.front].curve;
        match edge.span {
            Span::Whole => curve,
            Span::Part(from, to) => curve.part(from, to),
        }
    }
}

/// A crossing on one front.
#[derive(Clone, Copy, Debug)]
struct Cut {
    front: usize,
    along: f64,
    node: usize,
}

/// Splits the fronts at every common point. Pieces too short to show are shrunk and their ends
/// become one node.
pub(super) fn split(raw: Fronts) -> Result<Network, (Doubt, Point)> {
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
    let cuts = all_cuts(&fronts, &mut nodes);
    let mut edges = Vec::with_capacity(fronts.len() + cuts.len());
    let mut rest = cuts.as_slice();
    for (index, front) in fronts.iter().enumerate() {
        let count = rest.iter().take_while(|cut| cut.front == index).count();
        let (own, others) = rest.split_at(count);
        rest = others;
        if own.is_empty() {
            edges.push(Edge {
                front: index,
                span: Span::Whole,
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
                    span: Span::Part(before.along, cut.along),
                    nodes: [before.node, cut.node],
                });
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
        nodes,
    })
}

fn all_cuts(fronts: &[Front], nodes: &mut Nodes) -> Vec<Cut> {
    let grid = Grid::over(fronts.iter().map(|front| &front.curve), 0.0);
    let mut met = Met::new(fronts.len());
    let mut cuts = Vec::new();
    let mut found = Vec::new();
    let touch = tolerance::OFFSET_TOUCH;
    for (index, front) in fronts.iter().enumerate() {
        let curve = &front.curve;
        met.begin();
        let reach = curve.bounds.inflate(touch, touch);
        curve.boxes(grid.cell, |part| {
            grid.near(part, |other| {
                if other <= index
                    || !reach.overlaps(fronts[other].curve.bounds)
                    || !met.is_new(other)
                    || follow(front, &fronts[other])
                {
                    return Going::On;
                }
                found.clear();
                crossings(curve, &fronts[other].curve, &mut found);
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
    parents: Vec<usize>,
    /// Lower left and upper right of each group.
    extents: Vec<Option<(Point, Point)>>,
}

impl Nodes {
    fn new(places: Vec<Point>) -> Self {
        Self {
            parents: (0..places.len()).collect(),
            places,
            extents: Vec::new(),
        }
    }

    /// How many numbers of nodes there are.
    pub(super) fn count(&self) -> usize {
        self.places.len()
    }

    fn add(&mut self, at: Point) -> usize {
        self.places.push(at);
        self.parents.push(self.parents.len());
        self.parents.len() - 1
    }

    /// The node a point belongs to.
    pub(super) fn of(&self, node: usize) -> usize {
        let mut root = node;
        while self.parents[root] != root {
            root = self.parents[root];
        }
        root
    }

    fn unite(&mut self, one: usize, two: usize) {
        let (a, b) = (self.of(one), self.of(two));
        // the lower number leads, so that the outcome does not depend on the order
        let (low, high) = (a.min(b), a.max(b));
        self.parents[high] = low;
        self.parents[one] = low;
        self.parents[two] = low;
    }

    /// Measures the groups.
    fn settle(&mut self) -> Result<(), (Doubt, Point)> {
        self.extents = vec![None; self.places.len()];
        for index in 0..self.places.len() {
            let root = self.of(index);
            self.parents[index] = root;
            if root == index {
                continue;
            }
            let (leader, place) = (self.places[root], self.places[index]);
            let (low, high) = self.extents[root].unwrap_or((leader, leader));
            let low = Point::new(low.x.min(place.x), low.y.min(place.y));
            let high = Point::new(high.x.max(place.x), high.y.max(place.y));
            self.extents[root] = Some((low, high));
            let spread = number::length(high - low);
            if spread > tolerance::OFFSET_WIDEST_NODE {
                return Err((Doubt::Crowded(spread), leader));
            }
        }
        Ok(())
    }

    /// Where a node lies: the middle of its points.
    pub(super) fn place(&self, root: usize) -> Point {
        match self.extents[root] {
            None => self.places[root],
            Some((low, high)) => low.midpoint(high),
        }
    }

    /// How far apart the points of a node lie.
    pub(super) fn spread(&self, root: usize) -> f64 {
        self.extents[root].map_or(0.0, |(low, high)| number::length(high - low))
    }
}
