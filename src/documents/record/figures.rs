//! Small pictures of where each item is measured, in rows across the page.

use crate::design::Design;
use crate::design::part::Part;
use crate::documents::drawing::symbols;
use crate::documents::drawing::view::View;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::measures::Taken;
use crate::measures::TakenKind;
use crate::measures::inspection::Item;
use crate::measures::inspection::Taking;
use crate::sheet::Anchor;
use crate::sheet::Figure;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;
use crate::sheet::Text;

/// Width and height of the room for one picture, in millimetres of paper.
const CELL: (f64, f64) = (42.0, 52.0);
/// Pictures side by side.
const ACROSS: usize = 4;
/// Room within it round the part.
const MARGIN: f64 = 4.0;
/// Height of the line with the number.
const HEAD: f64 = 6.0;
/// Size of the number in millimetres.
const NUMBER: f64 = 4.0;
/// How far beyond the line the jaws stand, either way.
const JAW: f64 = 2.2;

/// One figure with a picture for each item that is measured between points; none if there are none.
pub(super) fn figures(items: &[&Item], design: &Design) -> Option<Figure> {
    let mut shown: Vec<(&Item, &Part, &Taken)> = Vec::new();
    for item in items {
        let part = design
            .resolved
            .parts
            .iter()
            .find(|part| part.name == item.part);
        if let (Some(part), Some(taken)) = (part, &item.taken)
            && taken.between.is_some()
        {
            shown.push((item, part, taken));
        }
    }
    if shown.is_empty() {
        return None;
    }
    let mut picture = Picture::new();
    for (index, (item, part, taken)) in shown.iter().enumerate() {
        let (column, row) = (index % ACROSS, index / ACROSS);
        let corner = Vec2::new(steps(column) * CELL.0, -(steps(row) + 1.0) * CELL.1);
        picture.append(one(item, part, taken).shifted(corner));
    }
    Some(Figure {
        picture,
        caption:
            "Where each row is measured, by its number; not to scale. Jaws or the ends of the \
                  tape go where the short cross lines stand, a gauge where a ring stands."
                .to_owned(),
    })
}

#[expect(clippy::cast_precision_loss, reason = "rows and columns of a page")]
fn steps(count: usize) -> f64 {
    count as f64
}

fn one(item: &Item, part: &Part, taken: &Taken) -> Picture {
    let whole = View::new(part, 1.0).bounds;
    let room = (CELL.0 - 2.0 * MARGIN, CELL.1 - 2.0 * MARGIN - HEAD);
    let scale = (room.0 / whole.width()).min(room.1 / whole.height());
    let view = View::new(part, scale);
    let middle = Point::new(CELL.0 / 2.0, MARGIN + room.1 / 2.0);
    let view = view.shifted(middle - view.bounds.center());
    let mut picture = Picture::new();
    symbols::framed(
        &mut picture,
        Rect::new(0.0, 0.0, CELL.0, CELL.1),
        Pen::solid(0.1),
    );
    for contour in part.region.contours() {
        picture.contour(
            Layer::Outside,
            view.motion.contour(contour),
            Pen::solid(0.18),
        );
    }
    picture.text(Text {
        layer: Layer::Words,
        at: Point::new(1.5, CELL.1 - HEAD + 1.2),
        size: NUMBER,
        anchor: Anchor::Start,
        angle: 0.0,
        content: item.number.to_string(),
    });
    let Some(between) = taken.between else {
        return picture;
    };
    let [from, to] = between.map(|point| view.point(point));
    let line = Pen::solid(0.35);
    match (taken.kind, taken.about) {
        (TakenKind::Angle, Some(about)) => {
            let about = view.point(about);
            picture.line(Layer::Dimensions, about, from, line);
            picture.line(Layer::Dimensions, about, to, line);
        }
        _ if item.taking == Taking::Gauge => jaws(&mut picture, to, to),
        _ => {
            picture.line(Layer::Dimensions, from, to, line);
            jaws(&mut picture, from, to);
        }
    }
    picture
}

/// Short lines across both ends; a ring where both ends are one on the paper.
fn jaws(picture: &mut Picture, from: Point, to: Point) {
    let line = Pen::solid(0.35);
    match number::normalized(to - from) {
        Some(along) if number::length(to - from) > JAW / 2.0 => {
            let across = number::left_normal(along) * JAW;
            for end in [from, to] {
                picture.line(Layer::Dimensions, end - across, end + across, line);
            }
        }
        _ => {
            let ring = Shape::Circle {
                centre: from.midpoint(to),
                radius: JAW,
            };
            picture.stroke(Layer::Dimensions, ring, line);
        }
    }
}
