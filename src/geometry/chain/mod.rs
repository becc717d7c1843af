//! Runs of lines and arcs, drawn in any order and either way, put end to end.
//!
//! A file from elsewhere holds an outline as single edges. [`chains`] finds which follow each other, and
//! [`join`] makes their ends meet exactly, saying how far it moved them.

mod ends;
mod join;

pub use join::Joined;
pub use join::join;

use super::Point;
use super::number;
use super::tolerance;
use ends::Ends;

/// A member of a chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Member {
    /// Its number in the list given.
    pub index: usize,
    /// Whether the chain runs it from its end to its start.
    pub reversed: bool,
}

/// Runs that follow each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// The runs in order of travel.
    pub members: Vec<Member>,
    /// Whether the last ends where the first starts.
    pub closed: bool,
    /// The joints that are open by more than [`tolerance::FILE_JOINT`].
    pub gaps: Vec<Gap>,
}

/// A joint whose ends do not quite meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The member that ends there, by its place in the chain.
    pub after: usize,
    /// Where that member ends.
    pub from: Point,
    /// Where the next starts.
    pub to: Point,
}

impl Gap {
    /// Its width in millimetres.
    pub fn width(&self) -> f64 {
        number::length(self.to - self.from)
    }
}

/// The chains that open runs make, each given by its start and end. Ends that come within
/// [`tolerance::FILE_JOINT`] of each other are joined first, then those left over that come within
/// `reach` millimetres (which may be less: then none).
///
/// Where more than two ends meet, a chain that can close there is closed, and runs that follow each other
/// in the list are preferred. Every run is in exactly one chain; chains stand in the order of their first
/// members.
///
/// # Accuracy
/// Ends are compared exactly; of more than 16 ends in one place only the nearest in the list are looked at.
///
/// # Example
/// ```
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::chain::chains;
///
/// let [a, b, c] = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0)].map(Point::from);
/// let triangle = chains(&[(a, b), (a, c), (b, c)], 0.0);
/// assert_eq!(triangle.len(), 1);
/// assert!(triangle[0].closed);
/// ```
pub fn chains(runs: &[(Point, Point)], reach: f64) -> Vec<Chain> {
    let mut ends = Ends::new(runs);
    ends.link_within(tolerance::FILE_JOINT);
    if reach > tolerance::FILE_JOINT {
        ends.link_within(reach);
    }
    let mut seen = vec![false; runs.len()];
    let mut found = Vec::new();
    for index in 0..runs.len() {
        if seen.get(index).copied().unwrap_or(true) {
            continue;
        }
        let members = ends.chain_through(index);
        for member in &members {
            if let Some(mark) = seen.get_mut(member.index) {
                *mark = true;
            }
        }
        found.push(chain(&ends, runs, members));
    }
    found
}

fn chain(ends: &Ends<'_>, runs: &[(Point, Point)], members: Vec<Member>) -> Chain {
    let closed = ends.is_ring(&members);
    let place = |member: Member| {
        let (start, end) = runs.get(member.index).copied().unwrap_or_default();
        if member.reversed {
            (end, start)
        } else {
            (start, end)
        }
    };
    let following = members.iter().cycle().skip(1);
    let joints = members.len() - usize::from(!closed);
    let mut gaps = Vec::new();
    for (after, (&here, &next)) in members.iter().zip(following).take(joints).enumerate() {
        let gap = Gap {
            after,
            from: place(here).1,
            to: place(next).0,
        };
        if gap.width() > tolerance::FILE_JOINT {
            gaps.push(gap);
        }
    }
    Chain {
        members,
        closed,
        gaps,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&at| at.into()).collect()
    }

    #[test]
    fn shuffled_and_turned_edges_make_one_ring() {
        let corners = points(&[(0.0, 0.0), (9.0, 0.0), (9.0, 5.0), (4.0, 7.0), (0.0, 5.0)]);
        let mut runs: Vec<(Point, Point)> = (0..5)
            .map(|at| (corners[at], corners[(at + 1) % 5]))
            .collect();
        runs.swap(1, 4);
        runs[2] = (runs[2].1, runs[2].0);
        let found = chains(&runs, 0.0);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].closed && found[0].gaps.is_empty(), "{found:?}");
        assert_eq!(found[0].members.len(), 5, "{found:?}");
    }

    #[test]
    fn gaps_are_bridged_within_reach_only() {
        let runs = [
            (Point::new(0.0, 0.0), Point::new(10.0, 0.0)),
            (Point::new(10.03, 0.0), Point::new(20.0, 0.0)),
            (Point::new(20.2, 0.0), Point::new(30.0, 0.0)),
        ];
        let found = chains(&runs, 0.05);
        assert_eq!(found.len(), 2, "{found:?}");
        assert_eq!(found[0].gaps.len(), 1, "{found:?}");
        assert!((found[0].gaps[0].width() - 0.03).abs() < 1e-12, "{found:?}");
        assert_eq!(chains(&runs, 0.0).len(), 3, "none without leave");
        assert_eq!(chains(&runs, 0.5).len(), 1, "all with more leave");
    }

    #[test]
    fn two_squares_that_share_a_corner_stay_two() {
        let square = |x: f64, y: f64| {
            let corners = points(&[(x, y), (x + 5.0, y), (x + 5.0, y + 5.0), (x, y + 5.0)]);
            (0..4).map(move |at| (corners[at], corners[(at + 1) % 4]))
        };
        let runs: Vec<_> = square(0.0, 0.0).chain(square(5.0, 5.0)).collect();
        let found = chains(&runs, 0.0);
        assert_eq!(found.len(), 2, "{found:?}");
        assert!(found.iter().all(|chain| chain.closed), "{found:?}");
    }

    #[test]
    fn thousands_of_ends_in_one_place_take_no_square_time() {
        let at = Point::new(1.0, 1.0);
        let spokes: Vec<_> = (0..40_000)
            .map(|index| (at, Point::new(f64::from(index), 100.0)))
            .collect();
        let found = chains(&spokes, 0.5);
        let members: usize = found.iter().map(|chain| chain.members.len()).sum();
        assert_eq!(members, 40_000, "every run is in one chain");
    }

    #[test]
    fn a_run_may_close_on_itself() {
        let at = Point::new(3.0, 4.0);
        let found = chains(&[(at, at)], 0.0);
        assert!(found[0].closed, "{found:?}");
    }
}
