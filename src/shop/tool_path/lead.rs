//! Leads: the way from the pierce onto the path, and off it again, in the waste.

use super::route::WasteSide;
use super::setting::Lead;
use super::setting::Setting;
use super::waste::Waste;
use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;

/// The parts of the asked length that are tried, the longest first.
const SHARES: [f64; 7] = [1.0, 0.8, 0.65, 0.5, 0.4, 0.3, 0.2];

/// Of the length of the way in: that of the way out.
const WAY_OUT: f64 = 0.5;

/// A way onto the path.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LeadIn {
    /// From the pierce to the path; empty where the cutter goes down on the path.
    pub(super) segments: Vec<Segment>,
    /// Its radius if it is round, else its length; that asked for if it is all there.
    pub(super) length: f64,
}

/// Where a path is joined or left.
#[derive(Clone, Copy, Debug)]
pub(super) struct Joint {
    pub(super) at: Point,
    pub(super) travel: Vec2,
    pub(super) waste: WasteSide,
}

/// The longest way in that stays in the waste, up to the length asked for; `None` if none does.
pub(super) fn lead_in(joint: Joint, setting: &Setting, waste: &Waste<'_>) -> Option<LeadIn> {
    if setting.lead == Lead::None {
        return Some(LeadIn {
            segments: Vec::new(),
            length: setting.lead_length,
        });
    }
    let round = SHARES.map(|share| (Lead::Arc, share));
    let straight = SHARES.map(|share| (Lead::Straight, share));
    let forms = match setting.lead {
        Lead::Arc => [round, straight],
        Lead::Straight | Lead::None => [straight, round],
    };
    let lead = forms.concat().into_iter().find_map(|(form, share)| {
        let length = setting.lead_length * share;
        let segment = match form {
            Lead::Arc => arriving_arc(joint, length, number::QUARTER_TURN),
            Lead::Straight | Lead::None => arriving_line(joint, length, number::QUARTER_TURN / 2.0),
        };
        usable(segment, setting, waste).then(|| LeadIn {
            segments: vec![segment],
            length,
        })
    });
    lead.or_else(|| on_the_path(joint, waste))
}

/// No way in: a tool that spoils no more than it cuts may go down on the path itself.
fn on_the_path(joint: Joint, waste: &Waste<'_>) -> Option<LeadIn> {
    waste.may_pierce(joint.at).then(|| LeadIn {
        segments: Vec::new(),
        length: 0.0,
    })
}

/// The way in from the centre of a round opening, half a circle, where the opening is small: piercing at
/// the centre is as far from the edge as can be.
pub(super) fn lead_from_centre(
    joint: Joint,
    path_radius: f64,
    setting: &Setting,
    waste: &Waste<'_>,
) -> Option<LeadIn> {
    let radius = path_radius / 2.0;
    if setting.lead == Lead::None || radius > setting.lead_length {
        return None;
    }
    let segment = match setting.lead {
        Lead::Straight => arriving_line(joint, path_radius, number::QUARTER_TURN),
        Lead::Arc | Lead::None => arriving_arc(joint, radius, number::HALF_TURN),
    };
    usable(segment, setting, waste).then(|| LeadIn {
        segments: vec![segment],
        // from the centre is as long as there is room for
        length: setting.lead_length,
    })
}

/// The way in square to the path, beside a bridge that it must leave whole.
pub(super) fn lead_square(joint: Joint, setting: &Setting, waste: &Waste<'_>) -> Option<LeadIn> {
    if setting.lead == Lead::None {
        return lead_in(joint, setting, waste);
    }
    let square = SHARES.into_iter().find_map(|share| {
        let length = setting.lead_length * share;
        let segment = arriving_line(joint, length, number::QUARTER_TURN);
        usable(segment, setting, waste).then(|| LeadIn {
            segments: vec![segment],
            length,
        })
    });
    square.or_else(|| on_the_path(joint, waste))
}

/// The longest way out that stays in the waste; empty if none does, which only leaves a mark where the
/// cut ends.
pub(super) fn lead_out(joint: Joint, setting: &Setting, waste: &Waste<'_>) -> Vec<Segment> {
    if setting.lead == Lead::None {
        return Vec::new();
    }
    let out = SHARES.into_iter().find_map(|share| {
        let length = setting.lead_length * share * WAY_OUT;
        // a way in, run backwards on the other side of the travel
        let backwards = Joint {
            travel: -joint.travel,
            waste: match joint.waste {
                WasteSide::Left => WasteSide::Right,
                WasteSide::Right => WasteSide::Left,
            },
            ..joint
        };
        let eighth = number::QUARTER_TURN / 2.0;
        let segment = match setting.lead {
            Lead::Arc => arriving_arc(backwards, length, eighth * 1.5),
            Lead::Straight | Lead::None => arriving_line(backwards, length, eighth),
        };
        waste.is_clear(&[segment]).then(|| segment.reversed())
    });
    out.into_iter().collect()
}

/// The shortest lead that is tried.
pub(super) fn least(setting: &Setting) -> f64 {
    setting.lead_length * SHARES.into_iter().fold(1.0, f64::min)
}

fn usable(segment: Segment, setting: &Setting, waste: &Waste<'_>) -> bool {
    // a pierce no wider than the cut may stand anywhere in the waste; a wider one must not reach the edge
    let length = segment.length();
    length > setting.kerf * 0.25 && waste.may_pierce(segment.start()) && waste.is_clear(&[segment])
}

/// An arc in the waste that comes onto the path tangent to it, through `sweep`.
fn arriving_arc(joint: Joint, radius: f64, sweep: f64) -> Segment {
    let centre = joint.at + joint.waste.normal(joint.travel) * radius;
    let back = -sweep * joint.waste.sign();
    let start = centre + number::rotated(joint.at - centre, back);
    Segment::Arc(Arc::from_centre(
        start,
        joint.at,
        centre,
        joint.waste.turn(),
    ))
}

/// A line in the waste that comes onto the path at `angle` to it.
fn arriving_line(joint: Joint, length: f64, angle: f64) -> Segment {
    let into = joint.waste.normal(joint.travel);
    let back = into * number::sin(angle) - joint.travel * number::cos(angle);
    Segment::line(joint.at + back * length, joint.at)
}
