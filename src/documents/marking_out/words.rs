//! The words of a marking-out sheet.

use super::arcs::NamedArc;
use super::checks;
use super::reach::Reach;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::documents::features;
use crate::documents::features::Form;
use crate::geometry::LengthUnit;
use crate::sheet::number::trimmed;
use crate::trade::cautions;
use crate::trade::cautions::Step;
use crate::trade::materials;
use crate::trade::materials::Family;
use crate::trade::materials::Material;

/// About lines that cut into the face, and marks of hole centres, in a material: common practice.
pub(super) fn scribing(part: &Part) -> &'static str {
    match material(part).map(|material| material.family) {
        Some(Family::Wood) => {
            "A knife cuts the fibres of the face, and the line shows through varnish for good. On a face \
             that stays, mark with a sharp pencil; take the knife only to a line that is cut, where it \
             keeps the face from splintering. Prick hole centres lightly with an awl."
        }
        Some(Family::Laminate | Family::Plastic) => {
            "A scratch is where a crack starts, and it shows for good. On a face that stays, mark with a \
             fine marker on masking tape or on the protecting film; scratch only in the waste. Mark hole \
             centres on the tape, and start them with a small drill."
        }
        _ => {
            "A scribed line is where a crack starts, and it shows for good. On a face that stays, mark \
             with a sharp pencil or a fine marker on layout dye; scribe only in the waste and where the \
             material will be worked away. Punch lightly, and only hole centres and what falls in the \
             waste."
        }
    }
}

/// What the part is made of, if it is known.
fn material(part: &Part) -> Option<&'static Material> {
    let plate = part.plate.as_ref()?;
    materials::find(&plate.material).ok()
}

/// What everything is measured from.
pub(super) fn datum(part: &Part) -> String {
    format!(
        "Everything is measured from one datum: {}. “Along” counts along this edge from its origin, \
         “square to it” into the part.",
        part.datum.words
    )
}

/// What to do, first to last.
pub(super) fn order_of_work(
    part: &Part,
    stamp: &Stamp,
    arcs: &[NamedArc],
    reach: &Reach,
) -> Vec<String> {
    let unit = stamp.unit;
    let length = |millimetres| features::length_with_unit(millimetres, unit);
    let mut steps = first_lines(part, unit, reach);
    for edge in &part.edges {
        let name = &edge.name;
        match edge.state {
            EdgeState::Cut => {}
            EdgeState::PlateEdge => steps.push(format!(
                "“{name}” is the plate's own edge: lay it on the edge, dress it, do not cut it."
            )),
            EdgeState::LeaveOn(width) => steps.push(format!(
                "“{name}”: leave on a strip of {} beyond the line; mark both lines.",
                length(width)
            )),
            EdgeState::TrimAtFitting => steps.push(format!(
                "“{name}” is trimmed at fitting: mark it, and cut it when the part is tried in place."
            )),
        }
    }
    steps.push("Mark all points by their running dimensions, then number them.".to_owned());
    steps.push("Draw the straight edges between their points.".to_owned());
    if arcs.iter().any(|arc| !arc.needs_chord()) {
        steps.push(
            "Swing the arcs about their centres, before anything with a centre on it is cut away; \
             stick on a scrap of plate rather than prick a finished face."
                .to_owned(),
        );
    }
    if arcs.iter().any(NamedArc::needs_chord) {
        steps.push("Draw the flat arcs over their chords with a batten.".to_owned());
    }
    for edge in &part.edges {
        if matches!(features::form(part, edge), Form::Curve(_)) {
            steps.push(format!(
                "“{}”: hold a batten on its points with weights, look along it from both ends, and draw.",
                edge.name
            ));
        }
    }
    for scribe in &part.scribes {
        steps.push(match &scribe.along {
            Some((edge, inset)) => format!(
                "“{}”: gauge it {} from “{edge}”, inside it, when that edge is finished; first draw, on both faces.",
                scribe.name,
                length(*inset)
            ),
            None => format!("“{}”: draw it through its points.", scribe.name),
        });
    }
    steps.push("Measure the check distances below and write them down.".to_owned());
    steps.push(
        "Drill first, then cut openings, then the outside; saw in the waste and file to the line."
            .to_owned(),
    );
    steps
}

/// The datum line, the square line and the rectangle around the part.
fn first_lines(part: &Part, unit: LengthUnit, reach: &Reach) -> Vec<String> {
    let length = |millimetres| features::length_with_unit(millimetres, unit);
    let mut steps = vec![
        match reach.beyond() {
            None => "Choose the datum edge of the plate, straighten it if it needs it, test it with a \
                     straightedge, and mark it."
                .to_owned(),
            Some(beyond) => format!(
                "The edge of the plate cannot be the datum edge: draw the datum line {} or more in from it, with a \
                 straightedge, and mark it.",
                length(beyond)
            ),
        },
        "Test the square: draw a line, turn the square over and draw again from the same point. Half of \
         the gap at the far end is its error."
            .to_owned(),
    ];
    steps.extend(reach.back().map(|back| {
        format!(
            "Mark the origin on the datum line, {} or more from the end of the plate that “along” counts away from.",
            length(back)
        )
    }));
    if let Some(angle) = checks::right_angle(part, unit) {
        steps.push(format!(
            "Raise the square line at the origin with a 3-4-5: {} along the datum edge, {} square to \
             it, {} between their ends. 1 mm wrong in the last is {} mm out of square in 1 m.",
            length(angle.along),
            length(angle.across),
            length(angle.third),
            trimmed(checks::sensitivity(&angle), 1)
        ));
    }
    let [from, to, near, far] = checks::overall(part).map(|at| checks::number(at, unit));
    steps.push(format!(
        "Draw the overall rectangle: along the datum edge from {from} to {to} {0}, square to it from {near} to {far} \
         {0}. The finished part lies within it, and its diagonals are checked below.",
        unit.symbol()
    ));
    steps
}

/// Cautions for work by hand, and those of the material if it is known.
pub(super) fn cautions(part: &Part) -> Vec<String> {
    let by_hand = |step: Step| step.is_by_hand() || matches!(step, Step::Always | Step::Handling);
    let of_material = material(part).into_iter().flat_map(Material::cautions);
    cautions::GENERAL
        .iter()
        .chain(of_material)
        .filter(|caution| by_hand(caution.step))
        .chain(heaviest(part).and_then(cautions::lifting))
        .map(|caution| caution.words.to_owned())
        .collect()
}

/// The weight in kilograms of the plate that the part is cut from, or of the part where the plate's size is
/// not known; none where its material or thickness is not.
fn heaviest(part: &Part) -> Option<f64> {
    let plate = part.plate.as_ref()?;
    let of_plate = plate.size.map_or(0.0, |(length, width)| length * width);
    let area = part.region.area().max(of_plate);
    Some(material(part)?.mass(area, plate.thickness?))
}
