//! Parts of an invented boat, built by hand, for the tests and benches of patterns.
#![allow(
    dead_code,
    clippy::too_many_lines,
    reason = "tests and benches share it, each uses some; a part is one list of numbers"
)]

use kerfwise::design::part::Corner;
use kerfwise::design::part::Datum;
use kerfwise::design::part::Edge;
use kerfwise::design::part::EdgeState;
use kerfwise::design::part::Features;
use kerfwise::design::part::Made;
use kerfwise::design::part::Mark;
use kerfwise::design::part::Opening;
use kerfwise::design::part::OpeningShape;
use kerfwise::design::part::Part;
use kerfwise::design::part::Plate;
use kerfwise::design::part::Round;
use kerfwise::design::part::Scribe;
use kerfwise::design::source::Place;
use kerfwise::documents::Stamp;
use kerfwise::geometry::Arc;
use kerfwise::geometry::Contour;
use kerfwise::geometry::LengthUnit;
use kerfwise::geometry::Path;
use kerfwise::geometry::Piece;
use kerfwise::geometry::Point;
use kerfwise::geometry::Region;
use kerfwise::geometry::Segment;
use kerfwise::geometry::SourceId;
use kerfwise::geometry::Turn;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::number;

pub(crate) fn stamp() -> Stamp {
    Stamp {
        design: "Canoe yawl of 5 m".to_owned(),
        fingerprint: "3f9a1c5be07d24688a90b1c2d3e4f5061728394a5b6c7d8e9f00112233445566".to_owned(),
        unit: LengthUnit::Millimetre,
        open: Vec::new(),
        general: None,
        otherwise: Vec::new(),
    }
}

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn arc(start: Point, end: Point, centre: Point) -> Segment {
    Segment::Arc(Arc::from_centre(start, end, centre, Turn::Anticlockwise))
}

fn edge(name: &str, source: u32, state: EdgeState, sharp: Segment, finished: Segment) -> Edge {
    Edge {
        name: name.to_owned(),
        source: SourceId(source),
        state,
        sharp: vec![sharp],
        finished: vec![finished],
        curve: None,
        place: Place::default(),
    }
}

fn corner(name: &str, sharp: Point, worked: Option<Segment>) -> Corner {
    Corner {
        name: name.to_owned(),
        source: SourceId::UNTRACED,
        sharp,
        worked,
        place: Place::default(),
    }
}

fn hole(name: &str, index: usize, centre: Point, diameter: f64) -> Opening {
    Opening {
        name: name.to_owned(),
        hole: index,
        sources: 0..0,
        features: Features::default(),
        shape: OpeningShape::Circle { centre, diameter },
        made: Made::Cut,
        screw: None,
        place: Place::default(),
    }
}

fn circle(centre: Point, diameter: f64) -> Contour {
    Contour::circle(centre, diameter / 2.0, SourceId(100)).expect("a circle")
}

fn contour(segments: &[(Segment, u32)]) -> Contour {
    let piece = |&(segment, source): &(Segment, u32)| Piece::new(segment, SourceId(source));
    Contour::new(segments.iter().map(piece).collect()).expect("a closed outline")
}

fn plain(name: &str, region: Region) -> Part {
    Part {
        name: name.to_owned(),
        quantity: 1,
        note: None,
        region,
        corners: Vec::new(),
        rounds: Vec::new(),
        edges: Vec::new(),
        openings: Vec::new(),
        scribes: Vec::new(),
        marks: Vec::new(),
        datum: Datum {
            origin: Point::ORIGIN,
            along: Vec2::new(1.0, 0.0),
            across: Vec2::new(0.0, 1.0),
            words: "along “foot” from “heel”".to_owned(),
            edge: None,
            from: None,
        },
        plate: None,
        mirror_of: None,
        origins: Vec::new(),
    }
}

