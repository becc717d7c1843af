//! What a cut loses of a part.

use super::general::contour_of;
use crate::design::Place;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Region;

/// Something that a cut loses.
#[derive(Clone, Debug, PartialEq)]
pub struct Lost {
    /// What.
    pub what: WhatIsLost,
    /// Where it stands in the design file.
    pub place: Place,
}

/// What a cut may lose.
#[derive(Clone, Debug, PartialEq)]
pub enum WhatIsLost {
    /// All of the part.
    Part,
    /// The part falls into so many pieces.
    Pieces(usize),
    /// An opening in which the tool has no room.
    Opening(String),
    /// Two openings that run into one another, or one into the edge.
    Merged(String),
    /// An edge of the outline.
    Edge(String),
}

impl WhatIsLost {
    /// In a reader's words.
    pub fn words(&self) -> String {
        match self {
            Self::Part => "nothing is left of the part".to_owned(),
            Self::Pieces(count) => format!("the part falls into {count} pieces"),
            Self::Opening(name) => format!("the cut has no room in `{name}`"),
            Self::Merged(name) => format!("`{name}` runs into its neighbour"),
            Self::Edge(name) => format!("nothing is left of the edge `{name}`"),
        }
    }
}

/// What a shape has lost of its part.
pub(super) fn lost(part: &Part, shape: &[Region]) -> Vec<Lost> {
    let whole = part
        .edges
        .first()
        .map_or(Place::default(), |edge| edge.place);
    let at = |what, place| Lost { what, place };
    if shape.is_empty() {
        return vec![at(WhatIsLost::Part, whole)];
    }
    let mut all = Vec::new();
    if shape.len() > 1 {
        all.push(at(WhatIsLost::Pieces(shape.len()), whole));
    }
    let mut homes: Vec<&Contour> = Vec::new();
    for opening in &part.openings {
        let what = match contour_of(shape, opening) {
            Some(contour) if homes.iter().any(|home| std::ptr::eq(*home, contour)) => {
                WhatIsLost::Merged(opening.name.clone())
            }
            Some(contour) => {
                homes.push(contour);
                continue;
            }
            None if in_outline(shape, opening) => WhatIsLost::Merged(opening.name.clone()),
            None => WhatIsLost::Opening(opening.name.clone()),
        };
        all.push(at(what, opening.place));
    }
    let has = |source| {
        shape
            .iter()
            .flat_map(Region::contours)
            .flat_map(Contour::pieces)
            .any(|piece| piece.source == source)
    };
    for edge in &part.edges {
        if !edge.finished.is_empty() && !has(edge.source) {
            all.push(at(WhatIsLost::Edge(edge.name.clone()), edge.place));
        }
    }
    all
}

/// Whether what is left of an opening has become part of the outline.
fn in_outline(shape: &[Region], opening: &crate::design::part::Opening) -> bool {
    shape
        .iter()
        .flat_map(|region| region.outer().pieces())
        .any(|piece| opening.sources.contains(&piece.source.0))
}
