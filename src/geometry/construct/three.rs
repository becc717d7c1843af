//! Circles tangent to three lines or circles (the problem of Apollonius).

use super::directed::Carrier;
use super::directed::DirectedCircle;
use super::tangent_circle::TangentCircles;
use super::tangent_circle::Touching;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The directed circles that touch all three carriers, running the same way as each where they touch.
/// Circles shrunk to a point (nearer to one than [`tolerance::SAME_POINT`]) are left out, and so is what
/// would miss one of the three by more than that. Two that are nearly one are one, if that touches all
/// three as closely.
///
/// # Accuracy
/// To a few units in the last place for answers that stand clear of each other: the closed form,
/// relative to the middle of the three, is polished with Newton's method. Where two answers become one
/// their place is as uncertain as the question is.
///
/// # Source
/// With w the centre, ρ the signed radius and Q = w·w − ρ², each circle (c, s) gives
/// Q − 2c·w + 2sρ + c·c − s² = 0 and each line n·w − ρ = h: three linear equations for (Q, w, ρ), then
/// one quadratic. Closed form after Gergonne's use of the power of a point; from memory.
pub fn tangent_to_three(carriers: &[Carrier; 3]) -> TangentCircles {
    let system = System::new(carriers);
    let answer = system.solve();
    let touching = |root: Option<DirectedCircle>| {
        root.map(|circle| polish(carriers, circle))
            .filter(|circle| touches_all(carriers, circle))
    };
    let (first, second) = match answer {
        Answer::None => return TangentCircles::None,
        Answer::Endless => return TangentCircles::Endless,
        Answer::Roots(first, second) => (touching(first), touching(second)),
        Answer::Close(middle, apart) => match touching(middle) {
            Some(one) => (Some(one), None),
            None => (touching(apart[0]), touching(apart[1])),
        },
    };
    match (first, second) {
        (None, None) => TangentCircles::None,
        (Some(one), None) | (None, Some(one)) => TangentCircles::One(one),
        (Some(one), Some(other)) => TangentCircles::Two(one, other),
    }
}

/// Whether it is a circle and touches all three.
fn touches_all(carriers: &[Carrier; 3], circle: &DirectedCircle) -> bool {
    let size = circle.signed_radius.abs();
    // the centre of a nearly straight one lies far away
    let allowed = tolerance::SAME_POINT + 1e-14 * size;
    size > tolerance::SAME_POINT
        && size.is_finite()
        && circle.centre.is_finite()
        && worst_misfit(carriers, circle) <= allowed
}

fn worst_misfit(carriers: &[Carrier; 3], circle: &DirectedCircle) -> f64 {
    let misfits = carriers.iter().map(|carrier| carrier.misfit(circle).abs());
    misfits.fold(0.0, f64::max)
}

/// All circles that touch the three carriers, on whichever side: up to eight.
///
/// # Accuracy
/// As [`tangent_to_three`].
///
/// # Example
/// ```
/// use kerfwise::geometry::Circle;
/// use kerfwise::geometry::Line;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Segment;
/// use kerfwise::geometry::construct::Carrier;
/// use kerfwise::geometry::construct::Touching;
/// use kerfwise::geometry::construct::touching_three;
///
/// // the sides of a 3-4-5 triangle: its inscribed circle has the radius 1
/// let corners = [(0.0, 0.0), (3.0, 0.0), (0.0, 4.0)].map(Point::from);
/// let side = |from: usize, to: usize| Carrier::of(&Segment::line(corners[from], corners[to])).unwrap();
/// let Touching::Circles(circles) = touching_three(&[side(0, 1), side(1, 2), side(2, 0)]) else {
///     panic!("a triangle has an inscribed circle and three others")
/// };
/// assert_eq!(circles.len(), 4);
/// assert!(circles.contains(&Circle::new(Point::new(1.0, 1.0), 1.0)));
/// ```
pub fn touching_three(carriers: &[Carrier; 3]) -> Touching {
    let [first, second, third] = *carriers;
    let ways = [
        [first, second, third],
        [first, second.reversed(), third],
        [first, second, third.reversed()],
        [first, second.reversed(), third.reversed()],
    ];
    Touching::gather(ways.iter().map(tangent_to_three))
}