/// A leeboard of about 305 × 974 mm: straight trailing edge of the plate's own, bowed leading edge
/// tangent to a round head, rounded toe and heel, four holes, a scribed taper.
pub(crate) fn leeboard() -> Part {
    let (head, head_radius, toe) = (at(90.0, 884.0), 90.0, 60.0);
    let heel = 18.0;
    // the leading arc runs through the sharp toe and touches the head's circle in this direction
    let touch = number::normalized(Vec2::new(87.941, 19.139)).expect("a direction");
    let sharp_toe = at(305.0, 0.0);
    let w = head - sharp_toe;
    let radius = (w.dot(w) + 2.0 * head_radius * w.dot(touch) + head_radius * head_radius)
        / (2.0 * w.dot(touch) + 2.0 * head_radius);
    let centre = head - touch * (radius - head_radius);
    let tangent = head + touch * head_radius;
    let up = toe - centre.y;
    let toe_centre = at(
        centre.x + ((radius - toe) * (radius - toe) - up * up).sqrt(),
        toe,
    );
    let toe_end = centre + number::normalized(toe_centre - centre).expect("a direction") * radius;
    let leading = arc(toe_end, tangent, centre);
    let head_arc = Arc::from_centre(tangent, at(0.0, 884.0), head, Turn::Anticlockwise);
    let foot = Segment::line(at(heel, 0.0), at(toe_centre.x, 0.0));
    let trailing = Segment::line(at(0.0, 884.0), at(0.0, heel));
    let toe_arc = arc(at(toe_centre.x, 0.0), toe_end, toe_centre);
    let heel_arc = arc(at(0.0, heel), at(heel, 0.0), at(heel, heel));
    let outer = contour(&[
        (foot, 1),
        (toe_arc, 2),
        (leading, 3),
        (head_arc.into(), 4),
        (trailing, 5),
        (heel_arc, 0),
    ]);
    let holes = [
        ("pivot", head, 13.0),
        ("lightening 1", at(152.5, 180.0), 90.0),
        ("lightening 2", at(145.0, 330.0), 90.0),
        ("lightening 3", at(140.0, 480.0), 90.0),
    ];
    let region = Region::new(outer, holes.iter().map(|&(_, c, d)| circle(c, d)).collect());
    let inset = Arc::from_centre(
        centre + (toe_end - centre) * ((radius - 42.0) / radius),
        centre + (tangent - centre) * ((radius - 42.0) / radius),
        centre,
        Turn::Anticlockwise,
    );
    let taper = Path::new(vec![Piece::new(inset.into(), SourceId(7))]).expect("a scribe line");
    let mut part = plain("leeboard", region);
    part.quantity = 2;
    part.corners = vec![
        corner("heel", at(0.0, 0.0), Some(heel_arc)),
        corner("toe", sharp_toe, Some(toe_arc)),
    ];
    part.rounds = vec![Round {
        name: "head".to_owned(),
        source: SourceId::UNTRACED,
        centre: head,
        radius: head_radius,
        arc: Some(head_arc),
        place: Place::default(),
    }];
    part.edges = vec![
        edge(
            "foot",
            1,
            EdgeState::Cut,
            Segment::line(at(0.0, 0.0), sharp_toe),
            foot,
        ),
        edge("leading", 3, EdgeState::Cut, leading, leading),
        edge(
            "trailing",
            5,
            EdgeState::PlateEdge,
            Segment::line(at(0.0, 884.0), at(0.0, 0.0)),
            trailing,
        ),
    ];
    part.openings = holes
        .iter()
        .enumerate()
        .map(|(index, &(name, c, d))| hole(name, index, c, d))
        .collect();
    part.scribes = vec![Scribe {
        name: "leading taper".to_owned(),
        along: Some(("leading".to_owned(), 42.0)),
        paths: vec![taper],
        place: Place::default(),
    }];
    part.datum = Datum {
        origin: at(0.0, 0.0),
        along: Vec2::new(0.0, 1.0),
        across: Vec2::new(1.0, 0.0),
        words: "along “trailing” from “heel”".to_owned(),
        edge: None,
        from: None,
    };
    part.plate = Some(Plate {
        name: "stock".to_owned(),
        material: "steel, galvanised".to_owned(),
        thickness: Some(5.09),
        gauged: None,
        flatness: None,
        size: None,
        good_face: Some("up".to_owned()),
    });
    part
}

