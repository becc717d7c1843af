//! A drawing of a tool path with its leads and travel, on one sheet, to be looked at before anything moves.

use super::CutFile;
use super::Cutting;
use super::facts;
use crate::documents::Stamp;
use crate::documents::drawing;
use crate::documents::drawing::labels::Label;
use crate::documents::drawing::near;
use crate::documents::drawing::obstacles::Obstacles;
use crate::documents::drawing::symbols;
use crate::documents::features;
use crate::documents::features::of_count;
use crate::documents::lettering;
use crate::geometry::Contour;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Shape;
use crate::sheet::Text;
use crate::shop::tool_path::Cut;
use crate::shop::tool_path::Entry;

/// Sides of the sheet in millimetres: A4.
const SHEET: (f64, f64) = (297.0, 210.0);
/// Room between the edge of the sheet and the drawing.
const RIM: f64 = 18.0;
/// Room for the words at the foot.
const FOOT: f64 = 34.0;
/// Size of the words at the foot.
const WORDS: f64 = 3.0;
/// Size of the numbers of the cuts.
const NUMBERS: f64 = 2.6;
/// The edge of a cut, its leads, and the ways between.
const ALONG: Pen = Pen::solid(0.25);
const LEADS: Pen = Pen::solid(0.4);
const TRAVEL: Pen = Pen::solid(0.13)
    .line_type(LineType::Dashed)
    .shade(Shade::Grey);
/// Radius of the dot where the material is pierced.
const DOT: f64 = 0.7;
/// More cuts than this are not all numbered.
const MOST_NUMBERED: usize = 60;
/// Of many cuts, every so manieth is numbered.
const NUMBERED_STEP: usize = 10;

/// A drawing with the sheet it is for.
#[derive(Clone, Debug, PartialEq)]
pub struct PathDrawing {
    /// What is drawn, in millimetres of the sheet.
    pub picture: Picture,
    /// Width of the sheet in millimetres.
    pub width: f64,
    /// Height of the sheet in millimetres.
    pub height: f64,
}

/// What is drawn.
pub(super) struct Shown<'a> {
    pub(super) cutting: &'a Cutting,
    /// Bounds of all that is cut, as it lies in the file.
    pub(super) bounds: Rect,
    /// The parts, where the tool path has them.
    pub(super) regions: Vec<Region>,
    /// The sheet of material, if it is known.
    pub(super) plate: Option<Rect>,
    /// From there to how they lie in the file.
    pub(super) lies: Motion,
    /// What the file is, in words.
    pub(super) facts: Vec<String>,
    /// The parts by name.
    pub(super) name: &'a str,
    pub(super) stamp: &'a Stamp,
}

impl CutFile<'_> {
    /// The tool path on one sheet: the part shaded, every cut with its number at its start, its leads thick,
    /// the ways between the cuts dashed. Nothing for a nominal file.
    pub fn path_drawing(&self) -> Option<PathDrawing> {
        let cutting = self.cutting?;
        Some(drawn(&Shown {
            cutting,
            bounds: self.placed(&Motion::IDENTITY, ALONG.width).bounds()?,
            regions: vec![self.part.region.clone()],
            plate: None,
            lies: self.shown_face(),
            facts: facts::facts(self)
                .into_iter()
                .take(2)
                .map(|fact| fact.said())
                .collect(),
            name: &self.part.name,
            stamp: self.stamp,
        }))
    }
}

/// The drawing.
pub(super) fn drawn(shown: &Shown<'_>) -> PathDrawing {
    let cutting = shown.cutting;
    let bounds = shown
        .plate
        .map_or(shown.bounds, |plate| plate.union(shown.bounds));
    let (width, height) = if bounds.width() >= bounds.height() {
        SHEET
    } else {
        (SHEET.1, SHEET.0)
    };
    let room = Rect::new(RIM, RIM + FOOT, width - RIM, height - RIM);
    let scale = (room.width() / bounds.width()).min(room.height() / bounds.height());
    let to_scale = shown.lies.then(&Motion::scale(scale));
    let middle = (bounds.center().to_vec2() * scale).to_point();
    let motion = to_scale.then(&Motion::shift(room.center() - middle));

    let mut picture = Picture::new();
    let sheet = Rect::new(0.0, 0.0, width, height);
    symbols::framed(&mut picture, sheet.inflate(-5.0, -5.0), Pen::solid(0.35));
    if let Some(plate) = shown.plate {
        let corner = |x: f64, y: f64| motion.point(Point::new(x, y));
        let shown = Rect::from_points(corner(plate.x0, plate.y0), corner(plate.x1, plate.y1));
        symbols::framed(&mut picture, shown, TRAVEL.line_type(LineType::Continuous));
    }
    for region in &shown.regions {
        shade(&mut picture, &motion.region(region));
    }
    for path in &cutting.path.marks {
        let pen = ALONG.line_type(LineType::LongDashedDotted);
        picture.path(Layer::Mark, motion.path(path), pen);
    }
    for hole in &cutting.path.drilled {
        picture.stroke(Layer::Drill, Shape::Spot(motion.point(hole.centre)), ALONG);
    }
    travel(&mut picture, cutting, &motion);
    for cut in &cutting.path.cuts {
        draw_cut(&mut picture, cut, &motion);
    }
    let area = Rect::new(8.0, 8.0 + FOOT, width - 8.0, height - 8.0);
    write_numbers(&mut picture, &cutting.path.cuts, &motion, area);
    write_foot(&mut picture, shown, width);
    PathDrawing {
        picture,
        width,
        height,
    }
}

