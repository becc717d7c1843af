//! Where the size of a feature is written in the design file.

use super::sizes::Feature;
use crate::design::Amount;
use crate::design::DesignFile;
use crate::design::Place;
use crate::design::expression::Expression;
use crate::design::expression::Written;
use crate::design::file::Circle;
use crate::design::file::CircleSize;
use crate::design::file::CornerTreatment;
use crate::design::file::Entry;
use crate::design::file::Opening;
use crate::design::file::OpeningShape;
use crate::design::part::Part;

/// The amount that says the size of a feature, and how many radii that is; `None` where no amount says
/// it.
///
/// A hole for a screw becomes a circle of no size, which can then be given one.
pub(super) fn amount_mut<'a>(
    file: &'a mut DesignFile,
    part: &Part,
    feature: &Feature,
) -> Option<(&'a mut Amount, f64)> {
    match feature {
        Feature::Corner(name) | Feature::Round(name) => {
            let of_own_shape = part.mirror_of.as_ref().unwrap_or(&part.name);
            let named = file.part.get_mut(of_own_shape)?;
            let outline = named.entry.outline.as_mut()?;
            entry_mut(&mut outline.value, name)
        }
        Feature::Opening(name) => of_opening(&mut opening_mut(file, part, name)?.shape),
        Feature::OpeningCorner(opening, corner) => {
            match &mut opening_mut(file, part, opening)?.shape {
                OpeningShape::Outline(entries) => entry_mut(entries, corner),
                _ => None,
            }
        }
    }
}

/// A length in millimetres, as written.
pub(super) fn length(millimetres: f64, place: Place) -> Amount {
    let written = Written::Text(format!("{millimetres} mm"));
    Amount::new(
        place,
        Expression {
            written,
            text_start: None,
        },
    )
}

fn entry_mut<'a>(entries: &'a mut [Entry], name: &str) -> Option<(&'a mut Amount, f64)> {
    let entry = entries
        .iter_mut()
        .find(|entry| entry.name().value == name)?;
    match entry {
        Entry::Round(round) => Some((&mut round.value.radius, 1.0)),
        Entry::Corner(corner) => match &mut corner.value.treatment {
            CornerTreatment::Fillet(radius) => Some((radius, 1.0)),
            CornerTreatment::Relief(relief) => Some((&mut relief.cutter, 2.0)),
            CornerTreatment::Sharp | CornerTreatment::Chamfer(_) => None,
        },
    }
}

fn of_opening(shape: &mut OpeningShape) -> Option<(&mut Amount, f64)> {
    if let OpeningShape::Hole(hole) = shape {
        *shape = OpeningShape::Circle(Circle {
            at: hole.at.clone(),
            size: CircleSize::Diameter(length(0.0, hole.screw.place)),
        });
    }
    match shape {
        OpeningShape::Circle(circle) => Some(match &mut circle.size {
            CircleSize::Diameter(diameter) => (diameter, 2.0),
            CircleSize::Radius(radius) => (radius, 1.0),
        }),
        OpeningShape::Slot(slot) => Some((&mut slot.width, 2.0)),
        OpeningShape::Rectangle(rectangle) => {
            match (&mut rectangle.radius, &mut rectangle.relief) {
                (Some(radius), _) => Some((radius, 1.0)),
                (None, Some(relief)) => Some((&mut relief.value.cutter, 2.0)),
                (None, None) => None,
            }
        }
        OpeningShape::Outline(_) | OpeningShape::Hole(_) => None,
    }
}

/// The opening as written, in the part itself or in the one that it comes from; those of a pattern have
/// its name with a number behind it.
fn opening_mut<'a>(file: &'a mut DesignFile, part: &Part, name: &str) -> Option<&'a mut Opening> {
    let pattern = name
        .trim_end_matches(|last: char| last.is_ascii_digit())
        .trim_end();
    let (part, opening) = [name, pattern]
        .into_iter()
        .find_map(|wanted| place_of(file, part, wanted))?;
    let named = file.part.get_mut(&part)?;
    let opening = named.entry.opening.get_mut(opening)?;
    Some(&mut opening.value)
}

/// Which part of the file has an opening of this name, the part itself first, and which it is there.
fn place_of(file: &DesignFile, part: &Part, name: &str) -> Option<(String, usize)> {
    let found = |own: bool| {
        let parts = file.part.iter();
        parts
            .filter(|named| (named.name.value == part.name) == own)
            .find_map(|named| {
                let mut openings = named.entry.opening.iter();
                let opening = openings.position(|opening| opening.value.name.value == name)?;
                Some((named.name.value.clone(), opening))
            })
    };
    found(true).or_else(|| found(false))
}
