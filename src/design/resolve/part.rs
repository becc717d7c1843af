//! One part with an outline of its own.

use super::amounts::Amounts;
use super::fault::PartFault;
use super::lines;
use super::lines::Material;
use super::names;
use super::openings::Openings;
use super::outline;
use super::outline::Outline;
use super::sources::Sources;
use crate::design::error::DesignError;
use crate::design::file;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Named;
use crate::design::part::Datum;
use crate::design::part::Opening;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::design::source::Place;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::outline::Encloses;
use crate::geometry::tolerance;
use crate::geometry::validate;
use crate::geometry::validate::RegionError;

/// The most copies of a part.
pub(super) const MOST_COPIES: u32 = 10_000;

/// A part being built: its outline and openings, before marks and lines.
#[derive(Debug)]
pub(super) struct Draft<'a> {
    pub(super) name: &'a str,
    pub(super) entry: &'a file::Part,
    pub(super) outline: Outline,
    pub(super) openings: Openings,
    pub(super) sources: Sources,
}

/// The outline and the openings of its own of a part.
pub(super) fn draft<'a>(
    named: &'a Named<file::Part>,
    entries: &Located<List<file::Entry>>,
    amounts: &mut Amounts<'_>,
) -> Option<Draft<'a>> {
    let mut sources = Sources::default();
    let outline = outline::outline(
        &entries.value,
        (entries.place, Encloses::Material),
        &mut sources,
        amounts,
    );
    let mut openings = Openings::default();
    for opening in &named.entry.opening {
        openings.add(opening, &mut sources, amounts);
    }
    let (name, entry) = (named.name.value.as_str(), &named.entry);
    Some(Draft {
        name,
        entry,
        outline: outline?,
        openings,
        sources,
    })
}

/// The part, once its openings are complete.
pub(super) fn finish(
    draft: Draft<'_>,
    plates: &[Plate],
    amounts: &mut Amounts<'_>,
) -> Option<Part> {
    let Draft {
        name,
        entry,
        outline,
        openings,
        sources,
    } = draft;
    let region = Region::new(outline.built.contour.clone(), openings.contours);
    if let Err(error) = validate::check_region(&region) {
        amounts.report(region_error(&openings.openings, error, entry));
        return None;
    }
    let material = if outline.built.turned {
        Material::Right
    } else {
        Material::Left
    };
    let scribes = entry
        .scribe
        .iter()
        .filter_map(|line| lines::scribe(line, &region, &outline.edges, material, amounts))
        .collect();
    let marks = entry
        .mark
        .iter()
        .flat_map(|mark| lines::marks(mark, &region, amounts))
        .collect();
    let quantity = match &entry.quantity {
        Some(quantity) => amounts.count(quantity, "quantity", 1..=MOST_COPIES)?,
        None => 1,
    };
    let plate = entry
        .plate
        .as_ref()
        .and_then(|word| names::find_plate(word, plates));
    let datum = datum(entry, &outline, &region, amounts)?;
    Some(Part {
        name: name.to_owned(),
        quantity,
        note: entry.note.as_ref().map(|note| note.value.clone()),
        region,
        corners: outline.corners,
        rounds: outline.rounds,
        edges: outline.edges,
        openings: openings.openings,
        scribes,
        marks,
        datum,
        plate,
        mirror_of: None,
        origins: sources.into_origins(),
    })
}

