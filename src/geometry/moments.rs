//! Centroid, second moments of area and principal axes, exact for arcs.

use super::Arc;
use super::Contour;
use super::GeometryError;
use super::Point;
use super::Region;
use super::Segment;
use super::Vec2;
use super::number;
use super::tolerance;

/// Area moments of a flat shape, the second ones about axes through its centroid, parallel to x and y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moments {
    /// Its area in mm².
    pub area: f64,
    /// Its centroid.
    pub centroid: Point,
    /// ∫y² dA about the centroid in mm⁴: resists bending about an axis along x.
    pub about_x: f64,
    /// ∫x² dA about the centroid in mm⁴.
    pub about_y: f64,
    /// ∫xy dA about the centroid in mm⁴.
    pub product: f64,
}

/// The axes through the centroid about which the second moment is largest and least.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PrincipalAxes {
    /// The moment is the same about every axis, as for a disc, a square, an equilateral triangle.
    Any {
        /// The moment in mm⁴.
        moment: f64,
    },
    /// Two axes, square to each other.
    Two {
        /// The largest moment, in mm⁴.
        largest: f64,
        /// The least moment, in mm⁴.
        least: f64,
        /// Direction of the axis about which the moment is largest, a unit vector with x ≥ 0; the other
        /// is square to it.
        direction: Vec2,
    },
}

impl Moments {
    /// Moments of the material of a region.
    ///
    /// # Accuracy
    /// Better than 1e-10 of the value, wherever the region lies and however flat its arcs: everything is
    /// summed about the middle of the region's bounds; the segment between a chord and an arc is taken
    /// in closed form, or, where that would lose digits (sweeps below 0.4 rad), by Gauss's rule of eight
    /// points, which there is good to 1e-16.
    ///
    /// # Errors
    /// [`GeometryError::NoArea`] when there is (almost) none.
    ///
    /// # Source
    /// Green's theorem for the polygon of the chords; the circular segment as in Machinery's Handbook,
    /// 31st ed., pp. 229 and 242–247, in closed form.
    ///
    /// # Example
    /// ```
    /// use kerfwise::geometry::Contour;
    /// use kerfwise::geometry::Point;
    /// use kerfwise::geometry::Region;
    /// use kerfwise::geometry::moments::Moments;
    ///
    /// let corners = [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)].map(Point::from);
    /// let plate = Region::new(Contour::polygon(&corners)?, vec![]);
    /// let moments = Moments::of_region(&plate)?;
    /// assert_eq!(moments.centroid, Point::new(20.0, 15.0));
    /// assert_eq!(moments.about_x, 40.0 * 30.0_f64.powi(3) / 12.0);
    /// # Ok::<(), kerfwise::geometry::GeometryError>(())
    /// ```
    pub fn of_region(region: &Region) -> Result<Self, GeometryError> {
        let origin = region.bounds().center();
        let mut sums = Sums::default();
        for contour in region.contours() {
            sums.add_contour(contour, origin);
        }
        sums.about_centroid(origin)
    }

    /// Moments of what a contour encloses, whichever way it runs.
    ///
    /// # Errors
    /// [`GeometryError::NoArea`] when that is (almost) nothing.
    pub fn of_contour(contour: &Contour) -> Result<Self, GeometryError> {
        let origin = contour.bounds().center();
        let mut sums = Sums::default();
        sums.add_contour(contour, origin);
        let sign = if sums.area < 0.0 { -1.0 } else { 1.0 };
        sums.scaled(sign).about_centroid(origin)
    }

    /// ∫y² dA, ∫x² dA and ∫xy dA about axes through `point` instead, in mm⁴ (Steiner).
    pub fn about(&self, point: Point) -> (f64, f64, f64) {
        let arm = self.centroid - point;
        (
            self.about_x + self.area * arm.y * arm.y,
            self.about_y + self.area * arm.x * arm.x,
            self.product + self.area * arm.x * arm.y,
        )
    }

    /// Second moment about the axis through the centroid along `direction` (a unit vector), in mm⁴.
    pub fn about_axis(&self, direction: Vec2) -> f64 {
        self.about_x * direction.x * direction.x + self.about_y * direction.y * direction.y
            - 2.0 * self.product * direction.x * direction.y
    }

    /// The principal axes. Moments that differ by less than [`tolerance::SAME_MOMENT`] of their size are
    /// the same.
    pub fn principal_axes(&self) -> PrincipalAxes {
        let mean = f64::midpoint(self.about_x, self.about_y);
        let lean = Vec2::new((self.about_x - self.about_y) / 2.0, -self.product);
        let radius = number::length(lean);
        if radius <= tolerance::SAME_MOMENT * mean {
            return PrincipalAxes::Any { moment: mean };
        }
        let largest = mean + radius;
        // the least from the product of both: for a long strip the difference would lose it
        let least = (self.about_x * self.about_y - self.product * self.product) / largest;
        PrincipalAxes::Two {
            largest,
            least,
            direction: number::unit(number::direction(lean) / 2.0),
        }
    }
}

/// ∫ of 1, x, y, y², x² and xy over an area, signed.
#[derive(Clone, Copy, Debug, Default)]
struct Sums {
    area: f64,
    first: Vec2,
    about_x: f64,
    about_y: f64,
    product: f64,
}

impl Sums {
    fn add_contour(&mut self, contour: &Contour, origin: Point) {
        for segment in contour.segments() {
            self.add_triangle(segment.start() - origin, segment.end() - origin);
            if let Segment::Arc(arc) = segment {
                self.add_circular_segment(arc, origin);
            }
        }
    }

