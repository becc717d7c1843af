//! Labels near their features: each at the free place with the shortest leader that crosses the
//! fewest lines.

use super::labels::Label;
use super::labels::Placed;
use super::obstacles::Obstacles;
use super::obstacles::cross;
use super::obstacles::just_off;
use crate::documents::features::of_count;
use crate::documents::lettering;
use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Text;

/// Lengths of leaders that are tried, in millimetres of paper.
const LENGTHS: [f64; 9] = [5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0, 30.0, 38.0];
/// Directions that are tried.
const DIRECTIONS: u8 = 24;
/// Where on its feature a leader may end.
const FRACTIONS: [f64; 7] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];
/// The most ends of leaders that are tried for one label.
const MOST_FEET: usize = 21;
/// Length of the level end of a leader, and the space to the first letter.
const SHELF: f64 = 1.5;
const SPACE: f64 = 0.8;
/// Room to be kept clear around words.
const CLEAR: f64 = 0.8;
/// What a crossed line costs, in millimetres of leader.
const CROSSED: f64 = 6.0;
/// What a leader that runs along another line costs.
const HUGGING: f64 = 12.0;

/// The labels in their places, first come first served; `None` when one of them finds no place.
pub(super) fn place(
    labels: &[Label],
    obstacles: Obstacles,
    area: Rect,
    size: f64,
) -> Option<Vec<Placed>> {
    let mut ground = Ground::new(obstacles, area, size);
    labels.iter().map(|label| ground.place(label)).collect()
}

/// The labels in their places, `None` for those that find none.
pub(crate) fn place_most(
    labels: &[Label],
    obstacles: Obstacles,
    area: Rect,
    size: f64,
) -> Vec<Option<Placed>> {
    let mut ground = Ground::new(obstacles, area, size);
    labels.iter().map(|label| ground.place(label)).collect()
}

/// What is taken already.
struct Ground {
    obstacles: Obstacles,
    leaders: Vec<(Point, Point)>,
    area: Rect,
    size: f64,
}

impl Ground {
    const fn new(obstacles: Obstacles, area: Rect, size: f64) -> Self {
        Self {
            obstacles,
            leaders: Vec::new(),
            area,
            size,
        }
    }

    /// Finds a place for a label and takes it.
    fn place(&mut self, label: &Label) -> Option<Placed> {
        let around = surroundings(label, self.size);
        let near = self.obstacles.within(around);
        let found = best(label, &near, &self.leaders, (self.area, self.size))?;
        for pair in found.leader.windows(2) {
            if let [from, to] = pair {
                self.leaders.push((*from, *to));
                self.obstacles.lines.push((*from, *to));
            }
        }
        self.obstacles.rooms.push(lettering::room(&found.text));
        Some(found)
    }
}

fn best(
    label: &Label,
    obstacles: &Obstacles,
    leaders: &[(Point, Point)],
    (area, size): (Rect, f64),
) -> Option<Placed> {
    let mut best: Option<(f64, Placed)> = None;
    for (rank, foot) in feet(label).into_iter().enumerate() {
        // a second choice of where the leader ends must be worth it
        let offside = 0.5 * of_count(rank % FRACTIONS.len());
        for length in LENGTHS {
            let known = best.as_ref().map_or(f64::INFINITY, |best| best.0);
            if length + offside >= known {
                break;
            }
            for step in 0..DIRECTIONS {
                // starts at 45° and goes round
                let turn = f64::from(step) / f64::from(DIRECTIONS) + 0.125;
                let elbow = foot + number::unit(turn * number::FULL_TURN) * length;
                let candidate = candidate(&label.words, foot, elbow, size);
                let room = lettering::room(&candidate.text).inflate(CLEAR, CLEAR);
                if room.intersect(area) != room || !obstacles.is_free(room) {
                    continue;
                }
                let leader = (just_off(foot, elbow), elbow);
                if leaders.iter().any(|&other| cross(leader, other)) {
                    continue;
                }
                let Some(crossings) = obstacles.crossings(leader.0, leader.1) else {
                    continue;
                };
                let mut cost = length + offside + CROSSED * of_count(crossings);
                if obstacles.hugs(leader.0, leader.1) {
                    cost += HUGGING;
                }
                if best.as_ref().is_none_or(|best| cost < best.0) {
                    best = Some((cost, candidate));
                }
            }
        }
    }
    best.map(|best| best.1)
}

/// What the label can reach at all.
fn surroundings(label: &Label, size: f64) -> Rect {
    let longest = LENGTHS.iter().copied().fold(0.0, f64::max);
    let reach = longest + SHELF + SPACE + font::text_width(&label.words, size) + 2.0 * CLEAR;
    let bounds = label.reach.iter().map(Segment::bounds);
    let bounds = bounds.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
    bounds.inflate(reach, longest + 2.0 * size)
}

/// Where the leader of a label may end.
fn feet(label: &Label) -> Vec<Point> {
    let points = label.reach.iter().flat_map(|segment| {
        let is_point = segment.start() == segment.end() && segment.length() == 0.0;
        let fractions = if is_point {
            &FRACTIONS[..1]
        } else {
            &FRACTIONS[..]
        };
        fractions.iter().map(|&t| segment.point_at(t))
    });
    let points: Vec<Point> = points.collect();
    // of a large pattern a few members are enough
    let stride = points.len().div_ceil(MOST_FEET).max(1);
    points.into_iter().step_by(stride).collect()
}

fn candidate(words: &str, foot: Point, elbow: Point, size: f64) -> Placed {
    let (outward, anchor) = if elbow.x >= foot.x {
        (1.0, Anchor::Start)
    } else {
        (-1.0, Anchor::End)
    };
    let shelf = elbow + Vec2::new(outward * SHELF, 0.0);
    Placed {
        leader: vec![foot, elbow, shelf],
        text: Text {
            layer: Layer::Words,
            at: shelf + Vec2::new(outward * SPACE, -font::capital_height(size) / 2.0),
            size,
            anchor,
            angle: 0.0,
            content: words.to_owned(),
        },
    }
}
