//! Places of a part where shapes as cut differ most from the outline, enlarged.

use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Line;
use crate::geometry::Motion;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::half_plane::left_of;
use crate::geometry::nearest::to_contour;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Places closer than this share of the window are shown in one.
const APART: f64 = 0.8;

/// Nearer than this (mm) two lines are one on paper, however enlarged.
const SHOWS: f64 = 1e-5;
/// How much more a corner of one radian counts than a smooth joint.
const SHARPER: f64 = 1.0;

/// The source that the edges of a window bear.
const WINDOW: SourceId = SourceId(u32::MAX - 7);

/// Corners, joints and middles of small arcs of the outline where `shape` is farthest from it: the
/// farthest first, none within a window of another.
pub(super) fn places(region: &Region, shape: &[Region], window: f64, most: usize) -> Vec<Point> {
    let mut candidates: Vec<(usize, Point, f64)> = Vec::new();
    for (index, contour) in region.contours().enumerate() {
        let after = contour.pieces().iter().cycle().skip(1);
        for (here, next) in contour.segments().zip(after) {
            let next = &next.segment;
            let at = here.end();
            let turn = number::turn(here.direction_at(1.0), next.direction_at(0.0)).abs();
            let distance = shape
                .iter()
                .flat_map(Region::contours)
                .map(|contour| to_contour(at, contour).nearest.distance)
                .reduce(f64::min);
            if let Some(distance) = distance.filter(|distance| *distance > SHOWS) {
                // of about equal distances the sharper corner shows more
                let weight = distance * (1.0 + SHARPER * turn.max(tolerance::SMOOTH_JOINT));
                candidates.push((index, at, weight));
            }
        }
    }
    candidates.sort_by(|a, b| b.2.total_cmp(&a.2));
    let mut chosen: Vec<(usize, Point)> = Vec::new();
    // first one of each contour, then the others
    for once in [true, false] {
        for &(contour, at, _) in &candidates {
            let near = chosen.iter().any(|&(other, place)| {
                number::length(place - at) < APART * window || (once && other == contour)
            });
            if !near && chosen.len() < most {
                chosen.push((contour, at));
            }
        }
    }
    chosen.into_iter().map(|(_, at)| at).collect()
}

/// What of the material lies in a square window about a point, as [`window`] lays it.
pub(super) fn material(
    regions: &[Region],
    about: Point,
    side: f64,
    to: Point,
    scale: f64,
) -> Result<Vec<Contour>, GeometryError> {
    let inside = clipped(regions, about, side)?;
    let from = about - Vec2::new(0.5 * side, 0.5 * side);
    let motion = Motion::shift(-from.to_vec2());
    inside
        .iter()
        .map(|region| {
            let pieces = region.outer().pieces().iter().map(|piece| {
                let segment = scaled(&motion.segment(&piece.segment), scale, to);
                Piece::new(segment, piece.source)
            });
            Contour::new(pieces.collect())
        })
        .collect()
}

/// What of the regions lies in a square window about a point.
fn clipped(regions: &[Region], about: Point, side: f64) -> Result<Vec<Region>, GeometryError> {
    let half = 0.5 * side;
    let at = |x: f64, y: f64| about + Vec2::new(x * half, y * half);
    let corners = [at(-1.0, -1.0), at(1.0, -1.0), at(1.0, 1.0), at(-1.0, 1.0)];
    let mut inside = regions.to_vec();
    for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        inside = left_of(&inside, &Line::new(*from, *to), WINDOW)?;
    }
    Ok(inside)
}

/// What of the outlines of `regions` lies in a square window about a point, moved so that the window's
/// lower left corner stands at `to`, and enlarged.
pub(super) fn window(
    regions: &[Region],
    about: Point,
    side: f64,
    to: Point,
    scale: f64,
) -> Result<Vec<Path>, GeometryError> {
    let inside = clipped(regions, about, side)?;
    let from = about - Vec2::new(0.5 * side, 0.5 * side);
    let motion = Motion::shift(-from.to_vec2());
    let mut paths = Vec::new();
    for contour in inside.iter().flat_map(Region::contours) {
        for run in runs(contour) {
            let moved = run.into_iter().map(|piece| {
                let segment = scaled(&motion.segment(&piece.segment), scale, to);
                Piece::new(segment, piece.source)
            });
            paths.push(Path::new(moved.collect())?);
        }
    }
    Ok(paths)
}

fn scaled(segment: &crate::geometry::Segment, scale: f64, to: Point) -> crate::geometry::Segment {
    use crate::geometry::Arc;
    use crate::geometry::Segment;
    let at = |point: Point| to + point.to_vec2() * scale;
    match segment {
        Segment::Line(line) => Segment::line(at(line.start), at(line.end)),
        Segment::Arc(arc) => {
            let direction: Vec2 = arc.point_at(0.0) - arc.centre();
            Segment::Arc(Arc::from_angles(
                at(arc.centre()),
                arc.radius() * scale,
                number::direction(direction),
                arc.sweep(),
            ))
        }
    }
}

/// The runs of a contour between the edges of the window.
fn runs(contour: &Contour) -> Vec<Vec<Piece>> {
    let pieces = contour.pieces();
    let Some(border) = pieces.iter().position(|piece| piece.source == WINDOW) else {
        return vec![pieces.to_vec()];
    };
    let mut runs: Vec<Vec<Piece>> = Vec::new();
    let mut open = false;
    for piece in pieces.iter().cycle().skip(border).take(pieces.len()) {
        if piece.source == WINDOW {
            open = false;
        } else {
            match runs.last_mut() {
                Some(run) if open => run.push(*piece),
                _ => runs.push(vec![*piece]),
            }
            open = true;
        }
    }
    runs
}
