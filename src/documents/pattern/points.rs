//! Places on the part that are pricked or punched through: centres of holes and arcs, tangent points,
//! and the words that name corners, edges and openings.

use std::collections::BTreeMap;

use super::grid::Place;
use super::labels;
use super::labels::Labels;
use super::labels::Where;
use super::outline;
use super::outline::THIN;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Quantity;
use crate::sheet::number::trimmed;

/// Half the length of a cross at a centre.
const CROSS: f64 = 4.0;
/// Length of a tick at a tangent point, into the material.
const TICK: f64 = 3.0;
/// Size of the words on a part.
pub(super) const WORDS: f64 = 2.6;
/// Arcs in a row, tangent to one another, that make a fair curve rather than arcs someone drew: their
/// centres mean nothing to the maker.
const FAIR_RUN: usize = 4;

/// A centre to cross, and what it is the centre of.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Centre {
    pub(super) at: Point,
    pub(super) radius: f64,
}

/// Draws crosses at centres and ticks at tangent points; gives back the centres that lie off the part's
/// bounds and are not drawn.
pub(super) fn draw(picture: &mut Picture, part: &Part) -> Vec<Centre> {
    let mut centres: Vec<Centre> = Vec::new();
    for contour in part.region.contours() {
        let fair = fair_runs(contour);
        for (segment, &fair) in contour.segments().zip(&fair) {
            if let (Segment::Arc(arc), false) = (segment, fair) {
                add_centre(&mut centres, arc.centre(), arc.radius());
            }
        }
        draw_ticks(picture, contour, &fair);
    }
    for opening in &part.openings {
        if let OpeningShape::Circle { centre, diameter } = opening.shape {
            add_centre(&mut centres, centre, diameter / 2.0);
        }
    }
    let bounds = part.region.bounds();
    let (near, far): (Vec<Centre>, Vec<Centre>) = centres
        .into_iter()
        .partition(|centre| bounds.contains(centre.at));
    for centre in &near {
        let arm = CROSS.min(centre.radius * 0.7).max(1.5);
        for arm in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
            picture.line(Layer::Mark, centre.at - arm, centre.at + arm, THIN);
        }
    }
    far
}

/// Centres of the round openings: they are punched through the paper.
pub(super) fn hole_centres(part: &Part) -> Vec<Point> {
    let centre = |opening: &Opening| match opening.shape {
        OpeningShape::Circle { centre, .. } => Some(centre),
        OpeningShape::Slot { .. } | OpeningShape::Rectangle { .. } | OpeningShape::Outline => None,
    };
    part.openings.iter().filter_map(centre).collect()
}

fn add_centre(centres: &mut Vec<Centre>, at: Point, radius: f64) {
    let near = |centre: &&mut Centre| number::length(centre.at - at) < 0.05;
    if let Some(same) = centres.iter_mut().find(near) {
        same.radius = same.radius.max(radius);
        return;
    }
    centres.push(Centre { at, radius });
}

/// For each segment, whether it belongs to a run of tangent arcs.
fn fair_runs(contour: &Contour) -> Vec<bool> {
    let segments: Vec<&Segment> = contour.segments().collect();
    let count = segments.len();
    // starts a run: an arc not run into tangent by an arc
    let continues: Vec<bool> = (0..count)
        .map(|index| {
            let before = segments.get((index + count - 1) % count);
            let own = segments.get(index);
            before.zip(own).is_some_and(|(before, own)| {
                matches!((before, own), (Segment::Arc(_), Segment::Arc(_)))
                    && is_tangent(before, own)
            })
        })
        .collect();
    let mut fair = vec![false; count];
    let start = continues.iter().position(|&continues| !continues);
    let Some(start) = start else {
        // tangent arcs all round: an oval of four drawn arcs, or a fair curve of many
        return vec![count > 2 * FAIR_RUN; count];
    };
    let mut run: Vec<usize> = Vec::new();
    for step in 0..=count {
        let index = (start + step) % count;
        let goes_on = step < count && continues.get(index).is_some_and(|&goes_on| goes_on);
        if !goes_on {
            if run.len() >= FAIR_RUN {
                for &member in &run {
                    if let Some(fair) = fair.get_mut(member) {
                        *fair = true;
                    }
                }
            }
            run.clear();
        }
        run.push(index);
    }
    fair
}

fn is_tangent(before: &Segment, own: &Segment) -> bool {
    let (a, b) = (before.direction_at(1.0), own.direction_at(0.0));
    number::turn(a, b).abs() < tolerance::DRAWN_TANGENT
}

