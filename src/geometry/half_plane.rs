//! What of a region lies on one side of a straight line.

use super::Contour;
use super::GeometryError;
use super::Line;
use super::Piece;
use super::Point;
use super::Region;
use super::Segment;
use super::SourceId;
use super::intersect;
use super::number;
use super::tolerance;
use super::validate::Place;
use super::validate::contour_contains;

/// What of the regions lies on the left of a line that is taken to run on without end, which becomes an
/// edge of it and bears `source`.
///
/// # Accuracy
/// Crossings as [`intersect::meet`]; what reaches over the line by less than
/// [`tolerance::SAME_POINT`] is left as it is.
///
/// # Errors
/// [`GeometryError`] where pieces too short to be edges would come about.
///
/// # Example
/// ```
/// use kerfwise::geometry::Contour;
/// use kerfwise::geometry::Line;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Region;
/// use kerfwise::geometry::SourceId;
/// use kerfwise::geometry::half_plane::left_of;
///
/// let disc = Region::new(Contour::circle(Point::ORIGIN, 10.0, SourceId(1))?, vec![]);
/// let axis = Line::new(Point::new(-1.0, 0.0), Point::new(1.0, 0.0));
/// let half = left_of(&[disc], &axis, SourceId(2))?;
/// assert!((half[0].area() - 50.0 * std::f64::consts::PI).abs() < 1e-9);
/// # Ok::<(), kerfwise::geometry::GeometryError>(())
/// ```
pub fn left_of(
    regions: &[Region],
    line: &Line,
    source: SourceId,
) -> Result<Vec<Region>, GeometryError> {
    let side = Side::new(line);
    let mut kept = Vec::new();
    for region in regions {
        kept.extend(side.region(region, source)?);
    }
    Ok(kept)
}

/// The line, and the direction in which material is dropped.
struct Side {
    line: Line,
    along: super::Vec2,
}

/// A run of kept pieces between two places on the line.
struct Chain {
    pieces: Vec<Piece>,
    start: f64,
    end: f64,
}

impl Side {
    fn new(line: &Line) -> Self {
        Self {
            line: *line,
            along: line.direction(),
        }
    }

    /// How far a point lies on the dropped side.
    fn over(&self, point: Point) -> f64 {
        (point - self.line.start).cross(self.along)
    }

    fn station(&self, point: Point) -> f64 {
        (point - self.line.start).dot(self.along)
    }

    fn at(&self, station: f64) -> Point {
        self.line.start + self.along * station
    }

    fn region(&self, region: &Region, source: SourceId) -> Result<Vec<Region>, GeometryError> {
        let mut closed = Vec::new();
        let mut chains = Vec::new();
        for contour in region.contours() {
            let crosses = self.reach(contour) > tolerance::SAME_POINT;
            match crosses.then(|| self.chains(contour)).flatten() {
                Some(kept) => chains.extend(kept),
                None => closed.push(contour.clone()),
            }
        }
        if !chains.is_empty() {
            closed.extend(closed_along_line(chains, source)?);
        }
        Ok(nested(closed))
    }

