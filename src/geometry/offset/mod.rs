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
//! 1. `source`: canonical input. Arcs too flat to be arcs become lines, the parts of an arc are made
//!    to agree, a boundary that crosses or touches itself is refused.
//! 2. `front`: the raw curve. Lines give lines, arcs of radius r give arcs of radius r ± d about the
//!    same centre, whole circles whole circles. A joint that is tangent but for what cannot show has
//!    one point; an outside corner has an arc or a mitred tip; at an inside corner the fronts simply
//!    run past one another.
//! 3. `split`: all fronts are split where they cross or touch. Parts shorter than
//!    [`tolerance::OFFSET_SHORTEST`] are shrunk to points.
//! 4. `field`: an edge is kept when no point of it is nearer to the source than the reach: the least
//!    distance between whole curves is computed, not samples.
//! 5. `link`: kept edges are linked into loops. As many must arrive at each node as leave it. Edges
//!    that lead nowhere are pruned first: where the boundary turns by next to nothing, the fronts run
//!    past one another by so little that the distance cannot tell what is behind their crossing. That
//!    loses nothing: a loop that should be there has no edge that leads nowhere, unless another of its
//!    edges was left out, and of each of those it is shown that it is covered. Of two edges between
//!    the same nodes that coincide within [`tolerance::OFFSET_EXACT`] one is kept.
//! 6. `certify` and `field`: every edge that was left out is shown to be covered over its whole
//!    length; loops keep clear of one another and of themselves (`certify`), lie in one another the
//!    right way (`nest`), have the source on the right side, and enclose a possible area.
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
mod source;
mod split;
mod trim;

pub use error::Doubt;
pub use error::OffsetError;
pub use join::Join;

use super::Contour;
use super::GeometryError;
use super::Piece;
use super::Point;
use super::Region;
use super::tolerance;
use certify::Edges;
use certify::Room;
use curve::Curve;
use field::Field;
use field::Proof;
use field::Standing;
use front::Front;
use front::Fronts;
use grid::Grid;
use link::Linked;
use link::Shown;
use link::Use;
use nest::Loops;
use nest::Role;
use source::Growing;
use source::Source;
use split::Edge;
use split::Network;
use split::Span;

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
    let source = Source::new(regions, growing)?;
    let grid = Grid::new(source.curves.iter(), 0.5 * distance.abs());
    check_source(&source, growing, &grid)?;
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

/// Refuses a source that crosses itself or whose contours lie wrongly.
fn check_source(source: &Source, growing: Growing, grid: &Grid) -> Result<(), OffsetError> {
    source.check_simple(grid)?;
    let curves: Vec<&Curve> = source.curves.iter().collect();
    let mut owner = Vec::with_capacity(curves.len());
    for (contour, index) in source.contours.iter().zip(0..) {
        owner.resize(contour.end, index);
    }
    let loops = Loops {
        curves: &curves,
        material: growing.material(),
        owner: &owner,
        count: source.contours.len(),
        grid: Some(grid),
    };
    loops.roles().map_err(|at| OffsetError::Misplaced { at })?;
    Ok(())
}

/// What an opening in which nothing has room means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Slivers {
    /// A tie: the distance must be changed.
    AreTies,
    /// Nothing: it is closed.
    Close,
}

/// One try at one distance.
fn attempt(
    (source, grid): (&Source, &Grid),
    (growing, slivers): (Growing, Slivers),
    reach: f64,
    join: Join,
) -> Result<Vec<Region>, (Doubt, Point)> {
    let raw = Fronts::new(source, reach, join);
    let kites = raw.kites.clone();
    let mut field = Field::new((source, grid), &kites, reach);
    let views = views(source, &raw, &mut field);
    let sound: Vec<bool> = views.iter().map(View::is_sound).collect();
    let network = split::split(raw, &sound)?;
    let standing = |edge: &Edge| match (edge.span, views[edge.front as usize]) {
        (Span::Whole, View::Seen { standing, .. }) => standing,
        _ => {
            let front = network.front(edge);
            let kin = front.kin(source);
            field.standing(&network.edge_curve(edge), front.own(), &kin)
        }
    };
    let standings: Vec<Standing> = network.edges.iter().map(standing).collect();
    let mut refusal = None;
    for near in tolerance::OFFSET_NEAR {
        let clear =
            |standing: &Standing| matches!(*standing, Standing::Clear(depth) if depth <= near);
        let mut uses: Vec<Use> = standings
            .iter()
            .map(|standing| {
                if clear(standing) {
                    Use::Kept
                } else {
                    Use::Left
                }
            })
            .collect();
        link::join_twins(&network, &standings, &mut uses);
        link::prune(&network, &mut uses);
        let work = (&network, uses.as_slice(), views.as_slice(), &mut field);
        let finished = finish(source, (growing, slivers), reach, work).and_then(|regions| {
            check_left_out(&network, (&standings, &uses), &field)?;
            Ok(regions)
        });
        match finished {
            Ok(regions) => return Ok(regions),
            Err(doubt) => {
                refusal.get_or_insert(doubt);
            }
        }
    }
    Err(refusal.unwrap_or((Doubt::Unlinked, Point::ZERO)))
}

