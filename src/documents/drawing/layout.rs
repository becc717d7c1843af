//! Everything on the sheet in its place, at one scale.

use super::Manner;
use super::Scale;
use super::SheetSize;
use super::body;
use super::features_named;
use super::frame::Frame;
use super::labels;
use super::labels::Label;
use super::labels::Margin;
use super::labels::Placed;
use super::labels::Side;
use super::near;
use super::obstacles::Obstacles;
use super::ordinates;
use super::ordinates::Axis;
use super::ordinates::Ordinates;
use super::overall;
use super::symbols;
use super::symbols::THIN;
use super::view::View;
use super::words_of;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Layer;
use crate::sheet::Picture;

/// Distance from the line of the overall dimension to where leaders bend.
const LEAD: f64 = 4.0;

/// What the numbers on a drawing stand for: "7  pivot Ø 13 at 884 | 90"; single openings with their
/// places, along the datum and across.
fn key(part: &Part, unit: LengthUnit) -> Vec<String> {
    let labels = features_named::labels(&View::new(part, 1.0), unit);
    let numbered = (1..).zip(labels);
    let entry = |(number, label): (u32, Label)| {
        let place = label.place.map_or_else(String::new, |place| {
            let running = part.datum.running(place);
            let (along, across) = (
                features::length(running.x, unit),
                features::length(running.y, unit),
            );
            format!(" at {along} | {across}")
        });
        format!("{number}  {}{place}", label.words)
    };
    numbered.map(entry).collect()
}

/// The picture, if everything has room on the sheet at this scale, with labels of this size placed in
/// this manner.
pub(super) fn try_at(
    part: &Part,
    stamp: &Stamp,
    sheet: SheetSize,
    (scale, manner, size): (Scale, Manner, f64),
) -> Option<Picture> {
    let key = match manner {
        Manner::Near | Manner::Margin(_) => Vec::new(),
        Manner::Key => key(part, stamp.unit),
    };
    let frame = Frame::new(part, stamp, sheet, &key);
    let area = frame.area;
    let view = View::new(part, scale.0 / scale.1);
    let spots = match manner {
        Manner::Near | Manner::Margin(_) => ordinates::spots(&view),
        Manner::Key => ordinates::spots_without_single_openings(&view),
    };
    let left = ordinates::depth(&view, &spots, Axis::Upright, stamp.unit);
    let bottom = ordinates::depth(&view, &spots, Axis::Level, stamp.unit);
    let overall = Vec2::new(
        view.envelope.x1 - view.bounds.x1,
        view.envelope.y1 - view.bounds.y1,
    ) + Vec2::new(overall::AWAY, overall::AWAY);
    let (right, top) = match manner {
        Manner::Near | Manner::Key => (overall.x + 2.0, overall.y + 3.6),
        Manner::Margin(Side::Right) => {
            let named = features_named::labels(&view, stamp.unit);
            let column = labels::column_width(&named, size);
            (overall.x + LEAD + column, overall.y + 3.6)
        }
        Manner::Margin(Side::Top) => (overall.x + 2.0, overall.y + LEAD + labels::pitch(size)),
    };
    let slack = Vec2::new(
        area.width() - left - view.bounds.width() - right,
        area.height() - bottom - view.bounds.height() - top,
    );
    if slack.x < 0.0 || slack.y < 0.0 {
        return None;
    }
    let corner = Point::new(area.x0 + left, area.y0 + bottom);
    let to_corner = corner - Point::new(view.bounds.x0, view.bounds.y0);
    // labels at the top need room to the right of the part and over it: there it stays low and left
    let shares = match manner {
        Manner::Near | Manner::Key => &[(0.5, 0.5), (0.1, 0.5), (0.9, 0.5)][..],
        Manner::Margin(Side::Right) => &[(0.5, 0.5)][..],
        Manner::Margin(Side::Top) => &[(0.5, 0.3), (0.5, 0.0), (0.0, 0.0)][..],
    };
    shares.iter().find_map(|&(x, y)| {
        let view = view.shifted(to_corner + Vec2::new(slack.x * x, slack.y * y));
        // the corner below at the left belongs to the upright numbers
        let beside = area;
        let below = Rect::new(view.bounds.x0 - 4.0, area.y0, area.x1, area.y1);
        let level = ordinates::arrange(&view, &spots, Axis::Level, stamp.unit, below)?;
        let upright = ordinates::arrange(&view, &spots, Axis::Upright, stamp.unit, beside)?;
        let sheet = Layout {
            stamp,
            view,
            ordinates: [level, upright],
            area,
            size,
        };
        let mut picture = match manner {
            Manner::Near => sheet.labelled_near(&sheet.labels())?,
            Manner::Key => sheet.labelled_near(&sheet.numbers())?,
            Manner::Margin(side) => sheet.labelled_in_margin(side)?,
        };
        let words = words_of(scale);
        frame.draw(&mut picture, part, stamp, &words);
        Some(picture)
    })
}

