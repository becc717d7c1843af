//! The check of a design: dimensions with their working, what is still to be measured, limits and what
//! the spreads of the dimensions do to them, plates, fits, the parts.

mod fits;
mod flatness;
mod limits;
mod plates;
mod room;
mod stacks;
pub(super) mod words;

use super::Stamp;
use super::summary;
use super::tools;
use crate::design::Design;
use crate::design::Dimension;
use crate::design::Severity;
use crate::design::dimensions::Spread;
use crate::design::dimensions::State;
use crate::design::dimensions::Workmanship;
use crate::design::expression::Kind;
use crate::design::file::Origin;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::number;
use crate::measures::Review;
use crate::measures::review;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::Unit;
use crate::sheet::number::trimmed;
use crate::trade::ToleranceClass;
use crate::trade::general_tolerances;
use crate::trade::materials;

/// What the design comes to, for `parts` of it, in words and tables.
pub fn check(design: &Design, parts: &[&Part], stamp: &Stamp) -> Document {
    document(design, parts, stamp, Pictures::LeftOut)
}

/// The same with small pictures of where each limit is measured, for paper and screen.
pub fn with_pictures(design: &Design, parts: &[&Part], stamp: &Stamp) -> Document {
    document(design, parts, stamp, Pictures::Drawn)
}

/// Whether a check has pictures.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Pictures {
    Drawn,
    LeftOut,
}

fn document(design: &Design, parts: &[&Part], stamp: &Stamp, pictures: Pictures) -> Document {
    let mut blocks = Vec::new();
    blocks.extend(rules(design));
    let review = review(design);
    blocks.extend(stamp.otherwise_words().map(|words| {
        Block::Paragraph(format!("{words} Tolerances stay where the file has them."))
    }));
    blocks.extend(still_to_measure(design));
    blocks.extend(findings(design, &review));
    if design.dimensions.iter().next().is_some() {
        blocks.push(Block::Table(dimensions(design)));
    }
    let scope: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
    blocks.extend(limits::limits(design, &review, &scope));
    if pictures == Pictures::Drawn {
        blocks.extend(limits::pictures(parts, &review).map(Block::Figure));
    }
    blocks.extend(stacks::stacks(design, &review, &scope));
    blocks.extend(plates::plates(design, &review));
    blocks.extend(fits::fits(&review, design.unit()));
    blocks.extend(tools::nearest_tools(design, parts, design.unit()));
    for part in parts {
        let material = part.plate.as_ref().map(|plate| plate.material.as_str());
        let density = material
            .and_then(|material| materials::find(material).ok())
            .map(|material| material.density.value);
        blocks.push(Block::Heading(format!("Part “{}”", part.name)));
        blocks.extend(summary::part_tables(part, stamp, density));
    }
    let title = if stamp.design.is_empty() {
        "Check".to_owned()
    } else {
        stamp.design.clone()
    };
    Document {
        title,
        footer: stamp.line(),
        blocks,
    }
}

fn rules(design: &Design) -> Option<Block> {
    let rules = design.file.rules.as_ref()?;
    let word = |word: &Option<crate::design::Word>, before: &str| {
        word.as_ref().map(|word| format!("{before}{}", word.value))
    };
    let said: Vec<String> = [
        word(&rules.title, ""),
        word(&rules.edition, "edition "),
        word(&rules.clause, "clause "),
    ]
    .into_iter()
    .flatten()
    .collect();
    Some(Block::Paragraph(format!("Rules: {}.", said.join(", "))))
}

/// What to measure, where, and with what.
fn still_to_measure(design: &Design) -> Vec<Block> {
    let item = |dimension: &Dimension| {
        let note = dimension
            .note
            .as_deref()
            .unwrap_or("measure it on the boat");
        let with = dimension
            .instrument
            .as_deref()
            .map(|with| format!(", with a {with}"));
        let limits = permitted(dimension);
        let limits = if limits.is_empty() {
            limits
        } else {
            format!(" (permitted: {limits})")
        };
        format!(
            "{}: {note}{}{limits}",
            dimension.name,
            with.unwrap_or_default()
        )
    };
    let open: Vec<String> = design.dimensions.open().map(item).collect();
    if open.is_empty() {
        return Vec::new();
    }
    let undecided = design
        .dimensions
        .iter()
        .filter_map(|dimension| match &dimension.state {
            State::Undecided(names) => {
                Some(format!("{} waits for {}", dimension.name, names.join(", ")))
            }
            State::Known(_) | State::Open => None,
        });
    let mut blocks = vec![
        Block::Heading("Still to be measured".to_owned()),
        Block::List(open),
        Block::Paragraph(
            "Until then pictures are drafts, and there are no patterns and no cut files."
                .to_owned(),
        ),
    ];
    let undecided: Vec<String> = undecided.collect();
    if !undecided.is_empty() {
        blocks.push(Block::List(undecided));
    }
    blocks
}

