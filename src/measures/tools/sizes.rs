//! The radii and holes of a part as it was built.

use super::Rounding;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Segment;
use std::fmt;

/// A radius of a part that a tool is wanted for.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Size {
    pub(super) feature: Feature,
    pub(super) rounding: Rounding,
    /// In millimetres.
    pub(super) radius: f64,
}

/// What has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Feature {
    /// A rounded corner of the outline.
    Corner(String),
    /// A round of the outline.
    Round(String),
    /// An opening: its whole rim, its ends, or its corners.
    Opening(String),
    /// A rounded corner of an opening with an outline of its own: opening, corner.
    OpeningCorner(String, String),
}

impl fmt::Display for Feature {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Corner(name) | Self::Round(name) | Self::Opening(name) => {
                formatter.write_str(name)
            }
            Self::OpeningCorner(opening, corner) => write!(formatter, "{opening}, {corner}"),
        }
    }
}

/// Every radius and hole of a part.
pub(super) fn of(part: &Part) -> Vec<Size> {
    let mut all = Vec::new();
    let mut add = |feature, rounding, radius| {
        all.push(Size {
            feature,
            rounding,
            radius,
        });
    };
    for corner in &part.corners {
        if let Some(Segment::Arc(arc)) = corner.worked {
            let feature = Feature::Corner(corner.name.clone());
            add(feature, side(arc.sweep()), arc.radius());
        }
    }
    for round in &part.rounds {
        let sweep = round.arc.map_or(1.0, |arc| arc.sweep());
        let feature = Feature::Round(round.name.clone());
        add(feature, side(sweep), round.radius);
    }
    for opening in &part.openings {
        let feature = Feature::Opening(opening.name.clone());
        match opening.shape {
            OpeningShape::Circle { diameter, .. } => {
                add(feature, Rounding::Hole, diameter / 2.0);
            }
            OpeningShape::Slot { width, .. } => add(feature, Rounding::Hole, width / 2.0),
            OpeningShape::Rectangle { corner_radius, .. } if corner_radius > 0.0 => {
                add(feature, Rounding::Inside, corner_radius);
            }
            OpeningShape::Rectangle { .. } => {}
            OpeningShape::Outline => {
                for corner in &opening.features.corners {
                    if let Some(Segment::Arc(arc)) = corner.worked {
                        let (opening, corner) = (opening.name.clone(), corner.name.clone());
                        let feature = Feature::OpeningCorner(opening, corner);
                        add(feature, Rounding::Inside, arc.radius());
                    }
                }
            }
        }
    }
    all
}

/// Outlines run anticlockwise: what turns left stands out.
fn side(sweep: f64) -> Rounding {
    if sweep > 0.0 {
        Rounding::Outside
    } else {
        Rounding::Inside
    }
}
