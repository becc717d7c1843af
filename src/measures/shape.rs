//! A shape of a part.

use crate::design::part::Corner;
use crate::design::part::Datum;
use crate::design::part::Edge;
use crate::design::part::Features;
use crate::design::part::Part;
use crate::design::part::Round;
use crate::geometry::Contour;
use crate::geometry::Line;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A part, and the shape of it that is measured.
///
/// # Example
/// A blade cut 0.2 mm too large all round:
/// ```
/// use kerfwise::design::Design;
/// use kerfwise::design::Source;
/// use kerfwise::geometry::offset::Join;
/// use kerfwise::geometry::offset::offset;
/// use kerfwise::measures::Shape;
/// use kerfwise::measures::take;
///
/// let text = r#"
/// [dims]
/// side = { value = 100, tol = 1, measure = { distance = { from = "a", to = "b" } } }
/// [part.square]
/// outline = [
///   { corner = "a", at = [0, 0], fillet = 5 },
///   { corner = "b", at = ["side", 0], fillet = 5 },
///   { corner = "c", at = ["side", "side"] },
///   { corner = "d", at = [0, "side"] },
/// ]
/// "#;
/// let design = Design::load(&Source::new("square.toml", text), &[]).map_err(|e| e[0].clone())?;
/// let part = &design.resolved.parts[0];
/// let side = design.dimensions.get("side").and_then(|side| side.measure.as_ref()).ok_or("no measure")?;
/// let as_drawn = take(&Shape::nominal(part), side, &design.dimensions)?;
/// assert_eq!(as_drawn.value, 100.0);
/// let grown = offset(&part.region, 0.2, Join::Round)?;
/// let as_cut = take(&Shape::changed(part, &grown.regions), side, &design.dimensions)?;
/// assert!((as_cut.value - 100.4).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Shape<'a> {
    part: &'a Part,
    regions: &'a [Region],
    is_nominal: bool,
}

/// One outline of the part as drawn: its own, or that of an opening.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trip<'a> {
    pub(super) corners: &'a [Corner],
    pub(super) rounds: &'a [Round],
    pub(super) edges: &'a [Edge],
}

impl<'a> Shape<'a> {
    /// The part as drawn.
    pub const fn nominal(part: &'a Part) -> Self {
        Self {
            part,
            regions: std::slice::from_ref(&part.region),
            is_nominal: true,
        }
    }

    /// Another shape of the same part, whose pieces bear the sources of those they came from: an
    /// offset of its region, in as many pieces as that has.
    pub const fn changed(part: &'a Part, regions: &'a [Region]) -> Self {
        Self {
            part,
            regions,
            is_nominal: false,
        }
    }

    /// The part as drawn.
    pub const fn part(&self) -> &'a Part {
        self.part
    }

    /// The pieces of material.
    pub const fn regions(&self) -> &'a [Region] {
        self.regions
    }

    /// Whether this is the part as drawn.
    pub const fn is_nominal(&self) -> bool {
        self.is_nominal
    }

    pub(super) fn contours(&self) -> impl Iterator<Item = &'a Contour> {
        self.regions.iter().flat_map(Region::contours)
    }

    /// The outer outline.
    pub(super) fn trip(&self) -> Trip<'a> {
        Trip {
            corners: &self.part.corners,
            rounds: &self.part.rounds,
            edges: &self.part.edges,
        }
    }

    /// What the shape has of a source, in the order of its contours.
    pub(super) fn pieces_of(&self, source: SourceId) -> Vec<Segment> {
        let of_source = |contour: &'a Contour| {
            let pieces = contour.pieces().iter();
            let bears = move |piece: &&Piece| piece.source == source;
            pieces.filter(bears).map(|piece| piece.segment)
        };
        self.contours().flat_map(of_source).collect()
    }

    /// The least and the greatest reach of the shape along a direction.
    pub(super) fn reach(&self, direction: Vec2) -> (f64, f64) {
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for region in self.regions {
            for segment in region.outer().segments() {
                let reach = |direction| segment.farthest(direction).to_vec2();
                least = least.min(reach(-direction).dot(direction));
                most = most.max(reach(direction).dot(direction));
            }
        }
        (least, most)
    }

    /// The datum on this shape: the datum edge and corner as they stand on it.
    pub(super) fn datum(&self) -> Datum {
        let drawn = &self.part.datum;
        if self.is_nominal {
            return drawn.clone();
        }
        let edge = drawn.edge.as_ref().and_then(|name| self.part.edge(name));
        let line = edge.and_then(
            |edge| match self.edge(self.trip(), edge)?.sharp.as_slice() {
                [Segment::Line(line)] => Some(*line),
                _ => None,
            },
        );
        let from = drawn.from.as_ref().and_then(|name| {
            let corner = self.part.corner(name)?;
            self.corner(self.trip(), corner).map(|corner| corner.sharp)
        });
        let mut datum = drawn.clone();
        datum.origin = match (line, from) {
            (_, Some(sharp)) => sharp,
            (Some(line), None) => foot(&line, drawn.origin),
            (None, None) if edge.is_none() => self.lowest_left(drawn),
            (None, None) => drawn.origin,
        };
        datum
    }

    /// Where the datum starts that no edge holds: the corner of the bounds.
    fn lowest_left(&self, drawn: &Datum) -> Point {
        let (along, _) = self.reach(drawn.along);
        let (across, _) = self.reach(drawn.across);
        (drawn.along * along + drawn.across * across).to_point()
    }
}

/// The point of the whole line that is nearest to a point.
pub(super) fn foot(line: &Line, point: Point) -> Point {
    let along = line.direction();
    line.start + along * (point - line.start).dot(along)
}

impl<'a> Trip<'a> {
    pub(super) fn of(features: &'a Features) -> Self {
        Self {
            corners: &features.corners,
            rounds: &features.rounds,
            edges: &features.edges,
        }
    }

    /// Index of the entry that a corner or round with this source is.
    pub(super) fn entry(&self, source: SourceId) -> Option<usize> {
        let first = self.edges.first()?.source.0.checked_sub(1)?;
        usize::try_from(source.0.checked_sub(first)? / 2).ok()
    }

    /// The edges that arrive at an entry and leave it, as written.
    pub(super) fn beside(&self, entry: usize) -> Option<(&'a Edge, &'a Edge)> {
        let count = self.edges.len();
        let before = self.edges.get((entry + count.checked_sub(1)?) % count)?;
        Some((before, self.edges.get(entry)?))
    }

    /// The corner at an entry, if it is none of the rounds.
    pub(super) fn corner_at(&self, entry: usize) -> Option<&'a Corner> {
        self.corners
            .iter()
            .find(|corner| self.entry(corner.source) == Some(entry))
    }
}

/// The distance of two points.
pub(super) fn apart(a: Point, b: Point) -> f64 {
    number::length(b - a)
}
