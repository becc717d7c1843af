//! Arguments of the commands about kerf.

use crate::arguments::Output;
use crate::arguments::Shared;
use clap::Args;
use clap::ValueEnum;
use std::path::PathBuf;

/// Arguments of `kerf`.
#[derive(Debug, Args)]
pub(crate) struct KerfArguments {
    #[command(flatten)]
    pub(crate) shared: Shared,
    #[command(flatten)]
    pub(crate) output: Output,
    /// Only these ways of cutting, separated by commas; all that are known if left out
    #[arg(long, value_name = "NAME", value_delimiter = ',')]
    pub(crate) process: Vec<String>,
    /// Kerfs in mm, separated by commas, in place of the process's own
    #[arg(
        long,
        value_name = "MM",
        value_delimiter = ',',
        allow_negative_numbers = true
    )]
    pub(crate) kerf: Vec<f64>,
    /// A processes file whose figures go over the known ones
    #[arg(long, value_name = "FILE")]
    pub(crate) processes: Option<PathBuf>,
    /// Show the figures behind the first page too
    #[arg(long)]
    pub(crate) detail: bool,
    /// Write all of it with its pictures into a file; the first page is shown if left out
    #[arg(long, value_enum)]
    pub(crate) format: Option<KerfFormat>,
}

/// Formats of the kerf comparison.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum KerfFormat {
    /// For the screen
    Html,
    /// For printing
    Pdf,
    /// The pictures alone
    Svg,
}

/// Arguments of `trial-cut`.
#[derive(Debug, Args)]
pub(crate) struct TrialCutArguments {
    /// The readings of the piece; without them the piece itself is written
    #[arg(long, value_name = "FILE")]
    pub(crate) readings: Option<PathBuf>,
    /// The way of cutting it is of
    #[arg(long, value_name = "NAME", default_value = "waterjet")]
    pub(crate) process: String,
    /// A processes file that knows it
    #[arg(long, value_name = "FILE")]
    pub(crate) processes: Option<PathBuf>,
    /// Who measured
    #[arg(long, value_name = "NAME")]
    pub(crate) by: Option<String>,
    /// When, e.g. 2026-11-20
    #[arg(long, value_name = "DAY")]
    pub(crate) on: Option<String>,
    /// The folder to write into; this one if left out
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace files that this tool did not write
    #[arg(long)]
    pub(crate) replace: bool,
    /// Report in JSON, for programs
    #[arg(long)]
    pub(crate) json: bool,
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
