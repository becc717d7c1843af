//! A drawing held against a part of ours.

use super::Inspection;
use super::mend::place;
use crate::checks::Outline;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::documents::features;
use crate::formats::incoming::DrawnShape;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::deviation;
use crate::geometry::deviation::Stray;
use crate::geometry::number;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;

/// How the drawing lies as against the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lying {
    /// Quarter turns, anticlockwise.
    pub quarters: u8,
    /// Whether it is the mirror image.
    pub mirrored: bool,
    /// How far it was shifted to lie on the part after that, in millimetres.
    pub shift: Vec2,
}

impl Lying {
    /// The motion that lays the drawing onto the part.
    pub fn motion(&self) -> Motion {
        let turned = Motion::turn(f64::from(self.quarters) * number::QUARTER_TURN);
        let first = if self.mirrored {
            Motion::mirror_left_right().then(&turned)
        } else {
            turned
        };
        first.then(&Motion::shift(self.shift))
    }
}

/// How far a drawing strays from a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Against {
    /// How it lies; it was laid onto the part before measuring.
    pub lying: Lying,
    /// Where the drawing strays furthest from the part; places are the part's.
    pub drawing_strays: Stray,
    /// Where the part strays furthest from the drawing: what is missing.
    pub part_strays: Stray,
    /// Outlines of the drawing and of the part.
    pub outlines: (usize, usize),
    /// Area of the material in mm², of the drawing and of the part.
    pub areas: (f64, f64),
    /// Factor by which the drawing is larger, by its overall sizes.
    pub factor: f64,
}

/// Places within this of a hole to drill mark it, in millimetres.
const AT_HOLE: f64 = 0.05;

/// Holds the drawing against the part, as it lies or moved, turned by quarters and mirrored, whichever comes
/// nearest. A hole that the design has drilled may be there as a point. `None` when the drawing has no
/// closed outline.
///
/// # Accuracy
/// Distances as [`deviation::furthest`].
pub fn against(inspection: &Inspection, part: &Part) -> Option<Against> {
    let outlines = &inspection.subject.assembly.outlines;
    let drawn: Vec<Segment> = segments(outlines);
    let bounds = bounds(&drawn)?;
    let mut best: Option<Against> = None;
    for mirrored in [false, true] {
        for quarters in 0..4_u8 {
            let here = Lying {
                quarters,
                mirrored,
                shift: Vec2::ZERO,
            };
            let motion = here.motion();
            let lies = bounds_of_moved(&motion, bounds);
            let target = part.region.bounds();
            let as_drawn = quarters == 0 && !mirrored;
            let shifts = [
                as_drawn.then_some(Vec2::ZERO),
                Some(target.center() - lies.center()),
            ];
            for shift in shifts.into_iter().flatten() {
                let lying = Lying { shift, ..here };
                let found = measured(inspection, part, &drawn, lying)?;
                let worst = |a: &Against| a.drawing_strays.distance.max(a.part_strays.distance);
                // another way must be clearly nearer, so that symmetric parts lie as they are drawn
                let nearer = best
                    .as_ref()
                    .is_none_or(|best| worst(&found) < 0.9 * worst(best) - 1e-6);
                if nearer {
                    best = Some(found);
                }
            }
        }
    }
    best
}

fn segments(outlines: &[Outline]) -> Vec<Segment> {
    let all = outlines
        .iter()
        .flat_map(|outline| outline.contour.segments());
    all.copied().collect()
}

fn bounds(segments: &[Segment]) -> Option<Rect> {
    let all = segments.iter().map(Segment::bounds);
    all.reduce(|sum, bounds| sum.union(bounds))
}

fn bounds_of_moved(motion: &Motion, bounds: Rect) -> Rect {
    let corner = |x: f64, y: f64| motion.point(Point::new(x, y));
    Rect::from_points(corner(bounds.x0, bounds.y0), corner(bounds.x1, bounds.y1))
}

