//! Parts for the tests of documents, built by hand from contours.

use crate::design::part::Corner;
use crate::design::part::Datum;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Made;
use crate::design::part::Mark;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::design::part::Round;
use crate::design::part::Scribe;
use crate::design::source::Place;
use crate::documents::stamp::Stamp;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;

const NOWHERE: Place = Place { start: 0, end: 0 };

/// A stamp without open dimensions.
pub(crate) fn stamp(unit: LengthUnit) -> Stamp {
    Stamp {
        design: "Leeboard for a 5 m canoe yawl".to_owned(),
        fingerprint: "3f9a1c77e0b2d4586a90c1de".to_owned(),
        unit,
        open: Vec::new(),
    }
}

/// A stamp with two dimensions still to be measured.
pub(crate) fn draft_stamp() -> Stamp {
    Stamp {
        open: vec!["guard".to_owned(), "slot_width".to_owned()],
        ..stamp(LengthUnit::Millimetre)
    }
}

/// One corner of a polygon: its name, its place, the radius of its fillet (0: sharp; negative: a
/// chamfer with legs of that size), and the edge that leaves it.
pub(crate) struct Written {
    name: &'static str,
    at: (f64, f64),
    worked: f64,
    edge: &'static str,
    state: EdgeState,
}

const fn written(name: &'static str, at: (f64, f64), worked: f64, edge: &'static str) -> Written {
    Written {
        name,
        at,
        worked,
        edge,
        state: EdgeState::Cut,
    }
}

/// A part with straight edges, fillets and chamfers; written anticlockwise.
fn polygon(name: &str, outline: &[Written], openings: &[(&str, OpeningShape, Made)]) -> Part {
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
            words: format!("along `{}` from `{}`", outline[0].edge, outline[0].name),
        },
        ..bare(name, openings)
    }
}

/// A part with nothing but its openings.
fn bare(name: &str, openings: &[(&str, OpeningShape, Made)]) -> Part {
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
                shape,
                made,
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
        },
        plate: Some(Plate {
            name: "stock".to_owned(),
            material: "aluminium 5083-H116".to_owned(),
            thickness: Some(8.0),
            size: None,
            good_face: Some("the face without the mill's print".to_owned()),
        }),
        mirror_of: None,
        origins: Vec::new(),
    }
}

