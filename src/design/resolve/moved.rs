//! Features moved, mirrored, and given other sources.

use crate::design::part::Corner;
use crate::design::part::Edge;
use crate::design::part::Features;
use crate::design::part::Round;
use crate::geometry::Motion;
use crate::geometry::Segment;
use crate::geometry::SourceId;

/// A motion, and what is added to the number of every source on the way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move<'a> {
    pub(super) motion: &'a Motion,
    pub(super) sources_on: u32,
}

impl Move<'_> {
    pub(super) const fn source(&self, source: SourceId) -> SourceId {
        SourceId(source.0.saturating_add(self.sources_on))
    }

    pub(super) fn corner(&self, corner: &Corner) -> Corner {
        Corner {
            source: self.source(corner.source),
            sharp: self.motion.point(corner.sharp),
            worked: corner.worked.map(|segment| self.motion.segment(&segment)),
            ..corner.clone()
        }
    }

    pub(super) fn round(&self, round: &Round) -> Round {
        Round {
            source: self.source(round.source),
            centre: self.motion.point(round.centre),
            arc: round.arc.map(|arc| self.motion.arc(&arc)),
            ..round.clone()
        }
    }

    pub(super) fn edge(&self, edge: &Edge) -> Edge {
        let segments = |list: &[Segment]| list.iter().map(|s| self.motion.segment(s)).collect();
        Edge {
            source: self.source(edge.source),
            sharp: segments(&edge.sharp),
            finished: segments(&edge.finished),
            curve: None,
            ..edge.clone()
        }
    }

    pub(super) fn features(&self, features: &Features) -> Features {
        Features {
            corners: features.corners.iter().map(|c| self.corner(c)).collect(),
            rounds: features.rounds.iter().map(|r| self.round(r)).collect(),
            edges: features.edges.iter().map(|e| self.edge(e)).collect(),
            sides: features.sides.map(|sides| self.motion.vector(sides)),
        }
    }
}
