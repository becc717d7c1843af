//! Chains of segments: [`Contour`], which is closed, and [`Path`], which is open.

use super::GeometryError;
use super::Point;
use super::Rect;
use super::Segment;
use super::number;
use super::tolerance;

/// Where a segment comes from: an opaque number that travels with it through every construction. Its
/// meaning belongs to whoever made the segment (the design layer keeps a table from it to the lines
/// of the design file).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(pub u32);

impl SourceId {
    /// For geometry that nobody traces.
    pub const UNTRACED: Self = Self(u32::MAX);
}

/// A segment and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// The geometry.
    pub segment: Segment,
    /// Where it comes from.
    pub source: SourceId,
}

impl Piece {
    /// A segment with its source.
    pub const fn new(segment: Segment, source: SourceId) -> Self {
        Self { segment, source }
    }
}

/// A closed chain of segments, checked once when made: finite numbers, no segment without length,
/// each end the very start of the next. It may still cross itself: see
/// [`validate`](super::validate).
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    pieces: Vec<Piece>,
}

impl Contour {
    /// The contour of these pieces, whose ends must meet within [`tolerance::SAME_POINT`]; they are
    /// made to meet exactly.
    ///
    /// # Errors
    /// [`GeometryError::NotUsable`], [`GeometryError::ZeroLength`], [`GeometryError::NotClosed`], and
    /// [`GeometryError::TooFewSegments`] for anything but a whole circle on its own.
    pub fn new(mut pieces: Vec<Piece>) -> Result<Self, GeometryError> {
        let lone_circle = matches!(pieces.as_slice(), [piece] if is_circle(&piece.segment));
        if pieces.len() < 2 && !lone_circle {
            return Err(GeometryError::TooFewSegments {
                needed: 2,
                found: pieces.len(),
            });
        }
        check_and_join(&mut pieces)?;
        let (last, first) = (pieces.len() - 1, pieces[0].segment.start());
        let end = pieces[last].segment.end();
        let gap = number::length(first - end);
        if gap > tolerance::SAME_POINT {
            return Err(GeometryError::NotClosed { at: end, gap });
        }
        let segment = pieces[last].segment;
        pieces[last].segment = segment.with_ends(segment.start(), first);
        Ok(Self { pieces })
    }

    /// Pieces that come from a contour by a motion: still closed.
    pub(super) const fn from_checked(pieces: Vec<Piece>) -> Self {
        Self { pieces }
    }

    /// The contour of segments that nobody traces.
    ///
    /// # Errors
    /// As [`Contour::new`].
    pub fn from_segments(
        segments: impl IntoIterator<Item = Segment>,
    ) -> Result<Self, GeometryError> {
        let untraced = |segment| Piece::new(segment, SourceId::UNTRACED);
        Self::new(segments.into_iter().map(untraced).collect())
    }

    /// A whole circle, anticlockwise.
    ///
    /// # Errors
    /// [`GeometryError::NotUsable`] for a centre or radius that is no number, zero or negative.
    pub fn circle(centre: Point, radius: f64, source: SourceId) -> Result<Self, GeometryError> {
        if radius <= 0.0 {
            return Err(GeometryError::NotUsable {
                what: "radius",
                value: radius,
            });
        }
        Self::new(vec![Piece::new(
            super::Arc::circle(centre, radius).into(),
            source,
        )])
    }

    /// A closed polygon through the points.
    ///
    /// # Errors
    /// As [`Contour::new`].
    pub fn polygon(points: &[Point]) -> Result<Self, GeometryError> {
        let following = points.iter().cycle().skip(1);
        Self::from_segments(
            points
                .iter()
                .zip(following)
                .map(|(&a, &b)| Segment::line(a, b)),
        )
    }

    /// Its pieces, in order of travel.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Its segments, in order of travel.
    pub fn segments(&self) -> impl ExactSizeIterator<Item = &Segment> + DoubleEndedIterator {
        self.pieces.iter().map(|piece| &piece.segment)
    }

    /// Centre and radius, when it is one whole circle: a single segment, or arcs of one circle.
    pub fn as_circle(&self) -> Option<(Point, f64)> {
        let Segment::Arc(first) = self.pieces[0].segment else {
            return None;
        };
        let mut sweep = 0.0;
        for segment in self.segments() {
            let Segment::Arc(arc) = segment else {
                return None;
            };
            let apart = number::length(arc.centre() - first.centre());
            let radii_differ = (arc.radius() - first.radius()).abs();
            if apart > tolerance::SAME_POINT || radii_differ > tolerance::SAME_POINT {
                return None;
            }
            sweep += arc.sweep();
        }
        let whole = (sweep.abs() - number::FULL_TURN).abs() <= tolerance::SAME_DIRECTION;
        whole.then(|| (first.centre(), first.radius()))
    }

