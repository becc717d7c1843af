//! The walk through the elements.

use std::str::FromStr;

use kurbo::Affine;
use svgtypes::Transform;
use svgtypes::ViewBox;

use super::basic;
use super::basic::Step;
use super::path;
use super::path::Pen;
use super::path::Run;
use super::tree::Element;
use super::tree::Tree;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use crate::formats::incoming::Collector;
use crate::formats::incoming::DEEPEST;
use crate::formats::incoming::Drawn;
use crate::formats::incoming::DrawnKind;
use crate::formats::incoming::DrawnShape;
use crate::formats::incoming::FilePlace;
use crate::formats::incoming::Follower;
use crate::formats::incoming::MOST_DRAWN;
use crate::formats::incoming::place::Placing;
use crate::formats::incoming::too_much;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;

/// What is in force at an element.
#[derive(Clone, Copy)]
struct State<'a> {
    placing: Placing,
    layer: &'a str,
    /// Line of the outermost `use`; 0 outside of all.
    through: usize,
    /// How many `use` elements deep.
    uses: usize,
}

pub(super) struct Walk<'a> {
    tree: &'a Tree,
    pub(super) collector: Collector,
    follower: Follower,
    visited: usize,
}

impl<'a> Walk<'a> {
    pub(super) const fn new(tree: &'a Tree, within: f64) -> Self {
        Self {
            tree,
            collector: Collector::new(FileFormat::Svg),
            follower: Follower::new(FileFormat::Svg, within),
            visited: 0,
        }
    }

    pub(super) fn root(&mut self, placing: &Placing) -> Result<(), FormatError> {
        let state = State {
            placing: *placing,
            layer: "",
            through: 0,
            uses: 0,
        };
        let Some(root) = self.tree.get(0) else {
            return Ok(());
        };
        self.children(root, state)
    }

    fn children(&mut self, element: &'a Element, state: State<'a>) -> Result<(), FormatError> {
        for &child in &element.children {
            if let Some(child) = self.tree.get(child) {
                self.element(child, state)?;
            }
        }
        Ok(())
    }

    fn element(&mut self, element: &'a Element, state: State<'a>) -> Result<(), FormatError> {
        self.visited += 1;
        if self.visited > MOST_DRAWN {
            let limit = MOST_DRAWN;
            return Err(too_much(FileFormat::Svg, "elements", self.visited, limit));
        }
        let hidden = element.property("display") == Some("none")
            || matches!(element.property("visibility"), Some("hidden" | "collapse"));
        let is_group = matches!(
            element.name.as_str(),
            "g" | "a" | "svg" | "symbol" | "switch"
        );
        if hidden && (is_group || is_shape(&element.name) || element.name == "use") {
            let name = format!("hidden {}", element.name);
            self.count(&name, "it is not shown", element, state);
            return Ok(());
        }
        let mut state = state;
        if let Some(text) = element.get("transform") {
            let Ok(Transform { a, b, c, d, e, f }) = Transform::from_str(text) else {
                let problem = format!("has the transform \"{}\"", basic::short(text));
                self.fault(element, state, problem);
                return Ok(());
            };
            state.placing = state.placing.after(Affine::new([a, b, c, d, e, f]));
        }
        match element.name.as_str() {
            "g" | "a" | "switch" => {
                let name = element.get("class").or_else(|| element.get("id"));
                state.layer = name.unwrap_or(state.layer);
                self.children(element, state)
            }
            "svg" => {
                state.placing = state.placing.after(inner_view(element));
                self.children(element, state)
            }
            "use" => self.reference(element, state),
            "defs" | "symbol" | "title" | "desc" | "metadata" | "namedview" => Ok(()),
            name if is_shape(name) => self.shape(element, state),
            name => {
                self.count(name, why_left_out(name), element, state);
                Ok(())
            }
        }
    }

    fn count(&mut self, name: &str, left_out: &str, element: &Element, state: State<'_>) {
        // once, however often it is referred to
        if state.through == 0 {
            self.collector.count(name, left_out, element.line);
        }
    }

