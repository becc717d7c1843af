//! The tags of one entity.

use super::super::read::tags::Tag;
use super::super::read::tags::shortened;
use crate::formats::incoming::MOST_SEGMENTS;
use crate::geometry::Point;

/// Reals with these group codes and below are kept by code.
const CODES: usize = 60;
/// Whole numbers with these codes are kept by code, from 60.
const WHOLE: usize = 40;

/// A vertex of a polyline; the bulge is that of the segment that leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Vertex {
    pub(super) at: Point,
    pub(super) bulge: f64,
}

/// An entity under way: its values by group code. Of a value that comes twice the first is kept, except
/// where the kind has lists.
#[derive(Clone, Debug)]
pub(super) struct Record {
    pub(super) kind: String,
    pub(super) line: usize,
    pub(super) handle: u64,
    pub(super) layer: String,
    pub(super) name: String,
    /// Whether it stands on a paper layout.
    pub(super) on_paper: bool,
    /// Extrusion direction.
    pub(super) extrusion: [f64; 3],
    reals: [f64; CODES],
    have: u64,
    whole: [i64; WHOLE],
    pub(super) vertices: Vec<Vertex>,
    pub(super) points: Vec<Point>,
    pub(super) fit_points: Vec<Point>,
    pub(super) knots: Vec<f64>,
    pub(super) weights: Vec<f64>,
    /// The first value that could not be read.
    pub(super) problem: Option<String>,
}

impl Default for Record {
    fn default() -> Self {
        Self {
            kind: String::new(),
            line: 0,
            handle: 0,
            layer: String::new(),
            name: String::new(),
            on_paper: false,
            extrusion: [0.0, 0.0, 1.0],
            reals: [0.0; CODES],
            have: 0,
            whole: [0; WHOLE],
            vertices: Vec::new(),
            points: Vec::new(),
            fit_points: Vec::new(),
            knots: Vec::new(),
            weights: Vec::new(),
            problem: None,
        }
    }
}

impl Record {
    /// Starts anew.
    pub(super) fn begin(&mut self, kind: &str, line: usize) {
        self.kind.clear();
        self.kind.extend(kind.chars().take(40));
        self.line = line;
        self.handle = 0;
        self.layer.clear();
        self.layer.push('0');
        self.name.clear();
        self.on_paper = false;
        self.extrusion = [0.0, 0.0, 1.0];
        self.have = 0;
        self.whole = [0; WHOLE];
        self.vertices.clear();
        self.points.clear();
        self.fit_points.clear();
        self.knots.clear();
        self.weights.clear();
        self.problem = None;
    }

    pub(super) fn tag(&mut self, tag: &Tag<'_>) {
        match tag.code {
            2 => {
                self.name.clear();
                self.name.push_str(tag.value.trim());
            }
            5 => self.handle = u64::from_str_radix(tag.value.trim(), 16).unwrap_or(0),
            8 => {
                self.layer.clear();
                self.layer.push_str(tag.value.trim());
            }
            10..=59 => self.real(tag),
            60..=99 => {
                let place = usize::try_from(tag.code - 60).unwrap_or(0);
                // an entity may hold anything under codes that mean nothing to it
                if let (Some(slot), Ok(value)) = (self.whole.get_mut(place), tag.whole()) {
                    *slot = value;
                }
                self.on_paper = self.whole(67) == 1;
            }
            210 | 220 | 230 => {
                let place = usize::try_from((tag.code - 210) / 10).unwrap_or(0);
                match (self.extrusion.get_mut(place), tag.real()) {
                    (Some(slot), Ok(value)) => *slot = value,
                    (_, Err(error)) => self.fault(error.to_string()),
                    (None, Ok(_)) => {}
                }
            }
            _ => {}
        }
    }

    fn fault(&mut self, problem: String) {
        self.problem.get_or_insert(problem);
    }

    fn real(&mut self, tag: &Tag<'_>) {
        let Ok(value) = tag.real() else {
            let shown = shortened(&tag.value);
            let line = tag.line + 1;
            self.fault(format!("\"{shown}\" in line {line} is no number"));
            return;
        };
        if self.vertices.len() + self.points.len() + self.knots.len() > 2 * MOST_SEGMENTS {
            self.fault("has too many points".to_owned());
            return;
        }
        match (self.kind.as_str(), tag.code) {
            ("LWPOLYLINE", 10) => self.vertices.push(Vertex {
                at: Point::new(value, f64::NAN),
                bulge: 0.0,
            }),
            ("LWPOLYLINE", 20) => {
                if let Some(vertex) = self.vertices.last_mut() {
                    vertex.at.y = value;
                }
            }
            ("LWPOLYLINE", 42) => {
                if let Some(vertex) = self.vertices.last_mut() {
                    vertex.bulge = value;
                }
            }
            ("SPLINE", 10) => self.points.push(Point::new(value, f64::NAN)),
            ("SPLINE", 20) => set_y(&mut self.points, value),
            ("SPLINE", 11) => self.fit_points.push(Point::new(value, f64::NAN)),
            ("SPLINE", 21) => set_y(&mut self.fit_points, value),
            ("SPLINE", 40) => self.knots.push(value),
            ("SPLINE", 41) => self.weights.push(value),
            (_, code) => {
                let place = usize::try_from(code).unwrap_or(0);
                if self.have & (1 << place) == 0
                    && let Some(slot) = self.reals.get_mut(place)
                {
                    *slot = value;
                    self.have |= 1 << place;
                }
            }
        }
    }

    pub(super) fn get(&self, code: usize) -> Option<f64> {
        (self.have & (1 << code) != 0)
            .then(|| self.reals.get(code).copied())
            .flatten()
    }

    pub(super) fn get_or(&self, code: usize, otherwise: f64) -> f64 {
        self.get(code).unwrap_or(otherwise)
    }

    pub(super) fn whole(&self, code: usize) -> i64 {
        self.whole.get(code - 60).copied().unwrap_or(0)
    }

    pub(super) fn number(&self, code: usize) -> Result<f64, String> {
        self.get(code)
            .ok_or_else(|| format!("has no group {code}, which it needs"))
    }

    pub(super) fn point(&self, x: usize, y: usize) -> Result<Point, String> {
        Ok(Point::new(self.number(x)?, self.number(y)?))
    }

    /// Adds a VERTEX to a POLYLINE.
    pub(super) fn take_vertex(&mut self, vertex: &Self) {
        // the frame of a spline, and faces of a mesh, are no places of the line
        let flags = vertex.whole(70);
        if flags & 16 != 0 {
            return;
        }
        match vertex.point(10, 20) {
            Ok(at) => self.vertices.push(Vertex {
                at,
                bulge: vertex.get_or(42, 0.0),
            }),
            Err(problem) => self.fault(format!("its VERTEX in line {} {problem}", vertex.line)),
        }
        if let Some(problem) = &vertex.problem {
            self.fault(problem.clone());
        }
    }
}

fn set_y(points: &mut [Point], y: f64) {
    if let Some(point) = points.last_mut() {
        point.y = y;
    }
}
