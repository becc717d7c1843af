use super::*;
use crate::geometry::Arc;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number;

fn run(source: u32, segments: Vec<Segment>, closed: bool) -> Run {
    Run {
        segments,
        closed,
        layer: 0,
        source: SourceId(source),
        kind: "polyline",
        follows_within: None,
    }
}

fn polygon(source: u32, points: &[(f64, f64)]) -> Run {
    let points: Vec<Point> = points.iter().map(|&at| at.into()).collect();
    let following = points.iter().cycle().skip(1);
    let sides = points.iter().zip(following);
    run(
        source,
        sides.map(|(&a, &b)| Segment::line(a, b)).collect(),
        true,
    )
}

fn circle(source: u32, x: f64, y: f64, radius: f64) -> Run {
    let arc = Arc::circle(Point::new(x, y), radius);
    run(source, vec![arc.into()], true)
}

fn plate() -> Run {
    polygon(1, &[(0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0)])
}

fn line(source: u32, from: (f64, f64), to: (f64, f64)) -> Run {
    run(source, vec![Segment::line(from.into(), to.into())], false)
}

fn subject(runs: Vec<Run>) -> Subject {
    let assembly = assemble(&runs, 0.05);
    let nested = nest(&assembly.outlines);
    let limit = |value: f64| {
        Some(Limit {
            value,
            basis: "stated by the shop".to_owned(),
            decides: true,
        })
    };
    Subject {
        runs,
        assembly,
        nested,
        lines: Lines::FinishedEdges,
        unit: Unit::Known,
        shown_in: LengthUnit::Millimetre,
        sheet: Some(SheetSize {
            width: 500.0,
            height: 1000.0,
        }),
        limits: Limits {
            smallest_opening: limit(3.0),
            web: limit(4.0),
            inside_radius: limit(1.0),
            kerf: limit(1.2),
        },
    }
}

/// The rules that found something, with what they measured and which run it was on.
fn found(runs: Vec<Run>) -> Vec<(Rule, Option<f64>, u32)> {
    let mut rows: Vec<(Rule, Option<f64>, u32)> = check(&subject(runs))
        .into_iter()
        .map(|finding| (finding.rule, finding.measured, finding.source.0))
        .collect();
    rows.dedup();
    rows
}

fn assert_one(runs: Vec<Run>, rule: Rule, measured: f64, source: u32) {
    let rows = found(runs);
    let row = rows.iter().find(|row| row.0 == rule);
    let Some(&(_, value, on)) = row else {
        panic!("no {rule:?} in {rows:?}")
    };
    let off = (value.unwrap_or(f64::NAN) - measured).abs();
    assert!(off < 1e-9 && on == source, "{rule:?}: {rows:?}");
}

#[test]
fn a_sound_part_has_no_findings() {
    assert_eq!(
        found(vec![plate(), circle(2, 60.0, 50.0, 6.0)]),
        [],
        "sound"
    );
}

#[test]
fn what_does_not_close_is_told_with_its_opening() {
    let open = vec![
        line(1, (0.0, 0.0), (30.0, 0.0)),
        line(2, (30.0, 0.0), (30.0, 40.0)),
    ];
    assert_one(open, Rule::OpenContour, 50.0, 1);
    let gap = vec![
        line(1, (0.0, 0.0), (30.0, 0.0)),
        line(2, (30.03, 0.0), (30.0, 40.0)),
        line(3, (30.0, 40.0), (0.0, 0.0)),
    ];
    assert_one(gap, Rule::Gap, 0.03, 1);
}

#[test]
fn crossings_duplicates_and_nothing() {
    let bow_tie = polygon(7, &[(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)]);
    let rows = found(vec![bow_tie]);
    assert!(
        rows.iter().any(|row| row.0 == Rule::Crossing && row.2 == 7),
        "{rows:?}"
    );
    let over = vec![plate(), circle(2, 200.0, 50.0, 9.0)];
    let rows = found(over);
    assert!(rows.iter().any(|row| row.0 == Rule::Crossing), "{rows:?}");
    let twice = vec![
        plate(),
        circle(2, 50.0, 50.0, 9.0),
        circle(3, 50.0, 50.0, 9.0),
    ];
    assert_one(twice, Rule::Duplicate, 18.0 * std::f64::consts::PI, 3);
    let turned = vec![
        line(1, (0.0, 0.0), (9.0, 0.0)),
        line(2, (9.0, 0.0), (0.0, 0.0)),
    ];
    assert_one(turned, Rule::Duplicate, 9.0, 2);
    let nothing = vec![plate(), line(5, (3.0, 3.0), (3.0, 3.0))];
    assert_one(nothing, Rule::ZeroLength, 0.0, 5);
}

