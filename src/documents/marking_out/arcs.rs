//! Arcs for the beam compass, and for a batten where the centre cannot be used.

use crate::design::part::Corner;
use crate::design::part::Edge;
use crate::design::part::Features;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::design::part::Round;
use crate::documents::features;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::nearest;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Radius beyond which a beam compass is no handy tool, in millimetres (common practice: a bar of
/// 1.5 m).
pub(super) const LONGEST_BEAM: f64 = 1500.0;

/// Largest radius that a hole saw is taken for, in millimetres (common practice: sets end at about 100 mm).
const LARGEST_DRILLED: f64 = 50.0;

/// Where the centre of an arc lies.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Centre {
    /// On the finished part.
    OnPart,
    /// In an opening of this name: there until it is cut.
    InOpening(String),
    /// Beside the finished part but within its overall rectangle: there until the waste is cut off.
    InWaste,
    /// Outside the overall rectangle.
    OffPlate,
}

/// An arc of the outline.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct NamedArc {
    /// What it is.
    pub(super) name: String,
    /// Its geometry.
    pub(super) arc: Arc,
    /// Where its centre lies.
    pub(super) centre: Centre,
    /// Diameter of the drill or hole saw that makes it, in millimetres, where one can.
    pub(super) drill: Option<f64>,
}

impl NamedArc {
    /// Whether it is drawn with a batten over its chord instead of from its centre.
    pub(super) fn needs_chord(&self) -> bool {
        self.centre == Centre::OffPlate || self.arc.radius() > LONGEST_BEAM
    }

    /// How to draw it, or to make it.
    pub(super) fn method(&self, unit: LengthUnit) -> String {
        if let Some(diameter) = self.drill {
            return format!(
                "compass, or drill Ø {} there",
                features::length(diameter, unit)
            );
        }
        if self.needs_chord() {
            return "chord and heights, see its table".to_owned();
        }
        match &self.centre {
            Centre::OnPart => "compass".to_owned(),
            Centre::InOpening(name) => format!("compass, before “{name}” is cut out"),
            Centre::InWaste => "compass, before the waste is cut off".to_owned(),
            Centre::OffPlate => "chord and heights".to_owned(),
        }
    }

    /// Where its centre lies, in words.
    pub(super) fn centre_words(&self) -> String {
        match &self.centre {
            Centre::OnPart => "on the part".to_owned(),
            Centre::InOpening(name) => format!("in “{name}”"),
            Centre::InWaste => "in the waste".to_owned(),
            Centre::OffPlate => "off the plate".to_owned(),
        }
    }
}

/// The arcs of the outline and of openings: rounded corners, rounds, and edges that are one arc.
pub(super) fn arcs(part: &Part) -> Vec<NamedArc> {
    let named = |(name, arc): (String, Arc)| NamedArc {
        name,
        arc,
        centre: centre(part, arc.centre()),
        drill: None,
    };
    let own = of_features("", (&part.corners, &part.rounds, &part.edges));
    let mut arcs: Vec<NamedArc> = own.into_iter().map(named).collect();
    for opening in &part.openings {
        let Features {
            corners,
            rounds,
            edges,
            ..
        } = &opening.features;
        let of = format!("{}: ", opening.name);
        let mut all = of_features(&of, (corners, rounds, edges));
        all.extend(of_rectangle(part, opening));
        let hole = part.region.holes().get(opening.hole);
        arcs.extend(all.into_iter().map(named).map(|arc| NamedArc {
            drill: hole.and_then(|hole| drill(hole, &arc.arc)),
            ..arc
        }));
    }
    arcs
}

fn of_features(
    of: &str,
    (corners, rounds, edges): (&[Corner], &[Round], &[Edge]),
) -> Vec<(String, Arc)> {
    let corners = corners.iter().filter_map(|corner| match corner.worked {
        Some(Segment::Arc(arc)) => Some((&corner.name, arc)),
        _ => None,
    });
    let rounds = rounds
        .iter()
        .filter_map(|round| Some((&round.name, round.arc?)));
    let edges = edges
        .iter()
        .filter_map(|edge| match edge.finished.as_slice() {
            [Segment::Arc(arc)] => Some((&edge.name, *arc)),
            _ => None,
        });
    corners
        .chain(rounds)
        .chain(edges)
        .map(|(name, arc)| (format!("{of}{name}"), arc))
        .collect()
}

/// The sharp corners of a rectangle, number 1 first: lower left as it is drawn before it is turned, then
/// anticlockwise.
pub(super) fn rectangle_corners(
    centre: Point,
    (width, height): (f64, f64),
    angle: f64,
) -> [Point; 4] {
    [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)]
        .map(|(x, y)| centre + number::rotated(Vec2::new(x * width, y * height), angle))
}