/// The datum as written, or the first corner and the edge that leaves it.
fn datum(
    entry: &file::Part,
    outline: &Outline,
    region: &Region,
    amounts: &mut Amounts<'_>,
) -> Option<Datum> {
    let Some(written) = &entry.datum else {
        return Some(default_datum(outline, region));
    };
    let edge = names::find_edge(&written.value.along, &outline.edges, amounts);
    let from = &written.value.from;
    let points = || {
        let corners = outline
            .corners
            .iter()
            .map(|corner| (corner.name.as_str(), corner.sharp));
        corners.chain(
            outline
                .rounds
                .iter()
                .map(|round| (round.name.as_str(), round.centre)),
        )
    };
    let found = points()
        .find(|(name, _)| *name == from.value)
        .map(|(_, point)| point);
    if found.is_none() {
        let names: Vec<&str> = points().map(|(name, _)| name).collect();
        names::unknown("corner", from, &names, amounts);
    }
    let (edge, origin) = (edge?, found?);
    let [Segment::Line(line)] = edge.sharp.as_slice() else {
        let fault = PartFault::DatumNotStraight {
            edge: edge.name.clone(),
        };
        amounts.fault(fault, written.value.along.place, "take a straight edge");
        return None;
    };
    let direction = line.direction();
    let distance = direction.cross(origin - line.start).abs();
    if distance > tolerance::SAME_POINT {
        let (point, edge) = (from.value.clone(), edge.name.clone());
        let fault = PartFault::DatumPointOff {
            point,
            edge,
            distance,
        };
        amounts.fault(fault, from.place, "take a corner at one end of the edge");
        return None;
    }
    // away from the origin, towards the farther end of the edge
    let (to_start, to_end) = (line.start - origin, line.end - origin);
    let towards_end = number::length(to_end) >= number::length(to_start);
    let along = if towards_end { direction } else { -direction };
    let words = format!("along “{}” from “{}”", edge.name, from.value);
    Some(Datum {
        origin,
        along,
        across: across(origin, along, region),
        words,
        edge: Some(edge.name.clone()),
        from: Some(from.value.clone()),
    })
}

fn default_datum(outline: &Outline, region: &Region) -> Datum {
    let straight = outline
        .edges
        .iter()
        .find_map(|edge| match edge.sharp.as_slice() {
            [Segment::Line(line)] => {
                let corner = outline
                    .corners
                    .iter()
                    .find(|corner| corner.sharp == line.start)?;
                Some((line, edge, corner))
            }
            _ => None,
        });
    let Some((line, edge, corner)) = straight else {
        let bounds = region.bounds();
        return Datum {
            origin: Point::new(bounds.x0, bounds.y0),
            along: Vec2::new(1.0, 0.0),
            across: Vec2::new(0.0, 1.0),
            words: "from the left and the lowest point, as drawn".to_owned(),
            edge: None,
            from: None,
        };
    };
    let (origin, along) = (line.start, line.direction());
    let words = format!("along “{}” from “{}”", edge.name, corner.name);
    Datum {
        origin,
        along,
        across: across(origin, along, region),
        words,
        edge: Some(edge.name.clone()),
        from: Some(corner.name.clone()),
    }
}

/// The unit vector square to the datum edge, towards the side on which most of the part lies.
fn across(origin: Point, along: Vec2, region: &Region) -> Vec2 {
    let left = number::left_normal(along);
    let middle = region.bounds().center();
    if left.dot(middle - origin) >= 0.0 {
        left
    } else {
        -left
    }
}

/// Says a fault of the region in the names of the openings.
fn region_error(openings: &[Opening], error: RegionError, entry: &file::Part) -> DesignError {
    let name = |hole: usize| {
        openings
            .get(hole)
            .map_or("?".to_owned(), |o| o.name.clone())
    };
    let place = |hole: usize| openings.get(hole).map_or(Place::default(), |o| o.place);
    let outline_place = entry
        .outline
        .as_ref()
        .map(|outline| outline.place)
        .unwrap_or_default();
    match error {
        RegionError::Outer(fault) => DesignError::new(fault, outline_place),
        RegionError::Hole { hole, error } => DesignError::new(error, place(hole)),
        RegionError::HoleCrossesOuter { hole, at, .. } => DesignError::new(
            PartFault::CrossesEdge {
                opening: name(hole),
                at,
            },
            place(hole),
        )
        .with_help("move it inward, or make it smaller"),
        RegionError::HoleOutside { hole, at } => DesignError::new(
            PartFault::OutsidePart {
                opening: name(hole),
                at,
            },
            place(hole),
        )
        .with_help("move it onto the part"),
        RegionError::HolesCross {
            first, second, at, ..
        } => {
            let fault = PartFault::OpeningsMeet {
                first: name(first),
                second: name(second),
                at,
            };
            DesignError::new(fault, place(second))
                .with_also(place(first), format!("`{}` is here", name(first)))
                .with_help("move them apart, or make one smaller")
        }
        RegionError::HolesNested { inner, outer, at } => {
            let fault = PartFault::InsideOpening {
                inner: name(inner),
                outer: name(outer),
                at,
            };
            DesignError::new(fault, place(inner))
                .with_also(place(outer), format!("`{}` is here", name(outer)))
                .with_help("take one of the two out")
        }
    }
}
