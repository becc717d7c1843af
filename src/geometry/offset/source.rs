//! Canonical input: the boundary as curves whose parts agree, run so that it grows to its right, and
//! known not to cross itself.

use std::num::NonZeroU32;
use std::ops::Range;

use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::SourceId;
use crate::geometry::tolerance;

use super::canonical::canonical;
use super::clearance::boxes_apart_squared;
use super::clearance::least_distance;
use super::crossing::Crossing;
use super::crossing::crossings;
use super::crossing::neighbours_meet;
use super::curve::Curve;
use super::error::OffsetError;
use super::front::to_number;
use super::grid::Going;
use super::grid::Grid;
use super::grid::Met;
use super::nest::Side;

/// What grows: the material, or all that is not material (and so the material shrinks).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Growing {
    Material,
    Surroundings,
}

impl Growing {
    /// The side of the boundary of what grows that the material is on.
    pub(super) const fn material(self) -> Side {
        match self {
            Self::Material => Side::Left,
            Self::Surroundings => Side::Right,
        }
    }
}

/// The boundary of what grows, which lies on its left.
#[derive(Debug)]
pub(super) struct Source {
    pub(super) curves: Vec<Curve>,
    pub(super) links: Vec<Link>,
    pub(super) contours: Vec<Range<usize>>,
    /// Of each piece, whether nothing but those next to it comes near; see [`Source::check_simple`].
    lonely: Vec<bool>,
    /// How many spikes were mended.
    spikes: u32,
}

/// What belongs to one piece of the boundary besides its shape.
#[derive(Clone, Copy, Debug)]
pub(super) struct Link {
    pub(super) id: SourceId,
    /// Whose corner the one at its end is: that of the earlier piece as the contour was given.
    pub(super) corner: SourceId,
    pub(super) previous: u32,
    pub(super) next: u32,
    pub(super) corner_kind: CornerKind,
    /// The mended spikes it borders on, at its start and end, numbered from 1.
    spikes: [Option<NonZeroU32>; 2],
}

/// What tells the way the corner at the end of a piece turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum CornerKind {
    /// The directions of the pieces.
    AsTurned,
    /// It is the tip of a spike without width: half a turn to the left.
    Tip,
}

/// A piece while the cusps of its contour are mended.
#[derive(Clone, Copy, Debug)]
struct Member {
    curve: Curve,
    link: Link,
}

/// Where two pieces that meet in a cusp cross again, with a sliver between: the point and how far
/// along each it lies.
fn crossed_cusp(one: &Curve, two: &Curve, found: &mut Vec<Crossing>) -> Option<(Point, [f64; 2])> {
    let (t1, t2) = (one.end_direction(), two.start_direction());
    let both_lines = one.curvature() == 0.0 && two.curvature() == 0.0;
    if both_lines || t1.dot(t2) > 0.0 || t1.cross(t2).abs() > 1e-2 {
        return None;
    }
    found.clear();
    crossings(one, two, found);
    let length = one.length();
    found.iter().find_map(|crossing| {
        let cut = [length - crossing.along[0], crossing.along[1]];
        let away = cut[0].max(cut[1]);
        if away <= tolerance::OFFSET_TIE || away > 0.1 * length.min(two.length()) {
            return None;
        }
        let between = one.point_at(length - cut[0] / 2.0);
        let thin = two.distance(between) <= tolerance::OFFSET_WIDEST_NODE;
        thin.then_some((crossing.at, crossing.along))
    })
}

impl Source {
    /// The boundary of the regions, as it will grow.
    pub(super) fn new(regions: &[Region], growing: Growing) -> Result<Self, OffsetError> {
        let contours = || regions.iter().flat_map(Region::contours);
        let count = contours().map(|contour| contour.pieces().len()).sum();
        let mut source = Self {
            curves: Vec::with_capacity(count),
            links: Vec::with_capacity(count),
            contours: Vec::new(),
            lonely: Vec::new(),
            spikes: 0,
        };
        for contour in contours() {
            source.add(contour, growing)?;
        }
        Ok(source)
    }

    fn add(&mut self, contour: &Contour, growing: Growing) -> Result<(), OffsetError> {
        let pieces = contour.pieces();
        let count = pieces.len();
        let first = self.curves.len();
        for place in 0..count {
            let (segment, id, corner) = match growing {
                Growing::Material => {
                    let piece = &pieces[place];
                    (piece.segment, piece.source, piece.source)
                }
                // run backwards, the earlier piece comes later
                Growing::Surroundings => {
                    let piece = &pieces[count - 1 - place];
                    let corner = pieces[(2 * count - 2 - place) % count].source;
                    (piece.segment.reversed(), piece.source, corner)
                }
            };
            canonical(&segment, &mut self.curves)?;
            let member = Link {
                id,
                corner,
                previous: 0,
                next: 0,
                corner_kind: CornerKind::AsTurned,
                spikes: [None, None],
            };
            self.links.resize(self.curves.len(), member);
        }
        self.mend_cusps(first);
        let end = self.curves.len();
        for (index, link) in (first..).zip(&mut self.links[first..]) {
            link.previous = to_number(if index == first { end } else { index } - 1);
            link.next = to_number(if index + 1 == end { first } else { index + 1 });
        }
        self.contours.push(first..end);
        Ok(())
    }

