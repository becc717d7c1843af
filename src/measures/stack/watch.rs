//! What is watched while values move: limits, fits, plates, and what a design finds of itself.

use super::bench::Bench;
use super::bench::Bent;
use crate::design::DesignError;
use crate::design::Located;
use crate::design::Place;
use crate::design::dimensions::Permitted;
use crate::design::file::Fit;
use crate::measures::fits;
use crate::measures::limits::Limit;
use crate::measures::limits::LimitCheck;
use crate::measures::limits::value_at;

/// What breaks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stop {
    /// The limit of this name.
    Limit(String),
    /// The fit of this name.
    Fit(String),
    /// The part cannot be built: why, in words.
    Shape(String),
}

/// What must not break. What is broken as designed has its own row elsewhere and is left out here, on the
/// side where it is broken.
#[derive(Debug)]
pub(in crate::measures) struct Watch<'a> {
    limits: &'a [Limit],
    fits: &'a [Located<Fit>],
    /// How each limit, fit and plate stands as designed.
    limits_before: Vec<LimitCheck>,
    fits_before: Vec<LimitCheck>,
    plates_before: Vec<(String, LimitCheck)>,
    /// What the design finds of itself: the place and the short name.
    findings_before: Vec<(Place, &'static str)>,
}

impl<'a> Watch<'a> {
    /// Watches the limits, and the fits and plates of the design.
    pub(in crate::measures) fn new(bench: &Bench<'a>, limits: &'a [Limit]) -> Self {
        let mut watch = Self {
            limits,
            fits: &bench.design().file.fit,
            limits_before: Vec::new(),
            fits_before: Vec::new(),
            plates_before: Vec::new(),
            findings_before: Vec::new(),
        };
        if let Ok(centre) = bench.bent(&[]) {
            watch.limits_before = limits
                .iter()
                .map(|limit| limit_at(limit, &centre))
                .collect();
            watch.fits_before = watch.fits.iter().map(|fit| fit_at(fit, &centre)).collect();
            watch.plates_before = plates_at(&centre);
            let told = centre.findings.iter();
            watch.findings_before = told.map(|error| (error.place, error.kind.name())).collect();
        }
        watch
    }

    /// What a design at other values breaks that is whole as designed.
    pub(in crate::measures) fn stop(&self, bent: &Result<Bent, Vec<DesignError>>) -> Option<Stop> {
        let bent = match bent {
            Ok(bent) => bent,
            Err(errors) => {
                let first = errors.first().map(|error| error.kind.to_string());
                return Some(Stop::Shape(first.unwrap_or_default()));
            }
        };
        self.broken_limit(bent)
            .or_else(|| self.broken_fit(bent))
            .or_else(|| self.broken_plate(bent))
            .or_else(|| self.finding(bent))
    }

    fn broken_limit(&self, bent: &Bent) -> Option<Stop> {
        self.limits
            .iter()
            .zip(&self.limits_before)
            .find_map(|(limit, before)| match limit_at(limit, bent) {
                LimitCheck::Open if *before != LimitCheck::Open => Some(Stop::Shape(format!(
                    "`{}` cannot be measured any more",
                    limit.name
                ))),
                now => breaks(*before, now).then(|| Stop::Limit(limit.name.clone())),
            })
    }

    fn broken_fit(&self, bent: &Bent) -> Option<Stop> {
        self.fits
            .iter()
            .zip(&self.fits_before)
            .find(|(fit, before)| breaks(**before, fit_at(fit, bent)))
            .map(|(fit, _)| Stop::Fit(fit.value.what.value.clone()))
    }

    fn broken_plate(&self, bent: &Bent) -> Option<Stop> {
        let nothing_left = bent.parts.iter().find_map(|part| {
            let plate = part.plate.as_ref()?;
            let gone = plate.thickness.is_some_and(|thickness| thickness <= 0.0);
            gone.then(|| Stop::Shape(format!("the plate `{}` has no thickness", plate.name)))
        });
        let limit = || {
            plates_at(bent)
                .into_iter()
                .zip(&self.plates_before)
                .find(|((_, now), (_, before))| breaks(*before, *now))
                .map(|((name, _), _)| Stop::Limit(format!("thickness of {name}")))
        };
        nothing_left.or_else(limit)
    }

    fn finding(&self, bent: &Bent) -> Option<Stop> {
        let is_new = |error: &&DesignError| {
            let told = (error.place, error.kind.name());
            !self.findings_before.contains(&told)
        };
        let finding = bent.findings.iter().find(is_new)?;
        Some(Stop::Shape(finding.kind.to_string()))
    }
}

/// Whether something breaks that was whole, or breaks at its other side.
const fn breaks(before: LimitCheck, now: LimitCheck) -> bool {
    match now {
        LimitCheck::TooSmall(_) => !matches!(before, LimitCheck::TooSmall(_)),
        LimitCheck::TooLarge(_) => !matches!(before, LimitCheck::TooLarge(_)),
        LimitCheck::Keeps | LimitCheck::Free | LimitCheck::Open => false,
    }
}

fn limit_at(limit: &Limit, bent: &Bent) -> LimitCheck {
    let value = value_at(limit, &bent.dimensions, &bent.parts);
    LimitCheck::on(value, limit.permitted)
}

fn fit_at(fit: &Located<Fit>, bent: &Bent) -> LimitCheck {
    match fits::clearance_at(&fit.value, &bent.dimensions, &bent.parts) {
        Some((clearance, permitted)) => LimitCheck::on(Some(clearance), permitted),
        None => LimitCheck::Open,
    }
}

/// Each plate that something is cut from, with its thickness against its limits.
fn plates_at(bent: &Bent) -> Vec<(String, LimitCheck)> {
    let at = |part: &crate::design::part::Part| {
        let plate = part.plate.as_ref()?;
        let (min, max) = plate.permitted();
        let check = LimitCheck::on(plate.thickness, Permitted { min, max });
        Some((plate.name.clone(), check))
    };
    bent.parts.iter().filter_map(at).collect()
}
