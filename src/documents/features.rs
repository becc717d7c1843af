//! Features of a part in words: sizes of corners, rounds, edges and openings, and openings that make
//! a pattern.

use crate::design::part::Corner;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Made;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::design::part::ScrewHole;
use crate::design::part::ScrewPurpose;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::number::trimmed;

/// A length as words without its unit: 0.01 mm or 0.001 in, no trailing zeros.
pub(crate) fn length(millimetres: f64, unit: LengthUnit) -> String {
    let quantity = crate::sheet::Quantity::length(millimetres, unit);
    trimmed(quantity.value, quantity.decimals)
}

/// A length with its unit.
pub(crate) fn length_with_unit(millimetres: f64, unit: LengthUnit) -> String {
    format!("{} {}", length(millimetres, unit), unit.symbol())
}

/// An angle in degrees as words, with its sign.
pub(crate) fn degrees(radians: f64) -> String {
    format!("{}°", trimmed(radians * 180.0 / number::HALF_TURN, 2))
}

/// A count as a number to compute with.
pub(crate) fn of_count(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}

/// The form of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Form {
    /// One straight line.
    Straight,
    /// One arc, the material inside it.
    Full(Arc),
    /// One arc, the material outside it.
    Hollow(Arc),
    /// A fair curve or the like, of so many lines and arcs.
    Curve(usize),
}

/// The form of an edge before its corners are rounded.
pub(crate) fn form(part: &Part, edge: &Edge) -> Form {
    match edge.sharp.as_slice() {
        [Segment::Line(_)] => Form::Straight,
        [Segment::Arc(arc)] => {
            let along = if runs_with_outline(part, edge) {
                arc.sweep()
            } else {
                -arc.sweep()
            };
            if along > 0.0 {
                Form::Full(*arc)
            } else {
                Form::Hollow(*arc)
            }
        }
        several => Form::Curve(several.len()),
    }
}

/// Whether an edge is written in the direction in which the outline runs, the material on its left.
pub(crate) fn runs_with_outline(part: &Part, edge: &Edge) -> bool {
    let Some(first) = edge.finished.first().or_else(|| edge.sharp.first()) else {
        return true;
    };
    let middle = first.point_at(0.5);
    let distance = |segment: &Segment| number::length(segment.nearest_point(middle) - middle);
    let nearest = part
        .region
        .outer()
        .segments()
        .min_by(|a, b| distance(a).total_cmp(&distance(b)));
    nearest.is_none_or(|segment| segment.direction_at(0.5).dot(first.direction_at(0.5)) >= 0.0)
}

/// The state of an edge in words; nothing for a cut edge.
pub(crate) fn state(state: EdgeState, unit: LengthUnit) -> String {
    match state {
        EdgeState::Cut => String::new(),
        EdgeState::LeaveOn(width) => format!("leave on {}", length(width, unit)),
        EdgeState::PlateEdge | EdgeState::TrimAtFitting => state.name().to_owned(),
    }
}

/// Name and size of an edge: "leading, full by 17, R 6000".
pub(crate) fn edge(part: &Part, edge: &Edge, unit: LengthUnit) -> String {
    let size = match form(part, edge) {
        Form::Straight => String::new(),
        Form::Full(arc) => format!(
            ", full by {}, R {}",
            length(arc.bow(), unit),
            length(arc.radius(), unit)
        ),
        Form::Hollow(arc) => format!(
            ", hollow by {}, R {}",
            length(arc.bow(), unit),
            length(arc.radius(), unit)
        ),
        Form::Curve(count) => format!(", curve of {count} pieces"),
    };
    let state = state(edge.state, unit);
    let joined = if state.is_empty() { "" } else { ", " };
    format!("{}{size}{joined}{state}", edge.name)
}

/// Name and size of a corner: "toe R 60", "end chamfer 10 × 10".
pub(crate) fn corner(corner: &Corner, unit: LengthUnit) -> String {
    let name = &corner.name;
    match corner.worked {
        None => name.clone(),
        Some(Segment::Arc(arc)) => format!("{name} R {}", length(arc.radius(), unit)),
        Some(Segment::Line(line)) => format!(
            "{name} chamfer {} × {}",
            length(number::length(line.start - corner.sharp), unit),
            length(number::length(line.end - corner.sharp), unit)
        ),
    }
}

