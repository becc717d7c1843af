//! Runs put together: what closes, what stays open, and where there are gaps.

use super::Run;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::chain;
use crate::geometry::chain::Chain;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A closed line.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// It; each piece has the source of its run.
    pub contour: Contour,
    /// The source of its first run.
    pub source: SourceId,
    /// Its layer, by number.
    pub layer: usize,
}

/// A line that does not close.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenLine {
    /// It; each piece has the source of its run.
    pub path: Path,
    /// The source of its first run.
    pub source: SourceId,
    /// Its layer, by number.
    pub layer: usize,
}

/// Two ends that do not quite meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenJoint {
    /// The end of the one.
    pub from: Point,
    /// The start of the other.
    pub to: Point,
    /// The run that ends there.
    pub source: SourceId,
}

/// What runs make up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assembly {
    /// Closed lines, in the order of their first runs.
    pub outlines: Vec<Outline>,
    /// Lines that do not close.
    pub open: Vec<OpenLine>,
    /// Gaps that were bridged to close or lengthen them.
    pub gaps: Vec<OpenJoint>,
    /// How far an end was moved at most to make joints meet, in millimetres.
    pub moved: f64,
    /// Sources of runs that make no line (nothing of any length).
    pub nothing: Vec<SourceId>,
}

/// The runs in chains: those of one layer that follow each other, ends within `reach` millimetres.
/// Each is the numbers of its runs in `runs`, with the chain they make.
pub fn chained(runs: &[Run], reach: f64) -> Vec<(Vec<usize>, Chain)> {
    let mut found = Vec::new();
    let mut layers: Vec<usize> = runs.iter().map(|run| run.layer).collect();
    layers.sort_unstable();
    layers.dedup();
    for layer in layers {
        let of_layer: Vec<usize> = runs
            .iter()
            .enumerate()
            .filter(|(_, run)| run.layer == layer && has_length(run))
            .map(|(index, _)| index)
            .collect();
        let (closed, open): (Vec<usize>, Vec<usize>) = of_layer
            .into_iter()
            .partition(|&index| runs.get(index).is_some_and(|run| run.closed));
        for index in closed {
            found.push((vec![index], lone_ring()));
        }
        let ends: Vec<(Point, Point)> = open
            .iter()
            .filter_map(|&index| runs.get(index))
            .filter_map(|run| Some((run.segments.first()?.start(), run.segments.last()?.end())))
            .collect();
        for chain in chain::chains(&ends, reach) {
            let members = chain
                .members
                .iter()
                .filter_map(|member| open.get(member.index).copied())
                .collect();
            found.push((members, chain));
        }
    }
    found.sort_by_key(|(members, _)| members.iter().min().copied());
    found
}

fn has_length(run: &Run) -> bool {
    run.segments
        .iter()
        .any(|segment| segment.length() >= tolerance::FILE_JOINT)
}

/// A run that closes by itself.
fn lone_ring() -> Chain {
    Chain {
        members: vec![chain::Member {
            index: 0,
            reversed: false,
        }],
        closed: true,
        gaps: Vec::new(),
    }
}

/// What the runs make up: ends of one layer that come within `reach` millimetres are joined, those wider
/// apart than [`tolerance::FILE_JOINT`] as gaps.
pub fn assemble(runs: &[Run], reach: f64) -> Assembly {
    let mut assembly = Assembly {
        nothing: runs
            .iter()
            .filter(|run| !has_length(run))
            .map(|run| run.source)
            .collect(),
        ..Assembly::default()
    };
    for (members, chain) in chained(runs, reach) {
        add(&mut assembly, runs, &members, &chain);
    }
    assembly
}

fn add(assembly: &mut Assembly, runs: &[Run], members: &[usize], chain: &Chain) {
    let mut pieces: Vec<Piece> = Vec::new();
    for (&index, member) in members.iter().zip(&chain.members) {
        let Some(run) = runs.get(index) else {
            continue;
        };
        let piece = |segment: Segment| Piece::new(segment, run.source);
        if member.reversed {
            let turned = run.segments.iter().rev().map(Segment::reversed);
            pieces.extend(turned.map(piece));
        } else {
            pieces.extend(run.segments.iter().copied().map(piece));
        }
    }
    let Some(first) = members.first().and_then(|&index| runs.get(index)) else {
        return;
    };
    for gap in &chain.gaps {
        let source = members
            .get(gap.after)
            .and_then(|&index| runs.get(index))
            .map_or(first.source, |run| run.source);
        assembly.gaps.push(OpenJoint {
            from: gap.from,
            to: gap.to,
            source,
        });
    }
    // a file may call a line closed whose ends are far apart: the last side is then straight
    if chain.closed
        && let (Some(start), Some(end)) = (pieces.first(), pieces.last())
    {
        let (from, to) = (end.segment.end(), start.segment.start());
        let widest = chain.gaps.iter().map(chain::Gap::width).fold(0.0, f64::max);
        if number::length(to - from) > widest.max(tolerance::FILE_JOINT) {
            pieces.push(Piece::new(Segment::line(from, to), end.source));
        }
    }
    pieces.retain(|piece| piece.segment.length() >= tolerance::SHORTEST_SEGMENT);
    let segments: Vec<Segment> = pieces.iter().map(|piece| piece.segment).collect();
    let joined = chain::join(&segments, chain.closed);
    let pieces: Vec<Piece> = joined
        .segments
        .iter()
        .zip(&pieces)
        .filter(|(segment, _)| segment.length() >= tolerance::SHORTEST_SEGMENT)
        .map(|(segment, piece)| Piece::new(*segment, piece.source))
        .collect();
    assembly.moved = assembly.moved.max(joined.moved);
    let (source, layer) = (first.source, first.layer);
    if chain.closed
        && let Ok(contour) = Contour::new(pieces.clone())
    {
        assembly.outlines.push(Outline {
            contour,
            source,
            layer,
        });
        return;
    }
    match Path::new(pieces) {
        Ok(path) => assembly.open.push(OpenLine {
            path,
            source,
            layer,
        }),
        Err(_) => assembly.nothing.push(source),
    }
}
