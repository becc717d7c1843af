//! How far the cut may be off before the first limit breaks.

use super::AsCut;
use super::Judged;
use super::KerfError;
use super::Kind;
use crate::design::Dimensions;
use crate::design::part::Part;

/// Farthest error that is tried, in millimetres of the edge.
const FARTHEST: f64 = 12.8;
/// First error that is tried.
const FIRST: f64 = 0.025;
/// The answer is this near, in millimetres.
const NEAR: f64 = 1e-4;

/// How far the finished edge of a part may be off, and what breaks then.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// When too much is taken away, all round.
    pub small: Broken,
    /// When too much is left, all round.
    pub large: Broken,
}

/// The error at which the first limit breaks.
#[derive(Clone, Debug, PartialEq)]
pub enum Broken {
    /// None breaks as far as was tried, in millimetres.
    NotBy(f64),
    /// The part as drawn is outside a limit already.
    AsDrawn {
        /// Which, in [`judged`](super::judged()).
        judged: usize,
    },
    /// At this error of the edge, in millimetres; the kerf is off by twice as much.
    At {
        /// The greatest error that still keeps every limit.
        error: f64,
        /// What breaks first, in [`judged`](super::judged()).
        judged: usize,
    },
}

impl Broken {
    /// The error that every limit still stands.
    pub const fn error(&self) -> f64 {
        match self {
            Self::NotBy(error) | Self::At { error, .. } => *error,
            Self::AsDrawn { .. } => 0.0,
        }
    }
}

/// Finds, by halving, the greatest error of the finished edge that keeps every limit and fit of the design,
/// either way, to 1e-4 mm; each try is measured on the offset shape. The general tolerance does not count.
///
/// # Errors
/// [`KerfError`] where a shape cannot be certified.
pub fn room(part: &Part, all: &[Judged], dimensions: &Dimensions) -> Result<Room, KerfError> {
    let cut = AsCut::new(part, 2.0 * FARTHEST)?;
    let first_broken = |error: f64| -> Result<Option<usize>, KerfError> {
        let regions = cut.shape(0.0, error)?;
        Ok(all.iter().position(|judged| {
            let limited =
                judged.kind != Kind::General && (judged.min.is_some() || judged.max.is_some());
            let value = judged.value(part, &regions, dimensions);
            limited && value.is_none_or(|value| judged.room(value).is_some_and(|room| room < -1e-9))
        }))
    };
    let search = |sign: f64| -> Result<Broken, KerfError> {
        if let Some(judged) = first_broken(0.0)? {
            return Ok(Broken::AsDrawn { judged });
        }
        let (mut keeps, mut tried) = (0.0, FIRST);
        let mut broken = None;
        while tried <= FARTHEST {
            broken = first_broken(sign * tried)?;
            if broken.is_some() {
                break;
            }
            keeps = tried;
            tried *= 2.0;
        }
        let Some(mut judged) = broken else {
            return Ok(Broken::NotBy(FARTHEST));
        };
        let mut breaks = tried;
        while breaks - keeps > NEAR {
            let middle = f64::midpoint(keeps, breaks);
            match first_broken(sign * middle)? {
                Some(which) => {
                    breaks = middle;
                    judged = which;
                }
                None => keeps = middle,
            }
        }
        Ok(Broken::At {
            error: keeps,
            judged,
        })
    };
    Ok(Room {
        small: search(1.0)?,
        large: search(-1.0)?,
    })
}
