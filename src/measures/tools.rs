//! The nearest of the maker's own tools for each radius and hole, and what becomes of the limits with
//! it.

use super::limits;
use crate::design::Amount;
use crate::design::Design;
use crate::design::Dimension;
use crate::design::Override;
use crate::design::expression::Written;
use crate::design::file;
use crate::design::file::CircleSize;
use crate::design::file::CornerTreatment;
use crate::design::file::Entry;
use crate::design::file::Origin;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::design::tools::Tool;
use crate::design::tools::ToolKind;
use crate::geometry::Segment;
use crate::geometry::tolerance;

/// Where a radius stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// A round hole, or the end of a slot: something cuts it.
    Hole,
    /// An inside corner: something cuts it, too.
    Inside,
    /// An outside corner: something is laid on to scribe round.
    Outside,
}

impl Rounding {
    /// Whether this kind of tool serves for it.
    pub const fn takes(self, kind: ToolKind) -> bool {
        match self {
            Self::Hole | Self::Inside => kind.cuts(),
            Self::Outside => !kind.cuts(),
        }
    }
}

/// The nearest tool for one size of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The part.
    pub part: String,
    /// The features that have this size.
    pub features: Vec<String>,
    /// Where it stands.
    pub rounding: Rounding,
    /// The radius as designed, in millimetres.
    pub radius: f64,
    /// The nearest tool that serves; `None` if none of that kind is in hand.
    pub tool: Option<Tool>,
    /// What becomes of the limits.
    pub then: Then,
}

impl Choice {
    /// By how much the radius of the tool is larger than the one designed, in millimetres; negative
    /// if it is smaller.
    pub fn error(&self) -> Option<f64> {
        Some(self.tool.as_ref()?.radius - self.radius)
    }
}

/// What becomes of the limits when a tool is used.
#[derive(Clone, Debug, PartialEq)]
pub enum Then {
    /// There is no tool, or it has the very size.
    Nothing,
    /// The design was resolved again with this dimension at the tool's size, and every limit that it
    /// keeps now is still kept.
    Kept {
        /// The dimension.
        dimension: String,
    },
    /// It was resolved again, and these limits are broken.
    Broken {
        /// The dimension.
        dimension: String,
        /// The limits.
        limits: Vec<String>,
    },
    /// It cannot be built with the tool's size.
    NotBuilt {
        /// The dimension.
        dimension: String,
        /// Why not.
        why: String,
    },
    /// The size is not a dimension of its own that is free to change, so that it was only compared.
    Compared,
}

/// A size that a tool is wanted for.
struct Wanted {
    feature: String,
    rounding: Rounding,
    radius: f64,
    /// The dimension that the size is, if it is one that is free, and how many of it make a radius.
    dimension: Option<(String, f64)>,
}

/// The nearest tool for every radius and hole of the parts.
///
/// Nothing is chosen where the design names no tools.
pub fn nearest(design: &Design, parts: &[&Part]) -> Vec<Choice> {
    let mut choices = Vec::new();
    if design.tools.is_empty() {
        return choices;
    }
    for part in parts {
        let mut groups: Vec<(Wanted, Vec<String>)> = Vec::new();
        for wanted in wanted(design, part) {
            let same = groups.iter_mut().find(|(known, _)| {
                known.rounding == wanted.rounding
                    && known.dimension == wanted.dimension
                    && (known.radius - wanted.radius).abs() <= tolerance::SAME_DIMENSION
            });
            if let Some((_, features)) = same {
                features.push(wanted.feature);
            } else {
                let features = vec![wanted.feature.clone()];
                groups.push((wanted, features));
            }
        }
        for (wanted, features) in groups {
            choices.push(choice(design, part, &wanted, features));
        }
    }
    choices
}

fn choice(design: &Design, part: &Part, wanted: &Wanted, features: Vec<String>) -> Choice {
    let off = |tool: &&Tool| (tool.radius - wanted.radius).abs();
    let tool = design
        .tools
        .iter()
        .filter(|tool| wanted.rounding.takes(tool.kind))
        // the first of equals, in the order of the file
        .min_by(|one, other| off(one).total_cmp(&off(other)));
    let then = match (tool, &wanted.dimension) {
        (None, _) => Then::Nothing,
        (Some(tool), _) if off(&tool) <= tolerance::SAME_DIMENSION => Then::Nothing,
        (Some(tool), Some((dimension, per_radius))) => {
            with_size(design, dimension, tool.radius * per_radius)
        }
        (Some(_), None) => Then::Compared,
    };
    Choice {
        part: part.name.clone(),
        features,
        rounding: wanted.rounding,
        radius: wanted.radius,
        tool: tool.cloned(),
        then,
    }
}

/// Resolves the design again with a dimension at a tool's size, and looks at every limit.
fn with_size(design: &Design, dimension: &str, size: f64) -> Then {
    let dimension = dimension.to_owned();
    let set = [Override::exact(dimension.clone(), size)];
    let (dimensions, resolved) = match design.with_values(&set) {
        Ok(made) => made,
        Err(errors) => {
            let why = errors.first().map(|error| error.kind.to_string());
            let why = why.unwrap_or_default();
            return Then::NotBuilt { dimension, why };
        }
    };
    let broken = limits::limits(design).limits.into_iter().filter(|limit| {
        let is_broken = |value: Option<f64>| {
            value.is_some_and(|value| limits::broken_by(value, limit.permitted).is_some())
        };
        let now = limits::value_at(limit, &design.dimensions, &design.resolved.parts);
        let then = limits::value_at(limit, &dimensions, &resolved.parts);
        is_broken(then) && !is_broken(now)
    });
    let limits: Vec<String> = broken.map(|limit| limit.name).collect();
    if limits.is_empty() {
        Then::Kept { dimension }
    } else {
        Then::Broken { dimension, limits }
    }
}

