//! Words on the pattern where nothing else stands: off every line, inside one sheet.

use std::collections::BTreeMap;

use super::frame::BLEED;
use super::grid::Grid;
use super::grid::Place;
use super::ink;
use super::ink::Ink;
use crate::formats::font;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Room kept between words and anything else, in millimetres.
const CLEAR: f64 = 0.9;

/// Distances from what is named at which words are tried, in millimetres.
const DISTANCES: [f64; 6] = [1.5, 3.5, 6.0, 9.5, 14.0, 20.0];

/// A box that stands on the pattern: middle, direction of its length, half its length and height.
#[derive(Clone, Copy, Debug)]
struct Box {
    middle: Point,
    along: Vec2,
    half: Vec2,
}

impl Box {
    fn corners(&self) -> [Point; 4] {
        let (x, y) = (
            self.along * self.half.x,
            number::left_normal(self.along) * self.half.y,
        );
        [
            self.middle - x - y,
            self.middle + x - y,
            self.middle + x + y,
            self.middle - x + y,
        ]
    }

    fn bounds(&self) -> Rect {
        let [a, b, c, d] = self.corners();
        Rect::from_points(a, b).union(Rect::from_points(c, d))
    }

    /// A chord in the box's own axes, from its middle.
    fn own(&self, point: Point) -> Point {
        let from = point - self.middle;
        Point::new(
            from.dot(self.along),
            from.dot(number::left_normal(self.along)),
        )
    }

    fn meets_line(&self, line: &Line) -> bool {
        let rect = Rect::new(-self.half.x, -self.half.y, self.half.x, self.half.y);
        ink::crosses(&Line::new(self.own(line.start), self.own(line.end)), &rect)
    }

    /// Whether the two share a place: no axis of either parts them.
    fn meets(&self, other: &Self) -> bool {
        !self.is_parted_from(other) && !other.is_parted_from(self)
    }

    fn is_parted_from(&self, other: &Self) -> bool {
        let own = other.corners().map(|corner| self.own(corner));
        own.iter().all(|p| p.x > self.half.x)
            || own.iter().all(|p| p.x < -self.half.x)
            || own.iter().all(|p| p.y > self.half.y)
            || own.iter().all(|p| p.y < -self.half.y)
    }
}

/// Places words, and remembers where.
pub(super) struct Labels<'a> {
    ink: &'a Ink,
    grid: &'a Grid,
    /// What stands on each sheet: words never reach over a joint, so only those of one sheet can meet.
    taken: BTreeMap<Place, Vec<Box>>,
    /// Words for which there was no room.
    pub(super) left_out: Vec<String>,
}

/// Where words may stand.
pub(super) enum Where {
    /// Near a point, level.
    Near(Point),
    /// Beside a line, along it: the point on it, its direction.
    Beside(Vec<(Point, Vec2)>),
    /// Anywhere in a rectangle, level: nearest its middle first.
    Within(Rect),
    /// Anywhere on a piece of material, level: its bounds, and the chords of its contours.
    Upon(Rect, Vec<Line>),
}

impl<'a> Labels<'a> {
    pub(super) const fn new(ink: &'a Ink, grid: &'a Grid) -> Self {
        Self {
            ink,
            grid,
            taken: BTreeMap::new(),
            left_out: Vec::new(),
        }
    }

    /// The printed sheet that a place lies on.
    pub(super) fn sheet_at(&self, point: Point) -> Option<Place> {
        self.grid.place_at(point)
    }

    /// Writes lines of words at the first free place; where there is none, they are noted as left out.
    pub(super) fn write(
        &mut self,
        picture: &mut Picture,
        lines: &[String],
        size: f64,
        place: &Where,
    ) {
        if !self.try_write(picture, lines, size, place) {
            self.left_out.push(lines.join(" "));
        }
    }

    /// Writes lines of words at the first free place, and says whether there was one.
    pub(super) fn try_write(
        &mut self,
        picture: &mut Picture,
        lines: &[String],
        size: f64,
        place: &Where,
    ) -> bool {
        let width = lines
            .iter()
            .map(|line| font::text_width(line, size))
            .fold(0.0, f64::max);
        let height = size * (LEADING * (ink::column_f64(lines.len()) - 1.0) + 1.0);
        let half = Vec2::new(width / 2.0 + CLEAR, height / 2.0 + CLEAR);
        let found = candidates(place, half)
            .into_iter()
            .find(|candidate| self.is_free(candidate) && is_upon(place, candidate.middle));
        let Some(found) = found else {
            return false;
        };
        if let Some(sheet) = self.grid.place_at(found.middle) {
            self.taken.entry(sheet).or_default().push(found);
        }
        set(picture, lines, size, &found);
        true
    }

