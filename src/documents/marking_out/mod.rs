//! The marking-out sheet: numbered points with running dimensions from one datum, for square, tape
//! and beam compass.

mod arcs;
mod checks;
mod curves;
mod figure;
mod points;
mod reach;
mod words;

use super::DocumentError;
use super::Stamp;
use super::features;
use super::features::Form;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Quantity;
use crate::sheet::Table;
use arcs::NamedArc;
use points::Points;
use reach::Reach;

/// The marking-out sheet of a part: figure, points, straight edges, arcs, heights over chords where a
/// centre cannot be used, order of work, distances to check, cautions.
///
/// # Errors
/// None at present; a part that cannot be marked out will be refused here.
pub fn sheet(part: &Part, stamp: &Stamp) -> Result<Document, DocumentError> {
    let unit = stamp.unit;
    let points = Points::of(part, unit);
    let arcs = arcs::arcs(part);
    let mut blocks = Vec::new();
    if stamp.is_draft() {
        blocks.push(Block::Caution(format!(
            "DRAFT: do not mark out from this sheet. Still to be measured: {}.",
            stamp.open.join(", ")
        )));
    }
    blocks.extend(stamp.otherwise_words().map(Block::Caution));
    blocks.push(Block::Paragraph(words::datum(part)));
    let reach = Reach::of(part);
    blocks.extend(reach.words(unit).map(Block::Caution));
    blocks.push(Block::Figure(figure::figure(part, stamp, &points)));
    blocks.push(Block::Heading("Order of work".to_owned()));
    blocks.push(Block::Steps(words::order_of_work(
        part, stamp, &arcs, &reach,
    )));
    blocks.push(Block::Caution(words::scribing(part).to_owned()));
    blocks.push(Block::Table(point_table(part, unit, &points)));
    blocks.push(Block::Table(straight_table(part, unit, &points)));
    if !arcs.is_empty() {
        blocks.push(Block::Table(arc_table(unit, &points, &arcs)));
    }
    for arc in arcs.iter().filter(|arc| arc.needs_chord()) {
        blocks.push(Block::Table(chord_table(part, unit, &points, arc)));
    }
    blocks.extend(curves::tables(part, unit).into_iter().map(Block::Table));
    let openings = opening_table(part, unit);
    if !openings.rows.is_empty() {
        blocks.push(Block::Table(openings));
    }
    blocks.push(Block::Table(check_table(part, unit, &points)));
    blocks.push(Block::Heading("Cautions".to_owned()));
    blocks.push(Block::List(words::cautions(part)));
    Ok(Document {
        title: format!("Marking out: {}", part.name),
        footer: format!("{} · {}", stamp.design, stamp.line()),
        blocks,
    })
}

fn length(millimetres: f64, unit: LengthUnit) -> Cell {
    Quantity::length(millimetres, unit).into()
}

fn point_table(part: &Part, unit: LengthUnit, points: &Points) -> Table {
    let mut table = Table::new(
        "Points, by running dimensions from the datum",
        vec![
            Column::numbers("no.", "number"),
            Column::words("point", "point"),
            Column::numbers("along the datum edge", "along"),
            Column::numbers("square to it", "across"),
            Column::words("where it lies", "lies"),
        ],
    );
    for (number, point) in (1..).zip(&points.list) {
        let running = part.datum.running(point.at);
        let lies = checks::where_it_lies(part, point.at);
        table.row(vec![
            Cell::Count(number),
            point.what.join("; ").into(),
            length(running.x, unit),
            length(running.y, unit),
            lies.into(),
        ]);
    }
    table.notes.push(
        "Measure every point from the datum itself, never from the point before: errors of a chain \
         add up, errors of running dimensions do not."
            .to_owned(),
    );
    table
}

fn straight_table(part: &Part, unit: LengthUnit, points: &Points) -> Table {
    let mut table = Table::new(
        "Straight edges",
        vec![
            Column::words("edge", "edge"),
            Column::words("from point", "from"),
            Column::words("to point", "to"),
            Column::numbers("length", "length"),
            Column::words("state", "state"),
        ],
    );
    let own = part.edges.iter().map(|edge| (edge.name.clone(), edge));
    let in_openings = part.openings.iter().flat_map(|opening| {
        let edges = opening.features.edges.iter();
        edges.map(move |edge| (format!("{}: {}", opening.name, edge.name), edge))
    });
    for (name, edge) in own.chain(in_openings) {
        if features::form(part, edge) != Form::Straight {
            continue;
        }
        if let [segment] = edge.finished.as_slice() {
            let state = match features::state(edge.state, unit) {
                state if state.is_empty() => edge.state.name().to_owned(),
                state => state,
            };
            table.row(vec![
                name.into(),
                points.number(segment.start()).into(),
                points.number(segment.end()).into(),
                length(segment.length(), unit),
                state.into(),
            ]);
        }
    }
    table
}

