//! Signs of technical drawing: arrows, the origin, the datum letter, the word DRAFT.

use crate::documents::lettering;
use crate::formats::font;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Shape;
use crate::sheet::Text;

/// Pen of visible edges.
pub(crate) const WIDE: Pen = Pen::solid(0.5);
/// Pen of dimensions, leaders, extension lines and frames of tables.
pub(crate) const THIN: Pen = Pen::solid(0.18);
/// Length of an arrowhead in millimetres.
const ARROW: f64 = 2.2;
/// Half its width.
const HALF_ARROW: f64 = 0.38;

/// A filled arrowhead with its tip at `tip`, pointing along the unit vector `towards`.
pub(crate) fn arrow(picture: &mut Picture, tip: Point, towards: Vec2) {
    let back = tip - towards * ARROW;
    let side = number::left_normal(towards) * HALF_ARROW;
    if let Ok(head) = Contour::polygon(&[tip, back + side, back - side]) {
        picture.fill(Layer::Dimensions, head, Shade::Black);
    }
}

/// The short oblique stroke that stands for an arrowhead where there is no room for one.
pub(crate) fn oblique(picture: &mut Picture, at: Point) {
    let half = Vec2::new(0.9, 0.9);
    picture.line(Layer::Dimensions, at - half, at + half, Pen::solid(0.25));
}

/// The small circle at the origin of running dimensions.
pub(crate) fn origin(picture: &mut Picture, at: Point) {
    let shape = Shape::Circle {
        centre: at,
        radius: 1.2,
    };
    picture.stroke(Layer::Dimensions, shape, Pen::solid(0.25));
}

/// Depth of the datum sign from its edge to its far side.
pub(crate) const DATUM_DEPTH: f64 = 8.5;
/// Side of the frame around its letter.
const DATUM_BOX: f64 = 4.2;

/// The room that the datum sign takes when it stands on an edge at `foot`, its stem along the unit
/// vector `outward`.
pub(crate) fn datum_room(foot: Point, outward: Vec2) -> Rect {
    let side = number::left_normal(outward) * (DATUM_BOX / 2.0);
    Rect::from_points(foot + side, foot + outward * DATUM_DEPTH - side)
}

/// The datum sign: a filled triangle on the edge, and the letter in a frame on a stem (the sign of
/// ISO 5459).
pub(crate) fn datum(picture: &mut Picture, foot: Point, outward: Vec2) {
    let side = number::left_normal(outward);
    let triangle = [foot + side * 1.6, foot - side * 1.6, foot + outward * 2.6];
    if let Ok(triangle) = Contour::polygon(&triangle) {
        picture.fill(Layer::Dimensions, triangle, Shade::Black);
    }
    let frame = DATUM_DEPTH - DATUM_BOX;
    picture.line(Layer::Dimensions, foot, foot + outward * frame, THIN);
    let centre = foot + outward * (frame + DATUM_BOX / 2.0);
    let half = Vec2::new(DATUM_BOX / 2.0, DATUM_BOX / 2.0);
    rectangle(picture, Rect::from_points(centre - half, centre + half));
    let size = 3.2;
    picture.text(Text {
        layer: Layer::Words,
        at: centre - Vec2::new(0.0, font::capital_height(size) / 2.0),
        size,
        anchor: Anchor::Middle,
        angle: 0.0,
        content: "A".to_owned(),
    });
}

/// A thin frame.
pub(crate) fn rectangle(picture: &mut Picture, frame: Rect) {
    framed(picture, frame, THIN);
}

/// A frame drawn with a pen.
pub(crate) fn framed(picture: &mut Picture, frame: Rect, pen: Pen) {
    let corners = [
        Point::new(frame.x0, frame.y0),
        Point::new(frame.x1, frame.y0),
        Point::new(frame.x1, frame.y1),
        Point::new(frame.x0, frame.y1),
    ];
    if let Ok(contour) = Contour::polygon(&corners) {
        picture.contour(Layer::Dimensions, contour, pen);
    }
}

