//! `kerfwise pattern`: the full-size pattern on paper.

use super::deliver::deliver;
use super::printer;
use crate::arguments::Lie;
use crate::arguments::PatternArguments;
use crate::arguments::Turn;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;
use kerfwise::design::part::Part;
use kerfwise::documents::pattern::Extent;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::Orientation;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::RoughCut;
use kerfwise::documents::pattern::Turning;

pub(crate) fn run(arguments: &PatternArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_unfit("a pattern")?;
    let options = options(arguments)?;
    let parts = input.parts(&arguments.shared)?;
    let groups: Vec<Vec<Part>> = if arguments.together {
        vec![parts.into_iter().cloned().collect()]
    } else {
        parts.into_iter().map(|part| vec![part.clone()]).collect()
    };
    let patterns: Result<Vec<_>, _> = groups
        .iter()
        .map(|parts| products::pattern(parts, &input.stamp, &options))
        .collect();
    deliver(&input, &arguments.shared, &arguments.output, &patterns?)
}

fn options(arguments: &PatternArguments) -> Result<PatternOptions, Failure> {
    let paper = products::printed_on(arguments.roll, arguments.one_page, &arguments.paper)?;
    let mut options = PatternOptions::new(paper);
    options.margin = arguments.margin;
    options.overlap = arguments.overlap;
    options.printer = printer::known(arguments.printer.as_deref())?;
    options.orientation = match arguments.lie {
        Lie::Portrait => Orientation::Portrait,
        Lie::Landscape => Orientation::Landscape,
        Lie::Fewest => Orientation::FewestSheets,
    };
    options.turning = match arguments.turn {
        Turn::None => Turning::AsDrawn,
        Turn::Quarter => Turning::QuarterTurns,
        Turn::Any => Turning::AnyAngle,
    };
    if arguments.mirror {
        options.face = Face::Mirrored;
    }
    if arguments.corners_only {
        options.extent = Extent::CornersOnly;
    }
    if let Some(allowance) = arguments.rough_cut {
        options.rough_cut = RoughCut::Allowance(allowance);
    }
    Ok(options)
}
