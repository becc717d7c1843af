//! Whether something goes on a sheet, however it is turned.

use super::Segment;
use super::Vec2;
use super::number;
use super::tolerance;

/// Something that goes on a sheet no way round, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oversize {
    /// Its longer and its shorter side as it is drawn.
    pub size: [f64; 2],
    /// Those of the sheet.
    pub sheet: [f64; 2],
}

impl Oversize {
    /// Whether what these lines bound goes on a sheet of this size: `None` if it does, as it is drawn or
    /// turned by a whole number of degrees, and if there are none. Nothing is left beside it.
    ///
    /// # Accuracy
    /// What goes on only between two whole degrees is refused; half a degree takes 9 mm to the side at the end of
    /// a metre.
    ///
    /// # Example
    /// ```
    /// use kerfwise::geometry::Segment;
    /// use kerfwise::geometry::oversize::Oversize;
    ///
    /// let aslant = Segment::line((0.0, 0.0).into(), (600.0, 600.0).into());
    /// assert_eq!(Oversize::of(&[&aslant], [850.0, 10.0]), None);
    /// assert!(Oversize::of(&[&aslant], [840.0, 10.0]).is_some());
    /// ```
    pub fn of(lines: &[&Segment], sheet: [f64; 2]) -> Option<Self> {
        lines.first()?;
        let turned = |degrees: u8| {
            let along = number::unit(number::FULL_TURN * f64::from(degrees) / 360.0);
            let across = number::left_normal(along);
            ordered([along, across].map(|direction| extent(lines, direction)))
        };
        let (size, sheet) = (turned(0), ordered(sheet));
        let goes_on = |size: [f64; 2]| {
            let mut sides = size.iter().zip(&sheet);
            sides.all(|(side, room)| *side <= room + tolerance::SAME_DIMENSION)
        };
        // a sheet holds nothing longer than its diagonal
        let may_go_on =
            size[0] <= number::length(Vec2::new(sheet[0], sheet[1])) + tolerance::SAME_DIMENSION;
        let found = goes_on(size) || may_go_on && (1..90).any(|degrees| goes_on(turned(degrees)));
        (!found).then_some(Self { size, sheet })
    }

    /// The side that is over by more, and what there is for it.
    pub const fn worse(&self) -> (f64, f64) {
        let ([long, short], [sheet_long, sheet_short]) = (self.size, self.sheet);
        if long - sheet_long >= short - sheet_short {
            (long, sheet_long)
        } else {
            (short, sheet_short)
        }
    }
}

/// How far lines reach along a direction, from the first of them to the last.
fn extent(lines: &[&Segment], direction: Vec2) -> f64 {
    let reach = |line: &Segment, direction| line.farthest(direction).to_vec2().dot(direction);
    let (mut ahead, mut behind) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for line in lines {
        ahead = ahead.max(reach(line, direction));
        behind = behind.max(reach(line, -direction));
    }
    ahead + behind
}

/// The longer first.
const fn ordered([a, b]: [f64; 2]) -> [f64; 2] {
    if a >= b { [a, b] } else { [b, a] }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;

    /// A rectangle of this size on such a sheet.
    fn over([long, high]: [f64; 2], sheet: [f64; 2]) -> Option<Oversize> {
        let lower = Segment::line(Point::ORIGIN, Point::new(long, 0.0));
        let upper = Segment::line(Point::new(long, high), Point::new(0.0, high));
        Oversize::of(&[&lower, &upper], sheet)
    }

    #[test]
    fn what_is_exactly_as_large_goes_on() {
        // three times 0.1 is more than 0.3 in binary
        assert_eq!(over([0.1 + 0.2, 1.0], [1.0, 0.3]), None, "as large");
        assert_eq!(over([300.0, 800.0], [800.0, 340.0]), None, "upright");
    }

    #[test]
    fn the_worse_side_is_told() {
        let worse = |size, sheet| over(size, sheet).expect("one is over").worse();
        assert_eq!(
            worse([362.0, 819.0], [800.0, 340.0]),
            (362.0, 340.0),
            "22 more, against 19"
        );
        assert_eq!(
            worse([300.0, 900.0], [340.0, 800.0]),
            (900.0, 800.0),
            "100 more"
        );
    }

    /// A rectangle p × q goes into one of a × b, p being longer than a, if q ≤ b and
    /// ((a + b)/(p + q))² + ((a − b)/(p − q))² ≥ 2 (Carver, American Mathematical Monthly 64 (1957)
    /// 114–116, from memory; here also tried numerically at every two hundredth of a degree).
    #[test]
    fn a_long_strip_lies_along_the_diagonal() {
        let (a, b, p) = (800.0_f64, 600.0_f64, 950.0_f64);
        for (q, goes_on) in [(51.4, true), (52.6, false)] {
            let carver = ((a + b) / (p + q)).powi(2) + ((a - b) / (p - q)).powi(2);
            assert_eq!(carver >= 2.0, goes_on, "{q}: {carver}");
            assert_eq!(over([p, q], [a, b]).is_none(), goes_on, "{q}");
        }
        assert!(
            over([1001.0, 1.0], [a, b]).is_some(),
            "longer than the diagonal"
        );
    }
}
