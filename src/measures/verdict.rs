//! Whether a measured value keeps its limits, when the measuring is not exact.
//!
//! # Source
//! The rule of ISO 14253-1 in words: the uncertainty of the measuring counts against whoever claims.
//! Who claims that a part conforms must show it within the limits drawn in by g·u; who claims that it
//! does not must show it outside the limits by more than g·u. The text of the standard was not read;
//! g = 2 ([`USUAL_GUARD`]) is common practice here, and not the default of any of its editions.

use super::inspection::Filing;
use crate::design::dimensions::Permitted;
use crate::geometry::tolerance;

/// How many standard uncertainties the limits are drawn in by, unless the user says otherwise.
pub const USUAL_GUARD: f64 = 2.0;

/// Who claims something of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Claimant {
    /// The maker: that it conforms.
    Maker,
    /// The inspector: that it does not.
    Inspector,
}

/// What can be said of a measured value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Within the limits by more than the uncertainty.
    Conforms,
    /// Outside the limits by more than the uncertainty.
    DoesNotConform,
    /// Nearer to a limit than the measuring is sure: neither can be shown.
    TooClose,
    /// Nothing says which of two figures was read, and the one says otherwise than the other.
    NotDecided,
}

impl Verdict {
    /// In plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Conforms => "conforms",
            Self::DoesNotConform => "does not conform",
            Self::TooClose => "too close to call",
            Self::NotDecided => "not decided",
        }
    }

    /// Whether the claim of this claimant is shown.
    pub fn shows(self, claimant: Claimant) -> bool {
        match claimant {
            Claimant::Maker => self == Self::Conforms,
            Claimant::Inspector => self == Self::DoesNotConform,
        }
    }
}

/// Which of two limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The least that is permitted.
    Least,
    /// The most that is permitted.
    Most,
}

/// What can be said of a measured value, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// The limit that is nearest, or broken by most.
    pub side: Side,
    /// That limit.
    pub limit: f64,
    /// How far the value is within that limit; negative if it is past it.
    pub inside: f64,
    /// By how much the limits are drawn in: g·u.
    pub guard: f64,
    /// The limits drawn in by it.
    pub acceptance: Permitted,
    /// What can still be done about it.
    pub remedy: Remedy,
}

/// What filing can still do, as amounts of the reading (for a width: off both edges together).
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// Nothing is to be done, and no limit is ahead.
    Free,
    /// So much may still come off and the part is still shown to conform.
    Spare {
        /// The most.
        most: f64,
    },
    /// So much must come off before it is shown to conform, and no more than so much may.
    TakeOff {
        /// The least.
        least: f64,
        /// The most; `None` if no limit is ahead.
        most: Option<f64>,
    },
    /// Too much is off already.
    Scrap {
        /// How far past the limit it is.
        by: f64,
    },
    /// It is on the side where filing makes it worse; only a surer measurement helps.
    MeasureBetter,
    /// Between the limits there is no room for so unsure a measurement.
    NoRoom,
    /// Filing does not mend it.
    NotByFiling,
}

/// Judges a value: `guard` is g·u. `None` if nothing is limited.
///
/// # Units
/// All in the unit of the value.
///
/// # Example
/// A foot that may be 303 to 309 mm wide, read as 308.7 mm with a tape that is sure to ±0.5 mm:
/// ```
/// use kerfwise::design::dimensions::Permitted;
/// use kerfwise::measures::inspection::Filing;
/// use kerfwise::measures::verdict::{Remedy, Verdict, judge};
///
/// let permitted = Permitted { min: Some(303.0), max: Some(309.0) };
/// let said = judge(308.7, permitted, 0.5, Filing::Lowers).ok_or("limited")?;
/// assert_eq!(said.verdict, Verdict::TooClose);
/// assert!(matches!(said.remedy, Remedy::TakeOff { least, .. } if (least - 0.2).abs() < 1e-9));
/// # Ok::<(), &str>(())
/// ```
pub fn judge(value: f64, permitted: Permitted, guard: f64, filing: Filing) -> Option<Judgement> {
    let guard = guard.abs();
    let margins = [
        permitted.min.map(|min| (value - min, Side::Least, min)),
        permitted.max.map(|max| (max - value, Side::Most, max)),
    ];
    let (inside, side, limit) = margins
        .into_iter()
        .flatten()
        .min_by(|one, other| one.0.total_cmp(&other.0))?;
    let verdict = if inside >= guard - tolerance::SAME_DIMENSION {
        Verdict::Conforms
    } else if inside < -guard - tolerance::SAME_DIMENSION {
        Verdict::DoesNotConform
    } else {
        Verdict::TooClose
    };
    let acceptance = Permitted {
        min: permitted.min.map(|min| min + guard),
        max: permitted.max.map(|max| max - guard),
    };
    Some(Judgement {
        verdict,
        side,
        limit,
        inside,
        guard,
        acceptance,
        remedy: remedy(value, acceptance, verdict, (inside, filing)),
    })
}