    /// The farthest that a contour reaches over the line.
    fn reach(&self, contour: &Contour) -> f64 {
        let outwards = -number::left_normal(self.along);
        contour
            .segments()
            .map(|segment| self.over(segment.farthest(outwards)))
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// The runs of a contour that are kept, where any of it is dropped.
    fn chains(&self, contour: &Contour) -> Option<Vec<Chain>> {
        let parts: Vec<(Piece, bool)> = contour
            .pieces()
            .iter()
            .flat_map(|piece| self.parts(piece))
            .collect();
        let first_dropped = parts.iter().position(|(_, kept)| !kept)?;
        let mut chains: Vec<Vec<Piece>> = Vec::new();
        let mut open = false;
        let turned = parts.iter().cycle().skip(first_dropped).take(parts.len());
        for (piece, kept) in turned {
            match (kept, open) {
                (true, true) => {
                    if let Some(chain) = chains.last_mut() {
                        chain.push(*piece);
                    }
                }
                (true, false) => chains.push(vec![*piece]),
                (false, _) => {}
            }
            open = *kept;
        }
        let with_stations = |pieces: Vec<Piece>| {
            let start = self.station(pieces.first()?.segment.start());
            let end = self.station(pieces.last()?.segment.end());
            Some(Chain { pieces, start, end })
        };
        Some(chains.into_iter().filter_map(with_stations).collect())
    }

    /// A piece split where it crosses the line, each part with whether it is kept.
    fn parts(&self, piece: &Piece) -> Vec<(Piece, bool)> {
        let segment = &piece.segment;
        let bounds = segment.bounds();
        let reach = bounds.width() + bounds.height() + 1.0;
        let middle = self.station(bounds.center());
        let long = Segment::line(self.at(middle - reach), self.at(middle + reach));
        let mut splits: Vec<f64> = intersect::meet(segment, &long)
            .points()
            .map(|crossing| crossing.on_first)
            .filter(|fraction| (f64::EPSILON..1.0).contains(fraction))
            .collect();
        splits.sort_by(f64::total_cmp);
        let shortest = tolerance::SHORTEST_SEGMENT / segment.length();
        let mut ends = vec![0.0];
        for split in splits {
            let last = ends.last().copied().unwrap_or(0.0);
            if split - last > shortest && 1.0 - split > shortest {
                ends.push(split);
            }
        }
        ends.push(1.0);
        ends.windows(2)
            .filter_map(|pair| match pair {
                &[from, to] => {
                    let part = segment.part(from, to);
                    let kept = self.over(part.point_at(0.5)) <= 0.0;
                    Some((Piece::new(part, piece.source), kept))
                }
                _ => None,
            })
            .collect()
    }
}

/// Chains joined along the line: from where one leaves the kept side on to where the next comes back.
fn closed_along_line(
    mut chains: Vec<Chain>,
    source: SourceId,
) -> Result<Vec<Contour>, GeometryError> {
    let mut closed = Vec::new();
    while let Some(first) = chains.pop() {
        let mut loop_pieces = first.pieces;
        let mut end = first.end;
        loop {
            // the nearest start farther on, that of the loop itself among them
            let next = chains
                .iter()
                .enumerate()
                .filter(|(_, chain)| chain.start > end)
                .min_by(|a, b| a.1.start.total_cmp(&b.1.start))
                .map(|(index, chain)| (index, chain.start));
            let home = (first.start > end).then_some(first.start);
            let (to, join) = match (next, home) {
                (Some((index, start)), Some(home)) if start < home => (start, Some(index)),
                (Some((index, start)), None) => (start, Some(index)),
                (_, Some(home)) => (home, None),
                (None, None) => (end, None),
            };
            let from = loop_pieces.last().map(|piece| piece.segment.end());
            let target = match join.and_then(|index| chains.get(index)) {
                Some(chain) => chain.pieces.first().map(|piece| piece.segment.start()),
                None => loop_pieces.first().map(|piece| piece.segment.start()),
            };
            if let (Some(from), Some(target)) = (from, target)
                && to - end > tolerance::SAME_POINT
            {
                loop_pieces.push(Piece::new(Segment::line(from, target), source));
            }
            match join {
                Some(index) => {
                    let chain = chains.swap_remove(index);
                    loop_pieces.extend(chain.pieces);
                    end = chain.end;
                }
                None => break,
            }
        }
        closed.push(Contour::new(loop_pieces)?);
    }
    Ok(closed)
}

/// Contours as regions: those that run anticlockwise, each with the clockwise ones inside it.
fn nested(contours: Vec<Contour>) -> Vec<Region> {
    let (outer, holes): (Vec<Contour>, Vec<Contour>) = contours
        .into_iter()
        .partition(|contour| contour.signed_area() > 0.0);
    let mut regions: Vec<(Contour, Vec<Contour>)> =
        outer.into_iter().map(|outer| (outer, Vec::new())).collect();
    for hole in holes {
        let Some(at) = hole.pieces().first().map(|piece| piece.segment.start()) else {
            continue;
        };
        let home = regions
            .iter_mut()
            .find(|(outer, _)| contour_contains(outer, at) != Place::Outside);
        if let Some((_, inside)) = home {
            inside.push(hole);
        }
    }
    regions
        .into_iter()
        .map(|(outer, holes)| Region::new(outer, holes))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn ring() -> Region {
        let circle = |radius| Contour::circle(Point::ORIGIN, radius, SourceId(1)).expect("circle");
        Region::new(circle(10.0), vec![circle(6.0)])
    }

    fn level(height: f64) -> Line {
        Line::new(Point::new(-1.0, height), Point::new(1.0, height))
    }

    #[test]
    fn a_ring_cut_through_its_hole_is_one_piece_or_two() {
        // circular segments by r² acos(d/r) − d √(r² − d²)
        let beyond = |r: f64, d: f64| r * r * libm::acos(d / r) - d * libm::sqrt(r * r - d * d);
        for height in [-9.0, -5.0, 0.0, 5.0, 7.0] {
            let kept = left_of(&[ring()], &level(height), SourceId(9)).expect("a cut");
            let hole = if height.abs() < 6.0 {
                beyond(6.0, height)
            } else if height < 0.0 {
                36.0 * PI
            } else {
                0.0
            };
            let expected = beyond(10.0, height) - hole;
            let area: f64 = kept.iter().map(Region::area).sum();
            assert!(
                (area - expected).abs() < 1e-9,
                "{height}: {area} and {expected}"
            );
            let (pieces, holes) = match height {
                -9.0 => (1, 1),
                _ => (1, 0),
            };
            assert_eq!(kept.len(), pieces, "pieces above {height}");
            assert_eq!(
                kept.iter()
                    .map(|region| region.holes().len())
                    .sum::<usize>(),
                holes,
                "holes"
            );
        }
        let two = left_of(
            &[ring()],
            &Line::new(Point::new(0.0, 5.0), Point::new(0.0, -5.0)),
            SourceId(9),
        );
        assert_eq!(
            two.expect("the right half").len(),
            1,
            "half a ring is one piece"
        );
    }

    #[test]
    fn prongs_over_the_line_are_cut_apart() {
        let comb = Contour::polygon(&[
            Point::new(0.0, 0.0),
            Point::new(10.0, 0.0),
            Point::new(10.0, 10.0),
            Point::new(7.0, 10.0),
            Point::new(7.0, 3.0),
            Point::new(3.0, 3.0),
            Point::new(3.0, 10.0),
            Point::new(0.0, 10.0),
        ])
        .expect("a comb");
        let kept = left_of(&[Region::new(comb, vec![])], &level(5.0), SourceId(9)).expect("a cut");
        assert_eq!(kept.len(), 2, "two prongs above");
        assert!(
            kept.iter()
                .all(|region| (region.area() - 15.0).abs() < 1e-12),
            "3 × 5 each"
        );
        let edges = kept
            .iter()
            .flat_map(Region::contours)
            .flat_map(Contour::pieces);
        assert_eq!(
            edges.filter(|piece| piece.source == SourceId(9)).count(),
            2,
            "new edges"
        );
    }

    #[test]
    fn what_does_not_cross_stays_or_goes() {
        let kept = left_of(&[ring()], &level(-10.0), SourceId(9)).expect("it touches");
        assert_eq!(kept, vec![ring()], "all of it");
        assert!(
            left_of(&[ring()], &level(11.0), SourceId(9))
                .expect("none")
                .is_empty(),
            "none"
        );
    }
}