fn write_foot(picture: &mut Picture, drawn: &Shown<'_>, width: f64) {
    let unit = drawn.stamp.unit;
    let shown = |length: f64| features::length_with_unit(length, unit);
    let path = &drawn.cutting.path;
    let mut words = drawn.facts.clone();
    words.push(format!(
        "{} cuts, {} pierces, {} with leads; travel {} (dashed), {} % less than in the order of the design. \
         Numbers: order of the cuts, at their starts. Dots: pierces. Crosses: holes to drill.",
        path.cuts.len(),
        path.pierces(),
        shown(path.cut_length()),
        shown(path.travel.length),
        crate::sheet::number::trimmed(100.0 * path.travel.saving(), 0),
    ));
    words.push(format!(
        "{}: {} · {}",
        drawn.stamp.design,
        drawn.name,
        drawn.stamp.line()
    ));
    let room = width - 24.0;
    let lines = words
        .iter()
        .flat_map(|one| lettering::wrapped(one, WORDS, room));
    let top = 5.0 + FOOT;
    for (row, content) in lines.enumerate() {
        let at = Point::new(12.0, top - lettering::line_pitch(WORDS) * of_count(row + 1));
        picture.text(Text {
            layer: Layer::Words,
            at,
            size: WORDS,
            anchor: Anchor::Start,
            angle: 0.0,
            content,
        });
    }
}

fn shade(picture: &mut Picture, region: &Region) {
    picture.fill(Layer::Guides, region.outer().clone(), Shade::Light);
    for hole in region.holes() {
        picture.fill(Layer::Guides, hole.clone(), Shade::White);
    }
}

fn travel(picture: &mut Picture, cutting: &Cutting, motion: &Motion) {
    let path = &cutting.path;
    let marks = path.marks.iter().map(|mark| (mark.start(), mark.end()));
    let cuts = path.cuts.iter().map(|cut| (cut.start(), cut.end()));
    let mut here = motion.point(path.rest);
    symbols::origin(picture, here);
    for (start, end) in marks.chain(cuts) {
        let start = motion.point(start);
        picture.line(Layer::Guides, here, start, TRAVEL);
        here = motion.point(end);
    }
}

fn draw_cut(picture: &mut Picture, cut: &Cut, motion: &Motion) {
    let along = cut.along.iter().map(|piece| piece.segment);
    for segment in along.clone() {
        stroke(picture, &motion.segment(&segment), ALONG);
    }
    for segment in cut.lead_in.iter().chain(&cut.lead_out) {
        stroke(picture, &motion.segment(segment), LEADS);
    }
    let start = motion.point(cut.start());
    if cut.entry == Entry::Pierce
        && let Ok(dot) = Contour::circle(start, DOT, SourceId::UNTRACED)
    {
        picture.fill(Layer::Dimensions, dot, Shade::Black);
    }
    // the way it runs, on its longest piece
    let longest = along.max_by(|a, b| a.length().total_cmp(&b.length()));
    if let Some(longest) = longest.map(|segment| motion.segment(&segment))
        && longest.length() > 6.0
    {
        symbols::arrow(picture, longest.point_at(0.35), longest.direction_at(0.35));
    }
}

fn stroke(picture: &mut Picture, segment: &Segment, pen: Pen) {
    let piece = crate::geometry::Piece::new(*segment, SourceId::UNTRACED);
    if let Ok(path) = crate::geometry::Path::new(vec![piece]) {
        picture.path(Layer::Outside, path, pen);
    }
}

fn write_numbers(picture: &mut Picture, cuts: &[Cut], motion: &Motion, area: Rect) {
    let is_numbered = |index: usize| {
        cuts.len() <= MOST_NUMBERED
            || index == 0
            || index + 1 == cuts.len()
            || (index + 1).is_multiple_of(NUMBERED_STEP)
    };
    let labels: Vec<Label> = cuts
        .iter()
        .enumerate()
        .filter(|&(index, _)| is_numbered(index))
        .map(|(index, cut)| {
            let at = motion.point(cut.start());
            Label {
                words: (index + 1).to_string(),
                reach: vec![Segment::line(at, at)],
                place: None,
            }
        })
        .collect();
    let obstacles = Obstacles::of(picture);
    for placed in near::place_most(&labels, obstacles, area, NUMBERS)
        .into_iter()
        .flatten()
    {
        drawing::draw_plain_label(picture, &placed);
    }
}
