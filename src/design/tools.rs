//! The maker's own tools, with their sizes.

use super::dimensions::Dimensions;
use super::error::DesignError;
use super::error::PartFault;
use super::error::Sink;
use super::expression::Written;
use super::file::DesignFile;
use super::file::ToolEntry;
use super::file::Tools;
use super::located::Amount;
use super::located::List;
use super::source::Place;
use crate::geometry::LengthUnit;
use crate::geometry::number;

/// A tool in hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// What it is.
    pub kind: ToolKind,
    /// What it is called: `drill 8 mm`.
    pub name: String,
    /// The radius that it makes or shows, as measured where the file says so, in millimetres.
    pub radius: f64,
    /// Its remark.
    pub note: Option<String>,
    /// Where it stands in the file.
    pub place: Place,
}

/// Kinds of tools.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ToolKind {
    /// Makes a hole.
    Drill,
    /// Makes a hole.
    HoleSaw,
    /// Makes a hole or an inside corner.
    Bit,
    /// Shows an outside corner to scribe round.
    Washer,
    /// Shows a radius.
    RadiusGauge,
}

impl ToolKind {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drill => "drill",
            Self::HoleSaw => "hole saw",
            Self::Bit => "bit",
            Self::Washer => "washer",
            Self::RadiusGauge => "radius gauge",
        }
    }

    /// Whether its size is a diameter.
    const fn by_diameter(self) -> bool {
        !matches!(self, Self::RadiusGauge)
    }

    /// Whether it cuts metal out.
    pub const fn cuts(self) -> bool {
        matches!(self, Self::Drill | Self::HoleSaw | Self::Bit)
    }
}

/// The tools of a file, in its order.
///
/// # Errors
/// A size that has no value yet or is not above 0, with its place.
pub fn tools(file: &DesignFile, dimensions: &Dimensions) -> Result<Vec<Tool>, Vec<DesignError>> {
    let Tools {
        drill,
        hole_saw,
        bit,
        washer,
        radius_gauge,
    } = &file.tools;
    let lists: [(ToolKind, &List<ToolEntry>); 5] = [
        (ToolKind::Drill, drill),
        (ToolKind::HoleSaw, hole_saw),
        (ToolKind::Bit, bit),
        (ToolKind::Washer, washer),
        (ToolKind::RadiusGauge, radius_gauge),
    ];
    let mut sink = Sink::new();
    let mut tools = Vec::new();
    for (kind, entries) in lists {
        for entry in entries {
            let made = tool(kind, entry, dimensions);
            tools.extend(sink.take(made));
        }
    }
    if sink.has_errors() {
        Err(sink.into_errors())
    } else {
        Ok(tools)
    }
}

fn tool(kind: ToolKind, entry: &ToolEntry, dimensions: &Dimensions) -> Result<Tool, DesignError> {
    let (sold_as, measured, note) = match entry {
        ToolEntry::Size(size) => (size, None, None),
        ToolEntry::Table(table) => {
            let table = &table.value;
            (&table.size, table.measured.as_ref(), table.note.as_ref())
        }
    };
    let unit = dimensions.unit();
    let sold = size(kind, sold_as, dimensions)?;
    let counted = match measured {
        Some(measured) => size(kind, measured, dimensions)?,
        None => sold,
    };
    let radius = if kind.by_diameter() {
        counted / 2.0
    } else {
        counted
    };
    let mut name = format!("{} {}", kind.name(), called(sold_as, sold, unit));
    if measured.is_some() {
        let shown = number::trimmed(counted / unit.millimetres(), 3);
        name = format!("{name} (measures {shown} {})", unit.symbol());
    }
    Ok(Tool {
        kind,
        name,
        radius,
        note: note.map(|note| note.value.clone()),
        place: sold_as.place,
    })
}

/// A size as it was written, with a unit in any case.
fn called(amount: &Amount, value: f64, unit: LengthUnit) -> String {
    match &amount.value.written {
        Written::Text(text) if text.ends_with(|last: char| last.is_ascii_alphabetic()) => {
            text.clone()
        }
        _ => {
            let shown = number::trimmed(value / unit.millimetres(), 4);
            format!("{shown} {}", unit.symbol())
        }
    }
}

fn size(kind: ToolKind, amount: &Amount, dimensions: &Dimensions) -> Result<f64, DesignError> {
    let no_size = |value: f64| {
        let fault = PartFault::ToolWithoutSize {
            tool: kind.name(),
            value,
        };
        DesignError::new(fault, amount.place).with_help("give it the size that callipers read")
    };
    match dimensions.length(amount) {
        Ok(value) if value > 0.0 => Ok(value),
        Ok(value) => Err(no_size(value)),
        Err(super::dimensions::Unresolved::Fault(error)) => Err(error),
        // a tool is in hand, and depends on nothing that is still to be measured
        Err(super::dimensions::Unresolved::Open(_)) => Err(no_size(0.0)),
    }
}
