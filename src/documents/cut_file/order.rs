//! The order sheet: one page for the shop, beside the cut file.

use super::super::DocumentError;
use super::super::features;
use super::CutFile;
use super::Cutting;
use super::facts::facts;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::number::trimmed;
use crate::sheet::number::with_unit;
use crate::shop::tool_path::GoodSide;
use crate::shop::tool_path::Note;
use crate::shop::tool_path::ToolPath;
use crate::trade::materials;

/// Largest width and height of the figure, in millimetres of paper.
pub(super) const FIGURE: (f64, f64) = (110.0, 36.0);

/// One page for the shop, which goes with the file of the name `name`: facts, a small picture, which edges are the plate's own, holes to drill,
/// who compensates the kerf, what to check on arrival.
///
/// # Errors
/// [`DocumentError::Draft`] while a dimension is still to be measured.
pub(super) fn order_sheet(file: &CutFile<'_>, name: &str) -> Result<Document, DocumentError> {
    let (part, stamp) = (file.part, file.stamp);
    if stamp.is_draft() {
        return Err(DocumentError::Draft {
            document: "order sheet",
            open: stamp.open.clone(),
        });
    }
    let words = if file.with_words {
        "The words in it are on the layer “words”: do not cut them."
    } else {
        "The file holds lines only, no words."
    };
    let mut blocks = vec![
        Block::Paragraph(format!(
            "This sheet goes with the file {name} and with no other. {words}"
        )),
        Block::Table(fact_table(file)),
        Block::Figure(figure(file)),
        Block::Caution(kerf_caution(file)),
    ];
    if let Some(words) = stamp.otherwise_words() {
        // beside it there may be a file of the same design as written
        blocks.insert(
            1,
            Block::Caution(format!(
                "{words} Send the file that was made with this sheet: its first lines say “{}”.",
                stamp.line()
            )),
        );
    }
    blocks.push(Block::Heading(
        "On arrival, before anything else".to_owned(),
    ));
    blocks.push(Block::List(arrival(file)));
    Ok(Document {
        title: format!("Order sheet: {}", part.name),
        footer: format!("{} · {}", stamp.design, stamp.line()),
        blocks,
    })
}

pub(super) fn kerf_caution(file: &CutFile<'_>) -> String {
    if file.cutting.is_some() {
        "Kerf: this is a tool path, for the maker's own machine or by written agreement with the shop. It is \
         compensated already. If it is compensated once more, the part comes out a kerf too large and its \
         openings a kerf too small. The kerf of the day may differ: cut a test piece and measure it."
            .to_owned()
    } else {
        "Kerf: the lines are the finished edges. The shop moves the cut to the waste side by half \
         its own kerf. If the lines are cut on centre, the part comes out a kerf too small and its \
         openings a kerf too large."
            .to_owned()
    }
}

fn fact_table(file: &CutFile<'_>) -> Table {
    let (part, stamp) = (file.part, file.stamp);
    let mut table = Table::new(
        part.name.clone(),
        vec![
            Column::words("what", "what"),
            Column::words("this part", "value"),
        ],
    );
    for fact in facts(file) {
        let value = if fact.value.is_empty() {
            Cell::Blank
        } else {
            fact.value.into()
        };
        table.row(vec![fact.name.into(), value]);
    }
    let area = Quantity {
        value: part.region.area() / (stamp.unit.millimetres() * stamp.unit.millimetres()),
        unit: crate::sheet::Unit::Area(stamp.unit),
        decimals: if stamp.unit == LengthUnit::Millimetre {
            0
        } else {
            2
        },
    };
    table.row(vec!["area of one part".into(), with_unit(&area).into()]);
    match file.cutting {
        None => {
            let cut = cut_length(part);
            table.row(vec![
                "length of cut, one part, without edges of the plate".into(),
                with_unit(&Quantity::length(cut, stamp.unit)).into(),
            ]);
            table.row(vec![
                "contours to cut".into(),
                Cell::Count(i64::try_from(contours_to_cut(part)).unwrap_or(i64::MAX)),
            ]);
        }
        Some(cutting) => {
            for (name, value) in work(cutting, stamp.unit) {
                table.row(vec![name.into(), value.into()]);
            }
        }
    }
    for edge in edges_not_just_cut(file) {
        table.row(vec!["edge".into(), edge.into()]);
    }
    for caution in cautions(file) {
        table.row(vec!["caution".into(), caution.into()]);
    }
    table.row(vec![
        "fingerprint of the design".into(),
        stamp.fingerprint.clone().into(),
    ]);
    if table.rows.iter().any(|row| row.contains(&Cell::Blank)) {
        let note = "Empty lines are for you to fill in; the design file does not say.";
        table.notes.push(note.to_owned());
    }
    table
}

