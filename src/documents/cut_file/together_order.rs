//! The order sheet of several parts in one file.

use super::Together;
use super::facts::Fact;
use super::facts::facts;
use super::facts::size;
use super::order;
use crate::design::part::Part;
use crate::documents::DocumentError;
use crate::documents::features;
use crate::documents::pattern::Face;
use crate::geometry::Motion;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Table;
use crate::sheet::number::trimmed;
use crate::shop::tool_path::WhyDrilled;

/// How the parts lie, in words.
const IN_ROWS: &str = "in rows, as drawn; this is no nesting program, so whoever pays for the plate may lay \
                       the parts closer";

/// What is the same for all parts.
const COMMON: [&str; 6] = [
    "lines",
    "kerf",
    "unit",
    "material",
    "thickness",
    "good face",
];

/// What is each part's own.
const OWN: [&str; 4] = [
    "mirrored",
    "holes to drill",
    "holes for screws",
    "to mark only",
];

/// What the file is, and who compensates.
pub(super) fn what_it_is(together: &Together<'_>) -> Vec<String> {
    let facts = common(together);
    facts.iter().take(2).map(Fact::said).collect()
}

pub(super) fn comments(together: &Together<'_>) -> Vec<String> {
    let stamp = together.stamp;
    let mut lines = vec![format!("{}: {}", stamp.design, pieces(together))];
    let said = |facts: Vec<Fact>| {
        let known = facts.into_iter().filter(|fact| !fact.value.is_empty());
        known.map(|fact| fact.said()).collect::<Vec<String>>()
    };
    lines.extend(said(common(together)));
    for part in &together.parts {
        let own = said(own(together, part));
        lines.extend(own.into_iter().map(|line| format!("{}: {line}", part.name)));
    }
    lines.push(format!("fingerprint: {}", stamp.fingerprint));
    lines.push(stamp.line());
    lines
}

/// Which parts, and how many of each.
fn pieces(together: &Together<'_>) -> String {
    let of = |part: &&Part| match together.count(part) {
        1 => part.name.clone(),
        several => format!("{several} × {}", part.name),
    };
    let parts: Vec<String> = together.parts.iter().map(of).collect();
    parts.join(", ")
}

fn common(together: &Together<'_>) -> Vec<Fact> {
    let unit = together.stamp.unit;
    let Some(first) = together.parts.first() else {
        return Vec::new();
    };
    let mut found = facts(&together.file_of(first));
    found.retain(|fact| COMMON.contains(&fact.name));
    let fact = |name, value| Fact { name, value };
    found.push(fact("pieces", pieces(together)));
    let bounds = together.bounds();
    let sides = |width: f64, height: f64| {
        format!(
            "{} × {} {}",
            size(width, unit),
            size(height, unit),
            unit.symbol()
        )
    };
    found.push(fact(
        "all of them, as they lie",
        sides(bounds.width(), bounds.height()),
    ));
    if let Some(sheet) = together.sheet {
        found.push(fact(
            "sheet",
            format!(
                "{}; its lower left corner is the origin of the file",
                sides(sheet.width, sheet.height)
            ),
        ));
    }
    found.push(fact(
        "how they lie",
        format!(
            "{} {} apart, {IN_ROWS}",
            trimmed(together.gap / unit.millimetres(), 3),
            unit.symbol()
        ),
    ));
    if together.face == Face::Mirrored {
        found.push(fact(
            "face",
            "every part is seen from its other face; cut as it lies in the file".to_owned(),
        ));
    }
    let too_small = together
        .cutting
        .iter()
        .flat_map(|cutting| &cutting.path.drilled)
        .filter(|hole| hole.why == WhyDrilled::TooSmall)
        .map(|hole| format!("{} Ø {}", hole.name, features::length(hole.diameter, unit)));
    let too_small: Vec<String> = too_small.collect();
    if !too_small.is_empty() {
        found.push(fact(
            "too small to cut well",
            format!(
                "{}; only their centres are marked, on the layer “drill”: do not cut them",
                too_small.join(", ")
            ),
        ));
    }
    found
}

