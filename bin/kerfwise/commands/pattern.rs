//! `kerfwise pattern`: the full-size pattern on sheets of paper.

use super::deliver::deliver;
use crate::arguments::PatternArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;

pub(crate) fn run(arguments: &PatternArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_draft("a pattern")?;
    let paper = products::paper(&arguments.paper)?;
    let parts = input.parts(&arguments.shared)?;
    let patterns: Result<Vec<_>, _> = parts
        .into_iter()
        .map(|part| products::pattern(part, &input.stamp, &paper))
        .collect();
    deliver(&input, &arguments.shared, &arguments.output, &patterns?)
}
