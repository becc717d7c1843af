//! `kerfwise draw`: the dimensioned drawing.

use super::deliver::deliver;
use crate::arguments::DrawArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;
use kerfwise::documents::reading;

pub(crate) fn run(arguments: &DrawArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_wrong("a drawing")?;
    let paper = products::paper(&arguments.paper)?;
    let parts = input.parts(&arguments.shared)?;
    let drawn: Result<Vec<_>, _> = parts
        .into_iter()
        .map(|part| {
            let noted = reading::noted(&input.design, part);
            products::drawing(&noted, &input.stamp, arguments.format, &paper)
        })
        .collect();
    deliver(&input, &arguments.shared, &arguments.output, &drawn?)
}
