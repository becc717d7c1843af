//! The kept edges as regions, and the last of the certificate.

use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::tolerance;

use super::attempt::Slivers;
use super::attempt::View;
use super::certify;
use super::certify::Edges;
use super::certify::Room;
use super::error::Doubt;
use super::field::Field;
use super::field::Standing;
use super::grid::Grid;
use super::link;
use super::link::Use;
use super::nest::Loops;
use super::nest::Role;
use super::pieces::Linked;
use super::pieces::Shown;
use super::source::Growing;
use super::source::Source;
use super::split::Network;

/// Links what is kept and certifies the loops.
pub(super) fn finish(
    source: &Source,
    (growing, slivers): (Growing, Slivers),
    reach: f64,
    (network, uses, views, field): (&Network, &[Use], &[View], &mut Field<'_>),
) -> Result<Vec<Region>, (Doubt, Point)> {
    let linked = link::link(network, uses)?;
    let mut edges = Edges::with_room_for(linked.pieces.len());
    let (mut contours, mut areas) = (Vec::new(), Vec::new());
    for pieces in linked.loops() {
        let at = linked.curve(network, &pieces[0]).start;
        check_moved(network, (&linked, pieces), field)?;
        let contour = contour_of((source, network), (&linked, pieces), growing)
            .map_err(|_| (Doubt::Unlinked, at))?;
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
        starts: &edges.starts,
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
    for (own, (role, area)) in roles.iter().zip(areas).enumerate() {
        if (*role == Role::Outer) != (*area > 0.0) {
            let at = edges.curves[edges.starts[own]].start;
            return Err((Doubt::Nesting, at));
        }
    }
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
    (source, network): (&Source, &Network),
    (linked, pieces): (&Linked, &[Shown]),
    growing: Growing,
) -> Result<Contour, GeometryError> {
    let piece_of = |piece: &Shown| {
        let segment = linked.curve(network, piece).to_segment();
        let id = piece.front(network).id(source);
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

/// Loops to regions: each hole to the outer loop it lies in. They run the right way as they are.
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
        .map(|(index, outer)| Region::from_turned(outer, std::mem::take(&mut holes[index])))
        .collect()
}
