//! How far the part reaches beyond the lines that everything is measured from: so much of the plate must be
//! left free there before the first line is drawn.

use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::documents::drawing::symbols;
use crate::documents::drawing::view::View;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Pen of the rectangle of plate, and of the datum lines in it.
const BROKEN: Pen = Pen {
    line_type: LineType::Dashed,
    ..symbols::THIN
};

/// Distance of a dimension line from the rectangle, beyond the datum sign, in millimetres of paper.
const AWAY: f64 = 12.5;

/// Distance of its words from it, beyond the ends of the lines that lead there.
const GAP: f64 = 1.8;

/// Size of the letters in the figure.
const LETTERS: f64 = 3.2;

/// The plate that a part takes, with strips that are left on, in running dimensions: x along the datum edge
/// from its origin, y square to it; in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reach {
    taken: Rect,
    has_strips: bool,
}

impl Reach {
    pub(super) fn of(part: &Part) -> Self {
        let view = View::new(part, 1.0);
        let room = view.with_strips();
        let origin = view.point(part.datum.origin);
        let running = |corner: Point| {
            let from = corner - origin;
            Point::new(from.dot(view.along()), from.dot(view.across()))
        };
        let corners = (Point::new(room.x0, room.y0), Point::new(room.x1, room.y1));
        let strip = |state: EdgeState| matches!(state, EdgeState::LeaveOn(_));
        Self {
            taken: Rect::from_points(running(corners.0), running(corners.1)),
            has_strips: part.edges.iter().any(|edge| strip(edge.state)),
        }
    }

    /// How far it reaches back beyond the origin, against the way in which “along” counts; none if it does not.
    pub(super) fn back(&self) -> Option<f64> {
        (self.taken.x0 < -tolerance::SHOWN_BY_A_RULE).then_some(-self.taken.x0)
    }

    /// How far it reaches beyond the datum edge, away from the way in which “square to it” counts; none if it
    /// does not.
    pub(super) fn beyond(&self) -> Option<f64> {
        (self.taken.y0 < -tolerance::SHOWN_BY_A_RULE).then_some(-self.taken.y0)
    }

    /// What must be known before the first line is drawn; none where the part lies within its datum lines.
    pub(super) fn words(&self, unit: LengthUnit) -> Option<String> {
        let length = |millimetres| features::length_with_unit(millimetres, unit);
        let mut sides = Vec::new();
        sides.extend(self.back().map(|back| {
            format!(
                "{} back beyond the origin, against the way in which “along” counts",
                length(back)
            )
        }));
        sides.extend(self.beyond().map(|beyond| {
            format!(
                "{} beyond the datum edge, on the side where “square to it” would be negative",
                length(beyond)
            )
        }));
        if sides.is_empty() {
            return None;
        }
        let strips = if self.has_strips {
            ", strips that are left on included"
        } else {
            ""
        };
        let both = |one: f64, other: Option<f64>, (way, back): (&str, &str)| {
            let other = other.map_or_else(String::new, |other| {
                format!(" and {} {back}", length(other))
            });
            format!("{} {way}{other}", length(one.max(0.0)))
        };
        Some(format!(
            "Before the first line: the part reaches {}. Leave that much plate free there, and room for the cut. \
             From the origin the part takes, along the datum edge, {}; square to it, {}{strips}.",
            sides.join(", and "),
            both(self.taken.x1, self.back(), ("forward", "back")),
            both(self.taken.y1, self.beyond(), ("in", "the other way")),
        ))
    }

    /// The rectangle of plate as it lies on paper; none where the part lies within its datum lines.
    pub(super) fn on_paper(&self, view: &View<'_>) -> Option<Rect> {
        (self.back().is_some() || self.beyond().is_some()).then(|| {
            Rect::from_points(
                place(view, self.taken.x0, self.taken.y0),
                place(view, self.taken.x1, self.taken.y1),
            )
        })
    }

    /// Draws the plate that the part takes, the datum lines across it, and how far it reaches beyond them.
    pub(super) fn draw(&self, picture: &mut Picture, view: &View<'_>, unit: LengthUnit) {
        let Some(room) = self.on_paper(view) else {
            return;
        };
        symbols::framed(picture, room, BROKEN);
        let taken = self.taken;
        let (along, across) = (view.along(), view.across());
        let mut datum_line = |from: Point, to: Point| {
            picture.line(Layer::Dimensions, from, to, BROKEN);
        };
        if self.back().is_some() {
            datum_line(place(view, 0.0, taken.y0), place(view, 0.0, taken.y1));
        }
        if self.beyond().is_some() {
            datum_line(place(view, taken.x0, 0.0), place(view, taken.x1, 0.0));
        }
        let words = |millimetres| features::length_with_unit(millimetres, unit);
        if let Some(back) = self.back() {
            let ends = (place(view, taken.x0, taken.y0), place(view, 0.0, taken.y0));
            dimension(picture, ends, -across, words(back));
        }
        if let Some(beyond) = self.beyond() {
            let ends = (place(view, taken.x0, taken.y0), place(view, taken.x0, 0.0));
            dimension(picture, ends, -along, words(beyond));
        }
    }
}

/// The place of running dimensions on paper.
fn place(view: &View<'_>, along: f64, across: f64) -> Point {
    let datum = &view.part.datum;
    view.point(datum.origin + datum.along * along + datum.across * across)
}

/// A dimension between two places, its line `AWAY` from them in the direction `out`, its words on the far side.
fn dimension(picture: &mut Picture, (from, to): (Point, Point), out: Vec2, words: String) {
    let Some(way) = number::normalized(to - from) else {
        return;
    };
    for end in [from, to] {
        let (near, far) = (end + out, end + out * (AWAY + 1.0));
        picture.line(Layer::Dimensions, near, far, symbols::THIN);
    }
    let (from, to) = (from + out * AWAY, to + out * AWAY);
    // arrows from outside where there is no room between
    let is_narrow = number::length(to - from) < 8.0;
    let (tail, sense) = if is_narrow { (5.0, -1.0) } else { (0.0, 1.0) };
    picture.line(
        Layer::Dimensions,
        from - way * tail,
        to + way * tail,
        symbols::THIN,
    );
    symbols::arrow(picture, from, -way * sense);
    symbols::arrow(picture, to, way * sense);
    // upright words are read from the right
    let is_upright = way.y.abs() > way.x.abs();
    let angle = if is_upright {
        number::QUARTER_TURN
    } else {
        0.0
    };
    let up = number::left_normal(number::unit(angle));
    let capital = crate::formats::font::capital_height(LETTERS);
    let off = if out.dot(up) > 0.0 {
        GAP
    } else {
        -GAP - capital
    };
    picture.text(Text {
        layer: Layer::Words,
        at: from.midpoint(to) + up * off,
        size: LETTERS,
        anchor: Anchor::Middle,
        angle,
        content: words,
    });
}