/// The size of an opening: "Ø 13", "33 × 9 R 4.5" (a slot), "60 × 40 R 5", "overall 60 × 40" (any outline).
pub(crate) fn opening_size(part: &Part, opening: &Opening, unit: LengthUnit) -> String {
    match opening.shape {
        OpeningShape::Circle { diameter, .. } => format!("Ø {}", length(diameter, unit)),
        OpeningShape::Slot { from, to, width } => format!(
            "{} × {} R {}",
            length(number::length(to - from) + width, unit),
            length(width, unit),
            length(width / 2.0, unit)
        ),
        OpeningShape::Rectangle {
            width,
            height,
            corner_radius,
            relief,
            angle,
            ..
        } => {
            let mut words = format!("{} × {}", length(width, unit), length(height, unit));
            if corner_radius > 0.0 {
                words = format!("{words} R {}", length(corner_radius, unit));
            }
            if relief > 0.0 {
                words = format!("{words}, reliefs R {}", length(relief, unit));
            }
            let datum = number::direction(part.datum.along);
            let quarters = (angle - datum) / number::QUARTER_TURN;
            let off = (quarters - quarters.round()) * number::QUARTER_TURN;
            if off.abs() > tolerance::SAME_DIRECTION {
                words = format!("{words} turned {}", degrees(off.abs()));
            }
            words
        }
        OpeningShape::Outline => {
            let bounds = hole_bounds(part, opening);
            format!(
                "overall {} × {}",
                length(bounds.width(), unit),
                length(bounds.height(), unit)
            )
        }
    }
}

/// Bounds of an opening in the running dimensions of the datum: x along it, y across.
pub(crate) fn hole_bounds(part: &Part, opening: &Opening) -> Rect {
    let Some(hole) = part.region.holes().get(opening.hole) else {
        return Rect::ZERO;
    };
    running_bounds(part, hole)
}

/// Bounds of a contour in the running dimensions of the datum: x along it, y across.
pub(crate) fn running_bounds(part: &Part, contour: &Contour) -> Rect {
    let turn = crate::geometry::Motion::turn(-number::direction(part.datum.along));
    let origin = turn.point(part.datum.origin);
    let bounds = turn.contour(contour).bounds() - origin.to_vec2();
    if part.datum.along.cross(part.datum.across) < 0.0 {
        Rect::new(bounds.x0, -bounds.y1, bounds.x1, -bounds.y0)
    } else {
        bounds
    }
}

/// The middle of an opening.
pub(crate) fn opening_centre(part: &Part, opening: &Opening) -> Point {
    match opening.shape {
        OpeningShape::Circle { centre, .. } | OpeningShape::Rectangle { centre, .. } => centre,
        OpeningShape::Slot { from, to, .. } => from.midpoint(to),
        OpeningShape::Outline => part
            .region
            .holes()
            .get(opening.hole)
            .map_or(part.datum.origin, |hole| hole.bounds().center()),
    }
}

/// Whether an opening is a hole to drill, which a cut file only marks.
pub(crate) fn is_drilled(opening: &Opening) -> bool {
    opening.made == Made::Drilled && matches!(opening.shape, OpeningShape::Circle { .. })
}

/// Openings of one size and kind that a pattern made, or a single one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Group {
    /// Its name, without the numbers of the pattern.
    pub(crate) name: String,
    /// Indices of its openings in the part.
    pub(crate) members: Vec<usize>,
    /// How they lie.
    pub(crate) arrangement: Arrangement,
}

/// How the openings of a group lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Arrangement {
    /// Each at its own place.
    Places,
    /// Round holes at equal steps on a circle.
    BoltCircle {
        /// Centre of that circle.
        centre: Point,
        /// Its diameter in millimetres.
        diameter: f64,
    },
}

