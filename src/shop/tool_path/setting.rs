//! How a part is to be cut: width of the cut, side of the part, leads, bridges.

use super::error::ToolPathError;
use crate::geometry::Point;
use crate::geometry::Region;

/// How a part is to be cut. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Width of the cut: the kerf of a jet, the diameter of a cutter.
    pub kerf: f64,
    /// What is left on every cut edge for finishing by hand.
    pub allowance: f64,
    /// On which side of travel the part lies.
    pub good_side: GoodSide,
    /// The shape of a lead.
    pub lead: Lead,
    /// Radius of a round lead, length of a straight one.
    pub lead_length: f64,
    /// Diameter of the place that piercing spoils.
    pub pierce: f64,
    /// How far a closed cut runs on over its own start.
    pub overlap: f64,
    /// Bridges that hold the part in the plate until it is taken out.
    pub bridges: Option<Bridges>,
    /// Round openings of a smaller diameter are drilled.
    pub smallest_hole: f64,
    /// Where cuts start, for those that the user says.
    pub starts: Vec<Start>,
    /// Other parts in the plate that no cut may touch, on which as much is left for finishing.
    pub neighbours: Vec<Region>,
}

/// On which side of travel the part lies; the other side is waste.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GoodSide {
    /// Outside edges anticlockwise, openings clockwise: a router cuts conventionally.
    Left,
    /// Outside edges clockwise, openings anticlockwise: a plasma jet leaves its square side there, and
    /// a router climbs.
    Right,
}

impl GoodSide {
    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// The shape of a lead, on which a cut comes to the edge of the part and leaves it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lead {
    /// A quarter circle, tangent to the edge.
    Arc,
    /// A straight line at 45° to the edge.
    Straight,
    /// None: the cutter goes down on the line itself.
    None,
}

/// Bridges: short stretches of the outside that are not cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bridges {
    /// How many.
    pub count: usize,
    /// How wide each stays.
    pub width: f64,
}

/// Where a cut starts.
#[derive(Clone, Debug, PartialEq)]
pub enum Start {
    /// In the middle of the edge of this name, of the outline or of an opening.
    Edge(String),
    /// At the place of some cut nearest to this point.
    Near(Point),
}

impl Setting {
    /// A plain cut of this width: round leads of the kerf and at least 3 mm, a pierce as wide as the kerf, an overlap of 1 mm, the part on the left of travel, no hole too small.
    pub fn plain(kerf: f64) -> Self {
        Self {
            kerf,
            allowance: 0.0,
            good_side: GoodSide::Left,
            lead: Lead::Arc,
            lead_length: kerf.max(3.0),
            pierce: kerf,
            overlap: 1.0,
            bridges: None,
            smallest_hole: 0.0,
            starts: Vec::new(),
            neighbours: Vec::new(),
        }
    }

    /// Distance of the path from the finished edge.
    pub const fn reach(&self) -> f64 {
        self.kerf / 2.0 + self.allowance
    }

    /// Refuses what cannot be.
    pub(super) fn check(&self) -> Result<(), ToolPathError> {
        let bridge = self.bridges.map_or(1.0, |bridges| bridges.width);
        for (what, value, least, most) in [
            ("kerf", self.kerf, 0.01, 50.0),
            ("rough allowance", self.allowance, 0.0, 50.0),
            ("length of a lead", self.lead_length, 0.0, 500.0),
            ("diameter of a pierce", self.pierce, 0.0, 100.0),
            ("overlap", self.overlap, 0.0, 100.0),
            ("smallest hole", self.smallest_hole, 0.0, 1000.0),
            ("width of a bridge", bridge, 0.1, 100.0),
        ] {
            // written so that NaN is refused too
            if !(value >= least && value <= most) {
                return Err(ToolPathError::Setting {
                    what,
                    value,
                    least,
                    most,
                });
            }
        }
        Ok(())
    }
}