    /// Length along it, in millimetres.
    pub fn perimeter(&self) -> f64 {
        self.segments().map(Segment::length).sum()
    }

    /// Area enclosed, in mm², positive anticlockwise.
    pub fn signed_area(&self) -> f64 {
        super::area::signed_area(self)
    }

    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        bounds_of(&self.pieces)
    }

    /// The same contour run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            pieces: reversed_pieces(&self.pieces),
        }
    }

    /// The same contour run anticlockwise.
    #[must_use]
    pub fn anticlockwise(self) -> Self {
        if self.signed_area() < 0.0 {
            self.reversed()
        } else {
            self
        }
    }
}

/// An open chain of segments: a scribe line, a lead, a tool path.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    pieces: Vec<Piece>,
}

impl Path {
    /// The path of these pieces, each of which must start where the one before ends, within
    /// [`tolerance::SAME_POINT`].
    ///
    /// # Errors
    /// [`GeometryError::NotUsable`], [`GeometryError::ZeroLength`], [`GeometryError::NotClosed`] (a
    /// gap inside the path), and [`GeometryError::TooFewSegments`] when there is none.
    pub fn new(mut pieces: Vec<Piece>) -> Result<Self, GeometryError> {
        if pieces.is_empty() {
            return Err(GeometryError::TooFewSegments {
                needed: 1,
                found: 0,
            });
        }
        check_and_join(&mut pieces)?;
        Ok(Self { pieces })
    }

    /// Pieces that come from a path by a motion: still joined.
    pub(super) const fn from_checked(pieces: Vec<Piece>) -> Self {
        Self { pieces }
    }

    /// Its pieces, in order of travel.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Its segments, in order of travel.
    pub fn segments(&self) -> impl ExactSizeIterator<Item = &Segment> + DoubleEndedIterator {
        self.pieces.iter().map(|piece| &piece.segment)
    }

    /// Where it starts.
    pub fn start(&self) -> Point {
        self.pieces[0].segment.start()
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.pieces[self.pieces.len() - 1].segment.end()
    }

    /// Length along it, in millimetres.
    pub fn length(&self) -> f64 {
        self.segments().map(Segment::length).sum()
    }

    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        bounds_of(&self.pieces)
    }

    /// The same path run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            pieces: reversed_pieces(&self.pieces),
        }
    }
}

fn is_circle(segment: &Segment) -> bool {
    matches!(segment, Segment::Arc(arc) if arc.is_circle())
}

/// Refuses unusable numbers, missing length and gaps; moves each start onto the end before it.
fn check_and_join(pieces: &mut [Piece]) -> Result<(), GeometryError> {
    for index in 0..pieces.len() {
        let segment = pieces[index].segment;
        check_numbers(&segment)?;
        let length = segment.length();
        if length < tolerance::SHORTEST_SEGMENT {
            return Err(GeometryError::ZeroLength {
                at: segment.start(),
                length,
            });
        }
        if index == 0 {
            continue;
        }
        let at = pieces[index - 1].segment.end();
        let gap = number::length(segment.start() - at);
        if gap > tolerance::SAME_POINT {
            return Err(GeometryError::NotClosed { at, gap });
        }
        pieces[index].segment = segment.with_ends(at, segment.end());
    }
    Ok(())
}

fn check_numbers(segment: &Segment) -> Result<(), GeometryError> {
    let usable = |what, value: f64| {
        let fine = value.is_finite() && value.abs() <= tolerance::LARGEST_COORDINATE;
        if fine {
            Ok(())
        } else {
            Err(GeometryError::NotUsable { what, value })
        }
    };
    for point in [segment.start(), segment.end()] {
        usable("x", point.x)?;
        usable("y", point.y)?;
    }
    if let Segment::Arc(arc) = segment {
        // a nearly straight arc has a far centre: only its being a number matters
        for value in [arc.centre().x, arc.centre().y, arc.radius(), arc.sweep()] {
            if !value.is_finite() {
                return Err(GeometryError::NotUsable { what: "arc", value });
            }
        }
    }
    Ok(())
}

fn bounds_of(pieces: &[Piece]) -> Rect {
    let first = pieces[0].segment.bounds();
    pieces[1..]
        .iter()
        .fold(first, |sum, piece| sum.union(piece.segment.bounds()))
}

fn reversed_pieces(pieces: &[Piece]) -> Vec<Piece> {
    let turned = |piece: &Piece| Piece::new(piece.segment.reversed(), piece.source);
    pieces.iter().rev().map(turned).collect()
}
