//! What the command is asked.

use crate::inspect_arguments::InspectArguments;
use crate::kerf_arguments::KerfArguments;
use crate::kerf_arguments::ProcessesArguments;
use crate::kerf_arguments::TrialCutArguments;
use crate::lengths::length;
use crate::tool_path_arguments::ToolPathArguments;
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
    /// Write the cut file with its order sheet (DXF or SVG): the nominal finished size, or on request a
    /// tool path
    Cut(CutArguments),
    /// Write the marking-out sheet for square, tape and beam compass (PDF or HTML)
    Mark(MarkArguments),
    /// Tell what a shop would find wrong with a DXF or SVG; mend it; compare it with a design
    Inspect(Box<InspectArguments>),
    /// Hold readings of the finished part against its limits, or print the form to be filled in
    Measure(MeasureArguments),
    /// Write all of it into one folder with an index page
    Job(JobArguments),
    /// Compare kerf allowances: what each way of cutting does to the part
    Kerf(KerfArguments),
    /// Write a piece to cut first, or say the kerf that its readings show
    TrialCut(TrialCutArguments),
    /// List the known ways of cutting, or write them as a file to edit
    Processes(ProcessesArguments),
    /// Print the JSON Schema of the design file, for editors
    Schema,
}

impl Command {
    /// Whether its report is wanted in JSON.
    pub(crate) const fn in_json(&self) -> bool {
        match self {
            Self::Check(arguments) => arguments.shared.json,
            Self::Draw(arguments) => arguments.shared.json,
            Self::Pattern(arguments) => arguments.shared.json,
            Self::Printer(arguments) => arguments.json,
            Self::Cut(arguments) => arguments.shared.json,
            Self::Mark(arguments) => arguments.shared.json,
            Self::Inspect(arguments) => arguments.json,
            Self::Measure(arguments) => arguments.shared.json,
            Self::Job(arguments) => arguments.shared.json,
            Self::Kerf(arguments) => arguments.shared.json,
            Self::TrialCut(arguments) => arguments.json,
            Self::Processes(arguments) => arguments.json,
            Self::Schema => false,
        }
    }
}

/// What most commands share.
#[derive(Clone, Debug, Args)]
pub(crate) struct Shared {
    /// The design file: TOML, or JSON when its name ends in .json
    pub(crate) design: PathBuf,
    /// What if a dimension were this? May be given several times, e.g. --set foot=306
    #[arg(long = "set", value_name = "NAME=VALUE")]
    pub(crate) set: Vec<String>,
    /// Readings of a part that is made already: each dimension that was measured on it takes the value
    /// it came out at, so that a mating part fits the real one
    #[arg(long, value_name = "READINGS")]
    pub(crate) as_made: Option<PathBuf>,
    /// Only this part
    #[arg(long, value_name = "NAME")]
    pub(crate) part: Option<String>,
    /// Report in JSON, for programs
    #[arg(long)]
    pub(crate) json: bool,
}

