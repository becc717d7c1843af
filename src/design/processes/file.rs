//! The structures of a processes file, one to one with what is written.

use crate::design::file::FileUnit;
use crate::design::located::Amount;
use crate::design::located::Entries;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Word;
use serde::Deserialize;

/// A processes file as written.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "a processes file")]
pub struct ProcessesFile {
    /// The unit of bare numbers; millimetres if not given.
    #[serde(default)]
    pub units: FileUnit,
    /// The money of the rates.
    pub currency: Option<Word>,
    /// Who stated the figures, unless a process or figure says otherwise.
    pub stated_by: Option<Word>,
    /// When.
    pub stated_on: Option<Word>,
    /// The processes.
    #[serde(default)]
    pub process: Entries<ProcessEntry>,
}

/// A process as written: what it says goes over what is known.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "a process")]
pub struct ProcessEntry {
    /// What it is, in words.
    pub title: Option<Word>,
    /// The process that it takes everything from that it does not state.
    pub like: Option<Word>,
    /// Who stated its figures.
    pub stated_by: Option<Word>,
    /// When.
    pub stated_on: Option<Word>,
    /// Width of the cut.
    pub kerf: Option<FigureEntry>,
    /// How far a cut face leans from top to bottom: a length, or an angle.
    pub taper: Option<FigureEntry>,
    /// How far a finished edge is off, either way.
    pub tolerance: Option<FigureEntry>,
    /// Smallest diameter of a hole.
    pub smallest_hole: Option<FigureEntry>,
    /// Smallest radius of an inside corner.
    pub inside_radius: Option<FigureEntry>,
    /// Least metal between two cuts.
    pub web: Option<FigureEntry>,
    /// Diameter of the mark where a cut starts.
    pub pierce: Option<FigureEntry>,
    /// Length of the way from there to the outline.
    pub lead_in: Option<FigureEntry>,
    /// Seconds to get through the plate.
    pub pierce_time: Option<FigureEntry>,
    /// On which side of the travel the part lies.
    pub part_on: Option<SideWord>,
    /// How a cut starts in the plate.
    pub start: Option<StartWord>,
    /// Whether it only cuts along straight lines.
    pub straight_only: Option<bool>,
    /// Longest part that it takes.
    pub longest: Option<FigureEntry>,
    /// Thickest plate that it cuts.
    pub thickest: Option<FigureEntry>,
    /// Materials and families that it cuts.
    pub cuts: Option<List<Word>>,
    /// What it must never be used on, besides what is known.
    #[serde(default)]
    pub never: List<NeverEntry>,
    /// How fast it goes; those of a material replace all that are known for it.
    #[serde(default)]
    pub feeds: List<FeedEntry>,
    /// What the shop asks.
    pub rates: Option<RatesEntry>,
    /// Anything else.
    pub note: Option<Word>,
}

/// A figure: a value alone, or a table.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename = "$by shape")]
pub enum FigureEntry {
    /// The value alone.
    #[serde(rename = "value")]
    Short(Amount),
    /// A table.
    #[serde(rename = "table")]
    Table(Located<Box<FigureTable>>),
}

/// A figure with its spread and its growth with the thickness.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "a figure")]
pub struct FigureTable {
    /// Its value; with `per_thickness`, what is added to the share of the thickness.
    pub value: Option<Amount>,
    /// How much a millimetre of thickness adds.
    pub per_thickness: Option<Amount>,
    /// What it never falls below.
    pub least: Option<Amount>,
    /// How far it may lie either way.
    pub spread: Option<Amount>,
    /// The lowest it may be.
    pub low: Option<Amount>,
    /// The highest it may be.
    pub high: Option<Amount>,
    /// Who stated it.
    pub stated_by: Option<Word>,
    /// When.
    pub on: Option<Word>,
}

/// On which side of the travel the part lies, as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename = "part_on", rename_all = "lowercase")]
pub enum SideWord {
    /// Either.
    Either,
    /// Left.
    Left,
    /// Right.
    Right,
}

/// How a cut starts, as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename = "start")]
pub enum StartWord {
    /// Through the plate by itself.
    #[serde(rename = "pierces")]
    Pierces,
    /// From a drilled hole.
    #[serde(rename = "drilled hole")]
    DrilledHole,
    /// From the edge.
    #[serde(rename = "edge only")]
    EdgeOnly,
}

/// Something never to be cut.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "an entry of `never`")]
pub struct NeverEntry {
    /// The material or family.
    pub material: Word,
    /// Why.
    pub why: Word,
}

/// A feed.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "a feed")]
pub struct FeedEntry {
    /// The material or family.
    pub material: Word,
    /// Thickness of the plate.
    pub thickness: Amount,
    /// Length a minute.
    pub a_minute: Amount,
    /// The slowest.
    pub low: Option<Amount>,
    /// The fastest.
    pub high: Option<Amount>,
}

/// What the shop asks.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "`rates`")]
pub struct RatesEntry {
    /// For an hour of cutting.
    pub per_hour: Option<Amount>,
    /// For a metre of cut.
    pub per_metre: Option<Amount>,
    /// For each start in the plate.
    pub per_pierce: Option<Amount>,
    /// Once an order.
    pub set_up: Option<Amount>,
}
