//! A design file from its text to its parts.

use super::dimensions::Dimensions;
use super::dimensions::Override;
use super::error::DesignError;
use super::error::Severity;
use super::file::DesignFile;
use super::fingerprint::fingerprint_of;
use super::resolve::Resolved;
use super::resolve::resolve;
use super::resolve::resolve_near;
use super::source::Source;
use super::tools;
use super::tools::Tool;
use crate::geometry::LengthUnit;

/// A design: what was written, its dimensions, and its parts.
#[derive(Clone, Debug)]
pub struct Design {
    /// The file as written.
    pub file: DesignFile,
    /// Its dimensions, evaluated.
    pub dimensions: Dimensions,
    /// Its parts. While dimensions are open, those parts that stand-ins allow: see
    /// [`Design::load`].
    pub resolved: Resolved,
    /// What its dimensions are set to beside the file: by the caller, and the stand-ins for those that
    /// are still to be measured.
    pub set: Vec<Override>,
    /// The maker's tools that it names.
    pub tools: Vec<Tool>,
    /// SHA-256 of the resolved design, in hexadecimal.
    pub fingerprint: String,
}

impl Design {
    /// Reads a design, sets dimensions to other values where asked, and builds its parts.
    ///
    /// A dimension that is still to be measured is stood in for by the middle of its limits, or its
    /// one limit, so that a draft can be drawn; the [`dimensions`](Self::dimensions) keep it open.
    /// Parts that depend on an open dimension without limits are left out.
    ///
    /// # Errors
    /// Everything wrong with the design, in the order of the file.
    ///
    /// # Example
    /// ```
    /// use kerfwise::design::Design;
    /// use kerfwise::design::Source;
    ///
    /// let text = r#"
    /// [dims]
    /// side = "4 in"
    /// [part.square]
    /// outline = [
    ///   { corner = "a", at = [0, 0] },
    ///   { corner = "b", at = ["side", 0] },
    ///   { corner = "c", at = ["side", "side"] },
    ///   { corner = "d", at = [0, "side"] },
    /// ]
    /// "#;
    /// let design = Design::load(&Source::new("square.toml", text), &[]).map_err(|e| e[0].clone())?;
    /// assert_eq!(design.resolved.parts[0].region.area(), 101.6 * 101.6);
    /// # Ok::<(), kerfwise::design::DesignError>(())
    /// ```
    pub fn load(source: &Source, overrides: &[Override]) -> Result<Self, Vec<DesignError>> {
        let file = DesignFile::read(source)?;
        let dimensions = Dimensions::evaluate(&file, overrides)?;
        let fingerprint = fingerprint_of(&file, &dimensions);
        let stand_ins = stand_ins(&dimensions);
        let is_whole = stand_ins.is_empty();
        let set: Vec<Override> = overrides.iter().cloned().chain(stand_ins).collect();
        let resolved = if is_whole {
            resolve(&file, &dimensions)
        } else {
            resolve(&file, &Dimensions::evaluate(&file, &set)?)
        };
        let resolved = resolved.map_err(|errors| with_limits_first(&dimensions, errors))?;
        let tools = tools::tools(&file, &dimensions)?;
        Ok(Self {
            file,
            dimensions,
            resolved,
            set,
            tools,
            fingerprint,
        })
    }

    /// The same design with other values on top: its dimensions and its parts. A pure function of the
    /// values.
    ///
    /// # Errors
    /// What is wrong with the design at these values.
    pub fn with_values(
        &self,
        values: &[Override],
    ) -> Result<(Dimensions, Resolved), Vec<DesignError>> {
        let all: Vec<Override> = self.set.iter().chain(values).cloned().collect();
        let dimensions = Dimensions::evaluate(&self.file, &all)?;
        let resolved = resolve_near(&self.file, &dimensions, &self.resolved.parts)?;
        Ok((dimensions, resolved))
    }

    /// Its title; empty if it has none.
    pub fn title(&self) -> &str {
        self.file
            .title
            .as_ref()
            .map_or("", |title| title.value.as_str())
    }

    /// The unit it is written in, and shown in.
    pub const fn unit(&self) -> LengthUnit {
        self.dimensions.unit()
    }

    /// Names of the dimensions that are still to be measured.
    pub fn open(&self) -> Vec<String> {
        self.dimensions
            .open()
            .map(|dimension| dimension.name.clone())
            .collect()
    }

    /// Everything found that does not keep the design from being built, in the order of the file:
    /// notices, and values outside their own limits.
    pub fn findings(&self) -> Vec<DesignError> {
        let of_dimensions = self.dimensions.findings().iter();
        let mut all: Vec<_> = of_dimensions
            .chain(&self.resolved.findings)
            .cloned()
            .collect();
        all.sort_by_key(|finding| finding.place);
        all
    }

    /// Whether any finding is of error grade.
    pub fn has_errors(&self) -> bool {
        self.findings()
            .iter()
            .any(|finding| finding.severity == Severity::Error)
    }
}

/// What is wrong with parts, after what may be the reason for it: dimensions outside their own limits.
fn with_limits_first(dimensions: &Dimensions, errors: Vec<DesignError>) -> Vec<DesignError> {
    let findings = dimensions.findings().iter();
    let outside = findings.filter(|finding| finding.severity == Severity::Error);
    outside.cloned().chain(errors).collect()
}

/// For each open dimension with limits the middle of them, or the one there is.
fn stand_ins(dimensions: &Dimensions) -> Vec<Override> {
    let stand_in = |dimension: &super::dimensions::Dimension| {
        let value = match (dimension.permitted.min, dimension.permitted.max) {
            (Some(min), Some(max)) => f64::midpoint(min, max),
            (Some(limit), None) | (None, Some(limit)) => limit,
            (None, None) => return None,
        };
        Some(Override::exact(dimension.name.clone(), value))
    };
    dimensions.open().filter_map(stand_in).collect()
}
