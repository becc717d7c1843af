//! Running dimensions from the datum along the left and the lower side of the part (superimposed
//! running dimensioning of ISO 129-1): one line, its origin marked by a small circle, one extension
//! line for each place.

use super::spread::spread;
use super::symbols;
use super::symbols::THIN;
use super::view::View;
use crate::design::part::OpeningShape;
use crate::documents::features;
use crate::documents::features::Arrangement;
use crate::formats::font;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Distance from the part to the line of dimensions.
pub(super) const AWAY: f64 = 10.0;
/// From there to the numbers, room for extension lines to bend.
const BEND: f64 = 4.5;
/// Font size.
const SIZE: f64 = 2.8;
/// Distance between numbers.
const PITCH: f64 = 3.7;

/// A place to be dimensioned: a point of the part, and how far its own lines reach on paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    at: Point,
    clear: f64,
}

/// Corners, centres of rounds and openings (a bolt circle by its centre), and marks.
pub(super) fn spots(view: &View<'_>) -> Vec<Spot> {
    let part = view.part;
    let spot = |at: Point, clear: f64| Spot { at, clear };
    let mut spots = vec![spot(part.datum.origin, 1.0)];
    spots.extend(part.corners.iter().map(|corner| spot(corner.sharp, 1.0)));
    spots.extend(part.rounds.iter().map(|round| spot(round.centre, 3.0)));
    for group in features::groups(part) {
        if let Arrangement::BoltCircle { centre, diameter } = group.arrangement {
            spots.push(spot(centre, view.scale * diameter / 2.0 + 2.5));
            continue;
        }
        let members = group.members.iter().filter_map(|&i| part.openings.get(i));
        for opening in members {
            match opening.shape {
                OpeningShape::Circle { centre, diameter } => {
                    spots.push(spot(centre, view.scale * diameter / 2.0 + 2.5));
                }
                OpeningShape::Slot { from, to, width } => {
                    let reach = view.scale * width / 2.0 + 2.5;
                    spots.extend([spot(from, reach), spot(to, reach)]);
                }
                OpeningShape::Rectangle { centre, .. } => spots.push(spot(centre, 3.0)),
                OpeningShape::Outline => {
                    spots.push(spot(features::opening_centre(part, opening), 3.0));
                }
            }
        }
    }
    spots.extend(part.marks.iter().map(|mark| spot(mark.at, 3.0)));
    spots
}

/// Which side of the part, and so which of the two coordinates.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Axis {
    /// Places along the level direction, numbers under the part.
    Level,
    /// Places along the upright direction, numbers left of the part.
    Upright,
}

impl Axis {
    const fn of(self, vector: Vec2) -> f64 {
        match self {
            Self::Level => vector.x,
            Self::Upright => vector.y,
        }
    }

    /// A point on paper by its place along this axis and its distance out from a line.
    const fn point(self, place: f64, out: f64) -> Point {
        match self {
            Self::Level => Point::new(place, out),
            Self::Upright => Point::new(out, place),
        }
    }
}

/// One dimension: where it is on paper along the axis, where its extension line starts, the number.
#[derive(Clone, Debug)]
struct Ordinate {
    place: f64,
    start: f64,
    value: f64,
    words: String,
}

/// The dimensions of one axis.
#[derive(Clone, Debug)]
pub(super) struct Ordinates {
    axis: Axis,
    list: Vec<Ordinate>,
    /// Where the numbers stand, one for each.
    places: Vec<f64>,
    /// The coordinate of the line of dimensions.
    line: f64,
    /// The place of the origin on paper.
    origin: f64,
}

/// Room that the numbers of an axis take beyond the part.
pub(super) fn depth(view: &View<'_>, spots: &[Spot], axis: Axis, unit: LengthUnit) -> f64 {
    let widths = ordinates(view, spots, axis, unit)
        .iter()
        .map(|one| font::text_width(&one.words, SIZE))
        .fold(0.0, f64::max);
    let beside = match axis {
        Axis::Level => view.bounds.y0 - view.envelope.y0,
        Axis::Upright => view.bounds.x0 - view.envelope.x0,
    };
    AWAY + beside + BEND + 0.5 + widths
}

