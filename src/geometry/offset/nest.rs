//! Which loop lies in which, and on which side of them a point lies.

use std::borrow::Borrow;

use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::tolerance;

use super::curve::Curve;
use super::curve::Shape;
use super::grid::Going;
use super::grid::Grid;

/// Loops of curves, with an index.
#[derive(Debug)]
pub(super) struct Loops<'a, C> {
    pub(super) curves: &'a [C],
    /// The side of the curves that the material is on.
    pub(super) material: Side,
    /// Where each loop starts, and the end.
    pub(super) starts: &'a [usize],
    /// If there is none, each question is put to every curve.
    pub(super) grid: Option<&'a Grid>,
}

/// The loop that a curve belongs to, given where each starts.
pub(super) fn loop_of(starts: &[usize], curve: usize) -> usize {
    starts.partition_point(|&start| start <= curve) - 1
}

/// A side of a curve, as it runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
}

/// The first curve to the left of a point, and the way it passes there.
#[derive(Clone, Copy, Debug)]
struct Hit {
    x: f64,
    curve: usize,
    way: Way,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Up,
    Down,
}

impl Way {
    const fn turned(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Down => Self::Up,
        }
    }
}

/// The ray passes through an end or touches an arc: another ray must be asked.
#[derive(Clone, Copy, Debug)]
struct Grazing;

/// What a loop bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// Material lies inside it.
    Outer,
    /// It is an opening in the loop of this number.
    HoleOf(usize),
}

/// Places along a curve to start rays from, away from whatever a drawing likes to align.
const STARTS: [f64; 9] = [
    0.413_7, 0.618_3, 0.271_9, 0.833_1, 0.117_7, 0.541_3, 0.707_9, 0.345_1, 0.931_7,
];

impl<C: Borrow<Curve>> Loops<'_, C> {
    fn curve(&self, index: usize) -> &Curve {
        self.curves[index].borrow()
    }

    /// The role of each loop.
    ///
    /// # Errors
    /// A point of a loop that is run the wrong way for where it lies.
    pub(super) fn roles(&self) -> Result<Vec<Role>, Point> {
        let mut leftmost = Vec::with_capacity(self.starts.len());
        let mut neighbours = Vec::with_capacity(self.starts.len());
        for (own, ends) in self.starts.windows(2).enumerate() {
            let further = |one: usize, two: usize| {
                if is_further_left(&self.bounds(two), &self.bounds(one)) {
                    two
                } else {
                    one
                }
            };
            let Some(curve) = (ends[0]..ends[1]).reduce(further) else {
                return Err(Point::ZERO);
            };
            leftmost.push(curve);
            neighbours.push(self.outside(own, curve)?);
        }
        let role = |(own, &curve): (usize, &usize)| {
            resolve(&neighbours, own).ok_or(self.curve(curve).start)
        };
        leftmost.iter().enumerate().map(role).collect()
    }

    /// What lies outside the loop on its left: material and the loop met first there, or nothing.
    fn outside(&self, own: usize, start: usize) -> Result<Outside, Point> {
        let curve = self.curve(start);
        let length = curve.length();
        for fraction in STARTS {
            let from = curve.point_at(length * fraction);
            if let Ok(found) = self.walk_out(own, start, from) {
                return found.ok_or(from);
            }
        }
        Err(curve.start)
    }

    /// Walks left from a point of the loop until another loop is met. `None` for loops that are run
    /// the wrong way.
    fn walk_out(&self, own: usize, start: usize, from: Point) -> Result<Option<Outside>, Grazing> {
        let mut here = self.own_hit(start, from)?;
        loop {
            let next = self.first_left(Point::new(here.x, from.y), here.curve)?;
            let Some(next) = next else {
                // nothing further left: here must run down, with material on its right
                let right = here.way == Way::Down;
                return Ok(right.then_some(Outside::Nothing));
            };
            if next.way == here.way {
                return Ok(None);
            }
            let other = loop_of(self.starts, next.curve);
            if other != own {
                return Ok(Some(match next.way {
                    Way::Down => Outside::Material(other),
                    Way::Up => Outside::Nothing,
                }));
            }
            if next.x >= here.x {
                // two pieces of the loop lie on each other: each is the first left of the other, for ever
                return Err(Grazing);
            }
            here = next;
        }
    }

    fn own_hit(&self, curve: usize, from: Point) -> Result<Hit, Grazing> {
        let mut best: Option<Hit> = None;
        self.passes(curve, from.y, |x, way| {
            let nearer = |hit: Hit| (x - from.x).abs() < (hit.x - from.x).abs();
            if best.is_none_or(nearer) {
                best = Some(Hit { x, curve, way });
            }
        })?;
        best.ok_or(Grazing)
    }

    /// The first curve left of `from`; `own` is one that passes through it.
    fn first_left(&self, from: Point, own: usize) -> Result<Option<Hit>, Grazing> {
        let mut best: Option<Hit> = None;
        let mut grazing = false;
        // the curves of a cell and the x of its left side
        let mut look = |curves: &mut dyn Iterator<Item = usize>, side: f64| {
            for curve in curves {
                let bounds = self.bounds(curve);
                let slack = tolerance::OFFSET_TOUCH;
                if bounds.y0 > from.y + slack || bounds.y1 < from.y - slack || bounds.x0 > from.x {
                    continue;
                }
                if best.is_some_and(|hit| bounds.x1 < hit.x) {
                    continue;
                }
                let found = self.passes(curve, from.y, |x, way| {
                    let itself = curve == own && (x - from.x).abs() <= 10.0 * slack;
                    if x <= from.x && !itself && best.is_none_or(|hit| x > hit.x) {
                        best = Some(Hit { x, curve, way });
                    }
                });
                grazing |= found.is_err();
            }
            let done = best.is_some_and(|hit| hit.x >= side) || grazing;
            if done { Going::Stop } else { Going::On }
        };
        match self.grid {
            Some(grid) => grid.leftwards(from, |items, side| {
                look(&mut items.iter().map(|&item| item as usize), side)
            }),
            None => {
                look(&mut (0..self.curves.len()), f64::NEG_INFINITY);
            }
        }
        if grazing { Err(Grazing) } else { Ok(best) }
    }

    fn bounds(&self, curve: usize) -> Rect {
        self.grid
            .map_or_else(|| self.curve(curve).bounds(), |grid| grid.bounds(curve))
    }

    /// Calls `found` with x and way, as if material were on the left, wherever a curve passes `y`.
    fn passes(&self, curve: usize, y: f64, mut found: impl FnMut(f64, Way)) -> Result<(), Grazing> {
        passes(self.curve(curve), y, |x, way| {
            let turned = self.material == Side::Right;
            found(x, if turned { way.turned() } else { way });
        })
    }

    /// Whether material lies around a point that is not on a loop; `None` if no ray from it is clear.
    fn material_at(&self, point: Point) -> Result<bool, Grazing> {
        let hit = self.first_left(point, usize::MAX)?;
        Ok(hit.is_some_and(|hit| hit.way == Way::Down))
    }

    /// Whether material lies around the contour of these curves, which meets none of the loops.
    pub(super) fn material_around(&self, contour: &[Curve]) -> Option<bool> {
        let try_from = |curve: &Curve| {
            let length = curve.length();
            let ray = |fraction| self.material_at(curve.point_at(length * fraction)).ok();
            STARTS.into_iter().find_map(ray)
        };
        // little lies further left than the leftmost curve; one may run along a height that others
        // share: the next will not
        let leftmost = contour
            .iter()
            .map(|curve| (curve, curve.bounds()))
            .reduce(|one, two| {
                if is_further_left(&two.1, &one.1) {
                    two
                } else {
                    one
                }
            });
        leftmost
            .map(|(curve, _)| curve)
            .into_iter()
            .chain(contour.iter().take(12))
            .find_map(try_from)
    }
}

