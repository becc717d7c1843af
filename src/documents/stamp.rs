//! What every output says about where it comes from.

use crate::design::Design;
use crate::design::Dimension;
use crate::geometry::LengthUnit;
use crate::geometry::tolerance;
use crate::trade::ToleranceClass;
use std::fmt;

/// The design an output was made from, as every output names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// Title of the design file.
    pub design: String,
    /// SHA-256 of the resolved design, in hexadecimal.
    pub fingerprint: String,
    /// The unit that lengths are shown in.
    pub unit: LengthUnit,
    /// Dimensions that are not measured yet; while there are any, pictures are marked DRAFT.
    pub open: Vec<String>,
    /// The class of general tolerances that the design is held to, if it names one.
    pub general: Option<ToleranceClass>,
    /// Dimensions that have another value than the file gives them: tried out, or as a made part has them.
    pub otherwise: Vec<Otherwise>,
}

/// A dimension with another value than the file gives it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Otherwise {
    /// Its name.
    pub name: String,
    /// Its value here, with its unit.
    pub value: String,
    /// The value in the file, with its unit.
    pub written: String,
}

impl Otherwise {
    fn of(dimension: &Dimension) -> Option<Self> {
        let (value, nominal) = (dimension.value()?, dimension.nominal?);
        let differs = (value - nominal).abs() > tolerance::SAME_DIMENSION;
        (differs && dimension.made_of.is_empty()).then(|| Self {
            name: dimension.name.clone(),
            value: dimension.shown(value),
            written: dimension.shown(nominal),
        })
    }
}

impl fmt::Display for Otherwise {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            formatter,
            "{} = {} (the file says {})",
            self.name, self.value, self.written
        )
    }
}

impl Stamp {
    /// The stamp of a design.
    pub fn of(design: &Design) -> Self {
        Self {
            design: design.title().to_owned(),
            fingerprint: design.fingerprint.clone(),
            unit: design.unit(),
            open: design.open(),
            general: design.file.tolerance_class(),
            otherwise: design.dimensions.iter().filter_map(Otherwise::of).collect(),
        }
    }

    /// One line for the foot of a page: the first twelve digits of the fingerprint identify the
    /// design; which dimensions are not as the file has them; and the version of the tool that drew it.
    pub fn line(&self) -> String {
        let otherwise = match self.otherwise.as_slice() {
            [] => String::new(),
            [only] => format!(" · with {} = {}", only.name, only.value),
            [first, rest @ ..] => {
                format!(
                    " · with {} = {} and {} more",
                    first.name,
                    first.value,
                    rest.len()
                )
            }
        };
        let version = env!("CARGO_PKG_VERSION");
        format!("design {}{otherwise} · kerfwise {version}", self.short())
    }

    /// The same without the dimensions, where those are told elsewhere on the page.
    pub fn short_line(&self) -> String {
        format!(
            "design {} · kerfwise {}",
            self.short(),
            env!("CARGO_PKG_VERSION")
        )
    }

    fn short(&self) -> &str {
        self.fingerprint.get(..12).unwrap_or(&self.fingerprint)
    }

    /// What must be said of papers whose dimensions are not as the file has them.
    pub fn otherwise_words(&self) -> Option<String> {
        let all: Vec<String> = self.otherwise.iter().map(Otherwise::to_string).collect();
        (!all.is_empty()).then(|| format!("Not as the design file has it: {}.", all.join(", ")))
    }

    /// Whether a dimension is still to be measured.
    pub const fn is_draft(&self) -> bool {
        !self.open.is_empty()
    }
}
