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

/// The source that the edges of a window bear.
const WINDOW: SourceId = SourceId(u32::MAX - 7);

/// Corners, joints and middles of small arcs of the outline where `shape` is farthest from it: the
/// farthest first, none within a window of another.
pub(super) fn places(
    region: &Region,
    shape: &[Region],
    window: f64,
    most: usize,
) -> Vec<(Point, f64)> {
    let mut candidates: Vec<(Point, f64)> = region
        .contours()
        .flat_map(|contour| {
            let joints = contour
                .segments()
                .zip(contour.segments().skip(1).chain(contour.segments().take(1)));
            joints.map(|(here, next)| {
                let turn = number::turn(here.direction_at(1.0), next.direction_at(0.0)).abs();
                (here.end(), turn)
            })
        })
        .filter_map(|(at, turn)| {
            let distance = shape
                .iter()
                .flat_map(Region::contours)
                .map(|contour| to_contour(at, contour).nearest.distance)
                .reduce(f64::min)?;
            // of equal distances the sharper corner shows more
            Some((at, distance + 1e-6 * turn.max(tolerance::SMOOTH_JOINT)))
        })
        .collect();
    candidates.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut chosen: Vec<(Point, f64)> = Vec::new();
    for (at, distance) in candidates {
        let near = chosen
            .iter()
            .any(|(other, _)| number::length(*other - at) < APART * window);
        if !near && distance > 1e-5 {
            chosen.push((at, distance));
        }
        if chosen.len() == most {
            break;
        }
    }
    chosen
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
    let half = 0.5 * side;
    let corners = [
        Point::new(about.x - half, about.y - half),
        Point::new(about.x + half, about.y - half),
        Point::new(about.x + half, about.y + half),
        Point::new(about.x - half, about.y + half),
    ];
    let mut inside = regions.to_vec();
    for (index, from) in corners.iter().enumerate() {
        let next = corners.get((index + 1) % 4).copied().unwrap_or(*from);
        inside = left_of(&inside, &Line::new(*from, next), WINDOW)?;
    }
    let motion = Motion::shift(-corners[0].to_vec2());
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
