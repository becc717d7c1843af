//! Mending: gaps joined, duplicates and nothings taken out, chords and splines turned back into lines and
//! arcs; never anything moved further than it says.

use super::Inspection;
use crate::checks;
use crate::checks::Assembly;
use crate::checks::Run;
use crate::formats::incoming::DrawnShape;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::deviation;
use crate::geometry::deviation::Stray;
use crate::geometry::refit;
use crate::geometry::tolerance;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Quantity;
use crate::sheet::Shape;
use crate::sheet::Table;

/// How a drawing is mended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MendOptions {
    /// How far chords may lie from the lines and arcs that replace them, in millimetres.
    pub within: f64,
}

/// A mended drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Mended {
    /// It: outer outlines on [`Layer::Outside`], openings on [`Layer::Inside`], what does not close on
    /// [`Layer::Outside`] too, what is not cut on [`Layer::Mark`] or [`Layer::Drill`].
    pub picture: Picture,
    /// How many things were drawn, and how many are.
    pub things: (usize, usize),
    /// How many lines and arcs there were, and how many there are.
    pub pieces: (usize, usize),
    /// How many gaps were joined.
    pub gaps: usize,
    /// How many pieces were taken out that were there twice.
    pub duplicates: usize,
    /// How many pieces were taken out that had no length.
    pub nothings: usize,
    /// Where the mended lines lie furthest from those that were read, measured both ways; none if
    /// nothing is cut.
    pub greatest: Option<Stray>,
    /// How far the lines that were read lie from splines and ellipses of the file at most, in millimetres.
    pub curves_within: f64,
}

/// Width of the lines of the mended drawing, in millimetres; machines follow the middle of it.
const WIDTH: f64 = 0.25;

/// Mends the drawing that was inspected. Ends are joined as the inspection's `join` says: each moves half
/// of the gap.
pub fn mend(inspection: &Inspection, options: &MendOptions) -> Mended {
    let runs = &inspection.subject.runs;
    let assembly = &inspection.subject.assembly;
    let nested = &inspection.subject.nested;
    let mut picture = Picture::new();
    let mut after: Vec<Segment> = Vec::new();
    let pen = Pen::solid(WIDTH);
    for (outline, depth) in assembly.outlines.iter().zip(&nested.depth) {
        let contour = refitted_contour(&outline.contour, options.within);
        after.extend(contour.segments().copied());
        let layer = if depth % 2 == 0 {
            Layer::Outside
        } else {
            Layer::Inside
        };
        picture.contour(layer, contour, pen);
    }
    for open in &assembly.open {
        let path = refitted_path(&open.path, options.within);
        after.extend(path.segments().copied());
        picture.path(Layer::Outside, path, pen);
    }
    let before: Vec<Segment> = runs
        .iter()
        .flat_map(|run| &run.segments)
        .filter(|segment| segment.length() >= tolerance::SHORTEST_SEGMENT)
        .copied()
        .collect();
    let pieces_before: usize = runs.iter().map(|run| run.segments.len()).sum();
    let things_after = picture.items.len();
    let greatest = deviation::between(&after, &before).map(|(stray, _)| stray);
    add_what_is_not_cut(inspection, &mut picture, pen);
    let deviations = runs.iter().filter_map(|run| run.follows_within);
    Mended {
        picture,
        things: (runs.len(), things_after),
        pieces: (pieces_before, after.len()),
        gaps: assembly.gaps.len(),
        duplicates: inspection.duplicates,
        nothings: inspection.nothings,
        greatest,
        curves_within: deviations.fold(0.0, f64::max),
    }
}

fn refitted_contour(contour: &Contour, within: f64) -> Contour {
    let segments: Vec<Segment> = contour.segments().copied().collect();
    let made = refit::refit(&segments, true, within);
    Contour::from_segments(made.segments).unwrap_or_else(|_| contour.clone())
}

