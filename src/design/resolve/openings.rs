//! Openings: their shapes, and patterns spelt out.

use super::amounts::Amounts;
use super::fault::PartFault;
use super::holes;
use super::moved::Move;
use super::outline;
use super::sources::Sources;
use crate::design::file;
use crate::design::located::Amount;
use crate::design::located::Located;
use crate::design::part::Features;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::ScrewHole;
use crate::design::source::Place;
use crate::geometry::Contour;
use crate::geometry::Motion;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::outline::BuiltOutline;
use crate::geometry::outline::Encloses;
use crate::geometry::outline::Entry;
use crate::geometry::outline::OutlineError;
use crate::geometry::outline::OutlineFault;
use crate::geometry::outline::Side;
use crate::geometry::outline::Treatment;
use crate::geometry::outline::build;
use crate::geometry::outline::build_with_sources;

/// The most openings a part may have.
const MOST: u64 = 10_000;

/// Openings with their contours, which are in the same order.
#[derive(Debug, Default)]
pub(super) struct Openings {
    pub(super) openings: Vec<Opening>,
    pub(super) contours: Vec<Contour>,
}

/// A shape about its own origin, before it is put in its places.
#[derive(Debug)]
pub(super) struct Built {
    pub(super) shape: OpeningShape,
    pub(super) contour: Contour,
    pub(super) features: Features,
    /// The screw that it is for, if it is a hole for one.
    pub(super) screw: Option<ScrewHole>,
}

impl Openings {
    pub(super) fn push(&mut self, mut opening: Opening, contour: Contour) {
        opening.hole = self.contours.len();
        self.openings.push(opening);
        self.contours.push(contour);
    }

    /// Adds an opening as written, a pattern spelt out.
    pub(super) fn add(
        &mut self,
        written: &Located<file::Opening>,
        sources: &mut Sources,
        amounts: &mut Amounts<'_>,
    ) {
        let opening = &written.value;
        let name = &opening.name.value;
        let first = sources.next();
        let shape = shape(opening, written.place, sources, amounts);
        let own = first..sources.next();
        let places = places(opening, written.place, amounts);
        let (Some(shape), Some(places)) = (shape, places) else {
            return;
        };
        let made = holes::made(opening, amounts);
        let several = places.len() > 1;
        let shape_screw = shape.screw;
        for (index, (to, place)) in places.into_iter().enumerate() {
            let name = if several {
                format!("{name} {}", index + 1)
            } else {
                name.clone()
            };
            let motion = Motion::shift(to);
            // an outline keeps the sources of its own corners and edges, each copy others
            let first = sources.next();
            let is_outline = matches!(opening.shape, file::OpeningShape::Outline(_));
            let (contour, features, bears) = if is_outline {
                let sources_on = if index == 0 { 0 } else { sources.repeat(&own) };
                let to = Move {
                    motion: &motion,
                    sources_on,
                };
                let contour = with_sources(&motion.contour(&shape.contour), |s| to.source(s));
                let bears = own.start + sources_on..own.end + sources_on;
                (contour, to.features(&shape.features), bears)
            } else {
                let source = sources.add(format!("the opening `{name}`"), place);
                let contour = resourced(&motion.contour(&shape.contour), source);
                let to = Move {
                    motion: &motion,
                    sources_on: 0,
                };
                let features = to.features(&shape.features);
                (contour, features, first..sources.next())
            };
            let shape = moved(&shape.shape, &motion);
            self.push(
                Opening {
                    name,
                    hole: 0,
                    sources: bears,
                    features,
                    shape,
                    made,
                    screw: shape_screw,
                    place,
                },
                contour,
            );
        }
    }
}

/// The same contour with all its pieces from one source.
pub(super) fn resourced(contour: &Contour, source: SourceId) -> Contour {
    with_sources(contour, |_| source)
}

