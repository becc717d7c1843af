//! The rows of the form: everything of a design that is measured on its finished parts.

use super::Filing;
use super::Item;
use super::Judging;
use super::Taking;
use super::words;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Located;
use crate::design::Unresolved;
use crate::design::file::Measure;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::offset::Join;
use crate::geometry::offset::offset;
use crate::geometry::tolerance;
use crate::measures::How;
use crate::measures::Shape;
use crate::measures::Taken;
use crate::measures::TakenKind;
use crate::measures::filed_edges;
use crate::measures::flatness;
use crate::measures::limits;
use crate::measures::limits::Limit;
use crate::measures::take;
use crate::trade::materials;

/// By how much metal is taken off all round to see what filing does to a measure, in millimetres.
const FILED: f64 = 0.05;

/// The rows of a design's form, numbered from 1 through all its parts: for each part the dimensions
/// that have a measure, its limits, and the thickness and
/// the flatness of its plate if they have limits.
///
/// # Errors
/// A measure that cannot be taken, with its place.
///
/// # Example
/// ```
/// use kerfwise::design::Design;
/// use kerfwise::design::Source;
/// use kerfwise::measures::inspection;
///
/// let text = r#"
/// [dims]
/// side = { value = 100, tol = 1, measure = { distance = { from = "a", to = "b" } } }
/// [part.square]
/// outline = [
///   { corner = "a", at = [0, 0] },
///   { corner = "b", at = ["side", 0] },
///   { corner = "c", at = ["side", "side"] },
///   { corner = "d", at = [0, "side"] },
/// ]
/// "#;
/// let design = Design::load(&Source::new("square.toml", text), &[]).map_err(|e| e[0].clone())?;
/// let items = inspection::items(&design).map_err(|e| e[0].clone())?;
/// let item = &items[0];
/// assert_eq!((item.number, item.name.as_str(), item.expected), (1, "side", Some(100.0)));
/// assert_eq!(item.filing, inspection::Filing::Lowers);
/// # Ok::<(), kerfwise::design::DesignError>(())
/// ```
pub fn items(design: &Design) -> Result<Vec<Item>, Vec<DesignError>> {
    let limits::Limits {
        limits,
        findings: mut errors,
    } = limits::limits(design);
    let mut items = Vec::new();
    let mut plates: Vec<&str> = Vec::new();
    for part in &design.resolved.parts {
        let of_part = OfPart::new(design, part);
        let on_part = |limit: &&Limit| limit.part.as_ref() == Some(&part.name);
        for limit in limits.iter().filter(on_part) {
            let Some(measure) = &limit.measure else {
                continue;
            };
            match of_part.item(limit, measure) {
                Ok(item) => items.push(item),
                Err(Unresolved::Fault(error)) => errors.push(error),
                // no form is printed of a draft, and what is open is told elsewhere
                Err(Unresolved::Open(_)) => {}
            }
        }
        if let Some(plate) = &part.plate
            && !plates.contains(&plate.name.as_str())
        {
            plates.push(&plate.name);
            items.extend(of_part.thickness(&plate.name));
            items.extend(of_part.flatness(&plate.name));
        }
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    for (index, item) in items.iter_mut().enumerate() {
        item.number = index + 1;
    }
    Ok(items)
}

/// A part on its way into the form.
struct OfPart<'a> {
    design: &'a Design,
    part: &'a Part,
    /// The part with a little metal off all round, if that can be.
    filed: Option<Vec<Region>>,
    /// Growth with heat in 1e-6 per kelvin.
    expansion: Option<f64>,
}

impl<'a> OfPart<'a> {
    fn new(design: &'a Design, part: &'a Part) -> Self {
        let material = part.plate.as_ref().map(|plate| plate.material.as_str());
        Self {
            design,
            part,
            filed: offset(&part.region, -FILED, Join::Round)
                .ok()
                .map(|filed| filed.regions),
            expansion: material
                .and_then(|material| materials::find(material).ok())
                .and_then(|material| material.expansion)
                .map(|expansion| expansion.value),
        }
    }

