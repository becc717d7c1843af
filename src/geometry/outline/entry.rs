//! What the builder is given: the words of a design file, typed.

use crate::geometry::Point;
use crate::geometry::construct::ReliefDirection;
use crate::geometry::fair_curve::BattenEnd;
use crate::geometry::fair_curve::Breakpoint;

/// A corner or a round, and the edge that leaves it.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its name, for messages.
    pub name: String,
    /// The corner or round.
    pub place: Place,
    /// The edge from here to the next entry.
    pub edge: Edge,
}

/// Where an outline turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Place {
    /// A known point.
    Corner {
        /// Where the two edges would meet, sharp.
        at: Point,
        /// What is done to it.
        treatment: Treatment,
    },
    /// A known circle that the neighbouring edges run onto tangent.
    Round {
        /// Its centre.
        about: Point,
        /// Its radius in millimetres.
        radius: f64,
        /// Whether the shape lies inside it or outside.
        side: Side,
    },
}

/// What is done to a corner, after all edges are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Treatment {
    /// Left sharp.
    Sharp,
    /// Rounded by an arc of this radius, tangent to what meets there.
    Fillet(f64),
    /// Cut off straight, at these distances from the corner along the edge that arrives and the edge
    /// that leaves, each measured straight from the sharp corner.
    Chamfer(f64, f64),
    /// An inside corner cut out by a cutter of this radius, so that a square mate goes home.
    Relief(f64, ReliefDirection),
}

/// What lies inside an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Encloses {
    /// Material: it is the outline of a part.
    Material,
    /// Nothing: it is the outline of an opening.
    Opening,
}

impl Encloses {
    /// +1 when material lies inside, −1 outside.
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Material => 1.0,
            Self::Opening => -1.0,
        }
    }
}

/// Which way an arc bulges, seen from the shape that the outline encloses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Outward; the shape lies inside the circle.
    Full,
    /// Inward; the shape lies outside the circle.
    Hollow,
}

impl Side {
    /// +1 for full, −1 for hollow: the sense of turn on an anticlockwise outline.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Full => 1.0,
            Self::Hollow => -1.0,
        }
    }
}

/// The edge between two entries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Edge {
    /// Its name, for messages; may be empty.
    pub name: String,
    /// Its shape.
    pub shape: EdgeShape,
    /// Where the arcs along a fair curve met when the outline was built with slightly other values; empty for a
    /// fit of its own. It keeps measures of the outline smooth in its values.
    pub breakpoints: Vec<Breakpoint>,
}

/// The shape of an edge.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum EdgeShape {
    /// Straight.
    #[default]
    Straight,
    /// An arc of a known radius, the shorter one.
    Radius(Side, f64),
    /// An arc of a known bow: its height over its own chord, also where it runs tangent onto a round.
    Bow(Side, f64),
    /// The arc through a point.
    Through(Point),
    /// The arc that leaves its corner in the direction in which the edge before arrives.
    TangentToPrevious,
    /// The arc tangent to both neighbours, which must be straight; the corners at its ends only fix
    /// the neighbours' lines.
    TangentToBoth(BothFixedBy),
    /// A full-round end: the arc tangent to both straight neighbours and to the straight line between
    /// the two corners.
    FullRound,
    /// A batten from corner to corner through stations between them, followed by tangent arcs.
    Fair(FairEdge),
    /// A quarter of an ellipse from corner to corner, tangent to the edge before and the edge after.
    EllipticalQuarter,
}

/// A fair curve between two corners.
#[derive(Clone, Debug, PartialEq)]
pub struct FairEdge {
    /// The points it runs through between the corners, in order; there may be none.
    pub stations: Vec<Point>,
    /// How the batten is held at the corner it leaves.
    pub start: BattenEnd,
    /// How it is held at the corner it runs to.
    pub end: BattenEnd,
    /// Greatest distance of the arcs from the batten, in millimetres.
    pub tolerance: f64,
}

/// What fixes an arc tangent to both its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BothFixedBy {
    /// Its radius.
    Radius(f64),
    /// Its greatest height over the straight line between the two corners.
    Crown(f64),
    /// A point on it.
    Through(Point),
}

impl Entry {
    /// A sharp corner with a straight edge leaving it.
    pub fn corner(name: impl Into<String>, at: Point) -> Self {
        let place = Place::Corner {
            at,
            treatment: Treatment::Sharp,
        };
        Self {
            name: name.into(),
            place,
            edge: Edge::default(),
        }
    }

    /// A round with a straight edge leaving it.
    pub fn round(name: impl Into<String>, about: Point, radius: f64, side: Side) -> Self {
        let place = Place::Round {
            about,
            radius,
            side,
        };
        Self {
            name: name.into(),
            place,
            edge: Edge::default(),
        }
    }

    /// The same corner with a fillet; no effect on a round.
    #[must_use]
    pub fn fillet(self, radius: f64) -> Self {
        self.treated(Treatment::Fillet(radius))
    }

    /// The same corner cut off equally on both sides; no effect on a round.
    #[must_use]
    pub fn chamfer(self, setback: f64) -> Self {
        self.treated(Treatment::Chamfer(setback, setback))
    }

    /// The same corner with this treatment; no effect on a round.
    #[must_use]
    pub fn treated(mut self, treatment: Treatment) -> Self {
        if let Place::Corner {
            treatment: current, ..
        } = &mut self.place
        {
            *current = treatment;
        }
        self
    }

    /// The same entry with another edge leaving it.
    #[must_use]
    pub fn edge(mut self, name: impl Into<String>, shape: EdgeShape) -> Self {
        self.edge = Edge {
            name: name.into(),
            shape,
            breakpoints: Vec::new(),
        };
        self
    }
}

impl Place {
    /// The point or the centre of the circle.
    pub const fn point(&self) -> Point {
        match self {
            Self::Corner { at, .. } => *at,
            Self::Round { about, .. } => *about,
        }
    }
}
