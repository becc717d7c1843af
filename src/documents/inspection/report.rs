//! The inspection in words and tables.

use super::Inspection;
use crate::checks::Finding;
use crate::checks::Grade;
use crate::formats::incoming::DrawnShape;
use crate::formats::incoming::Known;
use crate::geometry::LengthUnit;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number::trimmed;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::Unit;

/// The report of an inspection; `name` is the file's, `footer` what made it.
pub fn report(inspection: &Inspection, name: &str, footer: &str) -> Document {
    let mut blocks = vec![Block::Table(holds(inspection))];
    blocks.push(Block::Table(layers(inspection)));
    blocks.push(Block::Table(kinds(inspection)));
    if !inspection.drawing.faults.is_empty() {
        blocks.push(Block::Table(faults(inspection)));
    }
    blocks.push(Block::Heading("What a shop would find".to_owned()));
    if inspection.findings.is_empty() {
        blocks.push(Block::Paragraph(said_nothing(inspection)));
    } else {
        let place = |source| inspection.place(source);
        blocks.push(Block::Table(findings_table(
            &inspection.findings,
            place,
            inspection.options.shown_in,
        )));
    }
    Document {
        title: format!("Inspection of {name}"),
        footer: footer.to_owned(),
        blocks,
    }
}

fn said_nothing(inspection: &Inspection) -> String {
    let without = inspection.options.limits == crate::checks::Limits::default();
    if without {
        "Nothing. Smallest holes, webs and corners depend on the way of cutting: name one with --process."
            .to_owned()
    } else {
        "Nothing.".to_owned()
    }
}

fn count(number: usize) -> Cell {
    Cell::Count(i64::try_from(number).unwrap_or(i64::MAX))
}

fn area(square_millimetres: f64, unit: LengthUnit) -> Cell {
    let side = unit.millimetres();
    let decimals = if unit == LengthUnit::Millimetre { 1 } else { 3 };
    Quantity {
        value: square_millimetres / (side * side),
        unit: Unit::Area(unit),
        decimals,
    }
    .into()
}

fn holds(inspection: &Inspection) -> Table {
    let unit = inspection.options.shown_in;
    let drawing = &inspection.drawing;
    let subject = &inspection.subject;
    let length = |value: f64| Cell::from(Quantity::length(value, unit));
    let mut table = Table::new(
        "What it holds",
        vec![
            Column::words("What", "what"),
            Column::numbers("Value", "value"),
            Column::words("Remark", "remark"),
        ],
    );
    let mut row = |what: &str, value: Cell, remark: String| {
        table.row(vec![what.into(), value, remark.into()]);
    };
    let format = format!("{} {}", drawing.format.name(), drawing.edition);
    row("format", format.trim().into(), String::new());
    row("unit", drawing.unit.unit.name.into(), how_known(inspection));
    if let Some(bounds) = bounds_of_all(inspection) {
        let other = other_unit(unit);
        let also = |value: f64| {
            let shown = trimmed(value / other.millimetres(), 3);
            format!("{shown} {}", other.symbol())
        };
        row(
            "overall, across",
            length(bounds.width()),
            also(bounds.width()),
        );
        row(
            "overall, up",
            length(bounds.height()),
            also(bounds.height()),
        );
        let corner = |value: f64| trimmed(value / unit.millimetres(), 3);
        let at = format!("({}, {})", corner(bounds.x0), corner(bounds.y0));
        row("lower left corner at", at.into(), String::new());
    }
    let pieces: usize = subject.runs.iter().map(|run| run.segments.len()).sum();
    let spots = drawing.drawn.iter();
    let spots = spots.filter(|d| matches!(d.shape, DrawnShape::Spot(_)));
    let spots = count(spots.count());
    if inspection.tool_path().is_some() {
        let cuts: f64 = subject
            .runs
            .iter()
            .flat_map(|run| &run.segments)
            .map(Segment::length)
            .sum();
        let with_leads = "each a line of its own, with its leads".to_owned();
        row("cuts of a tool path", count(subject.runs.len()), with_leads);
        row("points", spots, "to mark or drill".to_owned());
        row("lines and arcs to cut", count(pieces), String::new());
        row("length to cut", length(cuts), String::new());
        return table;
    }
    let outlines = subject.assembly.outlines.len();
    let openings: usize = subject.nested.regions.iter().map(|r| r.holes().len()).sum();
    row("closed outlines", count(outlines), String::new());
    row(
        "pieces of material",
        count(subject.nested.regions.len()),
        String::new(),
    );
    row("openings", count(openings), String::new());
    row(
        "lines that do not close",
        count(subject.assembly.open.len()),
        String::new(),
    );
    row("points", spots, "to mark or drill".to_owned());
    row("lines and arcs to cut", count(pieces), String::new());
    let closed = subject.assembly.outlines.iter();
    let closed: f64 = closed.map(|outline| outline.contour.perimeter()).sum();
    let open: f64 = subject.assembly.open.iter().map(|o| o.path.length()).sum();
    row("length to cut", length(closed + open), String::new());
    let material: f64 = subject.nested.regions.iter().map(Region::area).sum();
    row("area of material", area(material, unit), String::new());
    table
}

