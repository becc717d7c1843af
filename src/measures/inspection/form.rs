//! The rows of the form: everything of a design that is measured on its finished parts.

use super::Filing;
use super::Item;
use super::ItemKind;
use super::Judging;
use super::Taking;
use super::words;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimension;
use crate::design::Located;
use crate::design::Named;
use crate::design::Unresolved;
use crate::design::dimensions::Permitted;
use crate::design::expression::Kind;
use crate::design::file;
use crate::design::file::Limit;
use crate::design::file::Measure;
use crate::design::file::Tolerance;
use crate::design::part::Part;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::offset::Join;
use crate::geometry::offset::offset;
use crate::geometry::tolerance;
use crate::measures::How;
use crate::measures::Shape;
use crate::measures::Taken;
use crate::measures::TakenKind;
use crate::measures::take;
use crate::trade::materials;

/// By how much metal is taken off all round to see what filing does to a measure, in millimetres.
const FILED: f64 = 0.05;

/// A row with the measure that it was taken by, for pictures of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What is measured.
    pub item: Item,
    /// Where on the part as designed; `None` for a thickness.
    pub taken: Option<Taken>,
}

/// The rows of a design's form, numbered from 1 through all its parts: for each part the dimensions
/// that have a measure, the limits, and the thickness of its plate if that has limits.
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
/// let rows = inspection::rows(&design).map_err(|e| e[0].clone())?;
/// let item = &rows[0].item;
/// assert_eq!((item.number, item.name.as_str(), item.expected), (1, "side", Some(100.0)));
/// assert_eq!(item.filing, inspection::Filing::Lowers);
/// # Ok::<(), kerfwise::design::DesignError>(())
/// ```
pub fn rows(design: &Design) -> Result<Vec<Row>, Vec<DesignError>> {
    let mut rows = Vec::new();
    let mut errors = Vec::new();
    let mut plates: Vec<&str> = Vec::new();
    for part in &design.resolved.parts {
        let of_part = OfPart::new(design, part);
        for dimension in &design.dimensions {
            if let Some(measure) = &dimension.measure
                && of_part.is_part_of(dimension)
            {
                collect(
                    of_part.dimension(dimension, measure),
                    &mut rows,
                    &mut errors,
                );
            }
        }
        for limit in of_part.limits() {
            collect(of_part.limit(&limit.value), &mut rows, &mut errors);
        }
        if let Some(plate) = &part.plate
            && !plates.contains(&plate.name.as_str())
        {
            plates.push(&plate.name);
            collect(of_part.thickness(&plate.name), &mut rows, &mut errors);
        }
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    for (index, row) in rows.iter_mut().enumerate() {
        row.item.number = index + 1;
    }
    Ok(rows)
}

fn collect(
    row: Result<Option<Row>, Unresolved>,
    rows: &mut Vec<Row>,
    errors: &mut Vec<DesignError>,
) {
    match row {
        Ok(row) => rows.extend(row),
        Err(Unresolved::Fault(error)) => errors.push(error),
        // a form is not printed of a draft, and what is open is told elsewhere
        Err(Unresolved::Open(_)) => {}
    }
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

    /// Whether a dimension is taken on this part: the one it names, or the first it can be taken on.
    fn is_part_of(&self, dimension: &Dimension) -> bool {
        if let Some(part) = &dimension.part {
            return *part == self.part.name;
        }
        let Some(measure) = &dimension.measure else {
            return false;
        };
        let parts = &self.design.resolved.parts;
        let first = parts
            .iter()
            .find(|part| take(&Shape::nominal(part), measure, &self.design.dimensions).is_ok())
            .or(parts.first());
        first.is_some_and(|first| first.name == self.part.name)
    }

    fn limits(&self) -> &'a [Located<Limit>] {
        let entry: Option<&'a Named<file::Part>> = self.design.file.part.get(&self.part.name);
        entry.map_or(&[], |named| &*named.entry.limit)
    }

    fn dimension(
        &self,
        dimension: &Dimension,
        measure: &Located<Measure>,
    ) -> Result<Option<Row>, Unresolved> {
        let mut row = self.row(measure)?;
        row.item.name.clone_from(&dimension.name);
        row.item.dimension = Some(dimension.name.clone());
        row.item.note.clone_from(&dimension.note);
        row.item.unit = dimension.unit;
        row.item.permitted = dimension.permitted;
        row.item.place = dimension.place;
        Ok(Some(row))
    }

    fn limit(&self, limit: &Limit) -> Result<Option<Row>, Unresolved> {
        let mut row = self.row(&limit.measure)?;
        row.item.name.clone_from(&limit.what.value);
        row.item.note = limit.note.as_ref().map(|note| note.value.clone());
        row.item.permitted = self.permitted(limit, &row.item)?;
        row.item.place = limit.what.place;
        Ok(Some(row))
    }

    /// The row of a measure, without name and limits.
    fn row(&self, measure: &Located<Measure>) -> Result<Row, Unresolved> {
        let shape = Shape::nominal(self.part);
        let taken = take(&shape, measure, &self.design.dimensions)?;
        let thickness = matches!(measure.value, Measure::Thickness);
        let item = Item {
            number: 0,
            part: self.part.name.clone(),
            name: String::new(),
            dimension: None,
            note: None,
            kind: kind(taken.kind),
            unit: self.design.unit(),
            expected: Some(taken.value),
            permitted: Permitted::default(),
            how: words::how(&measure.value, &taken, self.design),
            taking: taking(taken.how),
            filing: self.filing(measure, &taken),
            judging: if thickness {
                Judging::Each
            } else {
                Judging::Mean
            },
            expansion: self.expansion,
            place: measure.place,
        };
        let taken = (!thickness).then_some(taken);
        Ok(Row { item, taken })
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

    /// The thickness of the part's plate, if that has limits.
    fn thickness(&self, plate: &str) -> Result<Option<Row>, Unresolved> {
        let named = self.design.file.plate.get(plate);
        let Some((named, entry)) =
            named.and_then(|named| Some((named, named.entry.thickness.as_ref()?)))
        else {
            return Ok(None);
        };
        let Ok((thickness, _)) = self.design.dimensions.entry(&named.name, entry) else {
            return Ok(None);
        };
        if !thickness.permitted.is_limited() {
            return Ok(None);
        }
        let item = Item {
            number: 0,
            part: self.part.name.clone(),
            name: format!("thickness of plate `{plate}`"),
            dimension: None,
            note: thickness.note.clone(),
            kind: ItemKind::Length,
            unit: thickness.unit,
            expected: thickness.mean_reading().or_else(|| thickness.value()),
            permitted: thickness.permitted,
            how: "across the faces, at several places; every reading counts".to_owned(),
            taking: Taking::Jaws,
            filing: Filing::Lowers,
            judging: Judging::Each,
            expansion: self.expansion,
            place: named.name.place,
        };
        Ok(Some(Row { item, taken: None }))
    }

    /// What a limit permits, in the unit of its item.
    fn permitted(&self, limit: &Limit, item: &Item) -> Result<Permitted, Unresolved> {
        let wanted = match item.kind {
            ItemKind::Length => Kind::LENGTH,
            ItemKind::Area => Kind::AREA,
            ItemKind::Angle => Kind::Angle,
            ItemKind::Weight => Kind::NUMBER,
        };
        let amount = |amount: Option<&crate::design::Amount>| {
            amount
                .map(|amount| self.design.dimensions.amount(amount, wanted))
                .transpose()
        };
        let about = amount(limit.value.as_ref())?.or(item.expected);
        let (plus, minus) = match limit.tolerance() {
            Tolerance::Unsaid => (None, None),
            Tolerance::Both(both) => (amount(Some(both))?, amount(Some(both))?),
            Tolerance::Each(plus, minus) => (
                Some(amount(plus)?.unwrap_or(0.0)),
                Some(amount(minus)?.unwrap_or(0.0)),
            ),
        };
        let above = about.zip(plus).map(|(about, plus)| about + plus);
        let below = about.zip(minus).map(|(about, minus)| about - minus);
        let least = [amount(limit.min.as_ref())?, below];
        let most = [amount(limit.max.as_ref())?, above];
        Ok(Permitted {
            min: least.into_iter().flatten().reduce(f64::max),
            max: most.into_iter().flatten().reduce(f64::min),
        })
    }
}

const fn taking(how: How) -> Taking {
    match how {
        How::Straight | How::OverTheRounds => Taking::Jaws,
        How::SharpCorner | How::MetalOnly => Taking::Scale,
        How::Gauge | How::Scales | How::WorkedOut => Taking::Gauge,
    }
}

const fn kind(kind: TakenKind) -> ItemKind {
    match kind {
        TakenKind::Length => ItemKind::Length,
        TakenKind::Area => ItemKind::Area,
        TakenKind::Angle => ItemKind::Angle,
        TakenKind::Weight => ItemKind::Weight,
    }
}
