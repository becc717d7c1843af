//! What may happen at the shop, and what it does to the part.

use super::AsCut;
use super::Asked;
use super::Judged;
use super::KerfError;
use super::lost::Lost;
use super::lost::lost;
use crate::geometry::Region;
use crate::geometry::nearest::Web;
use crate::geometry::nearest::narrowest_web;

/// What happens at the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Case {
    /// It compensates, by the kerf that the tool has.
    Right,
    /// It compensates, and the tool cuts at its narrowest.
    Narrow,
    /// It compensates, and the tool cuts at its widest.
    Wide,
    /// It does not compensate: the middle of the cut runs along the outline.
    NotCompensated,
    /// Builder and shop both compensate.
    Twice,
}

impl Case {
    /// All of them, in the order shown.
    pub const ALL: [Self; 5] = [
        Self::Right,
        Self::Narrow,
        Self::Wide,
        Self::NotCompensated,
        Self::Twice,
    ];

    /// In a reader's words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Right => "compensated",
            Self::Narrow => "kerf at its narrowest",
            Self::Wide => "kerf at its widest",
            Self::NotCompensated => "not compensated",
            Self::Twice => "compensated twice",
        }
    }

    /// By how much the outline is grown to the line of the tool, and the kerf that the tool has.
    pub fn line_and_kerf(self, kerf: Kerf) -> (f64, f64) {
        match self {
            Self::Right => (0.5 * kerf.value, kerf.value),
            Self::Narrow => (0.5 * kerf.value, kerf.low),
            Self::Wide => (0.5 * kerf.value, kerf.high),
            Self::NotCompensated => (0.0, kerf.value),
            Self::Twice => (kerf.value, kerf.value),
        }
    }
}

/// A kerf, and between what it lies, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kerf {
    /// What is compensated for.
    pub value: f64,
    /// The narrowest.
    pub low: f64,
    /// The widest.
    pub high: f64,
}

/// A measure in one case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// At half the thickness; none where what is measured is gone.
    pub middle: Option<f64>,
    /// The least of all faces.
    pub least: Option<f64>,
    /// The greatest of all faces.
    pub most: Option<f64>,
    /// How far the worst face is inside the limits; negative outside. None without limits, or where
    /// what is measured is gone.
    pub room: Option<f64>,
    /// The value on that face.
    pub worst: Option<f64>,
}

impl Reading {
    /// Whether what is measured is gone on some face.
    pub const fn is_gone(&self) -> bool {
        self.middle.is_none() || self.least.is_none()
    }
}

/// A case with all that it does to the part.
#[derive(Clone, Debug)]
pub struct CaseResult {
    /// Which.
    pub case: Case,
    /// How far the finished edge stands outside the outline at half the thickness, in millimetres;
    /// negative inside.
    pub edge: f64,
    /// The shape as cut, at half the thickness.
    pub shape: Vec<Region>,
    /// One for each that is judged.
    pub readings: Vec<Reading>,
    /// What is lost on the way.
    pub lost: Vec<Lost>,
    /// The narrowest material that is left, in millimetres; none where it narrows nowhere but to corners.
    pub web: Option<f64>,
}

/// One case, for everything that is judged.
pub(super) fn result(
    case: Case,
    cut: &AsCut<'_>,
    kerf: Kerf,
    taper: f64,
    asked: &Asked<'_>,
) -> Result<CaseResult, KerfError> {
    let (line, kerf) = case.line_and_kerf(kerf);
    let half = 0.5 * kerf;
    let shape = cut.shape(line, half)?;
    let mut faces = vec![shape.clone()];
    if taper > 0.0 {
        faces.push(cut.shape(line, half + 0.5 * taper)?);
        faces.push(cut.shape(line, half - 0.5 * taper)?);
    }
    let part = cut.part();
    let reading = |judged: &Judged| {
        let values: Vec<Option<f64>> = faces
            .iter()
            .map(|face| judged.value(part, face, asked.dimensions))
            .collect();
        let known: Option<Vec<f64>> = values.iter().copied().collect();
        let known = known.unwrap_or_default();
        let worst = known
            .iter()
            .copied()
            .filter_map(|value| judged.room(value).map(|room| (room, value)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        Reading {
            middle: values.first().copied().flatten(),
            least: known.iter().copied().reduce(f64::min),
            most: known.iter().copied().reduce(f64::max),
            room: worst.map(|(room, _)| room),
            worst: worst.map(|(_, value)| value),
        }
    };
    let readings = asked.judged.iter().map(reading).collect();
    let lost = lost(part, &shape);
    let web = shape
        .iter()
        .filter_map(|region| match narrowest_web(region) {
            Web::At(nearest) => Some(nearest.distance),
            Web::None => None,
        })
        .reduce(f64::min);
    Ok(CaseResult {
        case,
        edge: line - half,
        shape,
        readings,
        lost,
        web,
    })
}
