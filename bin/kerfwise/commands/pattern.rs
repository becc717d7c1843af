//! `kerfwise pattern`: the full-size pattern on paper.

use super::deliver::deliver;
use crate::arguments::PatternArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;
use kerfwise::documents::pattern::Extent;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::documents::pattern::RoughCut;

pub(crate) fn run(arguments: &PatternArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_unfit("a pattern")?;
    let options = options(arguments)?;
    let parts = input.parts(&arguments.shared)?;
    let patterns: Result<Vec<_>, _> = parts
        .into_iter()
        .map(|part| products::pattern(part, &input.stamp, &options))
        .collect();
    deliver(&input, &arguments.shared, &arguments.output, &patterns?)
}

fn options(arguments: &PatternArguments) -> Result<PatternOptions, Failure> {
    let paper = match arguments.roll {
        Some(width) => PatternPaper::Roll { width },
        None if arguments.one_page => PatternPaper::OnePage,
        None => products::sheets(&products::paper(&arguments.paper)?),
    };
    let mut options = PatternOptions::new(paper);
    options.margin = arguments.margin;
    options.overlap = arguments.overlap;
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
