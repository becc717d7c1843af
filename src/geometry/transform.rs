//! Moving, turning, mirroring, and drawing to scale.

use super::Arc;
use super::Contour;
use super::Path;
use super::Piece;
use super::Point;
use super::Region;
use super::Segment;
use super::Vec2;
use super::number;

/// A motion of the plane that keeps every shape: perhaps a mirroring, then a turn about the origin,
/// perhaps a scale, then a shift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Image of the x direction, a unit vector.
    x_axis: Vec2,
    /// Whether y is mirrored before turning.
    mirrored: bool,
    scale: f64,
    shift: Vec2,
}

impl Motion {
    /// The motion that leaves everything where it is.
    pub const IDENTITY: Self = Self {
        x_axis: Vec2::new(1.0, 0.0),
        mirrored: false,
        scale: 1.0,
        shift: Vec2::ZERO,
    };

    /// A shift.
    pub const fn shift(by: Vec2) -> Self {
        Self {
            shift: by,
            ..Self::IDENTITY
        }
    }

    /// Everything `factor` times as large about the origin; `factor` must be positive.
    pub const fn scale(factor: f64) -> Self {
        Self {
            scale: factor,
            ..Self::IDENTITY
        }
    }

    /// A turn about the origin by `angle` radians, anticlockwise positive. Whole quarter turns are
    /// exact.
    pub fn turn(angle: f64) -> Self {
        let quarters = angle / number::QUARTER_TURN;
        let x_axis = if quarters == quarters.round() {
            match number::positive_angle(angle) / number::QUARTER_TURN {
                q if q < 0.5 => Vec2::new(1.0, 0.0),
                q if q < 1.5 => Vec2::new(0.0, 1.0),
                q if q < 2.5 => Vec2::new(-1.0, 0.0),
                _ => Vec2::new(0.0, -1.0),
            }
        } else {
            number::unit(angle)
        };
        Self {
            x_axis,
            ..Self::IDENTITY
        }
    }

    /// Left and right exchanged: x becomes −x.
    pub const fn mirror_left_right() -> Self {
        Self {
            x_axis: Vec2::new(-1.0, 0.0),
            mirrored: true,
            scale: 1.0,
            shift: Vec2::ZERO,
        }
    }

    /// The mirroring in the line through `at` along `direction` (a unit vector).
    pub fn mirror_in(at: Point, direction: Vec2) -> Self {
        let x_axis = Vec2::new(
            direction.x * direction.x - direction.y * direction.y,
            2.0 * direction.x * direction.y,
        );
        let turned = Self {
            x_axis,
            mirrored: true,
            ..Self::IDENTITY
        };
        Self {
            shift: at - turned.point(at),
            ..turned
        }
    }

    /// This motion, followed by `next`.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        Self {
            x_axis: next.vector(self.x_axis) / next.scale,
            mirrored: self.mirrored != next.mirrored,
            scale: self.scale * next.scale,
            shift: next.vector(self.shift) + next.shift,
        }
    }

    /// The motion that undoes this one.
    #[must_use]
    pub fn inverse(&self) -> Self {
        let turned_back = Self {
            // a mirroring in a line undoes itself
            x_axis: if self.mirrored {
                self.x_axis
            } else {
                Vec2::new(self.x_axis.x, -self.x_axis.y)
            },
            mirrored: self.mirrored,
            scale: 1.0 / self.scale,
            shift: Vec2::ZERO,
        };
        Self {
            shift: -turned_back.vector(self.shift),
            ..turned_back
        }
    }

    /// Whether it mirrors.
    pub const fn mirrors(&self) -> bool {
        self.mirrored
    }

    /// Image of a vector.
    pub fn vector(&self, vector: Vec2) -> Vec2 {
        let y = if self.mirrored { -vector.y } else { vector.y };
        (self.x_axis * vector.x + number::left_normal(self.x_axis) * y) * self.scale
    }

    /// Image of a point.
    pub fn point(&self, point: Point) -> Point {
        (self.vector(point.to_vec2()) + self.shift).to_point()
    }

    /// Image of a segment, run the same way.
    pub fn segment(&self, segment: &Segment) -> Segment {
        match segment {
            Segment::Line(line) => Segment::line(self.point(line.start), self.point(line.end)),
            Segment::Arc(arc) => Segment::Arc(self.arc(arc)),
        }
    }

    /// Image of an arc; mirrored, it turns the other way.
    pub fn arc(&self, arc: &Arc) -> Arc {
        let sweep = if self.mirrored {
            -arc.sweep()
        } else {
            arc.sweep()
        };
        let (start, end) = (self.point(arc.start()), self.point(arc.end()));
        let radius = arc.radius() * self.scale;
        Arc::from_angles(self.point(arc.centre()), radius, 0.0, sweep).with_ends(start, end)
    }

    fn pieces(&self, pieces: &[Piece]) -> Vec<Piece> {
        let moved = |piece: &Piece| Piece::new(self.segment(&piece.segment), piece.source);
        pieces.iter().map(moved).collect()
    }

    /// Image of a contour; mirrored, it runs the other way round.
    pub fn contour(&self, contour: &Contour) -> Contour {
        Contour::from_checked(self.pieces(contour.pieces()))
    }

    /// Image of a path.
    pub fn path(&self, path: &Path) -> Path {
        Path::from_checked(self.pieces(path.pieces()))
    }

    /// Image of a region; mirrored, its contours are turned back so that material stays on the left.
    pub fn region(&self, region: &Region) -> Region {
        let holes = region
            .holes()
            .iter()
            .map(|hole| self.contour(hole))
            .collect();
        Region::new(self.contour(region.outer()), holes)
    }
}
