//! The rational spline: a curve by control points, weights and knots.

use super::super::Point;
use super::super::Vec2;
use super::super::number;
use super::super::tolerance;
use super::FairCurveError;
use super::jet::Jet;
use super::spline::check_points;
use super::spline::to_index;
use super::spline::to_number;

/// Highest degree that is taken: files of drawings have 3, seldom 5.
const HIGHEST_DEGREE: usize = 15;

/// A homogeneous point: x·w, y·w, w.
type Homogeneous = [f64; 3];

/// A rational spline, kept as one rational Bézier curve for each span between different knots. Without
/// weights it is the usual B-spline.
///
/// A position is a span (counted from 0) and a fraction of it; the parameter is the position itself.
#[derive(Clone, Debug, PartialEq)]
pub struct RationalSpline {
    degree: usize,
    /// `degree + 1` control points for each span.
    control: Vec<Homogeneous>,
}

impl RationalSpline {
    /// The spline of this degree with these control points, weights (empty: all 1) and knots, over the
    /// range of the knots where it is defined: from the knot numbered `degree` to that numbered as the
    /// control points are many.
    ///
    /// # Accuracy
    /// Exact up to rounding.
    ///
    /// # Errors
    /// [`FairCurveError::NotUsable`] for numbers that are none, a degree outside 1 … 15, a weight that
    /// is not positive, a number of knots that is not control points + degree + 1, or knots that fall;
    /// [`FairCurveError::TooFewPoints`]; [`FairCurveError::NoSize`] where all knots or points are one.
    ///
    /// # Source
    /// Each span's Bézier points are the blossom (polar form) of its two knots: Ramshaw, "Blossoms are
    /// polar forms", Computer Aided Geometric Design 6 (1989), from memory; the recursion is de Boor's.
    pub fn new(
        degree: usize,
        points: &[Point],
        weights: &[f64],
        knots: &[f64],
    ) -> Result<Self, FairCurveError> {
        if degree == 0 || degree > HIGHEST_DEGREE {
            return Err(unusable("the degree", 0, to_number(degree)));
        }
        check_points(points, degree + 1)?;
        check_weights_and_knots(degree, points.len(), weights, knots)?;
        let lifted: Vec<Homogeneous> = points
            .iter()
            .enumerate()
            .map(|(index, point)| {
                let weight = weights.get(index).copied().unwrap_or(1.0);
                [point.x * weight, point.y * weight, weight]
            })
            .collect();
        let mut control = Vec::new();
        for span in degree..points.len() {
            let (Some(&from), Some(&to)) = (knots.get(span), knots.get(span + 1)) else {
                continue;
            };
            if to > from {
                for ends in 0..=degree {
                    let at = Knots { from, to, ends };
                    control.push(blossom(degree, span, &at, &lifted, knots));
                }
            }
        }
        let spline = Self { degree, control };
        spline.check_size()?;
        Ok(spline)
    }

    /// The rational Bézier curve of the degree of its points less one; no weights: all 1.
    ///
    /// # Errors
    /// As [`RationalSpline::new`].
    pub fn bezier(points: &[Point], weights: &[f64]) -> Result<Self, FairCurveError> {
        let degree = points.len().saturating_sub(1);
        let mut knots = vec![0.0; points.len()];
        knots.resize(2 * points.len(), 1.0);
        Self::new(degree, points, weights, &knots)
    }

    fn check_size(&self) -> Result<(), FairCurveError> {
        let place = |at: &Homogeneous| Point::new(at[0] / at[2], at[1] / at[2]);
        let first = self.control.first().map(place);
        let size = first.map_or(0.0, |first| {
            self.control
                .iter()
                .map(|at| number::length(place(at) - first))
                .fold(0.0, f64::max)
        });
        if size >= tolerance::SHORTEST_SEGMENT {
            return Ok(());
        }
        Err(FairCurveError::NoSize {
            what: "the spline",
            value: size,
            smallest: tolerance::SHORTEST_SEGMENT,
        })
    }

