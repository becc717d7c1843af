//! Runs without what is there twice and what has no length.

use super::Outline;
use super::Run;
use super::assemble;
use super::same_pieces;
use crate::geometry::Segment;
use crate::geometry::tolerance;

/// Runs thinned out.
#[derive(Clone, Debug, PartialEq)]
pub struct Thinned {
    /// Those that are left.
    pub runs: Vec<Run>,
    /// How many pieces were taken out that were there twice.
    pub duplicates: usize,
    /// How many pieces were taken out that had no length.
    pub nothings: usize,
}

const fn kept(runs: Vec<Run>, duplicates: usize, nothings: usize) -> Thinned {
    Thinned {
        runs,
        duplicates,
        nothings,
    }
}

/// The runs without nothings and without what is there twice. Duplicates stay where taking them out would open
/// an outline; `join` is how far apart ends may be that meet, in millimetres.
pub fn thinned(runs: &[Run], join: f64) -> Thinned {
    let mut nothings = 0;
    let solid: Vec<Run> = runs
        .iter()
        .map(|run| {
            let mut run = run.clone();
            let before = run.segments.len();
            run.segments
                .retain(|segment| segment.length() >= tolerance::FILE_JOINT);
            nothings += before - run.segments.len();
            run
        })
        .filter(|run| !run.segments.is_empty())
        .collect();
    let twice = same_pieces(&solid);
    if twice.is_empty() {
        return kept(solid, 0, nothings);
    }
    let mut gone: Vec<(usize, usize)> = twice.into_iter().map(|(again, _)| again).collect();
    gone.sort_unstable();
    let all = without(&solid, &gone);
    let bounding = |runs: &[Run]| bounded(&assemble(runs, join).outlines);
    let before = bounding(&solid);
    if bounding(&all) >= before {
        return kept(all, gone.len(), nothings);
    }
    // edges that neighbours share are drawn once for each: only runs that are there twice as a whole go
    let whole = whole_runs(&solid, &gone);
    let fewer = without(&solid, &whole);
    if bounding(&fewer) >= before {
        return kept(fewer, whole.len(), nothings);
    }
    kept(solid, 0, nothings)
}

/// How many different areas the outlines bound. There and back along the same line closes, and bounds
/// nothing; an outline that is there twice bounds one area.
fn bounded(outlines: &[Outline]) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "sizes below 1e12 mm², in thousandths"
    )]
    let rough = |value: f64| (value * 1e3).round() as i64;
    let mut areas: Vec<[i64; 5]> = outlines
        .iter()
        .map(|outline| &outline.contour)
        .filter(|contour| contour.signed_area().abs() > tolerance::FILE_JOINT * contour.perimeter())
        .map(|contour| {
            let bounds = contour.bounds();
            let area = contour.signed_area().abs();
            [bounds.x0, bounds.y0, bounds.x1, bounds.y1, area].map(rough)
        })
        .collect();
    areas.sort_unstable();
    areas.dedup();
    areas.len()
}

/// Those of the pieces whose whole run is among them.
fn whole_runs(runs: &[Run], gone: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let mut counts = vec![0_usize; runs.len()];
    for &(run, _) in gone {
        if let Some(count) = counts.get_mut(run) {
            *count += 1;
        }
    }
    let whole = |run: usize| {
        let pieces = runs.get(run).map_or(0, |run| run.segments.len());
        counts.get(run) == Some(&pieces)
    };
    gone.iter()
        .copied()
        .filter(|&(run, _)| whole(run))
        .collect()
}

/// The runs without some of their pieces; a run with a piece out of its middle becomes two.
fn without(runs: &[Run], gone: &[(usize, usize)]) -> Vec<Run> {
    let mut kept = Vec::with_capacity(runs.len());
    for (number, run) in runs.iter().enumerate() {
        let is_gone = |piece: usize| gone.binary_search(&(number, piece)).is_ok();
        if !(0..run.segments.len()).any(is_gone) {
            kept.push(run.clone());
            continue;
        }
        let mut parts: Vec<Vec<Segment>> = vec![Vec::new()];
        for (piece, segment) in run.segments.iter().enumerate() {
            if is_gone(piece) {
                parts.push(Vec::new());
            } else if let Some(part) = parts.last_mut() {
                part.push(*segment);
            }
        }
        for segments in parts.into_iter().filter(|part| !part.is_empty()) {
            kept.push(Run {
                segments,
                closed: false,
                ..run.clone()
            });
        }
    }
    kept
}
