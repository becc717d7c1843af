//! The amounts of a design file as plain numbers, faults put aside.

use crate::design::dimensions::Dimension;
use crate::design::dimensions::Dimensions;
use crate::design::dimensions::Unresolved;
use crate::design::error::DesignError;
use crate::design::error::DesignErrorKind;
use crate::design::error::Sink;
use crate::design::file::DimensionEntry;
use crate::design::located::Amount;
use crate::design::located::Pair;
use crate::design::located::Word;
use crate::design::part::Part;
use crate::design::source::Place;
use crate::geometry::Point;
use crate::geometry::fair_curve::Breakpoint;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// Evaluates amounts and collects what is wrong with them. `None` means that the fault has been
/// reported, or that the amount waits for a dimension not measured yet.
#[derive(Debug)]
pub(super) struct Amounts<'a> {
    dimensions: &'a Dimensions,
    sink: &'a mut Sink,
    /// Values outside their own limits: the part can still be built.
    pub(super) findings: Vec<DesignError>,
    /// Where the arcs along fair curves met at slightly other values, by the places of the edges.
    breakpoints: BTreeMap<Place, Vec<Breakpoint>>,
}

impl<'a> Amounts<'a> {
    pub(super) const fn new(dimensions: &'a Dimensions, sink: &'a mut Sink) -> Self {
        Self {
            dimensions,
            sink,
            findings: Vec::new(),
            breakpoints: BTreeMap::new(),
        }
    }

    /// With the arrangement of arcs that the fair curves of these parts have.
    pub(super) fn following(mut self, parts: &[Part]) -> Self {
        let openings = parts.iter().flat_map(|part| &part.openings);
        let edges = openings
            .flat_map(|opening| &opening.features.edges)
            .chain(parts.iter().flat_map(|part| &part.edges));
        self.breakpoints = edges
            .filter_map(|edge| {
                let curve = edge.curve.as_ref()?;
                Some((edge.place, curve.fitted.breakpoints.clone()))
            })
            .collect();
        self
    }

    /// Where the arcs along the fair curve of an edge met at slightly other values; empty if that is not known.
    pub(super) fn breakpoints(&self, edge: Place) -> Vec<Breakpoint> {
        self.breakpoints.get(&edge).cloned().unwrap_or_default()
    }

    /// Puts a fault aside.
    pub(super) fn report(&mut self, error: DesignError) {
        self.sink.push(error);
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

    /// A whole number in a range.
    pub(super) fn count(
        &mut self,
        amount: &Amount,
        what: &str,
        range: RangeInclusive<u32>,
    ) -> Option<u32> {
        let found = self.dimensions.count(amount, what, range);
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
        let [first, second] = &pair.value;
        let (first, second) = (self.length(first), self.length(second));
        Some([first?, second?])
    }

    /// The value of a dimension written outside the list of dimensions; what is found of it is
    /// reported.
    pub(super) fn entry(&mut self, name: &Word, entry: &DimensionEntry) -> Option<Dimension> {
        match self.dimensions.entry(name, entry) {
            Ok((dimension, findings)) => {
                self.findings.extend(findings);
                Some(dimension)
            }
            Err(errors) => {
                for error in errors {
                    self.report(error);
                }
                None
            }
        }
    }

    fn kept<T>(&mut self, found: Result<T, Unresolved>) -> Option<T> {
        match found {
            Ok(value) => Some(value),
            Err(Unresolved::Open(_)) => None,
            Err(Unresolved::Fault(error)) => {
                self.report(error);
                None
            }
        }
    }
}
