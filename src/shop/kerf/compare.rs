//! The comparison itself.

use super::AsCut;
use super::KerfError;
use super::case;
use super::case::Case;
use super::case::CaseResult;
use super::case::Kerf;
use super::judged::Judged;
use super::judged::Kind;
use super::judged::Mend;
use super::standing;
use super::standing::Concern;
use super::standing::Standing;
use super::work::Work;
use super::work::work;
use crate::design::Dimensions;
use crate::design::part::Part;
use crate::geometry::nearest::InsideCorner;
use crate::trade::Material;
use crate::trade::Process;
use crate::trade::processes::Origin;
use crate::trade::processes::Suits;

/// A way of cutting to be compared, with a kerf of one's own if wanted.
#[derive(Clone, Debug)]
pub struct Wanted<'a> {
    /// The process.
    pub process: &'a Process,
    /// Its kerf in millimetres, if another than the process says; it keeps the spread of the process.
    pub kerf: Option<f64>,
}

/// What one way of cutting does to a part.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// The process.
    pub process: Process,
    /// The thickness that its figures are for, in millimetres.
    pub thickness: f64,
    /// Its kerf.
    pub kerf: Kerf,
    /// By how much a cut face leans, in millimetres.
    pub taper: f64,
    /// Why it is not for the material, if it is not.
    pub refused: Option<String>,
    /// What may happen, and what it does; nothing if it is not for the material.
    pub cases: Vec<CaseResult>,
    /// The sharpest inside corner that is left when all goes right.
    pub corner: InsideCorner,
    /// What it takes; none if it is not for the material.
    pub work: Option<Work>,
    /// What speaks against it.
    pub concerns: Vec<Concern>,
    /// How it stands.
    pub standing: Standing,
    /// The narrowest room in the limits and fits of the design when the shop compensates, over the ends of
    /// the kerf and both faces, in millimetres, and where, in [`judged`](super::judged()).
    pub room: Option<(f64, usize)>,
}

impl Comparison {
    /// What it does in a case.
    pub fn case(&self, case: Case) -> Option<&CaseResult> {
        self.cases.iter().find(|result| result.case == case)
    }

    /// What of the limits and fits of the design breaks in a case: the worst first, with its reading.
    pub fn broken<'a>(
        &'a self,
        case: Case,
        all: &'a [Judged],
    ) -> Vec<(&'a Judged, &'a super::Reading)> {
        self.outside(case, all, |kind| kind != Kind::General)
    }

    /// What is outside the general tolerance in a case: the worst first. It fails no part.
    pub fn beyond_general<'a>(
        &'a self,
        case: Case,
        all: &'a [Judged],
    ) -> Vec<(&'a Judged, &'a super::Reading)> {
        self.outside(case, all, |kind| kind == Kind::General)
    }

    fn outside<'a>(
        &'a self,
        case: Case,
        all: &'a [Judged],
        is_meant: impl Fn(Kind) -> bool,
    ) -> Vec<(&'a Judged, &'a super::Reading)> {
        let Some(result) = self.case(case) else {
            return Vec::new();
        };
        let mut broken: Vec<_> = all
            .iter()
            .zip(&result.readings)
            .filter(|(judged, reading)| {
                // what no cut moves is not the cut's doing
                is_meant(judged.kind)
                    && judged.mend != Mend::Nothing
                    && (reading.is_gone() || reading.room.is_some_and(|room| room < -1e-6))
            })
            .collect();
        let severity = |judged: &Judged, reading: &super::Reading| {
            let scrap = reading
                .worst
                .is_some_and(|worst| !judged.can_be_filed(worst));
            (!reading.is_gone(), !scrap, reading.room.unwrap_or(0.0))
        };
        broken.sort_by(|a, b| {
            let (a, b) = (severity(a.0, a.1), severity(b.0, b.1));
            (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2))
        });
        broken
    }

    /// How it stands: sure figures may fail a part, others only cast doubt.
    fn stands(&self, all: &[Judged]) -> Standing {
        let every = [Case::Right, Case::Narrow, Case::Wide];
        let goes_right = every.into_iter().all(|case| self.holds(case, all));
        if self.concerns.iter().any(Concern::is_sure) {
            return Standing::DoesNotFit;
        }
        if goes_right {
            return if self.concerns.is_empty() {
                Standing::Fits
            } else if self.concerns.iter().any(Concern::is_unlikely) {
                Standing::Unsure
            } else {
                Standing::FitsWithCare
            };
        }
        let stated = |origin: &Origin| matches!(origin, Origin::Stated { .. });
        let sure = stated(&self.process.kerf.origin)
            && self
                .process
                .taper
                .as_ref()
                .is_none_or(|taper| stated(&taper.origin));
        let right = self.case(Case::Right);
        let as_it_should_be = right.is_some_and(|result| {
            let inside = |(judged, reading): (&Judged, &super::Reading)| {
                judged.kind == Kind::General
                    || judged.mend == Mend::Nothing
                    || reading
                        .middle
                        .is_some_and(|value| judged.room(value).is_none_or(|room| room >= -1e-6))
            };
            result.lost.is_empty() && all.iter().zip(&result.readings).all(inside)
        });
        if as_it_should_be && !sure {
            Standing::Unsure
        } else {
            Standing::DoesNotFit
        }
    }

    /// Whether no limit or fit of the design breaks and nothing is lost in a case.
    pub fn holds(&self, case: Case, all: &[Judged]) -> bool {
        self.broken(case, all).is_empty()
            && self.case(case).is_some_and(|result| result.lost.is_empty())
    }
}

