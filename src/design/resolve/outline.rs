//! An outline as written, handed to the profile builder.

use super::amounts::Amounts;
use super::fault::PartFault;
use super::sources::Sources;
use crate::design::error::DesignError;
use crate::design::file;
use crate::design::located::Amount;
use crate::design::part::Corner;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Round;
use crate::design::source::Place;
use crate::geometry::SourceId;
use crate::geometry::construct::ReliefDirection;
use crate::geometry::fair_curve::BattenEnd;
use crate::geometry::number;
use crate::geometry::number::shown;
use crate::geometry::outline;
use crate::geometry::outline::BothFixedBy;
use crate::geometry::outline::BuiltOutline;
use crate::geometry::outline::EdgeShape;
use crate::geometry::outline::Encloses;
use crate::geometry::outline::FairEdge;
use crate::geometry::outline::OutlineError;
use crate::geometry::outline::OutlineFault;
use crate::geometry::outline::OutlinePart;
use crate::geometry::outline::Side;
use crate::geometry::outline::Treatment;
use crate::geometry::tolerance;

/// An outline built, with its features.
#[derive(Debug)]
pub(super) struct Outline {
    pub(super) built: BuiltOutline,
    pub(super) corners: Vec<Corner>,
    pub(super) rounds: Vec<Round>,
    pub(super) edges: Vec<Edge>,
}

/// Builds an outline; `None` when something was wrong with it, which has been reported.
pub(super) fn outline(
    entries: &[file::Entry],
    (place, encloses): (Place, Encloses),
    sources: &mut Sources,
    amounts: &mut Amounts<'_>,
) -> Option<Outline> {
    // every entry is read before any is missed, so that all faults are told
    let typed: Vec<_> = entries.iter().map(|entry| typed(entry, amounts)).collect();
    let states: Vec<_> = entries.iter().map(|entry| state(entry, amounts)).collect();
    let typed: Vec<outline::Entry> = typed.into_iter().collect::<Option<_>>()?;
    let states: Vec<EdgeState> = states.into_iter().collect::<Option<_>>()?;
    let first_source = sources.next();
    for (index, entry) in entries.iter().enumerate() {
        let what = match entry {
            file::Entry::Corner(_) => "corner",
            file::Entry::Round(_) => "round",
        };
        sources.add(
            format!("the {what} `{}`", entry.name().value),
            entry.place(),
        );
        let edge_place = entry
            .edge()
            .map_or_else(|| entry.place(), |edge| edge.place);
        sources.add(
            format!("the edge `{}`", edge_name(entries, index)),
            edge_place,
        );
    }
    match outline::build_with_sources(&typed, encloses, first_source) {
        Ok(built) => {
            if built.turned {
                let notice = DesignError::notice(PartFault::Turned, place);
                amounts.report(notice.with_help(
                    "nothing to do; write the entries the other way round to be rid of this notice",
                ));
            }
            Some(features(entries, states, built, first_source))
        }
        Err(error) => {
            amounts.report(place_error(entries, place, error));
            None
        }
    }
}

fn typed(entry: &file::Entry, amounts: &mut Amounts<'_>) -> Option<outline::Entry> {
    let edge = match entry.edge() {
        Some(edge) => {
            let name = edge
                .value
                .name
                .as_ref()
                .map(|name| name.value.clone())
                .unwrap_or_default();
            let breakpoints = amounts.breakpoints(edge.place);
            shape(&edge.value.shape, amounts).map(|shape| outline::Edge {
                name,
                shape,
                breakpoints,
            })
        }
        None => Some(outline::Edge::default()),
    };
    let name = entry.name().value.clone();
    let place = match entry {
        file::Entry::Corner(corner) => {
            let corner = &corner.value;
            let treatment = treatment(&corner.treatment, amounts);
            let at = amounts.point(&corner.at);
            outline::Place::Corner {
                at: at?,
                treatment: treatment?,
            }
        }
        file::Entry::Round(round) => {
            let round = &round.value;
            let (about, radius) = (amounts.point(&round.about), amounts.length(&round.radius));
            let side = match round.side {
                file::RoundSide::Full => Side::Full,
                file::RoundSide::Hollow => Side::Hollow,
            };
            outline::Place::Round {
                about: about?,
                radius: radius?,
                side,
            }
        }
    };
    Some(outline::Entry {
        name,
        place,
        edge: edge?,
    })
}

fn treatment(written: &file::CornerTreatment, amounts: &mut Amounts<'_>) -> Option<Treatment> {
    Some(match written {
        file::CornerTreatment::Sharp => Treatment::Sharp,
        file::CornerTreatment::Fillet(radius) => Treatment::Fillet(amounts.length(radius)?),
        file::CornerTreatment::Chamfer(file::OneOrPair::One(both)) => {
            let both = amounts.length(both)?;
            Treatment::Chamfer(both, both)
        }
        file::CornerTreatment::Chamfer(file::OneOrPair::Two(two)) => {
            let [before, after] = amounts.lengths(two)?;
            Treatment::Chamfer(before, after)
        }
        file::CornerTreatment::Relief(written) => relief(written, amounts)?,
    })
}

