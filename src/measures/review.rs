//! Everything that can be said of a design without moving any of its values.

use super::finish;
use super::finish::Budgets;
use super::fits;
use super::fits::Fitted;
use super::flatness;
use super::flatness::Flat;
use super::limits;
use super::limits::Judged;
use super::limits::Limit;
use super::limits::value_at;
use super::over_all;
use super::plates;
use super::plates::Gauged;
use super::stack::Bench;
use super::stack::Bent;
use super::stack::Watch;
use super::stack::ways_out;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::error::DesignErrorKind;
use crate::design::error::MeasureFault;

/// The limits, plates and fits of a design, judged.
#[derive(Clone, Debug, Default)]
pub struct Review {
    /// Its limits, in the order of the file: dimensions, then parts.
    pub limits: Vec<Judged>,
    /// Its plates.
    pub plates: Vec<Gauged>,
    /// How flat they are.
    pub flatnesses: Vec<Flat>,
    /// Its fits.
    pub fits: Vec<Fitted>,
    /// What is done to its edges and faces.
    pub budgets: Budgets,
    /// What is wrong, beside what [`Design::findings`] tells, by place in the file.
    pub findings: Vec<DesignError>,
}

/// Judges a design.
pub fn review(design: &Design) -> Review {
    let found = limits::limits(design);
    let mut findings = found.findings;
    let mut judged = Vec::new();
    for limit in &found.limits {
        let (one, wrong) = limits::judge(design, limit);
        // what is wrong on both hands is told of the original
        let is_told = |wrong: &DesignError| {
            findings.iter().any(|told: &DesignError| {
                (told.place, told.kind.name()) == (wrong.place, wrong.kind.name())
            })
        };
        let wrong: Vec<DesignError> = wrong.into_iter().filter(|one| !is_told(one)).collect();
        let told = wrong.into_iter().map(|finding| match &*finding.kind {
            DesignErrorKind::Measure(MeasureFault::LimitBroken { .. }) => {
                finding.with_help(way_out(design, &found.limits, limit))
            }
            _ => finding,
        });
        findings.extend(told);
        judged.push(one);
    }
    let (plates, wrong) = plates::plates(design);
    findings.extend(wrong);
    let (flatnesses, wrong) = flatness::flatnesses(design);
    findings.extend(wrong);
    let (fits, wrong) = fits::fits(design);
    findings.extend(wrong);
    let budgets = finish::budgets(design);
    findings.extend(budgets.findings.iter().cloned());
    findings.extend(over_all::findings(design));
    findings.extend(design.unused());
    findings.sort_by_key(|finding| finding.place);
    Review {
        limits: judged,
        plates,
        flatnesses,
        fits,
        budgets,
        findings,
    }
}

/// What can be changed so that a limit is kept that is broken as designed.
fn way_out(design: &Design, limits: &[Limit], limit: &Limit) -> String {
    let bench = Bench::new(design);
    let watch = Watch::new(&bench, limits);
    let value = |bent: &Bent| value_at(limit, &bent.dimensions, &bent.parts);
    ways_out(&bench, &watch, limit.permitted, &value).unwrap_or_else(|| {
        "no dimension that is free to change moves it: change the numbers in the outline".to_owned()
    })
}