/// The openings of a part in groups, in the order of their first members.
pub(crate) fn groups(part: &Part) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (index, opening) in part.openings.iter().enumerate() {
        let name = pattern_name(&opening.name);
        let same = groups.iter_mut().find(|group| {
            group.name == name
                && group
                    .members
                    .first()
                    .and_then(|&first| part.openings.get(first))
                    .is_some_and(|first| alike(part, first, opening))
        });
        match same {
            Some(group) => group.members.push(index),
            None => groups.push(Group {
                name: name.to_owned(),
                members: vec![index],
                arrangement: Arrangement::Places,
            }),
        }
    }
    for group in &mut groups {
        if let [only] = group.members.as_slice() {
            if let Some(opening) = part.openings.get(*only) {
                group.name.clone_from(&opening.name);
            }
        } else if let Some(arrangement) = bolt_circle(part, &group.members) {
            group.arrangement = arrangement;
        }
    }
    groups
}

/// Name, number and size of a group: "12 × Ø 6.5 on Ø 180".
pub(crate) fn group(part: &Part, group: &Group, unit: LengthUnit) -> String {
    let Some(first) = group.members.first().and_then(|&i| part.openings.get(i)) else {
        return group.name.clone();
    };
    let (name, size) = (&group.name, opening_size(part, first, unit));
    let mut words = match (group.members.len(), first.shape) {
        (0 | 1, _) => format!("{name} {size}"),
        (count, OpeningShape::Circle { .. }) => format!("{name} {count} × {size}"),
        (count, _) => format!("{name} {count} × ({size})"),
    };
    if let Arrangement::BoltCircle { diameter, .. } = group.arrangement {
        words = format!("{words} on Ø {}", length(diameter, unit));
    }
    if let Some(screw) = &first.screw {
        words = format!("{words}, {}", screw_hole(screw, unit));
    }
    if is_drilled(first) {
        words.push_str(", drilled");
    }
    words
}

/// What a hole for a screw is, in words: "for M8", "tap M6 × 1".
pub(crate) fn screw_hole(hole: &ScrewHole, unit: LengthUnit) -> String {
    let screw = hole.screw;
    match hole.purpose {
        ScrewPurpose::Clearance => format!("for {screw}"),
        ScrewPurpose::Tapped { pitch } if screw.starts_with('M') => {
            format!("tap {screw} × {}", trimmed(pitch, 2))
        }
        // the name of an inch screw says its threads
        ScrewPurpose::Tapped { .. } => format!("tap {screw}"),
        ScrewPurpose::Reamed { drill } => {
            format!("drill Ø {} and ream for {screw}", length(drill, unit))
        }
        ScrewPurpose::Countersunk { diameter, angle } => format!(
            "countersink Ø {} × {}° for {screw}",
            length(diameter, unit),
            trimmed(angle, 0)
        ),
    }
}

/// The name without the number of the pattern at its end.
fn pattern_name(name: &str) -> &str {
    let stem = name.trim_end_matches(|c: char| c.is_ascii_digit());
    let stem = stem.trim_end_matches([' ', '-', '_', '#', '.', '[', '(', ',', '/']);
    if stem.is_empty() || stem.len() == name.len() {
        name
    } else {
        stem
    }
}

fn alike(part: &Part, a: &Opening, b: &Opening) -> bool {
    let size = |opening| opening_size(part, opening, LengthUnit::Millimetre);
    a.made == b.made
        && a.screw == b.screw
        && std::mem::discriminant(&a.shape) == std::mem::discriminant(&b.shape)
        && size(a) == size(b)
}