fn measured(
    inspection: &Inspection,
    part: &Part,
    drawn: &[Segment],
    lying: Lying,
) -> Option<Against> {
    let motion = lying.motion();
    let moved: Vec<Segment> = drawn.iter().map(|s| motion.segment(s)).collect();
    let spots: Vec<Point> = inspection
        .drawing
        .drawn
        .iter()
        .filter_map(|drawn| match drawn.shape {
            DrawnShape::Spot(at) => Some(motion.point(at)),
            DrawnShape::Run { .. } => None,
        })
        .collect();
    let marked = |hole: usize| {
        let opening = part.openings.iter().find(|opening| opening.hole == hole);
        opening.is_some_and(|opening| match opening.shape {
            OpeningShape::Circle { centre, .. } if features::is_drilled(opening) => spots
                .iter()
                .any(|spot| number::length(*spot - centre) <= AT_HOLE),
            _ => false,
        })
    };
    let wanted: Vec<_> = std::iter::once(part.region.outer())
        .chain(
            part.region
                .holes()
                .iter()
                .enumerate()
                .filter(|&(hole, _)| !marked(hole))
                .map(|(_, contour)| contour),
        )
        .collect();
    let design: Vec<Segment> = wanted
        .iter()
        .flat_map(|contour| contour.segments())
        .copied()
        .collect();
    let (own, target) = (bounds(&moved)?, part.region.bounds());
    let factor = (own.width() + own.height()) / (target.width() + target.height());
    let regions = &inspection.subject.nested.regions;
    Some(Against {
        lying,
        drawing_strays: deviation::furthest(&moved, &design)?,
        part_strays: deviation::furthest(&design, &moved)?,
        outlines: (inspection.subject.assembly.outlines.len(), wanted.len()),
        areas: (
            regions.iter().map(Region::area).sum(),
            wanted.iter().map(|contour| contour.signed_area()).sum(),
        ),
        factor,
    })
}

impl Against {
    /// The greatest distance, either way, in millimetres.
    pub const fn greatest(&self) -> f64 {
        self.drawing_strays.distance.max(self.part_strays.distance)
    }

    /// What the factor between the sizes says, where it says something: a unit mistaken.
    pub fn unit_mistaken(&self) -> Option<String> {
        let near = |factor: f64| (self.factor / factor - 1.0).abs() < 0.02;
        let mistaken = [
            (
                25.4,
                "25.4 times too large: inches were read as millimetres twice over, or millimetres as inches",
            ),
            (
                1.0 / 25.4,
                "25.4 times too small: its inches were taken for millimetres",
            ),
            (
                10.0,
                "ten times too large: centimetres and millimetres were mixed up",
            ),
            (
                0.1,
                "ten times too small: centimetres and millimetres were mixed up",
            ),
        ];
        let found = mistaken.into_iter().find(|(factor, _)| near(*factor));
        found.map(|(_, words)| format!("the drawing is {words}; say the unit with --units"))
    }

    /// The comparison as a table. `allowed` is how far the file may stray, in millimetres.
    pub fn table(&self, part: &Part, allowed: f64, unit: LengthUnit) -> Table {
        let mut table = Table::new(
            format!("Against “{}”", part.name),
            vec![
                Column::words("What", "what"),
                Column::numbers("Value", "value"),
                Column::words("Remark", "remark"),
            ],
        );
        let fine = |value: f64| {
            let mut quantity = Quantity::length(value, unit);
            quantity.decimals += 3;
            Cell::from(quantity)
        };
        let stray = |stray: &Stray| format!("at {}", place(stray.at, unit));
        table.row(vec![
            "the drawing strays from the part by at most".into(),
            fine(self.drawing_strays.distance),
            stray(&self.drawing_strays).into(),
        ]);
        table.row(vec![
            "the part strays from the drawing by at most".into(),
            fine(self.part_strays.distance),
            stray(&self.part_strays).into(),
        ]);
        table.row(vec![
            "allowed".into(),
            fine(allowed),
            if self.greatest() <= allowed {
                "the drawing is the part".into()
            } else {
                "the drawing is not the part".into()
            },
        ]);
        let count = |number: usize| Cell::Count(i64::try_from(number).unwrap_or(i64::MAX));
        table.row(vec![
            "outlines in the drawing".into(),
            count(self.outlines.0),
            format!("{} in the part", self.outlines.1).into(),
        ]);
        table.row(vec![
            "how it lies".into(),
            Cell::Empty,
            self.lies(unit).into(),
        ]);
        if let Some(words) = self.unit_mistaken() {
            table.notes.push(words);
        }
        table
    }

    fn lies(&self, unit: LengthUnit) -> String {
        let mut words = Vec::new();
        if self.lying.mirrored {
            words.push("MIRRORED: it is the other hand".to_owned());
        }
        if self.lying.quarters != 0 {
            words.push(format!(
                "turned by {}°",
                u32::from(self.lying.quarters) * 90
            ));
        }
        if number::length(self.lying.shift) > 1e-6 {
            words.push(format!(
                "moved by {}",
                place(self.lying.shift.to_point(), unit)
            ));
        }
        if words.is_empty() {
            "as the part does".to_owned()
        } else {
            format!("laid onto the part: {}", words.join(", "))
        }
    }
}
