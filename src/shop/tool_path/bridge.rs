//! Holding bridges: short stretches of the outside left uncut, on straight edges away from corners.

use super::cut;
use super::error::ToolPathError;
use super::route::Ends;
use super::route::Route;
use super::setting::Bridges;
use super::setting::Setting;
use crate::geometry::Piece;
use crate::geometry::Segment;

/// A stretch along a route where the middle of a bridge may stand, in millimetres from its start.
struct Room {
    from: f64,
    to: f64,
}

/// The chains between the bridges, in the direction of travel. A closed route of `count` bridges falls
/// into as many chains, an open one into one more.
pub(super) fn bridged(
    route: &Route,
    bridges: Bridges,
    setting: &Setting,
) -> Result<Vec<Vec<Piece>>, ToolPathError> {
    let lengths: Vec<f64> = route
        .pieces
        .iter()
        .map(|piece| piece.segment.length())
        .collect();
    let total: f64 = lengths.iter().sum();
    // the middle of the cut stops half a kerf short of the bridge on either side
    let half_gap = f64::midpoint(bridges.width, setting.kerf);
    let margin = half_gap + setting.lead_length.max(bridges.width);
    let mut rooms = Vec::new();
    let mut at = 0.0;
    for (piece, &length) in route.pieces.iter().zip(&lengths) {
        if matches!(piece.segment, Segment::Line(_)) && length > 2.0 * margin {
            rooms.push(Room {
                from: at + margin,
                to: at + length - margin,
            });
        }
        at += length;
    }
    let middles = spread(&rooms, bridges.count, total, 2.0 * margin);
    if middles.len() < bridges.count {
        let middle = route.pieces.get(route.pieces.len() / 2);
        return Err(ToolPathError::BridgesDoNotFit {
            count: bridges.count,
            found: middles.len(),
            width: bridges.width,
            margin,
            at: middle.map_or_else(Default::default, |piece| piece.segment.point_at(0.5)),
        });
    }
    let gaps: Vec<(f64, f64)> = middles
        .iter()
        .map(|middle| (middle - half_gap, middle + half_gap))
        .collect();
    let mut chains = Vec::new();
    let mut from = 0.0;
    for &(gap_start, gap_end) in &gaps {
        chains.push(between(&route.pieces, from, gap_start));
        from = gap_end;
    }
    let last = between(&route.pieces, from, total);
    match route.ends {
        Ends::OffPlate { .. } => chains.push(last),
        // the first chain is the end of the last
        Ends::Closed => {
            if let Some(first) = chains.first_mut() {
                let begun = std::mem::replace(first, last);
                first.extend(begun);
            }
        }
    }
    Ok(chains)
}

/// Of the even distance between bridges: what two of them are kept apart at least, tried from the most.
const APART: [f64; 9] = [0.9, 0.75, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.0];

/// Middles of bridges, kept apart as far as the straight edges have room for.
fn spread(rooms: &[Room], count: usize, total: f64, apart: f64) -> Vec<f64> {
    let even = total / u32::try_from(count).map_or(f64::INFINITY, f64::from);
    let mut best = Vec::new();
    for share in APART {
        let found = middles(rooms, count, total, apart.max(share * even));
        if found.len() > best.len() {
            best = found;
        }
        if best.len() == count {
            break;
        }
    }
    best
}

/// Middles of bridges, as evenly as there is room, rising.
fn middles(rooms: &[Room], count: usize, total: f64, apart: f64) -> Vec<f64> {
    let mut middles: Vec<f64> = Vec::with_capacity(count);
    let count_as_number = u32::try_from(count).map_or(f64::INFINITY, f64::from);
    for index in 0..u32::try_from(count).unwrap_or(0) {
        let ideal = total * (f64::from(index) + 0.5) / count_as_number;
        // the place with room nearest to the ideal one, clear of the bridges that stand
        let nearest = rooms
            .iter()
            .flat_map(|room| {
                let mut places = vec![ideal.clamp(room.from, room.to)];
                for &middle in &middles {
                    places.extend([middle - apart, middle + apart]);
                }
                places.retain(|place| *place >= room.from && *place <= room.to);
                places
            })
            .filter(|place| {
                middles.iter().all(|middle| {
                    let off = (place - middle).abs();
                    off.min(total - off) >= apart * 0.999
                })
            })
            .min_by(|a, b| (a - ideal).abs().total_cmp(&(b - ideal).abs()));
        middles.extend(nearest);
    }
    middles.sort_by(f64::total_cmp);
    middles
}

/// The part of a chain between two distances along it.
fn between(pieces: &[Piece], from: f64, to: f64) -> Vec<Piece> {
    let mut found = Vec::new();
    let mut at = 0.0;
    for piece in pieces {
        let length = piece.segment.length();
        let start = ((from - at) / length).clamp(0.0, 1.0);
        let end = ((to - at) / length).clamp(0.0, 1.0);
        found.extend(cut::stretch(piece, start, end));
        at += length;
    }
    found
}
