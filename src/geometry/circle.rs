//! A whole circle as a carrier of arcs.

use super::Arc;
use super::Point;

/// A circle without direction, start or end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub centre: Point,
    /// Its radius in millimetres.
    pub radius: f64,
}

impl Circle {
    /// The circle about `centre`.
    pub const fn new(centre: Point, radius: f64) -> Self {
        Self { centre, radius }
    }
}

impl From<&Arc> for Circle {
    /// The circle that carries the arc.
    fn from(arc: &Arc) -> Self {
        Self::new(arc.centre(), arc.radius())
    }
}
