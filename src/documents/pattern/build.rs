//! From parts to the pages of a pattern.

use super::assembly;
use super::assembly::Assembly;
use super::checks;
use super::checks::Check;
use super::checks::CheckPoint;
use super::error::PatternError;
use super::frame;
use super::frame::Frame;
use super::furniture;
use super::furniture::Heading;
use super::grid::Grid;
use super::grid::Place;
use super::ink;
use super::ink::Ink;
use super::joints;
use super::joints::Lining;
use super::labels::Labels;
use super::labels::Where;
use super::moved;
use super::options::Extent;
use super::options::Face;
use super::options::Orientation;
use super::options::PatternOptions;
use super::options::PatternPaper;
use super::options::Printer;
use super::outline;
use super::placing;
use super::placing::Laid;
use super::placing::Layout;
use super::points;
use super::words;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::formats::pdf::PdfFile;
use crate::formats::pdf::PdfPage;
use crate::formats::pdf::Placement;
use crate::geometry::Contour;
use crate::geometry::Line;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Picture;
use crate::sheet::Table;

/// A pattern: the file to write, and what to say about it.
#[derive(Clone, Debug, PartialEq)]
pub struct PatternFile {
    /// Its pages.
    pub pdf: PdfFile,
    /// What was made.
    pub summary: Summary,
}

/// What a pattern turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Sheets of the part, without the page that comes first.
    pub sheets: usize,
    /// Sheets that it would have taken as drawn, its corner in the corner of a sheet.
    pub sheets_as_drawn: usize,
    /// Pages in all.
    pub pages: usize,
    /// Width and height of a sheet in millimetres.
    pub page: (f64, f64),
    /// From each part's own millimetres to those of the drawing over all sheets.
    pub placed: Vec<Motion>,
    /// What is done about the printer, in words.
    pub printer: String,
    /// The distances to verify.
    pub checks: Table,
    /// What the maker should know: words left out, centres off the pattern.
    pub notes: Vec<String>,
}

impl Summary {
    /// How far the first part is turned, in degrees, anticlockwise.
    pub fn turned(&self) -> f64 {
        let x_axis = |motion: &Motion| motion.vector(Vec2::new(1.0, 0.0));
        self.placed
            .first()
            .map_or(0.0, |motion| number::direction(x_axis(motion)).to_degrees())
    }

    /// Sheets saved by turning and shifting.
    pub const fn sheets_saved(&self) -> usize {
        self.sheets_as_drawn.saturating_sub(self.sheets)
    }
}

/// The pattern of one or several parts, at full size.
///
/// Every page has its origin at the lower left; the first is a map with the distances to verify, the
/// others are the sheets, row by row. Several parts lie beside one another on the same sheets.
///
/// # Accuracy
/// The drawing is exact to what the file can hold (1 µm). On paper it is as true as the printer, or as
/// its readings if it was measured.
///
/// # Errors
/// [`PatternError::Draft`] while a dimension is open; [`PatternError::Setting`],
/// [`PatternError::PaperTooSmall`], [`PatternError::PageTooLarge`] for paper that cannot be;
/// [`PatternError::TooManySheets`]; [`PatternError::NoRoomForMarks`]; [`PatternError::Reading`] for a
/// correction that cannot be right or belongs to other paper.
pub fn build(
    parts: &[Part],
    stamp: &Stamp,
    options: &PatternOptions,
) -> Result<PatternFile, PatternError> {
    if stamp.is_draft() {
        return Err(PatternError::Draft {
            names: stamp.open.clone(),
        });
    }
    if parts.is_empty() {
        return Err(PatternError::NoPart);
    }
    frame::check(options)?;
    let faced = faced(parts, options.face);
    let mut laid = lay(&faced, options)?;
    if options.face == Face::Mirrored {
        for motion in &mut laid.motions {
            *motion = Motion::mirror_left_right().then(motion);
        }
    }
    let placed: Vec<Part> = parts
        .iter()
        .zip(&laid.motions)
        .map(|(part, motion)| moved::moved(part, motion))
        .collect();
    let drawing = draw(&placed, &laid, stamp, options)?;
    let file = compose(&placed, &laid, drawing, stamp, options)?;
    Ok(file)
}

