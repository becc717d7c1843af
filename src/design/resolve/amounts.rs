//! The amounts of a design file as plain numbers, faults put aside.

use crate::design::dimensions::Dimensions;
use crate::design::error::DesignError;
use crate::design::error::DesignErrorKind;
use crate::design::error::Sink;
use crate::design::located::Amount;
use crate::design::located::Pair;
use crate::design::source::Place;
use crate::geometry::Point;

/// Evaluates amounts and collects what is wrong with them. `None` means that the fault has been
/// reported, or that the amount waits for a dimension not measured yet.
#[derive(Debug)]
pub(super) struct Amounts<'a> {
    dimensions: &'a Dimensions,
    sink: &'a mut Sink,
}

impl<'a> Amounts<'a> {
    pub(super) const fn new(dimensions: &'a Dimensions, sink: &'a mut Sink) -> Self {
        Self { dimensions, sink }
    }

    pub(super) const fn dimensions(&self) -> &'a Dimensions {
        self.dimensions
    }

    /// Puts a fault aside.
    pub(super) fn report(&mut self, error: DesignError) {
        self.sink.report(error);
    }

    /// Puts a fault at a place aside.
    pub(super) fn fault(&mut self, kind: impl Into<DesignErrorKind>, place: Place, help: &str) {
        self.report(DesignError::new(kind, place).with_help(help));
    }

    /// A length in millimetres.
    pub(super) fn length(&mut self, amount: &Amount) -> Option<f64> {
        let found = self.dimensions.length(amount);
        self.kept(found)
    }

    /// An angle in radians.
    pub(super) fn angle(&mut self, amount: &Amount) -> Option<f64> {
        let found = self.dimensions.angle(amount);
        self.kept(found)
    }

    /// A whole number from `least` to `most`.
    pub(super) fn count(
        &mut self,
        amount: &Amount,
        what: &'static str,
        (least, most): (u32, u32),
    ) -> Option<u32> {
        let found = self.dimensions.count(amount, what, least, most);
        self.kept(found)
    }

    /// A point.
    pub(super) fn point(&mut self, pair: &Pair) -> Option<Point> {
        let [x, y] = self.lengths(pair)?;
        Some(Point::new(x, y))
    }

    /// Two lengths in millimetres.
    pub(super) fn lengths(&mut self, pair: &Pair) -> Option<[f64; 2]> {
        // both are evaluated before either is missed, so that both faults are told
        let [first, second] = [0, 1].map(|index| self.length(&pair.value[index]));
        Some([first?, second?])
    }

    fn kept<T>(&mut self, found: Result<Option<T>, DesignError>) -> Option<T> {
        found.unwrap_or_else(|error| {
            self.report(error);
            None
        })
    }
}
