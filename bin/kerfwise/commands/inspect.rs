//! `kerfwise inspect`: what a shop would find wrong with a drawing; mending; comparing with a design.

use crate::arguments::Shared;
use crate::cut_products;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::files::Replace;
use crate::input;
use crate::inspect_arguments::DrawingUnit;
use crate::inspect_arguments::InspectArguments;
use crate::sending;
use crate::terminal;
use kerfwise::checks::Limits;
use kerfwise::documents::inspection;
use kerfwise::documents::inspection::InspectOptions;
use kerfwise::documents::inspection::Inspection;
use kerfwise::documents::inspection::MendOptions;
use kerfwise::documents::inspection::Mended;
use kerfwise::formats::FileFormat;
use kerfwise::formats::contents;
use kerfwise::formats::dxf;
use kerfwise::formats::dxf::DxfOptions;
use kerfwise::formats::dxf::DxfVersion;
use kerfwise::formats::incoming;
use kerfwise::formats::incoming::Known;
use kerfwise::formats::incoming::ReadOptions;
use kerfwise::formats::json;
use kerfwise::formats::svg;
use kerfwise::formats::svg::Pens;
use kerfwise::formats::svg::SvgOptions;
use kerfwise::formats::svg_read;
use kerfwise::formats::text;
use kerfwise::geometry::LengthUnit;
use kerfwise::sheet::Block;
use std::path::Path;
use std::path::PathBuf;

pub(crate) fn run(arguments: &InspectArguments) -> Result<Outcome, Failure> {
    let name = arguments.drawing.display().to_string();
    let bytes = files::read_drawing(&arguments.drawing)?;
    let inspected = inspected(arguments, &bytes)?;
    refuse_tool_path(arguments, &inspected)?;
    let footer = format!("kerfwise {}", env!("CARGO_PKG_VERSION"));
    let mut report = inspection::report(&inspected, &name, &footer);
    let mut outcome = if inspected.has_errors() {
        Outcome::Findings
    } else {
        Outcome::Fine
    };
    if let Some(design) = &arguments.against {
        let (table, fits) = against(arguments, design, &inspected)?;
        report.blocks.extend(table);
        if !fits {
            outcome = Outcome::Findings;
        }
    }
    let mut written = None;
    if arguments.mend {
        let options = MendOptions {
            within: arguments.within,
        };
        let mended = inspection::mend(&inspected, &options);
        let table = mended.table(inspected.options.shown_in);
        report.blocks.push(Block::Table(table));
        written = Some(write(arguments, &inspected, &mended)?);
    }
    if arguments.json {
        let facts = facts(&inspected, &name, written.as_deref());
        terminal::say(&json::write(&report, &facts)?);
    } else {
        terminal::say(&text::write(&report, terminal::width()));
        if let Some(path) = &written {
            terminal::say("");
            terminal::wrote(path, "the mended drawing; the one inspected is as it was");
        }
    }
    Ok(outcome)
}

/// Refuses to mend a tool path, or to hold it against a part: its lines are not the edges.
fn refuse_tool_path(arguments: &InspectArguments, inspected: &Inspection) -> Result<(), Failure> {
    let Some(made) = inspected.tool_path() else {
        return Ok(());
    };
    let said = match (arguments.mend, &arguments.against) {
        (false, None) => return Ok(()),
        (true, _) => {
            "mending joins ends and takes out what is there twice, and would spoil its leads and overlaps. Make \
             the tool path anew from the design, or mend the drawing that it was made from"
        }
        (false, Some(_)) => {
            "its lines are half a kerf beside the edges, with leads, so they are not held against the part. Judge \
             the finished size on the file made without a process (`kerfwise cut` without --process and --kerf)"
        }
    };
    Err(Failure::Said(format!(
        "{} says that it is a tool path, compensated already {made}: {said}",
        arguments.drawing.display()
    )))
}