/// The dimensions of one axis in ascending order on paper, one for each different number.
fn ordinates(view: &View<'_>, spots: &[Spot], axis: Axis, unit: LengthUnit) -> Vec<Ordinate> {
    let mut list: Vec<Ordinate> = Vec::new();
    for spot in spots {
        let value = axis.of(view.running(spot.at));
        let words = features::length(value, unit);
        let paper = view.point(spot.at).to_vec2();
        let other = match axis {
            Axis::Level => paper.y,
            Axis::Upright => paper.x,
        };
        let start = other - spot.clear;
        match list.iter_mut().find(|one| one.words == words) {
            // the nearest of several features at one number carries the line
            Some(known) if start < known.start => known.start = start,
            Some(_) => {}
            None => list.push(Ordinate {
                place: axis.of(paper),
                start,
                value,
                words,
            }),
        }
    }
    list.sort_by(|a, b| a.place.total_cmp(&b.place));
    list
}

/// The dimensions of one axis in their places; `None` when their numbers have no room in `area`.
pub(super) fn arrange(
    view: &View<'_>,
    spots: &[Spot],
    axis: Axis,
    unit: LengthUnit,
    area: Rect,
) -> Option<Ordinates> {
    let list = ordinates(view, spots, axis, unit);
    let (low, high, line) = match axis {
        Axis::Level => (area.x0, area.x1, view.envelope.y0),
        Axis::Upright => (area.y0, area.y1, view.envelope.x0),
    };
    let wanted: Vec<f64> = list.iter().map(|one| one.place).collect();
    let places = spread(&wanted, low + PITCH / 2.0, high - PITCH / 2.0, PITCH)?;
    Some(Ordinates {
        axis,
        list,
        places,
        line: line - AWAY,
        origin: axis.of(view.point(view.part.datum.origin).to_vec2()),
    })
}

impl Ordinates {
    /// Its extension lines, for others to keep clear of.
    pub(super) fn lines(&self) -> Vec<(Point, Point)> {
        let line = |one: &Ordinate| {
            (
                self.axis.point(one.place, one.start),
                self.axis.point(one.place, self.line),
            )
        };
        self.list.iter().map(line).collect()
    }

    /// Draws them.
    pub(super) fn draw(&self, picture: &mut Picture) {
        let axis = self.axis;
        let end = self.line - 1.2;
        for (one, &place) in self.list.iter().zip(&self.places) {
            let start = one.start.max(end + 0.1);
            let knee = axis.point(one.place, end);
            picture.line(Layer::Dimensions, axis.point(one.place, start), knee, THIN);
            let shelf = axis.point(place, self.line - BEND + 0.6);
            picture.line(Layer::Dimensions, knee, shelf, THIN);
            picture.text(self.number(place, &one.words));
        }
        self.draw_line(picture);
    }

    fn number(&self, place: f64, words: &str) -> Text {
        let half = font::capital_height(SIZE) / 2.0;
        let out = self.line - BEND - 0.2;
        let (at, angle) = match self.axis {
            Axis::Level => (Point::new(place + half, out), number::QUARTER_TURN),
            Axis::Upright => (Point::new(out, place - half), 0.0),
        };
        Text {
            layer: Layer::Words,
            at,
            size: SIZE,
            anchor: Anchor::End,
            angle,
            content: words.to_owned(),
        }
    }

    /// The line of dimensions, with arrows pointing away from the origin.
    fn draw_line(&self, picture: &mut Picture) {
        let axis = self.axis;
        let ends = self.list.iter().map(|one| one.place);
        let low = ends.clone().fold(self.origin, f64::min);
        let high = ends.fold(self.origin, f64::max);
        picture.line(
            Layer::Dimensions,
            axis.point(low, self.line),
            axis.point(high, self.line),
            THIN,
        );
        symbols::origin(picture, axis.point(self.origin, self.line));
        let mut before = f64::NEG_INFINITY;
        for (index, one) in self.list.iter().enumerate() {
            let after = self
                .list
                .get(index + 1)
                .map_or(f64::INFINITY, |next| next.place);
            let away = one.place - self.origin;
            let at = axis.point(one.place, self.line);
            if one.value != 0.0 && away != 0.0 {
                let (room, sign) = if away > 0.0 {
                    (one.place - before, 1.0)
                } else {
                    (after - one.place, -1.0)
                };
                if room > 4.0 {
                    let towards = axis.point(sign, 0.0).to_vec2();
                    symbols::arrow(picture, at, towards);
                } else {
                    symbols::oblique(picture, at);
                }
            }
            before = one.place;
        }
    }
}