    /// Mends the cusps of the last contour, which starts with the piece `first`. There is hardly ever
    /// one.
    fn mend_cusps(&mut self, first: usize) {
        let curves = &self.curves[first..];
        let count = curves.len();
        let mut found = Vec::new();
        let crossed = |place: usize| {
            let (one, two) = (&curves[place], &curves[(place + 1) % count]);
            crossed_cusp(one, two, &mut found).is_some()
        };
        if count == 1 || !(0..count).any(crossed) {
            return;
        }
        let members = self.curves.drain(first..).zip(self.links.drain(first..));
        let mut chain: Vec<Member> = members
            .map(|(curve, link)| Member { curve, link })
            .collect();
        self.mend_chain(&mut chain);
        for member in chain {
            self.curves.push(member.curve);
            self.links.push(member.link);
        }
    }

    /// Two pieces that meet in a cusp may cross once more close to it, where the numbers of one are
    /// rounded. If nothing thicker than [`tolerance::OFFSET_WIDEST_NODE`] lies between them from
    /// there on, a spike without width is put in its place, or nothing if it is a notch.
    fn mend_chain(&mut self, chain: &mut Vec<Member>) {
        let mut found = Vec::new();
        let mut index = 0;
        while index < chain.len() {
            let next = (index + 1) % chain.len();
            let (mut one, mut two) = (chain[index], chain[next]);
            let Some((at, along)) = crossed_cusp(&one.curve, &two.curve, &mut found) else {
                index += 1;
                continue;
            };
            let corner = one.curve.end;
            let turn = one.curve.end_direction().cross(two.curve.start_direction());
            one.curve = one.curve.between(one.curve.start, at, along[0]);
            let rest = two.curve.length() - along[1];
            two.curve = two.curve.between(at, two.curve.end, rest);
            // what is crossed shows the wrong side of itself
            if turn < 0.0 {
                self.spikes += 1;
                let spike = NonZeroU32::new(self.spikes);
                one.link.spikes[1] = spike;
                two.link.spikes[0] = spike;
                let (out, back) = (corner - at, at - corner);
                let side = |curve, corner_kind| {
                    let spikes = [spike, spike];
                    Member {
                        curve,
                        link: Link {
                            corner_kind,
                            spikes,
                            ..one.link
                        },
                    }
                };
                let there = side(Curve::line(at, corner, out), CornerKind::Tip);
                let again = side(Curve::line(corner, at, back), CornerKind::AsTurned);
                chain[index] = one;
                chain[next] = two;
                chain.insert(index + 1, there);
                chain.insert(index + 2, again);
                index += 2;
            } else {
                chain[index] = one;
                chain[next] = two;
            }
            index += 1;
        }
    }

    /// Whether nothing but the pieces next to this one comes as near to it as was asked of
    /// [`Source::check_simple`].
    pub(super) fn is_lonely(&self, piece: u32) -> bool {
        self.lonely[piece as usize]
    }

    /// Refuses a boundary that crosses or touches itself, and finds the pieces that others than those
    /// next to them do not come as near to as `near`. That is not worth its time where it is longer than
    /// the pieces are: there, none is said to be so.
    pub(super) fn check_simple(&mut self, grid: &Grid, near: f64) -> Result<(), OffsetError> {
        let touch = tolerance::OFFSET_TOUCH;
        let is_asked = near <= grid.cell;
        let around = if is_asked { near.max(touch) } else { touch };
        let mut lonely = vec![is_asked; self.curves.len()];
        let mut met = Met::new(self.curves.len());
        let mut at = None;
        for (index, curve) in self.curves.iter().enumerate() {
            met.begin();
            curve.boxes(grid.bounds(index), grid.cell, |part| {
                grid.near_from(index + 1, part.inflate(around, around), |other| {
                    if !met.is_new(other) {
                        return Going::On;
                    }
                    if self.meets(index, other, grid) {
                        at = Some(curve.nearest_end(&self.curves[other]));
                        return Going::Stop;
                    }
                    let Link { previous, next, .. } = self.links[index];
                    if ![previous, next].contains(&to_number(other)) {
                        let apart = boxes_apart_squared(grid.bounds(index), grid.bounds(other));
                        if apart <= around * around {
                            lonely[index] = false;
                            lonely[other] = false;
                        }
                    }
                    Going::On
                });
            });
            if let Some(at) = at {
                return Err(OffsetError::CrossesItself { at });
            }
        }
        self.lonely = lonely;
        Ok(())
    }

    fn meets(&self, index: usize, other: usize, grid: &Grid) -> bool {
        let (one, two) = (&self.curves[index], &self.curves[other]);
        let touch = tolerance::OFFSET_TOUCH;
        let around = grid.bounds(index).inflate(touch, touch);
        if !around.overlaps(grid.bounds(other)) {
            return false;
        }
        let link = &self.links[index];
        let theirs = self.links[other].spikes;
        if link
            .spikes
            .iter()
            .flatten()
            .any(|&spike| theirs.contains(&Some(spike)))
        {
            return false;
        }
        let (ahead, behind) = (link.next as usize == other, link.previous as usize == other);
        if !ahead && !behind {
            return least_distance(one, two) <= touch;
        }
        let joints = [ahead.then_some(one.end), behind.then_some(one.start)];
        neighbours_meet(one, two, joints, tolerance::OFFSET_TIE)
    }

    /// Length of the whole boundary.
    pub(super) fn length(&self) -> f64 {
        self.curves.iter().map(Curve::length).sum()
    }

    /// Signed area on the left of the boundary.
    pub(super) fn area(&self) -> f64 {
        let mut twice = 0.0;
        for contour in &self.contours {
            let origin = self.curves[contour.start].start;
            for curve in &self.curves[contour.clone()] {
                twice += curve.twice_area(origin);
            }
        }
        twice / 2.0
    }
}