#[test]
fn openings_webs_and_edges_against_the_limits() {
    assert_one(
        vec![plate(), circle(2, 60.0, 50.0, 1.25)],
        Rule::SmallOpening,
        2.5,
        2,
    );
    assert_one(
        vec![plate(), circle(2, 60.0, 50.0, 0.5)],
        Rule::Swallowed,
        1.0,
        2,
    );
    let slot = polygon(3, &[(50.0, 50.0), (90.0, 50.0), (90.0, 51.0), (50.0, 51.0)]);
    assert_one(vec![plate(), slot], Rule::Swallowed, 1.0, 3);
    let close = vec![
        plate(),
        circle(2, 50.0, 50.0, 6.0),
        circle(3, 65.0, 50.0, 6.0),
    ];
    assert_one(close, Rule::NarrowWeb, 3.0, 2);
    assert_one(
        vec![plate(), circle(2, 50.0, 9.5, 6.0)],
        Rule::NearEdge,
        3.5,
        2,
    );
    // far enough for the web, too near for a bolt: 1.5 × 12 = 18
    assert_one(
        vec![plate(), circle(2, 50.0, 12.0, 6.0)],
        Rule::NearEdge,
        12.0,
        2,
    );
    let window = polygon(4, &[(50.0, 40.0), (90.0, 40.0), (90.0, 60.0), (50.0, 60.0)]);
    let rows = found(vec![plate(), window]);
    let corners = rows.iter().filter(|row| row.0 == Rule::SharpCorner).count();
    assert!(corners > 0, "{rows:?}");
    assert_one(
        vec![
            plate(),
            polygon(4, &[(50.0, 40.0), (90.0, 40.0), (70.0, 60.0)]),
        ],
        Rule::InsideCorner,
        0.0,
        4,
    );
}

#[test]
fn limits_that_nobody_stands_up_for_only_warn() {
    let mut subject = subject(vec![plate(), circle(2, 60.0, 50.0, 1.25)]);
    let grade = |subject: &Subject| {
        check(subject)
            .iter()
            .find(|finding| finding.rule == Rule::SmallOpening)
            .map(|finding| finding.grade)
    };
    assert_eq!(grade(&subject), Some(Grade::Error), "stated");
    if let Some(limit) = &mut subject.limits.smallest_opening {
        limit.decides = false;
    }
    assert_eq!(grade(&subject), Some(Grade::Notice), "from memory");
}

#[test]
fn sheets_units_and_chords() {
    let large = polygon(
        1,
        &[(0.0, 0.0), (1200.0, 0.0), (1200.0, 100.0), (0.0, 100.0)],
    );
    let rows = found(vec![large]);
    assert!(
        rows.iter()
            .any(|row| row.0 == Rule::SheetSize && row.1 == Some(1200.0)),
        "{rows:?}"
    );
    let mut unknown = subject(vec![plate()]);
    unknown.unit = Unit::Likely {
        reason: "so it seems".to_owned(),
        could_say: true,
    };
    assert!(
        check(&unknown)
            .iter()
            .any(|finding| finding.rule == Rule::MissingUnit
                && finding.grade == Grade::Error
                && finding.message.contains("so it seems")),
        "unit"
    );
    let points: Vec<(f64, f64)> = (0..90)
        .map(|index| {
            let angle = f64::from(index) / 90.0 * std::f64::consts::TAU;
            let way = number::unit(angle);
            (50.0 + 20.0 * way.x, 50.0 + 20.0 * way.y)
        })
        .collect();
    let rows = found(vec![polygon(6, &points)]);
    assert!(
        rows.iter()
            .any(|row| row.0 == Rule::ShortChords && row.2 == 6),
        "{rows:?}"
    );
}

#[test]
fn holes_in_holes_are_material_again() {
    let runs = vec![
        plate(),
        circle(2, 100.0, 50.0, 40.0),
        circle(3, 100.0, 50.0, 20.0),
        circle(4, 100.0, 50.0, 5.0),
    ];
    let subject = subject(runs);
    assert_eq!(subject.nested.depth, [0, 1, 2, 3], "depths");
    let areas: Vec<f64> = subject.nested.regions.iter().map(Region::area).collect();
    let pi = std::f64::consts::PI;
    assert_eq!(areas.len(), 2, "two pieces");
    assert!(
        (areas[0] - (20_000.0 - 1600.0 * pi)).abs() < 1e-9,
        "{areas:?}"
    );
    assert!((areas[1] - 375.0 * pi).abs() < 1e-9, "{areas:?}");
}