fn draw_ticks(picture: &mut Picture, contour: &Contour, fair: &[bool]) {
    let segments: Vec<&Segment> = contour.segments().collect();
    let count = segments.len();
    if count < 2 || contour.as_circle().is_some() {
        return;
    }
    for (index, own) in segments.iter().enumerate() {
        let previous = (index + count - 1) % count;
        let Some(before) = segments.get(previous) else {
            continue;
        };
        let straight = matches!((before, own), (Segment::Line(_), Segment::Line(_)));
        let inside_fair = fair.get(index) == Some(&true) && fair.get(previous) == Some(&true);
        if straight || inside_fair || !is_tangent(before, own) {
            continue;
        }
        // material is on the left
        let inward = number::left_normal(own.direction_at(0.0));
        let from = own.start();
        picture.line(Layer::Mark, from, from + inward * TICK, THIN);
    }
}

/// Plate edges: short slanting lines off the part, as on the cut face of a plate.
pub(super) fn draw_plate_edges(picture: &mut Picture, part: &Part) {
    for edge in &part.edges {
        if edge.state != EdgeState::PlateEdge {
            continue;
        }
        let side = outline::off_side(part, edge).sign();
        for segment in &edge.finished {
            let length = segment.length();
            let mut at = 6.0;
            while at < length - 4.0 {
                let share = at / length;
                let (point, along) = (segment.point_at(share), segment.direction_at(share));
                let out = number::left_normal(along) * side;
                let slant = (out - along * 0.6) * 2.6;
                picture.line(Layer::Mark, point + out * 0.5, point + slant, THIN);
                at += 9.0;
            }
        }
    }
}

/// Names corners, edges that are not simply cut, scribe lines, marks and openings.
pub(super) fn name(picture: &mut Picture, labels: &mut Labels<'_>, part: &Part, unit: LengthUnit) {
    for opening in &part.openings {
        if let OpeningShape::Circle { centre, diameter } = opening.shape {
            let lines = [
                opening.name.clone(),
                format!("⌀ {}", length(diameter, unit)),
            ];
            labels.write(picture, &lines, WORDS, &Where::Near(centre));
        } else if let Some(hole) = part.region.holes().get(opening.hole) {
            let lines = [opening.name.clone()];
            labels.write(picture, &lines, WORDS, &Where::Within(hole.bounds()));
        }
    }
    for corner in &part.corners {
        let mut lines = vec![corner.name.clone()];
        if let Some(Segment::Arc(arc)) = corner.worked {
            lines.push(format!("R {}", length(arc.radius(), unit)));
        }
        labels.write(picture, &lines, WORDS, &Where::Near(corner_place(corner)));
    }
    for round in &part.rounds {
        let lines = [
            round.name.clone(),
            format!("R {}", length(round.radius, unit)),
        ];
        let at = round.arc.map_or(round.centre, |arc| arc.point_at(0.5));
        labels.write(picture, &lines, WORDS, &Where::Near(at));
    }
    for edge in &part.edges {
        name_edge(picture, labels, part, edge, unit);
    }
    for scribe in &part.scribes {
        let words = match &scribe.along {
            Some((edge, distance)) => format!(
                "scribe: {}, {} from {edge}",
                scribe.name,
                length(*distance, unit)
            ),
            None => format!("scribe: {}", scribe.name),
        };
        let segments: Vec<Segment> = scribe
            .paths
            .iter()
            .flat_map(|path| path.segments().copied())
            .collect();
        beside_line(picture, labels, &words, (&segments, 1.0));
    }
    name_waste(picture, labels, part);
    for mark in &part.marks {
        labels.write(
            picture,
            std::slice::from_ref(&mark.name),
            WORDS,
            &Where::Near(mark.at),
        );
    }
}

/// The middle of a corner's rounding, or the corner itself.
fn corner_place(corner: &crate::design::part::Corner) -> Point {
    corner
        .worked
        .map_or(corner.sharp, |segment| segment.point_at(0.5))
}

