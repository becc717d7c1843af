//! What keeps a tool path from being made, and where.

use crate::design::part::Part;
use crate::design::source::Place;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::number::shown;
use crate::geometry::number::shown_point;
use crate::geometry::offset::OffsetError;

/// Why there is no tool path. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ToolPathError {
    /// A setting that cannot be.
    #[error("the {what} is {value} mm, which cannot be: give {least} to {most} mm", value = shown(.value))]
    Setting {
        /// What was set.
        what: &'static str,
        /// To what.
        value: f64,
        /// The least that can be.
        least: f64,
        /// The most that can be.
        most: f64,
    },
    /// The path beside the edges cannot be had with certainty.
    #[error("the path beside the edges cannot be made: {0}")]
    Offset(#[from] OffsetError),
    /// An opening in which the cut has no room.
    #[error(
        "the cut of {kerf} mm has no room in the opening `{opening}` at {place} mm: drill it, make it wider, \
         or take a process with a narrower kerf", kerf = shown(.kerf), place = shown_point(.at)
    )]
    OpeningTooNarrow {
        /// Its name.
        opening: String,
        /// Where it is.
        at: Point,
        /// Width of the cut with the allowance on both sides.
        kerf: f64,
    },
    /// An opening with a neck through which the cut does not pass.
    #[error(
        "the opening `{opening}` at {place} mm has a neck narrower than the cut of {kerf} mm and would come out \
         in {pieces} pieces: widen the neck, or take a process with a narrower kerf",
        kerf = shown(.kerf), place = shown_point(.at)
    )]
    OpeningFallsApart {
        /// Its name.
        opening: String,
        /// Where it is.
        at: Point,
        /// Width of the cut with the allowance on both sides.
        kerf: f64,
        /// How many closed cuts there would be.
        pieces: usize,
    },
    /// An edge that the cut does not reach.
    #[error(
        "{feature} is not reached by a cut of {kerf} mm: {left} mm would stay standing at {place} mm; widen the \
         place, or take a process with a narrower kerf",
        kerf = shown(.kerf), left = shown(.left), place = shown_point(.at)
    )]
    EdgeNotReached {
        /// In words: "the edge `leading`".
        feature: String,
        /// Where.
        at: Point,
        /// Width of the cut with the allowance on both sides.
        kerf: f64,
        /// How much stays standing.
        left: f64,
    },
    /// No lead has room.
    #[error(
        "no lead fits for {what} near {place} mm: a pierce of {pierce} mm and a lead of {least} mm touch the part \
         or its neighbour everywhere; take a smaller pierce, start in a drilled hole (--lead none), or \
         choose another place", place = shown_point(.at), pierce = shown(.pierce), least = shown(.least)
    )]
    NoLead {
        /// The cut in words.
        what: String,
        /// Where it was tried first.
        at: Point,
        /// Diameter of the pierce.
        pierce: f64,
        /// The shortest lead that was tried.
        least: f64,
    },
    /// A bridge has no place.
    #[error(
        "{count} bridges of {width} mm do not fit on straight edges: {found} have room, {margin} mm away from \
         corners; ask for fewer or narrower ones", width = shown(.width), margin = shown(.margin)
    )]
    BridgesDoNotFit {
        /// How many were asked for.
        count: usize,
        /// How many have room.
        found: usize,
        /// Width of each.
        width: f64,
        /// What is kept between a bridge and the end of its edge.
        margin: f64,
        /// Where the first of them had no room.
        at: Point,
    },
    /// A start on an edge that there is not.
    #[error("no cut runs along an edge called `{name}`; there are {}", known.join(", "))]
    UnknownStart {
        /// What was asked for.
        name: String,
        /// The edges that are cut.
        known: Vec<String>,
    },
    /// The cut meets another part.
    #[error(
        "the cut comes within {distance} mm of a neighbour at {place} mm; it needs {needed} mm: move them apart",
        distance = shown(.distance), needed = shown(.needed), place = shown_point(.at)
    )]
    NeighbourTooNear {
        /// How near.
        distance: f64,
        /// How near it may be.
        needed: f64,
        /// Where.
        at: Point,
    },
    /// A strip left on beside an edge too tightly hollow for it.
    #[error("the strip of {width} mm left on beyond `{edge}` has no room in its hollow", width = shown(.width))]
    StripTooWide {
        /// The edge.
        edge: String,
        /// Width of the strip.
        width: f64,
    },
    /// A tool that is led by hand or along a guide.
    #[error("{process}: it follows no tool path by itself; send or saw by the finished lines")]
    NoPathFollowed {
        /// The process.
        process: String,
    },
    /// A construction failed.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
}

named!(ToolPathError:
    Setting => "tool-path-setting",
    Offset => "tool-path-offset",
    OpeningTooNarrow => "opening-narrower-than-kerf",
    OpeningFallsApart => "opening-falls-apart",
    EdgeNotReached => "edge-not-reached",
    NoLead => "no-room-for-lead",
    BridgesDoNotFit => "no-room-for-bridges",
    UnknownStart => "unknown-start",
    NeighbourTooNear => "neighbour-too-near",
    StripTooWide => "strip-too-wide",
    NoPathFollowed => "no-path-followed",
    Geometry => "tool-path-geometry",
);

impl ToolPathError {
    /// Where on the part, if at one place.
    pub const fn at(&self) -> Option<Point> {
        match self {
            Self::OpeningTooNarrow { at, .. }
            | Self::OpeningFallsApart { at, .. }
            | Self::EdgeNotReached { at, .. }
            | Self::NoLead { at, .. }
            | Self::BridgesDoNotFit { at, .. }
            | Self::NeighbourTooNear { at, .. }
            | Self::Offset(
                OffsetError::CrossesItself { at }
                | OffsetError::Misplaced { at }
                | OffsetError::TooFlat { at, .. }
                | OffsetError::NotCertified { at, .. },
            ) => Some(*at),
            _ => None,
        }
    }

    /// Where in the design file, if it speaks of a place on the part: the line of the nearest piece.
    pub fn place(&self, part: &Part) -> Option<Place> {
        if let Self::StripTooWide { edge, .. } = self {
            return part.edge(edge).map(|edge| edge.place);
        }
        let at = self.at()?;
        let pieces = part.region.contours().flat_map(Contour::pieces);
        let away =
            |piece: &&crate::geometry::Piece| number::length(piece.segment.nearest_point(at) - at);
        let nearest = pieces.min_by(|a, b| away(a).total_cmp(&away(b)))?;
        part.origin(nearest.source).map(|origin| origin.place)
    }
}