    fn fault(&mut self, element: &Element, state: State<'_>, problem: String) {
        self.collector.fault(
            FilePlace {
                line: element.line,
                handle: 0,
                through: state.through,
            },
            &element.name,
            problem,
        );
    }

    fn reference(&mut self, element: &'a Element, state: State<'a>) -> Result<(), FormatError> {
        self.count("use", "", element, state);
        let href = element.get("href").unwrap_or_default();
        let Some(target) = self
            .tree
            .referred(href)
            .and_then(|index| self.tree.get(index))
        else {
            let problem = format!("refers to \"{}\", which is not there", basic::short(href));
            self.fault(element, state, problem);
            return Ok(());
        };
        if state.uses >= DEEPEST {
            let problem = "refers to elements within elements without end";
            self.fault(element, state, problem.to_owned());
            return Ok(());
        }
        let (x, y) = match (
            basic::length(element, "x", 0.0),
            basic::length(element, "y", 0.0),
        ) {
            (Ok(x), Ok(y)) => (x, y),
            (Err(problem), _) | (_, Err(problem)) => {
                self.fault(element, state, problem);
                return Ok(());
            }
        };
        let shift = Affine::new([1.0, 0.0, 0.0, 1.0, x, y]);
        let inner = State {
            placing: state.placing.after(shift),
            through: if state.through == 0 {
                element.line
            } else {
                state.through
            },
            uses: state.uses + 1,
            ..state
        };
        if target.name == "symbol" {
            return self.children(target, inner);
        }
        self.element(target, inner)
    }

    fn shape(&mut self, element: &Element, state: State<'_>) -> Result<(), FormatError> {
        self.count(&element.name, "", element, state);
        let mut pen = Pen::new(state.placing, &mut self.follower);
        let drawn = draw_shape(element, &mut pen)?;
        pen.lift();
        let (runs, problem) = (pen.runs, pen.problem);
        if let Some(problem) = drawn.err().or(problem) {
            self.fault(element, state, problem);
        }
        let layer = self.collector.layer(state.layer)?;
        let place = FilePlace {
            line: element.line,
            handle: 0,
            through: state.through,
        };
        // the cross that stands for a place to mark or drill in our own files
        if let Some(spot) = cross(&runs) {
            return self.collector.add(Drawn {
                place,
                layer,
                kind: DrawnKind::Point,
                shape: DrawnShape::Spot(spot),
                deviation: 0.0,
            });
        }
        for run in runs {
            let Run {
                segments,
                closed,
                deviation,
                curved,
            } = run;
            let kind = kind_of(&element.name, &segments, curved);
            self.collector.add(Drawn {
                place,
                layer,
                kind,
                shape: DrawnShape::Run { segments, closed },
                deviation,
            })?;
        }
        Ok(())
    }
}

/// The middle of two lines of the length of a mark, one lying and one standing.
pub(super) fn cross(runs: &[Run]) -> Option<Point> {
    let [lying, standing] = runs else {
        return None;
    };
    let line = |run: &Run| match run.segments.as_slice() {
        [Segment::Line(line)] if !run.closed => Some(*line),
        _ => None,
    };
    crate::formats::drawn::middle_of_cross(&line(lying)?, &line(standing)?)
}

fn is_shape(name: &str) -> bool {
    matches!(
        name,
        "path" | "line" | "polyline" | "polygon" | "rect" | "circle" | "ellipse"
    )
}

fn why_left_out(name: &str) -> &'static str {
    match name {
        "text" | "tspan" | "textPath" | "flowRoot" => {
            "words: they have no outline until they are turned into lines"
        }
        "image" => "a picture",
        "clipPath" | "mask" | "pattern" | "marker" | "linearGradient" | "radialGradient"
        | "filter" => "decoration",
        "style" => "a style sheet: what it hides is read as if it showed",
        "foreignObject" | "script" => "it is no drawing",
        _ => "a kind that is not known here",
    }
}