enum Answer {
    None,
    Endless,
    Roots(Option<DirectedCircle>, Option<DirectedCircle>),
    /// Two that are nearly one: the one between, which may not quite touch, and the two.
    Close(Option<DirectedCircle>, [Option<DirectedCircle>; 2]),
}

/// The three linear equations in Q, x, y and ρ, with the constant last, in lengths of about 1 about the
/// middle of the carriers.
struct System {
    rows: [[f64; 5]; 3],
    origin: Point,
    scale: f64,
}

impl System {
    fn new(carriers: &[Carrier; 3]) -> Self {
        let place = |carrier: &Carrier| match carrier {
            Carrier::Line(line) => line.through,
            Carrier::Circle(circle) => circle.centre,
        };
        let origin = middle(carriers, place);
        let reach = |carrier: &Carrier| match carrier {
            Carrier::Line(line) => line.distance_to(origin).abs(),
            Carrier::Circle(circle) => {
                number::length(circle.centre - origin).max(circle.signed_radius.abs())
            }
        };
        let size = carriers.iter().map(reach).fold(0.0, f64::max);
        let scale = if size > 0.0 { size } else { 1.0 };
        let rows = carriers.map(|carrier| equation(&carrier, origin, scale));
        Self {
            rows,
            origin,
            scale,
        }
    }

    /// Eliminates, then puts the line of answers into Q = x² + y² − ρ².
    fn solve(&self) -> Answer {
        let mut rows = self.rows;
        let mut columns = [0, 1, 2, 3];
        for step in 0..3 {
            let (pivot_row, pivot_column, size) = largest_entry(&rows, &columns, step);
            if size <= tolerance::DEPENDENT {
                let rest = rows[step..].iter().map(|row| row[4].abs());
                let left_over = rest.fold(0.0, f64::max);
                return if left_over > tolerance::DEPENDENT {
                    Answer::None
                } else {
                    Answer::Endless
                };
            }
            rows.swap(step, pivot_row);
            columns.swap(step, pivot_column);
            eliminate(&mut rows, step, columns[step]);
        }
        let free = columns[3];
        // unknown = constant + λ · slope
        let (mut constant, mut slope) = ([0.0; 4], [0.0; 4]);
        slope[free] = 1.0;
        for (row, &column) in rows.iter().zip(&columns) {
            constant[column] = -row[4] / row[column];
            slope[column] = -row[free] / row[column];
        }
        let form = |a: &[f64; 4], b: &[f64; 4]| a[1] * b[1] + a[2] * b[2] - a[3] * b[3];
        let roots = quadratic_roots(
            form(&slope, &slope),
            2.0 * form(&constant, &slope) - slope[0],
            form(&constant, &constant) - constant[0],
        );
        let circle = |root: f64| {
            let at = |index: usize| self.scale * (constant[index] + root * slope[index]);
            DirectedCircle::new(self.origin + Vec2::new(at(1), at(2)), at(3))
        };
        match roots {
            Roots::Any => Answer::Endless,
            Roots::Of(first, second) => Answer::Roots(first.map(circle), second.map(circle)),
            Roots::Close(middle, apart) => {
                Answer::Close(middle.map(circle), apart.map(|root| root.map(circle)))
            }
        }
    }
}

fn middle(carriers: &[Carrier; 3], place: impl Fn(&Carrier) -> Point) -> Point {
    let sum = carriers
        .iter()
        .fold(Vec2::ZERO, |sum, carrier| sum + place(carrier).to_vec2());
    (sum / 3.0).to_point()
}

