//! A part: exact geometry, and where in the design file each piece of it was written.

use super::dimensions::Dimension;
use super::flatness::Flatness;
use super::source::Place;
use crate::geometry::Arc;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::outline::FittedEdge;
use std::ops::Range;

/// A flat part as it is to be when finished.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name in the design file.
    pub name: String,
    /// How many are wanted.
    pub quantity: u32,
    /// The remark written beside it, if any.
    pub note: Option<String>,
    /// The finished shape; hole *i* belongs to the opening with `hole == i`.
    pub region: Region,
    /// Its corners, in the order written.
    pub corners: Vec<Corner>,
    /// Its rounds, in the order written.
    pub rounds: Vec<Round>,
    /// Its edges, in the order written.
    pub edges: Vec<Edge>,
    /// Its openings, patterns spelt out.
    pub openings: Vec<Opening>,
    /// Lines to scribe on its faces.
    pub scribes: Vec<Scribe>,
    /// Places to mark.
    pub marks: Vec<Mark>,
    /// What every dimension is measured from.
    pub datum: Datum,
    /// The plate it is cut from, if the file names one.
    pub plate: Option<Plate>,
    /// Whether it is the mirror image of another part.
    pub mirror_of: Option<String>,
    /// Where each source of the region's pieces stands in the design file.
    pub origins: Vec<Origin>,
}

/// What a piece of an outline is, and where it is written.
#[derive(Clone, Debug, PartialEq)]
pub struct Origin {
    /// In words: "the corner `toe`", "the edge `leading`".
    pub feature: String,
    /// Its place in the design file.
    pub place: Place,
}

/// A corner of the outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// Its name.
    pub name: String,
    /// The source that its rounding or chamfer bears.
    pub source: SourceId,
    /// Where its edges would meet, sharp.
    pub sharp: Point,
    /// Its rounding or chamfer.
    pub worked: Option<Segment>,
    /// Its place in the design file.
    pub place: Place,
}

/// A round of the outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    /// Its name.
    pub name: String,
    /// The source that its arc bears.
    pub source: SourceId,
    /// Its centre.
    pub centre: Point,
    /// Its radius in millimetres.
    pub radius: f64,
    /// Its arc in the outline.
    pub arc: Option<Arc>,
    /// Its place in the design file.
    pub place: Place,
}

/// An edge of the outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// Its name; made from its ends when the file gives none.
    pub name: String,
    /// The source its pieces bear.
    pub source: SourceId,
    /// How it comes about.
    pub state: EdgeState,
    /// The edge before its corners are rounded, in the direction written.
    pub sharp: Vec<Segment>,
    /// The edge as it stands in the outline, in the direction written.
    pub finished: Vec<Segment>,
    /// The true curve that its arcs follow, if they follow one; not kept in mirror images and copies.
    pub curve: Option<Box<FittedEdge>>,
    /// Its place in the design file.
    pub place: Place,
}

/// How an edge comes about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EdgeState {
    /// It is cut.
    Cut,
    /// It is the plate's own edge, dressed and not cut.
    PlateEdge,
    /// A strip of this width is left on beyond it, in millimetres.
    LeaveOn(f64),
    /// It is trimmed when the part is fitted.
    TrimAtFitting,
}

impl EdgeState {
    /// Its name in design files and outputs.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::PlateEdge => "plate edge",
            Self::LeaveOn(_) => "leave on",
            Self::TrimAtFitting => "trim at fitting",
        }
    }
}

/// An opening in the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Its name, numbered when a pattern makes several.
    pub name: String,
    /// Index of its hole in the region.
    pub hole: usize,
    /// The numbers of the sources that its pieces bear; no other opening has any of them.
    pub sources: Range<u32>,
    /// The corners, rounds and edges of an opening that is written as an outline; which way the sides of a
    /// rectangle lie.
    pub features: Features,
    /// Its shape.
    pub shape: OpeningShape,
    /// How it is made.
    pub made: Made,
    /// The screw that it is for, if it is a hole for one.
    pub screw: Option<ScrewHole>,
    /// Its place in the design file.
    pub place: Place,
}

/// What a hole for a screw is. Lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScrewHole {
    /// Name of the screw.
    pub screw: &'static str,
    /// What is done to the hole.
    pub purpose: ScrewPurpose,
}

/// What is done to a hole for a screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ScrewPurpose {
    /// Nothing: the screw goes through it.
    Clearance,
    /// It is tapped; the hole is that of the drill.
    Tapped {
        /// Pitch of the thread.
        pitch: f64,
    },
    /// It is drilled smaller, and reamed to its diameter.
    Reamed {
        /// Diameter of the drill.
        drill: f64,
    },
    /// It is countersunk on one face, after it is made.
    Countersunk {
        /// Diameter of the countersink at the face.
        diameter: f64,
        /// Its angle in degrees.
        angle: f64,
    },
}

