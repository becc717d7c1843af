//! Offsets of regions, certified: what comes back is proven, or there is an error that says where.
//!
//! # Words
//! - *Reach*: the distance, taken positive.
//! - *Front*: a piece of the boundary moved by the reach, or an arc (or tip) round a corner.
//! - *Node*: a point where fronts meet; *edge*: the part of a front between two nodes.
//! - *Depth* of an edge: how much nearer than the reach it comes to the source.
//!
//! # Stages
//! Shrinking the material is growing all that is not material, so there is only growing; see
//! `Source` for which.
//!
//! 1. `source`: canonical input (`canonical`). Arcs too flat to be arcs become lines, the parts of an
//!    arc are made to agree, a boundary that crosses or touches itself is refused.
//! 2. `front`: the raw curve. Lines give lines, arcs of radius r give arcs of radius r ± d about the
//!    same centre, whole circles whole circles. A joint that is tangent but for what cannot show has
//!    one point; an outside corner has an arc or a mitred tip. At an inside corner of two lines what
//!    runs on beyond the crossing is trimmed off, being covered (`trim`); at any other the fronts
//!    simply run past one another.
//! 3. `field`: each front that joins its neighbours at both ends, not at a tip, is *sound* if no point
//!    of it is nearer to the source than the reach: the least distance between whole curves is
//!    computed, not samples. Where no piece but its neighbours comes within twice the reach of a piece
//!    (`source`), its fronts ask these only: they lie within the reach of it.
//! 4. `split`: all fronts are split where they cross or touch, but not two sound ones: if one crossed
//!    the other, part of it would be too near to the source, and two that ran along each other the
//!    same way would be parallel to one piece or go round one corner. (Did they touch all the same,
//!    stage 7 would find it.) Parts shorter than [`tolerance::OFFSET_SHORTEST`] are shrunk to points.
//! 5. `field`: an edge is kept when no point of it is nearer to the source than the reach.
//! 6. `link`, `pieces`: kept edges are linked into loops. As many must arrive at each node as leave it.
//!    Edges that lead nowhere are pruned first: where the boundary turns by next to nothing, the fronts
//!    run past one another by so little that the distance cannot tell what is behind their crossing.
//!    That loses nothing: a loop that should be there has no edge that leads nowhere, unless another of
//!    its edges was left out, and of each of those it is shown that it is covered. Of two edges between
//!    the same nodes that coincide within [`tolerance::OFFSET_EXACT`] one is kept.
//! 7. `certify` and `field`: every edge that was left out is shown to be covered over its whole
//!    length; loops keep clear of one another and of themselves (`certify`), lie in one another the
//!    right way (`nest`), have the source on the right side, and enclose a possible area (`result`).
//!
//! Whether two edges of the result come near one another is mostly known from stage 3. Every edge lies
//! at the reach from its piece of the boundary. So an edge that stays away by more than that from all
//! pieces but its own and those next to it can only come near the edges of these, which are measured
//! one by one. Only edges that have less room are looked for in a grid.
//!
//! # Rules for ties
//! - A gap of exactly twice the distance closes; so does one wider by less than the tie width
//!   ([`tolerance::OFFSET_TIE`]). A web of exactly twice the distance vanishes when shrinking.
//! - An inside arc of exactly the distance becomes a corner.
//! - An opening (growing) or a loop of material (shrinking) in which no circle of radius 1e-6 mm has
//!   room is dropped.
//!
//! Where a tie is met, the offset is computed at a distance larger by about 1e-6 mm
//! ([`tolerance::OFFSET_NUDGES`]), so that the answer does not hang on the last digit or on how the
//! part lies; [`Offset::tie`] says so.
//!
//! # Sources of pieces
//! A piece carries the [`SourceId`](super::SourceId) of the piece it is parallel to. An arc or tip
//! round a corner carries that of the piece before the corner, as the contour runs.
//!
//! # Accuracy
//! Every edge lies at the distance from the source within [`tolerance::OFFSET_EXACT`], or
//! [`tolerance::OFFSET_WIDEST_NODE`] beside a place where parts too short to show were shrunk.
//!
//! # Source
//! Guibas, Ramshaw and Stolfi 1983 (convolution of closed curves); Liu, Yong, Zheng and Sun 2007
//! (offset of lines and arcs); the certificate is derived in the stages themselves.

mod attempt;
mod canonical;
mod certify;
mod clearance;
mod crossing;
mod curve;
mod error;
mod field;
mod front;
mod grid;
mod join;
mod link;
mod nest;
mod pieces;
mod result;
mod source;
mod split;
mod trim;

pub use error::Doubt;
pub use error::OffsetError;
pub use join::Join;

use super::Point;
use super::Region;
use super::tolerance;
use attempt::Slivers;
use attempt::attempt;
use grid::Grid;
use nest::Loops;
use source::Growing;
use source::Source;

/// A certified offset.
#[derive(Clone, Debug, PartialEq)]
pub struct Offset {
    /// The pieces of material, outer contours anticlockwise, holes clockwise. None if all is gone.
    pub regions: Vec<Region>,
    /// Whether the rule for ties had to decide.
    pub tie: Tie,
}