/// Shows that every edge left out is covered.
fn check_left_out(
    network: &Network,
    (standings, uses): (&[Standing], &[Use]),
    field: &Field<'_>,
) -> Result<(), (Doubt, Point)> {
    for ((edge, standing), usage) in network.edges.iter().zip(standings).zip(uses) {
        let proof = match usage {
            Use::Kept => continue,
            Use::Left => Proof::Beyond,
            Use::Pruned => Proof::Barely,
        };
        let witness = match *standing {
            Standing::Within(witness) => Some(witness),
            Standing::Clear(_) => None,
        };
        let own = network.front(edge).own();
        field
            .cover(&network.edge_curve(edge), own, (witness, proof))
            .map_err(|at| (Doubt::Uncovered, at))?;
    }
    Ok(())
}

/// How a front stands as a whole, before it is split.
#[derive(Clone, Copy, Debug)]
enum View {
    /// Its ends are open: it will be split.
    Open,
    Seen {
        standing: Standing,
        roomy: bool,
    },
}

impl View {
    /// Whether it will show from end to end.
    fn is_sound(&self) -> bool {
        let near = tolerance::OFFSET_NEAR[0];
        matches!(*self, Self::Seen { standing: Standing::Clear(depth), .. } if depth <= near)
    }

    fn room(self) -> Room {
        match self {
            Self::Seen { roomy: true, .. } if self.is_sound() => Room::Roomy,
            _ if self.is_sound() => Room::Narrow,
            _ => Room::Unknown,
        }
    }
}

fn views(source: &Source, raw: &Fronts, field: &mut Field<'_>) -> Vec<View> {
    let joined = split::joined(raw);
    let view = |(front, joined): (&Front, bool)| {
        if !joined {
            return View::Open;
        }
        let (standing, roomy) = field.view(&front.curve, front.own(), front.kin(source));
        View::Seen { standing, roomy }
    };
    raw.all.iter().zip(joined).map(view).collect()
}