    /// Its degree.
    pub const fn degree(&self) -> usize {
        self.degree
    }

    /// How many spans it has.
    pub fn spans(&self) -> usize {
        self.control.len() / (self.degree + 1)
    }

    /// Whether it returns to its start without a corner.
    pub fn is_closed(&self) -> bool {
        let (start, end) = (self.jet(0.0), self.jet(to_number(self.spans())));
        number::length(end.point - start.point) <= tolerance::SAME_POINT
            && turn_between(&end, &start) <= tolerance::SMOOTH_JOINT
    }

    /// The same curve run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            degree: self.degree,
            control: self.control.iter().rev().copied().collect(),
        }
    }

    /// Its smooth runs: cut wherever two spans meet at a corner of more than
    /// [`tolerance::SMOOTH_JOINT`], or do not meet.
    pub fn smooth_runs(&self) -> Vec<Self> {
        let size = self.degree + 1;
        let mut runs = Vec::new();
        let mut run: Vec<Homogeneous> = Vec::new();
        let mut before: Option<Jet> = None;
        for span in self.control.chunks(size) {
            let start = jet_of(span, 0.0);
            let breaks = before.is_some_and(|end| {
                number::length(end.point - start.point) > tolerance::SAME_POINT
                    || turn_between(&end, &start) > tolerance::SMOOTH_JOINT
            });
            if breaks {
                runs.push(Self {
                    degree: self.degree,
                    control: std::mem::take(&mut run),
                });
            }
            run.extend_from_slice(span);
            before = Some(jet_of(span, 1.0));
        }
        runs.push(Self {
            degree: self.degree,
            control: run,
        });
        runs
    }

    pub(super) fn jet(&self, position: f64) -> Jet {
        let last = self.spans().saturating_sub(1);
        let span = to_index(position.max(0.0)).min(last);
        let start = span * (self.degree + 1);
        let control = self
            .control
            .get(start..=start + self.degree)
            .unwrap_or_default();
        jet_of(control, position - to_number(span))
    }
}

fn turn_between(end: &Jet, start: &Jet) -> f64 {
    match (end.direction(), start.direction()) {
        (Some(end), Some(start)) => number::turn(end, start).abs(),
        _ => 0.0,
    }
}

const fn unusable(what: &'static str, station: usize, value: f64) -> FairCurveError {
    FairCurveError::NotUsable {
        what,
        station,
        value,
    }
}

fn check_weights_and_knots(
    degree: usize,
    points: usize,
    weights: &[f64],
    knots: &[f64],
) -> Result<(), FairCurveError> {
    if !weights.is_empty() && weights.len() != points {
        return Err(unusable(
            "the number of weights",
            0,
            to_number(weights.len()),
        ));
    }
    for (index, &weight) in weights.iter().enumerate() {
        // beyond this range a weight says "on the point" or "not at all", and digits are lost
        if !(1e-9..=1e9).contains(&weight) {
            return Err(unusable("the weight", index, weight));
        }
    }
    if knots.len() != points + degree + 1 {
        return Err(unusable("the number of knots", 0, to_number(knots.len())));
    }
    let mut before = f64::NEG_INFINITY;
    for (index, &knot) in knots.iter().enumerate() {
        if !knot.is_finite() || knot < before {
            return Err(unusable("the knot", index, knot));
        }
        before = knot;
    }
    Ok(())
}

/// The two knots of a span, and how often the end is taken.
struct Knots {
    from: f64,
    to: f64,
    ends: usize,
}

/// The blossom of the span's polynomial at `ends` times its end and `degree − ends` times its start.
fn blossom(
    degree: usize,
    span: usize,
    &Knots { from, to, ends }: &Knots,
    control: &[Homogeneous],
    knots: &[f64],
) -> Homogeneous {
    let mut row: Vec<Homogeneous> = control
        .get(span - degree..=span)
        .unwrap_or_default()
        .to_vec();
    for level in 1..=degree {
        let at = if level <= ends { to } else { from };
        for index in (level..=degree).rev() {
            let low = knots.get(span - degree + index).copied().unwrap_or(from);
            let high = knots.get(span + 1 + index - level).copied().unwrap_or(to);
            let share = if high > low {
                (at - low) / (high - low)
            } else {
                0.0
            };
            if let (Some(&a), Some(&b)) = (row.get(index - 1), row.get(index))
                && let Some(here) = row.get_mut(index)
            {
                *here = mix(&a, &b, share);
            }
        }
    }
    row.last().copied().unwrap_or([0.0, 0.0, 1.0])
}

