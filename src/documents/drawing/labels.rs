//! Labels in one margin of the part, each with a leader to its feature, none over another.

use super::obstacles::cross;
use super::spread::spread;
use crate::documents::lettering;
use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Text;

/// Distance from where the leaders bend to the words.
const SHELF: f64 = 3.0;
/// Distance from the shelf to the first letter.
const SPACE: f64 = 0.8;

/// More labels than this in one margin are hard to follow to their features.
const MOST: usize = 24;

/// A label for a feature.
#[derive(Clone, Debug)]
pub(crate) struct Label {
    /// What it says.
    pub(crate) words: String,
    /// What its leader may point at, in millimetres of paper.
    pub(crate) reach: Vec<Segment>,
    /// The place of a single opening on the part, which a list may give instead of dimensions.
    pub(crate) place: Option<Point>,
}

impl Label {
    fn target(&self) -> Point {
        self.reach
            .get(self.reach.len() / 2)
            .map_or(Point::ORIGIN, |segment| segment.point_at(0.5))
    }

    /// The point of its feature nearest to the bend of its leader.
    fn foot(&self, elbow: Point) -> Point {
        let candidates = self.reach.iter().map(|one| one.nearest_point(elbow));
        let away = |point: &Point| number::length(*point - elbow);
        candidates
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .unwrap_or(elbow)
    }
}

/// The margin that holds the labels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// One column at the right of the part.
    Right,
    /// Steps above the part: each label to the right of its leader, over those it would cross.
    Top,
}

/// Where labels may stand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Margin {
    /// Which margin.
    pub(super) side: Side,
    /// Where leaders bend: x of the column at the right, y of the row at the top.
    pub(super) bend: f64,
    /// What must hold all of them.
    pub(super) room: Rect,
    /// Font size in millimetres.
    pub(super) size: f64,
}

/// A label in its place.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    /// Its leader: from its feature to the bend, and on to the shelf.
    pub(crate) leader: Vec<Point>,
    /// Its words.
    pub(crate) text: Text,
}

/// Distance from one line of labels to the next.
pub(super) fn pitch(size: f64) -> f64 {
    1.45 * size
}

/// Width of the column that the labels need at the right of where their leaders bend.
pub(super) fn column_width(labels: &[Label], size: f64) -> f64 {
    let widths = labels
        .iter()
        .map(|label| font::text_width(&label.words, size));
    widths.fold(0.0, f64::max) + SHELF + SPACE
}

/// The labels in their places, in the order of their heights (or, at the top, left to right); two
/// leaders that cross exchange their places, which shortens both, until none do. `None` when they
/// have no room.
pub(super) fn place(mut labels: Vec<Label>, margin: &Margin) -> Option<Vec<Placed>> {
    if labels.len() > MOST {
        return None;
    }
    let coordinate = |point: Point| match margin.side {
        Side::Right => point.y,
        Side::Top => point.x,
    };
    labels.sort_by(|a, b| coordinate(a.target()).total_cmp(&coordinate(b.target())));
    let wanted: Vec<f64> = labels
        .iter()
        .map(|label| coordinate(label.target()))
        .collect();
    let pitch = pitch(margin.size);
    let (low, high) = match margin.side {
        Side::Right => (margin.room.y0 + pitch / 2.0, margin.room.y1 - pitch / 2.0),
        Side::Top => (margin.room.x0, margin.room.x1),
    };
    let places = spread(&wanted, low, high, pitch)?;
    let elbow = |place: f64| match margin.side {
        Side::Right => Point::new(margin.bend, place),
        Side::Top => Point::new(place, margin.bend),
    };
    let mut elbows: Vec<Point> = places.into_iter().map(elbow).collect();
    uncross(&labels, &mut elbows);
    match margin.side {
        Side::Right => column(labels, &elbows, margin),
        Side::Top => steps(labels, elbows, margin),
    }
}

/// Exchanges the places of labels whose leaders cross.
fn uncross(labels: &[Label], elbows: &mut [Point]) {
    let count = labels.len();
    // each exchange shortens the leaders, so this ends by itself; the count only bounds it
    for _ in 0..4 * count {
        let leaders: Vec<(Point, Point)> = labels
            .iter()
            .zip(&*elbows)
            .map(|(label, &elbow)| (label.foot(elbow), elbow))
            .collect();
        let crossing = (0..count)
            .flat_map(|a| (a + 1..count).map(move |b| (a, b)))
            .find(|&(a, b)| {
                matches!((leaders.get(a), leaders.get(b)), (Some(&one), Some(&other)) if cross(one, other))
            });
        let Some((a, b)) = crossing else { break };
        elbows.swap(a, b);
    }
}

fn words(content: String, at: Point, size: f64) -> Text {
    Text {
        layer: Layer::Words,
        at,
        size,
        anchor: Anchor::Start,
        angle: 0.0,
        content,
    }
}

/// Brings the middle of the letters to the height of the shelf.
fn beside(shelf: Point, size: f64) -> Point {
    shelf + Vec2::new(SPACE, -font::capital_height(size) / 2.0)
}

fn column(labels: Vec<Label>, elbows: &[Point], margin: &Margin) -> Option<Vec<Placed>> {
    let fits = margin.bend + column_width(&labels, margin.size) <= margin.room.x1;
    let placed = labels.into_iter().zip(elbows).map(|(label, &elbow)| {
        let shelf = elbow + Vec2::new(SHELF, 0.0);
        Placed {
            leader: vec![label.foot(elbow), elbow, shelf],
            text: words(label.words, beside(shelf, margin.size), margin.size),
        }
    });
    fits.then(|| placed.collect())
}

/// From right to left, each label goes over every leader that its words would cross.
fn steps(labels: Vec<Label>, elbows: Vec<Point>, margin: &Margin) -> Option<Vec<Placed>> {
    let mut ordered: Vec<(Label, Point)> = labels.into_iter().zip(elbows).collect();
    ordered.sort_by(|a, b| b.1.x.total_cmp(&a.1.x));
    let pitch = pitch(margin.size);
    let mut rows: Vec<(f64, u32)> = Vec::new();
    let mut placed = Vec::new();
    for (label, elbow) in ordered {
        let end = elbow.x + SPACE + font::text_width(&label.words, margin.size) + 2.0 * SPACE;
        let under = rows.iter().filter(|(x, _)| *x < end);
        let row = under.map(|&(_, row)| row + 1).max().unwrap_or(0);
        rows.push((elbow.x, row));
        let shelf = elbow + Vec2::new(0.0, SHELF + pitch * f64::from(row));
        let text = words(label.words.clone(), beside(shelf, margin.size), margin.size);
        let room = lettering::room(&text);
        if room.x1 > margin.room.x1 || room.y1 > margin.room.y1 {
            return None;
        }
        placed.push(Placed {
            leader: vec![label.foot(elbow), elbow, shelf],
            text,
        });
    }
    Some(placed)
}