/// Links what is kept and certifies the loops.
fn finish(
    source: &Source,
    (growing, slivers): (Growing, Slivers),
    reach: f64,
    (network, uses, views, field): (&Network, &[Use], &[View], &mut Field<'_>),
) -> Result<Vec<Region>, (Doubt, Point)> {
    let linked = link::link(network, uses)?;
    let mut edges = Edges::default();
    edges.starts.push(0);
    let (mut contours, mut areas) = (Vec::new(), Vec::new());
    for pieces in linked.loops() {
        let at = linked.curve(network, &pieces[0]).start;
        check_moved(network, (&linked, pieces), field)?;
        let contour =
            contour_of(network, (&linked, pieces), growing).map_err(|_| (Doubt::Unlinked, at))?;
        let area = contour.signed_area();
        let grown = match growing {
            Growing::Material => area,
            Growing::Surroundings => -area,
        };
        if has_no_room(grown, &contour) {
            if slivers == Slivers::AreTies {
                return Err((Doubt::Touching(0.0), at));
            }
            continue;
        }
        let room = |piece: &Shown| piece.whole().map_or(Room::Unknown, |f| views[f].room());
        edges.rooms.extend(pieces.iter().map(room));
        let curve = |piece| linked.curve(network, piece);
        edges.curves.extend(pieces.iter().map(curve));
        let loops = front::to_number(contours.len());
        edges.owner.resize(edges.curves.len(), loops);
        edges.starts.push(edges.curves.len());
        contours.push(contour);
        areas.push(area);
    }
    certify::loops_are_simple(&edges)?;
    let roles = roles(source, growing, &edges, &areas)?;
    let at = source.curves[0].start;
    check_area(source, growing, reach, (areas.iter().sum(), field)).map_err(|doubt| (doubt, at))?;
    Ok(assemble(contours, &roles))
}

/// Which loop of the result lies in which, with the source on its side of them.
fn roles(
    source: &Source,
    growing: Growing,
    edges: &Edges<'_>,
    areas: &[f64],
) -> Result<Vec<Role>, (Doubt, Point)> {
    let lone = areas.len() == 1;
    // a grid is worth its making only for more questions than this
    let grid =
        (!lone || source.contours.len() > 3).then(|| Grid::new(edges.curves.iter().copied(), 0.0));
    let loops = Loops {
        curves: &edges.curves,
        material: growing.material(),
        owner: &edges.owner,
        count: areas.len(),
        grid: grid.as_ref(),
    };
    let roles = if lone {
        // simple as it is, it can only be run the wrong way
        let runs_well = areas[0] > 0.0;
        let role = runs_well.then_some(vec![Role::Outer]);
        role.ok_or((Doubt::Nesting, edges.curves[0].start))?
    } else {
        loops.roles().map_err(|at| (Doubt::Nesting, at))?
    };
    certify::source_is_on_its_side(source, &loops, growing)?;
    Ok(roles)
}

fn check_area(
    source: &Source,
    growing: Growing,
    reach: f64,
    (area, field): (f64, &Field<'_>),
) -> Result<(), Doubt> {
    let sign = match growing {
        Growing::Material => 1.0,
        Growing::Surroundings => -1.0,
    };
    let source_area = sign * source.area();
    let disc = std::f64::consts::PI * reach * reach;
    #[expect(clippy::cast_precision_loss, reason = "a count of contours")]
    let parts = source.contours.len() as f64;
    let growth = source.length() * reach + disc * parts + field.kite_area();
    certify::area_is_possible(source_area, area, growth, growing)
}

/// Pieces whose ends were moved are measured again.
fn check_moved(
    network: &Network,
    (linked, pieces): (&Linked, &[Shown]),
    field: &mut Field<'_>,
) -> Result<(), (Doubt, Point)> {
    let limit = tolerance::OFFSET_WIDEST_NODE;
    for piece in pieces.iter().filter(|piece| piece.moved) {
        let own = piece.front(network).own();
        let curve = linked.curve(network, piece);
        if let Standing::Within(_) = field.standing_at(curve, (own, &[]), limit) {
            return Err((Doubt::TooNear(limit), curve.start));
        }
    }
    Ok(())
}

/// The contour of a loop, run as the result will be.
fn contour_of(
    network: &Network,
    (linked, pieces): (&Linked, &[Shown]),
    growing: Growing,
) -> Result<Contour, GeometryError> {
    let piece_of = |piece: &Shown| {
        let segment = linked.curve(network, piece).to_segment();
        let id = piece.front(network).id;
        match growing {
            Growing::Material => Piece::new(segment, id),
            Growing::Surroundings => Piece::new(segment.reversed(), id),
        }
    };
    Contour::new(match growing {
        Growing::Material => pieces.iter().map(piece_of).collect(),
        Growing::Surroundings => pieces.iter().rev().map(piece_of).collect(),
    })
}

/// Whether no circle of radius [`tolerance::SHORTEST_SEGMENT`] has room in the contour, if it is an
/// opening of what grows.
fn has_no_room(area: f64, contour: &Contour) -> bool {
    // radius of the circle that has room in it is no more than twice the area by the length
    area <= 0.0 && -2.0 * area <= tolerance::SHORTEST_SEGMENT * contour.perimeter()
}

/// Loops to regions: each hole to the outer loop it lies in.
fn assemble(contours: Vec<Contour>, roles: &[Role]) -> Vec<Region> {
    let mut holes: Vec<Vec<Contour>> = vec![Vec::new(); contours.len()];
    let mut outers = Vec::new();
    for (index, (contour, role)) in contours.into_iter().zip(roles).enumerate() {
        match role {
            Role::Outer => outers.push((index, contour)),
            Role::HoleOf(outer) => holes[*outer].push(contour),
        }
    }
    outers
        .into_iter()
        .map(|(index, outer)| Region::new(outer, std::mem::take(&mut holes[index])))
        .collect()
}
