//! Shapes into lines and arcs in millimetres; references to blocks followed.

use std::collections::BTreeSet;

use kurbo::Affine;

use super::File;
use super::LeftOut;
use super::record::Vertex;
use super::shape::Raw;
use super::shape::RawEllipse;
use super::shape::RawInsert;
use super::shape::RawShape;
use super::shape::RawSpline;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use crate::formats::incoming::Collector;
use crate::formats::incoming::DEEPEST;
use crate::formats::incoming::Drawn;
use crate::formats::incoming::DrawnKind;
use crate::formats::incoming::DrawnShape;
use crate::formats::incoming::Follower;
use crate::formats::incoming::MOST_DRAWN;
use crate::formats::incoming::place::Placing;
use crate::formats::incoming::place::Round;
use crate::formats::incoming::too_much;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::fair_curve::BattenEnd;
use crate::geometry::fair_curve::FairCurve;
use crate::geometry::fair_curve::RationalSpline;
use crate::geometry::number;

/// Draws the file, its unit being so many millimetres.
pub(super) fn draw(file: &File, unit: f64, within: f64) -> Result<Collector, FormatError> {
    let mut drawing = Drawing {
        file,
        collector: Collector::new(FileFormat::Dxf),
        follower: Follower::new(FileFormat::Dxf, within),
        copies: 0,
        counted: BTreeSet::new(),
    };
    drawing.count_left_out(&file.left_out);
    let placing = Placing::scaled(unit);
    for raw in &file.entities {
        drawing.count(raw);
        drawing.raw(raw, &placing, None, 0)?;
    }
    Ok(drawing.collector)
}

struct Drawing<'a> {
    file: &'a File,
    collector: Collector,
    follower: Follower,
    /// Copies of blocks drawn so far.
    copies: usize,
    /// Blocks whose things without an outline have been counted.
    counted: BTreeSet<&'a str>,
}

/// A reference under way: its line, and the layer that entities on layer 0 of its block take.
#[derive(Clone, Copy)]
struct Through {
    line: usize,
    layer: usize,
}

/// An entity under way, and the reference that draws it.
#[derive(Clone, Copy)]
struct Item<'r> {
    raw: &'r Raw,
    through: Option<Through>,
}

impl<'a> Drawing<'a> {
    fn count_left_out(&mut self, left_out: &LeftOut) {
        for (name, &(count, line)) in left_out {
            let reason = super::shape::why_left_out(name);
            for _ in 0..count {
                self.collector.count(name, reason, line);
            }
        }
    }

    fn count(&mut self, raw: &Raw) {
        let name = match &raw.shape {
            RawShape::Insert(_) => "INSERT",
            RawShape::Polyline { .. } => "POLYLINE",
            _ => match raw.kind {
                DrawnKind::Line => "LINE",
                DrawnKind::Arc => "ARC",
                DrawnKind::Circle => "CIRCLE",
                DrawnKind::Polyline => "POLYLINE",
                DrawnKind::Ellipse => "ELLIPSE",
                DrawnKind::Spline => "SPLINE",
                DrawnKind::Point => "POINT",
            },
        };
        self.collector.count(name, "", raw.place.line);
    }

    fn raw(
        &mut self,
        raw: &Raw,
        placing: &Placing,
        through: Option<Through>,
        depth: usize,
    ) -> Result<(), FormatError> {
        let flip = Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
        let own = |flipped: bool| {
            if flipped {
                placing.after(flip)
            } else {
                *placing
            }
        };
        let item = Item { raw, through };
        match &raw.shape {
            RawShape::Line { from, to } => {
                let line = Segment::line(placing.point(*from), placing.point(*to));
                self.run(item, vec![line], false, 0.0)
            }
            RawShape::Point(at) => {
                let shape = DrawnShape::Spot(placing.point(*at));
                self.add(item, shape, 0.0)
            }
            RawShape::Circle {
                centre,
                radius,
                flipped,
            } => {
                let round = own(*flipped).arc(*centre, *radius, 0.0, number::FULL_TURN);
                self.round(item, round, true)
            }
            RawShape::Arc {
                centre,
                radius,
                start,
                end,
                flipped,
            } => {
                let start = radians(*start);
                let sweep = number::positive_angle(radians(*end) - start);
                let sweep = if sweep == 0.0 {
                    number::FULL_TURN
                } else {
                    sweep
                };
                let round = own(*flipped).arc(*centre, *radius, start, sweep);
                self.round(item, round, false)
            }
            RawShape::Polyline {
                vertices,
                closed,
                flipped,
            } => self.polyline(item, vertices, *closed, &own(*flipped)),
            RawShape::Ellipse(ellipse) => self.ellipse(item, ellipse, placing),
            RawShape::Spline(spline) => self.spline(item, spline, placing),
            RawShape::Insert(insert) => self.insert(item, insert, placing, depth),
            RawShape::LeftOut => Ok(()),
        }
    }

