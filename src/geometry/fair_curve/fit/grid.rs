//! The fewest arcs between places chosen beforehand.

use super::super::FairCurve;
use super::super::spline::to_number;
use super::joint::Joint;
use super::search::Effort;
use super::search::Search;
use super::track::Track;

/// Places per curve; the stations of a short table come on top.
const PLACES: usize = 48;

/// The joints of the fewest biarcs between places spread evenly along the curve (and its stations),
/// all in the curve's own directions; `None` when that cannot be done with `most` biarcs.
///
/// A search that always goes as far as it can misses rows of arcs that first stop short, say at the
/// end of a flat part. This one does not; it is for few arcs, as its time grows with the square of the
/// number of places.
///
/// # Source
/// Shortest path in the graph of all spans that keep the tolerance: Drysdale, Rote and Sturm,
/// Computational Geometry 41 (2008) 31–47 (from memory).
pub(super) fn fewest_on_grid(track: &Track<'_>, target: f64, most: usize) -> Option<Vec<Joint>> {
    let search = Search {
        track,
        target,
        effort: Effort::Thorough,
    };
    let places: Vec<Joint> = lengths(track)
        .iter()
        .map(|&length| search.own_joint(length))
        .collect();
    // for each place the least number of biarcs to it, from which place, and with which ratio
    let mut best: Vec<Option<(usize, usize, f64)>> = vec![None; places.len()];
    best[0] = Some((0, 0, 1.0));
    for from in 0..places.len() {
        let Some((count, _, _)) = best[from].filter(|&(count, _, _)| count < most) else {
            continue;
        };
        // a span that fails by far will not be mended by a longer one
        let mut misses = 0;
        for to in from + 1..places.len() {
            if best[to].is_some_and(|(known, _, _)| known <= count + 1) {
                continue;
            }
            let (ratio, deviation) = search.best_ratio(&places[from], &places[to]);
            if deviation <= target {
                best[to] = Some((count + 1, from, ratio));
                misses = 0;
            } else {
                misses += 1;
                if misses > PLACES / 4 && deviation > 4.0 * target {
                    break;
                }
            }
        }
    }
    let mut joints = Vec::new();
    let mut at = places.len() - 1;
    loop {
        let (_, from, ratio) = best[at]?;
        joints.push(Joint {
            ratio,
            ..places[at]
        });
        if at == 0 {
            break;
        }
        at = from;
    }
    joints.reverse();
    Some(joints)
}

fn lengths(track: &Track<'_>) -> Vec<f64> {
    let total = track.total_length();
    let mut lengths: Vec<f64> = (0..PLACES)
        .map(|index| total * to_number(index) / to_number(PLACES))
        .collect();
    if let FairCurve::Spline(spline) = track.curve
        && spline.pieces().len() < PLACES
    {
        lengths.extend((1..spline.pieces().len()).map(|at| track.length_at(to_number(at))));
    }
    lengths.sort_by(f64::total_cmp);
    lengths.dedup_by(|next, before| *next - *before < total / to_number(10 * PLACES));
    lengths.push(total);
    lengths
}
