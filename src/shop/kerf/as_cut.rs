//! The shape of a part as a cut leaves it.

use super::error::KerfError;
use super::own::OwnEdges;
use crate::design::part::Made;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::nearest::InsideCorner;
use crate::geometry::nearest::tightest_inside_corner;
use crate::geometry::offset::Join;
use crate::geometry::offset::OffsetError;
use crate::geometry::offset::offset;
use crate::geometry::offset::offset_all;
use crate::geometry::tolerance;
use crate::geometry::validate::Place;
use crate::geometry::validate::contour_contains;

/// A part made ready for being cut in thought, with one allowance or another.
#[derive(Clone, Debug)]
pub struct AsCut<'a> {
    part: &'a Part,
    /// What the tool runs round: no drilled holes, and material beyond the edges that are not cut.
    source: Region,
    /// The same without that material.
    plain: Region,
    own: OwnEdges,
    drilled: Vec<Contour>,
}

impl<'a> AsCut<'a> {
    /// The part, for cuts up to `widest` millimetres wide.
    ///
    /// # Errors
    /// [`KerfError::Geometry`] where the edges that are not cut cannot be set apart.
    pub fn new(part: &'a Part, widest: f64) -> Result<Self, KerfError> {
        let is_drilled = |hole: usize| {
            part.openings
                .iter()
                .any(|opening| opening.hole == hole && opening.made == Made::Drilled)
        };
        let (mut cut, mut drilled) = (Vec::new(), Vec::new());
        for (index, hole) in part.region.holes().iter().enumerate() {
            if is_drilled(index) {
                drilled.push(hole.clone());
            } else {
                cut.push(hole.clone());
            }
        }
        let own = OwnEdges::of(part);
        let outer = own.extended(part.region.outer(), 3.0 * widest + 1.0)?;
        Ok(Self {
            part,
            plain: Region::new(part.region.outer().clone(), cut.clone()),
            source: Region::new(outer, cut),
            own,
            drilled,
        })
    }

    /// The part.
    pub const fn part(&self) -> &'a Part {
        self.part
    }

    /// What is left of the part by a tool whose middle runs along the outline grown by `line`, and that
    /// takes away `half_cut` to either side of it; both in millimetres. In several pieces, or none.
    ///
    /// A negative `half_cut` is a shape that is too large all round, for trying what a part can stand.
    ///
    /// # Errors
    /// [`KerfError::Offset`] where the shape cannot be certified.
    pub fn shape(&self, line: f64, half_cut: f64) -> Result<Vec<Region>, KerfError> {
        let refused = |fault: OffsetError| KerfError::Offset {
            part: self.part.name.clone(),
            kerf: 2.0 * half_cut,
            fault,
        };
        let grown = if line.abs() < tolerance::OFFSET_LEAST {
            vec![self.source.clone()]
        } else {
            offset(&self.source, line, Join::Round)
                .map_err(refused)?
                .regions
        };
        let left = if half_cut.abs() < tolerance::OFFSET_LEAST {
            grown
        } else {
            offset_all(&grown, -half_cut, Join::Round)
                .map_err(refused)?
                .regions
        };
        Ok(self.with_drilled(self.own.trimmed(left)?))
    }

    /// The sharpest inside corner that a tool leaves which cuts `half_cut` to either side and runs as far
    /// outside the outline; the ends of edges that are not cut are none.
    ///
    /// # Errors
    /// As [`Self::shape`].
    pub fn sharpest_corner(&self, half_cut: f64) -> Result<InsideCorner, KerfError> {
        let radius = |corner: &InsideCorner| match *corner {
            InsideCorner::None => f64::INFINITY,
            InsideCorner::Sharp { .. } => 0.0,
            InsideCorner::Round { radius, .. } => radius,
        };
        let refused = |fault: OffsetError| KerfError::Offset {
            part: self.part.name.clone(),
            kerf: 2.0 * half_cut,
            fault,
        };
        let grown = offset(&self.plain, half_cut, Join::Round).map_err(refused)?;
        let left = offset_all(&grown.regions, -half_cut, Join::Round).map_err(refused)?;
        let sharpest = left
            .regions
            .iter()
            .map(tightest_inside_corner)
            .min_by(|a, b| radius(a).total_cmp(&radius(b)));
        Ok(sharpest.unwrap_or(InsideCorner::None))
    }

    /// Length in millimetres of what the tool runs along when its middle is `line` off the outline: no
    /// edges that are not cut, no drilled holes. And the number of closed runs in it.
    ///
    /// # Errors
    /// As [`Self::shape`].
    pub fn way(&self, line: f64) -> Result<(f64, usize), KerfError> {
        let shape = self.shape(line, 0.0)?;
        let is_drilled = |contour: &Contour| self.drilled.iter().any(|hole| hole == contour);
        let (mut length, mut closed) = (0.0, 0);
        for contour in shape.iter().flat_map(Region::contours) {
            if is_drilled(contour) {
                continue;
            }
            let own = contour
                .pieces()
                .iter()
                .filter(|piece| self.own.has(piece.source))
                .map(|piece| piece.segment.length())
                .sum::<f64>();
            length += contour.perimeter() - own;
            closed += usize::from(own == 0.0);
        }
        Ok((length, closed))
    }

    /// Names of edges that are not cut, but whose place cannot be held apart from the cut here.
    pub fn taken_as_cut(&self) -> &[String] {
        self.own.taken_as_cut()
    }

    fn with_drilled(&self, regions: Vec<Region>) -> Vec<Region> {
        if self.drilled.is_empty() {
            return regions;
        }
        let with = |region: Region| {
            let inside = self.drilled.iter().filter(|hole| {
                hole.pieces().first().is_some_and(|piece| {
                    contour_contains(region.outer(), piece.segment.start()) == Place::Inside
                })
            });
            let holes = region.holes().iter().chain(inside).cloned().collect();
            Region::new(region.outer().clone(), holes)
        };
        regions.into_iter().map(with).collect()
    }
}
