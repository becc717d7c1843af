//! What the command is asked.

use crate::lengths::length;
use clap::Args;
use clap::Parser;
use clap::Subcommand;
use clap::ValueEnum;
use std::path::PathBuf;

/// Exact outlines of flat parts from their dimensions: full-size patterns, cut files, marking-out
/// sheets.
#[derive(Debug, Parser)]
#[command(name = "kerfwise", version, max_term_width = 100)]
pub(crate) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Show dimensions with their working, what is still to be measured, areas and weights
    Check(CheckArguments),
    /// Draw the part with its main dimensions (SVG, PDF or PNG)
    Draw(DrawArguments),
    /// Print a full-size pattern on sheets of paper (PDF)
    Pattern(PatternArguments),
    /// Measure a printer: print its calibration page, then give the readings
    Printer(PrinterArguments),
    /// Write the cut file, nominal finished size, with its order sheet (DXF or SVG)
    Cut(CutArguments),
    /// Write the marking-out sheet for square, tape and beam compass (PDF or HTML)
    Mark(MarkArguments),
    /// Write all of it into one folder with an index page
    Job(JobArguments),
    /// List the known ways of cutting, or write them as a file to edit
    Processes(ProcessesArguments),
    /// Print the JSON Schema of the design file, for editors
    Schema,
}

/// What most commands share.
#[derive(Clone, Debug, Args)]
pub(crate) struct Shared {
    /// The design file: TOML, or JSON when its name ends in .json
    pub(crate) design: PathBuf,
    /// What if a dimension were this? May be given several times, e.g. --set foot=306
    #[arg(long = "set", value_name = "NAME=VALUE")]
    pub(crate) set: Vec<String>,
    /// Only this part
    #[arg(long, value_name = "NAME")]
    pub(crate) part: Option<String>,
    /// Report in JSON, for programs
    #[arg(long)]
    pub(crate) json: bool,
}

/// Where files go.
#[derive(Clone, Debug, Args)]
pub(crate) struct Output {
    /// Where to write: a file, or a folder with a slash at its end; beside the design, under a name
    /// that says part and purpose, if left out
    #[arg(long, value_name = "PATH")]
    pub(crate) out: Option<PathBuf>,
    /// Whether the folder itself says what the files are, as a job folder does.
    #[arg(skip)]
    pub(crate) folder: bool,
    /// Replace files that this tool did not write
    #[arg(long)]
    pub(crate) replace: bool,
}

/// Arguments of `check`.
#[derive(Debug, Args)]
pub(crate) struct CheckArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
}

/// Arguments of `draw`.
#[derive(Debug, Args)]
pub(crate) struct DrawArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Format of the picture
    #[arg(long, value_enum, default_value_t = DrawFormat::Svg)]
    pub(crate) format: DrawFormat,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
}

/// Formats of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum DrawFormat {
    /// For browsers and other programs
    Svg,
    /// For printing
    Pdf,
    /// A picture of 8 dots a millimetre
    Png,
}

/// Arguments of `pattern`.
#[derive(Debug, Args)]
pub(crate) struct PatternArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4", conflicts_with_all = ["roll", "one_page"])]
    pub(crate) paper: String,
    /// Print on a roll of this width; lengths are in mm unless they say another unit, as "24 in"
    #[arg(long, value_name = "LENGTH", value_parser = length, conflicts_with = "one_page")]
    pub(crate) roll: Option<f64>,
    /// Print on one page as large as it takes, for a plot shop
    #[arg(long)]
    pub(crate) one_page: bool,
    /// Which way round the sheets lie
    #[arg(long, value_enum, default_value_t = Lie::Fewest)]
    pub(crate) lie: Lie,
    /// How far the part may be turned to need fewer sheets
    #[arg(long, value_enum, default_value_t = Turn::Any)]
    pub(crate) turn: Turn,
    /// All parts of the design on one pattern
    #[arg(long, conflicts_with = "part")]
    pub(crate) together: bool,
    /// Show the other face: everything mirrored
    #[arg(long)]
    pub(crate) mirror: bool,
    /// Print the shaped places only, and leave long straight edges between them out
    #[arg(long)]
    pub(crate) corners_only: bool,
    /// Add a line to saw to, so far outside the finished one
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) rough_cut: Option<f64>,
    /// Rim of the sheet on which the printer cannot print
    #[arg(long, value_name = "LENGTH", value_parser = length, default_value = "8")]
    pub(crate) margin: f64,
    /// By how much neighbouring sheets show the same
    #[arg(long, value_name = "LENGTH", value_parser = length, default_value = "18")]
    pub(crate) overlap: f64,
    /// Undo the error of a printer: the file that `kerfwise printer` wrote from its readings
    #[arg(long, value_name = "FILE")]
    pub(crate) printer: Option<PathBuf>,
}