fn faced(parts: &[Part], face: Face) -> Vec<Part> {
    match face {
        Face::AsDrawn => parts.to_vec(),
        Face::Mirrored => {
            let mirror = Motion::mirror_left_right();
            parts
                .iter()
                .map(|part| moved::moved(part, &mirror))
                .collect()
        }
    }
}

/// A layout and the frame it is for.
struct LaidOn {
    motions: Vec<Motion>,
    frame: Frame,
    anchor: Point,
    as_drawn: usize,
}

fn lay(parts: &[Part], options: &PatternOptions) -> Result<LaidOn, PatternError> {
    let mut chords = Vec::new();
    for part in parts {
        chords.push(deciding(&lines_of(part, options)?, options.extent));
    }
    match &options.paper {
        PatternPaper::Sheets { width, height, .. } => {
            let (short, long) = (width.min(*height), width.max(*height));
            let sizes: &[(f64, f64)] = match options.orientation {
                Orientation::Portrait => &[(short, long)],
                Orientation::Landscape => &[(long, short)],
                Orientation::FewestSheets => &[(short, long), (long, short)],
            };
            let mut frames = Vec::new();
            for &size in sizes {
                frames.push(Frame::new(size, options)?);
            }
            let laid = placing::lay(&Layout {
                parts: &chords,
                frames: &frames,
                turning: options.turning,
            })?;
            let frame = frames.get(laid.frame).copied();
            let frame = frame.ok_or(PatternError::NoPart)?;
            Ok(on(laid, frame))
        }
        PatternPaper::Roll { width } => {
            super::long::on_roll(&chords, *width, options).map(|(laid, frame)| on(laid, frame))
        }
        PatternPaper::OnePage => {
            super::long::on_one_page(&chords, options).map(|(laid, frame)| on(laid, frame))
        }
    }
}

fn on(laid: Laid, frame: Frame) -> LaidOn {
    LaidOn {
        motions: laid.motions,
        frame,
        anchor: laid.anchor,
        as_drawn: laid.as_drawn,
    }
}

/// The lines of a part that decide about sheets.
fn lines_of(part: &Part, options: &PatternOptions) -> Result<Picture, PatternError> {
    let mut picture = Picture::new();
    outline::draw(&mut picture, part)?;
    super::rough_cut::draw(&mut picture, part, options.rough_cut)?;
    Ok(picture)
}

/// Straight lines longer than this are left out between their ends when only corners are printed, in
/// millimetres.
const PLAIN: f64 = 120.0;
/// How much of such a line stays at either end.
const PLAIN_ENDS: f64 = 30.0;

/// The chords that decide which sheets are printed.
fn deciding(picture: &Picture, extent: Extent) -> Vec<Line> {
    let chords = ink::chords(picture);
    match extent {
        Extent::Whole => chords,
        Extent::CornersOnly => {
            let ends = |chord: Line| {
                let length = chord.length();
                if length <= PLAIN {
                    return vec![chord];
                }
                let share = PLAIN_ENDS / length;
                vec![
                    Line::new(chord.start, chord.point_at(share)),
                    Line::new(chord.point_at(1.0 - share), chord.end),
                ]
            };
            chords.into_iter().flat_map(ends).collect()
        }
    }
}

/// Everything that is drawn over all sheets.
struct Drawing {
    picture: Picture,
    grid: Grid,
    checks: Vec<(String, Check)>,
    notes: Vec<String>,
}

