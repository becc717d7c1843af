//! What new words must keep clear of: everything drawn already.

use crate::documents::features::of_count;
use crate::documents::lettering;
use crate::formats::drawn;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Shape;

/// Straight lines (arcs as chords) and the rooms of words.
#[derive(Clone, Debug, Default)]
pub(crate) struct Obstacles {
    /// Lines, in millimetres of paper.
    pub(crate) lines: Vec<(Point, Point)>,
    /// Rooms of words.
    pub(crate) rooms: Vec<Rect>,
}

/// Longest chord that stands for an arc: an arc of 5 mm radius leaves it by 0.1 mm.
const CHORD: f64 = 2.0;

impl Obstacles {
    /// Everything in a picture, but for the word that lies under a draft.
    pub(crate) fn of(picture: &Picture) -> Self {
        let mut found = Self::default();
        for item in &picture.items {
            match item {
                Item::Stroke(stroke) => {
                    if stroke.layer == Layer::Guides && stroke.pen.width > 1.0 {
                        continue;
                    }
                    found.add_shape(&stroke.shape);
                }
                Item::Fill(fill) => fill.contour.segments().for_each(|one| found.add(one)),
                Item::Text(text) => found.rooms.push(lettering::room(text)),
            }
        }
        found
    }

    fn add_shape(&mut self, shape: &Shape) {
        match shape {
            Shape::Contour(contour) => contour.segments().for_each(|one| self.add(one)),
            Shape::Path(path) => path.segments().for_each(|one| self.add(one)),
            Shape::Circle { centre, radius } => {
                self.add(&crate::geometry::Arc::circle(*centre, *radius).into());
            }
            Shape::Spot(spot) => self
                .lines
                .extend(drawn::spot_cross(*spot).map(|line| (line.start, line.end))),
        }
    }

    /// Adds a segment, an arc as chords.
    fn add(&mut self, segment: &Segment) {
        let Segment::Arc(arc) = segment else {
            self.lines.push((segment.start(), segment.end()));
            return;
        };
        let mut before = arc.start();
        let count = (8..=64_usize)
            .find(|&count| arc.length() / of_count(count) <= CHORD)
            .unwrap_or(64);
        for step in 1..=count {
            let point = arc.point_at(of_count(step) / of_count(count));
            self.lines.push((before, point));
            before = point;
        }
    }

    /// Only those that reach into a room.
    pub(crate) fn within(&self, room: Rect) -> Self {
        Self {
            lines: self
                .lines
                .iter()
                .copied()
                .filter(|&(from, to)| lettering::line_meets(from, to, room))
                .collect(),
            rooms: self
                .rooms
                .iter()
                .copied()
                .filter(|&other| lettering::overlap(other, room))
                .collect(),
        }
    }

    /// Whether words may take this room.
    pub(crate) fn is_free(&self, room: Rect) -> bool {
        !self
            .rooms
            .iter()
            .any(|&other| lettering::overlap(room, other))
            && !self
                .lines
                .iter()
                .any(|&(from, to)| lettering::line_meets(from, to, room))
    }

    /// How many lines a line crosses; `None` when it runs through words.
    pub(crate) fn crossings(&self, from: Point, to: Point) -> Option<usize> {
        const CLEAR: f64 = 0.4;
        let through_words = self
            .rooms
            .iter()
            .any(|room| lettering::line_meets(from, to, room.inflate(CLEAR, CLEAR)));
        let crossed = self
            .lines
            .iter()
            .filter(|&&line| touch((from, to), line))
            .count();
        (!through_words).then_some(crossed)
    }
}

impl Obstacles {
    /// Whether a leader keeps so near to another line that the eye takes them for one.
    pub(crate) fn hugs(&self, from: Point, to: Point) -> bool {
        const NEAR: f64 = 0.7;
        let samples = [0.5, 1.0].map(|t| from + (to - from) * t);
        self.lines.iter().any(|&(a, b)| {
            let line = crate::geometry::Line::new(a, b);
            samples
                .iter()
                .all(|&sample| number::length(line.nearest_point(sample) - sample) < NEAR)
        })
    }
}

/// Whether two straight lines cross, touch, or lie on one another's extension.
fn touch((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |from: Point, to: Point, point: Point| (to - from).cross(point - from);
    let bounds = Rect::from_points(a, b).intersect(Rect::from_points(c, d));
    side(a, b, c) * side(a, b, d) <= 0.0
        && side(c, d, a) * side(c, d, b) <= 0.0
        && bounds.x0 <= bounds.x1
        && bounds.y0 <= bounds.y1
}

/// Whether two straight lines cross.
pub(super) fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |from: Point, to: Point, point: Point| (to - from).cross(point - from);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// The point a little way along a line, so that a line that starts on an edge does not count as
/// crossing it.
pub(super) fn just_off(from: Point, to: Point) -> Point {
    const OFF: f64 = 0.4;
    number::normalized(to - from).map_or(from, |direction| from + direction * OFF)
}