/// Coefficients of Q, x, y, ρ and the constant, the largest of the four being 1.
fn equation(carrier: &Carrier, origin: Point, scale: f64) -> [f64; 5] {
    let row = match carrier {
        Carrier::Line(line) => {
            let normal = number::left_normal(line.direction);
            let height = line.distance_to(origin) / scale;
            [0.0, normal.x, normal.y, -1.0, height]
        }
        Carrier::Circle(circle) => {
            let centre = (circle.centre - origin) / scale;
            let radius = circle.signed_radius / scale;
            let power = centre.dot(centre) - radius * radius;
            [1.0, -2.0 * centre.x, -2.0 * centre.y, 2.0 * radius, power]
        }
    };
    let size = row[..4]
        .iter()
        .fold(0.0, |size: f64, value| size.max(value.abs()));
    row.map(|value| value / size)
}

fn largest_entry(rows: &[[f64; 5]; 3], columns: &[usize; 4], step: usize) -> (usize, usize, f64) {
    let mut best = (step, step, 0.0);
    for (row, values) in rows.iter().enumerate().skip(step) {
        for (place, &column) in columns.iter().enumerate().skip(step) {
            if values[column].abs() > best.2 {
                best = (row, place, values[column].abs());
            }
        }
    }
    best
}

/// Clears the column from all rows but the one at `step`.
fn eliminate(rows: &mut [[f64; 5]; 3], step: usize, column: usize) {
    let pivot = rows[step];
    for (index, row) in rows.iter_mut().enumerate() {
        if index == step {
            continue;
        }
        let factor = row[column] / pivot[column];
        for (value, from) in row.iter_mut().zip(pivot) {
            *value -= factor * from;
        }
        row[column] = 0.0;
    }
}

enum Roots {
    Any,
    Of(Option<f64>, Option<f64>),
    /// The one between two that rounding may have parted or joined, and the two, if there are.
    Close(Option<f64>, [Option<f64>; 2]),
}

/// Roots of a x² + b x + c in numbers of about 1, without the loss of digits of the plain formula.
fn quadratic_roots(a: f64, b: f64, c: f64) -> Roots {
    let size = a.abs().max(b.abs()).max(c.abs());
    if size <= tolerance::DEPENDENT {
        return Roots::Any;
    }
    let discriminant = b * b - 4.0 * a * c;
    let rounding = tolerance::DEPENDENT * (b * b + (4.0 * a * c).abs());
    if discriminant < -rounding {
        return Roots::Of(None, None);
    }
    let apart = |root: f64| {
        let sum = -f64::midpoint(b, root.copysign(b));
        let large = (a.abs() > tolerance::DEPENDENT * size).then(|| sum / a);
        let small = (root > 0.0 && sum != 0.0).then(|| c / sum);
        [large, small]
    };
    let [first, second] = apart(discriminant.max(0.0).sqrt());
    if discriminant <= rounding {
        let [middle, _] = apart(0.0);
        Roots::Close(middle, [first, second])
    } else {
        Roots::Of(first, second)
    }
}

/// Newton's method on the misfits, as long as it helps.
fn polish(carriers: &[Carrier; 3], start: DirectedCircle) -> DirectedCircle {
    let mut best = start;
    let mut misfit = worst_misfit(carriers, &best);
    for _ in 0..4 {
        let Some(next) = newton_step(carriers, &best) else {
            break;
        };
        let reached = worst_misfit(carriers, &next);
        // also ends the loop on numbers that are none
        if reached.is_nan() || reached >= misfit {
            break;
        }
        (best, misfit) = (next, reached);
    }
    best
}

