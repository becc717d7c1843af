//! What the parts are built with: polygons, fillets, holes.

use super::NOWHERE;
use crate::design::part::Corner;
use crate::design::part::Datum;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Features;
use crate::design::part::Made;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;

/// One corner of a polygon: its name, its place, the radius of its fillet (0: sharp; negative: a
/// chamfer with legs of that size), and the edge that leaves it.
pub(super) struct Written {
    pub(super) name: &'static str,
    pub(super) at: (f64, f64),
    pub(super) worked: f64,
    pub(super) edge: &'static str,
    pub(super) state: EdgeState,
}

pub(super) const fn written(
    name: &'static str,
    at: (f64, f64),
    worked: f64,
    edge: &'static str,
) -> Written {
    Written {
        name,
        at,
        worked,
        edge,
        state: EdgeState::Cut,
    }
}

/// A part with straight edges, fillets and chamfers; written anticlockwise.
pub(super) fn polygon(
    name: &str,
    outline: &[Written],
    openings: &[(&str, OpeningShape, Made)],
) -> Part {
    let count = outline.len();
    let at = |index: usize| Point::from(outline[index % count].at);
    let mut pieces = Vec::new();
    let (mut corners, mut edges) = (Vec::new(), Vec::new());
    let mut ends = Vec::new();
    for (index, entry) in outline.iter().enumerate() {
        let (before, here, after) = (at(index + count - 1), at(index), at(index + 1));
        let back = number::normalized(before - here).unwrap();
        let on = number::normalized(after - here).unwrap();
        let opening = number::turn(on, back).abs();
        let reach = if entry.worked > 0.0 {
            entry.worked / number::tan(opening / 2.0)
        } else {
            -entry.worked
        };
        let (start, end) = (here + back * reach, here + on * reach);
        let worked = if entry.worked > 0.0 {
            let turn = Turn::of_sign((-back).cross(on));
            Some(Segment::Arc(
                Arc::with_radius(start, end, entry.worked, turn).unwrap(),
            ))
        } else {
            (entry.worked < 0.0).then(|| Segment::line(start, end))
        };
        ends.push((start, end));
        corners.push(Corner {
            name: entry.name.to_owned(),
            source: SourceId(2 * u32::try_from(index).unwrap()),
            sharp: here,
            worked,
            place: NOWHERE,
        });
    }
    for (index, entry) in outline.iter().enumerate() {
        let source = SourceId(2 * u32::try_from(index).unwrap());
        if let Some(worked) = corners[index].worked {
            pieces.push(Piece::new(worked, source));
        }
        let (from, to) = (ends[index].1, ends[(index + 1) % count].0);
        let finished = Segment::line(from, to);
        pieces.push(Piece::new(finished, SourceId(source.0 + 1)));
        edges.push(Edge {
            name: entry.edge.to_owned(),
            source: SourceId(source.0 + 1),
            state: entry.state,
            sharp: vec![Segment::line(at(index), at(index + 1))],
            finished: vec![finished],
            curve: None,
            place: NOWHERE,
        });
    }
    let along = number::normalized(at(1) - at(0)).unwrap();
    Part {
        region: Region::new(Contour::new(pieces).unwrap(), holes(openings)),
        corners,
        edges,
        datum: Datum {
            origin: at(0),
            along,
            across: number::left_normal(along),
            words: format!("along “{}” from “{}”", outline[0].edge, outline[0].name),
            edge: Some(outline[0].edge.to_owned()),
            from: Some(outline[0].name.to_owned()),
        },
        ..bare(name, openings)
    }
}

/// A part with nothing but its openings.
pub(super) fn bare(name: &str, openings: &[(&str, OpeningShape, Made)]) -> Part {
    let whole = Contour::circle(Point::ORIGIN, 1.0, SourceId::UNTRACED).unwrap();
    Part {
        name: name.to_owned(),
        quantity: 1,
        note: None,
        region: Region::new(whole, Vec::new()),
        corners: Vec::new(),
        rounds: Vec::new(),
        edges: Vec::new(),
        openings: openings
            .iter()
            .enumerate()
            .map(|(hole, &(name, shape, made))| Opening {
                name: name.to_owned(),
                hole,
                sources: 0..0,
                features: Features::default(),
                shape,
                made,
                screw: None,
                place: NOWHERE,
            })
            .collect(),
        scribes: Vec::new(),
        marks: Vec::new(),
        datum: Datum {
            origin: Point::ORIGIN,
            along: Vec2::new(1.0, 0.0),
            across: Vec2::new(0.0, 1.0),
            words: String::new(),
            edge: None,
            from: None,
        },
        plate: Some(Plate {
            name: "stock".to_owned(),
            material: "aluminium 5083-H116".to_owned(),
            thickness: Some(8.0),
            gauged: None,
            flatness: None,
            size: None,
            good_face: Some("the face without the mill's print".to_owned()),
        }),
        mirror_of: None,
        origins: Vec::new(),
    }
}

pub(super) fn holes(openings: &[(&str, OpeningShape, Made)]) -> Vec<Contour> {
    openings.iter().map(|(_, shape, _)| hole(shape)).collect()
}

fn hole(shape: &OpeningShape) -> Contour {
    match *shape {
        OpeningShape::Circle { centre, diameter } => {
            Contour::circle(centre, diameter / 2.0, SourceId::UNTRACED).unwrap()
        }
        OpeningShape::Slot { from, to, width } => {
            let along = number::normalized(to - from).unwrap();
            let side = number::left_normal(along) * (width / 2.0);
            let turn = Turn::Anticlockwise;
            Contour::from_segments([
                Segment::line(from - side, to - side),
                Arc::from_centre(to - side, to + side, to, turn).into(),
                Segment::line(to + side, from + side),
                Arc::from_centre(from + side, from - side, from, turn).into(),
            ])
            .unwrap()
        }
        OpeningShape::Rectangle {
            centre,
            width,
            height,
            angle,
            ..
        } => {
            let corner = |x: f64, y: f64| {
                centre + number::rotated(Vec2::new(x * width / 2.0, y * height / 2.0), angle)
            };
            Contour::polygon(&[
                corner(-1.0, -1.0),
                corner(1.0, -1.0),
                corner(1.0, 1.0),
                corner(-1.0, 1.0),
            ])
            .unwrap()
        }
        OpeningShape::Outline => Contour::polygon(&[
            Point::new(10.0, 10.0),
            Point::new(30.0, 10.0),
            Point::new(20.0, 30.0),
        ])
        .unwrap(),
    }
}

pub(super) const fn circle(x: f64, y: f64, diameter: f64) -> OpeningShape {
    OpeningShape::Circle {
        centre: Point::new(x, y),
        diameter,
    }
}