fn bolt_circle(part: &Part, members: &[usize]) -> Option<Arrangement> {
    if members.len() < 3 {
        return None;
    }
    let mut centres = Vec::with_capacity(members.len());
    for &member in members {
        let OpeningShape::Circle { centre, .. } = part.openings.get(member)?.shape else {
            return None;
        };
        centres.push(centre);
    }
    let sum = centres
        .iter()
        .fold(Vec2::ZERO, |sum, centre| sum + centre.to_vec2());
    let middle = (sum / of_count(centres.len())).to_point();
    let radius = number::length(*centres.first()? - middle);
    let step = number::FULL_TURN / of_count(centres.len());
    let mut angles: Vec<f64> = Vec::with_capacity(centres.len());
    for centre in &centres {
        let out = *centre - middle;
        if (number::length(out) - radius).abs() > tolerance::SHORTEST_SEGMENT {
            return None;
        }
        angles.push(number::direction(out));
    }
    angles.sort_by(f64::total_cmp);
    let even = angles
        .windows(2)
        .all(|pair| matches!(pair, [a, b] if ((b - a - step) * radius).abs() < tolerance::SHORTEST_SEGMENT));
    (even && radius > tolerance::SHORTEST_SEGMENT).then_some(Arrangement::BoltCircle {
        centre: middle,
        diameter: 2.0 * radius,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::samples;

    const MM: LengthUnit = LengthUnit::Millimetre;

    #[test]
    fn patterns_are_one_group() {
        let part = samples::belt_guard();
        let groups = groups(&part);
        let words: Vec<String> = groups.iter().map(|one| group(&part, one, MM)).collect();
        assert_eq!(
            words,
            [
                "bolt 12 × Ø 6.5 on Ø 180",
                "shaft Ø 120",
                "slot 2 × (33 × 9 R 4.5)",
                "window 60 × 40 turned 17.19°"
            ],
            "groups of the belt guard"
        );
        let blade = samples::leeboard();
        let words: Vec<String> = super::groups(&blade)
            .iter()
            .map(|one| group(&blade, one, MM))
            .collect();
        assert_eq!(
            words,
            ["pivot Ø 13, drilled", "lightening 3 × Ø 90"],
            "holes in a row are no bolt circle"
        );
    }

    #[test]
    fn edges_say_whether_they_are_full() {
        let blade = samples::leeboard();
        let words: Vec<String> = blade
            .edges
            .iter()
            .map(|one| edge(&blade, one, MM))
            .collect();
        assert_eq!(words[0], "foot", "a straight cut edge");
        assert_eq!(words[2], "trailing, plate edge", "the plate's own edge");
        assert!(
            words[1].starts_with("leading, full by ") && words[1].ends_with(", R 6000"),
            "the leading edge: {}",
            words[1]
        );
        let mirrored = Part {
            region: crate::geometry::Motion::mirror_left_right().region(&blade.region),
            edges: blade
                .edges
                .iter()
                .map(|one| Edge {
                    sharp: mirrored(&one.sharp),
                    finished: mirrored(&one.finished),
                    ..one.clone()
                })
                .collect(),
            ..blade
        };
        assert!(
            matches!(form(&mirrored, &mirrored.edges[1]), Form::Full(_)),
            "a mirrored full edge is still full"
        );
    }

    fn mirrored(segments: &[Segment]) -> Vec<Segment> {
        let mirror = crate::geometry::Motion::mirror_left_right();
        segments.iter().map(|one| mirror.segment(one)).collect()
    }

    #[test]
    fn running_bounds_follow_the_datum() {
        for angle in [0.0, 0.3, 2.0, -1.1] {
            let part = samples::turned(&samples::leeboard(), angle);
            let bounds = running_bounds(&part, part.region.outer());
            // 884 + 90 high, from 0
            assert!(bounds.x0.abs() < 1e-9, "turned by {angle}: {bounds:?}");
            assert!(
                (bounds.x1 - 974.0).abs() < 1e-9 && bounds.y0.abs() < 1e-9,
                "turned by {angle}: {bounds:?}"
            );
        }
    }

    #[test]
    fn corners_say_their_working() {
        let part = samples::bracket();
        let words: Vec<String> = part
            .corners
            .iter()
            .map(|one| corner(one, LengthUnit::Inch))
            .collect();
        assert_eq!(
            words,
            [
                "base left",
                "base right chamfer 0.375 × 0.375",
                "shoulder R 0.25",
                "throat R 0.5",
                "top right R 0.25",
                "top left"
            ],
            "corners of the bracket"
        );
    }
}
