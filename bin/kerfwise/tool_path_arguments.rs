//! What the command is asked about tool paths.

use crate::lengths::length;
use clap::Args;
use clap::ValueEnum;
use std::path::PathBuf;

/// What makes a cut file a tool path. Lengths are in mm unless they say another unit.
#[derive(Clone, Debug, Default, Args)]
#[command(
    next_help_heading = "Tool path, for your own machine or by written agreement with the shop"
)]
pub(crate) struct ToolPathArguments {
    /// Write the tool path for this process: waterjet, laser, plasma, router …
    #[arg(long, value_name = "NAME")]
    pub(crate) process: Option<String>,
    /// A processes file whose figures go over the known ones
    #[arg(long, value_name = "FILE", requires = "process")]
    pub(crate) processes: Option<PathBuf>,
    /// Write the tool path for a cut of this width (a router: the diameter of the cutter)
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) kerf: Option<f64>,
    /// Leave so much on every cut edge for finishing by hand
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) allowance: Option<f64>,
    /// How cuts come onto the edge and leave it
    #[arg(long, value_enum)]
    pub(crate) lead: Option<LeadForm>,
    /// Length of a lead: the radius of a round one
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) lead_length: Option<f64>,
    /// Diameter of what piercing spoils
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) pierce: Option<f64>,
    /// How far a closed cut runs on over its own start
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) overlap: Option<f64>,
    /// Which way a router goes; the other processes have their own way
    #[arg(long, value_enum)]
    pub(crate) direction: Option<Direction>,
    /// Where a cut starts: the name of an edge, or a place X,Y. May be given several times
    #[arg(long, value_name = "EDGE or X,Y")]
    pub(crate) start: Vec<String>,
    /// Leave so many bridges uncut, to hold the part in the plate
    #[arg(long, value_name = "COUNT")]
    pub(crate) bridges: Option<usize>,
    /// Width of a bridge
    #[arg(long, value_name = "LENGTH", value_parser = length, requires = "bridges")]
    pub(crate) bridge_width: Option<f64>,
    /// Mark round holes below this diameter for drilling instead of cutting them
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    pub(crate) smallest_hole: Option<f64>,
}

/// The shape of a lead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum LeadForm {
    /// Round, tangent to the edge
    Arc,
    /// Straight
    Straight,
    /// None: the tool goes down on the line
    None,
}

/// The way round the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Direction {
    /// Against the turning cutter: outside anticlockwise, openings clockwise
    Conventional,
    /// With the turning cutter: outside clockwise, openings anticlockwise
    Climb,
}
