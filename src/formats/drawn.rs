//! What all writers of pictures share: whether a picture's numbers can be drawn at all, what room the
//! ink takes, and what stands for a spot.

use super::FormatError;
use super::font;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Anchor;
use crate::sheet::Item;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;
use crate::sheet::Text;

/// Half the length of the two lines of the cross that stands for a spot, in millimetres.
pub const SPOT_ARM: f64 = 2.0;

/// The two lines of the cross that stands for a spot.
pub fn spot_cross(spot: Point) -> [Line; 2] {
    let (across, up) = (Vec2::new(SPOT_ARM, 0.0), Vec2::new(0.0, SPOT_ARM));
    [
        Line::new(spot - across, spot + across),
        Line::new(spot - up, spot + up),
    ]
}

/// The spot that such a cross stands for: the middle of both lines, if they are one.
pub fn middle_of_cross(lying: &Line, standing: &Line) -> Option<Point> {
    let (middle, other) = (
        lying.start.midpoint(lying.end),
        standing.start.midpoint(standing.end),
    );
    let fits = |offset: f64, wanted: f64| (offset - wanted).abs() <= tolerance::SAME_POINT;
    let cross = number::length(middle - other) <= tolerance::SAME_POINT
        && fits(lying.end.x - lying.start.x, 2.0 * SPOT_ARM)
        && fits(lying.end.y, lying.start.y)
        && fits(standing.end.y - standing.start.y, 2.0 * SPOT_ARM)
        && fits(standing.end.x, standing.start.x);
    cross.then_some(middle)
}

/// Where the first letter of the words starts, whichever end their place is.
pub fn text_start(text: &Text) -> Point {
    let share = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => 0.5,
        Anchor::End => 1.0,
    };
    let width = font::text_width(&text.content, text.size);
    text.at - number::unit(text.angle) * (width * share)
}

/// The smallest upright rectangle around everything drawn, with the widths of the pens and the sizes
/// of the words, in millimetres; `None` for an empty picture.
pub fn extent(picture: &Picture) -> Option<Rect> {
    picture
        .items
        .iter()
        .map(item_extent)
        .reduce(|a, b| a.union(b))
}

fn item_extent(item: &Item) -> Rect {
    match item {
        Item::Stroke(stroke) => {
            let bounds = match &stroke.shape {
                Shape::Contour(contour) => contour.bounds(),
                Shape::Path(path) => path.bounds(),
                Shape::Circle { centre, radius } => {
                    Rect::from_center_size(*centre, (2.0 * radius, 2.0 * radius))
                }
                Shape::Spot(spot) => {
                    Rect::from_center_size(*spot, (2.0 * SPOT_ARM, 2.0 * SPOT_ARM))
                }
            };
            let half = stroke.pen.width / 2.0;
            bounds.inflate(half, half)
        }
        Item::Fill(fill) => fill.contour.bounds(),
        Item::Text(text) => text_extent(text),
    }
}

fn text_extent(text: &Text) -> Rect {
    let along = number::unit(text.angle);
    let up = number::left_normal(along);
    let start = text_start(text);
    let end = start + along * font::text_width(&text.content, text.size);
    let (ascent, descent) = (font::ascent(text.size), font::descent(text.size));
    let corners = [
        start + up * ascent,
        end + up * ascent,
        start - up * descent,
        end - up * descent,
    ];
    let first = Rect::from_points(start, end);
    corners
        .iter()
        .fold(first, |sum, corner| sum.union_pt(*corner))
}

/// Refuses a picture with a number that cannot be drawn. Contours and paths were checked when they
/// were made; circles, spots, pens and words were not.
///
/// # Errors
/// [`FormatError::NotUsable`].
pub fn check_numbers(picture: &Picture) -> Result<(), FormatError> {
    for item in &picture.items {
        match item {
            Item::Stroke(stroke) => {
                check_pen(&stroke.pen)?;
                match stroke.shape {
                    Shape::Circle { centre, radius } => {
                        check_point("centre of a circle", centre)?;
                        check_size("radius of a circle", radius)?;
                    }
                    Shape::Spot(spot) => check_point("place of a spot", spot)?,
                    Shape::Contour(_) | Shape::Path(_) => {}
                }
            }
            Item::Fill(_) => {}
            Item::Text(text) => {
                check_point("place of words", text.at)?;
                check_size("size of words", text.size)?;
                if !text.angle.is_finite() {
                    return Err(FormatError::NotUsable {
                        what: "angle of words",
                        value: text.angle,
                        needed: "a number of radians",
                    });
                }
            }
        }
    }
    Ok(())
}

fn check_pen(pen: &Pen) -> Result<(), FormatError> {
    check_size("width of a line", pen.width)
}

fn check_point(what: &'static str, point: Point) -> Result<(), FormatError> {
    for value in [point.x, point.y] {
        if !value.is_finite() || value.abs() > tolerance::LARGEST_COORDINATE {
            return Err(FormatError::NotUsable {
                what,
                value,
                needed: "a place within 1 km of the origin, in mm",
            });
        }
    }
    Ok(())
}

/// Refuses a size that is not a positive number of millimetres up to 1 km.
///
/// # Errors
/// [`FormatError::NotUsable`].
pub fn check_size(what: &'static str, value: f64) -> Result<(), FormatError> {
    // written so that NaN is refused too
    if value > 0.0 && value <= tolerance::LARGEST_COORDINATE {
        return Ok(());
    }
    Err(FormatError::NotUsable {
        what,
        value,
        needed: "a positive number of mm, 1 km at most",
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Layer;

    fn words(anchor: Anchor, angle: f64) -> Text {
        Text {
            layer: Layer::Words,
            at: Point::new(100.0, 50.0),
            size: 10.0,
            anchor,
            angle,
            content: "HHHH".to_owned(),
        }
    }

    #[test]
    fn words_take_room_on_the_side_of_their_anchor() {
        let width = font::text_width("HHHH", 10.0);
        for (anchor, left) in [
            (Anchor::Start, 100.0),
            (Anchor::Middle, 100.0 - width / 2.0),
            (Anchor::End, 100.0 - width),
        ] {
            let bounds = text_extent(&words(anchor, 0.0));
            assert!((bounds.x0 - left).abs() < 1e-9, "{anchor:?}: {bounds:?}");
            assert!(
                (bounds.width() - width).abs() < 1e-9,
                "{anchor:?}: {bounds:?}"
            );
        }
        let upright = text_extent(&words(Anchor::Start, number::QUARTER_TURN));
        assert!((upright.height() - width).abs() < 1e-9, "{upright:?}");
    }

    #[test]
    fn numbers_that_cannot_be_drawn_are_refused() {
        for value in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e7] {
            let mut picture = Picture::new();
            picture.stroke(
                Layer::Inside,
                Shape::Circle {
                    centre: Point::ORIGIN,
                    radius: value,
                },
                Pen::solid(0.35),
            );
            let found = check_numbers(&picture);
            assert!(
                matches!(found, Err(FormatError::NotUsable { .. })),
                "radius {value}: {found:?}"
            );
        }
        let mut picture = Picture::new();
        picture.text(Text {
            angle: f64::NAN,
            ..words(Anchor::Start, 0.0)
        });
        assert!(
            check_numbers(&picture).is_err(),
            "an angle that is no number"
        );
    }
}