fn with_sources(contour: &Contour, source: impl Fn(SourceId) -> SourceId) -> Contour {
    let pieces = contour
        .pieces()
        .iter()
        .map(|piece| Piece::new(piece.segment, source(piece.source)));
    Contour::new(pieces.collect()).unwrap_or_else(|_| contour.clone())
}

/// The same shape moved.
pub(super) fn moved(shape: &OpeningShape, motion: &Motion) -> OpeningShape {
    match *shape {
        OpeningShape::Circle { centre, diameter } => OpeningShape::Circle {
            centre: motion.point(centre),
            diameter,
        },
        OpeningShape::Slot { from, to, width } => OpeningShape::Slot {
            from: motion.point(from),
            to: motion.point(to),
            width,
        },
        OpeningShape::Rectangle {
            centre,
            width,
            height,
            corner_radius,
            relief,
            angle,
        } => {
            let axis = motion.vector(number::unit(angle));
            OpeningShape::Rectangle {
                centre: motion.point(centre),
                width,
                height,
                corner_radius,
                relief,
                angle: number::direction(axis),
            }
        }
        OpeningShape::Outline => OpeningShape::Outline,
    }
}

fn shape(
    opening: &file::Opening,
    place: Place,
    sources: &mut Sources,
    amounts: &mut Amounts<'_>,
) -> Option<Built> {
    let name = &opening.name.value;
    match &opening.shape {
        file::OpeningShape::Circle(circle) => circle_shape(circle, name, amounts),
        file::OpeningShape::Hole(hole) => holes::shape(hole, amounts),
        file::OpeningShape::Slot(slot) => slot_shape(slot, name, place, amounts),
        file::OpeningShape::Rectangle(rectangle) => {
            rectangle_shape(rectangle, name, place, amounts)
        }
        file::OpeningShape::Outline(entries) => {
            let outline = outline::outline(entries, (place, Encloses::Opening), sources, amounts)?;
            Some(Built {
                shape: OpeningShape::Outline,
                contour: outline.built.contour,
                screw: None,
                features: Features {
                    corners: outline.corners,
                    rounds: outline.rounds,
                    edges: outline.edges,
                    sides: None,
                },
            })
        }
    }
}

fn circle_shape(circle: &file::Circle, name: &str, amounts: &mut Amounts<'_>) -> Option<Built> {
    let (amount, what, to_diameter) = match &circle.size {
        file::CircleSize::Diameter(diameter) => (diameter, "diameter", 1.0),
        file::CircleSize::Radius(radius) => (radius, "radius", 2.0),
    };
    let value = amounts.length(amount)?;
    let diameter = positive(value, what, name, amount.place, amounts)? * to_diameter;
    round(diameter, None, amount.place, amounts)
}

