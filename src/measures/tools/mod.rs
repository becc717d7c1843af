//! The nearest of the maker's own tools for each radius and hole, and what becomes of the limits with
//! it.

mod made;
mod sizes;
mod written;

use crate::design::Design;
use crate::design::part::Part;
use crate::design::tools::Tool;
use crate::design::tools::ToolKind;
use crate::geometry::tolerance;
use made::Bringer;
use sizes::Size;

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
    /// The design was resolved again with the tool's size, and every limit and fit that it keeps now is
    /// still kept.
    Kept(Changed),
    /// It was resolved again, and these limits or fits are broken.
    Broken(Changed, Vec<String>),
    /// It cannot be built with the tool's size; why not.
    NotBuilt(Changed, String),
}

/// What was changed so that the part has the tool's size.
#[derive(Clone, Debug, PartialEq)]
pub enum Changed {
    /// The one dimension that the size comes from and that the maker is free to choose, at this value in
    /// millimetres; what else depends on it has moved along.
    Dimension(String, f64),
    /// The features themselves, with everything else where it was: their size is a number of its own, or
    /// comes from several dimensions, or from one that is not free.
    Features,
}

/// The nearest tool for every radius and hole of the parts.
///
/// Nothing is chosen where the design names no tools. A size is traced to the dimension that it comes
/// from by resolving the design again with that dimension moved, through whatever expressions.
pub fn nearest(design: &Design, parts: &[&Part]) -> Vec<Choice> {
    let mut choices = Vec::new();
    if design.tools.is_empty() {
        return choices;
    }
    for part in parts {
        let mut groups: Vec<(Size, Option<Bringer>, Vec<Size>)> = Vec::new();
        for size in sizes::of(part) {
            let bringer = made::bringer(design, part, &size);
            let same = groups.iter_mut().find(|(known, brought, _)| {
                known.rounding == size.rounding
                    && *brought == bringer
                    && (known.radius - size.radius).abs() <= tolerance::SAME_DIMENSION
            });
            if let Some((_, _, group)) = same {
                group.push(size);
            } else {
                groups.push((size.clone(), bringer, vec![size]));
            }
        }
        for (size, bringer, group) in groups {
            choices.push(choice(design, part, &size, bringer.as_ref(), &group));
        }
    }
    choices
}

fn choice(
    design: &Design,
    part: &Part,
    size: &Size,
    bringer: Option<&Bringer>,
    group: &[Size],
) -> Choice {
    let off = |tool: &&Tool| (tool.radius - size.radius).abs();
    let tool = design
        .tools
        .iter()
        .filter(|tool| size.rounding.takes(tool.kind))
        // the first of equals, in the order of the file
        .min_by(|one, other| off(one).total_cmp(&off(other)));
    let then = match tool {
        None => Then::Nothing,
        Some(tool) if off(&tool) <= tolerance::SAME_DIMENSION => Then::Nothing,
        Some(tool) => match bringer {
            Some(bringer) => made::with_dimension(design, part, size, bringer, tool.radius),
            None => made::with_features(design, part, group, tool.radius),
        },
    };
    Choice {
        part: part.name.clone(),
        features: group.iter().map(|size| size.feature.to_string()).collect(),
        rounding: size.rounding,
        radius: size.radius,
        tool: tool.cloned(),
        then,
    }
}
