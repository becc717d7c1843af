//! The kerf from readings, by least squares.

use super::readings::ReadingFault;
use super::readings::Readings;
use super::readings::TrialReading;

/// Fewest readings.
const FEWEST: usize = 4;

/// Steps further than this share of a length apart, a machine is worth telling about.
const PLAIN_SCALE: f64 = 2.0;

/// Quantiles of Student's distribution for 95 % both ways, for 1 to 30 degrees of freedom; beyond, that
/// of 30 is a little wide.
///
/// # Source
/// From memory of the usual table; the oracle of the tests computes them.
const STUDENT: [f64; 30] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160,
    2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056,
    2.052, 2.048, 2.045, 2.042,
];

/// What the readings of a trial cut say.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Width of the cut at half the thickness, in millimetres.
    pub kerf: f64,
    /// How far the kerf itself may be off that, either way, with 95 % confidence.
    pub kerf_uncertainty: f64,
    /// How far the kerf of a single cut may be off, either way, with 95 % confidence: the spread that a
    /// processes file states.
    pub spread: f64,
    /// By what share of a length the machine steps too far; none where the readings cannot tell, as with
    /// outside sizes alone.
    pub scale: Option<f64>,
    /// How far that may be off, with 95 % confidence.
    pub scale_uncertainty: f64,
    /// By how much a cut face leans from top to bottom, in millimetres, positive when the part is smaller
    /// at the top; none if only one face was measured.
    pub taper: Option<f64>,
    /// What each reading is off from the fitted line, in the order of the readings.
    pub residuals: Vec<f64>,
}

impl Found {
    /// Whether the machine steps too far or short by more than the readings are uncertain.
    pub fn steps_wrong(&self) -> bool {
        self.scale
            .is_some_and(|scale| scale.abs() > PLAIN_SCALE * self.scale_uncertainty.max(1e-5))
    }
}

/// The kerf by least squares: reading − drawn = sign × kerf + scale × drawn, where the sign is −1 for
/// outside sizes and +1 for openings.
///
/// # Accuracy
/// Closed form of the two normal equations.
///
/// # Errors
/// [`ReadingFault::TooFew`] and [`ReadingFault::NoCut`].
///
/// # Example
/// ```
/// use kerfwise::shop::kerf::trial_cut::Readings;
/// use kerfwise::shop::kerf::trial_cut::fit;
///
/// let text = "row,what,drawn,top,bottom\n1,,,99,\n4,,,59,\n7,,,9,\n9,,,21,\n";
/// let found = fit(&Readings::read(text)?)?;
/// assert!((found.kerf - 1.0).abs() < 1e-12, "1 mm less outside, 1 mm more inside");
/// # Ok::<(), kerfwise::shop::kerf::trial_cut::ReadingFault>(())
/// ```
pub fn fit(readings: &Readings) -> Result<Found, ReadingFault> {
    let all = &readings.all;
    if all.len() < FEWEST {
        return Err(ReadingFault::TooFew {
            found: all.len(),
            least: FEWEST,
        });
    }
    let (mut ss, mut sn, mut nn, mut sd, mut nd) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for reading in all {
        let (sign, drawn) = (reading.row.side.sign(), reading.row.drawn);
        let difference = reading.middle() - drawn;
        ss += sign * sign;
        sn += sign * drawn;
        nn += drawn * drawn;
        sd += sign * difference;
        nd += drawn * difference;
    }
    let determinant = ss * nn - sn * sn;
    let both_sides = [-1.0, 1.0]
        .into_iter()
        .all(|sign| all.iter().any(|reading| reading.row.side.sign() == sign));
    // without both kinds a scale and a kerf look much alike
    let tells_scale = both_sides && determinant > 1e-9 * ss * nn;
    let (kerf, scale) = if tells_scale {
        (
            (sd * nn - nd * sn) / determinant,
            (ss * nd - sn * sd) / determinant,
        )
    } else {
        (sd / ss, 0.0)
    };
    if kerf <= 0.0 {
        return Err(ReadingFault::NoCut { kerf });
    }
    let residual = |reading: &TrialReading| {
        let (sign, drawn) = (reading.row.side.sign(), reading.row.drawn);
        reading.middle() - drawn - sign * kerf - scale * drawn
    };
    let residuals: Vec<f64> = all.iter().map(residual).collect();
    let freedom = all.len() - if tells_scale { 2 } else { 1 };
    let student = freedom
        .checked_sub(1)
        .and_then(|index| STUDENT.get(index.min(STUDENT.len() - 1)))
        .copied()
        .unwrap_or(STUDENT[0]);
    let squares: f64 = residuals.iter().map(|residual| residual * residual).sum();
    let variance = squares / count(freedom);
    let (of_kerf, of_scale) = if tells_scale {
        (variance * nn / determinant, variance * ss / determinant)
    } else {
        (variance / ss, 0.0)
    };
    Ok(Found {
        kerf,
        kerf_uncertainty: student * of_kerf.sqrt(),
        spread: student * (of_kerf + variance).sqrt(),
        scale: tells_scale.then_some(scale),
        scale_uncertainty: student * of_scale.sqrt(),
        taper: taper(all),
        residuals,
    })
}

/// The mean lean of the faces that were measured on both sides.
fn taper(all: &[TrialReading]) -> Option<f64> {
    let leans: Vec<f64> = all
        .iter()
        .filter_map(|reading| {
            let bottom = reading.bottom?;
            // a size has two faces
            Some(0.5 * reading.row.side.sign() * (reading.top - bottom))
        })
        .collect();
    (!leans.is_empty()).then(|| leans.iter().sum::<f64>() / count(leans.len()))
}

fn count(number: usize) -> f64 {
    f64::from(u32::try_from(number).unwrap_or(u32::MAX))
}