/// What is wrong although the design can be built; notices are told beside the file's own lines.
fn findings(design: &Design, review: &Review) -> Vec<Block> {
    let of_design = design.findings();
    let errors: Vec<String> = of_design
        .iter()
        .chain(&review.findings)
        .filter(|finding| finding.severity == Severity::Error)
        .map(|finding| finding.kind.to_string())
        .collect();
    if errors.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Heading("Not right yet".to_owned()),
        Block::List(errors),
    ]
}

fn dimensions(design: &Design) -> Table {
    let mut table = Table::new(
        "Dimensions",
        vec![
            Column::words("Name", "name"),
            Column::numbers("Value", "value"),
            Column::words("Permitted", "permitted"),
            Column::words("Expected", "expected"),
            Column::words("Origin", "origin"),
            Column::words("Working, remark", "remark"),
        ],
    );
    for dimension in &design.dimensions {
        let working = dimension.working.clone();
        let class = dimension
            .general
            .map(|general| general.class.name().to_owned());
        let remark: Vec<String> = [working, dimension.note.clone(), class]
            .into_iter()
            .flatten()
            .collect();
        table.row(vec![
            dimension.name.as_str().into(),
            value(dimension),
            required(dimension).into(),
            expected(dimension).into(),
            origin(dimension.origin).into(),
            remark.join("; ").into(),
        ]);
    }
    let (spread, source) = match design.dimensions.workmanship() {
        Workmanship::Stated(spread) => (spread, "as the design states"),
        Workmanship::Assumed(spread) => (
            spread,
            "careful hand work to a scribed line; common practice, change it by `workmanship`",
        ),
    };
    let shown = with_unit(spread, design.unit());
    table.notes.push(format!("Workmanship ±{shown}: {source}."));
    table.notes.extend(general_tolerance(design));
    table
}

/// What the general tolerance holds, and what it leaves out.
fn general_tolerance(design: &Design) -> Option<String> {
    let class = design.file.tolerance_class()?;
    let linear = general_tolerances::LINEAR_MARK.words();
    let doubt = match class {
        ToleranceClass::Coarse => "; up to 6 mm one of two copies of it prints less",
        _ => "",
    };
    Some(format!(
        "General tolerance {} (ISO 2768-1:1989, Tables 1 and 2, {linear}{doubt}): what is required of \
         every length without limits of its own, where workmanship is what the maker achieves. Held \
         are those with a `measure`; in ( ) stands what it says of the others, which nobody takes on \
         the part. What was measured on the boat, what repeats another, and angles are left out: \
         give an angle its own tolerance.",
        class.name()
    ))
}

fn value(dimension: &Dimension) -> Cell {
    let Some(value) = dimension.value() else {
        return match dimension.state {
            State::Open => "open".into(),
            State::Known(_) | State::Undecided(_) => "undecided".into(),
        };
    };
    match dimension.kind {
        Kind::LENGTH => Quantity::length(value, dimension.unit).into(),
        Kind::AREA => {
            let side = dimension.unit.millimetres();
            let (value, unit) = (value / (side * side), Unit::Area(dimension.unit));
            Quantity {
                value,
                unit,
                decimals: 2,
            }
            .into()
        }
        Kind::Angle => {
            let value = value * 180.0 / number::HALF_TURN;
            Quantity {
                value,
                unit: Unit::Degree,
                decimals: 3,
            }
            .into()
        }
        Kind::Bare | Kind::Power(_) => dimension.shown(value).into(),
    }
}

/// What is required, in words; in parentheses what a general tolerance says of a dimension that is not
/// taken on a part.
fn required(dimension: &Dimension) -> String {
    match dimension.general {
        Some(general) if !dimension.permitted.is_limited() => {
            format!("(±{})", dimension.shown(general.deviation))
        }
        _ => permitted(dimension),
    }
}

/// What the rules permit, in words.
fn permitted(dimension: &Dimension) -> String {
    let shown = |value: f64| dimension.shown(value);
    match (dimension.permitted.min, dimension.permitted.max) {
        (Some(min), Some(max)) => format!("{} to {}", shown(min), shown(max)),
        (Some(min), None) => format!("not less than {}", shown(min)),
        (None, Some(max)) => format!("not more than {}", shown(max)),
        (None, None) => String::new(),
    }
}

/// What the maker or the instrument achieves, in words.
fn expected(dimension: &Dimension) -> String {
    match &dimension.spread {
        Spread::Given(band) if band.plus == band.minus => {
            format!("±{}", dimension.shown(band.plus))
        }
        Spread::Given(band) => format!(
            "+{} −{}",
            dimension.shown(band.plus),
            dimension.shown(band.minus)
        ),
        Spread::Workmanship(spread) => format!("±{}", dimension.shown(*spread)),
        Spread::Instrument(name) => format!("as the {name} reads"),
        Spread::Follows => String::new(),
    }
}

const fn origin(origin: Origin) -> &'static str {
    match origin {
        Origin::Rule => "rule",
        Origin::Measured => "measured",
        Origin::Chosen => "chosen",
        Origin::Derived => "derived",
    }
}

fn with_unit(millimetres: f64, unit: LengthUnit) -> String {
    format!(
        "{} {}",
        trimmed(millimetres / unit.millimetres(), 3),
        unit.symbol()
    )
}
