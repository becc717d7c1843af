//! The structures of a design file, one to one with what is written.
//!
//! Where the file has several keys of which one holds (the shape of an edge, of an opening), a
//! private structure takes the keys and the public one is an enum.

pub mod dimension;
pub mod edge;
pub mod fit;
pub mod flatness;
pub mod mark;
pub mod measure;
pub mod opening;
pub mod part;
pub mod tools;
pub mod trip;

pub use dimension::DimensionEntry;
pub use dimension::DimensionTable;
pub use dimension::DimensionUnit;
pub use dimension::Origin;
pub use dimension::Reference;
pub use dimension::SpreadBand;
pub use dimension::SpreadEntry;
pub use dimension::Tolerance;
pub use edge::BothFix;
pub use edge::Edge;
pub use edge::EdgeShape;
pub use edge::EdgeState;
pub use edge::Fair;
pub use fit::Finish;
pub use fit::Fit;
pub use flatness::Flatness;
pub use mark::Limit;
pub use mark::Mark;
pub use mark::Scribe;
pub use mark::ScribeLine;
pub use measure::Measure;
pub use opening::BoltCircle;
pub use opening::Circle;
pub use opening::CircleSize;
pub use opening::ClearanceSeries;
pub use opening::Grid;
pub use opening::Hole;
pub use opening::HolePurpose;
pub use opening::Make;
pub use opening::Opening;
pub use opening::OpeningShape;
pub use opening::Placement;
pub use opening::Rectangle;
pub use opening::Slot;
pub use part::Datum;
pub use part::Part;
pub use part::SharedOpenings;
pub use tools::ToolEntry;
pub use tools::ToolTable;
pub use tools::Tools;
pub use trip::Corner;
pub use trip::CornerTreatment;
pub use trip::Entry;
pub use trip::OneOrPair;
pub use trip::Relief;
pub use trip::ReliefSide;
pub use trip::Round;
pub use trip::RoundSide;

use super::located::Amount;
use super::located::Entries;
use super::located::Located;
use super::located::Pair;
use super::located::Word;
use crate::geometry::LengthUnit;
use crate::trade::ToleranceClass;
use schemars::JsonSchema;
use serde::Deserialize;
use std::collections::BTreeSet;

/// A design as written.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a design file")]
#[schemars(rename = "DesignFile")]
pub struct DesignFile {
    /// Address of the schema, for editors; not read.
    #[serde(rename = "$schema")]
    pub schema: Option<Word>,
    /// What the design is for.
    pub title: Option<Word>,
    /// The unit of bare numbers; millimetres if not given.
    #[serde(default)]
    pub units: FileUnit,
    /// The rules that the limits come from.
    pub rules: Option<Rules>,
    /// Who and what it is for: free short words under free keys, such as `boat` and `part_number`.
    #[serde(default)]
    pub identity: Entries<Word>,
    /// The spread that the maker achieves, as a plus-or-minus.
    pub workmanship: Option<Amount>,
    /// What is permitted of dimensions that say nothing of it themselves.
    pub general_tolerance: Option<Located<GeneralTolerance>>,
    /// The named dimensions.
    #[serde(default)]
    pub dims: Entries<DimensionEntry>,
    /// The plates in hand.
    #[serde(default)]
    pub plate: Entries<Plate>,
    /// The parts.
    #[serde(default)]
    pub part: Entries<Part>,
    /// What goes into what.
    #[serde(default)]
    pub fit: fit::Fits,
    /// The maker's own tools.
    #[serde(default)]
    pub tools: Tools,
    /// All of it but the values of the dimensions, in a form that does not depend on how it is laid
    /// out; for the fingerprint.
    #[serde(skip)]
    pub(super) canonical: String,
    /// The names that its expressions use.
    #[serde(skip)]
    pub(super) used_names: BTreeSet<String>,
}

impl DesignFile {
    /// The class of general tolerances that it names, if it does.
    pub fn tolerance_class(&self) -> Option<ToleranceClass> {
        let named = self.general_tolerance.as_ref()?;
        Some(named.value.class())
    }
}

/// A class of general tolerances, as drawings name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "general_tolerance")]
#[schemars(rename = "GeneralTolerance")]
pub enum GeneralTolerance {
    /// ISO 2768-1, class f.
    #[serde(rename = "ISO 2768-f")]
    Fine,
    /// ISO 2768-1, class m.
    #[serde(rename = "ISO 2768-m")]
    Medium,
    /// ISO 2768-1, class c.
    #[serde(rename = "ISO 2768-c")]
    Coarse,
    /// ISO 2768-1, class v.
    #[serde(rename = "ISO 2768-v")]
    VeryCoarse,
}

impl GeneralTolerance {
    /// The class.
    pub const fn class(self) -> ToleranceClass {
        match self {
            Self::Fine => ToleranceClass::Fine,
            Self::Medium => ToleranceClass::Medium,
            Self::Coarse => ToleranceClass::Coarse,
            Self::VeryCoarse => ToleranceClass::VeryCoarse,
        }
    }
}

/// The unit of bare numbers in a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "units")]
pub enum FileUnit {
    /// Millimetres.
    #[default]
    #[serde(rename = "mm")]
    Millimetre,
    /// Centimetres.
    #[serde(rename = "cm")]
    Centimetre,
    /// Metres.
    #[serde(rename = "m")]
    Metre,
    /// Inches.
    #[serde(rename = "in")]
    Inch,
    /// Feet.
    #[serde(rename = "ft")]
    Foot,
}

impl FileUnit {
    /// The unit of length.
    pub const fn length_unit(self) -> LengthUnit {
        match self {
            Self::Millimetre => LengthUnit::Millimetre,
            Self::Centimetre => LengthUnit::Centimetre,
            Self::Metre => LengthUnit::Metre,
            Self::Inch => LengthUnit::Inch,
            Self::Foot => LengthUnit::Foot,
        }
    }
}

/// The rules that the limits come from.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "`rules`")]
#[schemars(rename = "Rules")]
pub struct Rules {
    /// Their title.
    pub title: Option<Word>,
    /// Their edition.
    pub edition: Option<Word>,
    /// The clause.
    pub clause: Option<Word>,
}

/// A plate in hand.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a plate")]
#[schemars(rename = "Plate")]
pub struct Plate {
    /// What it is of: a material known to the tool, or any words.
    pub material: Option<Word>,
    /// Its thickness, with readings if it was measured.
    pub thickness: Option<DimensionEntry>,
    /// How flat it is, and how flat it has to be.
    pub flatness: Option<Located<Flatness>>,
    /// Its size, along and across.
    pub size: Option<Pair>,
    /// Which face is the good one.
    pub good_face: Option<Located<GoodFace>>,
    /// What is done to each of its faces.
    pub faces: Option<Located<Finish>>,
    /// Who supplied it.
    pub supplier: Option<Word>,
    /// Anything else.
    pub note: Option<Word>,
}

/// Which face of a plate is to be seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "good_face")]
#[schemars(rename = "GoodFace")]
pub enum GoodFace {
    /// The one that faces up as drawn.
    #[serde(rename = "up")]
    Up,
    /// The one that faces down as drawn.
    #[serde(rename = "down")]
    Down,
    /// Both are to be kept good.
    #[serde(rename = "both")]
    Both,
    /// It does not matter.
    #[serde(rename = "either")]
    Either,
}