const fn other_unit(unit: LengthUnit) -> LengthUnit {
    match unit {
        LengthUnit::Inch | LengthUnit::Foot => LengthUnit::Millimetre,
        _ => LengthUnit::Inch,
    }
}

fn how_known(inspection: &Inspection) -> String {
    match &inspection.drawing.unit.known {
        Known::Stated => "the file says so".to_owned(),
        Known::Remark => "a remark in the file says so".to_owned(),
        Known::Told => "you said so".to_owned(),
        Known::Likely { reason, .. } => format!("likely, the file does not say: {reason}"),
    }
}

fn bounds_of_all(inspection: &Inspection) -> Option<Rect> {
    let segments = inspection.subject.runs.iter().flat_map(|run| &run.segments);
    segments
        .map(Segment::bounds)
        .reduce(|sum, bounds| sum.union(bounds))
}

fn layers(inspection: &Inspection) -> Table {
    let mut table = Table::new(
        "Layers",
        vec![
            Column::words("Layer", "layer"),
            Column::numbers("Things drawn", "drawn"),
            Column::words("Cut", "cut"),
        ],
    );
    let mut counts = vec![0; inspection.drawing.layers.len()];
    for drawn in &inspection.drawing.drawn {
        if let Some(count) = counts.get_mut(drawn.layer) {
            *count += 1;
        }
    }
    for (number, (name, drawn)) in inspection.drawing.layers.iter().zip(counts).enumerate() {
        let cut = if inspection.is_cut(number) {
            "yes"
        } else {
            "no"
        };
        let name = if name.is_empty() { "(none)" } else { name };
        table.row(vec![name.into(), count(drawn), cut.into()]);
    }
    table
}

fn kinds(inspection: &Inspection) -> Table {
    let mut table = Table::new(
        "Kinds",
        vec![
            Column::words("Kind", "kind"),
            Column::numbers("How many", "count"),
            Column::numbers("First in line", "line"),
            Column::words("Remark", "remark"),
        ],
    );
    for kind in &inspection.drawing.kinds {
        let remark = if kind.left_out.is_empty() {
            String::new()
        } else {
            format!("not cut: {}", kind.left_out)
        };
        table.row(vec![
            kind.name.as_str().into(),
            count(kind.count),
            count(kind.first_line),
            remark.into(),
        ]);
    }
    table
}

fn faults(inspection: &Inspection) -> Table {
    let mut table = Table::new(
        "Cannot be read",
        vec![
            Column::words("What", "what"),
            Column::numbers("Line", "line"),
            Column::words("What is wrong", "problem"),
        ],
    );
    for fault in &inspection.drawing.faults {
        table.row(vec![
            fault.kind.as_str().into(),
            count(fault.place.line),
            fault.problem.as_str().into(),
        ]);
    }
    table
}

/// Findings as a table; `place` says in words where a source stands.
pub fn findings_table(
    findings: &[Finding],
    place: impl Fn(SourceId) -> String,
    unit: LengthUnit,
) -> Table {
    let mut table = Table::new(
        "Findings",
        vec![
            Column::words("Grade and rule", "rule"),
            Column::words("Where", "where"),
            Column::numbers("Measured", "measured"),
            Column::numbers("Limit", "limit"),
            Column::words("What is wrong; what to do", "what"),
        ],
    );
    let length = |value: Option<f64>| match value {
        Some(value) => {
            let mut quantity = Quantity::length(value, unit);
            // what a shop does not see at two decimals is still a gap
            if value.abs() < 0.1 {
                quantity.decimals += 3;
            }
            Cell::from(quantity)
        }
        None => Cell::Empty,
    };
    for finding in findings {
        let mut at = place(finding.source);
        if let Some(point) = finding.at {
            let shown = |value: f64| trimmed(value / unit.millimetres(), 3);
            let comma = if at.is_empty() { "" } else { ", " };
            let (x, y) = (shown(point.x), shown(point.y));
            at = format!("{at}{comma}at ({x}, {y})");
        }
        let basis = if finding.basis.is_empty() {
            String::new()
        } else {
            format!(" [{}]", finding.basis)
        };
        let help = if finding.help.is_empty() {
            String::new()
        } else {
            format!("; {}", finding.help)
        };
        table.row(vec![
            format!("{}: {}", finding.grade.word(), finding.rule.name()).into(),
            at.into(),
            length(finding.measured),
            length(finding.limit),
            format!("{}{help}{basis}", finding.message).into(),
        ]);
    }
    let errors = findings.iter().filter(|f| f.grade == Grade::Error).count();
    let notices = findings.len() - errors;
    let plural = if notices == 1 { "" } else { "s" };
    table.notes.push(format!(
        "{errors} of error grade, {notices} notice{plural}. A limit from memory or usual practice only warns: the \
         shop's own figures count."
    ));
    table
}