fn kind_of(name: &str, segments: &[Segment], curved: bool) -> DrawnKind {
    match (name, segments) {
        ("ellipse", _) if curved => DrawnKind::Ellipse,
        ("circle" | "ellipse", [Segment::Arc(_)]) => DrawnKind::Circle,
        (_, _) if curved => DrawnKind::Spline,
        (_, [Segment::Line(_)]) => DrawnKind::Line,
        (_, [Segment::Arc(_)]) => DrawnKind::Arc,
        _ => DrawnKind::Polyline,
    }
}

/// Draws a basic shape or path; the inner error is a fault of the element.
fn draw_shape(element: &Element, pen: &mut Pen<'_>) -> Result<Result<(), String>, FormatError> {
    let outcome = match element.name.as_str() {
        "path" => {
            path::draw(element.get("d").unwrap_or_default(), pen)?;
            Ok(())
        }
        "line" => line(element).map(|(from, to)| {
            pen.move_to(from);
            pen.line_to(to);
        }),
        "polyline" | "polygon" => basic::points(element).map(|points| {
            for (index, point) in points.iter().enumerate() {
                if index == 0 {
                    pen.move_to(*point);
                } else {
                    pen.line_to(*point);
                }
            }
            if element.name == "polygon" {
                pen.close();
            }
        }),
        "rect" => match basic::rectangle(element) {
            Ok((start, steps)) => {
                pen.move_to(start);
                for step in steps {
                    match step {
                        Step::Line(to) => pen.line_to(to),
                        Step::Quarter { corner, end } => pen.quarter_to(corner, end)?,
                    }
                }
                pen.close();
                Ok(())
            }
            Err(problem) => Err(problem),
        },
        _ => match ellipse(element) {
            Ok((centre, rx, ry)) => {
                pen.move_to(centre + Vec2::new(rx, 0.0));
                pen.whole_ellipse(centre, rx, ry)?;
                Ok(())
            }
            Err(problem) => Err(problem),
        },
    };
    Ok(outcome)
}

fn line(element: &Element) -> Result<(Point, Point), String> {
    let get = |name: &str| basic::length(element, name, 0.0);
    Ok((
        Point::new(get("x1")?, get("y1")?),
        Point::new(get("x2")?, get("y2")?),
    ))
}

fn ellipse(element: &Element) -> Result<(Point, f64, f64), String> {
    let get = |name: &str| basic::length(element, name, 0.0);
    let centre = Point::new(get("cx")?, get("cy")?);
    let (rx, ry) = if element.name == "circle" {
        let radius = get("r")?;
        (radius, radius)
    } else {
        (get("rx")?, get("ry")?)
    };
    if rx > 0.0 && ry > 0.0 {
        Ok((centre, rx, ry))
    } else {
        Err(format!("has the radii {rx} and {ry}"))
    }
}

/// The map of a drawing within the drawing: its place, and its view onto its size.
fn inner_view(element: &Element) -> Affine {
    let get = |name: &str| basic::length(element, name, 0.0).unwrap_or(0.0);
    let (x, y, width, height) = (get("x"), get("y"), get("width"), get("height"));
    let view = element
        .get("viewBox")
        .and_then(|text| ViewBox::from_str(text).ok());
    match view {
        Some(view) if width > 0.0 && height > 0.0 && view.w > 0.0 && view.h > 0.0 => {
            let scale = (width / view.w).min(height / view.h);
            let centred = |size: f64, view: f64| (size - view * scale) / 2.0;
            Affine::new([
                scale,
                0.0,
                0.0,
                scale,
                x + centred(width, view.w) - view.x * scale,
                y + centred(height, view.h) - view.y * scale,
            ])
        }
        _ => Affine::new([1.0, 0.0, 0.0, 1.0, x, y]),
    }
}

impl Pen<'_> {
    /// A whole ellipse with its axes along x and y, from its rightmost point.
    fn whole_ellipse(&mut self, centre: Point, rx: f64, ry: f64) -> Result<(), FormatError> {
        let (first, second) = (Vec2::new(rx, 0.0), Vec2::new(0.0, ry));
        let round = self.ellipse_round(centre, first, second, number::FULL_TURN);
        self.round(round)?;
        self.close();
        Ok(())
    }
}
