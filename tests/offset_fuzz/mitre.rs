//! Mitred offsets against `clipper2-rust`, where the two mean the same: outlines of lines whose corners
//! all stay within the limit (beyond it we round and it squares off).

use clipper2_rust::EndType;
use clipper2_rust::JoinType;
use clipper2_rust::PathsD;
use clipper2_rust::PointD;

use kerfwise::geometry::offset::Join;
use kerfwise::geometry::offset::offset;

use super::cases;
use super::cases::Case;
use super::from_environment;
use super::region_of;
use super::simple;
use super::support;

/// The mitre limit of both.
const LIMIT: f64 = 4.0;

/// The case with straight edges, if it is still simple and no corner is too sharp.
fn straight(number: u64) -> Option<Case> {
    let mut case = cases::case(number);
    for vertex in case.contours.iter_mut().flatten() {
        vertex.2 = 0.0;
    }
    let usable = case.contours.iter().all(|contour| {
        contour.len() > 2 && is_blunt(contour) && is_coarse(contour, 0.01 * case.distance.abs())
    });
    (usable && simple::are_simple(&case.contours)).then_some(case)
}

/// Whether no corner turns so far that a tip would lie beyond the limit, or nearly.
fn is_blunt(contour: &[support::Vertex]) -> bool {
    let count = contour.len();
    (0..count).all(|index| {
        let [a, b, c] = [0, 1, 2].map(|step| contour[(index + step) % count]);
        let (u, v) = ((b.0 - a.0, b.1 - a.1), (c.0 - b.0, c.1 - b.1));
        let turn = (u.0 * v.1 - u.1 * v.0).atan2(u.0 * v.0 + u.1 * v.1);
        1.0 / (turn / 2.0).cos() < 0.95 * LIMIT
    })
}

/// Whether no edge is shorter: a tip at an edge of some nanometres hangs on the other engine's rounding.
fn is_coarse(contour: &[support::Vertex], least: f64) -> bool {
    let next = contour.iter().cycle().skip(1);
    contour
        .iter()
        .zip(next)
        .all(|(a, b)| (b.0 - a.0).hypot(b.1 - a.1) >= least)
}

/// Loops and area of the other engine.
fn by_clipper(case: &Case, distance: f64) -> (usize, f64) {
    let paths: PathsD = case
        .contours
        .iter()
        .enumerate()
        .map(|(place, contour)| {
            let mut path: Vec<PointD> = contour.iter().map(|v| PointD::new(v.0, v.1)).collect();
            if (signed_area(&path) < 0.0) != (place > 0) {
                path.reverse();
            }
            path
        })
        .collect();
    let (join, end) = (JoinType::Miter, EndType::Polygon);
    let found = clipper2_rust::inflate_paths_d(&paths, distance, join, end, LIMIT, 8, 0.0);
    (
        found.len(),
        found.iter().map(|path| signed_area(path)).sum(),
    )
}

fn signed_area(path: &[PointD]) -> f64 {
    let next = path.iter().cycle().skip(1);
    let twice = path.iter().zip(next).map(|(a, b)| a.x * b.y - a.y * b.x);
    twice.sum::<f64>() / 2.0
}

#[test]
fn mitred_it_agrees_with_another_engine() {
    let first = from_environment("OFFSET_FROM", 5_000_000);
    let count = from_environment("OFFSET_CASES", 1_500);
    let (mut judged, mut refused) = (0, 0);
    let mut faults = Vec::new();
    for (number, case) in (first..first + count).filter_map(|n| Some((n, straight(n)?))) {
        let Ok(region) = region_of(&case) else {
            continue;
        };
        let found = match offset(&region, case.distance, Join::Mitre { limit: LIMIT }) {
            Ok(found) => found,
            Err(error) => {
                println!("case {number} ({}) refused: {error}", case.family);
                refused += 1;
                continue;
            }
        };
        judged += 1;
        let (loops, area) = (
            support::loops(&found.regions),
            support::area(&found.regions),
        );
        // as for round corners, the answer may lie anywhere between those for 1e-4 mm more or less
        let others = [-1e-4, -1e-6, 0.0, 1e-6, 1e-4]
            .map(|shift| by_clipper(&case, case.distance + shift * case.distance.signum()));
        let areas = others.map(|other| other.1);
        let slack = 1e-6 * region.perimeter() + 1e-6;
        let least = areas.into_iter().fold(f64::INFINITY, f64::min) - slack;
        let most = areas.into_iter().fold(0.0, f64::max) + slack;
        if !(least..=most).contains(&area) || !others.iter().any(|other| other.0 == loops) {
            faults.push(format!(
                "case {number} ({}) by {}: {loops} loops of {area} mm², {others:?}",
                case.family, case.distance
            ));
        }
    }
    // tips of square holes that all but touch are not all certified yet
    assert!(refused <= judged / 200, "{refused} of {judged} refused");
    assert!(judged > 500, "only {judged} cases are of lines");
    assert!(
        faults.is_empty(),
        "{} of {judged}: {faults:#?}",
        faults.len()
    );
}
