//! What `inspect` is asked.

use crate::arguments::DxfEdition;
use clap::Args;
use clap::ValueEnum;
use std::path::PathBuf;

/// Arguments of `inspect`.
#[derive(Debug, Args)]
pub(crate) struct InspectArguments {
    /// The drawing: DXF or SVG
    pub(crate) drawing: PathBuf,
    /// Check against what a way of cutting can do: waterjet, laser, plasma, router …
    #[arg(long, value_name = "NAME")]
    pub(crate) process: Option<String>,
    /// A processes file whose figures go over the known ones
    #[arg(long, value_name = "FILE", requires = "process")]
    pub(crate) processes: Option<PathBuf>,
    /// Thickness of the plate in mm, on which the figures of the process depend
    #[arg(long, value_name = "MM", requires = "process")]
    pub(crate) thickness: Option<f64>,
    /// Sheet that it should fit on, in mm, such as 1250x2500
    #[arg(long, value_name = "MMxMM")]
    pub(crate) sheet: Option<String>,
    /// Unit of the drawing, whatever the file says
    #[arg(long, value_enum)]
    pub(crate) units: Option<DrawingUnit>,
    /// A layer that is not cut; may be given several times
    #[arg(long, value_name = "LAYER")]
    pub(crate) not_cut: Vec<String>,
    /// Ends up to this far apart, in mm, are one joint with a gap
    #[arg(long, value_name = "MM", default_value_t = 0.05)]
    pub(crate) join: f64,
    /// How near, in mm, lines and arcs follow splines, ellipses and chords
    #[arg(long, value_name = "MM", default_value_t = 0.01)]
    pub(crate) within: f64,
    /// Write a mended drawing: gaps joined, duplicates taken out, chords and splines back into arcs
    #[arg(long)]
    pub(crate) mend: bool,
    /// Edition of a mended DXF; as the drawing's, or the next older one, if left out
    #[arg(long, value_enum, requires = "mend")]
    pub(crate) dxf: Option<DxfEdition>,
    /// Where to write it: a file or a folder; beside the drawing if left out
    #[arg(long, value_name = "PATH", requires = "mend")]
    pub(crate) out: Option<PathBuf>,
    /// Replace a file that this tool did not write
    #[arg(long, requires = "mend")]
    pub(crate) replace: bool,
    /// Compare with a part of this design file
    #[arg(long, value_name = "DESIGN")]
    pub(crate) against: Option<PathBuf>,
    /// The part of it, where it has several
    #[arg(long, value_name = "NAME", requires = "against")]
    pub(crate) part: Option<String>,
    /// How far the drawing may stray from the part, in mm
    #[arg(long, value_name = "MM", default_value_t = 0.1, requires = "against")]
    pub(crate) allow: f64,
    /// Report in JSON, for programs
    #[arg(long)]
    pub(crate) json: bool,
}

/// Units of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum DrawingUnit {
    /// Millimetres
    Mm,
    /// Centimetres
    Cm,
    /// Metres
    M,
    /// Inches
    In,
    /// Feet
    Ft,
}