    fn add(
        &mut self,
        item: Item<'_>,
        shape: DrawnShape,
        deviation: f64,
    ) -> Result<(), FormatError> {
        let Item { raw, through } = item;
        let own = self.file.layers.get(raw.layer).map_or("0", String::as_str);
        // what stands on layer 0 of a block takes the layer of the reference
        let name = match through {
            Some(through) if own == "0" => self
                .file
                .layers
                .get(through.layer)
                .map_or("0", String::as_str),
            _ => own,
        };
        let layer = self.collector.layer(name)?;
        let mut place = raw.place;
        place.through = through.map_or(0, |through| through.line);
        self.collector.add(Drawn {
            place,
            layer,
            kind: raw.kind,
            shape,
            deviation,
        })
    }

    fn run(
        &mut self,
        item: Item<'_>,
        segments: Vec<Segment>,
        closed: bool,
        deviation: f64,
    ) -> Result<(), FormatError> {
        self.add(item, DrawnShape::Run { segments, closed }, deviation)
    }

    fn fault(&mut self, item: Item<'_>, problem: &str) {
        let Item { raw, through } = item;
        let mut place = raw.place;
        place.through = through.map_or(0, |through| through.line);
        self.collector
            .fault(place, raw.kind.word(), problem.to_owned());
    }

    fn round(
        &mut self,
        item: Item<'_>,
        round: Option<Round>,
        closed: bool,
    ) -> Result<(), FormatError> {
        let mut segments = Vec::new();
        let Some(round) = round else {
            self.fault(item, "has no size");
            return Ok(());
        };
        let deviation = self.push(round, &mut segments)?;
        self.run(item, segments, closed, deviation)
    }

    /// Adds what a round thing became; how far its arcs lie from it.
    fn push(&mut self, round: Round, segments: &mut Vec<Segment>) -> Result<f64, FormatError> {
        match round {
            Round::Line(line) => segments.push(line),
            Round::Arc(arc) => segments.push(arc.into()),
            Round::Ellipse(ellipse) => {
                let mut followed = self.follower.follow(&FairCurve::Ellipse(ellipse))?;
                segments.append(&mut followed.segments);
                return Ok(followed.deviation);
            }
        }
        Ok(0.0)
    }

    fn polyline(
        &mut self,
        item: Item<'_>,
        vertices: &[Vertex],
        closed: bool,
        placing: &Placing,
    ) -> Result<(), FormatError> {
        let count = vertices.len() - usize::from(!closed);
        let mut segments = Vec::with_capacity(count);
        let mut deviation: f64 = 0.0;
        let following = vertices.iter().cycle().skip(1);
        for (from, to) in vertices.iter().zip(following).take(count) {
            if let Some(round) = placing.bulged(from.at, to.at, from.bulge) {
                deviation = deviation.max(self.push(round, &mut segments)?);
            } else {
                self.fault(item, "has an arc without a size");
            }
        }
        self.run(item, segments, closed, deviation)
    }

    fn ellipse(
        &mut self,
        item: Item<'_>,
        ellipse: &RawEllipse,
        placing: &Placing,
    ) -> Result<(), FormatError> {
        let sweep = number::positive_angle(ellipse.end - ellipse.start);
        // a whole ellipse ends where it starts, up to the digits of the file
        let whole = !(1e-9..=number::FULL_TURN - 1e-9).contains(&sweep);
        let sweep = if whole { number::FULL_TURN } else { sweep };
        let round = placing.ellipse(
            ellipse.centre,
            ellipse.first,
            ellipse.second,
            (number::positive_angle(ellipse.start), sweep),
        );
        self.round(item, round, whole)
    }

