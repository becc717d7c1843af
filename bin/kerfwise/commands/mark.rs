//! `kerfwise mark`: the marking-out sheet.

use super::deliver::deliver;
use crate::arguments::MarkArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;

pub(crate) fn run(arguments: &MarkArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_wrong("a marking-out sheet")?;
    let paper = products::paper(&arguments.paper)?;
    let parts = input.parts(&arguments.shared)?;
    let sheets: Result<Vec<_>, _> = parts
        .into_iter()
        .map(|part| products::marking_out(part, &input.stamp, arguments.format, &paper))
        .collect();
    deliver(&input, &arguments.shared, &arguments.output, &sheets?)
}