/// What is to be cut, and what it is judged by.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The part.
    pub part: &'a Part,
    /// What it is judged by.
    pub judged: &'a [Judged],
    /// The dimensions that measures may speak of.
    pub dimensions: &'a Dimensions,
    /// Its material, if it is known: otherwise nothing is refused, and no feed and no weight is known.
    pub material: Option<&'a Material>,
    /// Its thickness in millimetres.
    pub thickness: f64,
}

/// Compares ways of cutting for a part, the best first: what fits before what does not, what stands a
/// shop that does not compensate before what does not, more room before less; at last by the general
/// tolerance.
///
/// # Errors
/// [`KerfError::NotACut`] for a kerf that is none, [`KerfError::WiderThanPart`]; [`KerfError::Offset`]
/// where a shape cannot be certified.
pub fn compare(asked: &Asked<'_>, wanted: &[Wanted<'_>]) -> Result<Vec<Comparison>, KerfError> {
    let all = asked.judged;
    let mut found: Vec<Comparison> = wanted
        .iter()
        .map(|wanted| one(asked, wanted))
        .collect::<Result<_, _>>()?;
    found.sort_by(|a, b| {
        let key = |comparison: &Comparison| {
            (
                comparison.standing,
                comparison.concerns.iter().any(Concern::is_unlikely),
                !comparison.holds(Case::NotCompensated, all),
            )
        };
        let room = |comparison: &Comparison| comparison.room.map_or(0.0, |(room, _)| room);
        let general = |comparison: &Comparison| {
            standing::narrowest_room(comparison, all, true).map_or(0.0, |(room, _)| room)
        };
        key(a)
            .cmp(&key(b))
            .then(room(b).total_cmp(&room(a)))
            .then(general(b).total_cmp(&general(a)))
    });
    Ok(found)
}

fn one(asked: &Asked<'_>, wanted: &Wanted<'_>) -> Result<Comparison, KerfError> {
    let Asked {
        part,
        judged: all,
        material,
        thickness,
        ..
    } = *asked;
    let process = wanted.process;
    let figure = &process.kerf;
    let value = wanted.kerf.unwrap_or_else(|| figure.at(thickness));
    let kerf = Kerf {
        value,
        // a spread wider than the kerf itself would leave no cut
        low: (value - figure.below).max(0.1 * value),
        high: value + figure.above,
    };
    usable(part, kerf)?;
    let taper = process
        .taper
        .as_ref()
        .map_or(0.0, |taper| taper.at(thickness));
    let refused = material.and_then(|material| match process.suits(material) {
        Suits::Yes => None,
        Suits::DoesNotCut => Some(format!("does not cut {}", material.name)),
        Suits::Never(refusal) => Some(format!("never {}: {}", material.name, refusal.why)),
    });
    let mut comparison = Comparison {
        process: process.clone(),
        thickness,
        kerf,
        taper,
        refused,
        cases: Vec::new(),
        corner: InsideCorner::None,
        work: None,
        concerns: Vec::new(),
        standing: Standing::NotForThis,
        room: None,
    };
    if comparison.refused.is_some() {
        return Ok(comparison);
    }
    let cut = AsCut::new(part, kerf.high + taper)?;
    for case in Case::ALL {
        let result = case::result(case, &cut, kerf, taper, asked)?;
        comparison.cases.push(result);
    }
    comparison.work = Some(work(&cut, process, kerf, material, thickness)?);
    comparison.corner = cut.sharpest_corner(0.5 * kerf.value)?;
    comparison.room = standing::narrowest_room(&comparison, all, false);
    comparison.concerns = standing::concerns(part, process, thickness);
    if let (Some(tolerance), Some((room, judged))) = (&process.tolerance, comparison.room) {
        let usual = tolerance.at(thickness);
        if room >= 0.0 && usual > room {
            comparison.concerns.push(Concern::Inexact {
                usual,
                room,
                judged,
                sure: tolerance.origin.is_authority(),
            });
        }
    }
    comparison.standing = comparison.stands(all);
    Ok(comparison)
}

fn usable(part: &Part, kerf: Kerf) -> Result<(), KerfError> {
    if !(kerf.value > 0.0 && kerf.value.is_finite()) {
        return Err(KerfError::NotACut { kerf: kerf.value });
    }
    let bounds = part.region.bounds();
    let most = bounds.width().min(bounds.height());
    if kerf.high >= most {
        return Err(KerfError::WiderThanPart {
            kerf: kerf.value,
            part: part.name.clone(),
            most,
        });
    }
    Ok(())
}
