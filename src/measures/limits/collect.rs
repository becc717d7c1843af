//! The limits of a design: those of its dimensions, of its parts, and of its plates.

use crate::design::Amount;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimension;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Place;
use crate::design::Unresolved;
use crate::design::dimensions::Permitted;
use crate::design::error::MeasureFault;
use crate::design::file;
use crate::design::file::Measure;
use crate::design::file::Origin;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::measures::Shape;
use crate::measures::Taken;
use crate::measures::TakenKind;
use crate::measures::take;

/// One thing with limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The name of the dimension, or what is limited in words; on a mirror image with the name of that
    /// part behind it.
    pub name: String,
    /// The dimension that carries it; `None` for a limit of a part on something that is no dimension.
    pub dimension: Option<String>,
    /// The part that it is measured on; `None` for a dimension without a measure.
    pub part: Option<String>,
    /// How it is measured; `None` when the file does not say.
    pub measure: Option<Located<Measure>>,
    /// What its number counts.
    pub kind: TakenKind,
    /// The unit that it is shown in, if it is a length or an area.
    pub unit: LengthUnit,
    /// What is permitted.
    pub permitted: Permitted,
    /// Where it comes from, if the file says.
    pub origin: Option<Origin>,
    /// Remark: the clause.
    pub note: Option<String>,
    /// Its place in the design file.
    pub place: Place,
}

impl Limit {
    /// Its name without that of its part, for a page on that part alone.
    pub fn name_on_its_part(&self) -> &str {
        let behind = self.part.as_ref().map(|part| format!(" ({part})"));
        behind
            .and_then(|behind| self.name.strip_suffix(&behind))
            .unwrap_or(&self.name)
    }
}

/// The limits of a design, and what is wrong with them.
#[derive(Clone, Debug, Default)]
pub struct Limits {
    /// In the order of the file: dimensions, then parts.
    pub limits: Vec<Limit>,
    /// Limits that cannot be used: they name what is not there, or contradict themselves.
    pub findings: Vec<DesignError>,
}

/// The limits of a design's dimensions and parts; a mirror image has those of its original. Those of
/// plates are in [`plates`](crate::measures::plates).
pub fn limits(design: &Design) -> Limits {
    let mut found = Limits::default();
    for dimension in &design.dimensions {
        match of_dimension(design, dimension) {
            Ok(limit) => found.limits.extend(limit),
            Err(error) => found.findings.push(error),
        }
    }
    for part in &design.resolved.parts {
        let entry = design.file.part.get(&part.name);
        for limit in entry.iter().flat_map(|named| named.entry.limit.iter()) {
            match of_table(design, part, limit) {
                Ok(limit) => found.limits.push(limit),
                Err(Unresolved::Fault(error)) => found.findings.push(error),
                // it waits for a reading, which is told elsewhere
                Err(Unresolved::Open(_)) => {}
            }
        }
    }
    found.limits = with_other_hands(&design.resolved.parts, &found.limits);
    found
}

/// Every limit, and behind it the same on the mirror images of its part: the other hand is made to the
/// same rules. A limit of its own by the same name goes before the one it would inherit.
fn with_other_hands(parts: &[Part], written: &[Limit]) -> Vec<Limit> {
    let mut all = Vec::new();
    for limit in written {
        all.push(limit.clone());
        let hands = parts
            .iter()
            .filter(|part| part.mirror_of.is_some() && part.mirror_of == limit.part);
        for hand in hands {
            let is_its_own =
                |other: &Limit| other.name == limit.name && other.part.as_ref() == Some(&hand.name);
            if !written.iter().any(is_its_own) {
                all.push(Limit {
                    name: format!("{} ({})", limit.name, hand.name),
                    part: Some(hand.name.clone()),
                    ..limit.clone()
                });
            }
        }
    }
    all
}