fn mix(a: &Homogeneous, b: &Homogeneous, share: f64) -> Homogeneous {
    let one = |i: usize| a[i] * (1.0 - share) + b[i] * share;
    [one(0), one(1), one(2)]
}

/// The curve and its derivatives by the fraction `t` of its span.
///
/// De Casteljau's rows give the homogeneous derivatives; those of the quotient follow by Leibniz' rule.
fn jet_of(control: &[Homogeneous], t: f64) -> Jet {
    let degree = control.len().saturating_sub(1);
    let mut rows: Vec<Vec<Homogeneous>> = Vec::with_capacity(4);
    let mut row = control.to_vec();
    // the last four rows of the triangle hold what the derivatives are made of
    while row.len() > 4 {
        row = narrowed(&row, t);
    }
    let mut factor: Vec<Homogeneous> = Vec::new();
    while !row.is_empty() {
        rows.push(row.clone());
        row = narrowed(&row, t);
    }
    rows.reverse();
    // rows[k] has k + 1 entries: its k-th difference times degree!/(degree − k)!
    let mut scale = 1.0;
    for order in 0..4_usize {
        let value = rows
            .get(order)
            .map_or([0.0; 3], |row| difference(row).map(|value| value * scale));
        factor.push(value);
        scale *= to_number(degree.saturating_sub(order));
    }
    quotient(&factor)
}

fn narrowed(row: &[Homogeneous], t: f64) -> Vec<Homogeneous> {
    row.windows(2)
        .filter_map(|pair| match pair {
            [a, b] => Some(mix(a, b, t)),
            _ => None,
        })
        .collect()
}

/// The difference of the highest order of a row.
fn difference(row: &[Homogeneous]) -> Homogeneous {
    let mut row = row.to_vec();
    while row.len() > 1 {
        row = row
            .windows(2)
            .filter_map(|pair| match pair {
                [a, b] => Some([b[0] - a[0], b[1] - a[1], b[2] - a[2]]),
                _ => None,
            })
            .collect();
    }
    row.first().copied().unwrap_or([0.0; 3])
}

/// Derivatives of (x, y) / w from those of all three.
fn quotient(of: &[Homogeneous]) -> Jet {
    let get = |order: usize| of.get(order).copied().unwrap_or([0.0; 3]);
    let (h0, h1, h2, h3) = (get(0), get(1), get(2), get(3));
    let plane = |h: Homogeneous| Vec2::new(h[0], h[1]);
    let w = h0[2];
    let c0 = plane(h0) / w;
    let c1 = (plane(h1) - c0 * h1[2]) / w;
    let c2 = (plane(h2) - c1 * (2.0 * h1[2]) - c0 * h2[2]) / w;
    let c3 = (plane(h3) - c2 * (3.0 * h1[2]) - c1 * (3.0 * h2[2]) - c0 * h3[2]) / w;
    Jet {
        point: c0.to_point(),
        first: c1,
        second: c2,
        third: c3,
    }
}

#[cfg(test)]
mod tests {
    use super::super::CubicBezier;
    use super::super::FairCurve;
    use super::super::fit;
    use super::*;