/// The rounded or relieved corners of a rectangular opening, each with the number of its sharp corner; none for
/// another opening.
pub(super) fn of_rectangle(part: &Part, opening: &Opening) -> Vec<(String, Arc)> {
    let OpeningShape::Rectangle {
        centre,
        width,
        height,
        angle,
        relief,
        ..
    } = opening.shape
    else {
        return Vec::new();
    };
    let what = if relief > 0.0 { "relief" } else { "corner" };
    let corners = rectangle_corners(centre, (width, height), angle);
    let number = |arc: &Arc| {
        let off = |corner: Point| number::length(arc.point_at(0.5) - corner);
        let numbered = (1..).zip(corners);
        numbered
            .min_by(|(_, a), (_, b)| off(*a).total_cmp(&off(*b)))
            .map_or(0, |(number, _)| number)
    };
    let hole = part.region.holes().get(opening.hole);
    let segments = hole.into_iter().flat_map(Contour::segments);
    let arcs = segments.filter_map(|segment| match segment {
        Segment::Arc(arc) => Some(*arc),
        Segment::Line(_) => None,
    });
    let mut arcs: Vec<(i32, Arc)> = arcs.map(|arc| (number(&arc), arc)).collect();
    arcs.sort_by_key(|(number, _)| *number);
    arcs.into_iter()
        .map(|(number, arc)| (format!("{}, {what} {number}", opening.name), arc))
        .collect()
}

/// The diameter of the round hole that makes an arc of an opening and takes nothing away beyond it, up to what
/// hole saws are sold for.
fn drill(hole: &Contour, arc: &Arc) -> Option<f64> {
    let (centre, radius) = (arc.centre(), arc.radius());
    let room = nearest::to_contour(centre, hole);
    let fits = is_inside(hole, centre) && room.nearest.distance >= radius - tolerance::DRAWN_CURVE;
    (fits && radius <= LARGEST_DRILLED).then_some(2.0 * radius)
}

/// Where a point lies.
fn centre(part: &Part, at: Point) -> Centre {
    if is_inside(part.region.outer(), at) {
        let opening = part.openings.iter().find(|opening| {
            let hole = part.region.holes().get(opening.hole);
            hole.is_some_and(|hole| is_inside(hole, at) && !features::is_drilled(opening))
        });
        return opening.map_or(Centre::OnPart, |opening| {
            Centre::InOpening(opening.name.clone())
        });
    }
    let running = part.datum.running(at);
    let bounds = features::running_bounds(part, part.region.outer());
    if bounds.contains(running.to_point()) {
        Centre::InWaste
    } else {
        Centre::OffPlate
    }
}

/// Whether a point lies inside a contour: the sum of the turns around it, exact for arcs.
///
/// # Source
/// Winding number, closed form.
pub(super) fn is_inside(contour: &Contour, at: Point) -> bool {
    let turned = |segment: &Segment| {
        let Segment::Arc(arc) = segment else {
            return number::turn(segment.start() - at, segment.end() - at);
        };
        // a sixteenth at a time: no step turns by half a turn or more
        let parts = (1..=16_u8).map(|step| {
            let share = |step: u8| f64::from(step) / 16.0;
            let (from, to) = (arc.point_at(share(step - 1)), arc.point_at(share(step)));
            let chord = number::turn(from - at, to - at);
            // between the chord and the arc the turn goes the other way round
            let in_segment = number::length(at - arc.centre()) < arc.radius()
                && (to - from).cross(at - from) * arc.sweep() < 0.0;
            if in_segment {
                chord + number::FULL_TURN * arc.turn().sign()
            } else {
                chord
            }
        });
        parts.sum()
    };
    let winding: f64 = contour.segments().map(turned).sum();
    winding.abs() > number::HALF_TURN
}

/// One station of an arc over its chord.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ordinate {
    /// Distance along the chord from its middle, in millimetres, to either side.
    pub(super) along: f64,
    /// Height over the chord, in millimetres.
    pub(super) height: f64,
}

/// Heights of an arc over its chord at round distances from the middle of the chord, to its end.
///
/// # Accuracy
/// Closed form, without the loss of digits of r − √(r² − x²) for flat arcs.
///
/// # Source
/// Circle through the chord: height = bow − x² / (r + √(r² − x²)).
pub(super) fn ordinates(arc: &Arc, unit: LengthUnit) -> Vec<Ordinate> {
    let half = number::length(arc.end() - arc.start()) / 2.0;
    let (radius, bow) = (arc.radius(), arc.bow());
    let height = |x: f64| bow - x * x / (radius + ((radius - x) * (radius + x)).max(0.0).sqrt());
    let step = round_step(half / 6.0, unit);
    let mut list = Vec::new();
    for index in 0..=12_u8 {
        let along = step * f64::from(index);
        // a station next to the end would only confuse
        if along > half - step / 4.0 {
            break;
        }
        list.push(Ordinate {
            along,
            height: height(along),
        });
    }
    list.push(Ordinate {
        along: half,
        height: 0.0,
    });
    list
}

/// The nearest larger of 1, 2, 5, 10 … of the unit (in inches also 1/2 and 1/4), in millimetres.
pub(super) fn round_step(at_least: f64, unit: LengthUnit) -> f64 {
    const STEPS: [f64; 12] = [
        0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0,
    ];
    let unit = unit.millimetres();
    let step = STEPS.iter().find(|&&step| step * unit >= at_least);
    step.map_or(at_least, |step| step * unit)
}