impl Shared {
    /// What the name of a file says of a design that is not quite as written.
    pub(crate) const fn suffix(&self) -> &'static str {
        match (self.set.is_empty(), &self.as_made) {
            (true, None) => "",
            (true, Some(_)) => "-as-made",
            (false, _) => "-what-if",
        }
    }
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
    /// Check also what a shop would find wrong, with this way of cutting: waterjet, laser, router …
    #[arg(long, value_name = "NAME")]
    pub(crate) process: Option<String>,
    /// A processes file whose figures go over the known ones
    #[arg(long, value_name = "FILE", requires = "process")]
    pub(crate) processes: Option<PathBuf>,
    /// Check also whether the part fits on a sheet, in mm, such as 1250x2500
    #[arg(long, value_name = "MMxMM")]
    pub(crate) sheet: Option<String>,
    /// A file with the `[tools]` in hand, in place of those that the design names: the nearest to each
    /// radius and hole is told
    #[arg(long, value_name = "PATH")]
    pub(crate) tools: Option<PathBuf>,
    /// Write it as a file with small pictures of where each limit is measured; on the terminal if left out
    #[arg(long, value_enum)]
    pub(crate) format: Option<SheetFormat>,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
    #[command(flatten)]
    pub(crate) output: Output,
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
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of its own on the command line"
)]
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
    /// Show the other face: everything mirrored
    #[arg(long)]
    pub(crate) mirror: bool,
    /// Write what the file is into it as words, on a layer of their own; a shop may cut them
    #[arg(long)]
    pub(crate) words: bool,
    /// Sheet that it should fit on, in mm, such as 1250x2500
    #[arg(long, value_name = "MMxMM")]
    pub(crate) sheet: Option<String>,
    /// All parts of the design of one plate in one file, each as often as it is wanted, in rows: this is no
    /// nesting program
    #[arg(long, conflicts_with_all = ["part", "start"])]
    pub(crate) together: bool,
    /// How far parts lie apart with --together; 10 mm, or as much as leads need, if left out
    #[arg(long, value_name = "LENGTH", value_parser = length, requires = "together")]
    pub(crate) gap: Option<f64>,
    #[command(flatten)]
    pub(crate) tool_path: ToolPathArguments,
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

/// Arguments of `measure`.
#[derive(Debug, Args)]
pub(crate) struct MeasureArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    /// Readings as CSV by the rows of the form; asked for line by line if left out
    #[arg(value_name = "READINGS", conflicts_with = "form")]
    pub(crate) readings: Option<PathBuf>,
    /// Give the empty form, to be filled in while measuring
    #[arg(long)]
    pub(crate) form: bool,
    /// What to make of it; on the terminal if left out
    #[arg(long, value_enum)]
    pub(crate) format: Option<MeasureFormat>,
    /// With what lengths are measured where the readings do not say, e.g. --with "steel rule" or
    /// --with "calliper ±0.03 mm"
    #[arg(long, value_name = "INSTRUMENT")]
    pub(crate) with: Option<String>,
    /// Temperature of part and instrument in °C where the readings do not say
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) temperature: Option<f64>,
    /// Who claims: the maker that the part keeps the limits, or the inspector that it does not
    #[arg(long, value_enum, default_value_t = Claims::Maker)]
    pub(crate) claims: Claims,
    /// How many standard uncertainties the limits are drawn in by
    #[arg(long, value_name = "G", default_value_t = 2.0)]
    pub(crate) guard: f64,
    /// Keep readings that are typed in as CSV
    #[arg(long, value_name = "PATH", conflicts_with_all = ["form", "readings"])]
    pub(crate) keep: Option<PathBuf>,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Formats of a record or form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum MeasureFormat {
    /// For printing and signing
    Pdf,
    /// For the screen
    Html,
    /// The form, for a spreadsheet
    Csv,
}

/// Who claims something of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Claims {
    /// Who made it: it keeps the limits
    Maker,
    /// Who measures it: it does not
    Inspector,
}

/// Arguments of `job`.
#[derive(Debug, Args)]
pub(crate) struct JobArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Add the tool path for this process, beside the cut file of finished size: waterjet, laser,
    /// plasma, router …
    #[arg(long, value_name = "NAME")]
    pub(crate) process: Option<String>,
    /// A processes file whose figures go over the known ones
    #[arg(long, value_name = "FILE")]
    pub(crate) processes: Option<PathBuf>,
    /// A file with the `[tools]` in hand, in place of those that the design names: the nearest to each
    /// radius and hole is told
    #[arg(long, value_name = "PATH")]
    pub(crate) tools: Option<PathBuf>,
    /// Sheet of paper: a4, letter …, or a size in mm such as 600x900
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
    /// Undo the error of a printer: the file that `kerfwise printer` wrote from its readings
    #[arg(long, value_name = "FILE")]
    pub(crate) printer: Option<PathBuf>,
}
