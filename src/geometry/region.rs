//! A flat piece of material: an outer contour and the holes in it.

use super::Contour;
use super::Rect;

/// One piece of material with its openings. The outer contour runs anticlockwise and the holes
/// clockwise, so that material is always on the left.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    outer: Contour,
    holes: Vec<Contour>,
}

impl Region {
    /// The region inside `outer` and outside every one of `holes`; the contours are turned the right
    /// way. Whether they cross or lie inside one another is asked of
    /// [`validate`](super::validate).
    pub fn new(outer: Contour, holes: Vec<Contour>) -> Self {
        let outer = outer.anticlockwise();
        let clockwise = |hole: Contour| hole.anticlockwise().reversed();
        Self {
            outer,
            holes: holes.into_iter().map(clockwise).collect(),
        }
    }

    /// The region of contours that are known to be turned the right way.
    pub(super) const fn from_turned(outer: Contour, holes: Vec<Contour>) -> Self {
        Self { outer, holes }
    }

    /// The outer contour, anticlockwise.
    pub const fn outer(&self) -> &Contour {
        &self.outer
    }

    /// The holes, clockwise, in the order given.
    pub fn holes(&self) -> &[Contour] {
        &self.holes
    }

    /// The outer contour, then the holes.
    pub fn contours(&self) -> impl Iterator<Item = &Contour> {
        std::iter::once(&self.outer).chain(&self.holes)
    }

    /// Area of the material in mm².
    pub fn area(&self) -> f64 {
        self.contours().map(Contour::signed_area).sum()
    }

    /// Length of all its edges in millimetres.
    pub fn perimeter(&self) -> f64 {
        self.contours().map(Contour::perimeter).sum()
    }

    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        self.outer.bounds()
    }
}