    #[test]
    fn a_quarter_circle_of_weight_half_root_two_is_one() {
        // the rational quadratic with weights 1, √½, 1 (any textbook on the subject)
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let points = [(50.0, 0.0), (50.0, 50.0), (0.0, 50.0)].map(Point::from);
        let quarter = RationalSpline::bezier(&points, &[1.0, half, 1.0]).expect("a curve");
        let curve = FairCurve::Rational(quarter);
        for step in 0..=20 {
            let t = f64::from(step) / 20.0;
            let off = number::length(curve.point_at(t).to_vec2()) - 50.0;
            assert!(off.abs() < 1e-13, "at {t}: off by {off}");
            let bend = curve.curvature_at(t) - 1.0 / 50.0;
            assert!(bend.abs() < 1e-14, "at {t}: curvature off by {bend}");
        }
        let fitted = fit(&curve, 0.01).expect("arcs");
        assert_eq!(fitted.segments.len(), 1, "one arc: {fitted:?}");
        assert!(fitted.deviation < 1e-9, "off by {}", fitted.deviation);
    }

    #[test]
    fn it_agrees_with_the_cubic_bezier_curve() {
        let points = [(0.0, 0.0), (10.0, 30.0), (50.0, -20.0), (60.0, 5.0)].map(Point::from);
        let ours = FairCurve::Rational(RationalSpline::bezier(&points, &[]).expect("a curve"));
        let other = FairCurve::Bezier(CubicBezier::new(points).expect("a curve"));
        for step in 0..=16 {
            let t = f64::from(step) / 16.0;
            for (a, b) in [
                (ours.point_at(t).to_vec2(), other.point_at(t).to_vec2()),
                (ours.derivative(t), other.derivative(t)),
                (ours.second_derivative(t), other.second_derivative(t)),
            ] {
                assert!(number::length(a - b) < 1e-11, "{a:?}, {b:?} at {t}");
            }
        }
    }

    #[test]
    fn spans_join_and_corners_part() {
        // scipy 1.17.1, BSpline(knots, points, 3): values at 0.5, 1.0 and 1.7
        let knots = [0.0, 0.0, 0.0, 0.0, 1.0, 2.0, 2.0, 2.0, 2.0];
        let points = [
            (0.0, 0.0),
            (10.0, 20.0),
            (30.0, 20.0),
            (40.0, 0.0),
            (60.0, 10.0),
        ]
        .map(Point::from);
        let spline = RationalSpline::new(3, &points, &[], &knots).expect("a spline");
        assert_eq!(spline.spans(), 2, "spans");
        assert_eq!(spline.smooth_runs().len(), 1, "it is smooth");
        let curve = FairCurve::Rational(spline);
        for (at, x, y) in [
            (0.5, 14.6875, 16.875),
            (1.0, 27.5, 15.0),
            (1.7, 45.5775, 5.725),
        ] {
            let point = curve.point_at(at);
            let off = number::length(point - Point::new(x, y));
            assert!(off < 1e-12, "{point:?} at {at}");
        }
        let sharp = [0.0, 0.0, 1.0, 2.0, 2.0];
        let corner = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)].map(Point::from);
        let bent = RationalSpline::new(1, &corner, &[], &sharp).expect("a spline");
        assert_eq!(bent.smooth_runs().len(), 2, "a corner parts it");
    }

    #[test]
    fn what_is_no_spline_is_refused() {
        let points = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)].map(Point::from);
        for (degree, weights, knots) in [
            (0, vec![], vec![0.0, 1.0, 2.0, 3.0]),
            (2, vec![], vec![0.0; 6]),
            (2, vec![], vec![0.0, 0.0, 0.0, 1.0, 1.0]),
            (2, vec![], vec![0.0, 0.0, 1.0, 0.5, 1.0, 1.0]),
            (2, vec![1.0, -1.0, 1.0], vec![0.0, 0.0, 0.0, 1.0, 1.0, 1.0]),
            (2, vec![1.0], vec![0.0, 0.0, 0.0, 1.0, 1.0, 1.0]),
            (2, vec![], vec![0.0, 0.0, 0.0, 1.0, 1.0, f64::NAN]),
            (3, vec![], vec![0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0]),
        ] {
            let made = RationalSpline::new(degree, &points, &weights, &knots);
            assert!(made.is_err(), "degree {degree}, {weights:?}, {knots:?}");
        }
    }
}
