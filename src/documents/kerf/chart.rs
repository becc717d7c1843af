//! What is left to each limit against the kerf, if nobody compensates.

use super::outlines::words;
use crate::design::Dimensions;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::measures::TakenKind;
use crate::sheet::Anchor;
use crate::sheet::Figure;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::number::trimmed;
use crate::shop::kerf::AsCut;
use crate::shop::kerf::Comparison;
use crate::shop::kerf::Judged;
use crate::shop::kerf::KerfError;
use crate::shop::kerf::Kind;
use crate::shop::kerf::Mend;

/// Kerfs that are tried, from 0 to the widest.
const TRIED: usize = 12;
/// Most lines in the chart.
const LINES: usize = 6;
/// Size of the field on paper, in millimetres.
const FIELD: (f64, f64) = (105.0, 70.0);
/// Least distance between the labels of two lines.
const PITCH: f64 = 4.2;

/// What is left to a limit at some kerfs; both in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Track {
    name: String,
    points: Vec<(f64, f64)>,
}

/// The limits of length with the least left, each measured on the shape that every kerf leaves.
pub(super) fn tracks(
    part: &Part,
    all: &[Judged],
    dimensions: &Dimensions,
    found: &[Comparison],
) -> Result<Vec<Track>, KerfError> {
    let widest = found
        .iter()
        .filter(|one| one.refused.is_none())
        .map(|one| one.kerf.high)
        .reduce(f64::max);
    let Some(widest) = widest else {
        return Ok(Vec::new());
    };
    let cut = AsCut::new(part, widest)?;
    let mut tracks: Vec<Track> = Vec::new();
    let moves = |judged: &&Judged| {
        judged.mend != Mend::Nothing
            && judged.counts == TakenKind::Length
            && judged.room(judged.drawn).is_some()
    };
    let shown: Vec<&Judged> = all.iter().filter(moves).collect();
    tracks.extend(shown.iter().map(|judged| Track {
        name: match judged.kind {
            Kind::General => format!("{}, ISO 2768-m", judged.name),
            Kind::Limit | Kind::Fit | Kind::Class(_) => judged.name.clone(),
        },
        points: Vec::new(),
    }));
    for step in 0..=TRIED {
        let kerf = widest * features::of_count(step) / features::of_count(TRIED);
        let shape = cut.shape(0.0, 0.5 * kerf)?;
        for (track, judged) in tracks.iter_mut().zip(&shown) {
            let room = judged
                .value(part, &shape, dimensions)
                .and_then(|value| judged.room(value));
            if let Some(room) = room {
                track.points.push((kerf, room));
            }
        }
    }
    let end = |track: &Track| track.points.last().map_or(f64::INFINITY, |point| point.1);
    tracks.sort_by(|a, b| end(a).total_cmp(&end(b)));
    tracks.dedup_by(|a, b| {
        // a pattern of equal openings is one line
        let same = a.points.len() == b.points.len()
            && a.points
                .iter()
                .zip(&b.points)
                .all(|(a, b)| (a.1 - b.1).abs() < 1e-6);
        if same && !b.name.ends_with("and others") {
            b.name = format!("{} and others", b.name);
        }
        same
    });
    // what is far from breaking would press the others together
    let nearest = |track: &Track| {
        let rooms = track.points.iter().map(|point| point.1);
        rooms.fold(f64::INFINITY, f64::min)
    };
    tracks.retain(|track| nearest(track) < 2.0 * widest);
    tracks.truncate(LINES);
    Ok(tracks)
}

/// The chart; none if kerf changes no limit of length.
pub(super) fn figure(tracks: &[Track], found: &[Comparison], unit: LengthUnit) -> Option<Figure> {
    let points = || tracks.iter().flat_map(|track| &track.points);
    let widest = points().map(|point| point.0).reduce(f64::max)?;
    let most = points().map(|point| point.1).fold(0.0, f64::max);
    let least = points().map(|point| point.1).fold(0.0, f64::min);
    let (least, most) = (least - 0.05 * (most - least), most + 0.08 * (most - least));
    let at = |kerf: f64, room: f64| {
        Point::new(
            FIELD.0 * kerf / widest,
            FIELD.1 * (room - least) / (most - least),
        )
    };
    let mut picture = Picture::new();
    axes(&mut picture, &at, (widest, least, most), unit);
    processes(&mut picture, &at, found, (widest, most));
    let styles = [
        Pen::solid(0.5),
        Pen::solid(0.35).line_type(LineType::Dashed),
        Pen::solid(0.35).line_type(LineType::LongDashedDotted),
        Pen::solid(0.5).line_type(LineType::Dotted),
        Pen::solid(0.25),
        Pen::solid(0.35).shade(Shade::Grey),
    ];
    let mut ends: Vec<(f64, &str, Point)> = Vec::new();
    for (track, pen) in tracks.iter().zip(styles) {
        let pieces: Vec<Piece> = track
            .points
            .windows(2)
            .filter_map(|pair| match pair {
                &[a, b] => Some(Piece::new(
                    Segment::line(at(a.0, a.1), at(b.0, b.1)),
                    SourceId::UNTRACED,
                )),
                _ => None,
            })
            .collect();
        let Some(last) = track.points.last() else {
            continue;
        };
        if let Ok(path) = Path::new(pieces) {
            picture.path(Layer::Dimensions, path, pen);
        }
        let end = at(last.0, last.1);
        ends.push((end.y, &track.name, end));
    }
    labels(&mut picture, ends);
    Some(Figure {
        picture,
        caption:
            "What is left to each limit if nobody compensates, against the kerf; below 0 it is \
                  broken"
                .to_owned(),
    })
}

