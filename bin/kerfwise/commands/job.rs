//! `kerfwise job`: all of it, as one folder with an index page.

use super::deliver::deliver_checked;
use super::printer;
use crate::arguments::CutFormat;
use crate::arguments::DrawFormat;
use crate::arguments::DxfEdition;
use crate::arguments::FileUnit;
use crate::arguments::JobArguments;
use crate::arguments::Output;
use crate::arguments::SheetFormat;
use crate::cut_products;
use crate::cut_products::Wish;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::input::Input;
use crate::kerf_arguments::KerfFormat;
use crate::products;
use crate::products::Product;
use crate::readings;
use crate::sending;
use crate::terminal;
use crate::tool_path_arguments::ToolPathArguments;
use crate::tool_paths;
use kerfwise::design::part::Part;
use kerfwise::documents::check;
use kerfwise::documents::cut_file::Cutting;
use kerfwise::documents::inspection;
use kerfwise::documents::job;
use kerfwise::documents::job::CutFiles;
use kerfwise::documents::kerf::Compared;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::reading;
use kerfwise::documents::record;
use kerfwise::geometry::LengthUnit;
use kerfwise::measures::inspection::Item;
use kerfwise::shop::kerf::Wanted;
use kerfwise::trade::Processes;
use std::path::PathBuf;

/// The form to be filled in when the parts are made, to print and for a spreadsheet; none if nothing is
/// to be measured.
fn form(input: &Input, parts: &[&Part]) -> Result<Vec<Product>, Failure> {
    let all = readings::items(&input.source, &input.design)?;
    let wanted = |item: &&Item| parts.iter().any(|part| part.name == item.part);
    let items: Vec<&Item> = all.iter().filter(wanted).collect();
    if items.is_empty() {
        return Ok(Vec::new());
    }
    let document = record::form(&items, &input.design, &input.stamp);
    let what = "form to be filled in while measuring".to_owned();
    let a4 = products::paper("a4")?;
    let printed = products::sheet(&document, "form", what, SheetFormat::Pdf, &a4)?;
    let table = Product {
        name: "form.csv".to_owned(),
        what: "the same form for a spreadsheet, to be read by `measure`".to_owned(),
        bytes: record::empty_csv(items.into_iter(), &input.stamp).into_bytes(),
    };
    Ok(vec![printed, table])
}

/// The unit of the cut files: the design's own, where a shop knows it.
const fn unit(input: &Input) -> FileUnit {
    match input.stamp.unit {
        LengthUnit::Inch | LengthUnit::Foot => FileUnit::In,
        _ => FileUnit::Mm,
    }
}

/// Where the folder goes: beside the design, under its name, if nothing else is said.
fn folder(arguments: &JobArguments) -> PathBuf {
    let shared = &arguments.shared;
    let stem = shared
        .design
        .file_stem()
        .map(|stem| stem.to_string_lossy().into_owned());
    let folder = format!(
        "{}-job{}/",
        stem.unwrap_or_else(|| "design".to_owned()),
        shared.suffix()
    );
    let mut out = match &arguments.output.out {
        Some(out) => out.clone(),
        None => input::beside(&shared.design, &folder),
    };
    // a folder, whether it is there already or not
    out.push("");
    out
}

/// The cut files of a part: the finished size, and the tool path where a process is named.
fn cut_files(
    input: &Input,
    part: &Part,
    unit: FileUnit,
    cutting: Option<&Cutting>,
) -> Result<Vec<Product>, Failure> {
    let stamp = &input.stamp;
    let dxf = Wish::nominal(CutFormat::Dxf, DxfEdition::R2000, unit);
    let mut files = cut_products::cut(part, stamp, &dxf)?;
    let svg = Wish::nominal(CutFormat::Svg, DxfEdition::R2000, FileUnit::Mm);
    files.extend(cut_products::cut(part, stamp, &svg)?);
    if cutting.is_some() {
        let tool_path = Wish { cutting, ..dxf };
        files.extend(cut_products::cut(part, stamp, &tool_path)?);
    }
    Ok(files)
}

/// The comparison of kerfs. The other papers are right without it; that it is missing is said.
fn kerf_page(input: &Input, part: &Part, known: &Processes) -> Result<Vec<Product>, Failure> {
    let every = |process| Wanted {
        process,
        kerf: None,
    };
    let wanted: Vec<Wanted<'_>> = known.all.iter().map(every).collect();
    match Compared::new(&input.design, part, &wanted, &known.currency) {
        Ok(compared) => products::kerf(&compared, &input.stamp, KerfFormat::Html),
        Err(error) => {
            let name = &part.name;
            terminal::aside(&format!("no kerf page for `{name}`: {error}"));
            Ok(Vec::new())
        }
    }
}

pub(crate) fn run(arguments: &JobArguments) -> Result<Outcome, Failure> {
    let shared = &arguments.shared;
    let input = input::load(shared)?.with_tools(arguments.tools.as_ref())?;
    input.refuse_unfit("a job folder")?;
    let known = input::processes(arguments.processes.as_deref())?;
    let process = sending::process(arguments.process.as_deref(), &known)?;
    let paper = products::paper(&arguments.paper)?;
    let mut on_paper = PatternOptions::new(products::sheets(&paper));
    on_paper.printer = printer::known(arguments.printer.as_deref())?;
    let parts = input.parts(shared)?;
    let unit = unit(&input);
    let stamp = &input.stamp;
    let mut report = check::with_pictures(&input.design, &parts, stamp);
    let mut looked = Vec::new();
    let mut paths = Vec::new();
    for part in &parts {
        let plain = ToolPathArguments::default();
        let cutting = tool_paths::cutting(&input, part, Face::AsDrawn, &plain, process)?;
        let limits = sending::limits(part, process);
        let found = inspection::before_sending(part, cutting.as_ref(), &limits, None, stamp.unit);
        report.blocks.extend(found.blocks());
        looked.push(found);
        paths.push(cutting);
    }
    sending::refuse("a job folder", &looked)?;
    let mut files = vec![products::sheet(
        &report,
        "check",
        "dimensions, areas and weights; what a shop would find".to_owned(),
        SheetFormat::Pdf,
        &products::paper("a4")?,
    )?];
    files.extend(form(&input, &parts)?);
    let noted: Vec<Part> = parts
        .iter()
        .map(|part| reading::noted(&input.design, part))
        .collect();
    for ((part, noted), cutting) in parts.iter().zip(&noted).zip(&paths) {
        files.push(products::drawing(noted, stamp, DrawFormat::Svg, &paper)?);
        files.push(products::drawing(noted, stamp, DrawFormat::Pdf, &paper)?);
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
        files.extend(cut_files(&input, part, unit, cutting.as_ref())?);
        files.extend(kerf_page(&input, part, &known)?);
    }
    let listed = files
        .iter()
        .map(|file| (file.name.as_str(), file.what.as_str()));
    let noted: Vec<&Part> = noted.iter().collect();
    let kind = match process {
        None => CutFiles::Nominal,
        Some(_) => CutFiles::NominalAndToolPath,
    };
    let index = job::index(&noted, stamp, kind, listed).map_err(Failure::said)?;
    let page = Product {
        name: "index.html".to_owned(),
        what: "what is in this folder".to_owned(),
        bytes: products::page(&index)?,
    };
    files.push(page);
    let output = Output {
        out: Some(folder(arguments)),
        replace: arguments.output.replace,
        folder: true,
    };
    deliver_checked(&input, shared, &output, &files, looked.as_slice())
}
