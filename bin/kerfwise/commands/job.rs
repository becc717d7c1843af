//! `kerfwise job`: all of it, as one folder with an index page.

use super::deliver::deliver;
use super::printer;
use crate::arguments::CutFormat;
use crate::arguments::DrawFormat;
use crate::arguments::DxfEdition;
use crate::arguments::FileUnit;
use crate::arguments::JobArguments;
use crate::arguments::Output;
use crate::arguments::SheetFormat;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::products;
use crate::products::Product;
use kerfwise::documents::check;
use kerfwise::documents::job;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::geometry::LengthUnit;

pub(crate) fn run(arguments: &JobArguments) -> Result<Outcome, Failure> {
    let shared = &arguments.shared;
    let input = input::load(shared)?;
    input.refuse_unfit("a job folder")?;
    let paper = products::paper(&arguments.paper)?;
    let mut on_paper = PatternOptions::new(products::sheets(&paper));
    on_paper.printer = printer::known(arguments.printer.as_deref())?;
    let parts = input.parts(shared)?;
    let unit = match input.stamp.unit {
        LengthUnit::Inch | LengthUnit::Foot => FileUnit::In,
        _ => FileUnit::Mm,
    };
    let report = check::check(&input.design, &parts, &input.stamp);
    let mut files = vec![products::sheet(
        &report,
        "check",
        "dimensions, areas and weights".to_owned(),
        SheetFormat::Pdf,
        &products::paper("a4")?,
    )?];
    for part in &parts {
        let stamp = &input.stamp;
        files.push(products::drawing(part, stamp, DrawFormat::Svg, &paper)?);
        files.push(products::drawing(part, stamp, DrawFormat::Pdf, &paper)?);
        files.push(products::pattern(
            std::slice::from_ref(part),
            stamp,
            &on_paper,
        )?);
        files.push(products::marking_out(
            part,
            stamp,
            SheetFormat::Pdf,
            &paper,
        )?);
        files.extend(products::cut(
            part,
            stamp,
            CutFormat::Dxf,
            DxfEdition::R2000,
            unit,
        )?);
        let [svg, _] = products::cut(part, stamp, CutFormat::Svg, DxfEdition::R2000, FileUnit::Mm)?;
        files.push(svg);
    }
    let listed = files
        .iter()
        .map(|file| (file.name.as_str(), file.what.as_str()));
    let index = job::index(&parts, &input.stamp, listed).map_err(Failure::said)?;
    let page = Product {
        name: "index.html".to_owned(),
        what: "what is in this folder".to_owned(),
        bytes: products::page(&index)?,
    };
    files.push(page);
    let stem = shared
        .design
        .file_stem()
        .map(|stem| stem.to_string_lossy().into_owned());
    let what_if = if shared.set.is_empty() {
        ""
    } else {
        "-what-if"
    };
    let folder = format!(
        "{}-job{what_if}/",
        stem.unwrap_or_else(|| "design".to_owned())
    );
    let mut out = match &arguments.output.out {
        Some(out) => out.clone(),
        None => input::beside(&shared.design, &folder),
    };
    // a folder, whether it is there already or not
    out.push("");
    let output = Output {
        out: Some(out),
        replace: arguments.output.replace,
        folder: true,
    };
    deliver(&input, shared, &output, &files)
}