    /// The triangle of the origin and a chord.
    fn add_triangle(&mut self, a: Vec2, b: Vec2) {
        let twice = a.cross(b);
        self.area += twice / 2.0;
        self.first += (a + b) * (twice / 6.0);
        self.about_x += twice * (a.y * a.y + a.y * b.y + b.y * b.y) / 12.0;
        self.about_y += twice * (a.x * a.x + a.x * b.x + b.x * b.x) / 12.0;
        let mixed = a.x * b.y + b.x * a.y;
        self.product += twice * (2.0 * a.x * a.y + mixed + 2.0 * b.x * b.y) / 24.0;
    }

    /// What lies between an arc and its chord.
    fn add_circular_segment(&mut self, arc: &Arc, origin: Point) {
        let sign = arc.turn().sign();
        let own = CircularSegment::new(arc.radius(), arc.sweep().abs() / 2.0);
        let middle = arc.start().midpoint(arc.end()) - origin;
        // outwards, from the chord to the arc: past half a circle the chord grows too short to tell
        let outward = if arc.sweep().abs() < number::HALF_TURN {
            number::left_normal(arc.end() - arc.start()) * -sign
        } else {
            number::rotated(arc.start() - arc.centre(), arc.sweep() / 2.0)
        };
        let Some(outward) = number::normalized(outward) else {
            return;
        };
        let along = number::left_normal(outward);
        let (area, height) = (sign * own.area, sign * own.height);
        let (across, lengthwise) = (sign * own.height_squared, sign * own.along_squared);
        self.area += area;
        self.first += middle * area + outward * height;
        let second = |m: f64, n: f64, o: [f64; 2], a: [f64; 2]| {
            area * m * n
                + height * (m * o[1] + n * o[0])
                + across * o[0] * o[1]
                + lengthwise * a[0] * a[1]
        };
        let (x, y) = ([outward.x; 2], [outward.y; 2]);
        self.about_x += second(middle.y, middle.y, y, [along.y; 2]);
        self.about_y += second(middle.x, middle.x, x, [along.x; 2]);
        self.product += second(
            middle.x,
            middle.y,
            [outward.x, outward.y],
            [along.x, along.y],
        );
    }

    fn scaled(self, factor: f64) -> Self {
        Self {
            area: self.area * factor,
            first: self.first * factor,
            about_x: self.about_x * factor,
            about_y: self.about_y * factor,
            product: self.product * factor,
        }
    }

    fn about_centroid(self, origin: Point) -> Result<Moments, GeometryError> {
        if self.area.is_nan() || self.area <= tolerance::SMALLEST_AREA {
            return Err(GeometryError::NoArea { area: self.area });
        }
        let arm = self.first / self.area;
        Ok(Moments {
            area: self.area,
            centroid: origin + arm,
            about_x: self.about_x - self.area * arm.y * arm.y,
            about_y: self.about_y - self.area * arm.x * arm.x,
            product: self.product - self.area * arm.x * arm.y,
        })
    }
}

/// ∫ of 1, v, v² and u² over the area between an arc and its chord, with u along the chord from its
/// middle and v square to it towards the arc. ∫u and ∫uv are 0.
#[derive(Clone, Copy, Debug)]
struct CircularSegment {
    area: f64,
    height: f64,
    height_squared: f64,
    along_squared: f64,
}

impl CircularSegment {
    fn new(radius: f64, half_sweep: f64) -> Self {
        if half_sweep < 0.2 {
            Self::flat(radius, half_sweep)
        } else {
            Self::full(radius, half_sweep)
        }
    }

    fn full(radius: f64, half_sweep: f64) -> Self {
        let (sine, cosine) = (number::sin(half_sweep), number::cos(half_sweep));
        let (square, cube) = (radius * radius, sine * sine * sine);
        let lens = number::angle_minus_sine(2.0 * half_sweep) / 2.0;
        let area = square * lens;
        // about the centre of the circle, then moved to the chord
        let first = 2.0 / 3.0 * square * radius * cube;
        let second = square * square / 4.0 * (lens + 2.0 * cube * cosine);
        let chord = radius * cosine;
        Self {
            area,
            height: first - chord * area,
            height_squared: second - 2.0 * chord * first + chord * chord * area,
            along_squared: square * square / 12.0 * (3.0 * lens - 2.0 * cube * cosine),
        }
    }

    /// By Gauss's rule over the half chord, with the height of the arc over the chord in a form that
    /// does not cancel.
    fn flat(radius: f64, half_sweep: f64) -> Self {
        const RULE: [(f64, f64); 4] = [
            (0.183_434_642_495_649_8, 0.362_683_783_378_362),
            (0.525_532_409_916_329, 0.313_706_645_877_887_3),
            (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
            (0.960_289_856_497_536_3, 0.101_228_536_290_376_26),
        ];
        let half_chord = radius * number::sin(half_sweep);
        let under = radius * number::cos(half_sweep);
        let mut sums = Self {
            area: 0.0,
            height: 0.0,
            height_squared: 0.0,
            along_squared: 0.0,
        };
        for (place, weight) in RULE {
            let u = half_chord * place;
            let over = half_chord * half_chord * (1.0 - place) * (1.0 + place);
            let v = over / (under + ((radius - u) * (radius + u)).sqrt());
            // both halves of the chord
            let width = 2.0 * weight * half_chord;
            sums.area += width * v;
            sums.height += width * v * v / 2.0;
            sums.height_squared += width * v * v * v / 3.0;
            sums.along_squared += width * v * u * u;
        }
        sums
    }
}

#[cfg(test)]
mod tests;