    fn item(&self, limit: &Limit, measure: &Located<Measure>) -> Result<Item, Unresolved> {
        let shape = Shape::nominal(self.part);
        let taken = take(&shape, measure, &self.design.dimensions)?;
        let judging = match measure.value {
            Measure::Thickness => Judging::Each,
            _ => Judging::Mean,
        };
        let (parts, dimensions) = (&self.design.resolved.parts, &self.design.dimensions);
        let told = limits::on_true_curve(taken, limit, (self.part, parts), dimensions);
        Ok(Item {
            number: 0,
            part: self.part.name.clone(),
            name: limit.name.clone(),
            dimension: limit.dimension.clone(),
            note: limit.note.clone(),
            kind: limit.kind,
            unit: limit.unit,
            expected: Some(told.value),
            taken: Some(told),
            permitted: limit.permitted,
            place_words: words::place(&measure.value, self.design),
            taking: taking(taken.how),
            filing: self.filing(measure, &taken),
            edges: filed_edges(&shape, &measure.value, &taken)?,
            judging,
            expansion: self.expansion,
            place: limit.place,
        })
    }

    /// What taking a little metal off does to a measure, seen on the part with that much off.
    fn filing(&self, measure: &Located<Measure>, taken: &Taken) -> Filing {
        if let Measure::Thickness = measure.value {
            return Filing::Lowers;
        }
        if let Measure::Radius(name) = &measure.value
            && let Some(filing) = self.rounding(&name.value)
        {
            return filing;
        }
        let smaller = self.filed.as_ref().and_then(|filed| {
            let shape = Shape::changed(self.part, filed);
            take(&shape, measure, &self.design.dimensions).ok()
        });
        let change = smaller.map_or(0.0, |smaller| smaller.value - taken.value);
        if change < -tolerance::SAME_DIMENSION {
            Filing::Lowers
        } else if change > tolerance::SAME_DIMENSION {
            Filing::Raises
        } else {
            Filing::Neither
        }
    }

    /// What filing does to the rounding of a corner: off an outside corner it makes the radius larger,
    /// out of an inside corner smaller.
    fn rounding(&self, name: &str) -> Option<Filing> {
        let Some(Segment::Arc(arc)) = self.part.corner(name)?.worked else {
            return None;
        };
        Some(if arc.sweep() > 0.0 {
            Filing::Raises
        } else {
            Filing::Lowers
        })
    }

    fn plate(&self, name: &str) -> Option<&'a Plate> {
        let mut plates = self.design.resolved.plates.iter();
        plates.find(|plate| plate.name == name)
    }

    /// The flatness of the part's plate, if that has a limit. It is taken of the finished part.
    fn flatness(&self, plate: &str) -> Option<Item> {
        let plate = self.plate(plate)?;
        let flatness = plate.flatness.as_deref()?;
        flatness.max?;
        Some(Item {
            number: 0,
            part: self.part.name.clone(),
            name: format!("flatness of plate {}", plate.name),
            dimension: None,
            note: flatness.note.clone(),
            kind: TakenKind::Length,
            unit: self.design.unit(),
            expected: None,
            taken: None,
            permitted: flatness::permitted(flatness),
            place_words: words::flatness(flatness, self.design.unit()),
            taking: Taking::Gauge,
            filing: Filing::Neither,
            edges: Vec::new(),
            judging: Judging::Each,
            expansion: None,
            place: flatness.place,
        })
    }

    /// The thickness of the part's plate, if that has limits.
    fn thickness(&self, plate: &str) -> Option<Item> {
        let plate = self.plate(plate)?;
        let thickness = plate.gauged.as_deref()?;
        thickness.permitted.is_limited().then(|| Item {
            number: 0,
            part: self.part.name.clone(),
            name: format!("thickness of plate {}", plate.name),
            dimension: None,
            note: thickness.note.clone(),
            kind: TakenKind::Length,
            unit: thickness.unit,
            expected: plate.thickness,
            taken: None,
            permitted: thickness.permitted,
            place_words: words::THICKNESS.to_owned(),
            taking: Taking::Jaws,
            filing: Filing::Lowers,
            edges: Vec::new(),
            judging: Judging::Each,
            expansion: self.expansion,
            place: thickness.place,
        })
    }
}

const fn taking(how: How) -> Taking {
    match how {
        How::Straight | How::OverTheRounds => Taking::Jaws,
        How::SharpCorner | How::MetalOnly | How::StraightEdge => Taking::Scale,
        How::Gauge | How::Protractor | How::Scales | How::WorkedOut => Taking::Gauge,
    }
}
