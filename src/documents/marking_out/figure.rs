//! The figure with the numbered points.

use super::points::Points;
use super::reach::Reach;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::documents::drawing;
use crate::documents::drawing::body;
use crate::documents::drawing::labels::Label;
use crate::documents::drawing::near;
use crate::documents::drawing::obstacles::Obstacles;
use crate::documents::drawing::symbols;
use crate::documents::drawing::view::View;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::sheet::Figure;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;

/// Largest width and height of the part in the figure, in millimetres of paper.
const LARGEST: (f64, f64) = (130.0, 170.0);
/// Room around it for numbers.
const AROUND: f64 = 20.0;
/// Font sizes of the numbers that are tried.
const SIZES: [f64; 3] = [3.2, 2.6, 2.0];

/// The part with its points; the caption names those that found no room.
pub(super) fn figure(part: &Part, stamp: &Stamp, points: &Points) -> Figure {
    let whole = View::new(part, 1.0).bounds;
    let scale = (LARGEST.0 / whole.width()).min(LARGEST.1 / whole.height());
    let view = View::new(part, scale);
    let reach = Reach::of(part);
    let room = |view: &View<'_>| {
        let taken = reach.on_paper(view);
        taken.map_or(view.bounds, |taken| taken.union(view.bounds))
    };
    let drawn = room(&view);
    let view = view.shifted(Vec2::new(AROUND - drawn.x0, AROUND - drawn.y0));
    let drawn = room(&view);
    let area = Rect::new(0.0, 0.0, drawn.x1 + AROUND, drawn.y1 + AROUND);
    let mut picture = Picture::new();
    if stamp.is_draft() {
        symbols::draft(&mut picture, area);
    }
    body::draw(&mut picture, &view);
    reach.draw(&mut picture, &view, stamp.unit);
    let mut labels = Vec::new();
    for (number, point) in (1..).zip(&points.list) {
        let at = view.point(point.at);
        // a centre far off the plate is not shown
        if !area.inflate(-2.0, -2.0).contains(at) {
            continue;
        }
        let dot = Shape::Circle {
            centre: at,
            radius: 0.5,
        };
        picture.stroke(Layer::Dimensions, dot, Pen::solid(0.18));
        labels.push(Label {
            words: number.to_string(),
            reach: vec![Segment::line(at, at)],
            place: None,
        });
    }
    drawing::draw_datum(&mut picture, &view, &[]);
    let missing = number_points(&mut picture, &labels, area);
    Figure {
        picture,
        caption: caption(part, &reach, &missing),
    }
}

/// Draws the numbers in the largest size in which all find room, else as many as do; gives back
/// those that do not.
fn number_points(picture: &mut Picture, labels: &[Label], area: Rect) -> Vec<String> {
    let obstacles = Obstacles::of(picture);
    let mut placed = Vec::new();
    for size in SIZES {
        placed = near::place_most(labels, obstacles.clone(), area, size);
        if placed.iter().all(Option::is_some) {
            break;
        }
    }
    let mut missing = Vec::new();
    for (label, placed) in labels.iter().zip(placed) {
        match placed {
            Some(placed) => drawing::draw_plain_label(picture, &placed),
            None => missing.push(label.words.clone()),
        }
    }
    missing
}

fn caption(part: &Part, reach: &Reach, missing: &[String]) -> String {
    let mut caption = format!(
        "{} with its numbered points, not to scale. A is the datum edge, the circle its origin.",
        part.name
    );
    if reach.back().is_some() || reach.beyond().is_some() {
        caption.push_str(
            " The broken rectangle is the plate that the part takes; the size at its side says how far that lies \
             beyond the datum lines.",
        );
    }
    if !missing.is_empty() {
        let words = format!(
            " Too close to be shown, see the table: {}.",
            missing.join(", ")
        );
        caption.push_str(&words);
    }
    caption
}