/// Labels at the ends of the lines, moved apart where lines end close together.
fn labels(picture: &mut Picture, mut ends: Vec<(f64, &str, Point)>) {
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut height = f64::NEG_INFINITY;
    for (y, name, end) in ends {
        height = (y - 0.9).max(height + PITCH);
        let from = Point::new(FIELD.0 + 7.0, height + 0.9);
        picture.line(Layer::Guides, end, from, Pen::solid(0.13));
        words(
            picture,
            Point::new(FIELD.0 + 8.0, height),
            Anchor::Start,
            name.to_owned(),
        );
    }
}

fn axes(
    picture: &mut Picture,
    at: &impl Fn(f64, f64) -> Point,
    (widest, least, most): (f64, f64, f64),
    unit: LengthUnit,
) {
    let thin = Pen::solid(0.18);
    picture.line(Layer::Guides, at(0.0, least), at(0.0, most), thin);
    picture.line(Layer::Guides, at(0.0, least), at(widest, least), thin);
    picture.line(
        Layer::Guides,
        at(0.0, 0.0),
        at(widest, 0.0),
        Pen::solid(0.35),
    );
    let shown = |value: f64| trimmed(value / unit.millimetres(), 3);
    let in_unit = unit.millimetres();
    for step in steps(0.0, widest / in_unit) {
        let foot = at(step * in_unit, least);
        picture.line(
            Layer::Guides,
            foot,
            foot - crate::geometry::Vec2::new(0.0, 1.2),
            thin,
        );
        words(
            picture,
            foot - crate::geometry::Vec2::new(0.0, 4.6),
            Anchor::Middle,
            shown(step * in_unit),
        );
    }
    for step in steps(least / in_unit, most / in_unit) {
        let side = at(0.0, step * in_unit);
        picture.line(
            Layer::Guides,
            side,
            side - crate::geometry::Vec2::new(1.2, 0.0),
            thin,
        );
        words(
            picture,
            side - crate::geometry::Vec2::new(2.0, 0.9),
            Anchor::End,
            shown(step * in_unit),
        );
    }
    words(
        picture,
        at(0.5 * widest, least) - crate::geometry::Vec2::new(0.0, 9.6),
        Anchor::Middle,
        format!("kerf, {}", unit.symbol()),
    );
    words(
        picture,
        at(0.0, most) + crate::geometry::Vec2::new(-8.0, 8.0),
        Anchor::Start,
        format!("left to the limit, {}", unit.symbol()),
    );
}

/// Round numbers between two values, about six of them.
fn steps(from: f64, to: f64) -> Vec<f64> {
    let rough = (to - from) / 6.0;
    let power = libm::pow(10.0, libm::floor(libm::log10(rough)));
    let step = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|times| times * power)
        .find(|step| *step >= rough)
        .unwrap_or(10.0 * power);
    let first = libm::ceil(from / step - 1e-9);
    (0..12)
        .map(|index| (first + f64::from(index)) * step)
        .take_while(|value| *value <= to + 1e-9 * step)
        // no minus before a zero
        .map(|value| if value == 0.0 { 0.0 } else { value })
        .collect()
}

/// Where the kerf of each way of cutting lies, with its name above the field; names that would stand on
/// one another are left out.
fn processes(
    picture: &mut Picture,
    at: &impl Fn(f64, f64) -> Point,
    found: &[Comparison],
    (widest, most): (f64, f64),
) {
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for one in found.iter().filter(|one| one.refused.is_none()) {
        if one.kerf.value > widest {
            continue;
        }
        let top = at(one.kerf.value, most);
        let half = 0.5 * crate::formats::font::text_width(&one.process.key, 2.6) + 1.0;
        let free = taken
            .iter()
            .all(|(from, to)| top.x + half < *from || top.x - half > *to);
        if !free {
            continue;
        }
        taken.push((top.x - half, top.x + half));
        picture.line(
            Layer::Guides,
            top,
            top - crate::geometry::Vec2::new(0.0, 2.0),
            Pen::solid(0.35),
        );
        words(
            picture,
            top + crate::geometry::Vec2::new(0.0, 1.2),
            Anchor::Middle,
            one.process.key.clone(),
        );
    }
}
