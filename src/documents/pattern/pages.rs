//! The drawing of a pattern on its pages.

use super::assembly;
use super::assembly::Assembly;
use super::build::LaidOn;
use super::build::PatternFile;
use super::build::Summary;
use super::checks;
use super::drawing::Drawing;
use super::error::PatternError;
use super::frame::Frame;
use super::furniture;
use super::furniture::Heading;
use super::grid::Grid;
use super::grid::Place;
use super::ink;
use super::ink::Ink;
use super::options::Face;
use super::options::PatternOptions;
use super::options::PatternPaper;
use super::options::Printer;
use super::words;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::formats::pdf::PdfFile;
use crate::formats::pdf::PdfPage;
use crate::formats::pdf::Placement;
use crate::geometry::Motion;
use crate::geometry::Rect;

/// Puts the drawing on its pages.
pub(super) fn compose(
    parts: &[Part],
    laid: &LaidOn,
    drawing: Drawing,
    stamp: &Stamp,
    options: &PatternOptions,
) -> Result<PatternFile, PatternError> {
    let frame = &laid.frame;
    let grid = &drawing.grid;
    let sheets = grid.count();
    let printer = match &options.printer {
        Printer::TakenAsTrue => "printer taken as true, not measured".to_owned(),
        Printer::Measured(correction) => correction.words()?,
    };
    let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
    let mut title = names.join(", ");
    if options.face == Face::Mirrored {
        title.push_str(" (mirrored: for the other face)");
    }
    let mut summary = Summary {
        sheets,
        sheets_as_drawn: laid.as_drawn.max(sheets),
        pages: 0,
        page: frame.page,
        placed: laid.motions.clone(),
        printer: printer.clone(),
        checks: checks::table(&drawing.checks, stamp.unit),
        notes: drawing.notes,
    };
    let first = assembly::pages(
        first_page_area(frame, options),
        &Assembly {
            title: format!("Paper pattern: {title}"),
            facts: words::facts(parts, &summary, options, stamp),
            parts,
            grid,
            checks: &drawing.checks,
            unit: stamp.unit,
            steps: words::steps(sheets, options),
            cautions: words::cautions(parts, &summary.notes, stamp.unit),
            stamp: format!("{} · {}", stamp.design, stamp.line()),
        },
    );
    let heading = Heading {
        parts: title.clone(),
        printer,
        sheets,
    };
    let ink = Ink::new(ink::chords(&drawing.picture));
    let mut pictures = vec![drawing.picture];
    let mut pages = Vec::new();
    let is_one_page = options.paper == PatternPaper::OnePage;
    if !is_one_page {
        for (index, picture) in first.iter().enumerate() {
            pages.push(page(frame, pictures.len(), first_label(index)));
            pictures.push(picture.clone());
        }
    }
    for place in grid.sheets() {
        let mut page = page(frame, pictures.len(), place.name());
        let mut bands = furniture::bands(frame, grid, place, &heading, stamp);
        furniture::trimmed_strips(&mut bands, frame, grid, (place, &ink));
        pictures.push(bands);
        page.placements.insert(0, window(frame, grid, place));
        if is_one_page {
            for picture in &first {
                page.placements.push(whole(frame, pictures.len()));
                pictures.push(picture.clone());
            }
        }
        pages.push(page);
    }
    summary.pages = pages.len();
    let pdf = PdfFile {
        title: format!("{} – pattern of {title}", stamp.design),
        subject: stamp.line(),
        pictures,
        pages,
    };
    Ok(PatternFile { pdf, summary })
}

fn first_label(index: usize) -> String {
    if index == 0 {
        "map".to_owned()
    } else {
        format!("map {}", index + 1)
    }
}

/// Where the words of the first page stand, from the middle of the sheet.
fn first_page_area(frame: &Frame, options: &PatternOptions) -> Rect {
    match options.paper {
        PatternPaper::OnePage => super::long::words_area(frame),
        PatternPaper::Sheets { .. } | PatternPaper::Roll { .. } => frame.printable,
    }
}

/// A page with one picture that is counted from its middle.
fn page(frame: &Frame, picture: usize, label: String) -> PdfPage {
    PdfPage {
        width: frame.page.0,
        height: frame.page.1,
        placements: vec![whole(frame, picture)],
        label,
    }
}

fn whole(frame: &Frame, picture: usize) -> Placement {
    Placement {
        stretch: frame.stretch,
        ..Placement::new(picture, Motion::shift(frame.middle()))
    }
}

/// The drawing as one sheet shows it.
fn window(frame: &Frame, grid: &Grid, place: Place) -> Placement {
    let cell = grid.rect(place);
    let shift = frame.cell.origin() - cell.origin() + frame.middle();
    Placement {
        stretch: frame.stretch,
        clip: Some(frame.on_paper(frame.window())),
        ..Placement::new(0, Motion::shift(shift))
    }
}
