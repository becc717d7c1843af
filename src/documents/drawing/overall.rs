//! Overall dimensions: two extension lines, a line between two arrows, the number over it.

use super::symbols;
use super::symbols::THIN;
use super::view::View;
use crate::documents::features;
use crate::documents::lettering;
use crate::formats::font;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Distance of the line from the part.
pub(super) const AWAY: f64 = 10.0;
/// Font size.
const SIZE: f64 = 3.2;

/// Draws the overall height at the right and the overall width at the top; the numbers keep clear of
/// the leaders that run through. `None` when a number has no free place.
pub(super) fn draw(
    picture: &mut Picture,
    view: &View<'_>,
    unit: LengthUnit,
    leaders: &[(Point, Point)],
) -> Option<()> {
    let bounds = view.bounds;
    let outline = view.motion.contour(view.part.region.outer());
    let extreme = |direction: Vec2| farthest(outline.segments(), direction);
    let (x, y) = (view.envelope.x1 + AWAY, view.envelope.y1 + AWAY);
    let height = Dimension {
        from: extreme(Vec2::new(0.0, -1.0)),
        to: extreme(Vec2::new(0.0, 1.0)),
        line: (Point::new(x, bounds.y0), Point::new(x, bounds.y1)),
        words: features::length(bounds.height() / view.scale, unit),
    };
    let width = Dimension {
        from: extreme(Vec2::new(-1.0, 0.0)),
        to: extreme(Vec2::new(1.0, 0.0)),
        line: (Point::new(bounds.x0, y), Point::new(bounds.x1, y)),
        words: features::length(bounds.width() / view.scale, unit),
    };
    height.draw(picture, leaders)?;
    width.draw(picture, leaders)
}

/// The point of the outline farthest in a direction along an axis.
fn farthest<'a>(segments: impl Iterator<Item = &'a Segment>, direction: Vec2) -> Point {
    let mut best: Option<Point> = None;
    let reach = |point: Point| point.to_vec2().dot(direction);
    for segment in segments {
        let mut candidates = vec![segment.start(), segment.end()];
        if let Segment::Arc(arc) = segment {
            let extreme = arc.centre() + direction * arc.radius();
            if arc.fraction_towards(extreme).is_some() {
                candidates.push(extreme);
            }
        }
        for point in candidates {
            if best.is_none_or(|best| reach(point) > reach(best)) {
                best = Some(point);
            }
        }
    }
    best.unwrap_or(Point::ORIGIN)
}

struct Dimension {
    from: Point,
    to: Point,
    line: (Point, Point),
    words: String,
}

impl Dimension {
    fn draw(&self, picture: &mut Picture, leaders: &[(Point, Point)]) -> Option<()> {
        let (start, end) = self.line;
        let along = number::normalized(end - start).unwrap_or(Vec2::new(1.0, 0.0));
        for (foot, tip) in [(self.from, start), (self.to, end)] {
            let outward = number::normalized(tip - foot).unwrap_or(Vec2::ZERO);
            picture.line(Layer::Dimensions, foot + outward, tip + outward * 1.5, THIN);
        }
        picture.line(Layer::Dimensions, start, end, THIN);
        if number::length(end - start) > 6.0 {
            symbols::arrow(picture, start, -along);
            symbols::arrow(picture, end, along);
        } else {
            symbols::oblique(picture, start);
            symbols::oblique(picture, end);
        }
        let text = |at: Point| Text {
            layer: Layer::Words,
            at: at + number::left_normal(along) * 1.0,
            size: SIZE,
            anchor: Anchor::Middle,
            angle: number::direction(along),
            content: self.words.clone(),
        };
        let width = font::text_width(&self.words, SIZE);
        let length = number::length(end - start);
        // the number stays between the arrows if it can
        let margin = if length > width + 8.0 {
            (width / 2.0 + 3.0) / length
        } else {
            0.5
        };
        let (low, high) = (start + (end - start) * margin, end + (start - end) * margin);
        let room_at = |at: Point| -> Rect { lettering::room(&text(at)) };
        let place = symbols::free_place(low, high, leaders, room_at)?;
        picture.text(text(place));
        Some(())
    }
}
