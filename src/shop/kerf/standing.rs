//! How a way of cutting stands for a part, and what speaks against it.

use super::Comparison;
use super::case::Case;
use super::general::narrowest;
use super::judged::Judged;
use super::judged::Kind;
use crate::design::part::EdgeState;
use crate::design::part::Made;
use crate::design::part::Part;
use crate::geometry::Segment;
use crate::geometry::nearest::InsideCorner;
use crate::geometry::nearest::Web;
use crate::geometry::nearest::narrowest_web;
use crate::geometry::nearest::tightest_inside_corner;
use crate::measures::TakenKind;
use crate::trade::Process;
use crate::trade::processes::Start;

/// How a way of cutting stands for a part; the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Every limit and fit that there is holds, also at the ends of the kerf and on both faces, and nothing
    /// speaks against it.
    Fits,
    /// Every limit and fit that there is holds, but something of usual practice speaks against it.
    FitsWithCare,
    /// Whether it fits hangs on figures that nobody stands up for, or it is not what such parts are made
    /// by.
    Unsure,
    /// A limit or fit breaks although the shop compensates, or something is lost.
    DoesNotFit,
    /// It does not cut the material, or must never be used on it.
    NotForThis,
}

/// Something that speaks against a way of cutting.
#[derive(Clone, Debug, PartialEq)]
pub enum Concern {
    /// A hole smaller than the process makes well.
    SmallHole {
        /// The opening.
        opening: String,
        /// Its width.
        has: f64,
        /// What the process makes well.
        least: f64,
        /// Whether somebody stands up for that.
        sure: bool,
    },
    /// A web narrower than the process leaves well.
    ThinWeb {
        /// Its width.
        has: f64,
        /// What is usual.
        least: f64,
        /// Whether somebody stands up for that.
        sure: bool,
    },
    /// An inside corner sharper than the process makes.
    SharpCorner {
        /// Its radius, 0 for a sharp one.
        has: f64,
        /// The smallest of the process.
        least: f64,
        /// Whether somebody stands up for that.
        sure: bool,
    },
    /// Every opening needs a drilled hole to start from.
    DrilledStarts,
    /// It only comes from the edge of the plate, and cannot make the openings.
    NoOpenings,
    /// It only cuts straight.
    StraightOnly,
    /// The part is longer than usual machines take.
    TooLong {
        /// Its length in millimetres.
        has: f64,
        /// What they take.
        most: f64,
        /// Whether somebody stands up for that.
        sure: bool,
    },
    /// The plate is thicker than is usual for it.
    TooThick {
        /// Its thickness in millimetres.
        has: f64,
        /// What is usual.
        most: f64,
        /// Whether somebody stands up for that.
        sure: bool,
    },
    /// The usual error is more than the room at the narrowest limit.
    Inexact {
        /// Usual error of the process, either way.
        usual: f64,
        /// What room the narrowest limit leaves, in millimetres.
        room: f64,
        /// Which, in [`judged`](super::judged()).
        judged: usize,
        /// Whether somebody stands up for the error.
        sure: bool,
    },
}

impl Concern {
    /// Whether somebody stands up for the figure, so that the part fails by it.
    pub const fn is_sure(&self) -> bool {
        match self {
            Self::SmallHole { sure, .. }
            | Self::ThinWeb { sure, .. }
            | Self::SharpCorner { sure, .. }
            | Self::TooLong { sure, .. }
            | Self::TooThick { sure, .. }
            | Self::Inexact { sure, .. } => *sure,
            Self::NoOpenings | Self::StraightOnly => true,
            Self::DrilledStarts => false,
        }
    }

    /// Whether such parts are hardly made so.
    pub const fn is_unlikely(&self) -> bool {
        matches!(self, Self::TooLong { .. } | Self::TooThick { .. })
    }
}

/// What speaks against a process for the part as drawn.
pub(super) fn concerns(part: &Part, process: &Process, thickness: f64) -> Vec<Concern> {
    let mut all = shape_concerns(part, process, thickness);
    let cut = part
        .openings
        .iter()
        .filter(|opening| opening.made == Made::Cut)
        .filter_map(|opening| narrowest(opening).map(|width| (opening, width)));
    let smallest = cut.min_by(|a, b| a.1.total_cmp(&b.1));
    if let (Some(figure), Some((opening, has))) = (&process.smallest_hole, smallest) {
        let least = figure.at(thickness);
        if has < least {
            all.push(Concern::SmallHole {
                opening: opening.name.clone(),
                has,
                least,
                sure: figure.origin.is_authority(),
            });
        }
    }
    if let (Some(figure), Web::At(web)) = (&process.web, narrowest_web(&part.region)) {
        let (has, least) = (web.distance, figure.at(thickness));
        if has < least {
            all.push(Concern::ThinWeb {
                has,
                least,
                sure: figure.origin.is_authority(),
            });
        }
    }
    if let Some(figure) = &process.inside_radius {
        let least = figure.at(thickness);
        let has = match tightest_inside_corner(&part.region) {
            InsideCorner::None => None,
            InsideCorner::Sharp { .. } => Some(0.0),
            InsideCorner::Round { radius, .. } => Some(radius),
        };
        if let Some(has) = has.filter(|&has| has < least) {
            all.push(Concern::SharpCorner {
                has,
                least,
                sure: figure.origin.is_authority(),
            });
        }
    }
    all
}

/// What speaks against it by the kind of part: how openings start, straight or not, length, thickness.
fn shape_concerns(part: &Part, process: &Process, thickness: f64) -> Vec<Concern> {
    let mut all = Vec::new();
    let has_openings = part
        .openings
        .iter()
        .any(|opening| opening.made == Made::Cut);
    match process.start {
        Start::DrilledHole if has_openings => all.push(Concern::DrilledStarts),
        Start::EdgeOnly if has_openings => all.push(Concern::NoOpenings),
        _ => {}
    }
    let is_cut = |source| {
        part.edge_of(source)
            .is_none_or(|edge| edge.state == EdgeState::Cut)
    };
    let curved = part
        .region
        .outer()
        .pieces()
        .iter()
        .any(|piece| matches!(piece.segment, Segment::Arc(_)) && is_cut(piece.source));
    if process.straight_only && curved {
        all.push(Concern::StraightOnly);
    }
    let bounds = part.region.bounds();
    let has = bounds.width().max(bounds.height());
    if let Some(figure) = &process.longest {
        let (most, sure) = (figure.at(thickness), figure.origin.is_authority());
        if has > most {
            all.push(Concern::TooLong { has, most, sure });
        }
    }
    if let Some(figure) = &process.thickest {
        let (most, sure) = (figure.at(thickness), figure.origin.is_authority());
        if thickness > most {
            let has = thickness;
            all.push(Concern::TooThick { has, most, sure });
        }
    }
    all
}

/// The narrowest room when the shop compensates, over the ends of the kerf, and where: in the limits and
/// fits of the design, or in the general tolerance.
pub(super) fn narrowest_room(
    comparison: &Comparison,
    all: &[Judged],
    is_general: bool,
) -> Option<(f64, usize)> {
    comparison
        .cases
        .iter()
        .filter(|result| matches!(result.case, Case::Right | Case::Narrow | Case::Wide))
        .flat_map(|result| result.readings.iter().enumerate())
        .filter(|(index, _)| {
            all.get(*index).is_some_and(|judged| {
                judged.counts == TakenKind::Length && (judged.kind == Kind::General) == is_general
            })
        })
        .filter_map(|(index, reading)| reading.room.map(|room| (room, index)))
        .min_by(|a, b| a.0.total_cmp(&b.0))
}
