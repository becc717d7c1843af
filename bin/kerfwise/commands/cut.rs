//! `kerfwise cut`: the cut file at nominal finished size, and its order sheet.

use super::deliver::deliver;
use crate::arguments::CutArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;

pub(crate) fn run(arguments: &CutArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_unfit("a cut file")?;
    let parts = input.parts(&arguments.shared)?;
    let mut files = Vec::new();
    for part in parts {
        let (format, edition, unit) = (arguments.format, arguments.dxf, arguments.units);
        files.extend(products::cut(part, &input.stamp, format, edition, unit)?);
    }
    deliver(&input, &arguments.shared, &arguments.output, &files)
}