fn remedy(
    value: f64,
    acceptance: Permitted,
    verdict: Verdict,
    (inside, filing): (f64, Filing),
) -> Remedy {
    let (ahead, behind) = match filing {
        // seen so that filing goes down from `behind` towards `ahead`
        Filing::Lowers => (
            acceptance.min.map(|min| value - min),
            acceptance.max.map(|max| value - max),
        ),
        Filing::Raises => (
            acceptance.max.map(|max| max - value),
            acceptance.min.map(|min| min - value),
        ),
        Filing::Neither => {
            return match verdict {
                Verdict::Conforms => Remedy::Free,
                Verdict::DoesNotConform => Remedy::NotByFiling,
                Verdict::TooClose | Verdict::NotDecided => Remedy::MeasureBetter,
            };
        }
    };
    let least = behind.unwrap_or(0.0).max(0.0);
    match (verdict, ahead) {
        (Verdict::Conforms, None) => Remedy::Free,
        (Verdict::Conforms, Some(most)) => Remedy::Spare {
            most: most.max(0.0),
        },
        (Verdict::DoesNotConform, Some(most)) if most < least && least == 0.0 => {
            Remedy::Scrap { by: -inside }
        }
        (_, Some(most)) if most < least && least > 0.0 => Remedy::NoRoom,
        (_, most) if least > 0.0 => Remedy::TakeOff { least, most },
        _ => Remedy::MeasureBetter,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOTH: Permitted = Permitted {
        min: Some(303.0),
        max: Some(309.0),
    };

    fn near(value: f64, expected: f64) -> bool {
        (value - expected).abs() < 1e-9
    }

    #[test]
    fn the_uncertainty_counts_against_whoever_claims() {
        // ISO 14253-1 in words: zones of width g·u on both sides of each limit belong to nobody
        for (value, expected) in [
            (302.4, Verdict::DoesNotConform),
            (302.5, Verdict::TooClose),
            (303.0, Verdict::TooClose),
            (303.4, Verdict::TooClose),
            (303.5, Verdict::Conforms),
            (308.5, Verdict::Conforms),
            (308.6, Verdict::TooClose),
            (309.5, Verdict::TooClose),
            (309.6, Verdict::DoesNotConform),
        ] {
            let said = judge(value, BOTH, 0.5, Filing::Lowers).expect("limited");
            assert_eq!(said.verdict, expected, "{value} mm");
        }
        let close = Verdict::TooClose;
        assert!(
            !close.shows(Claimant::Maker) && !close.shows(Claimant::Inspector),
            "neither of them can claim it"
        );
        assert!(
            Verdict::Conforms.shows(Claimant::Maker),
            "the maker's claim"
        );
        assert!(
            Verdict::DoesNotConform.shows(Claimant::Inspector),
            "the inspector's claim"
        );
        assert_eq!(
            judge(1.0, Permitted::default(), 0.5, Filing::Lowers),
            None,
            "no limit, no verdict"
        );
    }

    #[test]
    fn an_exact_measurement_on_the_limit_conforms() {
        // 0.1 + 0.2 is not 0.3 in binary
        let permitted = Permitted {
            min: None,
            max: Some(0.3),
        };
        let said = judge(0.1 + 0.2, permitted, 0.0, Filing::Lowers).expect("limited");
        assert_eq!(said.verdict, Verdict::Conforms, "{said:?}");
    }

    #[test]
    fn what_is_too_large_can_be_filed_and_what_is_too_small_cannot() {
        let remedy = |value, filing| judge(value, BOTH, 0.5, filing).expect("limited").remedy;
        let off = remedy(310.0, Filing::Lowers);
        assert!(
            matches!(off, Remedy::TakeOff { least, most: Some(most) }
                if near(least, 1.5) && near(most, 6.5)),
            "{off:?}: to 308.5 at most, to 303.5 at least"
        );
        let spare = remedy(306.0, Filing::Lowers);
        assert!(
            matches!(spare, Remedy::Spare { most } if near(most, 2.5)),
            "{spare:?}"
        );
        let scrap = remedy(302.0, Filing::Lowers);
        assert!(
            matches!(scrap, Remedy::Scrap { by } if near(by, 1.0)),
            "{scrap:?}"
        );
        assert_eq!(
            remedy(303.2, Filing::Lowers),
            Remedy::MeasureBetter,
            "filing would make it worse"
        );
        // a hole: the other way round
        let off = remedy(302.0, Filing::Raises);
        assert!(
            matches!(off, Remedy::TakeOff { least, most: Some(most) }
                if near(least, 1.5) && near(most, 6.5)),
            "{off:?}"
        );
        assert!(
            matches!(remedy(310.0, Filing::Raises), Remedy::Scrap { .. }),
            "too much is off"
        );
        assert_eq!(
            remedy(310.0, Filing::Neither),
            Remedy::NotByFiling,
            "the place of a hole"
        );
    }

    #[test]
    fn one_sided_limits_have_one_side() {
        let least = Permitted {
            min: Some(45.0),
            max: None,
        };
        let remedy = |value, filing| judge(value, least, 0.5, filing).expect("limited").remedy;
        assert_eq!(remedy(50.0, Filing::Raises), Remedy::Free, "no limit ahead");
        assert_eq!(
            remedy(44.0, Filing::Raises),
            Remedy::TakeOff {
                least: 1.5,
                most: None
            },
            "as far as one likes"
        );
    }

    #[test]
    fn limits_may_be_too_narrow_for_the_measurement() {
        let said = judge(306.0, BOTH, 4.0, Filing::Lowers).expect("limited");
        assert_eq!(said.verdict, Verdict::TooClose, "in the very middle");
        assert_eq!(
            judge(308.0, BOTH, 4.0, Filing::Lowers)
                .expect("limited")
                .remedy,
            Remedy::NoRoom,
            "drawn in by more than half their distance"
        );
    }
}