/// What the machine has to do on one part.
pub(super) fn work(cutting: &Cutting, unit: LengthUnit) -> Vec<(&'static str, String)> {
    let path = &cutting.path;
    let shown = |length: f64| with_unit(&Quantity::length(length, unit));
    let direction = match cutting.setting.good_side {
        GoodSide::Left => "part on the left of travel: outside anticlockwise, openings clockwise",
        GoodSide::Right => "part on the right of travel: outside clockwise, openings anticlockwise",
    };
    let percent = trimmed(100.0 * path.travel.saving(), 0);
    let mut rows = vec![
        ("direction", direction.to_owned()),
        (
            "length of cut, one part, with leads",
            shown(path.cut_length()),
        ),
        (
            "cuts and pierces",
            format!("{} cuts, {} pierces", path.cuts.len(), path.pierces()),
        ),
        (
            "travel between cuts",
            format!(
                "{}, {percent} % less than in the order of the design",
                shown(path.travel.length)
            ),
        ),
    ];
    rows.extend(
        remarks(path, unit)
            .into_iter()
            .map(|words| ("remark", words)),
    );
    rows
}

/// Of notes that say the same, one sentence.
fn remarks(path: &ToolPath, unit: LengthUnit) -> Vec<String> {
    let mut corners: Vec<(f64, f64)> = Vec::new();
    let mut words = Vec::new();
    for note in &path.notes {
        match note {
            Note::CornerLeft { radius, left, .. } => corners.push((*radius, *left)),
            Note::ShortLead { what, length, .. } if *length == 0.0 => words.push(format!(
                "There is no room for a lead at {what}: the tool goes down on the path."
            )),
            Note::ShortLead { what, length, .. } => words.push(format!(
                "The lead of {} is only {} long: a longer one would touch.",
                what,
                features::length_with_unit(*length, unit)
            )),
            Note::StartIgnored { what } => words.push(format!(
                "The start that was chosen for {what} is not used: the cut has ends of its own."
            )),
        }
    }
    if let Some((radius, _)) = corners.first() {
        let most = corners.iter().map(|corner| corner.1).fold(0.0, f64::max);
        words.insert(
            0,
            format!(
                "{} with a radius of {}, up to {} proud of the drawn line: file it out, or draw a relief.",
                match corners.len() {
                    1 => "1 inside corner comes out".to_owned(),
                    several => format!("{several} inside corners come out"),
                },
                features::length_with_unit(*radius, unit),
                features::length_with_unit(most, unit)
            ),
        );
    }
    words
}

fn is_cut(part: &Part, hole: usize) -> bool {
    let opening = part.openings.iter().find(|opening| opening.hole == hole);
    !opening.is_some_and(features::is_drilled)
}

fn contours_to_cut(part: &Part) -> usize {
    let holes = 0..part.region.holes().len();
    1 + holes.filter(|&hole| is_cut(part, hole)).count()
}

/// The outline without the plate's own edges, and the openings that are cut.
fn cut_length(part: &Part) -> f64 {
    let holes = part.region.holes().iter().enumerate();
    let cut = holes.filter(|&(index, _)| is_cut(part, index));
    let outline: f64 = part
        .region
        .outer()
        .pieces()
        .iter()
        .filter(|piece| {
            let edge = part.edge_of(piece.source);
            edge.is_none_or(|edge| edge.state != EdgeState::PlateEdge)
        })
        .map(|piece| piece.segment.length())
        .sum();
    outline + cut.map(|(_, hole)| hole.perimeter()).sum::<f64>()
}