/// The part and its running dimensions in their places, labels still to come.
struct Layout<'a> {
    stamp: &'a Stamp,
    view: View<'a>,
    ordinates: [Ordinates; 2],
    area: Rect,
    size: f64,
}

impl Layout<'_> {
    fn body(&self) -> Picture {
        let mut picture = Picture::new();
        if self.stamp.is_draft() {
            symbols::draft(&mut picture, self.area);
        }
        body::draw(&mut picture, &self.view);
        for ordinates in &self.ordinates {
            ordinates.draw(&mut picture);
        }
        picture
    }

    fn extension_lines(&self) -> Vec<(Point, Point)> {
        self.ordinates.iter().flat_map(Ordinates::lines).collect()
    }

    fn labels(&self) -> Vec<Label> {
        features_named::labels(&self.view, self.stamp.unit)
    }

    /// The labels with numbers for their words.
    fn numbers(&self) -> Vec<Label> {
        let numbered = (1..).zip(self.labels());
        numbered
            .map(|(number, label)| Label {
                words: number.to_string(),
                ..label
            })
            .collect()
    }

    /// Each label near its feature.
    fn labelled_near(&self, labels: &[Label]) -> Option<Picture> {
        let mut picture = self.body();
        overall::draw(&mut picture, &self.view, self.stamp.unit, &[])?;
        draw_datum(&mut picture, &self.view, &self.extension_lines());
        let obstacles = Obstacles::of(&picture);
        for placed in near::place(labels, obstacles, self.area, self.size)? {
            draw_label(&mut picture, &placed);
        }
        Some(picture)
    }

    /// All labels in one margin.
    fn labelled_in_margin(&self, side: Side) -> Option<Picture> {
        let (area, bounds) = (self.area, self.view.bounds);
        let (envelope, overall) = (self.view.envelope, overall::AWAY + LEAD);
        // leaders must not run through the running dimensions
        let margin = match side {
            Side::Right => Margin {
                side,
                bend: envelope.x1 + overall,
                room: Rect::new(area.x0, bounds.y0 - ordinates::AWAY, area.x1, area.y1),
                size: self.size,
            },
            Side::Top => Margin {
                side,
                bend: envelope.y1 + overall,
                room: Rect::new(bounds.x0, area.y0, area.x1, area.y1),
                size: self.size,
            },
        };
        let placed = labels::place(self.labels(), &margin)?;
        let mut picture = self.body();
        let mut leaders = Vec::new();
        for placed in &placed {
            leaders.extend(lines(&placed.leader));
            draw_label(&mut picture, placed);
        }
        overall::draw(&mut picture, &self.view, self.stamp.unit, &leaders)?;
        leaders.extend(self.extension_lines());
        draw_datum(&mut picture, &self.view, &leaders);
        Some(picture)
    }
}

fn lines(points: &[Point]) -> Vec<(Point, Point)> {
    points
        .iter()
        .zip(points.iter().skip(1))
        .map(|(&a, &b)| (a, b))
        .collect()
}

fn draw_label(picture: &mut Picture, placed: &Placed) {
    draw_plain_label(picture, placed);
    if let [foot, elbow, ..] = placed.leader.as_slice()
        && let Some(towards) = number::normalized(*foot - *elbow)
    {
        symbols::arrow(picture, *foot, towards);
    }
}

/// A label whose leader has no arrow: it points at a dot.
pub(crate) fn draw_plain_label(picture: &mut Picture, placed: &Placed) {
    for (from, to) in lines(&placed.leader) {
        picture.line(Layer::Dimensions, from, to, THIN);
    }
    picture.text(placed.text.clone());
}

/// The circle at the origin, and the datum sign where the datum edge is free of other lines.
pub(crate) fn draw_datum(picture: &mut Picture, view: &View<'_>, obstacles: &[(Point, Point)]) {
    let origin = view.point(view.part.datum.origin);
    symbols::origin(picture, origin);
    let outward = -view.across();
    let along = view.along();
    let reach = |point: Point| (point - origin).dot(along);
    // the stretch of outline that lies on the datum line
    let on_line = |point: Point| (point - origin).dot(outward).abs() < 0.01;
    let outline = view.motion.contour(view.part.region.outer());
    let edge = outline
        .segments()
        .filter(|one| on_line(one.start()) && on_line(one.end()))
        .max_by(|a, b| a.length().total_cmp(&b.length()));
    let (from, to) = edge.map_or_else(
        || (origin, origin + along * 30.0),
        |edge| (edge.start(), edge.end()),
    );
    let (from, to) = if reach(from) <= reach(to) {
        (from, to)
    } else {
        (to, from)
    };
    let room_at = |at: Point| symbols::datum_room(at, outward);
    if let Some(foot) = symbols::free_place(from, to, obstacles, room_at) {
        symbols::datum(picture, foot, outward);
    }
}