fn shape(written: &file::EdgeShape, amounts: &mut Amounts<'_>) -> Option<EdgeShape> {
    Some(match written {
        file::EdgeShape::Straight => EdgeShape::Straight,
        file::EdgeShape::Full(radius) => EdgeShape::Radius(Side::Full, amounts.length(radius)?),
        file::EdgeShape::Hollow(radius) => EdgeShape::Radius(Side::Hollow, amounts.length(radius)?),
        file::EdgeShape::FullBy(bow) => EdgeShape::Bow(Side::Full, amounts.length(bow)?),
        file::EdgeShape::HollowBy(bow) => EdgeShape::Bow(Side::Hollow, amounts.length(bow)?),
        file::EdgeShape::Through(point) => EdgeShape::Through(amounts.point(point)?),
        file::EdgeShape::TangentToPrevious => EdgeShape::TangentToPrevious,
        file::EdgeShape::TangentToBoth(fix) => EdgeShape::TangentToBoth(match fix {
            file::BothFix::Radius(radius) => BothFixedBy::Radius(amounts.length(radius)?),
            file::BothFix::Crown(height) => BothFixedBy::Crown(amounts.length(height)?),
            file::BothFix::Through(point) => BothFixedBy::Through(amounts.point(point)?),
        }),
        file::EdgeShape::FullRound => EdgeShape::FullRound,
        file::EdgeShape::Fair(fair) => EdgeShape::Fair(fair_edge(fair, amounts)?),
        file::EdgeShape::Ellipse => EdgeShape::EllipticalQuarter,
    })
}

fn fair_edge(fair: &file::Fair, amounts: &mut Amounts<'_>) -> Option<FairEdge> {
    // every station is read before any is missed, so that all faults are told
    let stations: Vec<_> = fair
        .stations
        .iter()
        .map(|pair| amounts.point(pair))
        .collect();
    let mut held = |direction: Option<&Amount>| match direction {
        Some(angle) => Some(BattenEnd::Direction(number::unit(amounts.angle(angle)?))),
        None => Some(BattenEnd::Natural),
    };
    let start = held(fair.start_direction.as_ref());
    let end = held(fair.end_direction.as_ref());
    Some(FairEdge {
        stations: stations.into_iter().collect::<Option<_>>()?,
        start: start?,
        end: end?,
        tolerance: tolerance::FITTED_CURVE,
    })
}

fn state(entry: &file::Entry, amounts: &mut Amounts<'_>) -> Option<EdgeState> {
    let Some(edge) = entry.edge() else {
        return Some(EdgeState::Cut);
    };
    Some(match &edge.value.state {
        file::EdgeState::Cut => EdgeState::Cut,
        file::EdgeState::PlateEdge => EdgeState::PlateEdge,
        file::EdgeState::TrimAtFitting => EdgeState::TrimAtFitting,
        file::EdgeState::LeaveOn(strip) => {
            let width = amounts.length(strip)?;
            if width <= 0.0 {
                let name = edge.value.name.as_ref().map(|name| name.value.clone());
                let edge = name.unwrap_or_else(|| entry.name().value.clone());
                let fault = PartFault::StripNotPositive { edge, width };
                amounts.fault(
                    fault,
                    strip.place,
                    "give the strip a width, or cut the edge",
                );
                return None;
            }
            EdgeState::LeaveOn(width)
        }
    })
}

fn features(
    entries: &[file::Entry],
    states: Vec<EdgeState>,
    built: BuiltOutline,
    first_source: u32,
) -> Outline {
    let name = |index: usize| entries[index].name().value.clone();
    let source = |index: usize| SourceId(first_source.saturating_add(2 * number_of(index)));
    let corners = built.corners.iter().map(|corner| Corner {
        name: name(corner.entry),
        source: source(corner.entry),
        sharp: corner.sharp,
        worked: corner.worked,
        place: entries[corner.entry].place(),
    });
    let rounds = built.rounds.iter().map(|round| Round {
        name: name(round.entry),
        source: source(round.entry),
        centre: round.centre,
        radius: round.radius,
        arc: round.arc,
        place: entries[round.entry].place(),
    });
    let mut source = first_source + 1;
    let mut edges = Vec::with_capacity(entries.len());
    for (edge, state) in built.edges.iter().zip(states) {
        let entry = &entries[edge.entry];
        edges.push(Edge {
            name: edge_name(entries, edge.entry),
            source: SourceId(source),
            state,
            sharp: edge.sharp.clone(),
            finished: edge.finished.clone(),
            curve: edge.curve.clone(),
            place: entry
                .edge()
                .map_or_else(|| entry.place(), |edge| edge.place),
        });
        source += 2;
    }
    Outline {
        corners: corners.collect(),
        rounds: rounds.collect(),
        edges,
        built,
    }
}

fn number_of(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX / 2)
}

