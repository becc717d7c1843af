//! A drawing held against a part of ours.

use super::Inspection;
use super::holes;
use super::holes::Marking;
use super::lying;
use super::mend::place;
use crate::checks::Outline;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::deviation;
use crate::geometry::deviation::Stray;
use crate::geometry::lay::Lying;
use crate::geometry::number;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;

/// How far a drawing strays from a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Against {
    /// How it lies; it was laid onto the part before measuring.
    pub lying: Lying,
    /// Where the drawing strays furthest from the part; places are the part's.
    pub drawing_strays: Stray,
    /// Where the part strays furthest from the drawing: what is missing.
    pub part_strays: Stray,
    /// Every hole to drill, by its name, and how the drawing marks it.
    pub markings: Vec<(String, Marking)>,
    /// Outlines of the drawing and of the part.
    pub outlines: (usize, usize),
    /// Area of the material in mm², of the drawing and of the part.
    pub areas: (f64, f64),
    /// Factor by which the drawing is larger, by the length of its longest outline.
    pub factor: f64,
}

/// Holds the drawing against the part, as it lies or moved, turned and mirrored, whichever finds most of the
/// one in the other; of ways that find as much, the one with the least greatest distance.
/// A hole that the design has drilled may be there as a point. `None` when the drawing has no closed
/// outline.
///
/// # Accuracy
/// Distances as [`deviation::furthest`], for the way in which the drawing was laid onto the part: as it is
/// drawn or by quarter turns exactly, else as [`lay`](crate::geometry::lay) lays the bulk of its edges.
pub fn against(inspection: &Inspection, part: &Part) -> Option<Against> {
    let outlines = &inspection.subject.assembly.outlines;
    let drawn: Vec<Segment> = segments(outlines);
    let undrilled = |hole: usize| {
        let opening = part.openings.iter().find(|opening| opening.hole == hole);
        !opening.is_some_and(features::is_drilled)
    };
    let holes = part.region.holes().iter().enumerate();
    let design = Region::new(
        part.region.outer().clone(),
        holes
            .filter(|&(hole, _)| undrilled(hole))
            .map(|(_, contour)| contour.clone())
            .collect(),
    );
    let regions = &inspection.subject.nested.regions;
    let factor = factor(regions, part);
    let mut ways = if ONE_SIZE.contains(&factor) {
        lying::ways(&drawn, regions, &design)
    } else {
        // of another size it lies nowhere, and turning it would only puzzle
        vec![lying::Way::AS_DRAWN]
    };
    // what finds clearly less than another is not worth being measured
    let least = ways.iter().map(|way| way.off).fold(f64::INFINITY, f64::min);
    ways.retain(|way| !clearly(least, way.off));
    let mut best: Option<(f64, Against)> = None;
    for way in ways {
        let found = measured(inspection, part, &drawn, way.lying)?;
        let nearer = best.as_ref().is_none_or(|(off, best)| {
            // the bulk of it decides, and where that does not the furthest stray
            let alike = way.off <= *off * 1.1 + SAME;
            clearly(way.off, *off) || (alike && clearly(found.greatest(), best.greatest()))
        });
        if nearer {
            best = Some((way.off, found));
        }
    }
    best.map(|(_, found)| found)
}

/// Factors between drawing and part at which the one may still be the other.
const ONE_SIZE: std::ops::RangeInclusive<f64> = 0.8..=1.25;

/// How many times as large as the part its largest piece is drawn, by the length of the outline.
fn factor(regions: &[Region], part: &Part) -> f64 {
    let lengths = regions.iter().map(|region| region.outer().perimeter());
    lengths.fold(0.0, f64::max) / part.region.outer().perimeter()
}

/// Distances that differ by less are the same, in millimetres.
const SAME: f64 = 1e-6;

/// Whether another way is clearly nearer; if not, symmetric parts lie as they are drawn.
fn clearly(other: f64, known: f64) -> bool {
    other < 0.9 * known - SAME
}

fn segments(outlines: &[Outline]) -> Vec<Segment> {
    let all = outlines
        .iter()
        .flat_map(|outline| outline.contour.segments());
    all.copied().collect()
}

fn measured(
    inspection: &Inspection,
    part: &Part,
    drawn: &[Segment],
    lying: Lying,
) -> Option<Against> {
    let motion = lying.motion();
    let moved: Vec<Segment> = drawn.iter().map(|s| motion.segment(s)).collect();
    let regions = &inspection.subject.nested.regions;
    let spots = holes::spots(inspection, &motion);
    let markings = holes::markings(part, &spots, regions, &motion);
    // a hole whose point is off is held against its point, not against the nearest edge
    let marked = |hole: usize| {
        let mut all = markings.iter();
        all.any(|(opening, _, marking)| {
            opening.hole == hole && matches!(marking, Marking::Marked | Marking::Off(_))
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
    let mut part_strays = deviation::furthest(&design, &moved)?;
    for (_, centre, marking) in &markings {
        if let Marking::Off(distance) = *marking
            && distance > part_strays.distance
        {
            part_strays = Stray {
                distance,
                at: *centre,
                ..part_strays
            };
        }
    }
    Some(Against {
        lying,
        drawing_strays: deviation::furthest(&moved, &design)?,
        part_strays,
        markings: markings
            .into_iter()
            .map(|(opening, _, marking)| (opening.name.clone(), marking))
            .collect(),
        outlines: (inspection.subject.assembly.outlines.len(), wanted.len()),
        areas: (
            regions.iter().map(Region::area).sum(),
            wanted.iter().map(|contour| contour.signed_area()).sum(),
        ),
        factor: factor(regions, part),
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
        for (name, marking) in &self.markings {
            let (value, remark) = match marking {
                Marking::Marked | Marking::Not { drawn: true } => continue,
                Marking::Off(distance) => (fine(*distance), "its point is off by so much"),
                Marking::Not { drawn: false } => {
                    (Cell::Empty, "neither a point nor a hole is there")
                }
            };
            table.row(vec![format!("hole “{name}”").into(), value, remark.into()]);
        }
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
        let degrees = number::positive_angle(self.lying.turn) * 180.0 / number::HALF_TURN;
        let turn = number::trimmed(degrees, 3);
        if !["0", "360"].contains(&turn.as_str()) {
            words.push(format!("turned by {turn}°"));
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
