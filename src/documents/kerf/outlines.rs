//! The outlines as cut over the outline as drawn, and the places where they differ most, enlarged.

use super::enlarged;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Vec2;
use crate::geometry::nearest::to_contour;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Figure;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Text;
use crate::sheet::number::trimmed;
use crate::shop::kerf::Case;
use crate::shop::kerf::Comparison;
use crate::shop::kerf::KerfError;

/// Side of an enlarged view on paper, in millimetres.
const VIEW: f64 = 48.0;
/// Between the views.
const GAP: f64 = 6.0;
/// How many views.
const VIEWS: usize = 3;
/// Height of the words.
const WORDS: f64 = 2.6;

/// The lines of the picture: what they are, and how they are drawn.
fn pens() -> [(Option<Case>, &'static str, Pen); 4] {
    [
        (None, "as drawn", Pen::solid(0.5).shade(Shade::Grey)),
        (Some(Case::Right), "compensated", Pen::solid(0.18)),
        (
            Some(Case::NotCompensated),
            "not compensated",
            Pen::solid(0.25).line_type(LineType::Dashed),
        ),
        (
            Some(Case::Twice),
            "compensated twice",
            Pen::solid(0.25).line_type(LineType::LongDashedDotted),
        ),
    ]
}

/// The picture for one way of cutting: the whole part with the places marked, the places enlarged below,
/// and the key of the lines.
pub(super) fn figure(part: &Part, one: &Comparison, unit: LengthUnit) -> Result<Figure, KerfError> {
    let as_drawn = std::slice::from_ref(&part.region);
    let shapes: Vec<(&[Region], &str, Pen)> = pens()
        .into_iter()
        .filter_map(|(case, words, pen)| {
            let regions = match case {
                None => as_drawn,
                Some(case) => one.case(case)?.shape.as_slice(),
            };
            Some((regions, words, pen))
        })
        .collect();
    let widest = one.case(Case::NotCompensated);
    let side = 8.0 * one.kerf.value;
    let places = widest.map_or(Vec::new(), |result| {
        enlarged::places(&part.region, &result.shape, side, VIEWS)
    });
    let mut picture = Picture::new();
    let width = views_width(places.len().max(2));
    whole(&mut picture, part, &places, side, width)?;
    let scale = VIEW / side;
    for (index, at) in places.iter().enumerate() {
        let left = views_width(index) + if index > 0 { GAP } else { 0.0 };
        let corner = Point::new(left, -VIEW);
        for metal in enlarged::material(as_drawn, *at, side, corner, scale)? {
            picture.fill(Layer::Guides, metal, Shade::Light);
        }
        frame(&mut picture, Rect::from_origin_size(corner, (VIEW, VIEW)));
        for (regions, _, pen) in &shapes {
            for path in enlarged::window(regions, *at, side, corner, scale)? {
                picture.path(Layer::Outside, path, *pen);
            }
        }
        words(
            &mut picture,
            Point::new(left, -VIEW - 4.0),
            Anchor::Start,
            format!("{}: {} times", letter(index), trimmed(scale, 1)),
        );
    }
    key(&mut picture, &shapes, -VIEW - 11.0);
    let caption = format!(
        "{} with a kerf of {}: outlines as cut over the outline as drawn{}",
        one.process.key,
        features::length_with_unit(one.kerf.value, unit),
        if places.is_empty() {
            ""
        } else {
            ", enlarged where they differ most; material shaded"
        },
    );
    Ok(Figure { picture, caption })
}

fn views_width(count: usize) -> f64 {
    let count = features::of_count(count);
    (count * (VIEW + GAP) - GAP).max(0.0)
}

fn letter(index: usize) -> char {
    ['A', 'B', 'C'].get(index).copied().unwrap_or('D')
}

/// The whole part, reduced, lying along the paper.
fn whole(
    picture: &mut Picture,
    part: &Part,
    places: &[Point],
    side: f64,
    width: f64,
) -> Result<(), GeometryError> {
    let bounds = part.region.bounds();
    let upright = bounds.height() > bounds.width();
    let long = bounds.width().max(bounds.height());
    let short = bounds.width().min(bounds.height());
    let scale = (width / long).min(70.0 / short);
    let base = Point::new(0.0, 10.0);
    let place = |point: Point| {
        let (x, y) = if upright {
            (point.y - bounds.y0, bounds.x1 - point.x)
        } else {
            (point.x - bounds.x0, point.y - bounds.y0)
        };
        base + Vec2::new(x, y) * scale
    };
    let mut lines = Vec::new();
    for contour in part.region.contours() {
        lines.push(placed(contour, &place, scale, upright)?);
    }
    let reach = (0.5 * side * scale).max(1.5);
    let mut rings = Vec::new();
    for at in places {
        let untraced = crate::geometry::SourceId::UNTRACED;
        rings.push(Contour::circle(place(*at), reach, untraced)?);
    }
    for (index, at) in places.iter().enumerate() {
        let letter = beside(place(*at), reach, &lines, &rings);
        words(
            picture,
            letter,
            Anchor::Middle,
            self::letter(index).to_string(),
        );
    }
    for line in lines {
        picture.contour(Layer::Outside, line, Pen::solid(0.25));
    }
    for ring in rings {
        picture.contour(Layer::Mark, ring, Pen::solid(0.18));
    }
    Ok(())
}

/// Where a letter stands beside a ring: of eight places round it the one farthest from every line.
fn beside(centre: Point, reach: f64, lines: &[Contour], rings: &[Contour]) -> Point {
    let clear = |at: Point| {
        lines
            .iter()
            .chain(rings)
            .map(|line| to_contour(at, line).nearest.distance)
            .fold(f64::INFINITY, f64::min)
    };
    let around = (0..8).map(|eighth| {
        let angle = 0.25 * std::f64::consts::PI * f64::from(eighth);
        centre + number::unit(angle) * (reach + 2.0)
    });
    let best = around.max_by(|a, b| clear(*a).total_cmp(&clear(*b)));
    // the middle of a capital
    best.unwrap_or(centre) - Vec2::new(0.0, 0.36 * WORDS)
}

fn placed(
    contour: &Contour,
    place: &impl Fn(Point) -> Point,
    scale: f64,
    upright: bool,
) -> Result<Contour, GeometryError> {
    use crate::geometry::Arc;
    use crate::geometry::Piece;
    use crate::geometry::Segment;
    let turned = if upright {
        -0.5 * std::f64::consts::PI
    } else {
        0.0
    };
    let pieces = contour.pieces().iter().map(|piece| {
        let segment = match &piece.segment {
            Segment::Line(line) => Segment::line(place(line.start), place(line.end)),
            Segment::Arc(arc) => {
                let start = number::direction(arc.point_at(0.0) - arc.centre()) + turned;
                Segment::Arc(Arc::from_angles(
                    place(arc.centre()),
                    arc.radius() * scale,
                    start,
                    arc.sweep(),
                ))
            }
        };
        Piece::new(segment, piece.source)
    });
    Contour::new(pieces.collect())
}

fn frame(picture: &mut Picture, rect: Rect) {
    let corners = [
        Point::new(rect.x0, rect.y0),
        Point::new(rect.x1, rect.y0),
        Point::new(rect.x1, rect.y1),
        Point::new(rect.x0, rect.y1),
    ];
    if let Ok(contour) = Contour::polygon(&corners) {
        picture.contour(Layer::Guides, contour, Pen::solid(0.13));
    }
}

/// What each kind of line is: two in a row.
fn key(picture: &mut Picture, shapes: &[(&[Region], &str, Pen)], top: f64) {
    for (index, (_, said, pen)) in shapes.iter().enumerate() {
        let left = if index % 2 == 0 { 0.0 } else { 54.0 };
        let y = top - 5.0 * features::of_count(index / 2);
        picture.line(
            Layer::Guides,
            Point::new(left, y + 0.9),
            Point::new(left + 14.0, y + 0.9),
            *pen,
        );
        words(
            picture,
            Point::new(left + 16.0, y),
            Anchor::Start,
            (*said).to_owned(),
        );
    }
}

pub(super) fn words(picture: &mut Picture, at: Point, anchor: Anchor, content: String) {
    picture.text(Text {
        layer: Layer::Words,
        at,
        size: WORDS,
        anchor,
        angle: 0.0,
        content,
    });
}