    fn spline(
        &mut self,
        item: Item<'_>,
        spline: &RawSpline,
        placing: &Placing,
    ) -> Result<(), FormatError> {
        let place = |points: &[Point]| -> Vec<Point> {
            points.iter().map(|&point| placing.point(point)).collect()
        };
        let followed = if spline.points.is_empty() {
            let natural = BattenEnd::Natural;
            match FairCurve::through(&place(&spline.through), natural, natural) {
                Ok(curve) => self.follower.follow(&curve)?,
                Err(error) => {
                    self.fault(item, &error.to_string());
                    return Ok(());
                }
            }
        } else {
            let points = place(&spline.points);
            let made = RationalSpline::new(spline.degree, &points, &spline.weights, &spline.knots);
            match made {
                Ok(curve) => self.follower.follow_spline(&curve)?,
                Err(error) => {
                    self.fault(item, &error.to_string());
                    return Ok(());
                }
            }
        };
        let (segments, deviation) = (followed.segments, followed.deviation);
        self.run(item, segments, spline.closed, deviation)
    }

    fn insert(
        &mut self,
        item: Item<'_>,
        insert: &RawInsert,
        placing: &Placing,
        depth: usize,
    ) -> Result<(), FormatError> {
        let Item { raw, through } = item;
        let file: &'a File = self.file;
        let Some((name, block)) = file.blocks.get_key_value(&insert.block) else {
            let problem = format!(
                "refers to the block \"{}\", which is not there",
                insert.block
            );
            self.fault(item, &problem);
            return Ok(());
        };
        if depth >= DEEPEST {
            self.fault(item, "refers to blocks within blocks without end");
            return Ok(());
        }
        if self.counted.insert(name) {
            self.count_left_out(&block.left_out);
        }
        // a reference on layer 0 of a block is itself on the layer of what draws it
        let on_zero = self.file.layers.get(raw.layer).is_some_and(|l| l == "0");
        let inner = Through {
            line: through.map_or(raw.place.line, |through| through.line),
            layer: through
                .filter(|_| on_zero)
                .map_or(raw.layer, |through| through.layer),
        };
        let copies = insert.columns.saturating_mul(insert.rows);
        let limit = i64::try_from(MOST_DRAWN).unwrap_or(i64::MAX);
        if copies > limit {
            let found = usize::try_from(copies).unwrap_or(usize::MAX);
            return Err(too_much(
                FileFormat::Dxf,
                "copies of blocks",
                found,
                MOST_DRAWN,
            ));
        }
        for row in 0..insert.rows {
            for column in 0..insert.columns {
                self.copies += 1;
                if self.copies > MOST_DRAWN {
                    return Err(too_much(
                        FileFormat::Dxf,
                        "copies of blocks",
                        self.copies,
                        MOST_DRAWN,
                    ));
                }
                let map = copy(insert, block.base, column, row);
                let placing = placing.after(map);
                for raw in &block.entities {
                    self.raw(raw, &placing, Some(inner), depth + 1)?;
                }
            }
        }
        Ok(())
    }
}

/// The map of one copy of a block: its base to the place, scaled, turned; steps are turned with it.
fn copy(insert: &RawInsert, base: Point, column: i64, row: i64) -> Affine {
    let turn = radians(insert.turn);
    let exact = |value: f64| if value.abs() < 1e-15 { 0.0 } else { value };
    let (sine, cosine) = (exact(number::sin(turn)), exact(number::cos(turn)));
    // rows and columns number at most a million
    #[expect(clippy::cast_precision_loss, reason = "far below 2^52")]
    let step = Vec2::new(insert.step.x * column as f64, insert.step.y * row as f64);
    let shift = Vec2::new(
        step.x * cosine - step.y * sine,
        step.x * sine + step.y * cosine,
    );
    let turned = Affine::new([
        cosine * insert.scale.x,
        sine * insert.scale.x,
        -sine * insert.scale.y,
        cosine * insert.scale.y,
        insert.at.x + shift.x,
        insert.at.y + shift.y,
    ]);
    let from_base = Affine::new([1.0, 0.0, 0.0, 1.0, -base.x, -base.y]);
    let flip = Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
    if insert.flipped {
        flip * turned * from_base
    } else {
        turned * from_base
    }
}

fn radians(degrees: f64) -> f64 {
    degrees.to_radians()
}