/// The limit of a dimension: any that has bounds, and any that is measured on a part.
fn of_dimension(design: &Design, dimension: &Dimension) -> Result<Option<Limit>, DesignError> {
    let Some(kind) = TakenKind::of(dimension.kind) else {
        return Ok(None);
    };
    if !dimension.permitted.is_limited() && dimension.measure.is_none() {
        return Ok(None);
    }
    let part = part_of(design, dimension)?;
    // the class is the source of a general tolerance, whatever the size itself comes from
    let class = dimension.general.map(|general| general.class.name());
    let said = [dimension.note.as_deref(), class];
    let note: Vec<&str> = said.into_iter().flatten().collect();
    Ok(Some(Limit {
        name: dimension.name.clone(),
        dimension: Some(dimension.name.clone()),
        part: part.map(|part| part.name.clone()),
        measure: dimension.measure.clone(),
        kind,
        unit: dimension.unit,
        permitted: dimension.permitted,
        origin: class.is_none().then_some(dimension.origin),
        note: (!note.is_empty()).then(|| note.join("; ")),
        place: dimension.place,
    }))
}

/// The part that a dimension is measured on: the one it names, or the first it can be measured on that is
/// no mirror image.
fn part_of<'a>(design: &'a Design, dimension: &Dimension) -> Result<Option<&'a Part>, DesignError> {
    let parts = &design.resolved.parts;
    let Some(measure) = &dimension.measure else {
        return Ok(None);
    };
    if let Some(name) = &dimension.part {
        return Ok(parts.iter().find(|part| part.name == *name));
    }
    let mut fault = None;
    for part in parts.iter().filter(|part| part.mirror_of.is_none()) {
        match take(&Shape::nominal(part), measure, &design.dimensions) {
            Ok(_) | Err(Unresolved::Open(_)) => return Ok(Some(part)),
            Err(Unresolved::Fault(error)) => fault = fault.or(Some(error)),
        }
    }
    fault.map_or(Ok(None), Err)
}

fn of_table(
    design: &Design,
    part: &Part,
    written: &Located<file::Limit>,
) -> Result<Limit, Unresolved> {
    let limit = &written.value;
    let taken = take(&Shape::nominal(part), &limit.measure, &design.dimensions)?;
    let permitted = permitted(&design.dimensions, limit, &taken)?;
    let (name, place) = (limit.what.value.clone(), limit.what.place);
    let fault = match (permitted.min, permitted.max) {
        (None, None) => MeasureFault::NothingLimited { name: name.clone() },
        (Some(min), Some(max)) if min > max => MeasureFault::LimitsContradict {
            name: name.clone(),
            min: taken.kind.shown(min, design.unit()),
            max: taken.kind.shown(max, design.unit()),
        },
        _ => {
            return Ok(Limit {
                name,
                dimension: None,
                part: Some(part.name.clone()),
                measure: Some(limit.measure.clone()),
                kind: taken.kind,
                unit: design.unit(),
                permitted,
                origin: None,
                note: limit.note.as_ref().map(|note| note.value.clone()),
                place,
            });
        }
    };
    let help = match fault {
        MeasureFault::NothingLimited { .. } => "add `min = …`, `max = …` or `tol = …`",
        _ => "look up both limits in the rules",
    };
    Err(DesignError::new(fault, written.place)
        .with_help(help)
        .into())
}

/// What a limit permits.
fn permitted(
    dimensions: &Dimensions,
    limit: &file::Limit,
    taken: &Taken,
) -> Result<Permitted, Unresolved> {
    let kind = taken.kind.written();
    let amount = |amount: &Option<Amount>| {
        amount
            .as_ref()
            .map(|amount| dimensions.amount(amount, kind))
            .transpose()
    };
    let about = amount(&limit.value)?.unwrap_or(taken.value);
    let both = amount(&limit.tol)?;
    let one_is_said = limit.plus.is_some() || limit.minus.is_some();
    let left_out = one_is_said.then_some(0.0);
    let plus = both.or(amount(&limit.plus)?).or(left_out);
    let minus = both.or(amount(&limit.minus)?).or(left_out);
    let least = [amount(&limit.min)?, minus.map(|minus| about - minus)];
    let most = [amount(&limit.max)?, plus.map(|plus| about + plus)];
    Ok(Permitted {
        min: least.into_iter().flatten().reduce(f64::max),
        max: most.into_iter().flatten().reduce(f64::min),
    })
}
