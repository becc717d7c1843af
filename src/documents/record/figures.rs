//! Small pictures of where each item is measured, in rows across the page.

use crate::design::Design;
use crate::design::part::Part;
use crate::documents::drawing::symbols;
use crate::documents::jaws;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::measures::Taken;
use crate::measures::inspection::Item;
use crate::sheet::Anchor;
use crate::sheet::Figure;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Side of one picture, in millimetres of paper.
const SIDE: f64 = 42.0;
/// Pictures side by side.
const ACROSS: usize = 4;
/// Size of the number in millimetres.
const NUMBER: f64 = 4.0;

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
        let corner = Vec2::new(steps(column) * SIDE, -(steps(row) + 1.0) * SIDE);
        picture.append(one(item, part, taken).shifted(corner));
    }
    Some(Figure {
        picture,
        caption:
            "Where each row is measured, by its number; not to scale. The bars are the jaws of a \
                  calliper or the ends of a tape, an arrow the gauge."
                .to_owned(),
    })
}

#[expect(clippy::cast_precision_loss, reason = "rows and columns of a page")]
fn steps(count: usize) -> f64 {
    count as f64
}

fn one(item: &Item, part: &Part, taken: &Taken) -> Picture {
    let mut picture = jaws::picture(part, taken, SIDE);
    picture.text(Text {
        layer: Layer::Words,
        at: Point::new(1.5, SIDE - 5.0),
        size: NUMBER,
        anchor: Anchor::Start,
        angle: 0.0,
        content: item.number.to_string(),
    });
    let frame = Rect::new(0.0, 0.0, SIDE, SIDE);
    symbols::framed(&mut picture, frame, Pen::solid(0.1));
    picture
}