fn name_edge(
    picture: &mut Picture,
    labels: &mut Labels<'_>,
    part: &Part,
    edge: &Edge,
    unit: LengthUnit,
) {
    let side = outline::off_side(part, edge).sign();
    let words = match edge.state {
        EdgeState::Cut => {
            let length: f64 = edge.finished.iter().map(Segment::length).sum();
            if length > 40.0 {
                beside_line(picture, labels, &edge.name, (&edge.finished, -side));
            }
            return;
        }
        EdgeState::PlateEdge => format!("{}: lay this line on the plate's own edge", edge.name),
        EdgeState::LeaveOn(width) => format!(
            "{}: leave {} on, cut to the outer line",
            edge.name,
            length(width, unit)
        ),
        EdgeState::TrimAtFitting => format!("{}: trim to this line at fitting", edge.name),
    };
    // on every sheet, and on the material, so that they are not cut off
    let mut is_written = false;
    for places in by_sheet(labels, &edge.finished) {
        let place = labels::beside(places, -side, WORDS);
        let written = labels.try_write(picture, std::slice::from_ref(&words), WORDS, &place);
        is_written = is_written || written;
    }
    if !is_written {
        beside_line(picture, labels, &words, (&edge.finished, -side));
    }
}

/// Places along a chain of segments, sheet by sheet.
fn by_sheet(labels: &Labels<'_>, segments: &[Segment]) -> Vec<Vec<(Point, Vec2)>> {
    let mut by_sheet: BTreeMap<Place, Vec<(Point, Vec2)>> = BTreeMap::new();
    for place in along(segments) {
        if let Some(sheet) = labels.sheet_at(place.0) {
            by_sheet.entry(sheet).or_default().push(place);
        }
    }
    by_sheet.into_values().collect()
}

/// Words beside a line, on the side that is wished for (+1 its left, −1 its right), else on the other,
/// else in two lines.
fn beside_line(
    picture: &mut Picture,
    labels: &mut Labels<'_>,
    words: &str,
    (segments, side): (&[Segment], f64),
) {
    let one = [words.to_owned()];
    for side in [side, -side] {
        let place = labels::beside(along(segments), side, WORDS);
        if labels.try_write(picture, &one, WORDS, &place) {
            return;
        }
    }
    let two: Vec<String> = words.splitn(2, ": ").map(str::to_owned).collect();
    // the middle of two lines is farther from the line
    let place = labels::beside(along(segments), side, WORDS * 2.4);
    labels.write(picture, &two, WORDS, &place);
}

/// Places along a chain of segments at which words are tried, from its middle outwards.
pub(super) fn along(segments: &[Segment]) -> Vec<(Point, Vec2)> {
    let total: f64 = segments.iter().map(Segment::length).sum();
    let count = (total / 12.0).clamp(40.0, 1000.0);
    let step = total / count;
    let mut places: Vec<(f64, (Point, Vec2))> = Vec::new();
    // distance of the next place from the start, and of the segment's own start
    let (mut next, mut passed) = (step, 0.0);
    for segment in segments {
        let length = segment.length();
        while next <= passed + length && next < total - step / 2.0 && length > 0.0 {
            let share = ((next - passed) / length).clamp(0.0, 1.0);
            let place = (segment.point_at(share), segment.direction_at(share));
            places.push(((next - total / 2.0).abs(), place));
            next += step;
        }
        passed += length;
    }
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places.into_iter().map(|(_, place)| place).collect()
}

/// The word that shows the side to cut on, on every sheet that a cut line runs over.
fn name_waste(picture: &mut Picture, labels: &mut Labels<'_>, part: &Part) {
    for contour in part.region.contours() {
        let bounds = contour.bounds();
        if bounds.width().min(bounds.height()) < SMALLEST_WASTE {
            continue;
        }
        let is_cut = |source| {
            let state = part.edge_of(source).map(|edge| edge.state);
            matches!(state, Some(EdgeState::Cut) | None)
        };
        let segments: Vec<Segment> = contour
            .pieces()
            .iter()
            .filter(|piece| is_cut(piece.source))
            .map(|piece| piece.segment)
            .collect();
        for places in by_sheet(labels, &segments) {
            // material is on the left
            let outside = labels::beside(places, -1.0, WORDS);
            let waste = ["waste: cut on this side".to_owned()];
            if !labels.try_write(picture, &waste, WORDS, &outside) {
                labels.try_write(picture, &["waste".to_owned()], WORDS, &outside);
            }
        }
    }
}

/// An opening narrower than this has no room for words, in millimetres.
const SMALLEST_WASTE: f64 = 30.0;

/// A length as it is written on a pattern: no zeros that say nothing.
pub(super) fn length(millimetres: f64, unit: LengthUnit) -> String {
    let quantity = Quantity::length(millimetres, unit);
    let number = trimmed(quantity.value, quantity.decimals);
    format!("{number} {}", unit.symbol())
}

/// The rectangle around a point.
pub(super) fn around(point: Point, half: f64) -> Rect {
    Rect::from_center_size(point, (2.0 * half, 2.0 * half))
}