/// A round hole.
pub(super) fn round(
    diameter: f64,
    screw: Option<ScrewHole>,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<Built> {
    let contour = Contour::circle(Point::ZERO, diameter / 2.0, SourceId::UNTRACED)
        .map_err(OutlineFault::from);
    let contour = kept(contour, place, amounts)?;
    Some(Built {
        shape: OpeningShape::Circle {
            centre: Point::ZERO,
            diameter,
        },
        contour,
        screw,
        features: Features::default(),
    })
}

fn slot_shape(
    slot: &file::Slot,
    name: &str,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<Built> {
    let (length, width) = (amounts.length(&slot.length), amounts.length(&slot.width));
    let angle = angle(slot.angle.as_ref(), amounts);
    let width = positive(width?, "width", name, slot.width.place, amounts)?;
    let (length, angle) = (length?, angle?);
    if length <= width {
        let fault = PartFault::SlotTooShort {
            opening: name.to_owned(),
            length,
            width,
        };
        amounts.fault(fault, place, "make it longer than it is wide, or a circle");
        return None;
    }
    let half = Motion::turn(angle).vector(Vec2::new((length - width) / 2.0, 0.0));
    let (from, to) = (Point::ZERO - half, Point::ZERO + half);
    let built = build(&[
        Entry::round(name, from, width / 2.0, Side::Full),
        Entry::round(name, to, width / 2.0, Side::Full),
    ]);
    let contour = kept(contour_of(built), place, amounts)?;
    Some(Built {
        shape: OpeningShape::Slot { from, to, width },
        contour,
        screw: None,
        features: Features::default(),
    })
}

fn rectangle_shape(
    rectangle: &file::Rectangle,
    name: &str,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<Built> {
    let width = amounts.length(&rectangle.width);
    let height = amounts.length(&rectangle.height);
    let radius = rectangle
        .radius
        .as_ref()
        .map_or(Some(0.0), |radius| amounts.length(radius));
    let angle = angle(rectangle.angle.as_ref(), amounts);
    let width = positive(width?, "width", name, rectangle.width.place, amounts)?;
    let height = positive(height?, "height", name, rectangle.height.place, amounts)?;
    let (radius, angle) = (radius?, angle?);
    let radius_place = rectangle
        .radius
        .as_ref()
        .map_or(place, |radius| radius.place);
    let largest = width.min(height) / 2.0;
    if radius > largest {
        let fault = PartFault::RadiusTooLarge {
            opening: name.to_owned(),
            radius,
            largest,
        };
        amounts.fault(fault, radius_place, "use a smaller radius, or a slot");
        return None;
    }
    if radius < 0.0 {
        positive(radius, "corner radius", name, radius_place, amounts)?;
    }
    let relief = match &rectangle.relief {
        Some(relief) => Some(outline::relief(&relief.value, amounts)?),
        None => None,
    };
    let turn = Motion::turn(angle);
    let corner = |x: f64, y: f64, which: &str| {
        let at = turn
            .vector(Vec2::new(x * width / 2.0, y * height / 2.0))
            .to_point();
        let entry = Entry::corner(format!("{name}, {which}"), at);
        match relief {
            Some(treatment) => entry.treated(treatment),
            None if radius > 0.0 => entry.fillet(radius),
            None => entry,
        }
    };
    let corners = [
        corner(-1.0, -1.0, "lower left"),
        corner(1.0, -1.0, "lower right"),
        corner(1.0, 1.0, "upper right"),
        corner(-1.0, 1.0, "upper left"),
    ];
    let built = build_with_sources(&corners, Encloses::Opening, 0);
    let contour = kept(contour_of(built), place, amounts)?;
    let shape = OpeningShape::Rectangle {
        centre: Point::ZERO,
        width,
        height,
        corner_radius: if relief.is_some() { 0.0 } else { radius },
        relief: match relief {
            Some(Treatment::Relief(cutter, _)) => cutter,
            _ => 0.0,
        },
        angle,
    };
    Some(Built {
        shape,
        contour,
        screw: None,
        features: Features {
            sides: Some(number::unit(angle)),
            ..Features::default()
        },
    })
}

fn contour_of(built: Result<BuiltOutline, OutlineError>) -> Result<Contour, OutlineFault> {
    built
        .map(|built| built.contour)
        .map_err(|error| error.fault)
}

/// Where the shape stands, each with the place in the file that says so.
fn places(
    opening: &file::Opening,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<Vec<(Vec2, Place)>> {
    let own = match &opening.shape {
        file::OpeningShape::Circle(circle) => circle.at.as_ref(),
        file::OpeningShape::Hole(hole) => hole.at.as_ref(),
        file::OpeningShape::Slot(slot) => slot.at.as_ref(),
        file::OpeningShape::Rectangle(rectangle) => rectangle.at.as_ref(),
        file::OpeningShape::Outline(_) => None,
    };
    match &opening.placement {
        file::Placement::AtShape => match (own, &opening.shape) {
            (Some(at), _) => Some(vec![(amounts.point(at)?.to_vec2(), place)]),
            (None, file::OpeningShape::Outline(_)) => Some(vec![(Vec2::ZERO, place)]),
            (None, _) => {
                let fault = PartFault::NoPlace {
                    opening: opening.name.value.clone(),
                };
                amounts.fault(fault, place, "give `at = [x, y]` in the shape, or `places`");
                None
            }
        },
        file::Placement::Places(pairs) => {
            let found: Vec<_> = pairs
                .iter()
                .map(|pair| amounts.point(pair).map(|at| (at.to_vec2(), pair.place)))
                .collect();
            found.into_iter().collect()
        }
        file::Placement::Grid(grid) => grid_places(grid, place, amounts),
        file::Placement::BoltCircle(circle) => bolt_circle_places(circle, place, amounts),
    }
}

fn grid_places(
    grid: &file::Grid,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<Vec<(Vec2, Place)>> {
    let at = amounts.point(&grid.at);
    let columns = amounts.count(&grid.columns, "columns", 1..=10_000);
    let rows = amounts.count(&grid.rows, "rows", 1..=10_000);
    let pitch = |pitch: Option<&_>, amounts: &mut Amounts<'_>| {
        pitch.map_or(Some(0.0), |pitch| amounts.length(pitch))
    };
    let along = pitch(grid.column_pitch.as_ref(), amounts);
    let across = pitch(grid.row_pitch.as_ref(), amounts);
    let turn = Motion::turn(angle(grid.angle.as_ref(), amounts)?);
    let (at, columns, rows, along, across) = (at?, columns?, rows?, along?, across?);
    few_enough(u64::from(columns) * u64::from(rows), place, amounts)?;
    let mut places = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let step = Vec2::new(f64::from(column) * along, f64::from(row) * across);
            places.push((at.to_vec2() + turn.vector(step), place));
        }
    }
    Some(places)
}

fn bolt_circle_places(
    circle: &file::BoltCircle,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<Vec<(Vec2, Place)>> {
    let (at, diameter) = (amounts.point(&circle.at), amounts.length(&circle.diameter));
    let count = amounts.count(&circle.count, "count", 1..=10_000);
    let start = angle(circle.start.as_ref(), amounts);
    let (at, diameter, count, start) = (at?, diameter?, count?, start?);
    few_enough(u64::from(count), place, amounts)?;
    let place_of = |index: u32| {
        let angle = start + number::FULL_TURN * f64::from(index) / f64::from(count);
        // quarter turns are exact, so that four bolts stand exactly on the axes
        let from_centre = Motion::turn(angle).vector(Vec2::new(diameter / 2.0, 0.0));
        (at.to_vec2() + from_centre, place)
    };
    Some((0..count).map(place_of).collect())
}

fn few_enough(found: u64, place: Place, amounts: &mut Amounts<'_>) -> Option<()> {
    if found <= MOST {
        return Some(());
    }
    let fault = PartFault::TooManyOpenings { found, most: MOST };
    amounts.fault(fault, place, "use fewer columns, rows or bolts");
    None
}

fn angle(amount: Option<&Amount>, amounts: &mut Amounts<'_>) -> Option<f64> {
    amount.map_or(Some(0.0), |amount| amounts.angle(amount))
}

fn positive(
    value: f64,
    what: &'static str,
    name: &str,
    place: Place,
    amounts: &mut Amounts<'_>,
) -> Option<f64> {
    if value > 0.0 {
        return Some(value);
    }
    let fault = PartFault::NotPositive {
        opening: name.to_owned(),
        what,
        value,
    };
    amounts.fault(fault, place, "give it a size above 0");
    None
}

/// Keeps what was built, or reports why not.
fn kept<T>(built: Result<T, OutlineFault>, place: Place, amounts: &mut Amounts<'_>) -> Option<T> {
    built
        .map_err(|fault| amounts.fault(fault, place, "check the sizes of this opening"))
        .ok()
}