fn holes(openings: &[(&str, OpeningShape, Made)]) -> Vec<Contour> {
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

const fn circle(x: f64, y: f64, diameter: f64) -> OpeningShape {
    OpeningShape::Circle {
        centre: Point::new(x, y),
        diameter,
    }
}

#[expect(clippy::too_many_lines, reason = "one part, written out")]
/// A blade: full-round head, straight trailing edge (the plate's own), leading edge with a radius of
/// 6 m, two fillets at the foot, a pivot hole, three lightening holes, a scribed taper line.
pub(crate) fn leeboard() -> Part {
    let (toe, head, big) = (Point::new(305.0, 0.0), Point::new(90.0, 884.0), 6000.0);
    // centre of the leading edge: `big` from the toe, `big` − 90 from the centre of the head
    let apart = number::length(head - toe);
    let towards = (head - toe) / apart;
    let t = (big * big - (big - 90.0) * (big - 90.0) + apart * apart) / (2.0 * apart);
    let o = toe + towards * t + number::left_normal(towards) * (big * big - t * t).sqrt();
    let tangent = o + (head - o) * (big / (big - 90.0));
    // centre of the fillet at the toe: 60 above the foot, `big` − 60 from that centre
    let rise = o.y - 60.0;
    let fillet = Point::new(
        o.x + ((big - 60.0) * (big - 60.0) - rise * rise).sqrt(),
        60.0,
    );
    let touch = o + (fillet - o) * (big / (big - 60.0));
    let turn = Turn::Anticlockwise;
    let (a, b) = (Point::new(0.0, 18.0), Point::new(18.0, 0.0));
    let heel = Arc::from_centre(a, b, Point::new(18.0, 18.0), turn);
    let foot = Segment::line(b, Point::new(fillet.x, 0.0));
    let toe_arc = Arc::from_centre(foot.end(), touch, fillet, turn);
    let leading = Arc::from_centre(touch, tangent, o, turn);
    let top = Arc::from_centre(tangent, Point::new(0.0, 884.0), head, turn);
    let trailing = Segment::line(top.end(), a);
    let outline = [
        heel.into(),
        foot,
        toe_arc.into(),
        leading.into(),
        top.into(),
        trailing,
    ];
    let pieces = outline.into_iter().zip(0..);
    let pieces = pieces.map(|(segment, source)| Piece::new(segment, SourceId(source)));
    let openings = [
        ("pivot", circle(90.0, 884.0, 13.0), Made::Drilled),
        ("lightening 1", circle(152.5, 180.0, 90.0), Made::Cut),
        ("lightening 2", circle(152.5, 330.0, 90.0), Made::Cut),
        ("lightening 3", circle(152.5, 480.0, 90.0), Made::Cut),
    ];
    let edge = |name: &str, source, state, sharp, finished| Edge {
        name: name.to_owned(),
        source: SourceId(source),
        state,
        sharp: vec![sharp],
        finished: vec![finished],
        place: NOWHERE,
    };
    let corner = |name: &str, sharp, worked: Arc| Corner {
        name: name.to_owned(),
        sharp,
        worked: Some(worked.into()),
        place: NOWHERE,
    };
    let whole = Arc::from_centre(toe, tangent, o, turn);
    let inset = Arc::from_angles(
        o,
        big - 42.0,
        number::direction(touch - o),
        leading.sweep() * 0.97,
    );
    Part {
        region: Region::new(Contour::new(pieces.collect()).unwrap(), holes(&openings)),
        corners: vec![
            corner("heel", Point::ORIGIN, heel),
            corner("toe", toe, toe_arc),
        ],
        rounds: vec![Round {
            name: "head".to_owned(),
            centre: head,
            radius: 90.0,
            arc: Some(top),
            place: NOWHERE,
        }],
        edges: vec![
            edge(
                "foot",
                1,
                EdgeState::Cut,
                Segment::line(Point::ORIGIN, toe),
                foot,
            ),
            edge("leading", 3, EdgeState::Cut, whole.into(), leading.into()),
            edge(
                "trailing",
                5,
                EdgeState::PlateEdge,
                Segment::line(top.end(), Point::ORIGIN),
                trailing,
            ),
        ],
        scribes: vec![Scribe {
            name: "leading taper".to_owned(),
            along: Some(("leading".to_owned(), 42.0)),
            paths: vec![Path::new(vec![Piece::new(inset.into(), SourceId::UNTRACED)]).unwrap()],
            place: NOWHERE,
        }],
        datum: Datum {
            origin: Point::ORIGIN,
            along: Vec2::new(0.0, 1.0),
            across: Vec2::new(1.0, 0.0),
            words: "along `trailing` from `heel`".to_owned(),
        },
        ..bare("leeboard", &openings)
    }
}

/// A plate with a bolt circle of twelve, a large hole, four slots and two marks.
pub(crate) fn belt_guard() -> Part {
    let names: Vec<String> = (1..=12).map(|index| format!("bolt {index}")).collect();
    let mut openings: Vec<(&str, OpeningShape, Made)> = names
        .iter()
        .zip(0..12)
        .map(|(name, index)| {
            let out = number::unit(f64::from(index) * number::FULL_TURN / 12.0) * 90.0;
            (
                name.as_str(),
                circle(150.0 + out.x, 140.0 + out.y, 6.5),
                Made::Cut,
            )
        })
        .collect();
    openings.push(("shaft", circle(150.0, 140.0, 120.0), Made::Cut));
    let slot = |x: f64, y: f64| OpeningShape::Slot {
        from: Point::new(x, y),
        to: Point::new(x + 24.0, y),
        width: 9.0,
    };
    openings.push(("slot 1", slot(320.0, 30.0), Made::Cut));
    openings.push(("slot 2", slot(320.0, 250.0), Made::Cut));
    let turned = OpeningShape::Rectangle {
        centre: Point::new(350.0, 140.0),
        width: 60.0,
        height: 40.0,
        corner_radius: 0.0,
        angle: 0.3,
    };
    openings.push(("window", turned, Made::Cut));
    let outline = [
        written("A", (0.0, 0.0), 30.0, "bottom"),
        written("B", (420.0, 0.0), 12.0, "right"),
        written("C", (420.0, 280.0), 12.0, "top"),
        written("D", (0.0, 280.0), 30.0, "left"),
    ];
    Part {
        quantity: 2,
        marks: vec![Mark {
            name: "hook".to_owned(),
            at: Point::new(280.0, 140.0),
            place: NOWHERE,
        }],
        ..polygon("belt guard", &outline, &openings)
    }
}

/// A small angle bracket in inches: chamfer, sharp corners, a hollow fillet, a strip left on, an edge
/// trimmed at fitting, drilled holes.
pub(crate) fn bracket() -> Part {
    let inch = 25.4;
    let at = |x: f64, y: f64| (x * inch, y * inch);
    let hole = |x: f64, y: f64| circle(x * inch, y * inch, 0.25 * inch);
    let outline = [
        written("base left", at(0.0, 0.0), 0.0, "base"),
        Written {
            state: EdgeState::LeaveOn(0.25 * inch),
            ..written("base right", at(4.0, 0.0), -0.375 * inch, "end")
        },
        written("shoulder", at(4.0, 1.5), 0.25 * inch, "shelf"),
        written("throat", at(1.5, 1.5), 0.5 * inch, "inner"),
        Written {
            state: EdgeState::TrimAtFitting,
            ..written("top right", at(1.5, 5.0), 0.25 * inch, "top")
        },
        Written {
            state: EdgeState::PlateEdge,
            ..written("top left", at(0.0, 5.0), 0.0, "back")
        },
    ];
    let openings = [
        ("screw 1", hole(0.75, 0.75), Made::Drilled),
        ("screw 2", hole(3.25, 0.75), Made::Drilled),
        ("screw 3", hole(0.75, 4.25), Made::Drilled),
    ];
    let part = polygon("bracket", &outline, &openings);
    Part {
        mirror_of: Some("bracket port".to_owned()),
        plate: None,
        ..part
    }
}

/// A panel with 40 openings, all of different sizes and names.
pub(crate) fn crowded() -> Part {
    let letter = |index: u8| char::from(b'A' + index % 8);
    let names: Vec<String> = (0..40_u8)
        .map(|index| format!("cable {}{}", letter(index / 8), letter(index)))
        .collect();
    let openings: Vec<(&str, OpeningShape, Made)> = names
        .iter()
        .zip(0..40)
        .map(|(name, index)| {
            let (column, row) = (f64::from(index % 8), f64::from(index / 8));
            let index = f64::from(index);
            let (x, y) = (40.0 + 60.0 * column + row, 40.0 + 55.0 * row + column);
            (name.as_str(), circle(x, y, 10.0 + 0.5 * index), Made::Cut)
        })
        .collect();
    let outline = [
        written("A", (0.0, 0.0), 10.0, "bottom"),
        written("B", (520.0, 0.0), 10.0, "right"),
        written("C", (520.0, 310.0), 10.0, "top"),
        written("D", (0.0, 310.0), 10.0, "left"),
    ];
    polygon("switch panel", &outline, &openings)
}

/// The part turned about the origin by an angle in radians, and shifted.
pub(crate) fn turned(part: &Part, angle: f64) -> Part {
    let motion = Motion::turn(angle).then(&Motion::shift(Vec2::new(-321.0, 57.0)));
    let segments = |list: &[Segment]| list.iter().map(|one| motion.segment(one)).collect();
    let mut moved = part.clone();
    moved.region = motion.region(&part.region);
    for corner in &mut moved.corners {
        corner.sharp = motion.point(corner.sharp);
        corner.worked = corner.worked.map(|worked| motion.segment(&worked));
    }
    for round in &mut moved.rounds {
        round.centre = motion.point(round.centre);
        round.arc = round.arc.map(|arc| motion.arc(&arc));
    }
    for edge in &mut moved.edges {
        edge.sharp = segments(&edge.sharp);
        edge.finished = segments(&edge.finished);
    }
    for opening in &mut moved.openings {
        opening.shape = turned_opening(opening.shape, &motion, angle);
    }
    for scribe in &mut moved.scribes {
        scribe.paths = scribe.paths.iter().map(|path| motion.path(path)).collect();
    }
    for mark in &mut moved.marks {
        mark.at = motion.point(mark.at);
    }
    moved.datum.origin = motion.point(part.datum.origin);
    moved.datum.along = motion.vector(part.datum.along);
    moved.datum.across = motion.vector(part.datum.across);
    moved
}

fn turned_opening(shape: OpeningShape, motion: &Motion, by: f64) -> OpeningShape {
    match shape {
        OpeningShape::Circle { centre, diameter } => OpeningShape::Circle {
            centre: motion.point(centre),
            diameter,
        },
        OpeningShape::Slot { from, to, width } => OpeningShape::Slot {
            from: motion.point(from),
            to: motion.point(to),
            width,
        },
        OpeningShape::Rectangle {
            centre,
            width,
            height,
            corner_radius,
            angle,
        } => OpeningShape::Rectangle {
            centre: motion.point(centre),
            width,
            height,
            corner_radius,
            angle: angle + by,
        },
        OpeningShape::Outline => shape,
    }
}

/// Every part that documents are tried on, with the unit it is shown in.
pub(crate) fn all() -> Vec<(Part, LengthUnit)> {
    let mm = LengthUnit::Millimetre;
    let seventeen = number::HALF_TURN * 17.0 / 180.0;
    vec![
        (leeboard(), mm),
        (turned(&leeboard(), seventeen), LengthUnit::Inch),
        (belt_guard(), mm),
        (turned(&belt_guard(), -1.9), mm),
        (bracket(), LengthUnit::Inch),
        (crowded(), mm),
    ]
}