/// Which way round sheets lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Lie {
    /// Shorter side across
    Portrait,
    /// Longer side across
    Landscape,
    /// Whichever needs fewer sheets
    Fewest,
}

/// How far a part may be turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Turn {
    /// Not at all
    None,
    /// By a quarter
    Quarter,
    /// By any angle
    Any,
}

/// Arguments of `printer`.
#[derive(Debug, Args)]
pub(crate) struct PrinterArguments {
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4", conflicts_with_all = ["roll", "one_page"])]
    pub(crate) paper: String,
    /// A roll of this width
    #[arg(long, value_name = "LENGTH", value_parser = length, conflicts_with = "one_page")]
    pub(crate) roll: Option<f64>,
    /// The machine of a plot shop, measured on a page of 420 × 594 mm
    #[arg(long)]
    pub(crate) one_page: bool,
    /// Rim of the sheet on which the printer cannot print
    #[arg(long, value_name = "LENGTH", value_parser = length, default_value = "8")]
    pub(crate) margin: f64,
    /// A name for the printer and its paper
    #[arg(long, default_value = "")]
    pub(crate) name: String,
    /// What the rule reads from A to B
    #[arg(long, value_name = "READING", value_parser = length)]
    pub(crate) x: Option<f64>,
    /// What the rule reads from A to D
    #[arg(long, value_name = "READING", value_parser = length)]
    pub(crate) y: Option<f64>,
    /// What the rule reads from A to C
    #[arg(long, value_name = "READING", value_parser = length)]
    pub(crate) rising: Option<f64>,
    /// What the rule reads from D to B
    #[arg(long, value_name = "READING", value_parser = length)]
    pub(crate) falling: Option<f64>,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Report in JSON, for programs
    #[arg(long)]
    pub(crate) json: bool,
}

/// Arguments of `cut`.
#[derive(Debug, Args)]
pub(crate) struct CutArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Format of the file
    #[arg(long, value_enum, default_value_t = CutFormat::Dxf)]
    pub(crate) format: CutFormat,
    /// Edition of the DXF format
    #[arg(long, value_enum, default_value_t = DxfEdition::R2000)]
    pub(crate) dxf: DxfEdition,
    /// Unit of the DXF file; an SVG is always in mm
    #[arg(long, value_enum, default_value_t = FileUnit::Mm)]
    pub(crate) units: FileUnit,
}

/// Formats of a cut file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum CutFormat {
    /// What most shops ask for
    Dxf,
    /// True size, for those who ask for it
    Svg,
}

/// Editions of DXF.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum DxfEdition {
    /// The oldest that every machine reads; it cannot say its unit
    R12,
    /// Says its unit
    R2000,
    /// As R2000, text in UTF-8
    R2007,
    /// As R2007, newer
    R2013,
}

/// Units of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FileUnit {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

/// Arguments of `mark`.
#[derive(Debug, Args)]
pub(crate) struct MarkArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Format of the sheet
    #[arg(long, value_enum, default_value_t = SheetFormat::Pdf)]
    pub(crate) format: SheetFormat,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
}

/// Formats of a sheet to read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum SheetFormat {
    /// For printing
    Pdf,
    /// For the screen
    Html,
}

/// Arguments of `job`.
#[derive(Debug, Args)]
pub(crate) struct JobArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
    /// Undo the error of a printer: the file that `kerfwise printer` wrote from its readings
    #[arg(long, value_name = "FILE")]
    pub(crate) printer: Option<PathBuf>,
}

/// Arguments of `processes`.
#[derive(Debug, Args)]
pub(crate) struct ProcessesArguments {
    /// A processes file whose figures go over the known ones
    #[arg(long, value_name = "FILE")]
    pub(crate) processes: Option<PathBuf>,
    /// Write a file to edit: every figure with its mark, commented out
    #[arg(long, value_name = "PATH")]
    pub(crate) out: Option<PathBuf>,
    /// Replace a file that this tool did not write
    #[arg(long)]
    pub(crate) replace: bool,
    /// Report in JSON, for programs
    #[arg(long)]
    pub(crate) json: bool,
}
