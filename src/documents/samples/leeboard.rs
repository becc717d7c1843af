//! A blade with arcs.

use super::NOWHERE;
use super::polygon::bare;
use super::polygon::circle;
use super::polygon::holes;
use crate::design::part::Corner;
use crate::design::part::Datum;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Made;
use crate::design::part::Part;
use crate::design::part::Round;
use crate::design::part::Scribe;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A blade: full-round head, straight trailing edge (the plate's own), leading edge with a radius of
/// 6 m, two fillets at the foot, a pivot hole, three lightening holes, a scribed taper line.
#[expect(clippy::too_many_lines, reason = "one part, written out")]
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
        curve: None,
        place: NOWHERE,
    };
    let corner = |name: &str, source, sharp, worked: Arc| Corner {
        name: name.to_owned(),
        source: SourceId(source),
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
            corner("heel", 0, Point::ORIGIN, heel),
            corner("toe", 2, toe, toe_arc),
        ],
        rounds: vec![Round {
            name: "head".to_owned(),
            source: SourceId(4),
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
            words: "along “trailing” from “heel”".to_owned(),
            edge: Some("trailing".to_owned()),
            from: Some("heel".to_owned()),
        },
        ..bare("leeboard", &openings)
    }
}
