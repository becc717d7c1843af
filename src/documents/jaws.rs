//! The little picture of where the jaws go.

use super::drawing::symbols;
use super::drawing::view::View;
use super::features;
use super::lettering;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::measures::How;
use crate::measures::Taken;
use crate::sheet::Anchor;
use crate::sheet::Figure;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Pen of the part.
const PART: Pen = Pen::solid(0.25);
/// Pen of the jaws.
const JAW: Pen = Pen::solid(0.8);
/// Pen of what is measured.
const MEASURED: Pen = Pen::solid(0.35);
/// Pen of the way to a sharp corner that is not there.
const SHARP: Pen = Pen::solid(0.25).line_type(LineType::Dotted);
/// Half the length of a jaw.
const HALF_JAW: f64 = 2.6;
/// Room left around the part.
const AROUND: f64 = 4.0;

/// A measure with what it is called, to be shown in a picture.
pub(super) struct Labelled<'a> {
    pub(super) label: String,
    pub(super) part: &'a Part,
    pub(super) taken: &'a Taken,
}

/// Side of one picture, in millimetres of paper.
const SIDE: f64 = 42.0;
/// Height of the label above it.
const LABEL: f64 = 5.0;
/// Pictures side by side.
const ACROSS: usize = 4;

/// One figure with a picture for each measure that is taken between points, its label above it; none if
/// there are none. `what` starts the caption.
pub(super) fn in_rows(measures: &[Labelled<'_>], what: &str) -> Option<Figure> {
    let mut whole = Picture::new();
    let shown = measures
        .iter()
        .filter(|measure| measure.taken.between.is_some());
    for (index, measure) in shown.enumerate() {
        let (column, row) = (index % ACROSS, index / ACROSS);
        let down = (features::of_count(row) + 1.0) * (SIDE + LABEL);
        let corner = Vec2::new(features::of_count(column) * SIDE, -down);
        whole.append(labelled(measure).shifted(corner));
    }
    (!whole.items.is_empty()).then(|| Figure {
        picture: whole,
        caption: format!(
            "{what}; not to scale. The bars are the jaws of a calliper or the ends of a tape, an arrow \
             the gauge; dotted runs the way to a sharp corner that its rounding has taken away."
        ),
    })
}

fn labelled(measure: &Labelled<'_>) -> Picture {
    let mut one = picture(measure.part, measure.taken, SIDE);
    let (content, size) = lettering::fitted(&measure.label, 3.6, 2.0, SIDE - 2.0);
    one.text(Text {
        layer: Layer::Words,
        at: Point::new(1.0, SIDE + 1.3),
        size,
        anchor: Anchor::Start,
        angle: 0.0,
        content,
    });
    let frame = Rect::new(0.0, 0.0, SIDE, SIDE + LABEL);
    symbols::framed(&mut one, frame, Pen::solid(0.1));
    one
}

/// Where a measure is taken on the part as drawn: its outline small, and two bars where the jaws of a
/// calliper go, or the ends of a rule; for a radius the gauge's arm, for an angle the two arms of a
/// bevel. Where the jaws close over a rounding the bars stand on the metal, and the way to the sharp
/// corner is dotted. The part lies as it does in the drawing.
///
/// # Units
/// Millimetres of paper; the picture fits a square of `side`, its lower left corner at the origin.
pub fn picture(part: &Part, taken: &Taken, side: f64) -> Picture {
    let whole = View::new(part, 1.0);
    let largest = whole.bounds.width().max(whole.bounds.height());
    let scale = (side - 2.0 * AROUND).max(1.0) / largest.max(1.0);
    let view = View::new(part, scale);
    let middle = Vec2::new(side / 2.0, side / 2.0) - view.bounds.center().to_vec2();
    let view = view.shifted(middle);
    let mut picture = Picture::new();
    for contour in part.region.contours() {
        let contour: Contour = view.motion.contour(contour);
        picture.contour(Layer::Outside, contour, PART);
    }
    if let Some(ends) = taken.between {
        let ends = ends.map(|end| view.point(end));
        match (taken.how, taken.about) {
            (_, Some(about)) => bevel(&mut picture, view.point(about), ends),
            (How::Gauge, None) => gauge(&mut picture, ends),
            _ => {
                let touching = taken
                    .jaws
                    .map_or(ends, |jaws| jaws.between.map(|point| view.point(point)));
                let direction = number::normalized(ends[1] - ends[0]);
                // over roundings the two ends touch at different stations
                let direction = direction
                    .filter(|_| taken.how != How::OverTheRounds)
                    .unwrap_or_else(|| view.across());
                jaws(&mut picture, direction, ends, touching);
            }
        }
    }
    picture
}

/// The arms of a bevel along the two edges of an angle.
fn bevel(picture: &mut Picture, about: Point, ends: [Point; 2]) {
    for end in ends {
        let arm = number::normalized(end - about).unwrap_or(Vec2::ZERO) * (3.0 * HALF_JAW);
        picture.line(Layer::Dimensions, about, about + arm, JAW);
    }
}

/// From the centre of a radius to its arc.
fn gauge(picture: &mut Picture, [centre, on_arc]: [Point; 2]) {
    picture.line(Layer::Dimensions, centre, on_arc, MEASURED);
    if let Some(direction) = number::normalized(on_arc - centre) {
        symbols::arrow(picture, on_arc, direction);
        let along = number::left_normal(direction) * HALF_JAW;
        picture.line(Layer::Dimensions, on_arc - along, on_arc + along, JAW);
    }
}

/// Two jaws and the way between them.
fn jaws(picture: &mut Picture, direction: Vec2, ends: [Point; 2], touching: [Point; 2]) {
    let bar = number::left_normal(direction) * HALF_JAW;
    // the line of the measure runs through the first jaw; the second is level with it
    let level = |point: Point| touching[0] + direction * (point - touching[0]).dot(direction);
    let far = level(touching[1]);
    picture.line(Layer::Dimensions, touching[0], far, MEASURED);
    if number::length(far - touching[0]) > 6.0 {
        symbols::arrow(picture, touching[0], -direction);
        symbols::arrow(picture, far, direction);
    }
    for (point, end) in touching.into_iter().zip(ends) {
        // long enough to reach from the line to where it touches
        let (from, to) = (level(point), point);
        let reach = number::normalized(to - from).map_or(bar, |way| way * HALF_JAW);
        picture.line(Layer::Dimensions, from - reach, to + reach, JAW);
        if number::length(end - point) > 0.2 {
            picture.line(Layer::Dimensions, point, end, SHARP);
            let cross = Vec2::new(0.9, 0.9);
            picture.line(Layer::Dimensions, end - cross, end + cross, MEASURED);
            let cross = Vec2::new(0.9, -0.9);
            picture.line(Layer::Dimensions, end - cross, end + cross, MEASURED);
        }
    }
}