/// Whether a gap, web or radius was so near to the limit that a rule decided.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tie {
    /// Nothing was in doubt: the distance is exactly the one asked for.
    Free,
    /// The offset was computed at a distance larger by `excess` millimetres.
    Decided {
        /// What was added to the size of the distance.
        excess: f64,
    },
}

/// The region grown (`distance` > 0) or shrunk (< 0) by `distance` all round.
///
/// The result may be in several pieces, have other holes than the source, or be nothing at all. Lines
/// give lines and arcs give arcs of radius r ± d.
///
/// # Accuracy
/// See the [module](self): within [`tolerance::OFFSET_EXACT`] of the distance, proven for the whole
/// length of every edge.
///
/// # Errors
/// [`OffsetError::NotUsable`] for a distance smaller than [`tolerance::OFFSET_LEAST`] but not 0, or
/// larger than [`tolerance::LARGEST_COORDINATE`]; [`OffsetError::CrossesItself`],
/// [`OffsetError::Misplaced`] and [`OffsetError::TooFlat`] for what is no region;
/// [`OffsetError::NotCertified`] when the result cannot be proven.
///
/// # Example
/// ```
/// use kerfwise::geometry::Contour;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Region;
/// use kerfwise::geometry::SourceId;
/// use kerfwise::geometry::offset::Join;
/// use kerfwise::geometry::offset::offset;
///
/// let disc = Region::new(Contour::circle(Point::ZERO, 10.0, SourceId(1))?, vec![]);
/// let grown = offset(&disc, 2.5, Join::Round)?;
/// assert_eq!(grown.regions[0].outer().as_circle(), Some((Point::ZERO, 12.5)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn offset(region: &Region, distance: f64, join: Join) -> Result<Offset, OffsetError> {
    offset_all(std::slice::from_ref(region), distance, join)
}

/// Several regions, which must not overlap or touch, grown or shrunk together: growing, those that
/// meet become one.
///
/// # Accuracy
/// As [`offset`].
///
/// # Errors
/// As [`offset`]; [`OffsetError::CrossesItself`] or [`OffsetError::Misplaced`] also for regions that
/// meet.
pub fn offset_all(regions: &[Region], distance: f64, join: Join) -> Result<Offset, OffsetError> {
    check_usable(distance, join)?;
    let free = |regions| Offset {
        regions,
        tie: Tie::Free,
    };
    if regions.is_empty() {
        return Ok(free(Vec::new()));
    }
    let growing = if distance < 0.0 {
        Growing::Surroundings
    } else {
        Growing::Material
    };
    let mut source = Source::new(regions, growing)?;
    let grid = Grid::new(source.curves.iter(), 0.5 * distance.abs());
    source.check_simple(&grid, field::near(distance.abs()))?;
    check_nested(&source, growing, &grid)?;
    if distance == 0.0 {
        return Ok(free(regions.to_vec()));
    }
    let mut refusal = None;
    for excess in tolerance::OFFSET_NUDGES {
        let slivers = if excess == 0.0 {
            Slivers::AreTies
        } else {
            Slivers::Close
        };
        let reach = distance.abs() + excess;
        match attempt((&source, &grid), (growing, slivers), reach, join) {
            Ok(regions) => {
                let tie = if excess == 0.0 {
                    Tie::Free
                } else {
                    Tie::Decided { excess }
                };
                return Ok(Offset { regions, tie });
            }
            Err(doubt) => {
                refusal.get_or_insert(doubt);
            }
        }
    }
    let (doubt, at) = refusal.unwrap_or((Doubt::Unlinked, Point::ZERO));
    Err(OffsetError::NotCertified {
        distance,
        at,
        doubt,
    })
}

fn check_usable(distance: f64, join: Join) -> Result<(), OffsetError> {
    let (least, most) = (tolerance::OFFSET_LEAST, tolerance::LARGEST_COORDINATE);
    let size = distance.abs();
    if size != 0.0 && !(least..=most).contains(&size) {
        return Err(OffsetError::NotUsable {
            what: "the size of the distance",
            value: distance,
            least,
            most,
        });
    }
    if let Join::Mitre { limit } = join
        && !(1.0..=100.0).contains(&limit)
    {
        return Err(OffsetError::NotUsable {
            what: "the mitre limit",
            value: limit,
            least: 1.0,
            most: 100.0,
        });
    }
    Ok(())
}

/// Refuses a source whose contours lie wrongly.
fn check_nested(source: &Source, growing: Growing, grid: &Grid) -> Result<(), OffsetError> {
    let mut starts: Vec<usize> = source
        .contours
        .iter()
        .map(|contour| contour.start)
        .collect();
    starts.push(source.curves.len());
    let loops = Loops {
        curves: &source.curves,
        material: growing.material(),
        starts: &starts,
        grid: Some(grid),
    };
    loops.roles().map_err(|at| OffsetError::Misplaced { at })?;
    Ok(())
}