fn wanted(design: &Design, part: &Part) -> Vec<Wanted> {
    let mut all = Vec::new();
    let mut add = |feature: &str, rounding, radius: f64, size: Option<(&Amount, f64)>| {
        let dimension = size.and_then(|(amount, per_radius)| {
            let name = free_dimension(design, amount)?.name.clone();
            Some((name, per_radius))
        });
        all.push(Wanted {
            feature: feature.to_owned(),
            rounding,
            radius,
            dimension,
        });
    };
    for corner in &part.corners {
        if let Some(Segment::Arc(arc)) = corner.worked {
            let size = entries(design, part).find_map(|entry| match entry {
                Entry::Corner(written) if written.value.name.value == corner.name => {
                    match &written.value.treatment {
                        CornerTreatment::Fillet(radius) => Some((radius, 1.0)),
                        _ => None,
                    }
                }
                _ => None,
            });
            add(&corner.name, side(arc.sweep()), arc.radius(), size);
        }
    }
    for round in &part.rounds {
        let size = entries(design, part).find_map(|entry| match entry {
            Entry::Round(written) if written.value.name.value == round.name => {
                Some((&written.value.radius, 1.0))
            }
            _ => None,
        });
        let sweep = round.arc.map_or(1.0, |arc| arc.sweep());
        add(&round.name, side(sweep), round.radius, size);
    }
    for opening in &part.openings {
        let written = written_opening(design, part, &opening.name);
        match opening.shape {
            OpeningShape::Circle { diameter, .. } => {
                let size = written.and_then(|written| match &written.shape {
                    file::OpeningShape::Circle(circle) => Some(match &circle.size {
                        CircleSize::Diameter(diameter) => (diameter, 2.0),
                        CircleSize::Radius(radius) => (radius, 1.0),
                    }),
                    _ => None,
                });
                add(&opening.name, Rounding::Hole, diameter / 2.0, size);
            }
            OpeningShape::Slot { width, .. } => {
                let size = written.and_then(|written| match &written.shape {
                    file::OpeningShape::Slot(slot) => Some((&slot.width, 2.0)),
                    _ => None,
                });
                add(&opening.name, Rounding::Hole, width / 2.0, size);
            }
            OpeningShape::Rectangle { corner_radius, .. } if corner_radius > 0.0 => {
                let size = written.and_then(|written| match &written.shape {
                    file::OpeningShape::Rectangle(rectangle) => {
                        Some((rectangle.radius.as_ref()?, 1.0))
                    }
                    _ => None,
                });
                add(&opening.name, Rounding::Inside, corner_radius, size);
            }
            OpeningShape::Rectangle { .. } => {}
            OpeningShape::Outline => {
                for corner in &opening.features.corners {
                    if let Some(Segment::Arc(arc)) = corner.worked {
                        let name = format!("{}, {}", opening.name, corner.name);
                        add(&name, Rounding::Inside, arc.radius(), None);
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

/// The parts in the file that a part may have its features from: itself first.
fn sources<'a>(design: &'a Design, part: &'a Part) -> impl Iterator<Item = &'a file::Part> {
    let own = design.file.part.get(&part.name).into_iter();
    let others = design
        .file
        .part
        .iter()
        .filter(|named| named.name.value != part.name);
    own.chain(others).map(|named| &named.entry)
}

fn entries<'a>(design: &'a Design, part: &'a Part) -> impl Iterator<Item = &'a Entry> {
    let of_own_shape = part.mirror_of.as_ref().unwrap_or(&part.name);
    let named = design.file.part.get(of_own_shape);
    named.into_iter().flat_map(|named| {
        named
            .entry
            .outline
            .iter()
            .flat_map(|outline| outline.value.iter())
    })
}

/// The opening as written; those of a pattern have its name with a number behind it.
fn written_opening<'a>(
    design: &'a Design,
    part: &'a Part,
    name: &str,
) -> Option<&'a file::Opening> {
    let pattern = name
        .trim_end_matches(|last: char| last.is_ascii_digit())
        .trim_end();
    let called = |wanted: &str| {
        sources(design, part).find_map(|entry| {
            let mut openings = entry.opening.iter().map(|opening| &opening.value);
            openings.find(|opening| opening.name.value == wanted)
        })
    };
    called(name).or_else(|| called(pattern))
}

/// The dimension that an amount is, and nothing else, if the maker is free to choose it.
fn free_dimension<'a>(design: &'a Design, amount: &Amount) -> Option<&'a Dimension> {
    let Written::Text(text) = &amount.value.written else {
        return None;
    };
    let dimension = design.dimensions.get(text.trim())?;
    let is_free = matches!(dimension.origin, Origin::Chosen | Origin::Rule);
    (is_free && dimension.value().is_some()).then_some(dimension)
}