fn refitted_path(path: &Path, within: f64) -> Path {
    let segments: Vec<Segment> = path.segments().copied().collect();
    let made = refit::refit(&segments, false, within);
    let source = path.pieces().first().map(|piece| piece.source);
    let source = source.unwrap_or(crate::geometry::SourceId::UNTRACED);
    let piece = |segment| Piece::new(segment, source);
    Path::new(made.segments.into_iter().map(piece).collect()).unwrap_or_else(|_| path.clone())
}

/// Points, and lines on layers that are not cut, as they are.
fn add_what_is_not_cut(inspection: &Inspection, picture: &mut Picture, pen: Pen) {
    let drilled = Layer::Drill.name();
    let mut marks: Vec<Run> = Vec::new();
    for drawn in &inspection.drawing.drawn {
        let name = inspection.drawing.layers.get(drawn.layer);
        let on_drill = name.is_some_and(|name| name.eq_ignore_ascii_case(drilled));
        let layer = if on_drill { Layer::Drill } else { Layer::Mark };
        match &drawn.shape {
            DrawnShape::Spot(at) => picture.stroke(layer, Shape::Spot(*at), pen),
            DrawnShape::Run { segments, closed } if !inspection.is_cut(drawn.layer) => {
                marks.push(Run {
                    segments: segments.clone(),
                    closed: *closed,
                    layer: usize::from(on_drill),
                    source: crate::geometry::SourceId::UNTRACED,
                    kind: "mark",
                    follows_within: None,
                });
            }
            DrawnShape::Run { .. } => {}
        }
    }
    let Assembly { outlines, open, .. } = checks::assemble(&marks, 0.0);
    let layer = |number: usize| {
        if number == 1 {
            Layer::Drill
        } else {
            Layer::Mark
        }
    };
    for outline in outlines {
        picture.contour(layer(outline.layer), outline.contour, pen);
    }
    for line in open {
        picture.path(layer(line.layer), line.path, pen);
    }
}

impl Mended {
    /// What was done, as a table.
    pub fn table(&self, unit: LengthUnit) -> Table {
        let mut table = Table::new(
            "Mended",
            vec![
                Column::words("What", "what"),
                Column::numbers("Before", "before"),
                Column::numbers("After", "after"),
            ],
        );
        let count = |number: usize| Cell::Count(i64::try_from(number).unwrap_or(i64::MAX));
        let fine = |value: f64| {
            let mut quantity = Quantity::length(value, unit);
            quantity.decimals += 3;
            Cell::from(quantity)
        };
        table.row(vec![
            "things drawn to cut".into(),
            count(self.things.0),
            count(self.things.1),
        ]);
        table.row(vec![
            "lines and arcs to cut".into(),
            count(self.pieces.0),
            count(self.pieces.1),
        ]);
        for (what, number) in [
            ("gaps joined", self.gaps),
            ("pieces taken out that were there twice", self.duplicates),
            ("pieces taken out that had no length", self.nothings),
        ] {
            table.row(vec![what.into(), Cell::Empty, count(number)]);
        }
        if let Some(greatest) = &self.greatest {
            let what = format!(
                "greatest distance from the lines as read, at {}",
                place(greatest.at, unit)
            );
            table.row(vec![what.into(), Cell::Empty, fine(greatest.distance)]);
        }
        if self.curves_within > 0.0 {
            let what = "splines and ellipses of the file are followed within";
            table.row(vec![what.into(), Cell::Empty, fine(self.curves_within)]);
        }
        let note = "Layers of the mended file: outside, inside, mark, drill. Words and whatever else has no \
                    outline are not in it.";
        table.notes.push(note.to_owned());
        table
    }
}

pub(super) fn place(at: Point, unit: LengthUnit) -> String {
    let shown = |value: f64| crate::geometry::number::trimmed(value / unit.millimetres(), 3);
    format!("({}, {})", shown(at.x), shown(at.y))
}