fn own(together: &Together<'_>, part: &Part) -> Vec<Fact> {
    let unit = together.stamp.unit;
    let bounds = part.region.bounds();
    let fact = |name, value| Fact { name, value };
    let mut found = vec![
        fact("quantity", together.count(part).to_string()),
        fact(
            "overall size",
            format!(
                "{} × {} {} (x × y)",
                size(bounds.width(), unit),
                size(bounds.height(), unit),
                unit.symbol()
            ),
        ),
    ];
    // what is too small for the process is told of all parts at once
    let alone = super::CutFile {
        cutting: None,
        face: together.face,
        ..super::CutFile::nominal(part, together.stamp)
    };
    let of_part = facts(&alone).into_iter().filter(|fact| {
        let nothing = ["none", "nothing"].contains(&fact.value.as_str());
        OWN.contains(&fact.name) && !nothing
    });
    found.extend(of_part);
    found
}

fn table(title: &str, rows: impl Iterator<Item = (String, String)>) -> Table {
    let mut table = Table::new(
        title,
        vec![
            Column::words("what", "what"),
            Column::words("here", "value"),
        ],
    );
    for (name, value) in rows {
        let value = if value.is_empty() {
            Cell::Blank
        } else {
            value.into()
        };
        table.row(vec![name.into(), value]);
    }
    table
}

pub(super) fn order_sheet(together: &Together<'_>, name: &str) -> Result<Document, DocumentError> {
    let stamp = together.stamp;
    if stamp.is_draft() {
        return Err(DocumentError::Draft {
            document: "order sheet",
            open: stamp.open.clone(),
        });
    }
    let words = if together.with_words {
        "The words in it are on the layer “words”: do not cut them."
    } else {
        "The file holds lines only, no words."
    };
    let rows = |facts: Vec<Fact>| {
        let row = |fact: Fact| (fact.name.to_owned(), fact.value);
        facts.into_iter().map(row).collect::<Vec<_>>()
    };
    let mut all = rows(common(together));
    if let Some(cutting) = &together.cutting {
        let work = order::work(cutting, stamp.unit).into_iter();
        all.extend(work.map(|(name, value)| (name.replace(", one part", ""), value)));
    }
    let first = together.parts.first().map(|part| together.file_of(part));
    let cautions = first.as_ref().map(order::cautions).unwrap_or_default();
    all.extend(
        cautions
            .into_iter()
            .map(|words| ("caution".to_owned(), words)),
    );
    all.push((
        "fingerprint of the design".to_owned(),
        stamp.fingerprint.clone(),
    ));
    let mut blocks = vec![
        Block::Paragraph(format!(
            "This sheet goes with the file {name} and with no other. {words} It is cut once: every part is in \
             it as often as it is wanted."
        )),
        Block::Table(table("All parts", all.into_iter())),
    ];
    for part in &together.parts {
        let edges = order::edges_not_just_cut(&together.file_of(part)).into_iter();
        let edges = edges.map(|words| ("edge".to_owned(), words));
        let own = rows(own(together, part)).into_iter().chain(edges);
        blocks.push(Block::Table(table(&part.name, own)));
    }
    blocks.push(Block::Figure(figure(together)));
    blocks.extend(first.as_ref().map(order::kerf_caution).map(Block::Caution));
    blocks.push(Block::Heading(
        "On arrival, before anything else".to_owned(),
    ));
    blocks.push(Block::List(arrival(together)));
    Ok(Document {
        title: format!("Order sheet: {}", pieces(together)),
        footer: format!("{} · {}", stamp.design, stamp.line()),
        blocks,
    })
}

fn figure(together: &Together<'_>) -> Figure {
    let bounds = together.bounds();
    let scale = (order::FIGURE.0 / bounds.width()).min(order::FIGURE.1 / bounds.height());
    Figure {
        picture: together.drawn(&Motion::scale(scale), 0.3),
        caption: "The parts as they lie in the file, not to scale.".to_owned(),
    }
}

fn arrival(together: &Together<'_>) -> Vec<String> {
    let mut list = vec![
        format!("Count: {} pieces.", together.placed.len()),
        "Measure one piece of each part overall, by the sizes above. A factor of 25.4 means that the unit \
         was mistaken."
            .to_owned(),
    ];
    list.extend(order::of_any_part());
    let is_mirror = |part: &&Part| part.mirror_of.is_some();
    if together.parts.iter().any(is_mirror) {
        list.push(
            "Lay left and right hands beside the drawing, good face up: none must be the other hand."
                .to_owned(),
        );
    }
    list.push(order::EDGES.to_owned());
    list
}