/// The word DRAFT across an area, in thick light grey strokes, to lie under everything else.
pub(crate) fn draft(picture: &mut Picture, area: Rect) {
    // five letters, 0.7 of the height wide, 0.25 apart
    let height = (area.width() * 0.8 / 4.5).min(area.height() * 0.3);
    let step = height * 0.95;
    let width = height * 4.5;
    let start = area.center() - Vec2::new(width / 2.0, height / 2.0);
    let pen = Pen::solid(height * 0.14).shade(Shade::Light);
    for (index, letter) in
        (0_u8..).zip([letter_d(), letter_r(), letter_a(), letter_f(), letter_t()])
    {
        let from = start + Vec2::new(step * f64::from(index), 0.0);
        let motion = crate::geometry::Motion::scale(height)
            .then(&crate::geometry::Motion::shift(from.to_vec2()));
        for stroke in letter {
            let pieces = stroke
                .iter()
                .map(|one| Piece::new(motion.segment(one), SourceId::UNTRACED));
            if let Ok(path) = Path::new(pieces.collect()) {
                picture.path(Layer::Guides, path, pen);
            }
        }
    }
}

fn straight(points: &[(f64, f64)]) -> Vec<Segment> {
    points
        .windows(2)
        .filter_map(|pair| match pair {
            [a, b] => Some(Segment::line((*a).into(), (*b).into())),
            _ => None,
        })
        .collect()
}

/// A bowl: out to the right from `top`, round, and back to `bottom`, both at x = 0.
fn bowl(top: f64, bottom: f64, reach: f64) -> Vec<Segment> {
    let radius = (top - bottom) / 2.0;
    let x = reach - radius;
    let (from, to) = (Point::new(x, top), Point::new(x, bottom));
    let centre = Point::new(x, f64::midpoint(top, bottom));
    vec![
        Segment::line(Point::new(0.0, top), from),
        Arc::from_centre(from, to, centre, Turn::Clockwise).into(),
        Segment::line(to, Point::new(0.0, bottom)),
    ]
}

fn letter_d() -> Vec<Vec<Segment>> {
    let mut stroke = straight(&[(0.0, 0.0), (0.0, 1.0)]);
    stroke.extend(bowl(1.0, 0.0, 0.7));
    vec![stroke]
}

fn letter_r() -> Vec<Vec<Segment>> {
    let mut stroke = straight(&[(0.0, 0.0), (0.0, 1.0)]);
    stroke.extend(bowl(1.0, 0.45, 0.65));
    vec![stroke, straight(&[(0.3, 0.45), (0.7, 0.0)])]
}

fn letter_a() -> Vec<Vec<Segment>> {
    vec![
        straight(&[(0.0, 0.0), (0.35, 1.0), (0.7, 0.0)]),
        straight(&[(0.122, 0.35), (0.578, 0.35)]),
    ]
}

fn letter_f() -> Vec<Vec<Segment>> {
    vec![
        straight(&[(0.0, 0.0), (0.0, 1.0), (0.65, 1.0)]),
        straight(&[(0.0, 0.52), (0.5, 0.52)]),
    ]
}

fn letter_t() -> Vec<Vec<Segment>> {
    vec![
        straight(&[(0.35, 0.0), (0.35, 1.0)]),
        straight(&[(0.0, 1.0), (0.7, 1.0)]),
    ]
}

/// The centre of the free stretch of a line nearest to its middle, so that `room_at` (the room taken
/// when standing there) keeps clear of all obstacles; `None` when nowhere is free.
pub(crate) fn free_place(
    from: Point,
    to: Point,
    obstacles: &[(Point, Point)],
    room_at: impl Fn(Point) -> Rect,
) -> Option<Point> {
    const CLEAR: f64 = 0.6;
    let is_free = |fraction: f64| {
        let at = from + (to - from) * fraction;
        let room = room_at(at).inflate(CLEAR, CLEAR);
        let clear = !obstacles
            .iter()
            .any(|&(a, b)| lettering::line_meets(a, b, room));
        clear.then_some(at)
    };
    (0..=40_u8).find_map(|step| {
        let off = f64::from(step) / 100.0;
        is_free(0.5 - off).or_else(|| is_free(0.5 + off))
    })
}
