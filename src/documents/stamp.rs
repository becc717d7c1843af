//! What every output says about where it comes from.

use crate::design::Design;
use crate::geometry::LengthUnit;
use crate::trade::ToleranceClass;

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
        }
    }

    /// One line for the foot of a page: the first twelve digits of the fingerprint identify the
    /// design, and the version of the tool that drew it.
    pub fn line(&self) -> String {
        let short = self.fingerprint.get(..12).unwrap_or(&self.fingerprint);
        format!("design {short} · kerfwise {}", env!("CARGO_PKG_VERSION"))
    }

    /// Whether a dimension is still to be measured.
    pub const fn is_draft(&self) -> bool {
        !self.open.is_empty()
    }
}