/// Whether a curve with the first bounds reaches further left than one with the second; of those that
/// begin at one corner, it is the one that rises more.
fn is_further_left(one: &Rect, two: &Rect) -> bool {
    one.x0 < two.x0 || one.x0 == two.x0 && one.height() > two.height()
}

/// What lies left of a loop's leftmost part.
#[derive(Clone, Copy, Debug)]
enum Outside {
    /// No material.
    Nothing,
    /// Material; the right side of this loop's edge.
    Material(usize),
}

/// The loop's role, by walking from loop to loop leftwards.
fn resolve(neighbours: &[Outside], own: usize) -> Option<Role> {
    let Outside::Material(mut parent) = neighbours[own] else {
        return Some(Role::Outer);
    };
    for _ in 0..=neighbours.len() {
        match neighbours[parent] {
            // another hole of the same region
            Outside::Material(further) => parent = further,
            Outside::Nothing => return Some(Role::HoleOf(parent)),
        }
    }
    None
}

/// Calls `found` with x and way wherever the curve passes the height `y`.
fn passes(curve: &Curve, y: f64, mut found: impl FnMut(f64, Way)) -> Result<(), Grazing> {
    let slack = tolerance::OFFSET_TOUCH;
    if (curve.start.y - y).abs() <= slack || (curve.end.y - y).abs() <= slack {
        return Err(Grazing);
    }
    match curve.shape() {
        Shape::Line { .. } => {
            let (a, b) = (curve.start, curve.end);
            if (a.y > y) != (b.y > y) {
                let x = a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y));
                found(x, if b.y > a.y { Way::Up } else { Way::Down });
            }
        }
        Shape::Arc(round) => {
            let height = y - round.centre.y;
            let square = (round.radius - height) * (round.radius + height);
            if square < -2.0 * round.radius * slack {
                return Ok(());
            }
            if square < 2.0 * round.radius * slack {
                return Err(Grazing);
            }
            let half = square.sqrt();
            for (x, right) in [(half, 1.0), (-half, -1.0)] {
                if round.covers(crate::geometry::Vec2::new(x, height)) {
                    let way = if right * round.sign > 0.0 {
                        Way::Up
                    } else {
                        Way::Down
                    };
                    found(round.centre.x + x, way);
                }
            }
        }
    }
    Ok(())
}