fn figure(file: &CutFile<'_>) -> Figure {
    let unit = file.stamp.unit;
    let bounds = file.part.region.bounds();
    let scale = (FIGURE.0 / bounds.width()).min(FIGURE.1 / bounds.height());
    let size = |value| features::length(value, unit);
    Figure {
        picture: file.placed(&Motion::scale(scale), 0.3),
        caption: format!(
            "The part as it lies in the file, not to scale; overall {} × {} {}.",
            size(bounds.width()),
            size(bounds.height()),
            unit.symbol()
        ),
    }
}

/// What is to be known of edges in another state than cut.
pub(super) fn edges_not_just_cut(file: &CutFile<'_>) -> Vec<String> {
    let is_path = file.cutting.is_some();
    let words = |name: &str, state: EdgeState| match (state, is_path) {
        (EdgeState::Cut, _) => None,
        (EdgeState::PlateEdge, false) => Some(format!(
            "“{name}” is the plate's own edge: lay the line on the edge of the plate, and do not cut it."
        )),
        (EdgeState::PlateEdge, true) => Some(format!(
            "“{name}” is the plate's own edge: the path leaves it out, and runs on and off past both its ends."
        )),
        (EdgeState::LeaveOn(width), _) => {
            let width = features::length_with_unit(width, file.stamp.unit);
            let how = if is_path {
                "The path goes round it, square at its ends."
            } else {
                "The file shows the finished line; ask how the strip is to be cut."
            };
            Some(format!(
                "“{name}”: a strip of {width} stays on beyond the line. {how}"
            ))
        }
        (EdgeState::TrimAtFitting, false) => Some(format!(
            "“{name}” is trimmed when the part is fitted; the file shows the nominal line."
        )),
        (EdgeState::TrimAtFitting, true) => Some(format!(
            "“{name}” is trimmed when the part is fitted; the path is beside its nominal line."
        )),
    };
    let edges = file.part.edges.iter();
    edges
        .filter_map(|edge| words(&edge.name, edge.state))
        .collect()
}

fn arrival(file: &CutFile<'_>) -> Vec<String> {
    let (part, unit) = (file.part, file.stamp.unit);
    let bounds = part.region.bounds();
    let size = |value| features::length(value, unit);
    let mut list = vec![format!(
        "Measure overall: {} × {} {}. A factor of 25.4 means that the unit was mistaken.",
        size(bounds.width()),
        size(bounds.height()),
        unit.symbol()
    )];
    list.extend(of_any_part());
    if part.quantity > 1 {
        list.push(format!("Count: {} pieces.", part.quantity));
    }
    if part.mirror_of.is_some() {
        list.push(
            "Lay it beside the drawing, good face up: it must not be the other hand.".to_owned(),
        );
    }
    list.push(EDGES.to_owned());
    list
}

/// What to look out for on any part.
pub(super) fn of_any_part() -> [String; 3] {
    [
        "Measure one opening and the outside with callipers, on both faces. Openings too large and the \
         outside too small by a kerf: nobody compensated. The reverse by a kerf: both did.",
        "Measure the thickness in several places and write it down.",
        "Compare both faces: the edge may lean. The smaller face counts for a minimum, the larger for \
         a maximum.",
    ]
    .map(str::to_owned)
}

/// The caution about edges.
pub(super) const EDGES: &str = "Edges may be sharp: gloves for carrying, and burrs and splinters off \
     before handling.";

/// What a shop must heed with this material, if the material is known; with a tool path, with this
/// process.
pub(super) fn cautions(file: &CutFile<'_>) -> Vec<String> {
    if let Some(cutting) = file.cutting {
        let words = cutting.cautions.iter();
        return words.map(|caution| caution.words.to_owned()).collect();
    }
    let plate = file.part.plate.as_ref();
    let material = plate.and_then(|plate| materials::find(&plate.material).ok());
    material
        .into_iter()
        .flat_map(materials::Material::cautions)
        .filter(|caution| !caution.step.is_by_hand())
        .map(|caution| format!("{}{}", caution.step.condition(), caution.words))
        .collect()
}

#[cfg(test)]
mod tests;