fn newton_step(carriers: &[Carrier; 3], circle: &DirectedCircle) -> Option<DirectedCircle> {
    let rows = carriers.map(|carrier| {
        let (gradient, by_radius) = match carrier {
            Carrier::Line(line) => (number::left_normal(line.direction), -1.0),
            Carrier::Circle(own) => (
                number::normalized(circle.centre - own.centre).unwrap_or(Vec2::ZERO),
                (own.signed_radius - circle.signed_radius).signum(),
            ),
        };
        ([gradient.x, gradient.y, by_radius], -carrier.misfit(circle))
    });
    let [(a, ra), (b, rb), (c, rc)] = rows;
    let determinant = |p: [f64; 3], q: [f64; 3], r: [f64; 3]| {
        p[0] * (q[1] * r[2] - q[2] * r[1]) - p[1] * (q[0] * r[2] - q[2] * r[0])
            + p[2] * (q[0] * r[1] - q[1] * r[0])
    };
    let whole = determinant(a, b, c);
    if whole.abs() <= tolerance::DEPENDENT {
        return None;
    }
    let with = |index: usize| {
        let put = |mut row: [f64; 3], value: f64| {
            row[index] = value;
            row
        };
        determinant(put(a, ra), put(b, rb), put(c, rc)) / whole
    };
    let (dx, dy, dr) = (with(0), with(1), with(2));
    Some(DirectedCircle::new(
        circle.centre + Vec2::new(dx, dy),
        circle.signed_radius + dr,
    ))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::directed::DirectedLine;
    use super::*;

    fn circle(x: f64, y: f64, signed_radius: f64) -> Carrier {
        Carrier::Circle(DirectedCircle::new(Point::new(x, y), signed_radius))
    }

    fn line(x: f64, y: f64, angle: f64) -> Carrier {
        Carrier::Line(DirectedLine {
            through: Point::new(x, y),
            direction: number::unit(angle),
        })
    }

    /// Rosetta Code, "Problem of Apollonius": circles (0, 0, 1), (4, 0, 1), (2, 4, 2).
    #[test]
    fn round_and_between_three_circles() {
        let three = [
            circle(0.0, 0.0, 1.0),
            circle(4.0, 0.0, 1.0),
            circle(2.0, 4.0, 2.0),
        ];
        let TangentCircles::Two(one, other) = tangent_to_three(&three) else {
            panic!("two circles");
        };
        let (round, between) = if one.signed_radius > 0.0 {
            (one, other)
        } else {
            (other, one)
        };
        for (found, x, y, radius) in [
            (round, 2.0, 2.1, 3.9),
            (between, 2.0, 5.0 / 6.0, -7.0 / 6.0),
        ] {
            assert!(
                number::length(found.centre - Point::new(x, y)) < 1e-14,
                "{found:?}"
            );
            assert!((found.signed_radius - radius).abs() < 1e-14, "{found:?}");
        }
        let Touching::Circles(all) = touching_three(&three) else {
            panic!("eight circles");
        };
        assert_eq!(all.len(), 8, "{all:?}");
    }

    #[test]
    fn cases_without_an_answer_or_with_too_many() {
        let inside = [
            circle(0.0, 0.0, 9.0),
            circle(0.0, 0.0, 5.0),
            circle(0.0, 0.0, 1.0),
        ];
        assert_eq!(
            tangent_to_three(&inside),
            TangentCircles::None,
            "about one centre"
        );
        let same = [
            circle(0.0, 0.0, 9.0),
            circle(0.0, 0.0, 9.0),
            circle(5.0, 0.0, 1.0),
        ];
        assert_eq!(
            tangent_to_three(&same),
            TangentCircles::Endless,
            "one twice"
        );
        let parallel = [
            line(0.0, 0.0, 0.0),
            line(0.0, 5.0, 0.0),
            line(0.0, 9.0, 0.0),
        ];
        assert_eq!(
            tangent_to_three(&parallel),
            TangentCircles::None,
            "parallels"
        );
        let through_one_point = [
            line(0.0, 0.0, 0.0),
            line(0.0, 0.0, 1.0),
            line(0.0, 0.0, 2.0),
        ];
        assert_eq!(
            tangent_to_three(&through_one_point),
            TangentCircles::None,
            "a point"
        );
    }

    #[test]
    fn a_strip_and_its_end() {
        let strip = [
            line(0.0, 0.0, 0.0),
            line(50.0, 0.0, number::QUARTER_TURN),
            line(0.0, 20.0, number::HALF_TURN),
        ];
        let TangentCircles::One(end) = tangent_to_three(&strip) else {
            panic!("one circle");
        };
        assert!(
            number::length(end.centre - Point::new(40.0, 10.0)) < 1e-12,
            "{end:?}"
        );
        assert!((end.signed_radius - 10.0).abs() < 1e-12, "{end:?}");
    }

    /// In a strip, about a circle that is a hair wider than it: two circles, a hair to either side. Nearly
    /// one, which would miss it by that hair; and none where the hair is across the strip.
    #[test]
    fn a_circle_that_fills_a_strip() {
        let sides = [
            line(6980.0, -7000.0, -number::QUARTER_TURN),
            line(7020.0, -7010.0, number::QUARTER_TURN),
        ];
        let with = |x, radius| tangent_to_three(&[circle(x, -7000.0, radius), sides[0], sides[1]]);
        let TangentCircles::Two(one, other) = with(7000.0, 20.000_001) else {
            panic!("two circles: {:?}", with(7000.0, 20.000_001));
        };
        for found in [one, other] {
            let away = (found.centre.y + 7000.0).abs();
            assert!((away - 1e-6).abs() < 1e-9, "{found:?}");
            assert!((found.signed_radius - 20.0).abs() < 1e-9, "{found:?}");
        }
        assert_eq!(
            with(7_000.000_001, 20.0),
            TangentCircles::None,
            "off across"
        );
    }

    fn carrier() -> impl Strategy<Value = Carrier> {
        let place = || {
            prop_oneof![
                -50.0..50.0_f64,
                (-3..4_i32).prop_map(|n| f64::from(n) * 10.0)
            ]
        };
        let hair = prop_oneof![Just(0.0), Just(1e-12), Just(-1e-9), Just(1e-6)];
        prop_oneof![
            (place(), place(), place(), hair).prop_map(|(x, y, radius, hair)| circle(
                7e3 + x,
                y - 7e3,
                radius + hair
            )),
            (place(), place(), 0.0..7.0_f64).prop_map(|(x, y, angle)| line(
                7e3 + x,
                y - 7e3,
                angle
            )),
            (place(), place(), 0..4_i32).prop_map(|(x, y, n)| {
                line(7e3 + x, y - 7e3, f64::from(n) * number::QUARTER_TURN)
            }),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(4000) })]

        #[test]
        fn every_answer_touches_all_three(a in carrier(), b in carrier(), c in carrier()) {
            let three = [a, b, c];
            for circle in tangent_to_three(&three).circles() {
                for carrier in &three {
                    let misfit = carrier.misfit(&circle).abs();
                    // a nearly straight answer has its centre far away
                    let allowed = tolerance::SAME_POINT + 1e-14 * circle.signed_radius.abs();
                    prop_assert!(misfit <= allowed, "{:e} for {:?} to {:?}", misfit, circle, carrier);
                }
            }
        }

        /// Three carriers made to touch a known circle have it among their answers.
        #[test]
        fn a_known_circle_is_found(
            angles in [0.0..6.2_f64, 0.0..6.2_f64, 0.0..6.2_f64],
            radii in [-40.0..40.0_f64, -40.0..40.0_f64, 1e6..1e7_f64],
        ) {
            let known = DirectedCircle::new(Point::new(7000.0, -7000.0), 25.0);
            let [a, b, c] = angles;
            let apart = |p: f64, q: f64| number::sin((p - q) / 2.0).abs() > 0.05;
            prop_assume!(apart(a, b) && apart(b, c) && apart(a, c));
            let mut sides = [a, b, c].into_iter().zip(radii).map(|(angle, radius)| {
                let outward = number::unit(angle);
                let touch = known.centre + outward * 25.0;
                if radius > 1e5 {
                    Carrier::Line(DirectedLine {
                        through: touch,
                        direction: number::left_normal(outward),
                    })
                } else {
                    Carrier::Circle(DirectedCircle::new(touch - outward * radius, radius))
                }
            });
            let (Some(a), Some(b), Some(c)) = (sides.next(), sides.next(), sides.next()) else {
                unreachable!("three sides");
            };
            let answer = tangent_to_three(&[a, b, c]);
            let nearest = answer
                .circles()
                .map(|found| {
                    number::length(found.centre - known.centre)
                        + (found.signed_radius - known.signed_radius).abs()
                })
                .fold(f64::INFINITY, f64::min);
            prop_assert!(nearest < 1e-4, "{} off in {:?}", nearest, answer);
        }
    }
}