    fn is_free(&self, candidate: &Box) -> bool {
        let bounds = candidate.bounds();
        let Some(place) = self.grid.place_at(candidate.middle) else {
            return false;
        };
        let cell = self.grid.rect(place).inflate(-BLEED - 0.5, -BLEED - 0.5);
        let inside = bounds.x0 >= cell.x0
            && bounds.x1 <= cell.x1
            && bounds.y0 >= cell.y0
            && bounds.y1 <= cell.y1;
        inside
            && !self
                .taken
                .get(&place)
                .is_some_and(|taken| taken.iter().any(|taken| taken.meets(candidate)))
            && !self
                .ink
                .near(&bounds)
                .any(|line| candidate.meets_line(line))
    }
}

/// Whether a place lies on the material asked for: a level line from it to the left crosses the contours
/// an odd number of times.
fn is_upon(place: &Where, point: Point) -> bool {
    let Where::Upon(_, chords) = place else {
        return true;
    };
    let crossed = |chord: &&Line| {
        let (from, to) = (chord.start - point, chord.end - point);
        (from.y > 0.0) != (to.y > 0.0) && (from.cross(to) > 0.0) == (from.y > to.y)
    };
    chords.iter().filter(crossed).count() % 2 == 1
}

/// Distance between lines of words, of their size.
const LEADING: f64 = 1.3;

/// Writes lines into their box.
fn set(picture: &mut Picture, lines: &[String], size: f64, place: &Box) {
    let down = number::left_normal(place.along) * -1.0;
    // the first base line lies under the middle of the first line by about a third of the size
    let top = place.middle - down * (place.half.y - CLEAR) + down * (size * 0.84);
    let mut at = top;
    for line in lines {
        picture.text(Text {
            layer: Layer::Words,
            at,
            size,
            anchor: Anchor::Middle,
            angle: number::direction(place.along),
            content: line.clone(),
        });
        at += down * (size * LEADING);
    }
}

fn candidates(place: &Where, half: Vec2) -> Vec<Box> {
    let level = |middle| Box {
        middle,
        along: Vec2::new(1.0, 0.0),
        half,
    };
    match place {
        Where::Near(point) => {
            let mut found = Vec::new();
            for distance in DISTANCES {
                for turn in 0..12 {
                    let out = number::unit(f64::from(turn) * number::FULL_TURN / 12.0 + 0.26);
                    let reach = Vec2::new(
                        out.x.signum() * half.x.min(half.x * out.x.abs() * 1.3),
                        out.y.signum() * half.y.min(half.y * out.y.abs() * 1.3),
                    );
                    found.push(level(*point + out * distance + reach));
                }
            }
            found
        }
        Where::Beside(places) => {
            let mut found = Vec::new();
            for &(point, along) in places {
                let readable = if along.x < -1e-9 || (along.x.abs() <= 1e-9 && along.y < 0.0) {
                    along * -1.0
                } else {
                    along
                };
                found.push(Box {
                    middle: point,
                    along: readable,
                    half,
                });
            }
            found
        }
        Where::Within(rect) | Where::Upon(rect, _) => {
            let mut middles = Vec::new();
            let steps = 14_u32;
            for column in 0..=steps {
                for row in 0..=steps {
                    let share = |index: u32| f64::from(index) / f64::from(steps);
                    middles.push(Point::new(
                        rect.x0 + share(column) * rect.width(),
                        rect.y0 + share(row) * rect.height(),
                    ));
                }
            }
            let centre = rect.center();
            middles.sort_by(|a, b| {
                let far = |p: &Point| number::length(*p - centre);
                far(a).total_cmp(&far(b))
            });
            middles.into_iter().map(level).collect()
        }
    }
}

/// Places beside a line on one side of it: `side` is +1 for its left, −1 for its right; words of this
/// size clear it.
pub(super) fn beside(
    points: impl IntoIterator<Item = (Point, Vec2)>,
    side: f64,
    size: f64,
) -> Where {
    let off = size / 2.0 + CLEAR + 0.7;
    let place = |(point, along): (Point, Vec2)| {
        let to = number::left_normal(along) * (side * off);
        (point + to, along)
    };
    Where::Beside(points.into_iter().map(place).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Contour;

    #[test]
    fn material_is_told_from_openings() {
        let square = |half: f64| {
            let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
            let points = corners.map(|(x, y)| Point::new(x, y));
            Contour::polygon(&points).unwrap()
        };
        let mut chords = Vec::new();
        for contour in [square(100.0), square(40.0)] {
            contour
                .segments()
                .for_each(|segment| ink::add(segment, &mut chords));
        }
        let upon = Where::Upon(Rect::new(-100.0, -100.0, 100.0, 100.0), chords);
        for (x, y, expected) in [
            (0.0, 0.0, false),
            (70.0, 0.0, true),
            (-70.0, 10.0, true),
            (0.0, 55.0, true),
            (130.0, 0.0, false),
            (-130.0, 0.0, false),
        ] {
            let found = is_upon(&upon, Point::new(x, y));
            assert_eq!(found, expected, "({x}, {y})");
        }
    }
}
