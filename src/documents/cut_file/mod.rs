//! The nominal cut file, and the order sheet that goes with it.
//!
//! A nominal file holds the finished size: the whole closed outline, whatever the state of its edges,
//! and the openings, with no allowance for the kerf. Holes to drill are only marked at their centres,
//! so that no machine cuts them.

mod order;

use super::Stamp;
use super::features;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;

pub use order::order_sheet;

/// Width of every line of a cut file, in millimetres; machines follow the middle of it.
const WIDTH: f64 = 0.25;

/// The finished size of the part, in its own coordinates: the whole outline on
/// [`Layer::Outside`], openings on [`Layer::Inside`], centres of holes to drill as spots on
/// [`Layer::Drill`], scribe lines and marks on [`Layer::Mark`]. All lines are continuous.
///
/// # Units
/// Millimetres of the plate, y up.
///
/// # Accuracy
/// The geometry of the part itself, unchanged.
pub fn picture(part: &Part) -> Picture {
    placed(part, &Motion::IDENTITY, WIDTH)
}

/// The cut picture moved, turned or drawn to scale.
fn placed(part: &Part, motion: &Motion, width: f64) -> Picture {
    let pen = Pen::solid(width);
    let mut picture = Picture::new();
    picture.contour(Layer::Outside, motion.contour(part.region.outer()), pen);
    for (index, hole) in part.region.holes().iter().enumerate() {
        let opening = part.openings.iter().find(|opening| opening.hole == index);
        match opening.map(|opening| (opening.shape, features::is_drilled(opening))) {
            Some((OpeningShape::Circle { centre, .. }, true)) => {
                picture.stroke(Layer::Drill, Shape::Spot(motion.point(centre)), pen);
            }
            _ => picture.contour(Layer::Inside, motion.contour(hole), pen),
        }
    }
    for path in part.scribes.iter().flat_map(|scribe| &scribe.paths) {
        picture.path(Layer::Mark, motion.path(path), pen);
    }
    for mark in &part.marks {
        picture.stroke(Layer::Mark, Shape::Spot(motion.point(mark.at)), pen);
    }
    picture
}

/// The name of the nominal cut file, without its ending: part, purpose and unit, so that a file
/// taken for the wrong unit can be told by its name.
///
/// # Example
/// `leeboard-nominal-mm`
pub fn file_stem(part: &Part, unit: LengthUnit) -> String {
    let plain = |c: char| {
        if c.is_alphanumeric() || c == '_' {
            c
        } else {
            '-'
        }
    };
    let name: String = part.name.chars().map(plain).collect();
    let words: Vec<&str> = name.split('-').filter(|word| !word.is_empty()).collect();
    let name = if words.is_empty() {
        "part".to_owned()
    } else {
        words.join("-")
    };
    format!("{name}-nominal-{}", unit.symbol())
}

/// What stands at the head of the file, one line each: what the file is, unit, overall size,
/// material, thickness, quantity, face, drilled holes and the design it was made from.
pub fn comments(part: &Part, stamp: &Stamp) -> Vec<String> {
    let facts = order::facts(part, stamp);
    let mut lines = vec![format!("{}: {}", stamp.design, part.name)];
    lines.extend(
        facts
            .into_iter()
            .filter(|fact| !fact.value.is_empty())
            .map(|fact| format!("{}: {}", fact.name, fact.value)),
    );
    lines.push(format!("fingerprint: {}", stamp.fingerprint));
    lines.push(stamp.line());
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::samples;
    use crate::sheet::Item;
    use crate::sheet::LineType;

    fn layers(picture: &Picture) -> Vec<Layer> {
        picture
            .items
            .iter()
            .map(|item| match item {
                Item::Stroke(stroke) => stroke.layer,
                Item::Fill(fill) => fill.layer,
                Item::Text(text) => text.layer,
            })
            .collect()
    }

    #[test]
    fn the_outline_is_whole_and_drilled_holes_are_only_spots() {
        let part = samples::leeboard();
        let picture = picture(&part);
        let names: Vec<&str> = layers(&picture).iter().map(|layer| layer.name()).collect();
        assert_eq!(
            names,
            ["outside", "drill", "inside", "inside", "inside", "mark"],
            "layers of the blade"
        );
        let mut circles = 0;
        for item in &picture.items {
            let Item::Stroke(stroke) = item else {
                panic!("a cut file has strokes only: {item:?}")
            };
            assert_eq!(
                stroke.pen.line_type,
                LineType::Continuous,
                "a dash may get cut as a dash"
            );
            match &stroke.shape {
                Shape::Contour(contour) => {
                    assert_eq!(contour, part.region.outer(), "the outline is unchanged");
                }
                Shape::Circle { radius, .. } => {
                    assert_eq!(*radius, 45.0, "a lightening hole");
                    circles += 1;
                }
                Shape::Spot(at) => assert_eq!((at.x, at.y), (90.0, 884.0), "the pivot"),
                Shape::Path(path) => assert_eq!(path, &part.scribes[0].paths[0], "the taper"),
            }
        }
        assert_eq!(circles, 3, "lightening holes stay circles");
    }

    #[test]
    fn file_names_are_plain() {
        for (name, stem) in [
            ("leeboard", "leeboard-nominal-mm"),
            ("belt guard", "belt-guard-nominal-mm"),
            ("../x / y", "x-y-nominal-mm"),
            ("..", "part-nominal-mm"),
            ("Gurtführung_2", "Gurtführung_2-nominal-mm"),
        ] {
            let part = Part {
                name: name.to_owned(),
                ..samples::leeboard()
            };
            assert_eq!(file_stem(&part, LengthUnit::Millimetre), stem, "{name}");
        }
    }

    #[test]
    fn comments_carry_what_a_shop_must_know() {
        let stamp = samples::stamp(LengthUnit::Inch);
        let text = comments(&samples::bracket(), &stamp).join("\n");
        for part in [
            "nominal finished size",
            "no kerf allowance",
            "1 unit = 1 in",
            "4.000 × 5.000 in",
            "mirror image of `bracket port`",
            "Ø 0.25",
            "3f9a1c77e0b2d4586a90c1de",
            env!("CARGO_PKG_VERSION"),
        ] {
            assert!(text.contains(part), "{part:?} is missing in:\n{text}");
        }
    }
}
