//! The numbered points of a marking-out sheet.

use super::arcs;
use crate::design::part::Corner;
use crate::design::part::Edge;
use crate::design::part::Features;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::design::part::Round;
use crate::documents::features;
use crate::geometry::Arc;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A point to mark.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Numbered {
    /// What it is; several things when they share the place.
    pub(super) what: Vec<String>,
    /// Where, on the part.
    pub(super) at: Point,
}

/// All points, number 1 first.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Points {
    /// The points, each at the index of its number less one.
    pub(super) list: Vec<Numbered>,
}

impl Points {
    /// Corners, ends and centres of arcs, openings, scribe lines and marks; first the datum's origin.
    pub(super) fn of(part: &Part, unit: LengthUnit) -> Self {
        let mut points = Self::default();
        points.add("origin of the datum".to_owned(), part.datum.origin);
        points.add_features("", (&part.corners, &part.rounds, &part.edges), unit);
        for opening in &part.openings {
            points.add_opening(part, opening, unit);
        }
        for scribe in &part.scribes {
            for path in &scribe.paths {
                points.add(format!("{}, line starts", scribe.name), path.start());
                points.add(format!("{}, line ends", scribe.name), path.end());
            }
        }
        for mark in &part.marks {
            points.add(mark.name.clone(), mark.at);
        }
        points
    }

    /// The corners, rounds and edges of an outline, `of` before their names.
    fn add_features(
        &mut self,
        of: &str,
        (corners, rounds, edges): (&[Corner], &[Round], &[Edge]),
        unit: LengthUnit,
    ) {
        for corner in corners {
            let name = format!("{of}{}", corner.name);
            let sharp = if corner.worked.is_some() {
                format!("{name}, sharp corner")
            } else {
                name.clone()
            };
            self.add(sharp, corner.sharp);
            match corner.worked {
                Some(Segment::Arc(arc)) => self.add_arc(&name, &arc, unit),
                Some(Segment::Line(line)) => {
                    self.add(format!("{name}, chamfer starts"), line.start);
                    self.add(format!("{name}, chamfer ends"), line.end);
                }
                None => {}
            }
        }
        for round in rounds {
            let name = format!("{of}{}", round.name);
            match round.arc {
                Some(arc) => self.add_arc(&name, &arc, unit),
                None => self.add(format!("{name}, centre"), round.centre),
            }
        }
        for edge in edges {
            if let (Some(first), Some(last)) = (edge.finished.first(), edge.finished.last()) {
                self.add(format!("{of}{}, starts", edge.name), first.start());
                self.add(format!("{of}{}, ends", edge.name), last.end());
            }
        }
    }

    fn add_arc(&mut self, name: &str, arc: &Arc, unit: LengthUnit) {
        let radius = features::length(arc.radius(), unit);
        self.add(format!("{name}, centre of R {radius}"), arc.centre());
        self.add(format!("{name}, arc starts"), arc.start());
        self.add(format!("{name}, arc ends"), arc.end());
    }

    fn add_opening(&mut self, part: &Part, opening: &Opening, unit: LengthUnit) {
        let name = &opening.name;
        match opening.shape {
            OpeningShape::Circle { centre, .. } => self.add(format!("{name}, centre"), centre),
            OpeningShape::Slot { from, to, .. } => {
                self.add(format!("{name}, centre of one end"), from);
                self.add(format!("{name}, centre of the other end"), to);
            }
            OpeningShape::Rectangle {
                centre,
                width,
                height,
                angle,
                ..
            } => {
                let corners = arcs::rectangle_corners(centre, (width, height), angle);
                for (index, corner) in (1..).zip(corners) {
                    self.add(format!("{name}, sharp corner {index}"), corner);
                }
            }
            OpeningShape::Outline => {
                let Features {
                    corners,
                    rounds,
                    edges,
                    ..
                } = &opening.features;
                self.add_features(&format!("{name}: "), (corners, rounds, edges), unit);
            }
        }
        for (name, arc) in arcs::of_rectangle(part, opening) {
            self.add_arc(&name, &arc, unit);
        }
    }

    /// Adds a point, or what it is to the one that is there already.
    fn add(&mut self, what: String, at: Point) {
        match self.index(at).and_then(|index| self.list.get_mut(index)) {
            Some(known) => known.what.push(what),
            None => self.list.push(Numbered {
                what: vec![what],
                at,
            }),
        }
    }

    fn index(&self, at: Point) -> Option<usize> {
        self.list
            .iter()
            .position(|known| number::length(known.at - at) <= tolerance::SHORTEST_SEGMENT)
    }

    /// The number of the point at a place, if there is one.
    pub(super) fn known(&self, at: Point) -> Option<usize> {
        self.index(at).map(|index| index + 1)
    }

    /// The number of the point at a place, as words; a dash when it has none.
    pub(super) fn number(&self, at: Point) -> String {
        self.known(at)
            .map_or_else(|| "–".to_owned(), |number| number.to_string())
    }
}
