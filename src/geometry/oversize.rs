//! Whether something goes on a sheet, lying along it or across it.

use super::tolerance;

/// Something that goes on a sheet neither way round, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oversize {
    /// Its longer and its shorter side.
    pub size: [f64; 2],
    /// Those of the sheet.
    pub sheet: [f64; 2],
}

impl Oversize {
    /// Whether something of this size over all goes on a sheet of this size: `None` if it does, as it
    /// lies or turned by a quarter. Nothing is left beside it.
    ///
    /// # Example
    /// ```
    /// use kerfwise::geometry::oversize::Oversize;
    ///
    /// assert_eq!(Oversize::of([300.0, 800.0], [800.0, 340.0]), None);
    /// assert!(Oversize::of([819.0, 362.0], [800.0, 340.0]).is_some());
    /// ```
    pub fn of(size: [f64; 2], sheet: [f64; 2]) -> Option<Self> {
        let (size, sheet) = (ordered(size), ordered(sheet));
        let goes_on = size
            .iter()
            .zip(&sheet)
            .all(|(side, room)| *side <= room + tolerance::SAME_DIMENSION);
        (!goes_on).then_some(Self { size, sheet })
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

/// The longer first.
const fn ordered([a, b]: [f64; 2]) -> [f64; 2] {
    if a >= b { [a, b] } else { [b, a] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_exactly_as_large_goes_on() {
        // three times 0.1 is more than 0.3 in binary
        let size = [0.1 + 0.2, 1.0];
        assert_eq!(Oversize::of(size, [1.0, 0.3]), None, "as large");
    }

    #[test]
    fn the_worse_side_is_told() {
        let over = Oversize::of([362.0, 819.0], [800.0, 340.0]).expect("both are over");
        assert_eq!(over.worse(), (362.0, 340.0), "22 more, against 19");
        let over = Oversize::of([300.0, 900.0], [340.0, 800.0]).expect("the long one is over");
        assert_eq!(over.worse(), (900.0, 800.0), "100 more");
    }
}
