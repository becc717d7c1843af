//! Where and how an outline lies and where it begins makes no difference.

use kerfwise::geometry::offset::Join;
use kerfwise::geometry::offset::offset;

use super::cases;
use super::cases::Case;
use super::from_environment;
use super::oracle;
use super::region_of;
use super::support;
use super::support::Vertex;

/// The outlines as they lie elsewhere.
fn moved(case: &Case, place: impl Fn(f64, f64) -> (f64, f64)) -> Case {
    let move_vertex = |&(x, y, bulge): &Vertex| {
        let (x, y) = place(x, y);
        (x, y, bulge)
    };
    let contours = case.contours.iter();
    Case {
        contours: contours
            .map(|c| c.iter().map(move_vertex).collect())
            .collect(),
        ..case.clone()
    }
}

/// The outlines in a mirror, still anticlockwise.
fn mirrored(case: &Case) -> Case {
    let mirror = |contour: &Vec<Vertex>| -> Vec<Vertex> {
        let count = contour.len();
        (0..count)
            .map(|index| {
                let (x, y, _) = contour[count - 1 - index];
                // the edge that leaves the vertex now is the one that came to it
                let bulge = contour[(2 * count - 2 - index) % count].2;
                (-x, y, bulge)
            })
            .collect()
    };
    Case {
        contours: case.contours.iter().map(mirror).collect(),
        ..case.clone()
    }
}

/// The outlines begun at another vertex.
fn begun_at(case: &Case, start: usize) -> Case {
    let begin = |contour: &Vec<Vertex>| -> Vec<Vertex> {
        let mut turned = contour.clone();
        turned.rotate_left(start % contour.len());
        turned
    };
    Case {
        contours: case.contours.iter().map(begin).collect(),
        ..case.clone()
    }
}

/// Loops and area, or the refusal.
fn summary(case: &Case) -> Result<(usize, f64), String> {
    let region = region_of(case)?;
    let found = offset(&region, case.distance, Join::Round).map_err(|error| error.to_string())?;
    Ok((
        support::loops(&found.regions),
        support::area(&found.regions),
    ))
}

#[test]
fn turned_mirrored_moved_and_begun_elsewhere_it_is_the_same_answer() {
    let first = from_environment("OFFSET_FROM", 3_000_000);
    let count = from_environment("OFFSET_CASES", 1_500);
    let mut faults = Vec::new();
    for number in first..first + count {
        let case = cases::case(number);
        let Ok((loops, area)) = summary(&case) else {
            continue;
        };
        let mut others = vec![
            ("mirrored", mirrored(&case)),
            (
                "10 m away",
                moved(&case, |x, y| (x + 10_000.0, y - 7_071.0)),
            ),
        ];
        for degrees in [0.1, 30.0, 90.0, 137.5] {
            let (sine, cosine) = f64::to_radians(degrees).sin_cos();
            let turn = |x, y| (x * cosine - y * sine, x * sine + y * cosine);
            others.push(("turned", moved(&case, turn)));
        }
        let most = case.contours.iter().map(Vec::len).max().unwrap_or(0);
        others.extend((1..most).map(|start| ("begun elsewhere", begun_at(&case, start))));
        for (what, other) in others {
            // the distance of a tie is changed by up to 1e-5 mm, so the area may
            let slack = 1e-5 * contours_length(&case.contours) + 1e-6;
            match summary(&other) {
                Ok(found) if found.0 == loops && (found.1 - area).abs() <= slack => {}
                found => faults.push(format!(
                    "case {number} ({}) {what}: {found:?}, was {loops} loops of {area} mm²",
                    case.family
                )),
            }
        }
    }
    assert!(faults.is_empty(), "{}: {faults:#?}", faults.len());
}

fn contours_length(contours: &[Vec<Vertex>]) -> f64 {
    let edges = contours.iter().flat_map(|contour| oracle::edges(contour));
    let length = |edge| match edge {
        oracle::Edge::Line(a, b) => (b[0] - a[0]).hypot(b[1] - a[1]),
        oracle::Edge::Arc(_, radius, _, sweep) => radius * sweep.abs(),
    };
    edges.map(length).sum()
}