/// Reads and inspects the drawing.
fn inspected(arguments: &InspectArguments, bytes: &[u8]) -> Result<Inspection, Failure> {
    for (name, value) in [("--join", arguments.join), ("--allow", arguments.allow)] {
        if !(value >= 0.0 && value.is_finite()) {
            return Err(Failure::Said(format!(
                "{name} {value} is no distance in mm"
            )));
        }
    }
    if !(arguments.within >= 1e-4 && arguments.within.is_finite()) {
        let said = format!(
            "--within {} is too fine: 0.0001 is the least",
            arguments.within
        );
        return Err(Failure::Said(said));
    }
    let unit = arguments.units.map(|unit| match unit {
        DrawingUnit::Mm => LengthUnit::Millimetre,
        DrawingUnit::Cm => LengthUnit::Centimetre,
        DrawingUnit::M => LengthUnit::Metre,
        DrawingUnit::In => LengthUnit::Inch,
        DrawingUnit::Ft => LengthUnit::Foot,
    });
    let drawing = incoming::read(
        bytes,
        &ReadOptions {
            unit: unit.map(Into::into),
            within: arguments.within,
        },
    )?;
    let inches = drawing.unit.unit.name == LengthUnit::Inch.name();
    let options = InspectOptions {
        limits: limits(arguments)?,
        sheet: arguments.sheet.as_deref().map(sending::sheet).transpose()?,
        not_cut: arguments.not_cut.clone(),
        join: arguments.join,
        shown_in: if inches {
            LengthUnit::Inch
        } else {
            LengthUnit::Millimetre
        },
    };
    Ok(inspection::inspect(drawing, options))
}

fn limits(arguments: &InspectArguments) -> Result<Limits, Failure> {
    let known = input::processes(arguments.processes.as_deref())?;
    let Some(process) = sending::process(arguments.process.as_deref(), &known)? else {
        return Ok(Limits::default());
    };
    // without a thickness the figures for thin plate, which ask the least
    let thickness = arguments.thickness.unwrap_or(0.0);
    if !(thickness >= 0.0 && thickness.is_finite()) {
        return Err(Failure::Said(format!(
            "--thickness {thickness} is no thickness"
        )));
    }
    Ok(inspection::of_process(process, thickness))
}

/// The comparison with a part of a design, and whether the drawing is that part.
fn against(
    arguments: &InspectArguments,
    design: &Path,
    inspected: &Inspection,
) -> Result<(Vec<Block>, bool), Failure> {
    let shared = Shared {
        design: design.to_owned(),
        set: Vec::new(),
        as_made: None,
        part: arguments.part.clone(),
        json: arguments.json,
    };
    let input = input::load(&shared)?;
    let parts = input.parts(&shared)?;
    let [part] = parts[..] else {
        let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
        return Err(Failure::Said(format!(
            "{} has {} parts: say which with --part ({})",
            design.display(),
            names.len(),
            names.join(", ")
        )));
    };
    let Some(found) = inspection::against(inspected, part) else {
        return Err(Failure::Said(format!(
            "{} has no closed outline to compare with `{}`",
            arguments.drawing.display(),
            part.name
        )));
    };
    let unit = inspected.options.shown_in;
    let mut blocks = vec![Block::Table(found.table(part, arguments.allow, unit))];
    let mut fits = found.greatest() <= arguments.allow;
    if let Some((table, kept)) = inspection::against_limits(inspected, &found, part, &input.design)
    {
        blocks.push(Block::Table(table));
        fits &= kept;
    }
    Ok((blocks, fits))
}