fn arc_table(unit: LengthUnit, points: &Points, arcs: &[NamedArc]) -> Table {
    let mut table = Table::new(
        "Arcs",
        vec![
            Column::words("arc", "arc"),
            Column::numbers("radius", "radius"),
            Column::words("centre", "centre"),
            Column::words("centre lies", "centre_lies"),
            Column::words("from point", "from"),
            Column::words("to point", "to"),
            Column::words("how", "how"),
        ],
    );
    for one in arcs {
        table.row(vec![
            one.name.clone().into(),
            length(one.arc.radius(), unit),
            points.number(one.arc.centre()).into(),
            one.centre_words().into(),
            points.number(one.arc.start()).into(),
            points.number(one.arc.end()).into(),
            one.method(unit).into(),
        ]);
    }
    table.notes.push(
        "An arc starts and ends where it touches its neighbours: mark these points first, then the \
         arc must run through both."
            .to_owned(),
    );
    table
}

fn chord_table(part: &Part, unit: LengthUnit, points: &Points, arc: &NamedArc) -> Table {
    let mut table = Table::new(
        format!(
            "“{}” over its chord from point {} to point {}",
            arc.name,
            points.number(arc.arc.start()),
            points.number(arc.arc.end())
        ),
        vec![
            Column::numbers("from the middle of the chord, both ways", "along"),
            Column::numbers("height over the chord", "height"),
        ],
    );
    for ordinate in arcs::ordinates(&arc.arc, unit) {
        table.row(vec![
            length(ordinate.along, unit),
            length(ordinate.height, unit),
        ]);
    }
    let chord = arc.arc.start().midpoint(arc.arc.end());
    let bulge = arc.arc.point_at(0.5) - chord;
    let probe = chord + bulge * 0.5;
    let side = if arcs::is_inside(part.region.outer(), probe) {
        "outward, away from the part"
    } else {
        "inward, into the part"
    };
    table.notes.push(format!(
        "Snap the chord, {} long, mark the stations from its middle, set off the heights {side}, and \
         bend a batten through them. It must look fair.",
        features::length_with_unit(number::length(arc.arc.end() - arc.arc.start()), unit)
    ));
    table.notes.extend(bow_before_rounding(part, unit, arc));
    table
}

/// The bow that the drawing gives, where the rounding of the corners has shortened the chord: two sizes of one
/// edge must not look like a contradiction.
fn bow_before_rounding(part: &Part, unit: LengthUnit, arc: &NamedArc) -> Option<String> {
    let edge = part.edges.iter().find(|edge| edge.name == arc.name)?;
    let [Segment::Arc(whole)] = edge.sharp.as_slice() else {
        return None;
    };
    let (drawn, here) = [whole.bow(), arc.arc.bow()]
        .map(|bow| features::length_with_unit(bow, unit))
        .into();
    (drawn != here).then(|| {
        format!(
            "The drawing's bow of {drawn} is that of the whole edge, before its corners are rounded; over this \
             shorter chord it is {here}."
        )
    })
}

fn opening_table(part: &Part, unit: LengthUnit) -> Table {
    let mut table = Table::new(
        "Openings",
        vec![
            Column::words("opening", "opening"),
            Column::words("size", "size"),
            Column::numbers("along the datum edge", "along"),
            Column::numbers("square to it", "across"),
            Column::words("made", "made"),
        ],
    );
    for opening in &part.openings {
        let running = part.datum.running(features::opening_centre(part, opening));
        table.row(vec![
            opening.name.clone().into(),
            features::opening_size(part, opening, unit).into(),
            length(running.x, unit),
            length(running.y, unit),
            if features::is_drilled(opening) {
                "drilled"
            } else {
                "cut"
            }
            .into(),
        ]);
    }
    if !table.rows.is_empty() {
        table
            .notes
            .push("Places are those of the middles.".to_owned());
    }
    table
}

fn check_table(part: &Part, unit: LengthUnit, points: &Points) -> Table {
    let mut table = Table::new(
        "Check before cutting",
        vec![
            Column::words("distance", "distance"),
            Column::words("between", "between"),
            Column::numbers("must be", "nominal"),
            Column::numbers("is", "found"),
        ],
    );
    for check in checks::checks(part, points) {
        table.row(vec![
            check.what.into(),
            check.between.words(unit, points).into(),
            length(check.distance, unit),
            Cell::Blank,
        ]);
    }
    table.notes.push(
        "A number is that of a point; a corner of the overall rectangle that is none is given by its running \
         dimensions, along the datum edge and square to it."
            .to_owned(),
    );
    table.notes.push(
        "The two diagonals of the overall rectangle must agree with each other: if they differ, the \
         square was not square."
            .to_owned(),
    );
    table
}

#[cfg(test)]
mod plate_tests;
#[cfg(test)]
mod tests;