/// What an outline is made of, each in the order written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Features {
    /// Its corners.
    pub corners: Vec<Corner>,
    /// Its rounds.
    pub rounds: Vec<Round>,
    /// Its edges.
    pub edges: Vec<Edge>,
    /// Unit vector along the width of an opening that is written as a rectangle, its corners relieved or
    /// not.
    pub sides: Option<Vec2>,
}

/// The shape of an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OpeningShape {
    /// A round hole.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its diameter in millimetres.
        diameter: f64,
    },
    /// A slot with round ends.
    Slot {
        /// Centre of the one end.
        from: Point,
        /// Centre of the other end.
        to: Point,
        /// Its width in millimetres.
        width: f64,
    },
    /// A rectangle, perhaps with rounded corners.
    Rectangle {
        /// Its centre.
        centre: Point,
        /// Its size along its own x axis, in millimetres.
        width: f64,
        /// Its size along its own y axis, in millimetres.
        height: f64,
        /// Radius of its corners, 0 for sharp ones.
        corner_radius: f64,
        /// Radius of the reliefs in its corners, which reach beyond its sides; 0 for none.
        relief: f64,
        /// Direction of its x axis in radians.
        angle: f64,
    },
    /// Any outline.
    Outline,
}

/// How an opening is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// Cut with the part.
    Cut,
    /// Drilled; a cut file only marks its centre.
    Drilled,
}

/// A line to scribe on the face of the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Scribe {
    /// Its name.
    pub name: String,
    /// The edge it runs parallel to and its distance in millimetres, if it does.
    pub along: Option<(String, f64)>,
    /// Its pieces: one path, or several where openings interrupt it.
    pub paths: Vec<Path>,
    /// Its place in the design file.
    pub place: Place,
}

/// A place to mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its name, numbered when a pattern makes several.
    pub name: String,
    /// Where.
    pub at: Point,
    /// Its place in the design file.
    pub place: Place,
}

/// The straight edge and the point on it that everything is measured from.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum {
    /// The corner it starts at.
    pub origin: Point,
    /// Unit vector along the datum edge.
    pub along: Vec2,
    /// Unit vector square to it, into the part.
    pub across: Vec2,
    /// In words: "along “trailing” from “heel”".
    pub words: String,
    /// Name of the datum edge, if there is one.
    pub edge: Option<String>,
    /// Name of the corner or round it starts at, if there is one.
    pub from: Option<String>,
}

impl Datum {
    /// Running dimensions of a point: along the datum edge, and square to it.
    pub fn running(&self, point: Point) -> Vec2 {
        let from = point - self.origin;
        Vec2::new(from.dot(self.along), from.dot(self.across))
    }
}

/// A plate to cut parts from.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// Its name in the design file.
    pub name: String,
    /// What it is made of, as written.
    pub material: String,
    /// Its thickness in millimetres, if known: the mean of its readings, if it was measured.
    pub thickness: Option<f64>,
    /// Its thickness as a dimension, with its limits and readings.
    pub gauged: Option<Box<Dimension>>,
    /// How flat it is and has to be.
    pub flatness: Option<Box<Flatness>>,
    /// Its length and width in millimetres, if given.
    pub size: Option<(f64, f64)>,
    /// Which face is the good one, as written.
    pub good_face: Option<String>,
}

impl Plate {
    /// What it is sold as, in millimetres, where it was measured to be something else.
    pub fn sold_as(&self) -> Option<f64> {
        let gauged = self.gauged.as_ref()?;
        gauged.mean_reading().and(gauged.value())
    }

    /// The least and the most that its thickness may be, in millimetres.
    pub fn permitted(&self) -> (Option<f64>, Option<f64>) {
        let permitted = self.gauged.as_ref().map(|gauged| gauged.permitted);
        permitted.map_or((None, None), |permitted| (permitted.min, permitted.max))
    }
}

impl Part {
    /// The corner with this name.
    pub fn corner(&self, name: &str) -> Option<&Corner> {
        self.corners.iter().find(|corner| corner.name == name)
    }

    /// The edge with this name.
    pub fn edge(&self, name: &str) -> Option<&Edge> {
        self.edges.iter().find(|edge| edge.name == name)
    }

    /// The edge that a piece of the outline belongs to, if it is no corner or round.
    pub fn edge_of(&self, source: SourceId) -> Option<&Edge> {
        self.edges.iter().find(|edge| edge.source == source)
    }

    /// Where a piece of the outline comes from.
    pub fn origin(&self, source: SourceId) -> Option<&Origin> {
        self.origins.get(source.0 as usize)
    }

    /// Weight in kilograms, given the density in kg/m³ and a thickness for a plate that has none
    /// stated; `None` without a thickness.
    pub fn weight(&self, density: f64) -> Option<f64> {
        let thickness = self.plate.as_ref()?.thickness?;
        Some(self.region.area() * thickness * density * 1e-9)
    }

    /// The longest distance across its bounds, in millimetres.
    pub fn reach(&self) -> f64 {
        let bounds = self.region.bounds();
        number::length(Vec2::new(bounds.width(), bounds.height()))
    }
}