/// Writes the mended drawing and gives its path. Its bytes are read back first.
fn write(
    arguments: &InspectArguments,
    inspected: &Inspection,
    mended: &Mended,
) -> Result<PathBuf, Failure> {
    let name = arguments.drawing.file_name().unwrap_or_default();
    let comments = vec![
        format!("mended from {}", name.to_string_lossy()),
        format!("kerfwise {}", env!("CARGO_PKG_VERSION")),
    ];
    let (ending, bytes) = match inspected.drawing.format {
        FileFormat::Dxf => {
            let inches = inspected.drawing.unit.unit.name == LengthUnit::Inch.name();
            let unit = if inches {
                LengthUnit::Inch
            } else {
                LengthUnit::Millimetre
            };
            let version = arguments.dxf.map_or_else(
                || edition(&inspected.drawing.edition),
                cut_products::version,
            );
            let options = DxfOptions {
                version,
                unit,
                comments,
            };
            let bytes = dxf::write(&mended.picture, &options)?;
            contents::compare(&mended.picture, &dxf::read_contours(&bytes, unit)?)?;
            ("dxf", bytes)
        }
        FileFormat::Svg => {
            let text = svg::write(
                &mended.picture,
                &SvgOptions {
                    title: name.to_string_lossy().into_owned(),
                    comments,
                    margin: 0.0,
                    pens: Pens::AllContinuous(cut_products::HAIR_LINE),
                },
            )?;
            contents::compare(&mended.picture, &svg_read::read_contours(text.as_bytes())?)?;
            ("svg", text.into_bytes())
        }
    };
    let path = path(arguments, ending)?;
    let replace = if arguments.replace {
        Replace::Any
    } else {
        Replace::OwnOnly
    };
    files::write(&path, &bytes, replace)?;
    Ok(path)
}

fn path(arguments: &InspectArguments, ending: &str) -> Result<PathBuf, Failure> {
    let drawing = &arguments.drawing;
    let stem = drawing.file_stem().unwrap_or_default().to_string_lossy();
    let name = format!("{stem}-mended.{ending}");
    let path = match &arguments.out {
        None => drawing.with_file_name(name),
        Some(out) => {
            if files::is_folder(out) {
                out.join(name)
            } else {
                out.clone()
            }
        }
    };
    let same = match (path.canonicalize(), drawing.canonicalize()) {
        (Ok(path), Ok(drawing)) => path == drawing,
        _ => path == *drawing,
    };
    if same {
        let said = format!(
            "{} is the drawing inspected, and is never replaced: give another name with --out",
            path.display()
        );
        return Err(Failure::Said(said));
    }
    Ok(path)
}

/// The edition that is written for one that was read: the same, or the next older.
fn edition(read: &str) -> DxfVersion {
    match read {
        "R10" | "R12" | "" => DxfVersion::R12,
        "R2007" | "R2010" => DxfVersion::R2007,
        "R2013" | "R2018" => DxfVersion::R2013,
        _ => DxfVersion::R2000,
    }
}

/// What a program wants to know.
fn facts(
    inspected: &Inspection,
    name: &str,
    written: Option<&Path>,
) -> serde_json::Map<String, serde_json::Value> {
    let finding = |finding: &kerfwise::checks::Finding| {
        let drawn = inspected.drawing.drawn.get(finding.source.0 as usize);
        let handle = drawn.filter(|drawn| drawn.place.handle != 0);
        let mut facts = sending::fact(finding);
        let own = [
            ("line", drawn.map(|drawn| drawn.place.line).into()),
            (
                "handle",
                handle
                    .map(|drawn| format!("{:X}", drawn.place.handle))
                    .into(),
            ),
            (
                "layer",
                drawn
                    .and_then(|drawn| inspected.drawing.layers.get(drawn.layer))
                    .cloned()
                    .into(),
            ),
        ];
        for (name, value) in own {
            facts.insert(name.to_owned(), value);
        }
        facts
    };
    let findings: Vec<_> = inspected.findings.iter().map(finding).collect();
    let unreadable: Vec<_> = inspected
        .drawing
        .faults
        .iter()
        .map(|fault| {
            serde_json::json!({
                "kind": fault.kind,
                "line": fault.place.line,
                "problem": fault.problem,
            })
        })
        .collect();
    let unit = &inspected.drawing.unit;
    let known = match unit.known {
        Known::Stated => "stated",
        Known::Remark => "remark",
        Known::Told => "told",
        Known::Likely { .. } => "likely",
    };
    let facts = serde_json::json!({
        "drawing": name,
        "kerfwise": env!("CARGO_PKG_VERSION"),
        "tool_path": inspected.tool_path(),
        "unit": { "name": unit.unit.name, "millimetres": unit.unit.millimetres, "known": known },
        "findings": findings,
        "unreadable": unreadable,
        "written": written.map(|path| path.to_string_lossy().replace('\\', "/")),
    });
    match facts {
        serde_json::Value::Object(facts) => facts,
        _ => serde_json::Map::new(),
    }
}