/// A bulkhead panel of 2400 × 1100 mm: cambered top, a wide opening, small holes, edges of all states.
pub(crate) fn panel() -> Part {
    let (width, side) = (2400.0, 1000.0);
    let top =
        Arc::through(at(width, side), at(width / 2.0, 1100.0), at(0.0, side)).expect("an arc");
    let foot = Segment::line(at(0.0, 0.0), at(width, 0.0));
    let right = Segment::line(at(width, 0.0), at(width, side));
    let left = Segment::line(at(0.0, side), at(0.0, 0.0));
    let outer = contour(&[(foot, 0), (right, 1), (top.into(), 2), (left, 3)]);
    let (x, y, w, h, r) = (1500.0, 480.0, 600.0, 520.0, 80.0);
    let (x0, y0, x1, y1) = (x - w / 2.0, y - h / 2.0, x + w / 2.0, y + h / 2.0);
    let opening = contour(&[
        (Segment::line(at(x0 + r, y0), at(x1 - r, y0)), 20),
        (arc(at(x1 - r, y0), at(x1, y0 + r), at(x1 - r, y0 + r)), 20),
        (Segment::line(at(x1, y0 + r), at(x1, y1 - r)), 20),
        (arc(at(x1, y1 - r), at(x1 - r, y1), at(x1 - r, y1 - r)), 20),
        (Segment::line(at(x1 - r, y1), at(x0 + r, y1)), 20),
        (arc(at(x0 + r, y1), at(x0, y1 - r), at(x0 + r, y1 - r)), 20),
        (Segment::line(at(x0, y1 - r), at(x0, y0 + r)), 20),
        (arc(at(x0, y0 + r), at(x0 + r, y0), at(x0 + r, y0 + r)), 20),
    ]);
    let holes = [
        ("bolt 1", at(120.0, 140.0), 8.0),
        ("bolt 2", at(120.0, 860.0), 8.0),
        ("hawse", at(640.0, 520.0), 120.0),
    ];
    let mut inner: Vec<Contour> = holes.iter().map(|&(_, c, d)| circle(c, d)).collect();
    inner.push(opening);
    let mut part = plain("bulkhead 3", Region::new(outer, inner));
    part.corners = vec![
        corner("bilge port", at(0.0, 0.0), None),
        corner("bilge starboard", at(width, 0.0), None),
        corner("deck starboard", at(width, side), None),
        corner("deck port", at(0.0, side), None),
    ];
    part.edges = vec![
        edge("foot", 0, EdgeState::TrimAtFitting, foot, foot),
        edge("starboard side", 1, EdgeState::LeaveOn(15.0), right, right),
        edge("camber", 2, EdgeState::Cut, top.into(), top.into()),
        edge("port side", 3, EdgeState::PlateEdge, left, left),
    ];
    part.openings = holes
        .iter()
        .enumerate()
        .map(|(index, &(name, c, d))| hole(name, index, c, d))
        .collect();
    part.openings.push(Opening {
        name: "door".to_owned(),
        hole: 3,
        sources: 0..0,
        features: Features::default(),
        shape: OpeningShape::Rectangle {
            centre: at(x, y),
            width: w,
            height: h,
            corner_radius: r,
            relief: 0.0,
            angle: 0.0,
        },
        made: Made::Cut,
        screw: None,
        place: Place::default(),
    });
    part.marks = vec![Mark {
        name: "stringer".to_owned(),
        at: at(30.0, 640.0),
        place: Place::default(),
    }];
    part
}

/// A bracket that fits on one sheet: an L of 120 × 90 mm with three holes.
pub(crate) fn bracket() -> Part {
    let points = [
        at(0.0, 0.0),
        at(120.0, 0.0),
        at(120.0, 40.0),
        at(45.0, 40.0),
        at(45.0, 90.0),
        at(0.0, 90.0),
    ];
    let outer = Contour::polygon(&points).expect("an outline");
    let holes = [
        ("hole 1", at(20.0, 70.0), 6.5),
        ("hole 2", at(20.0, 20.0), 6.5),
        ("hole 3", at(100.0, 20.0), 6.5),
    ];
    let inner = holes.iter().map(|&(_, c, d)| circle(c, d)).collect();
    let mut part = plain("bracket", Region::new(outer, inner));
    part.quantity = 4;
    part.openings = holes
        .iter()
        .enumerate()
        .map(|(index, &(name, c, d))| hole(name, index, c, d))
        .collect();
    part
}

/// A toothed outline of 5 × 1.5 m with as many segments as asked for.
pub(crate) fn toothed(segments: u32) -> Part {
    // an ellipse whose radius jumps in and out by 2 mm
    let place = |index: u32| {
        let angle = f64::from(index) / f64::from(segments) * number::FULL_TURN;
        let in_or_out = if index.is_multiple_of(2) { 1.0 } else { 0.998 };
        let out = number::unit(angle);
        at(2500.0 * in_or_out * out.x, 750.0 * in_or_out * out.y)
    };
    let points: Vec<Point> = (0..segments).map(place).collect();
    let outer = Contour::polygon(&points).expect("an outline");
    plain("toothed", Region::new(outer, Vec::new()))
}