fn draw(
    parts: &[Part],
    laid: &LaidOn,
    stamp: &Stamp,
    options: &PatternOptions,
) -> Result<Drawing, PatternError> {
    let mut picture = Picture::new();
    let mut deciding_all: Vec<Vec<Line>> = Vec::new();
    for part in parts {
        let lines = lines_of(part, options)?;
        deciding_all.push(deciding(&lines, options.extent));
        picture.append(lines);
    }
    let all: Vec<Line> = deciding_all.iter().flatten().copied().collect();
    let cell = (laid.frame.cell.width(), laid.frame.cell.height());
    let mut grid = Grid::over(&all, cell, laid.anchor).ok_or(PatternError::TooManySheets {
        sheets: super::grid::MOST_CELLS,
        most: super::grid::MOST_CELLS,
    })?;
    if options.extent == Extent::Whole {
        for part in &deciding_all {
            let mut places: Vec<Place> = part.iter().flat_map(|c| grid.places_of(c)).collect();
            places.sort_unstable();
            places.dedup();
            grid.join(&places);
        }
    }
    let mut notes = Vec::new();
    for part in parts {
        let far = points::draw(&mut picture, part);
        notes.extend(words::far_centres(part, &far, stamp.unit));
        points::draw_plate_edges(&mut picture, part);
    }
    let lining = lining_of(parts, &grid, &picture, stamp)?;
    let (check_points, checks) = all_checks(parts, &lining, &grid, options.extent);
    checks::draw(&mut picture, &check_points);
    let bare = Ink::new(ink::chords(&picture));
    let joints = joints::joints(&grid, &bare, &lining)?;
    joints::draw_lining(&mut picture, &grid, &lining);
    joints::draw(&mut picture, &joints)?;
    let left_out = write_words(&mut picture, parts, &grid, (&lining, &check_points), stamp);
    if !left_out.is_empty() {
        notes.push(format!(
            "no free place on the sheets for: {}",
            left_out.join("; ")
        ));
    }
    Ok(Drawing {
        picture,
        grid,
        checks,
        notes,
    })
}

fn lining_of(
    parts: &[Part],
    grid: &Grid,
    picture: &Picture,
    stamp: &Stamp,
) -> Result<Lining, PatternError> {
    let first = parts.first().ok_or(PatternError::NoPart)?;
    let ink = Ink::new(ink::chords(picture));
    // several parts have several datums: none of them measures them all
    let datum = (parts.len() == 1).then_some(&first.datum);
    Ok(joints::lining(grid, &ink, datum, stamp.unit))
}

fn all_checks(
    parts: &[Part],
    lining: &Lining,
    grid: &Grid,
    extent: Extent,
) -> (Vec<CheckPoint>, Vec<(String, Check)>) {
    let mut check_points: Vec<CheckPoint> = Vec::new();
    let mut checks = Vec::new();
    for part in parts {
        let first = checks::letters(&check_points);
        let (points, found) = checks::of_part(part, lining, first);
        check_points.extend(points);
        checks.extend(found.into_iter().map(|check| (part.name.clone(), check)));
    }
    if extent == Extent::CornersOnly {
        checks.retain(|(_, check)| checks::is_on_one_group(check, grid));
    }
    checks::keep_used(&mut check_points, &checks);
    (check_points, checks)
}

/// Writes all words of the drawing; gives back those for which there was no room.
fn write_words(
    picture: &mut Picture,
    parts: &[Part],
    grid: &Grid,
    (lining, check_points): (&Lining, &[CheckPoint]),
    stamp: &Stamp,
) -> Vec<String> {
    let ink = Ink::new(ink::chords(picture));
    let mut labels = Labels::new(&ink, grid);
    for point in check_points {
        if let Some(out) = point.out {
            let near = Where::Near(point.at + out * 5.0);
            labels.write(picture, std::slice::from_ref(&point.name), 3.2, &near);
        }
    }
    for part in parts {
        points::name(picture, &mut labels, part, stamp.unit);
    }
    joints::name_lining(picture, &mut labels, grid, lining);
    for place in grid.sheets() {
        // found again after trimming
        let within = Where::Within(grid.rect(place).inflate(-14.0, -14.0));
        labels.try_write(picture, &[place.name()], 5.0, &within);
    }
    for part in parts {
        let lines = words::title(part, stamp);
        let mut chords = Vec::new();
        let segments = part.region.contours().flat_map(Contour::segments);
        segments.for_each(|segment| ink::add(segment, &mut chords));
        let upon = Where::Upon(part.region.bounds(), chords);
        if !labels.try_write(picture, &lines, 3.2, &upon) {
            labels.try_write(picture, std::slice::from_ref(&part.name), 3.2, &upon);
        }
    }
    labels.left_out
}

/// Puts the drawing on its pages.
fn compose(
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