/// The name of the edge that leaves an entry, made from its ends when the file gives none.
fn edge_name(entries: &[file::Entry], index: usize) -> String {
    let entry = &entries[index];
    let own = entry.edge().and_then(|edge| edge.value.name.as_ref());
    own.map_or_else(
        || {
            let next = &entries[(index + 1) % entries.len()];
            format!("{} to {}", entry.name().value, next.name().value)
        },
        |name| name.value.clone(),
    )
}

/// Gives a fault of the builder its place in the file and a way out.
fn place_error(entries: &[file::Entry], place: Place, error: OutlineError) -> DesignError {
    let found = entries
        .get(error.entry)
        .map_or(place, |entry| match error.part {
            OutlinePart::Place => {
                treatment_place(entry, &error.fault).unwrap_or_else(|| entry.place())
            }
            OutlinePart::Edge => entry
                .edge()
                .map_or_else(|| entry.place(), |edge| edge.place),
        });
    let help = help(&error.fault);
    DesignError::new(error.fault, found).with_help(help)
}

/// The very amount at fault, where there is one.
fn treatment_place(entry: &file::Entry, fault: &OutlineFault) -> Option<Place> {
    match (entry, fault) {
        (
            file::Entry::Corner(corner),
            OutlineFault::TreatmentTooLarge { .. }
            | OutlineFault::TreatmentsOverlap { .. }
            | OutlineFault::NotPositive { .. },
        ) => match &corner.value.treatment {
            file::CornerTreatment::Fillet(radius) => Some(radius.place),
            file::CornerTreatment::Chamfer(file::OneOrPair::One(both)) => Some(both.place),
            file::CornerTreatment::Chamfer(file::OneOrPair::Two(two)) => Some(two.place),
            _ => None,
        },
        (file::Entry::Round(round), OutlineFault::NotPositive { .. }) => {
            Some(round.value.radius.place)
        }
        _ => None,
    }
}

fn help(fault: &OutlineFault) -> String {
    match fault {
        OutlineFault::TooFewEntries(_) => "add corners or rounds to the outline".into(),
        OutlineFault::NotPositive { .. } => {
            "give a size above 0; leave the key out for none".into()
        }
        OutlineFault::NoStraightTangent { .. } => {
            "move them apart, or make the round smaller".into()
        }
        OutlineFault::ZeroLengthEdge { .. } => "take one of the two corners out".into(),
        OutlineFault::RadiusTooSmall { least, .. } => {
            format!(
                "use a radius of at least {} mm, or give the bow instead",
                shown(least)
            )
        }
        OutlineFault::BowTooLarge { most, .. } => {
            format!("use a bow of at most {} mm", shown(most))
        }
        OutlineFault::PointOutOfReach { .. } => {
            "move the point off the straight line between the two, and between them".into()
        }
        OutlineFault::LeavesRound(_) => "leave `tangent_to_previous` out".into(),
        OutlineFault::NoDirection => "give one of these edges a radius or a bow".into(),
        OutlineFault::NoTangentArc { .. } => "give the edge a radius or a bow instead".into(),
        OutlineFault::NeedsSharpCorner(_) => "take the fillet, chamfer or round away there".into(),
        OutlineFault::NeighbourNotStraight(_) => {
            "make both neighbours straight, or use `through`".into()
        }
        OutlineFault::ParallelNeighbours { apart, .. } => {
            format!("use radius = {}, or give `crown`", shown(&(apart / 2.0)))
        }
        OutlineFault::NoArcBetween => "fix the arc by `crown` or by a point it runs through".into(),
        OutlineFault::TouchesBeyond { .. } => {
            "move the corners outward, or make the arc flatter".into()
        }
        OutlineFault::NoCorner(_) => "take the fillet or chamfer away".into(),
        OutlineFault::TreatmentTooLarge { largest, .. } => {
            format!(
                "use at most {} mm here, or make the edges beside it longer",
                shown(largest)
            )
        }
        OutlineFault::TreatmentsOverlap { .. } => {
            "make one of the two smaller, or the edge between them longer".into()
        }
        OutlineFault::CurveNeedsCorner(_) => {
            "put a corner there, with a fillet if it is to be round".into()
        }
        OutlineFault::NoQuarter => {
            "turn the edges before and after towards each other, or use a fair curve".into()
        }
        OutlineFault::Curve(_) => "look at the stations of this curve".into(),
        OutlineFault::Corner { what, .. } => format!("take the {what} away, or move the corner"),
        OutlineFault::CrossesItself { .. } => {
            "check the order of the entries, and which side the bows and rounds are on".into()
        }
        _ => "check the numbers of this outline".into(),
    }
}

/// The relief of an inside corner.
pub(super) fn relief(relief: &file::Relief, amounts: &mut Amounts<'_>) -> Option<Treatment> {
    let direction = match relief.into.as_ref().map(|into| into.value) {
        Some(file::ReliefSide::EdgeBefore) => ReliefDirection::AlongAfter,
        Some(file::ReliefSide::EdgeAfter) => ReliefDirection::AlongBefore,
        Some(file::ReliefSide::Both) | None => ReliefDirection::Bisector,
    };
    let cutter = amounts.length(&relief.cutter)?;
    Some(Treatment::Relief(cutter / 2.0, direction))
}
