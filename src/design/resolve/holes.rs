//! Holes by purpose: the size from the table of screws, and how the hole is made.

use super::amounts::Amounts;
use super::fault::PartFault;
use super::openings;
use super::openings::Built;
use crate::design::file;
use crate::design::file::ClearanceSeries;
use crate::design::file::HolePurpose;
use crate::design::part::Made;
use crate::design::part::ScrewHole;
use crate::design::part::ScrewPurpose;
use crate::trade::screws;

/// The hole about its own centre: of the diameter that it has before it is tapped, and after it is reamed.
pub(super) fn shape(hole: &file::Hole, amounts: &mut Amounts<'_>) -> Option<Built> {
    let place = hole.screw.place;
    let screw = match screws::find(&hole.screw.value) {
        Ok(screw) => screw,
        Err(error) => {
            let fault = PartFault::UnknownScrew(error);
            amounts.fault(fault, place, "name the screw as in `for = \"M8\"`");
            return None;
        }
    };
    let [fine, medium, coarse] = screw.clearance;
    let through = match hole.fit.as_ref().map(|fit| fit.value) {
        Some(ClearanceSeries::Fine) => fine,
        Some(ClearanceSeries::Medium) | None => medium,
        Some(ClearanceSeries::Coarse) => coarse,
    };
    let (diameter, purpose) = match hole.purpose.value {
        HolePurpose::Clearance => (through, ScrewPurpose::Clearance),
        HolePurpose::Tapped => {
            let pitch = screw.pitch;
            (screw.tapping_drill, ScrewPurpose::Tapped { pitch })
        }
        HolePurpose::Reamed => {
            let drill = screw.reaming_drill();
            (screw.diameter, ScrewPurpose::Reamed { drill })
        }
        HolePurpose::Countersunk => {
            let Some(head) = screw.head else {
                let fault = PartFault::NoCountersink { screw: screw.name };
                amounts.fault(fault, place, "take a smaller screw, or a clearance hole");
                return None;
            };
            let purpose = ScrewPurpose::Countersunk {
                diameter: head,
                angle: screw.head_angle,
            };
            (through, purpose)
        }
    };
    let screw = ScrewHole {
        screw: screw.name,
        purpose,
    };
    openings::round(diameter, Some(screw), place, amounts)
}

/// How an opening is made: tapped and reamed holes are drilled, all others cut unless the file says else.
pub(super) fn made(opening: &file::Opening, amounts: &mut Amounts<'_>) -> Made {
    let must_be_drilled = match &opening.shape {
        file::OpeningShape::Hole(hole) => match hole.purpose.value {
            HolePurpose::Tapped => Some("tapped"),
            HolePurpose::Reamed => Some("reamed"),
            HolePurpose::Clearance | HolePurpose::Countersunk => None,
        },
        _ => None,
    };
    match (&opening.make, must_be_drilled) {
        (Some(make), Some(purpose)) if make.value == file::Make::Cut => {
            let fault = PartFault::MustBeDrilled {
                opening: opening.name.value.clone(),
                purpose,
            };
            amounts.fault(fault, make.place, "leave `make` out");
            Made::Drilled
        }
        (_, Some(_)) => Made::Drilled,
        (Some(make), None) if make.value == file::Make::Drill => Made::Drilled,
        (_, None) => Made::Cut,
    }
}
